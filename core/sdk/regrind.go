package sdk

import (
	"math"
	"slices"

	"github.com/fettle-tools/fettle/core"
)

// GrindRule is how a group of journals is reground. All sizes are diameters in one unit, inches in the defaults.
// Common practice; that all journals are ground if one is: TM 5-3805-262-34.
type GrindRule struct {
	Top       float64   // top limit of the standard size
	Allowance float64   // clean-up, on diameter
	Steps     []float64 // undersizes the grinder offers, smallest first
	Shells    []float64 // undersizes whose shells are to be had; nil: not asked yet, all count
	Finish    float64   // the finished size is Top - step, less at most this
	Close     float64   // a margin under this is close
	Near      float64   // a journal whose largest reading is this near a step may be ground to it already
	U         float64   // standard uncertainty of one reading
}

// MainsRule is the usual rule for journals of this top size in inches: .0020 clean-up, steps of .010 to .040,
// .0005 finish, close under .0010 (common practice, no source).
func MainsRule(top float64) GrindRule {
	return GrindRule{Top: top, Allowance: .0020, Steps: []float64{.010, .020, .030, .040}, Finish: .0005, Close: .0010, Near: .0010}
}

// Score is a groove in a journal: the reading beside it and how deep it is below the surface there.
type Score struct {
	Reading float64
	Depth   float64
}

// Journal is one journal of a group with what was read on it.
type Journal struct {
	Position string
	Planes   []Plane // front to rear; two as a rule, three if it is long or belled
	Scores   []Score
}

// JournalGrind is what one journal asks for. Sums over readings that were not taken are over those that were.
type JournalGrind struct {
	Position      string
	Min, Max      float64
	OutOfRound    float64
	Taper         float64
	Wear          float64 // Top - Min
	Required      float64 // Wear + OutOfRound + Allowance, or more for a score
	RequiredU     float64 // its standard uncertainty
	Alone         float64 // the step it would take alone; 0 if beyond the largest
	NearStep      float64 // a step it may be ground to already; 0 for none
	Taken, Needed int     // readings
	Scored        bool    // a score sets Required
	scoreLeft     float64 // what the deepest score would need, where the rule does not count it
}

// journalGrind works out one journal (common practice, no source): wear is mostly on one side, and with the true
// centre kept the wheel goes in twice the one-sided wear, which out-of-round about equals.
func (r GrindRule) journalGrind(j Journal) JournalGrind {
	g := JournalGrind{Position: j.Position, Needed: 2 * len(j.Planes)}
	xs := readings(j.Planes)
	if g.Taken = len(xs); g.Taken == 0 {
		return g
	}
	g.Min, g.Max = slices.Min(xs), slices.Max(xs)
	g.OutOfRound, _ = OutOfRound(j.Planes)
	g.Taper, _ = Taper(j.Planes)
	g.Wear = r.Top - g.Min
	g.Required = g.Wear + g.OutOfRound + r.Allowance
	g.RequiredU = r.requiredU(j.Planes)
	for _, s := range j.Scores {
		need := r.Top - s.Reading + 2*s.Depth + r.Allowance
		if s.Depth <= r.Top-s.Reading {
			g.scoreLeft = math.Max(g.scoreLeft, need)
			continue
		}
		if need > g.Required {
			g.Required, g.Scored = need, true
		}
	}
	g.Alone, _ = r.step(g.Required)
	for _, s := range r.Steps {
		if math.Abs(g.Max-(r.Top-s)) <= r.Near*(1+core.Slack) {
			g.NearStep = s
		}
	}
	return g
}

// requiredU is the standard uncertainty of Wear + OutOfRound.
func (r GrindRule) requiredU(planes []Plane) float64 {
	var in []Estimate
	for _, x := range readings(planes) {
		in = append(in, Estimate{Value: x, U: r.U})
	}
	return Combine(func(x []float64) float64 {
		moved, i := make([]Plane, len(planes)), 0
		for k, p := range planes {
			if p.V != nil {
				moved[k].V = &x[i]
				i++
			}
			if p.H != nil {
				moved[k].H = &x[i]
				i++
			}
		}
		oor, _ := OutOfRound(moved)
		return oor - slices.Min(x)
	}, in...).U
}

// step is the smallest step that removes req and has shells; the steps that would have done but have none are skipped.
func (r GrindRule) step(req float64) (step float64, skipped []float64) {
	for _, s := range r.Steps {
		if !core.LessOrEqual(req, s) {
			continue
		}
		if r.Shells != nil && !hasSize(r.Shells, s) {
			skipped = append(skipped, s)
			continue
		}
		return s, skipped
	}
	return 0, skipped
}

func hasSize(sizes []float64, s float64) bool {
	return slices.ContainsFunc(sizes, func(x float64) bool { return math.Abs(x-s) <= core.Slack })
}
