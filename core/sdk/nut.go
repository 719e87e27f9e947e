package sdk

import "github.com/fettle-tools/fettle/core"

// NutTorque is what a nut of a fine thread on a bolt in tension is drawn up to, lbf-in; 0 is not held.
type NutTorque struct {
	Low, High float64 // as recommended
	Most      float64 // never more
}

// nutTorques are those of FAA AC 43.13-1B table 7-1, tension nuts on fine threads, that were looked up.
var nutTorques = map[string]NutTorque{
	"10-32":   {20, 25, 40},
	"1/4-28":  {50, 70, 100},
	"5/16-24": {Most: 225},
	"3/8-24":  {Low: 160, High: 190},
}

// TensionNutTorque gives the torque of a nut by its thread as written, such as "1/4-28"; a thread not held is NotFound.
func TensionNutTorque(thread string) (NutTorque, error) {
	n, ok := nutTorques[thread]
	if !ok {
		return NutTorque{}, core.Errorf(core.NotFound, "look it up in AC 43.13-1B table 7-1, or work it out from the grade", "no nut torque is held for %s", thread)
	}
	return n, nil
}

// runOn is the least torque that a self-locking nut still takes to run on, lbf-in: FAA AC 43.13-1B table 7-2, by diameter in
// sixteenths of an inch, fine and coarse thread; 0 is not held.
var runOn = map[int]struct{ fine, coarse float64 }{7: {8, 8}, 8: {10, 10}, 10: {18, 20}, 12: {27, 27}}

// LeastRunOn gives the least torque, in lbf-in, that a self-locking nut has to take to run on if it is to be used again; under
// it the nut grips no more. Never for a joint of steering, brakes, wheels or springs: those nuts are new. A size not held is NotFound.
func LeastRunOn(t Thread) (float64, error) {
	n := int(t.Diameter*16 + .5)
	r, ok := runOn[n]
	if t.Metric() || !ok {
		return 0, core.Errorf(core.NotFound, "use a new nut", "no run-on torque is held for a nut of %s", core.FormatNumber(t.Diameter))
	}
	// Unified coarse threads of these sizes: 14, 13, 11 and 10 to the inch (ASME B1.1); finer is fine.
	if coarse := map[int]float64{7: 14, 8: 13, 10: 11, 12: 10}; t.PerInch > coarse[n] {
		return r.fine, nil
	}
	return r.coarse, nil
}
