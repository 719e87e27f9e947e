package paper

import (
	"strings"

	"github.com/fettle-tools/fettle/core"
)

// area is one subsystem of one unit, with all that the plan says of it, in the plan's order.
type area struct {
	Subsystem  string
	Unit       string
	Title      string
	Failed     bool // not assessed
	Groups     []group
	Conditions []core.UnitCondition
	Lines      []core.Line
	positions  map[string][]string // by part, as its sheet has them
}

// lines of a kind.
func (a area) lines(k core.LineKind) []core.Line {
	var out []core.Line
	for _, l := range a.Lines {
		if l.Kind == k {
			out = append(out, l)
		}
	}
	return out
}

// of gathers some of the area's parts as groups: the members that are wanted, by part and what becomes of it.
func (a area) of(want func(core.UnitCondition, core.Choice) bool) []group {
	var out []group
	for _, g := range a.Groups {
		part := group{Part: g.Part, PartName: g.PartName, All: g.All}
		conditions := byPlace(g.Conditions)
		for _, ch := range g.Choices {
			c, known := conditions[ch.Place]
			if !want(c, ch) {
				continue
			}
			part.Choices = append(part.Choices, ch)
			if known {
				part.Conditions = append(part.Conditions, c)
			}
		}
		if len(part.Choices) > 0 {
			out = append(out, part)
		}
	}
	return out
}

// at gathers those of some places.
func (a area) at(places []core.Place) []group {
	wanted := map[core.Place]bool{}
	for _, p := range places {
		wanted[p] = true
	}
	return a.of(func(_ core.UnitCondition, ch core.Choice) bool { return wanted[ch.Place] })
}

// group is the positions of one part that take the same remedy.
type group struct {
	Part       string
	PartName   string
	All        []string // every position that the part has
	Conditions []core.UnitCondition
	Choices    []core.Choice
}

// Name of the part with its positions: "Crankpins P1–P4".
func (g group) Name() string {
	var ps []string
	for _, c := range g.Choices {
		ps = append(ps, c.Position)
	}
	name, at := core.Capital(g.PartName), positions(ps)
	if len(g.Choices) > 1 {
		name = plural(name)
	}
	return name + position(at)
}

// Kind is what becomes of the group.
func (g group) Kind() core.RemedyKind { return g.Choices[0].Kind }

// Found says how the members were found; the positions are named where they differ.
func (g group) Found() string {
	var words []string
	at := map[string][]string{}
	for _, c := range g.Conditions {
		w := found(c)
		if at[w] == nil {
			words = append(words, w)
		}
		at[w] = append(at[w], c.Position)
	}
	if len(words) == 0 {
		return "nothing recorded"
	}
	if len(words) == 1 {
		return core.Capital(words[0])
	}
	var out []string
	for _, w := range words {
		out = append(out, positions(at[w])+": "+w)
	}
	return strings.Join(out, "; ")
}

// areas gathers the plan by subsystem and unit, in the order in which the plan first speaks of them.
func areas(p core.Plan) []area {
	var list []area
	index := map[[2]string]int{}
	at := func(subsystem, unit string) *area {
		k := [2]string{subsystem, unit}
		i, ok := index[k]
		if !ok {
			i = len(list)
			index[k] = i
			list = append(list, area{Subsystem: subsystem, Unit: unit, Title: title(p, subsystem, unit)})
		}
		return &list[i]
	}
	for _, s := range p.Sheets {
		a := at(s.Subsystem, s.Unit)
		a.Failed, a.positions = s.Failed, map[string][]string{}
		for _, part := range s.Sheet.Parts {
			a.positions[part.ID] = part.Positions
		}
	}
	once := usedOnce(p)
	seen := make([]core.UnitCondition, len(p.Conditions))
	for i, c := range p.Conditions {
		if once[[3]string{c.Subsystem, c.Unit, c.Part}] && c.Grade < core.NearLimit {
			c.Grade = core.GradeNone
		}
		seen[i] = c
		a := at(c.Subsystem, c.Unit)
		a.Conditions = append(a.Conditions, c)
	}
	for _, pr := range p.Problems {
		if pr.Subsystem == "" || pr.Severity != core.SeverityError || !strings.HasPrefix(pr.Summary, "not assessed") {
			continue
		}
		if a := at(pr.Subsystem, pr.Unit); len(a.Conditions) == 0 {
			a.Failed = true
		}
	}
	conditions := byPlace(seen)
	for _, c := range p.Choices {
		at(c.Subsystem, c.Unit).add(c, conditions)
	}
	for _, l := range p.WorkOrder.Lines {
		if l.Subsystem == "" || (l.Kind != core.LineWork && l.Kind != core.LineReserve) {
			continue
		}
		a := at(l.Subsystem, l.Unit)
		a.Lines = append(a.Lines, l)
	}
	return list
}

// usedOnce are the parts, by subsystem, unit and part, that are always renewed: a grade says nothing of them.
func usedOnce(p core.Plan) map[[3]string]bool {
	out := map[[3]string]bool{}
	for _, s := range p.Sheets {
		for _, part := range s.Sheet.Parts {
			out[[3]string{s.Subsystem, s.Unit, part.ID}] = part.OneUse
		}
	}
	return out
}

// add puts a choice with its kin: the same part, kind and remedy.
func (a *area) add(c core.Choice, conditions map[core.Place]core.UnitCondition) {
	i := 0
	for ; i < len(a.Groups); i++ {
		g := a.Groups[i].Choices[0]
		if g.Part == c.Part && g.Kind == c.Kind && g.Remedy == c.Remedy && pinReason(g) == pinReason(c) {
			break
		}
	}
	if i == len(a.Groups) {
		a.Groups = append(a.Groups, group{Part: c.Part, PartName: partName(c), All: a.positions[c.Part]})
	}
	g := &a.Groups[i]
	g.Choices = append(g.Choices, c)
	if cond, ok := conditions[c.Place]; ok {
		g.Conditions = append(g.Conditions, cond)
	}
}

// partName is the part's name in words; its id with spaces where the plan has none.
func partName(c core.Choice) string {
	if c.PartName != "" {
		return c.PartName
	}
	return strings.ReplaceAll(c.Part, "-", " ")
}

func pinReason(c core.Choice) string {
	if c.Pinned == nil {
		return ""
	}
	return c.Pinned.By + "\x00" + c.Pinned.Reason
}

func byPlace(cs []core.UnitCondition) map[core.Place]core.UnitCondition {
	m := make(map[core.Place]core.UnitCondition, len(cs))
	for _, c := range cs {
		m[c.Place] = c
	}
	return m
}

// title of a subsystem as its sheet has it, with the unit's where it has another name.
func title(p core.Plan, subsystem, unit string) string {
	t := core.Capital(strings.ReplaceAll(subsystem, "-", " "))
	for _, s := range p.Sheets {
		if s.Subsystem == subsystem && s.Unit == unit && s.Sheet.Title != "" {
			t = s.Sheet.Title
		}
	}
	units := 0
	for _, s := range p.Sheets {
		if s.Subsystem == subsystem {
			units++
		}
	}
	if units > 1 && unit != "" {
		t += " (" + unitTitle(p.Job, unit) + ")"
	}
	return t
}

// unitTitle is the name of a unit of the job; its id where there is none.
func unitTitle(j core.Job, id string) string {
	for _, u := range j.Units {
		if u.ID == id && u.Title != "" {
			return u.Title
		}
	}
	return id
}

// unseen says that a safety-critical part may not go back before it has been seen or measured again.
func unseen(c core.UnitCondition) bool {
	return c.SafetyCritical && (c.Grade == core.NotSeen || c.Grade == core.MeasureAgain)
}

// noChoice says that safety closed reuse for this part, whatever it costs, and why.
func noChoice(c core.UnitCondition, ch core.Choice) (why string, closed bool) {
	for _, r := range append(append([]core.Reason{}, c.Reasons...), ch.Reasons...) {
		if r.Rule != "" {
			return sourced(r), true
		}
	}
	if !c.SafetyCritical || !c.Grade.ClosesReuse(true) {
		return "", false
	}
	if len(c.Reasons) > 0 {
		return sourced(c.Reasons[0]), true
	}
	return found(c), true
}

// sourced is a reason with where its limit or rule comes from.
func sourced(r core.Reason) string {
	if r.Source == "" || strings.Contains(r.Text, r.Source) {
		return r.Text
	}
	return strings.TrimSuffix(r.Text, ".") + " (" + r.Source + ")"
}

// items of a line that are older than they should be, and those nobody has asked the price of.
func itemsWith(lines []core.Line, is func(core.OrderItem) bool) []string {
	var names []string
	for _, l := range lines {
		for _, it := range l.Items {
			if is(it) {
				names = append(names, it.Name)
			}
		}
	}
	return unique(names)
}
