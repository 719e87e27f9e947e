package main

import (
	"fmt"
	"io"
	"strings"

	"github.com/spf13/cobra"

	"github.com/fettle-tools/fettle/core"
)

// weighJSON is what weigh --json prints.
type weighJSON struct {
	Job string `json:"job"`
	core.Weighing
}

func (c *command) weighCommand() *cobra.Command {
	var all bool
	cmd := &cobra.Command{
		Use:   "weigh [JOB]",
		Short: "What more money buys: less risk of doing it again, or a shorter wait",
		Long: `Two lists of sound plans. Money against risk begins with the least with every safety item done: ordinary parts are left as they are, and no
safety-critical part is. Every line below costs more, risks less, and says what is done for it. Money against waiting begins with the
cheapest plan; every line below waits less for goods and work outside. An owner who has said what may be spent, or what a week is worth,
gets a plan that keeps to it: fettle job set --most, --week-worth.`,
		Example: "  fettle weigh J-001\n  fettle weigh J-001 --all\n  fettle job set J-001 --most 60000\n  fettle what-if J-001 --week-worth 150",
		Args:    cobra.MaximumNArgs(1),
		RunE: func(cmd *cobra.Command, args []string) error {
			return c.withShop(cmd.Context(), func(s *shop) error {
				job, err := s.job(cmd.Context(), append(args, "")[0])
				if err != nil {
					return err
				}
				req, err := s.request(cmd.Context(), job)
				if err != nil {
					return err
				}
				w, err := s.planner().Weigh(cmd.Context(), req)
				if err != nil {
					return err
				}
				if c.asJSON() {
					return writeJSON(c.out, weighJSON{job.Number, w})
				}
				printWeighing(c.out, c.self(), job, w, all)
				return nil
			})
		},
	}
	cmd.Flags().BoolVar(&all, "all", false, "name every part that is decided otherwise, not the first few")
	return cmd
}

// fewParts is how many parts a line names unless all are asked for.
const fewParts = 4

func printWeighing(w io.Writer, self string, job core.Job, g core.Weighing, all bool) {
	fmt.Fprintf(w, "%s  %s\n\nMONEY AGAINST RISK\n", job.Number, job.Title)
	t := newTable(">total", ">more", ">risk", ">less", ">left", "for it")
	for i, x := range g.Risks {
		more, less, words := "", "", job.SayLeast()
		if i > 0 {
			more, less, words = signed(x.More), amount(x.Less), differs(x.Differs, all)
		}
		t.add(amount(x.Total), more, amount(x.Risk), less, fmt.Sprint(x.Left), words)
	}
	t.print(w, "  ", screen)
	para(w, "  ", "total: expected, before tax, what is held in reserve counted in. risk: what doing things again within the horizon is expected to cost. left: ordinary parts that are left as they are; nothing safety-critical is.")
	fmt.Fprintln(w, "\nMONEY AGAINST WAITING")
	t = newTable(">longest wait", ">total", ">more", "for it")
	for i, x := range g.Waits {
		more, words := "", "the cheapest, its risk counted in"
		if i > 0 {
			more, words = signed(x.More), differs(x.Differs, all)
		}
		t.add(weeksShown(x.Weeks), amount(x.Total), more, words)
	}
	t.print(w, "  ", screen)
	if len(g.Waits) == 1 {
		para(w, "  ", "No other sound plan waits less for goods and work outside.")
	}
	para(w, "  ", fmt.Sprintf("longest wait: the likely one; waits run side by side. One may turn out longer, and what is held in reserve may have to be waited for too: %s budget %s says what the finish waits for, on average.", self, job.Number))
	fmt.Fprintf(w, "\n  %s job set %s --most AMOUNT          plan within a sum\n  %s job set %s --week-worth AMOUNT    let the wait count\n", self, job.Number, self, job.Number)
}

// differs names the parts that are decided otherwise, positions of a part together.
func differs(list []core.ChoiceDifference, all bool) string {
	words := core.SayDifferences(list)
	if !all && len(words) > fewParts {
		return fmt.Sprintf("%s; and %d more", strings.Join(words[:fewParts], "; "), len(words)-fewParts)
	}
	return strings.Join(words, "; ")
}

// weeksShown writes weeks.
func weeksShown(weeks float64) string {
	if weeks == 1 {
		return "1 week"
	}
	return core.FormatNumber(weeks) + " weeks"
}
