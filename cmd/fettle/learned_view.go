package main

import (
	"cmp"
	"fmt"
	"io"
	"math"
	"slices"
	"strings"

	"github.com/fettle-tools/fettle/core"
)

// jobCount writes how many closed jobs there are.
func jobCount(n int) string {
	if n == 1 {
		return "1 closed job"
	}
	return fmt.Sprintf("%d closed jobs", n)
}

func percent(p float64) string { return fmt.Sprintf("%.0f %%", 100*p) }

// ratioWords tells a labour ratio with the count behind it.
func ratioWords(r core.RatioLearned) string {
	have := "have"
	if r.None == 1 {
		have = "has"
	}
	switch {
	case r.Jobs == 0:
		return fmt.Sprintf("labour ratio 1, the usual: %s %s no hours to go by", jobCount(r.None), have)
	case r.None > 0:
		return fmt.Sprintf("labour ratio %.2f from %s; %d more %s no hours to go by", r.Median, jobCount(r.Jobs), r.None, have)
	}
	return fmt.Sprintf("labour ratio %.2f from %s", r.Median, jobCount(r.Jobs))
}

// rowWords tells a row's chance with the counts behind it.
func rowWords(r core.RowHere) string {
	on := "units"
	if r.Seen == 1 {
		on = "unit"
	}
	return fmt.Sprintf("%s: sheet %s, here %s: on %d of %d %s in %s", r.Name, percent(r.Sheet), percent(r.Here), r.Happened, r.Seen, on, jobCount(r.Jobs))
}

// moved sorts rows by how far they have moved from the sheet, furthest first.
func moved(rows []core.RowHere) []core.RowHere {
	rows = slices.Clone(rows)
	slices.SortStableFunc(rows, func(a, b core.RowHere) int { return cmp.Compare(math.Abs(b.Here-b.Sheet), math.Abs(a.Here-a.Sheet)) })
	return rows
}

// printLearnedHere tells what of closed jobs is in a plan: its labour ratio, and of the rows that the job has not settled itself those that have
// moved most.
func printLearnedHere(w io.Writer, l *core.LearnedHere, most int) {
	if l == nil {
		return
	}
	para(w, "  ", "Learned: "+ratioWords(*l.Ratio)+". It is in the range and the contingency, not in the lines' hours.")
	rows := moved(l.OpenRows())
	for _, r := range rows[:min(most, len(rows))] {
		para(w, "    ", rowWords(r))
	}
	if n := len(rows) - most; n > 0 {
		para(w, "    ", fmt.Sprintf("and %d more: fettle learned", n))
	}
}

// printTaught tells what a closed job teaches.
func printTaught(w io.Writer, t *core.Taught) {
	fmt.Fprintln(w, "\nWhat it teaches")
	if t == nil {
		para(w, "  ", notKept)
		return
	}
	if r, ok := t.Ratio(); ok {
		para(w, "  ", fmt.Sprintf("labour ratio %.2f: %s h where %s were expected", r, spent(t.Hours), spent(t.Expected)))
	} else {
		para(w, "  ", "no labour ratio: "+t.NoHours)
	}
	for _, r := range t.Rows {
		where := r.Subsystem
		if r.Unit != "" && r.Unit != r.Subsystem {
			where += "@" + r.Unit
		}
		para(w, "  ", fmt.Sprintf("%s: of its register %d settled, %d had happened", where, len(r.Seen), len(r.Happened)))
	}
	if len(t.Silent) > 0 {
		para(w, "  ", "could not be asked, and teach nothing: "+strings.Join(t.Silent, ", "))
	}
	switch {
	case t.NoMoney != "":
		para(w, "  ", "nothing of money: "+t.NoMoney)
	case t.Last != nil:
		para(w, "  ", fmt.Sprintf("it came to %s before tax, where %s revision %d expected %s, P80 %s", amount(t.Last.Came), t.Last.Paper, t.Last.Revision, amount(t.Last.Expected), amount(t.Last.P80)))
	}
}

// printLearned writes what a shop has learned, section by section.
func (c *command) printLearned(s *shop, l learnedJSON) {
	if len(l.Jobs) == 0 {
		c.print("No job was handed over yet: nothing is learned, and every plan rests on its sheets.\n\n  " + c.self() + " close JOB --signed NAME --old-parts returned")
		return
	}
	fmt.Fprintln(c.out, "HOURS, actual over expected")
	para(c.out, "  ", fmt.Sprintf("%s; two in three of the jobs to come lie between %.2f and %.2f", ratioWords(*l.Ratio), l.Ratio.Median*math.Exp(-l.Ratio.SD), l.Ratio.Median*math.Exp(l.Ratio.SD)))
	t := newTable("job", "handed over", ">hours", ">expected", ">ratio", "")
	for _, j := range l.Jobs {
		ratio := "none"
		if j.Ratio != nil {
			ratio = fmt.Sprintf("%.2f", *j.Ratio)
		}
		hours, expected := "", ""
		if j.Taught != nil {
			hours, expected = spent(j.Taught.Hours), spent(j.Taught.Expected)
		}
		t.add(j.Job, s.day(j.At), hours, expected, ratio, strings.Join(j.Why, "; "))
	}
	t.print(c.out, "  ", screen)
	for _, of := range []struct {
		name string
		ts   []core.Tally
	}{{"subsystem", l.Subsystems}, {"skill", l.Skills}, {"work", l.Work}} {
		c.printTallies(of.name, of.ts)
	}
	c.printMoneyTallies(l.Money)
	c.printRows(l)
	c.printHeld(l)
}

func (c *command) printTallies(of string, ts []core.Tally) {
	if len(ts) == 0 {
		return
	}
	fmt.Fprintf(c.out, "\nHOURS BY %s, actual over likely\n", strings.ToUpper(of))
	t := newTable(">ratio", ">jobs", ">lines", ">likely", ">hours", of)
	for _, x := range ts {
		name := x.Of
		switch {
		case x.Subsystem != "":
			name = x.Subsystem + ": " + x.Name
		case x.Name != "":
			name = x.Name
		case name == "":
			name = "coming apart, going together"
		}
		ratio := ""
		if x.Ratio > 0 {
			ratio = fmt.Sprintf("%.2f", x.Ratio)
		}
		t.add(ratio, fmt.Sprint(x.Jobs), fmt.Sprint(x.Lines), spent(x.Likely), spent(x.Hours), name)
	}
	t.print(c.out, "  ", screen)
}

func (c *command) printMoneyTallies(ms []core.MoneyTally) {
	if len(ms) == 0 {
		return
	}
	fmt.Fprintln(c.out, "\nMONEY BY SUBSYSTEM, spent over agreed, before tax")
	t := newTable(">ratio", ">jobs", ">agreed", ">spent", "subsystem")
	for _, m := range ms {
		name, ratio := m.Subsystem, ""
		if name == "" {
			name = "coming apart, going together"
		}
		if m.Ratio > 0 {
			ratio = fmt.Sprintf("%.2f", m.Ratio)
		}
		t.add(ratio, fmt.Sprint(m.Jobs), amount(m.Agreed), amount(m.Spent), name)
	}
	t.print(c.out, "  ", screen)
}

func (c *command) printRows(l learnedJSON) {
	if len(l.Rows)+len(l.Gone)+len(l.Silent) == 0 {
		return
	}
	fmt.Fprintln(c.out, "\nHIDDEN DAMAGE, by how far a row has moved from the sheet")
	t := newTable(">sheet", ">here", ">happened", ">of", ">jobs", "row")
	for _, r := range moved(l.Rows) {
		t.add(percent(r.Sheet), percent(r.Here), fmt.Sprint(r.Happened), fmt.Sprint(r.Seen), fmt.Sprint(r.Jobs), fmt.Sprintf("%s: %s (%s)", r.Subsystem, r.Name, r.Row))
	}
	for _, r := range l.Gone {
		t.add("none", "none", fmt.Sprint(r.Happened), fmt.Sprint(r.Seen), fmt.Sprint(r.Jobs), fmt.Sprintf("%s: %s, on no sheet now: it teaches nothing", r.Subsystem, r.Row))
	}
	t.print(c.out, "  ", screen)
	if len(l.Silent) > 0 {
		para(c.out, "  ", "Could not be asked for their rows now: "+strings.Join(l.Silent, ", ")+". What was learned of them is kept.")
	}
}

func (c *command) printHeld(l learnedJSON) {
	fmt.Fprintln(c.out, "\nHOW OFTEN THE PRICE HELD, before tax")
	for _, of := range []struct {
		name string
		hs   []core.Held
	}{{"first", l.First}, {"last", l.Last}} {
		for _, h := range of.hs {
			if h.Of == 0 {
				para(c.out, "  ", "No closed job can be held against its scope yet.")
				return
			}
			came := "jobs came in under their"
			if h.Of == 1 {
				came = "job came in under its"
			}
			para(c.out, "  ", fmt.Sprintf("%s scope: %d of %d %s %s, which should be %s: between %s and %s, 95 in 100; %s", of.name, h.Under, h.Of, came, h.Figure,
				percent(h.Want), percent(h.Low), percent(h.High), h.Says))
		}
	}
}
