package main

import (
	"fmt"
	"io"
	"math"
	"slices"
	"strings"

	"github.com/fettle-tools/fettle/core"
)

// planJSON is what plan --json prints: these names are held to by others.
type planJSON struct {
	Job        jobJSON              `json:"job"`
	Conditions []core.UnitCondition `json:"conditions"`
	Choices    []core.Choice        `json:"choices"`
	Budget     core.Budget          `json:"budget"`
	WorkOrder  core.WorkOrder       `json:"work_order"`
	NotSeen    []core.NotSeenItem   `json:"not_seen"`
	Problems   []core.Problem       `json:"problems"`
	Steps      []core.PlannedStep   `json:"steps"`
	Proof      core.Proof           `json:"proof"`
	OldPrices  []string             `json:"old_prices"`
	Within     *core.Within         `json:"within,omitempty"`
	Wait       *core.Wait           `json:"wait,omitempty"`
	Finish     *core.Finish         `json:"finish,omitempty"`
	Learned    *core.LearnedHere    `json:"learned,omitempty"` // of closed jobs; none where no job was closed
}

type jobJSON struct {
	core.Job
	Findings int `json:"findings"`
}

func planToJSON(p core.Plan) planJSON {
	for i := range p.Conditions {
		p.Conditions[i].Reasons = orEmpty(p.Conditions[i].Reasons)
	}
	for i := range p.Choices {
		p.Choices[i].Reasons = orEmpty(p.Choices[i].Reasons)
	}
	return planJSON{jobJSON{p.Job, len(p.Findings)}, orEmpty(p.Conditions), orEmpty(p.Choices), p.Budget, p.WorkOrder, orEmpty(p.NotSeen),
		orEmpty(p.Problems), orEmpty(p.Steps), p.Proof, orEmpty(p.OldPrices), p.Within, p.Wait, p.Finish,
		p.Learned}
}

func orEmpty[T any](xs []T) []T {
	if xs == nil {
		return []T{}
	}
	return xs
}

// printPlan writes the plan so that the first screen tells what matters: what is to be done, what it costs, what is not known.
func printPlan(w io.Writer, p core.Plan) {
	fmt.Fprintf(w, "%s  %s\n", p.Job.Number, p.Job.Title)
	fmt.Fprintf(w, "%s. %s\n", ownerLine(p), findingsLine(p))
	for _, s := range p.Sheets {
		fmt.Fprintf(w, "\n%s\n", strings.ToUpper(s.Title()))
		if s.Failed {
			para(w, "  ", "NOT ASSESSED: see the problems below. Nothing recorded is lost.")
			continue
		}
		printParts(w, p, s)
	}
	printNotSeen(w, p)
	printProblems(w, p.Problems)
	fmt.Fprintln(w)
	printMoney(w, p)
}

func ownerLine(p core.Plan) string {
	name := p.Job.Owner.Name
	if name == "" {
		name = "no owner named"
	}
	return "For " + name
}

func findingsLine(p core.Plan) string {
	return fmt.Sprintf("%d findings; %s", len(p.Findings), p.Job.Extent.Kind)
}

func printParts(w io.Writer, p core.Plan, s core.UnitSheet) {
	told := p.Tell(s)
	t := newTable("do", "found", "part, and why")
	for _, r := range told.Parts {
		name := r.Name
		if at := r.Positions(); len(at) > 0 {
			name += " " + strings.Join(at, ", ")
		}
		t.add(r.Do, r.Found, name+": "+r.Why)
	}
	if len(told.Parts) > 0 {
		t.print(w, "  ", screen)
	}
	fmt.Fprintf(w, "  reuse      %d more parts, seen and fit; %d one-use parts are always new\n", told.Reused, told.OneUse)
}

func printNotSeen(w io.Writer, p core.Plan) {
	if len(p.NotSeen) == 0 {
		return
	}
	fmt.Fprintf(w, "\nNOT SEEN YET\n")
	t := newTable("part", "readings", ">held back", "still to read")
	for _, n := range p.NotSeen {
		name := n.PartName
		if n.Position != "" {
			name += " " + n.Position
		}
		t.add(name, fmt.Sprintf("%d of %d", n.Taken, n.Needed), amount(n.Reserve), strings.Join(n.Checks, ", "))
	}
	t.print(w, "  ", screen)
}

// printProblems tells each problem once, with the parts that share it.
func printProblems(w io.Writer, ps []core.Problem) {
	if len(ps) == 0 {
		return
	}
	type group struct {
		p      core.Problem
		places []string
	}
	var groups []group
	for _, p := range ps {
		k := slices.IndexFunc(groups, func(g group) bool {
			return g.p.Summary == p.Summary && g.p.Next == p.Next && g.p.Subsystem == p.Subsystem
		})
		if k < 0 {
			k = len(groups)
			groups = append(groups, group{p: p})
		}
		if p.Target != (core.Target{}) {
			groups[k].places = append(groups[k].places, p.Target.String())
		}
	}
	fmt.Fprintf(w, "\nTO SETTLE\n")
	for _, g := range groups {
		where := g.p.Subsystem
		if where == "" {
			where = g.p.Unit
		}
		if n := len(g.places); n > 0 && n <= 4 {
			where += " " + strings.Join(g.places, ", ")
		} else if n > 4 {
			where += fmt.Sprintf(" %s and %d more", g.places[0], n-1)
		}
		if where = strings.TrimSpace(where); where != "" {
			where += ": "
		}
		para(w, "  ", fmt.Sprintf("%s: %s%s", g.p.Severity, where, g.p.Summary))
		if g.p.Next != "" {
			para(w, "      ", "next: "+g.p.Next)
		}
	}
}

func printMoney(w io.Writer, p core.Plan) {
	b := p.Budget
	fmt.Fprintf(w, "MONEY, %s before tax\n", b.Expected.CurrencyCode())
	t := newTable("", ">", "")
	if lacks := p.Lacks(); lacks != "" {
		t.add("MADE WITHOUT", "", lacks+": more than these sums. Which: price ask, and TO SETTLE in the plan")
	}
	t.add("expected", amount(b.Expected), "what the order's lines come to, reserves included")
	t.add("P10 to P90", near(b.P10)+" to "+near(b.P90), fmt.Sprintf("one in ten below, one in ten above; half under %s", near(b.P50)))
	t.add("contingency", amount(b.Contingency), "P80 less expected: the owner's money, drawn by change note alone")
	t.add("tax", amount(p.WorkOrder.Tax), "on its own, outside the range")
	t.add("total with tax", amount(p.WorkOrder.Total), fmt.Sprintf("%.0f %% of it before tax rests on typical prices nobody has asked", share(p)))
	if x := p.Within; x != nil {
		words := "kept to by the cheapest sound plan"
		switch {
		case !x.Kept:
			words = "not enough"
		case x.Left > 0:
			words = fmt.Sprintf("kept to by leaving %d parts that no life hangs on as they are", x.Left)
		}
		t.add("at most", amount(x.Most), fmt.Sprintf("%s; enough in %.0f of 100 such jobs; %s: %s", words, 100*x.Enough, p.Job.SayLeast(), amount(x.LeastSafe)))
	}
	if x := p.Wait; x != nil {
		words := fmt.Sprintf("no shorter wait is worth what it costs at %s a week", amount(x.Worth))
		if x.Weeks < x.Cheapest {
			words = fmt.Sprintf("%s dearer than the cheapest plan, risk counted in, which waits %s", amount(x.Costs), weeksShown(x.Cheapest))
			if x.Within {
				words = fmt.Sprintf("%s more of work expected to be done again than with the plan of least risk within the sum, which waits %s", amount(x.Costs), weeksShown(x.Cheapest))
			}
		}
		t.add("longest wait", weeksShown(x.Weeks), words)
	}
	if p.StripSpent > 0 {
		t.add("strip-down", core.FormatNumber(math.Round(p.StripSpent*10)/10)+" h", "done already, under its own agreement; in none of these sums")
	}
	t.print(w, "  ", screen)
	if len(b.Widest) > 0 {
		var names []string
		for _, x := range b.Widest[:min(3, len(b.Widest))] {
			names = append(names, fmt.Sprintf("%s (%.0f %%)", x.Name, 100*x.Share))
		}
		para(w, "  ", "What widens it most: "+strings.Join(names, "; "))
	}
	printLearnedHere(w, p.Learned, 3)
	if !p.Proof.Proven {
		words := "The choice is not proven cheapest: at best %s could be saved."
		if p.Proof.OfRisk {
			words = "The choice is not proven to risk the least within what may be spent: at best it could be %s less."
		}
		para(w, "  ", fmt.Sprintf(words, amount(gap(p.Proof))))
	}
}

func gap(p core.Proof) core.Money {
	m, err := p.Value.Sub(p.Bound)
	if err != nil {
		return p.Value
	}
	return m
}

func share(p core.Plan) float64 {
	total := core.Minor(p.WorkOrder.TotalBeforeTax)
	if total == 0 {
		return 0
	}
	return 100 * float64(core.Minor(p.WorkOrder.Typical)) / float64(total)
}
