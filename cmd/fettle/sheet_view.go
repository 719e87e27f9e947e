package main

import (
	"fmt"
	"io"
	"strings"

	"github.com/fettle-tools/fettle/core"
)

// printSheet writes what a subsystem asks the mechanic to look at.
func printSheet(w io.Writer, s core.Sheet, facts []core.Fact) {
	fmt.Fprintf(w, "%s  (%s, version %s)\n", s.Title, s.Subsystem, s.Version)
	for _, f := range facts {
		fmt.Fprintf(w, "  %s = %s (%s)\n", f.Name, f.Value, f.Source)
	}
	for _, p := range s.Parts {
		fmt.Fprintf(w, "\n%s  %s%s\n", p.Name, p.ID, positions(p))
		if p.SafetyCritical {
			fmt.Fprintln(w, "  safety-critical: near the limit is not reused, and no price or pin changes that")
		}
		for _, c := range p.Checks {
			head := fmt.Sprintf("%s (%s)", c.Name, c.ID)
			if len(c.Stations) > 0 {
				head += " at " + strings.Join(c.Stations, " ")
			}
			for i, line := range wrap(fmt.Sprintf("%s: %s", head, limitWords(c)), screen-4) {
				fmt.Fprintln(w, []string{"  - ", "    "}[min(i, 1)]+line)
			}
			if words := how(c); words != "" {
				para(w, "      ", words)
			}
		}
	}
	if len(s.Cautions) > 0 {
		fmt.Fprintln(w, "\nTAKE CARE")
		for _, c := range s.Cautions {
			para(w, "  ", c.Text)
		}
	}
}

func positions(p core.Part) string {
	if len(p.Positions) == 0 {
		return ""
	}
	return " [" + strings.Join(p.Positions, " ") + "]"
}

func how(c core.Check) string {
	s := c.How
	if c.Instrument != "" && (c.Kind != core.Derived || len(c.Stations) > 0) { // one that is worked out from others needs none
		s += " With: " + c.Instrument + "."
	}
	if c.BeforeStrip {
		s += " Only before the unit comes apart."
	}
	if c.NeededForReuse {
		s += " Needed before reuse."
	}
	return strings.TrimSpace(s)
}

// limitWords says a limit as a mechanic would, and where it comes from.
func limitWords(c core.Check) string {
	if c.Kind == core.OneUse {
		return c.Wanted(c.Limit)
	}
	return c.Wanted(c.Limit) + " (" + c.Limit.Source + ")"
}
