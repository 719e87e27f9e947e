package bottomend

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"github.com/fettle-tools/fettle/core"
	"github.com/fettle-tools/fettle/core/sdk"
)

// group is journals that take one size together.
type group struct {
	part   string // of the sheet
	name   string // in words
	set    string // the set that binds it
	key    string // what its remedies yield
	mark   string // fact: undersize by mark, as an alternative to a finding
	shells string // fact: undersizes whose shells are to be had
}

var groups = []group{
	{"main-journal", "mains", "M01", "main-undersize", "main_undersize", "main_shells"},
	{"crankpin", "pins", "M02", "pin-undersize", "pin_undersize", "pin_shells"},
}

// grindSource says where the rule of a group comes from.
const grindSource = "TM 5-3805-262-34 (if one journal is ground, all are); sums by common practice, no source"

// stations of the four diameters: front and rear plane, upright and across.
var stations = []string{"FV", "FH", "RV", "RH"}

// readings is what both looks of a rule give.
type readings interface {
	Reading(t core.Target, check, station string) (core.Quantity, string, bool)
	Fact(name string) (core.Value, bool)
}

// targets lists the journals of the group for these facts.
func (g group) targets(s *core.Sheet) []core.Target {
	if p := s.Part(g.part); p != nil {
		return p.Targets()
	}
	return nil
}

// rule is how the group is ground; ok is false if its nominal size is not known. Sizes are inches, the sheet's unit.
func (g group) rule(s *core.Sheet, r readings) (rule sdk.GrindRule, ok bool) {
	c := s.Check(g.part, "diameter")
	if c == nil || c.Limit.NewHigh == nil {
		return rule, false
	}
	rule = sdk.MainsRule(*c.Limit.NewHigh)
	if v, ok := r.Fact(g.shells); ok {
		rule.Shells = sizes(v.Word)
	}
	for _, t := range g.targets(s) {
		for _, st := range stations {
			if q, _, ok := r.Reading(t, "diameter", st); ok {
				rule.U = math.Max(rule.U, sdk.StandardUncertainty(q.Bound))
			}
		}
	}
	return rule, true
}

// sizes reads a list of sizes such as "0, .010, .020"; what is no number is passed over. nil: none given.
func sizes(text string) []float64 {
	var xs []float64
	for _, w := range strings.FieldsFunc(text, func(r rune) bool { return strings.ContainsRune(" ,;", r) }) {
		if x, err := strconv.ParseFloat(strings.TrimPrefix(w, "-"), 64); err == nil {
			xs = append(xs, x)
		}
	}
	return xs
}

// journals are the group's journals with what was read on them, in the order of their positions.
func (g group) journals(s *core.Sheet, r readings) []sdk.Journal {
	var js []sdk.Journal
	for _, t := range g.targets(s) {
		j := sdk.Journal{Position: t.Position, Planes: make([]sdk.Plane, 2)}
		depth, _, scored := r.Reading(t, "score-depth", "")
		for i, st := range stations {
			q, _, ok := r.Reading(t, "diameter", st)
			if !ok {
				continue
			}
			if plane := &j.Planes[i/2]; i%2 == 0 {
				plane.V = &q.Value
			} else {
				plane.H = &q.Value
			}
			if scored && depth.Value > 0 { // where along the journal is not known: it may be beside any reading
				j.Scores = append(j.Scores, sdk.Score{Reading: q.Value, Depth: depth.Value})
			}
		}
		js = append(js, j)
	}
	return js
}

// marked is the undersize that the group is marked at: by a finding on one of its journals, else by the fact; 0 for none.
// The findings are those that say so.
func (g group) marked(s *core.Sheet, r readings) (step float64, findings []string) {
	for _, t := range g.targets(s) {
		if q, id, ok := r.Reading(t, "present-undersize", ""); ok {
			step, findings = math.Max(step, math.Abs(q.Value)), append(findings, id)
		}
	}
	if len(findings) > 0 {
		return step, slices.DeleteFunc(findings, func(id string) bool { return id == "" })
	}
	if v, ok := r.Fact(g.mark); ok {
		if q, err := v.Quantity.In("in"); err == nil {
			return math.Abs(q.Value), nil
		}
	}
	return 0, nil
}

// yield writes a step as the group's remedies yield it: "0", ".010".
func yield(step float64) string {
	if step == 0 {
		return "0"
	}
	return strings.TrimPrefix(sdk.Undersize(step), "-")
}

// regrindID is the id of the remedy that grinds to a step.
func regrindID(step float64) string { return fmt.Sprintf("regrind-%03.0f", step*1000) }
