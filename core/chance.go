package core

import (
	"math"
	"slices"
)

// Chances of hidden damage (model 4): history switches first, then what this job has shown.

// History factors and the cap (common practice, no source): a vehicle stored wet raises the rows marked "water" together; one that
// ran lately on good oil and light work lowers the rows marked "good-oil".
const (
	waterFactor   = 1.3
	goodOilFactor = 0.7
	chanceCap     = 0.95
	defaultKappa  = 4.0
)

// historyFactor multiplies a register row's chance by what the brief says of the vehicle's life.
func historyFactor(b Brief, keys []string) float64 {
	f := 1.0
	wet := b.Stored == "damp" || b.Stored == "outdoors" || b.Stored == "water"
	if wet && slices.Contains(keys, "water") {
		f *= waterFactor
	}
	if b.Ran == "within 2 years" && b.Worked != "hard" && slices.Contains(keys, "good-oil") {
		f *= goodOilFactor
	}
	return f
}

// outlook is what one unit of a subsystem has in store: the rows of its register with their chances by history, and what
// its seen parts have shown so far.
type outlook struct {
	rows        []Hidden
	chances     []float64 // by history, capped
	happened    []bool    // a part it speaks of was seen past its limit
	shape, rate float64   // M ~ Gamma(shape, rate)
}

// newOutlook works out the chances for one unit.
func newOutlook(b Brief, s UnitSheet) outlook {
	o := outlook{rows: s.Sheet.Hidden, chances: make([]float64, len(s.Sheet.Hidden)), happened: make([]bool, len(s.Sheet.Hidden))}
	for i, h := range o.rows {
		o.chances[i] = math.Min(chanceCap, h.Chance*historyFactor(b, h.HistoryKeys))
	}
	kappa := s.Sheet.OutlookWeight
	if kappa == 0 {
		kappa = defaultKappa
	}
	o.shape, o.rate = kappa, kappa
	shown := make([]bool, len(o.rows)) // a part that the row speaks of was seen: the row counts once, however many parts it speaks of
	for _, c := range s.Assessment.Conditions {
		part := s.Sheet.Part(c.Target.Part)
		if part == nil || part.OneUse || len(c.States) != 1 || c.ReadingsTaken == 0 {
			continue
		}
		past := c.Grade == PastLimit || c.Grade == Failed
		own := 0.0
		for _, st := range part.Outlook {
			if !st.Grade.ClosesReuse(false) {
				continue
			}
			if i := o.rowOf(st, c.Target); i >= 0 {
				shown[i], o.happened[i] = true, o.happened[i] || past
			} else {
				own += st.Chance
			}
		}
		o.rate += own
		if past && own > 0 {
			o.shape++
		}
	}
	for i := range o.rows {
		if shown[i] {
			o.rate += o.chances[i]
			if o.happened[i] {
				o.shape++
			}
		}
	}
	return o
}

func (o outlook) row(id string) int {
	return slices.IndexFunc(o.rows, func(h Hidden) bool { return id != "" && h.ID == id })
}

// rowOf is the row that a part's state hangs on: the one it names, or the one that speaks of that position.
func (o outlook) rowOf(s State, t Target) int {
	if i := o.row(s.RegisterID); i >= 0 {
		return i
	}
	return slices.IndexFunc(o.rows, func(h Hidden) bool { return slices.Contains(h.Parts, t) })
}

// multiplier is the mean of M.
func (o outlook) multiplier() float64 { return o.shape / o.rate }

// now is a chance after what this job has shown: min(.95, p M).
func (o outlook) now(p float64) float64 { return math.Min(chanceCap, p*o.multiplier()) }

// rowChance is a row's chance now: an event that a seen part has shown is as good as certain.
func (o outlook) rowChance(i int) float64 {
	if o.happened[i] {
		return chanceCap
	}
	return o.now(o.chances[i])
}
