package main

import (
	"fmt"
	"io"
	"strings"

	"github.com/fettle-tools/fettle/core"
)

// printWhy tells a part's story in about ten lines.
func printWhy(w io.Writer, ch core.Chain) {
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
	t.add("grade", ch.Grade())
	t.add("because", cond.Governing(c).Text)
	if n := len(cond.Reasons) - 1; n > 0 {
		more := "checks"
		if n == 1 {
			more = "check"
		}
		t.add("", fmt.Sprintf("and %d more %s: fettle why %s --json", n, more, c.Place))
	}
	t.add("choice", ch.Chosen())
	decided := "decided by"
	if c.Kind == core.Undecided {
		decided = "it may be"
	}
	for i, r := range c.OwnReasons(cond) {
		t.add(label(i, decided), r)
	}
	if next := nextBest(c); next != "" {
		t.add("next best", next)
	}
	if c.FlipPrice != nil {
		t.add("turns at", fmt.Sprintf("%s %s for %s: at that price another way is as cheap", amount(*c.FlipPrice), c.FlipPrice.CurrencyCode(), c.FlipOn))
	}
	if c.Shared != nil {
		t.add("done once", c.Shared.Words())
	}
	if len(c.Drags) > 0 {
		t.add("goes along", shortList(ch.Dragged(), 4)+": their labour is in this one's, in whole or in part")
	}
	if c.Later != nil && c.Kind != core.Reuse {
		t.add("left till later", amount(*c.Later)+" to open it again and replace it then")
	}
	for i, l := range ch.Lines {
		t.add(label(i, "price"), fmt.Sprintf("%s %s (from %s to %s)", amount(l.Amount), l.Name, amount(l.Low), amount(l.High)))
	}
	for i, l := range ch.Reserves {
		held := amount(l.Amount)
		if l.Amount.IsZero() {
			held = "nothing for"
		}
		t.add(label(i, "held back"), fmt.Sprintf("%s %s, %.0f %% likely", held, l.Bare(), 100**l.Chance))
	}
	t.print(w, "  ", screen)
}

func label(i int, s string) string {
	if i == 0 {
		return s
	}
	return ""
}

// nextBest says what the next best remedy would cost more, or why there is none; "" where that is not known yet.
func nextBest(c core.Choice) string {
	switch r := c.RunnerUp; {
	case r != nil && r.RisksMore != nil && r.RisksMore.IsZero():
		return r.Name + " may do as well within what may be spent"
	case r != nil && r.AtLeast:
		return fmt.Sprintf("%s would risk at least %s more within what may be spent", r.Name, amount(*r.RisksMore))
	case r != nil && r.RisksMore != nil:
		return fmt.Sprintf("%s would risk %s more within what may be spent", r.Name, amount(*r.RisksMore))
	case r != nil && r.CostsMore.IsZero():
		return r.Name + " would cost the same"
	case r != nil:
		return fmt.Sprintf("%s would cost %s more", r.Name, amount(*r.CostsMore))
	case c.Pinned != nil:
		return "not weighed while it is pinned"
	case c.Kind == core.LeftAsIs:
		return "not weighed while it is left"
	case c.Unweighed:
		return "others are open; which of them is next was not worked out"
	case c.Kind != core.Undecided:
		return "none: nothing else is open"
	}
	return ""
}
