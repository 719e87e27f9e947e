package main

import (
	"context"
	"fmt"
	"io"
	"strings"

	"github.com/spf13/cobra"

	"github.com/fettle-tools/fettle/core"
)

// fewLooks is how many are shown unless all are asked for.
const fewLooks = 12

// lookJSON is what look --json prints.
type lookJSON struct {
	Job   string      `json:"job"`
	Looks []core.Look `json:"looks"` // the most settled by an hour first
}

func (c *command) lookCommand() *cobra.Command {
	var all bool
	cmd := &cobra.Command{
		Use:   "look [JOB]",
		Short: "What to look at next: the readings that settle most of the price for the time they take",
		Long: `Every part that is not settled holds money in reserve. This ranks what could be looked at by the share of the price's spread
that an hour of it settles: one part, or all the parts that the same steps lay open. The time is to open, to read and to
put back; what is apart already takes the reading alone. Nothing here says that the rest may be left unread: parts on which
lives hang are read whatever it settles.`,
		Example: "  fettle look J-001\n  fettle look J-001 --all\n  fettle look J-001 --json",
		Args:    cobra.MaximumNArgs(1),
		RunE: func(cmd *cobra.Command, args []string) error {
			return c.withShop(cmd.Context(), func(s *shop) error {
				job, err := s.job(cmd.Context(), append(args, "")[0])
				if err != nil {
					return err
				}
				looks, err := s.looks(cmd.Context(), job)
				if err != nil {
					return err
				}
				if c.asJSON() {
					return writeJSON(c.out, lookJSON{job.Number, orEmpty(looks)})
				}
				printLooks(c.out, c.self(), job, looks, all)
				return nil
			})
		},
	}
	cmd.Flags().BoolVar(&all, "all", false, "show every look that settles anything, not the first few")
	return cmd
}

// looks ranks what to look at next of a job.
func (s *shop) looks(ctx context.Context, job core.Job) ([]core.Look, error) {
	req, err := s.request(ctx, job)
	if err != nil {
		return nil, err
	}
	return s.planner().LookNext(ctx, req)
}

func printLooks(w io.Writer, self string, job core.Job, looks []core.Look, all bool) {
	fmt.Fprintf(w, "%s  %s\n", job.Number, job.Title)
	if len(looks) == 0 {
		fmt.Fprintln(w, "Nothing that could be read would settle the price any further.")
		return
	}
	shown := firstOf(looks, fewLooks, all)
	fmt.Fprintf(w, "What to look at next: what settles most of the price for the time it takes.\n\n")
	t := newTable(">settles", ">so far", ">takes", "look at, and with what")
	for _, l := range shown {
		together := ""
		if l.Together > 0 {
			together = shareShown(l.Together)
		}
		t.add(shareShown(l.Share), together, timeShown(l.Minutes), lookShown(l))
	}
	t.print(w, "", screen)
	if rest := len(looks) - len(shown); rest > 0 {
		fmt.Fprintf(w, "\n%d more settle less for their time: %s look %s --all\n", rest, self, job.Number)
	}
	fmt.Fprintln(w, "\nsettles: of the spread of the price, on average, before anybody knows what will be found. so far: with all above it.")
	if l := shown[0]; len(l.Parts) == 1 {
		p := l.Parts[0]
		place := strings.TrimSuffix(p.Part+" "+p.Position, " ")
		fmt.Fprintf(w, "\n  %s sheet %s --job %s     how to read it\n  %s record %s %s %s %s VALUE\n", self, p.Subsystem, job.Number, self, job.Number, p.Subsystem, place, p.Checks[0].Check)
	}
}

// lookShown names a look, the checks of a single part, the instruments and what must be opened for it.
func lookShown(l core.Look) string {
	words := l.Called()
	if len(l.Parts) == 1 {
		words += ": " + shortList(l.Parts[0].Reads(), 3)
	}
	if tools := l.Instruments(); len(tools) > 0 {
		words += "; " + shortList(tools, 3)
	}
	if first := l.First(); first != "" {
		words += "; first " + first
	}
	return words
}

// timeShown writes minutes, from a hundred on as hours.
func timeShown(minutes float64) string {
	if minutes < 100 {
		return fmt.Sprintf("%.0f min", minutes)
	}
	return hoursShown(minutes/60) + " h"
}

// shareShown writes a share in per cent, to a tenth under ten.
func shareShown(share float64) string {
	if share < .1 {
		return fmt.Sprintf("%.1f %%", 100*share)
	}
	return fmt.Sprintf("%.0f %%", 100*share)
}
