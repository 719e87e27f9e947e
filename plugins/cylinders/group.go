package cylinders

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"github.com/fettle-tools/fettle/core"
	"github.com/fettle-tools/fettle/core/sdk"
)

// key is what the remedies of bores and pistons yield, and what their set agrees on.
const key = "bore-oversize"

// boreSet is the set that binds bores and pistons.
const boreSet = "M04"

// stations of the six diameters: top, middle and bottom, across the thrust faces and along the engine.
var stations = []string{"TT", "TA", "MT", "MA", "BT", "BA"}

// readings is what both looks of a rule give.
type readings interface {
	Reading(t core.Target, check, station string) (core.Quantity, string, bool)
	Fact(name string) (core.Value, bool)
}

// targets lists the positions of a part for these facts.
func targets(s *core.Sheet, part string) []core.Target {
	if p := s.Part(part); p != nil {
		return p.Targets()
	}
	return nil
}

// at is another part at the same cylinder.
func at(part string, t core.Target) core.Target { return core.Target{Part: part, Position: t.Position} }

// size is a fact in inches.
func size(r readings, name string) (in float64, ok bool) {
	v, ok := r.Fact(name)
	if !ok {
		return 0, false
	}
	q, err := v.Quantity.In("in")
	return q.Value, err == nil
}

// blockRule is how the block is bored; ok is false if its nominal size is not known. Sizes are inches, the sheet's unit.
func blockRule(s *core.Sheet, r readings) (rule sdk.ReboreRule, ok bool) {
	standard, ok := size(r, "B")
	if !ok {
		return rule, false
	}
	rule = sdk.BoresRule(standard)
	if c := s.Check("bore", "wall-thickness"); c != nil && c.Limit.WearLow != nil {
		rule.LeastWall = *c.Limit.WearLow
	}
	if v, ok := r.Fact("piston_sizes"); ok {
		rule.Pistons = sizes(v.Word)
	}
	for _, t := range targets(s, "bore") {
		for _, st := range stations {
			if q, _, ok := r.Reading(t, "over-standard", st); ok {
				rule.U = math.Max(rule.U, sdk.StandardUncertainty(q.Bound))
			}
		}
	}
	return rule, true
}

// sizes reads a list of sizes such as "0, .020, .030"; what is no number is passed over. nil: none given.
func sizes(text string) []float64 {
	var xs []float64
	for _, w := range strings.FieldsFunc(text, func(r rune) bool { return strings.ContainsRune(" ,;", r) }) {
		if x, err := strconv.ParseFloat(strings.TrimPrefix(w, "+"), 64); err == nil {
			xs = append(xs, x)
		}
	}
	return xs
}

// bores are the cylinders with what was read of them, in the order of their positions.
func bores(s *core.Sheet, r readings) []sdk.Bore {
	var bs []sdk.Bore
	for _, t := range targets(s, "bore") {
		b := sdk.Bore{Position: t.Position, Planes: make([]sdk.Plane, 3)}
		for i, st := range stations {
			q, _, ok := r.Reading(t, "over-standard", st)
			if !ok {
				continue
			}
			if plane := &b.Planes[i/2]; i%2 == 0 {
				plane.V = &q.Value
			} else {
				plane.H = &q.Value
			}
		}
		if wall, _, ok := r.Reading(t, "wall-thickness", ""); ok {
			b.Wall = &wall.Value
		}
		if depth, _, ok := r.Reading(at("bore-surface", t), "pit-depth", ""); ok && depth.Value > 0 {
			pit := sdk.Pit{Depth: depth.Value}
			if beside, _, ok := r.Reading(at("bore-surface", t), "pit-diameter", ""); ok {
				pit.Reading = &beside.Value
			}
			b.Pits = append(b.Pits, pit)
		}
		bs = append(bs, b)
	}
	return bs
}

// marked is the oversize that the block is marked at: by a finding on one of its bores, else by the fact; 0 for none.
func marked(s *core.Sheet, r readings) (step float64) {
	said := false
	for _, t := range targets(s, "bore") {
		if q, _, ok := r.Reading(t, "present-oversize", ""); ok {
			step, said = math.Max(step, math.Abs(q.Value)), true
		}
	}
	if said {
		return step
	}
	over, _ := size(r, "bore_oversize")
	return math.Abs(over)
}

// yield writes a step as the remedies yield it: "0", ".020".
func yield(step float64) string {
	if step == 0 {
		return "0"
	}
	return strings.TrimPrefix(sdk.Oversize(step), "+")
}

// stepID is the id of a remedy that goes to a step: "rebore-020".
func stepID(what string, step float64) string { return fmt.Sprintf("%s-%03.0f", what, step*1000) }

// inches writes a size as the trade does, without the noise of its sum: ".0232 in".
func inches(v float64) string {
	return strings.Replace(strings.TrimRight(fmt.Sprintf("%.5f", v), "0"), "0.", ".", 1) + " in"
}

// judged is what the reading of a check without stations says; ok is false if there is none.
func judged(b *sdk.Bench, t core.Target, check string) (j sdk.Judgement, ok bool) {
	q, _, read := b.Reading(t, check, "")
	c := b.Sheet.Check(t.Part, check)
	l, limited := b.Limit(t, check)
	if !read || c == nil || !limited {
		return j, false
	}
	return sdk.Judge(q.Value, sdk.StandardUncertainty(q.Bound), l, c.Kind, c.TwoSided), true
}

// condemned reports that a reading closes reuse of its part by itself.
func condemned(b *sdk.Bench, t core.Target, check string) bool {
	j, ok := judged(b, t, check)
	return ok && j.Grade >= core.TooTight && j.Grade != core.MeasureAgain
}

// shut closes a remedy if there is one that is open as things stand or in some state.
func shut(b *sdk.Bench, t core.Target, remedy string, why core.Reason) {
	r, c := b.Remedy(t, remedy), b.Condition(t)
	if r == nil || c == nil {
		return
	}
	if r.Feasible || slices.ContainsFunc(c.States, func(s core.State) bool { return slices.Contains(s.Remedies, remedy) }) {
		b.Close(t, remedy, why)
	}
}
