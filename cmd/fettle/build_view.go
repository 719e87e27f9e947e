package main

import (
	"fmt"
	"io"
	"slices"
	"strings"

	"github.com/fettle-tools/fettle/core"
)

// buildJSON is what build --json prints without a part.
type buildJSON struct {
	Job       string            `json:"job"`
	State     string            `json:"state"`
	Fitted    []core.FittedPart `json:"fitted"`
	Unchecked []string          `json:"unchecked"` // safety work that no second person has looked over
}

func (c *command) showBuild(s *shop, story core.Story) error {
	sheet := story.BuildSheet()
	if c.asJSON() {
		return writeJSON(c.out, buildJSON{story.Job.Number, story.Job.State, sheet, orEmpty(story.Unchecked())})
	}
	if len(sheet) == 0 {
		c.print("Nothing is fitted yet.\n\n  " + c.self() + " build " + story.Job.Number + " PART --reading \"end-float 10 thou\" --torque \"case bolts 20 lbf ft\" --by NAME")
		return nil
	}
	printBuildSheet(c.out, s, sheet)
	open := story.Unchecked()
	for _, u := range open {
		para(c.out, "", "NOT CHECKED by a second person: "+u)
	}
	if len(open) > 0 {
		c.print("\n  " + c.self() + " build " + story.Job.Number + " " + open[0] + " --second NAME")
	} else if story.Job.State == core.StateBuilding {
		c.print("\n  " + c.self() + " road-test " + story.Job.Number + " \"first start\"")
	}
	return nil
}

// printBuildSheet writes what was fitted, with the sizes, torques, shims and one-use items of each.
func printBuildSheet(w io.Writer, s *shop, sheet []core.FittedPart) {
	t := newTable("fitted", "by, when", "as fitted")
	for _, p := range sheet {
		who := strings.Trim(p.Fitted.By+", "+s.day(p.Fitted.At), ", ")
		says := p.Says()
		if len(says) == 0 {
			says = []string{""}
		}
		for i, x := range says {
			if i > 0 {
				p.What, who = "", ""
			}
			t.add(p.What, who, x)
		}
	}
	t.print(w, "", screen)
}

// fitJSON is what build --json prints of what was fitted just now.
type fitJSON struct {
	core.Fit
	OneUseLeft []string `json:"one_use_left"` // called for, and not named as used
	Unchecked  bool     `json:"unchecked"`
}

// showFit reads back what was fitted, and reminds of what was not said.
func (c *command) showFit(story core.Story, f core.Fit, sheet core.UnitSheet) error {
	var left []string
	if f.Target.Part != "" {
		left = story.OneUseLeft(sheet, f.Target, f.OneUse)
	}
	all := story.BuildSheet()
	i := slices.IndexFunc(all, func(p core.FittedPart) bool { return p.What == f.Words() })
	open := slices.Contains(story.Unchecked(), f.Words())
	if c.asJSON() {
		return writeJSON(c.out, fitJSON{story.Fits[len(story.Fits)-1], orEmpty(left), open})
	}
	c.print(f.Words() + ": noted")
	if i >= 0 {
		for _, x := range all[i].Says() {
			para(c.out, "  ", x)
		}
	}
	if len(left) > 0 {
		para(c.out, "", "Not named as used: "+strings.Join(left, ", "))
	}
	if open {
		fmt.Fprintf(c.out, "\nA second person must look it over:\n  %s build %s %s --second NAME\n", c.self(), story.Job.Number, f.Address())
	}
	return nil
}
