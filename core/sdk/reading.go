package sdk

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"github.com/fettle-tools/fettle/core"
)

// reading is one live finding of one check at one station: a number in the check's unit, or why there is none.
type reading struct {
	finding *core.Finding
	q       core.Quantity // counts, classes and pass (1) or fails (0) in the check's unit too
	notRead core.NotRead  // "" for a number
}

// look is all that was said of one part at one position.
type look struct {
	doc      *partDoc
	part     *core.Part
	target   core.Target
	limits   []core.Limit  // of each check
	slots    [][][]reading // by check and station; the last slot of a check is its value without a station
	missing  []*core.Finding
	supplied map[int]supply // derived values given by rules, by check
	r        *described
}

// supply is a value that rules worked out for a check.
type supply struct {
	q        core.Quantity
	findings []string
}

// looks makes an empty look for each target, with the sheet's limits.
func (r *described) looks() []*look {
	var ls []*look
	for i := range r.sheet.Parts {
		p := &r.sheet.Parts[i]
		for _, t := range p.Targets() {
			l := &look{doc: r.parts[i], part: p, target: t, r: r, supplied: map[int]supply{}}
			for j := range p.Checks {
				l.limits = append(l.limits, p.Checks[j].Limit)
				l.slots = append(l.slots, make([][]reading, len(p.Checks[j].Stations)+1))
			}
			ls = append(ls, l)
		}
	}
	return ls
}

// direct is the slot of a check's value without a station.
func (l *look) direct(check int) int { return len(l.part.Checks[check].Stations) }

// wanted lists the slots that must be read for a check to be read, for all kinds but derived.
func (l *look) wanted(check int) []int {
	n := len(l.part.Checks[check].Stations)
	if n == 0 {
		return []int{0}
	}
	s := make([]int, n)
	for i := range s {
		s[i] = i
	}
	return s
}

// numbers gives the readings of a slot that are numbers.
func (l *look) numbers(check, slot int) []reading {
	var rs []reading
	for _, x := range l.slots[check][slot] {
		if x.notRead == "" {
			rs = append(rs, x)
		}
	}
	return rs
}

// sortFindings puts findings into an order of their own, so that the order of arrival changes nothing.
func sortFindings(fs []core.Finding) []core.Finding {
	fs = slices.Clone(fs)
	slices.SortStableFunc(fs, func(a, b core.Finding) int {
		return cmp.Or(cmp.Compare(a.ID, b.ID), cmp.Compare(a.Target.Part, b.Target.Part), cmp.Compare(a.Target.Position, b.Target.Position),
			cmp.Compare(a.Check, b.Check), cmp.Compare(a.Station, b.Station), cmp.Compare(a.AsTyped, b.AsTyped), cmp.Compare(a.Value.String(), b.Value.String()))
	})
	return fs
}

// place sorts a finding to its look; what cannot be placed is a problem that names it.
func (r *described) place(ls []*look, f *core.Finding) {
	bad := func(check, next, format string, args ...any) {
		r.problem(core.Problem{Severity: core.SeverityError, Summary: fmt.Sprintf(format, args...), Next: next, FindingID: f.ID, Target: f.Target, Check: check,
			Detail: "the finding is kept and not used"})
	}
	p := r.sheet.Part(f.Target.Part)
	if p == nil {
		bad("", didYouMean(f.Target.Part, r.doc.partIDs()), "there is no part %q", f.Target.Part)
		return
	}
	i := slices.IndexFunc(ls, func(l *look) bool { return l.target == f.Target })
	if i < 0 {
		switch {
		case len(p.Positions) == 0:
			bad("", "leave the position out", "%s has no positions, %q is given", p.Name, f.Target.Position)
		case f.Target.Position == "":
			bad("", "say which: "+strings.Join(p.Positions, ", "), "%s: the position is not given", p.Name)
		default:
			bad("", didYouMean(f.Target.Position, p.Positions), "%s has no position %q", p.Name, f.Target.Position)
		}
		return
	}
	l := ls[i]
	if f.Value.Kind == core.ValueNotRead && f.Value.NotRead == core.PartMissing && (f.Check == "" || l.index(f.Check) >= 0) {
		l.missing = append(l.missing, f)
		return
	}
	c := l.index(f.Check)
	if c < 0 {
		bad("", didYouMean(f.Check, l.doc.checkIDs()), "%s has no check %q", p.Name, f.Check)
		return
	}
	check := &p.Checks[c]
	slots, next, why := l.slotsOf(c, f)
	if why != "" {
		bad(check.ID, next, "%s, %s: %s", l.name(), check.Name, why)
		return
	}
	x, next, why := readingOf(check, f)
	if why != "" {
		bad(check.ID, next, "%s, %s: %s", l.name(), check.Name, why)
		return
	}
	if x.notRead == "" && (check.Kind != core.Derived || f.Station == "") {
		r.plausible(l, check, x)
	}
	for _, s := range slots {
		l.slots[c][s] = append(l.slots[c][s], x)
	}
}

// plausible warns of a reading that can hardly be meant. It is used all the same.
func (r *described) plausible(l *look, c *core.Check, x reading) {
	if c.PlausibleLow == nil || core.LessOrEqual(*c.PlausibleLow, x.q.Value) && core.LessOrEqual(x.q.Value, *c.PlausibleHigh) {
		return
	}
	r.problem(core.Problem{Severity: core.SeverityWarning, FindingID: x.finding.ID, Target: l.target, Check: c.ID,
		Summary: fmt.Sprintf("%s, %s: %s is not plausible (expected %s to %s)", l.name(), c.Name, figure(x.q),
			core.FormatNumber(*c.PlausibleLow), figure(core.Quantity{Value: *c.PlausibleHigh, Unit: c.Unit})),
		Next: "check the point and the unit; if it is wrong, supersede it"})
}

// name is the part with its position, as people say it.
func (l *look) name() string {
	if l.target.Position == "" {
		return l.part.Name
	}
	return l.part.Name + " " + l.target.Position
}

// index finds a check by id; -1 if there is none.
func (l *look) index(check string) int {
	return slices.IndexFunc(l.part.Checks, func(c core.Check) bool { return c.ID == check })
}

// slotsOf tells which slots a finding fills. A reason for no reading without a station speaks of all stations.
func (l *look) slotsOf(c int, f *core.Finding) (slots []int, next, why string) {
	check := &l.part.Checks[c]
	switch i := slices.Index(check.Stations, f.Station); {
	case f.Station != "" && len(check.Stations) == 0:
		return nil, "leave the station out", fmt.Sprintf("it has no stations, %q is given", f.Station)
	case f.Station != "" && i < 0:
		return nil, didYouMean(f.Station, check.Stations), fmt.Sprintf("it has no station %q", f.Station)
	case f.Station != "":
		return []int{i}, "", ""
	case len(check.Stations) == 0, check.Kind == core.Derived && f.Value.Kind != core.ValueNotRead:
		return []int{l.direct(c)}, "", ""
	case f.Value.Kind == core.ValueNotRead:
		return l.wanted(c), "", ""
	}
	return nil, "say which: " + strings.Join(check.Stations, ", "), "the station is not given"
}

// valueKinds is how each kind of check is answered.
var valueKinds = map[core.CheckKind]struct {
	kind core.ValueKind
	want string
}{
	core.Measured: {core.ValueQuantity, "a size with its unit"},
	core.Derived:  {core.ValueQuantity, "a size with its unit"},
	core.Counted:  {core.ValueCount, "a count"},
	core.OneUse:   {core.ValueCount, "a count"},
	core.Judged:   {core.ValueClass, "a damage class from 0 to 3"},
	core.GoNoGo:   {core.ValuePass, "pass or fails"},
}

// readingOf turns a finding's value into a number in the check's unit.
func readingOf(c *core.Check, f *core.Finding) (x reading, next, why string) {
	v, want := f.Value, valueKinds[c.Kind]
	x = reading{finding: f, q: core.Quantity{Unit: c.Unit}}
	switch {
	case v.Kind == core.ValueNotRead:
		if !slices.Contains(core.NotReadWords, v.NotRead) {
			return x, "write one of: not measured, could not reach, missing, by eye, lost", fmt.Sprintf("%q is no reason for no reading", v.NotRead)
		}
		x.notRead = v.NotRead
		return x, "", ""
	case v.Kind == core.ValueNone:
		return x, `write the reading, or why there is none: "not measured", "could not reach", "missing"`, "a blank is not a reading"
	case v.Kind != want.kind:
		return x, "write " + want.want, fmt.Sprintf("%s is wanted, not %q", want.want, v.String())
	}
	switch v.Kind {
	case core.ValueQuantity:
		q, err := v.Quantity.In(c.Unit)
		if err != nil {
			return x, core.ErrorNext(err), err.Error()
		}
		if bad := math.IsNaN(q.Value) || math.IsInf(q.Value, 0) || math.IsNaN(q.Bound) || math.IsInf(q.Bound, 0) || q.Bound < 0; bad {
			return x, "write the reading again", "it is no number"
		}
		x.q = q
	case core.ValueCount:
		x.q.Value = float64(v.Count)
	case core.ValueClass:
		x.q.Value = float64(v.Class)
	case core.ValuePass:
		if v.Pass {
			x.q.Value = 1
		}
	}
	if x.q.Value < 0 && v.Kind != core.ValueQuantity || v.Kind == core.ValueClass && v.Class > 3 {
		return x, "write " + want.want, fmt.Sprintf("%s is not possible", v.String())
	}
	return x, "", ""
}
