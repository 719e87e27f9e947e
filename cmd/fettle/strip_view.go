package main

import (
	"context"
	"fmt"
	"io"
	"strings"

	"github.com/fettle-tools/fettle/core"
)

// stripJSON is what strip --json prints.
type stripJSON struct {
	Job    string           `json:"job"`
	State  string           `json:"state"`
	People int              `json:"people"` // hands present; 0: not said
	Next   []core.StripStep `json:"next"`
	Hands  []core.StripStep `json:"not_offered"` // they need more hands than are present
	Sum    core.StripSum    `json:"sum"`
	Needs  string           `json:"needs,omitempty"` // before anything comes off
}

// showStrip says what can be done next by the job's plan.
func (c *command) showStrip(ctx context.Context, s *shop, story core.Story) error {
	req, err := s.request(ctx, story.Job)
	if err != nil {
		return err
	}
	p, err := s.planner().Plan(ctx, req)
	if err != nil {
		return err
	}
	d := s.stripdown(req, p.Sheets, p.Steps, story)
	v := stripJSON{Job: story.Job.Number, State: story.Job.State, People: d.People, Next: orEmpty(d.Next), Hands: orEmpty(d.Hands), Sum: d.Sum, Needs: d.Needs}
	if c.asJSON() {
		return writeJSON(c.out, v)
	}
	c.printStrip(v)
	return nil
}

// stripdown is how far the strip-down of a job is, by the steps that its plan opens.
func (s *shop) stripdown(req core.PlanRequest, sheets []core.UnitSheet, planned []core.PlannedStep, story core.Story) core.Stripdown {
	steps := core.StripSteps(req, sheets, story)
	core.MarkPlanned(steps, planned)
	return core.StripdownOf(steps, s.settings().People, story.Needs(core.GateStrip, s.c.clock()))
}

func (c *command) printStrip(v stripJSON) {
	if v.Needs != "" {
		para(c.out, "", "Needed first: "+v.Needs)
		fmt.Fprintln(c.out)
	}
	printSteps(c.out, v.Next)
	for _, t := range v.Hands {
		para(c.out, "", fmt.Sprintf("NOT OFFERED  %s (%s) takes %d people, and %d are here", t.Name, t.Key, t.People, v.People))
	}
	sum := v.Sum
	words := fmt.Sprintf("%d of %d steps done", sum.Done, sum.All)
	if sum.Skipped > 0 {
		words += fmt.Sprintf(", %d skipped", sum.Skipped)
	}
	if sum.CameApart > 0 {
		words += fmt.Sprintf(", %d came apart", sum.CameApart)
	}
	if sum.Done > 0 {
		words += fmt.Sprintf("; %s h spent on them, %s h were likely", spent(sum.Spent), hoursShown(sum.LikelyDone))
	}
	words += fmt.Sprintf("; %s h likely for what is left", hoursShown(sum.LikelyLeft))
	fmt.Fprintln(c.out)
	para(c.out, "", words)
	if len(v.Next) > 0 {
		c.print(fmt.Sprintf("\n  %s strip %s %s --hours 1.5 --who NAME", c.self(), v.Job, v.Next[0].Key))
	}
}

// hoursShown writes hours to a tenth, without a nought behind.
func hoursShown(h float64) string { return strings.TrimSuffix(fmt.Sprintf("%.1f", h), ".0") }

// printSteps writes steps, each with what to mind under it.
func printSteps(w io.Writer, steps []core.StripStep) {
	for _, t := range steps {
		hands := "1 person"
		if t.People != 1 {
			hands = fmt.Sprintf("%d people", t.People)
		}
		is := ""
		if t.Is != "" {
			is = ": " + t.Is
		}
		r := t.StripHours
		para(w, "", t.Key+"  "+t.Name+is)
		para(w, "    ", fmt.Sprintf("%s to %s h, likely %s, %s", hoursShown(r.Low), hoursShown(r.High), hoursShown(r.Likely), hands))
		if t.Load != "" {
			para(w, "    ", liftWords(t))
		}
		if t.ConfirmHelp != "" {
			para(w, "    ", "confirm: "+t.ConfirmHelp)
		}
		if len(t.Lost) > 0 {
			para(w, "    ", "READ FIRST, it is lost with this step: "+strings.Join(t.Lost, "; "))
		}
		for _, x := range t.Cautions {
			para(w, "    ", "mind: "+x.Text)
		}
	}
}

// liftWords says what is lifted and what that asks of slings, stands and castors.
func liftWords(t core.StripStep) string {
	l := t.Lift
	if l == nil {
		return "lifts " + strings.ReplaceAll(t.Load, "-", " ") + ": " + t.Weight
	}
	return fmt.Sprintf("lifts %s, %s (%s): each of two sling legs %s at 60 degrees, %s at 45, %s at 45 if it may hang lop-sided; hoist %s or more; each castor of four %s",
		strings.ReplaceAll(t.Load, "-", " "), l.Weight, l.Source, l.Leg60, l.Leg45, l.LopSided45, l.HoistAtLeast, l.CastorEach)
}
