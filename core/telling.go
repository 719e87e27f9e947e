package core

import (
	"fmt"
	"math"
	"slices"
	"strings"
)

// ToldPart is a line of what becomes of a subsystem's parts: positions of a part that were found and decided alike are one.
type ToldPart struct {
	Name    string   // "Crankpin"
	Found   string   // its grade in words; "not seen 2/7" where readings are missing
	Do      string   // the kind of remedy; ", pinned" after it where it is
	Why     string   // one clause; where positions differ, of the worst, which it names
	Choices []Choice // one a position, at least one
	at      string   // the position whose reason it is
	wear    *float64 // its wear, if that is known
	differ  bool     // the positions have reasons of their own
}

// Positions are those of the part that the line tells of; none for a part that has none.
func (t ToldPart) Positions() []string {
	var out []string
	for _, c := range t.Choices {
		if c.Position != "" {
			out = append(out, c.Position)
		}
	}
	return out
}

// Told is what becomes of a subsystem's parts.
type Told struct {
	Parts  []ToldPart // not simply used again, in the plan's order
	Reused int        // seen, fit and used again
	OneUse int        // always new
}

// Tell tells what becomes of the parts of a sheet.
func (p Plan) Tell(s UnitSheet) Told {
	conditions := map[Place]UnitCondition{}
	for _, c := range p.Conditions {
		conditions[c.Place] = c
	}
	var t Told
	for _, c := range p.Choices {
		if c.Subsystem != s.Subsystem || c.Unit != s.Unit {
			continue
		}
		cond := conditions[c.Place]
		part := s.Sheet.Part(c.Part)
		switch {
		case part != nil && part.OneUse && cond.Grade != Missing:
			t.OneUse++
		case c.Kind == Reuse && (cond.Grade == WithinNew || cond.Grade == WornFit):
			t.Reused++
		default:
			t.add(c, cond)
		}
	}
	return t
}

func (t *Told) add(c Choice, cond UnitCondition) {
	r := ToldPart{Name: c.PartName, Found: cond.Grade.String(), Do: string(c.Kind), Why: cond.Short(c), at: c.Position, wear: cond.Wear}
	if cond.Grade == NotSeen {
		r.Found = fmt.Sprintf("not seen %d/%d", cond.ReadingsTaken, cond.ReadingsNeeded)
	}
	if c.Pinned != nil {
		r.Do += ", pinned"
	}
	k := slices.IndexFunc(t.Parts, func(x ToldPart) bool { return x.Name == r.Name && x.Found == r.Found && x.Do == r.Do })
	if k < 0 {
		k, t.Parts = len(t.Parts), append(t.Parts, r)
	}
	t.Parts[k].Choices = append(t.Parts[k].Choices, c)
	t.Parts[k].outdo(r)
}

// outdo takes the reason of another position, if that is worn more. Reasons that differ name their position.
func (t *ToldPart) outdo(r ToldPart) {
	named := func(x ToldPart) string {
		if x.wear != nil {
			return "worst is " + x.at + ": " + x.Why
		}
		return x.at + ": " + x.Why
	}
	if r.at == t.at || !t.differ && r.Why == t.Why {
		return
	}
	if !t.differ {
		t.differ, t.Why = true, named(*t)
	}
	if r.wear != nil && (t.wear == nil || *r.wear > *t.wear) {
		t.at, t.wear, t.Why = r.at, r.wear, named(r)
	}
}

// Condition is that of a place; an empty one if the plan has none.
func (p Plan) Condition(place Place) UnitCondition {
	for _, c := range p.Conditions {
		if c.Place == place {
			return c
		}
	}
	return UnitCondition{}
}

// Short is one clause: why a fit part is not reused, else what its governing check found, without the source and the grade.
func (c UnitCondition) Short(of Choice) string {
	own := of.OwnReasons(c)
	switch {
	case of.Kind == Undecided && len(of.Reasons) > 0:
		return strings.Join(own, "; ")
	case of.Kind != Undecided && !c.Grade.ClosesReuse(c.SafetyCritical) && len(own) > 0:
		return own[len(own)-1]
	}
	r := c.Governing(of)
	s, _, _ := strings.Cut(r.Text, ": "+c.Grade.String()) // the grade and the source stand elsewhere
	return strings.Replace(s, " ("+r.Source+")", "", 1)
}

// Governing is the reason that the condition hangs on; the choice's first where no check governs.
func (c UnitCondition) Governing(of Choice) Reason {
	for _, r := range c.Reasons {
		if r.Check == c.GoverningCheck && r.Text != "" {
			return r
		}
	}
	if len(of.Reasons) > 0 {
		return of.Reasons[0]
	}
	return Reason{}
}

// OwnReasons are the choice's reasons beyond those of the condition.
func (c Choice) OwnReasons(of UnitCondition) []string {
	var out []string
	for _, r := range c.Reasons {
		if !slices.ContainsFunc(of.Reasons, func(q Reason) bool { return q.Text == r.Text }) {
			out = append(out, r.Text)
		}
	}
	return out
}

// Chain is the way from a finding to a price for one part.
type Chain struct {
	Place     Place         `json:"place"`
	Condition UnitCondition `json:"condition"`
	Choice    Choice        `json:"choice"`
	Findings  []Finding     `json:"findings"`
	Lines     []Line        `json:"lines"`
	Reserves  []Line        `json:"reserves"`
}

// Chain gathers what the plan says of a part that it has chosen for.
func (p Plan) Chain(c Choice) Chain {
	ch := Chain{Place: c.Place, Condition: p.Condition(c.Place), Choice: c}
	for _, f := range p.Findings {
		if f.Subsystem == c.Subsystem && f.Target == c.Target && (f.Unit == c.Unit || f.Unit == "") {
			ch.Findings = append(ch.Findings, f)
		}
	}
	for _, l := range p.WorkOrder.Lines {
		switch {
		case !slices.Contains(l.Places, c.Place):
		case l.Kind == LineReserve:
			ch.Reserves = append(ch.Reserves, l)
		default:
			ch.Lines = append(ch.Lines, l)
		}
	}
	return ch
}

// Grade is the part's in words, with how far it is worn and how likely past its limit where that is open.
func (ch Chain) Grade() string {
	cond := ch.Condition
	grade := cond.Grade.String()
	if cond.Wear != nil && *cond.Wear >= 0 { // below, it is better than new by so much: no wear
		grade += fmt.Sprintf(", wear %.2f of the way to the limit", *cond.Wear)
	}
	if cond.PPast != nil && *cond.PPast > .05 && *cond.PPast < .95 {
		grade += fmt.Sprintf(", %.0f %% likely past it", 100**cond.PPast)
	}
	return grade
}

// Chosen is the choice in words: "rebuild: Main journals reground".
func (ch Chain) Chosen() string {
	switch {
	case ch.Choice.Name == "":
		return string(ch.Choice.Kind)
	case ch.Choice.Kind == LeftAsIs:
		return ch.Choice.Name // it says so itself
	}
	return string(ch.Choice.Kind) + ": " + ch.Choice.Name
}

// Dragged are the targets of the parts that go along, their subsystem left off.
func (ch Chain) Dragged() []string {
	out := make([]string, len(ch.Choice.Drags))
	for i, p := range ch.Choice.Drags {
		_, out[i], _ = strings.Cut(p, "/")
	}
	return out
}

// Words say what is done once, and what that saves.
func (s Shared) Words() string {
	with := "with what is opened anyway"
	if s.WithName != "" {
		with = "with: " + s.WithName
	}
	return fmt.Sprintf("saves %s h %s (by itself %s h, here %s h more)", tenth(s.Saves()), with, tenth(s.Alone), tenth(s.Adds))
}

// tenth writes hours to a tenth.
func tenth(h float64) string { return FormatNumber(math.Round(h*10) / 10) }

// PinsOpen are the remedies that a pin may fix on a part: feasible, and open in every state that it may be in. Safety closes some for good.
func (s UnitSheet) PinsOpen(t Target) []Remedy {
	i := slices.IndexFunc(s.Assessment.Conditions, func(c Condition) bool { return c.Target == t })
	if i < 0 {
		return nil
	}
	var open []Remedy
	for _, r := range s.Assessment.Remedies {
		closed := slices.ContainsFunc(s.Assessment.Conditions[i].States, func(st State) bool { return !slices.Contains(st.Remedies, r.ID) })
		if r.Target == t && r.Feasible && !closed {
			open = append(open, r)
		}
	}
	return open
}

// SheetOf is the sheet of a place; nil if the plan has none.
func (p Plan) SheetOf(place Place) *UnitSheet {
	return find(p.Sheets, func(s UnitSheet) bool { return s.Subsystem == place.Subsystem && s.Unit == place.Unit })
}

// Title is the subsystem as its sheet calls it, with the unit where it is not named after it.
func (s UnitSheet) Title() string {
	t := s.Sheet.Title
	if t == "" {
		t = s.Subsystem
	}
	if s.Unit != "" && s.Unit != s.Subsystem {
		t += " (" + s.Unit + ")"
	}
	return t
}
