package frame

import (
	"fmt"

	"github.com/fettle-tools/fettle/core"
	"github.com/fettle-tools/fettle/core/sdk"
)

// fineThreads are the unified fine threads by diameter in inches (ASME B1.1).
var fineThreads = []struct {
	diameter float64
	thread   string
}{{.25, "1/4-28"}, {.3125, "5/16-24"}, {.375, "3/8-24"}, {.4375, "7/16-20"}, {.5, "1/2-20"}, {.625, "5/8-18"}, {.75, "3/4-16"}}

// boltGrade is that of a fitted bolt in a frame (common practice, no source); its strength is by SAE J429.
const boltGrade = "5"

// fittedBolt says what bolt is equal to the frame's rivets, how hard it is drawn up and what it is turned with.
func fittedBolt(b *sdk.Bench) {
	t := at("frame-rivets")
	q, _, ok := b.Reading(t, "loose-rivets", "")
	v, known := b.Fact("rivet")
	if !ok || q.Value < 1 || !known {
		return
	}
	rivet, err := v.Quantity.In("in")
	if err != nil {
		return
	}
	for _, x := range fineThreads {
		if x.diameter < rivet.Value-1e-6 {
			continue
		}
		if words, ok := boltWords(x.thread); ok {
			b.AddFact(t, core.Fact{Name: "fitted-bolt", Value: core.Value{Kind: core.ValueWord, Word: words}, Source: "ASME B1.1, B18.2.1 and B18.2.2, SAE J429; torque common practice"})
		}
		return
	}
}

func boltWords(thread string) (string, bool) {
	x, err := sdk.ParseThread(thread)
	if err != nil {
		return "", false
	}
	torque, _, err1 := sdk.FastenerTorque(boltGrade, x, sdk.DryNut)
	proof, err2 := sdk.ProofLoad(boltGrade, x)
	s, err3 := sdk.SpannersFor(x.Diameter)
	if err1 != nil || err2 != nil || err3 != nil {
		return "", false
	}
	spanner := s.HeadName + " in spanner"
	if s.Differ() {
		spanner = fmt.Sprintf("%s in spanner on the head, %s in on the nut", s.HeadName, s.NutName)
	}
	return fmt.Sprintf("%s grade %s, bears %.0f lbf, %.0f lbf-ft dry, %s", thread, boltGrade, proof, torque, spanner), true
}
