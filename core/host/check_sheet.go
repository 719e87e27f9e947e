package host

import (
	"reflect"
	"slices"
	"strconv"
	"strings"

	"github.com/fettle-tools/fettle/core"
)

// servedPer are the words for what one payment of an operation serves.
var servedPer = []string{"job", "unit", "piece", "pair", "axle", "set"}

// checkSheet refuses a sheet that contradicts itself. A limit without bounds passes: it may hang on a fact that is
// not known, which the plugin names as a problem.
func checkSheet(name string, s core.Sheet, problems []core.Problem) error {
	var f faults
	if s.Subsystem != name {
		return core.Errorf(core.Invalid, adviceAuthor, "its sheet says it is %q", printable(s.Subsystem, 40))
	}
	f.finite("sheet", reflect.ValueOf(s))
	x := newIndex(s)
	seen := map[string]bool{}
	for i := range s.Parts {
		f.once(seen, "part "+s.Parts[i].ID)
		f.part(x, s.Parts[i])
	}
	for _, st := range s.Steps {
		f.once(seen, "step "+st.ID)
		if !strings.HasPrefix(st.ID, name+":") {
			f.add("step %s does not begin with %s:", st.ID, name)
		}
		f.hours("step "+st.ID+": strip_hours", st.StripHours)
		f.hours("step "+st.ID+": refit_hours", st.RefitHours)
		f.items("step "+st.ID, st.OneUse)
	}
	for _, set := range s.Sets {
		f.once(seen, "set "+set.ID)
		f.targets("set "+set.ID, x, set.Members)
		if set.SameKind == (set.AgreeOn != "") {
			f.add("set %s has not exactly one rule", set.ID)
		}
	}
	for _, o := range s.Operations {
		f.once(seen, "operation "+o.ID)
		f.operation(o, x.ops)
	}
	f.rules(x, seen, s)
	if s.OutlookWeight < 0 {
		f.add("outlook_weight is negative")
	}
	for _, p := range problems {
		f.problem(p)
	}
	return f.err("sheet")
}

func (f *faults) rules(x *index, seen map[string]bool, s core.Sheet) {
	for _, r := range s.NoReuse {
		f.once(seen, "no-reuse rule "+r.ID)
		p := x.parts[r.Part]
		if p == nil {
			f.add("no-reuse rule %s: no part %q", r.ID, r.Part)
		} else if r.Check != "" && p.Check(r.Check) == nil {
			f.add("no-reuse rule %s: %s has no check %q", r.ID, r.Part, r.Check)
		}
		if r.Trigger.Kind == core.ValueNone {
			f.add("no-reuse rule %s has no trigger", r.ID)
		}
		if slices.Contains(r.Allowed, core.Reuse) || slices.Contains(r.Allowed, "") {
			f.add("no-reuse rule %s allows %q", r.ID, r.Allowed)
		}
	}
	for _, h := range s.Hidden {
		f.once(seen, "register row "+h.ID)
		f.chance("register row "+h.ID+": the chance", h.Chance)
		f.targets("register row "+h.ID, x, h.Parts)
		for _, o := range h.Operations {
			if !x.ops[o] {
				f.add("register row %s: no operation %q", h.ID, o)
			}
		}
		if h.Times < 0 {
			f.add("register row %s: times is negative", h.ID)
		}
	}
}

func (f *faults) part(x *index, p core.Part) {
	place := "part " + p.ID
	if p.ID == "" || p.Count < 0 {
		f.add("%s: no id, or a negative count", place)
	}
	seen := map[string]bool{}
	for _, pos := range p.Positions {
		f.once(seen, place+"/"+pos)
	}
	for _, c := range p.Checks {
		f.once(seen, place+": check "+c.ID)
		if c.Kind == "" {
			f.add("%s: check %s has no kind", place, c.ID)
		}
		if c.Limit.Source == "" {
			f.add("%s: check %s has a limit without a source", place, c.ID)
		}
		if c.Minutes < 0 || c.CountWhenFitted < 0 {
			f.add("%s: check %s has a negative figure", place, c.ID)
		}
	}
	if p.Life != nil && (p.Life.Typical <= 0 || p.Life.Sigma < 0) {
		f.add("%s: a life of %v with a spread of %v", place, p.Life.Typical, p.Life.Sigma)
	}
	if len(p.Outlook) > 0 {
		f.states(place+": outlook", p.Outlook)
	}
	for _, s := range p.Outlook {
		if s.RegisterID != "" && !x.hidden[s.RegisterID] {
			f.add("%s: no register row %q", place, s.RegisterID)
		}
	}
}

// once wants a name only once.
func (f *faults) once(seen map[string]bool, name string) {
	if seen[name] {
		f.add("%s stands there twice", name)
	}
	seen[name] = true
}

func (f *faults) targets(place string, x *index, ts []core.Target) {
	for _, t := range ts {
		if !x.has(t) {
			f.add("%s: no part %s in its sheet", place, t)
		}
	}
}

// operation wants figures that are not negative and inclusions that exist.
func (f *faults) operation(o core.Operation, known map[string]bool) {
	place := "operation " + o.ID
	f.hours(place+": hours", o.Hours)
	f.hours(place+": lead_weeks", o.LeadWeeks)
	f.money(place+": outwork", o.Outwork)
	f.items(place, o.Items)
	if o.ServedPer != "" && !slices.Contains(servedPer, o.ServedPer) {
		f.add("%s is paid per %q", place, o.ServedPer)
	}
	for _, id := range o.Includes {
		if !known[id] {
			f.add("%s includes %q, which does not exist", place, id)
		}
		if id == o.ID {
			f.add("%s includes itself", place)
		}
	}
}

func (f *faults) items(place string, items []core.Item) {
	for _, i := range items {
		if i.Count < 0 {
			f.add("%s: a negative count of %s", place, i.Key)
		}
		f.money(place+": "+i.Key, i.TypicalEach)
	}
}

// hours wants 0 <= low <= likely <= high.
func (f *faults) hours(place string, r core.Range3) {
	switch {
	case r.Low < 0 || r.Likely < 0 || r.High < 0:
		f.add("%s is negative", place)
	case r.Low > r.Likely || r.Likely > r.High:
		f.add("%s falls from low to high", place)
	}
}

// money wants decimal amounts that are not negative, rising, in a currency that exists; or nothing at all.
func (f *faults) money(place string, m core.Money3) {
	if m == (core.Money3{}) {
		return
	}
	if m.Currency == "" || !core.ValidCurrency(m.Currency) {
		f.add("%s: no currency %q", place, m.Currency)
		return
	}
	last := 0.0
	for _, text := range []string{m.Low, m.Likely, m.High} {
		if text == "" && m.Likely != "" {
			text = m.Likely
		}
		if _, err := core.NewMoney(text, m.Currency); err != nil {
			f.add("%s: %q is no amount", place, text)
			return
		}
		x, err := strconv.ParseFloat(text, 64)
		switch {
		case err != nil || x < 0:
			f.add("%s: %s is negative money", place, text)
			return
		case x < last:
			f.add("%s falls from low to high", place)
			return
		}
		last = x
	}
}

// problem wants a severity and a sentence.
func (f *faults) problem(p core.Problem) {
	if p.Severity == "" || p.Summary == "" {
		f.add("a problem without severity or words")
	}
}
