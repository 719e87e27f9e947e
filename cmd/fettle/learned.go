package main

import (
	"context"
	"slices"

	"github.com/spf13/cobra"

	"github.com/fettle-tools/fettle/core"
)

func (c *command) learnedCommand() *cobra.Command {
	return &cobra.Command{
		Use: "learned", Short: "What closed jobs have taught: hours, hidden damage, and how often the price held", Args: cobra.NoArgs,
		Long: `Each job that is handed over teaches the plans of those to come; one that was issued before does not move. Hours written on lines and steps give a
labour ratio, actual over expected: it is drawn with the price, and is worth more with each job. A row of a register of hidden damage is counted
once its parts were seen, and its chance moves from the sheet's towards what was found here. What the job came to is held against its scopes. Every
figure stands with the number of jobs behind it, and a job that teaches nothing says why. A job that is taken back (undo) takes what it taught with it.`,
		Example: "  fettle learned\n  fettle learned --json",
		RunE: func(cmd *cobra.Command, _ []string) error {
			return c.withShop(cmd.Context(), func(s *shop) error {
				l, err := s.whatWasLearned(cmd.Context())
				if err != nil {
					return err
				}
				if c.asJSON() {
					return writeJSON(c.out, l)
				}
				c.printLearned(s, l)
				return nil
			})
		},
	}
}

// learnedJSON is what learned --json prints.
type learnedJSON struct {
	Jobs       []closedJSON       `json:"jobs"`         // those handed over, oldest first
	Ratio      *core.RatioLearned `json:"labour_ratio"` // null while no job was closed
	Subsystems []core.Tally       `json:"hours_by_subsystem"`
	Skills     []core.Tally       `json:"hours_by_skill"`
	Work       []core.Tally       `json:"hours_by_work"`
	Money      []core.MoneyTally  `json:"money_by_subsystem"`
	Rows       []core.RowHere     `json:"rows"`      // of the sheets served now
	Gone       []core.RowLearned  `json:"rows_gone"` // that are on no sheet served now: they teach nothing
	Silent     []string           `json:"silent"`    // subsystems that could not be asked for their sheets now
	First      []core.Held        `json:"first_scope"`
	Last       []core.Held        `json:"last_scope"`
}

// closedJSON is a closed job with its labour ratio, and with why it teaches less than it could.
type closedJSON struct {
	core.Closed
	Ratio *float64 `json:"labour_ratio"` // null: its hours teach none
	Why   []string `json:"why"`          // what of it teaches nothing, and why
}

// notKept says why a job of an older program teaches nothing.
const notKept = "it was handed over before this was kept: it teaches nothing"

func asClosed(c core.Closed) closedJSON {
	out := closedJSON{Closed: c, Why: []string{}}
	t := c.Taught
	if t == nil {
		out.Why = append(out.Why, notKept)
		return out
	}
	if r, ok := t.Ratio(); ok {
		out.Ratio = &r
	}
	for _, w := range []struct{ of, why string }{{"hours", t.NoHours}, {"money", t.NoMoney}} {
		if w.why != "" {
			out.Why = append(out.Why, w.of+": "+w.why)
		}
	}
	for _, name := range t.Silent {
		out.Why = append(out.Why, "hidden damage: "+name+" could not be asked when it was handed over")
	}
	return out
}

// whatWasLearned reads all closed jobs. Only subsystems that were taught something are asked for their sheets.
func (s *shop) whatWasLearned(ctx context.Context) (learnedJSON, error) {
	closed, err := s.book.Closed(ctx)
	if err != nil {
		return learnedJSON{}, err
	}
	l := core.Learn(closed, "")
	out := learnedJSON{Jobs: []closedJSON{}, Ratio: l.Ratio, Rows: []core.RowHere{}, Gone: []core.RowLearned{}, Silent: []string{}}
	var stories []core.Story
	for _, c := range closed {
		story, err := s.book.Story(ctx, c.Job)
		if err != nil {
			return out, err
		}
		stories, out.Jobs = append(stories, story), append(out.Jobs, asClosed(c))
	}
	out.Work, out.Skills, out.Subsystems = core.TallyUp(stories)
	out.Work, out.Skills, out.Subsystems = orEmpty(out.Work), orEmpty(out.Skills), orEmpty(out.Subsystems)
	out.Money = orEmpty(core.MoneyTallyUp(stories, s.settings().Currency))
	out.First, out.Last = core.HowHeld(closed)
	var names []string
	for _, r := range l.Rows {
		if slices.Contains(s.names, r.Subsystem) && !slices.Contains(names, r.Subsystem) {
			names = append(names, r.Subsystem)
		}
	}
	if len(names) > 0 {
		_ = s.plugins.Start(ctx, names...) // side by side; what does not start says so when it is asked
	}
	var sheets []core.UnitSheet
	for _, n := range names {
		own, err := s.describeFor(ctx, core.PlanRequest{}, n)
		if err != nil {
			out.Silent = append(out.Silent, n)
		}
		sheets = append(sheets, own...)
	}
	if here := l.Here(sheets); here != nil {
		out.Rows = here.Rows
	}
	for _, r := range l.Rows {
		if !slices.Contains(out.Silent, r.Subsystem) && !slices.ContainsFunc(out.Rows, func(h core.RowHere) bool { return h.RowLearned == r }) {
			out.Gone = append(out.Gone, r)
		}
	}
	return out, nil
}

// teach gives what a job has shown, to be kept with its handover. What stops its plan does not stop its handover: it then teaches nothing.
func (s *shop) teach(ctx context.Context, story core.Story) (*core.Taught, *core.Reckoning, error) {
	scopes, err := s.book.ScopeBudgets(ctx, story.Job.Number)
	if err != nil {
		return nil, nil, err
	}
	req, err := s.request(ctx, story.Job)
	if err != nil {
		why := "the job cannot be planned any more: " + err.Error()
		return &core.Taught{NoHours: why, NoMoney: why, Silent: s.names}, &core.Reckoning{}, nil
	}
	t, r := s.planner().Teach(ctx, req, story, scopes)
	return &t, &r, nil
}
