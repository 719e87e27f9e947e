package main

import (
	"fmt"
	"io"
	"strings"

	"github.com/fettle-tools/fettle/core"
)

// chain is the way from a finding to a price for one part.
type chain struct {
	Place     core.Place         `json:"place"`
	Condition core.UnitCondition `json:"condition"`
	Choice    core.Choice        `json:"choice"`
	Findings  []core.Finding     `json:"findings"`
	Lines     []core.Line        `json:"lines"`
	Reserves  []core.Line        `json:"reserves"`
}

func chainOf(p core.Plan, c core.Choice) chain {
	ch := chain{Place: c.Place, Condition: conditionAt(p, c.Place), Choice: c}
	for _, f := range p.Findings {
		if f.Subsystem == c.Subsystem && f.Target == c.Target && (f.Unit == c.Unit || f.Unit == "") {
			ch.Findings = append(ch.Findings, f)
		}
	}
	for _, l := range p.WorkOrder.Lines {
		for _, pl := range l.Places {
			if pl != c.Place {
				continue
			}
			if l.Kind == core.LineReserve {
				ch.Reserves = append(ch.Reserves, l)
			} else {
				ch.Lines = append(ch.Lines, l)
			}
		}
	}
	return ch
}

// printWhy tells a part's story in about ten lines.
func printWhy(w io.Writer, ch chain) {
	c, cond := ch.Choice, ch.Condition
	name := cond.PartName
	if c.Position != "" {
		name += " " + c.Position
	}
	fmt.Fprintf(w, "%s (%s)\n", name, c.Place)
	t := newTable("", "")
	if len(ch.Findings) > 0 {
		var read []string
		for _, f := range ch.Findings {
			s := f.Check
			if f.Station != "" {
				s += " " + f.Station
			}
			read = append(read, s+" "+f.AsTyped)
		}
		t.add("found", strings.Join(read, "; "))
	} else {
		t.add("found", "nothing recorded yet")
	}
	grade := cond.Grade.String()
	if cond.Wear != nil {
		grade += fmt.Sprintf(", wear %.2f of the way to the limit", *cond.Wear)
	}
	if cond.PPast != nil && *cond.PPast > .05 && *cond.PPast < .95 {
		grade += fmt.Sprintf(", %.0f %% likely past it", 100**cond.PPast)
	}
	t.add("grade", grade)
	t.add("because", governing(c, cond).Text)
	if n := len(cond.Reasons) - 1; n > 0 {
		t.add("", fmt.Sprintf("and %d more checks: fettle why %s --json", n, c.Place))
	}
	choice := string(c.Kind)
	if c.Name != "" {
		choice += ": " + c.Name
	}
	t.add("choice", choice)
	for i, r := range newReasons(c, cond) {
		t.add(label(i, "decided by"), r)
	}
	if c.RunnerUp != nil && c.RunnerUp.RisksMore != nil {
		t.add("next best", fmt.Sprintf("%s would risk %s more within what may be spent", c.RunnerUp.Name, amount(*c.RunnerUp.RisksMore)))
	} else if c.RunnerUp != nil {
		t.add("next best", fmt.Sprintf("%s would cost %s more", c.RunnerUp.Name, amount(c.RunnerUp.CostsMore)))
	} else if c.Kind != core.Undecided {
		t.add("next best", "none: nothing else is open")
	}
	if c.FlipPrice != nil {
		t.add("turns at", fmt.Sprintf("%s %s for %s", amount(*c.FlipPrice), c.FlipPrice.CurrencyCode(), c.FlipOn))
	}
	if c.Shared != nil {
		t.add("done once", sharedWords(*c.Shared))
	}
	if len(c.Drags) > 0 {
		t.add("goes along", shortList(targets(c.Drags), 4)+": their labour is in this one's, in whole or in part")
	}
	if c.Later != nil && c.Kind != core.Reuse {
		t.add("left till later", amount(*c.Later)+" to open it again and replace it then")
	}
	for i, l := range ch.Lines {
		t.add(label(i, "price"), fmt.Sprintf("%s %s (from %s to %s)", amount(l.Amount), l.Name, amount(l.Low), amount(l.High)))
	}
	for i, l := range ch.Reserves {
		t.add(label(i, "held back"), fmt.Sprintf("%s %s, %.0f %% likely", amount(l.Amount), strings.TrimPrefix(l.Name, "Reserve: "), 100**l.Chance))
	}
	t.print(w, "  ", screen)
}

func label(i int, s string) string {
	if i == 0 {
		return s
	}
	return ""
}

// sharedWords says what is done once, and what that saves.
func sharedWords(s core.Shared) string {
	with := "with what is opened anyway"
	if s.WithName != "" {
		with = "with: " + s.WithName
	}
	return fmt.Sprintf("saves %s h %s (by itself %s h, here %s h more)", hoursShown(s.Saves()), with, hoursShown(s.Alone), hoursShown(s.Adds))
}

// newReasons are the choice's reasons beyond the condition's.
func newReasons(c core.Choice, cond core.UnitCondition) []string {
	var out []string
	for _, r := range c.Reasons {
		told := false
		for _, q := range cond.Reasons {
			told = told || q.Text == r.Text
		}
		if !told {
			out = append(out, r.Text)
		}
	}
	return out
}

// targets leaves the subsystem off places.
func targets(places []string) []string {
	out := make([]string, len(places))
	for i, p := range places {
		_, out[i], _ = strings.Cut(p, "/")
	}
	return out
}
