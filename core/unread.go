package core

import (
	"slices"
	"strings"
)

// Unread is a check of one part that nobody has answered.
type Unread struct {
	Place
	PartName string   `json:"part_name"`
	Check    string   `json:"check"`
	Name     string   `json:"name"`                 // of the check
	Put      []string `json:"supersedes,omitempty"` // findings that only put it off: "not measured"
}

// Lost is the finding that the reading was never taken and now never can be.
func (u Unread) Lost(by string) Finding {
	return Finding{Subsystem: u.Subsystem, Unit: u.Unit, Target: u.Target, Check: u.Check, By: by, AsTyped: string(Lost),
		Value: Value{Kind: ValueNotRead, NotRead: Lost}, Supersedes: u.Put}
}

// Gone reports whether a step that destroys the reading is done, or came done: it can never be taken now.
func (u Unread) Gone(steps []StripStep) bool {
	id := u.Subsystem + "/" + u.Part + "/" + u.Check
	return slices.ContainsFunc(steps, func(t StripStep) bool {
		_, position, _ := strings.Cut(t.ID, "/")
		return (t.Is == StepIsDone || t.Is == StepCameApart) && slices.Contains(t.Destroys, id) && (t.Unit == "" || t.Unit == u.Unit) &&
			(position == "" || u.Position == "" || position == u.Position)
	})
}

// UnreadBeforeStrip lists the checks that can only be read before strip-down and are not answered, of the sheets that lie in the job's extent,
// in the sheets' order.
func UnreadBeforeStrip(job Job, sheets []UnitSheet, findings []Finding) []Unread {
	var out []Unread
	for _, us := range sheets {
		if !inExtent(job, us) {
			continue
		}
		for _, p := range us.Sheet.Parts {
			for _, t := range p.Targets() {
				for _, c := range p.Checks {
					if u, open := us.unread(p, t, c, findings); open && c.BeforeStrip {
						out = append(out, u)
					}
				}
			}
		}
	}
	return out
}

// InExtent gives those of the sheets that lie in the job's extent.
func InExtent(job Job, sheets []UnitSheet) []UnitSheet {
	return slices.DeleteFunc(slices.Clone(sheets), func(us UnitSheet) bool { return !inExtent(job, us) })
}

// inExtent reports whether a sheet is of a unit that the job works on and opens.
func inExtent(job Job, us UnitSheet) bool {
	i := slices.IndexFunc(unitsOf(job, us.Sheet.UnitKind), func(u Unit) bool { return u.ID == us.Unit })
	return i >= 0 && job.Extent.includes(us.Subsystem, unitsOf(job, us.Sheet.UnitKind)[i])
}

// unread reports whether a check of a part is unanswered. What is worked out from other checks is not read itself; a part that is missing
// has nothing to read; "not measured" only puts it off.
func (us UnitSheet) unread(p Part, t Target, c Check, findings []Finding) (Unread, bool) {
	u := Unread{Place: Place{us.Subsystem, us.Unit, t}, PartName: p.Name, Check: c.ID, Name: c.Name}
	if c.Kind == OneUse || c.Kind == Derived && len(c.Stations) == 0 {
		return u, false
	}
	for _, f := range findings {
		if f.Subsystem != us.Subsystem || f.Unit != "" && f.Unit != us.Unit || f.Target != t {
			continue
		}
		not := f.Value.NotRead
		switch {
		case f.Value.Kind == ValueNotRead && not == PartMissing:
			return u, false
		case f.Check != c.ID || f.Value.Kind == ValueNone:
		case f.Value.Kind == ValueNotRead && not == NotMeasured:
			u.Put = append(u.Put, f.ID)
		default:
			return u, false
		}
	}
	return u, true
}

// aboutToBeLost lists the readings that a step destroys and that nobody has taken. A step at a position destroys those of that position.
func aboutToBeLost(step Step, unit string, sheets []UnitSheet, findings []Finding) []Unread {
	_, position, _ := strings.Cut(step.ID, "/")
	var out []Unread
	for _, id := range step.Destroys {
		path := strings.Split(id, "/")
		if len(path) != 3 {
			continue
		}
		us := sheetAt(sheets, path[0], unit)
		if us == nil {
			continue
		}
		part := us.Sheet.Part(path[1])
		if part == nil || part.Check(path[2]) == nil {
			continue
		}
		for _, t := range part.Targets() {
			if position != "" && t.Position != position && slices.Contains(part.Positions, position) {
				continue
			}
			if u, open := us.unread(*part, t, *part.Check(path[2]), findings); open {
				out = append(out, u)
			}
		}
	}
	return out
}

// sheetAt finds a subsystem's sheet for a unit, or for the first.
func sheetAt(sheets []UnitSheet, subsystem, unit string) *UnitSheet {
	first := -1
	for i := range sheets {
		if sheets[i].Subsystem != subsystem {
			continue
		}
		if sheets[i].Unit == unit {
			return &sheets[i]
		}
		if first < 0 {
			first = i
		}
	}
	if first < 0 {
		return nil
	}
	return &sheets[first]
}

// ReadingNames names unread checks for a person: a check of one part at several positions is named once.
func ReadingNames(list []Unread) []string {
	var names []string
	for _, same := range SameReadings(list) {
		names = append(names, ReadingName(same))
	}
	return names
}

// SameReadings puts the unread checks of one part at several positions together, in the order of the first of each.
func SameReadings(list []Unread) (groups [][]Unread) {
	type reading struct{ part, check, unit string }
	at := map[reading]int{}
	for _, u := range list {
		r := reading{u.PartName, u.Name, u.Unit}
		i, seen := at[r]
		if !seen {
			i = len(groups)
			at[r], groups = i, append(groups, nil)
		}
		groups[i] = append(groups[i], u)
	}
	return groups
}

// ReadingName names one check of a part at the positions where it is unread: "Swivel pin LF, RF: looseness".
func ReadingName(same []Unread) string {
	var positions []string
	for _, u := range same {
		positions = append(positions, u.Position)
	}
	return strings.TrimSpace(same[0].PartName+" "+strings.Join(positions, ", ")) + ": " + same[0].Name
}
