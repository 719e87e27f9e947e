package main

import (
	"fmt"
	"strings"

	"github.com/spf13/cobra"

	"github.com/fettle-tools/fettle/core"
)

func (c *command) yardCommand() *cobra.Command {
	return &cobra.Command{
		Use: "yard", Short: "All jobs at once: what waits for whom, what is late, hours left, places occupied", Args: cobra.NoArgs,
		Long: `All jobs that are not handed over, late ones first: where each stands and since when, what it waits for, the hours left of what was agreed. Then what
is out and on order across the jobs, and what lies where. How many hours a week there are for all jobs
together is weekly_hours in fettle.yaml.`,
		Example: "  fettle yard\n  fettle yard --json",
		RunE: func(cmd *cobra.Command, _ []string) error {
			return c.withShop(cmd.Context(), func(s *shop) error {
				stories, err := s.book.Stories(cmd.Context())
				if err != nil {
					return err
				}
				y := core.YardOf(stories, s.settings().WeeklyHours, c.clock())
				if c.asJSON() {
					return writeJSON(c.out, y)
				}
				c.printYard(s, y)
				return nil
			})
		},
	}
}

func (c *command) printYard(s *shop, y core.Yard) {
	if len(y.Jobs) == 0 {
		c.print("No job is in the yard.\n\n  " + c.self() + " new job \"What it is\" --owner \"Whose it is\"")
		return
	}
	t := newTable("job", "what", "state", "since", ">worked", ">left", "late, and waits for")
	for _, j := range y.Jobs {
		var says []string
		if len(j.Late) > 0 {
			says = append(says, "LATE "+strings.Join(j.Late, ", "))
		}
		left := ""
		if j.Agreed > 0 {
			left = spent(j.Left)
		}
		t.add(j.Job, j.Title, j.State, j.Since.In(s.settings().Zone).Format("2 Jan 2006"), spent(j.Hours), left, strings.Join(append(says, j.Waits...), "; "))
	}
	t.print(c.out, "", screen)
	fmt.Fprintln(c.out)
	c.printLoad(y)
	if len(y.Out) > 0 {
		fmt.Fprintln(c.out)
		t = newTable("out", "job", "what", "who has it", "due")
		for _, o := range y.Out {
			due := s.day(o.Due)
			if o.Late {
				due += "  LATE"
			}
			t.add(o.Number, o.Job, o.What, o.Who, due)
		}
		t.print(c.out, "", screen)
	}
	if len(y.Places) > 0 {
		fmt.Fprintln(c.out)
		t = newTable("place", ">tags", "of")
		for _, p := range y.Places {
			t.add(p.Place, fmt.Sprint(p.Tags), strings.Join(p.Jobs, ", "))
		}
		t.print(c.out, "", screen)
	}
}

// printLoad says how long the hours that are left take the people there are.
func (c *command) printLoad(y core.Yard) {
	switch {
	case y.HoursAgreed == 0:
		c.print("No hours are agreed yet.")
	case y.HoursWeek == 0:
		para(c.out, "", fmt.Sprintf("%s h left of %s agreed. How many weeks that is, weekly_hours in fettle.yaml would tell.", spent(y.HoursLeft), spent(y.HoursAgreed)))
	default:
		para(c.out, "", fmt.Sprintf("%s h left of %s agreed: %.1f weeks at %s h a week.", spent(y.HoursLeft), spent(y.HoursAgreed), y.HoursLeft/y.HoursWeek, spent(y.HoursWeek)))
	}
}
