package main

import (
	"context"
	"io"
	"strings"

	"github.com/spf13/cobra"

	"github.com/fettle-tools/fettle/core"
)

func (c *command) stateCommand() *cobra.Command {
	var why string
	cmd := &cobra.Command{
		Use: "state JOB [STATE]", Short: "Where a job stands, what it waits for, what may follow; or take it to another state", Args: cobra.RangeArgs(1, 2),
		Long: `Most states follow from what is done: an arrival, an agreement, a step, outwork sent. Those nobody can see are said here: inspected, waiting,
in work again. What may not be done before somebody agreed to it is refused, with what is missing.`,
		Example: "  fettle state J-001\n  fettle state J-001 waiting --why \"the crankshaft is at the grinder\"",
		RunE: func(cmd *cobra.Command, args []string) error {
			if len(args) == 1 {
				return c.withStory(cmd.Context(), args[0], func(s *shop, story core.Story) error { return c.showState(s, story) })
			}
			return c.act(cmd.Context(), args[0], &core.Move{To: args[1], Why: why})
		},
	}
	cmd.Flags().StringVar(&why, "why", "", "`WHY`, in words that the owner may read")
	return cmd
}

func (c *command) stopCommand() *cobra.Command {
	var why string
	cmd := &cobra.Command{
		Use: "stop JOB", Short: "Stop a job as it stands: what is done, owed, out, and where every tag is", Args: cobra.ExactArgs(1),
		Example: "  fettle stop J-002 --why \"the owner is away until spring\"",
		RunE: func(cmd *cobra.Command, args []string) error {
			return c.act(cmd.Context(), args[0], &core.Move{To: core.StateStopped, Why: why})
		},
	}
	cmd.Flags().StringVar(&why, "why", "", "`WHY`, in words that the owner may read")
	return cmd
}

func (c *command) resumeCommand() *cobra.Command {
	return &cobra.Command{
		Use: "resume JOB", Short: "Take a stopped job up again, in the state it was stopped in", Args: cobra.ExactArgs(1), Example: "  fettle resume J-002",
		RunE: func(cmd *cobra.Command, args []string) error {
			return c.withStory(cmd.Context(), args[0], func(s *shop, story core.Story) error {
				to := story.StoppedAt()
				if story.Job.State != core.StateStopped || to == "" {
					return core.Errorf(core.Conflict, "see: fettle state "+story.Job.Number, "%s is %s, not stopped", story.Job.Number, story.Job.State)
				}
				return c.acted(cmd.Context(), s, story.Job.Number, &core.Move{To: to, Why: "taken up again"})
			})
		},
	}
}

// act does things to a job and shows where it then stands.
func (c *command) act(ctx context.Context, number string, acts ...core.Act) error {
	return c.withShop(ctx, func(s *shop) error { return c.acted(ctx, s, number, acts...) })
}

func (c *command) acted(ctx context.Context, s *shop, number string, acts ...core.Act) error {
	story, err := s.book.Act(ctx, number, c.by(), acts...)
	if err != nil {
		return err
	}
	return c.showState(s, story)
}

// withStory opens the shop and reads a job's story, or the only job's.
func (c *command) withStory(ctx context.Context, number string, f func(*shop, core.Story) error) error {
	return c.withShop(ctx, func(s *shop) error {
		job, err := s.job(ctx, number)
		if err != nil {
			return err
		}
		story, err := s.book.Story(ctx, job.Number)
		if err != nil {
			return err
		}
		return f(s, story)
	})
}

// stateJSON is what state --json prints.
type stateJSON struct {
	Job     string              `json:"job"`
	State   string              `json:"state"`
	Next    []string            `json:"next"`
	Waits   []string            `json:"waits_for"`
	Gates   []core.GateStanding `json:"gates"`
	Moves   []core.Moved        `json:"moves"`
	Account core.Account        `json:"account"`
	Open    []string            `json:"open"` // what a handover would leave unaccounted for
	Trailer []string            `json:"trailer"`
	Tags    []core.Tag          `json:"tags"`
}

func (c *command) showState(s *shop, story core.Story) error {
	if c.asJSON() {
		return writeJSON(c.out, stateJSON{story.Job.Number, story.Job.State, orEmpty(story.Next()), orEmpty(story.Waits()), story.Gates(), orEmpty(story.Moves), story.Account(),
			orEmpty(story.OpenAtHandover()), orEmpty(story.Trailer()), orEmpty(story.Tags)})
	}
	printState(c.out, s, story)
	return nil
}

func printState(w io.Writer, s *shop, story core.Story) {
	t := newTable("", "")
	j := story.Job
	t.add(j.Number, j.Title)
	state := j.State
	if n := len(story.Moves); n > 0 {
		m := story.Moves[n-1]
		state += ", since " + s.day(m.At)
		if (m.To == core.StateStopped || m.To == core.StateWaiting) && m.Why != "" {
			state += ": " + m.Why
		}
	}
	t.add("state", state)
	if waits := story.Waits(); len(waits) > 0 {
		t.add("waits for", strings.Join(waits, "; "))
	}
	t.add("may follow", strings.Join(story.Next(), ", "))
	for _, g := range story.Gates() {
		t.add(g.Gate, g.Is)
	}
	for _, left := range story.Trailer() {
		t.add("on a trailer", "left undone: "+left)
	}
	if a := story.Account(); a.Hours != 0 || core.Minor(a.Done) != 0 || core.Minor(a.Received) != 0 {
		t.add("done so far", amount(a.Done)+" before tax, "+core.FormatNumber(a.Hours)+" h")
		t.add("promised", amount(a.Promised))
		t.add("authorised", amount(a.Authorised)+" with tax")
		t.add("paid", amount(a.Received)+" of "+amount(a.Asked)+" asked")
		t.add("owed to others", amount(a.ForOthers))
	}
	if j.State == core.StateStopped || j.State == core.StateRoadTest || j.State == core.StateHandedOver {
		for _, g := range story.Tags {
			t.add(g.ID, strings.TrimSuffix(g.What+": "+g.State+", "+g.Lies, ", "))
		}
		for _, o := range story.OpenAtHandover() {
			t.add("still open", o)
		}
	}
	t.print(w, "", screen)
}
