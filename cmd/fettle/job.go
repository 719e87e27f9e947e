package main

import (
	"context"
	"fmt"
	"io"
	"os"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"github.com/fettle-tools/fettle/core"
	"github.com/fettle-tools/fettle/core/store"
)

func (c *command) jobCommand() *cobra.Command {
	cmd := &cobra.Command{Use: "job", Short: "List jobs, show one, change what was agreed about it", Example: "  fettle job list\n  fettle job show J-001"}
	cmd.AddCommand(c.jobListCommand(), c.jobShowCommand(), c.jobSetCommand(), c.jobMarkCommand(), c.jobFactCommand(), c.jobLimitCommand(), c.jobPinCommand(), c.jobLeaveCommand(), c.jobPayerCommand(), c.jobSpeakerCommand(), c.jobLabourCommand(),
		c.jobExportCommand(), c.jobTakeCommand())
	return cmd
}

func (c *command) jobListCommand() *cobra.Command {
	return &cobra.Command{
		Use: "list", Short: "All jobs of the shop", Args: cobra.NoArgs, Example: "  fettle job list --json",
		RunE: func(cmd *cobra.Command, _ []string) error {
			return c.withShop(cmd.Context(), func(s *shop) error {
				jobs, err := s.book.Jobs(cmd.Context())
				if err != nil {
					return err
				}
				if c.asJSON() {
					return writeJSON(c.out, jobs)
				}
				printJobs(c.out, jobs)
				return nil
			})
		},
	}
}

func printJobs(w io.Writer, jobs []core.Job) {
	t := newTable("job", "what", "owner", "state")
	for _, j := range jobs {
		t.add(j.Number, j.Title, j.Owner.Name, j.State)
	}
	t.print(w, "", screen)
}

func (c *command) jobShowCommand() *cobra.Command {
	return &cobra.Command{
		Use: "show [JOB]", Short: "What a job is: units, marks, brief, extent, pins, papers", Args: cobra.MaximumNArgs(1), Example: "  fettle job show J-001",
		RunE: func(cmd *cobra.Command, args []string) error {
			return c.withShop(cmd.Context(), func(s *shop) error {
				job, err := s.job(cmd.Context(), strings.Join(args, ""))
				if err != nil {
					return err
				}
				papers, err := s.book.Papers(cmd.Context(), job.Number)
				if err != nil {
					return err
				}
				before, err := s.lastBuild(cmd.Context(), job)
				if err != nil {
					return err
				}
				if c.asJSON() {
					return writeJSON(c.out, struct {
						core.Job
						Papers []store.Paper `json:"papers"`
						Before *beforeJSON   `json:"before,omitempty"` // the last job of the same vehicle
					}{job, papers, asBefore(before)})
				}
				printJob(c.out, job, papers, s)
				if before != nil {
					printLastBuild(c.out, s, *before)
				}
				return nil
			})
		},
	}
}

func printJob(w io.Writer, j core.Job, papers []store.Paper, s *shop) {
	fmt.Fprintf(w, "%s  %s\n", j.Number, j.Title)
	t := newTable("", "")
	t.add("owner", j.Owner.Name)
	t.add("state", j.State)
	t.add("opened", j.Opened.In(s.settings().Zone).Format("2 January 2006"))
	if j.Vehicle != nil {
		t.add("vehicle", j.Vehicle.Title)
		for _, m := range j.Vehicle.Marks {
			t.add("  "+m.Where, m.Text+": "+m.Says)
		}
	}
	for _, u := range j.Units {
		t.add(u.ID, strings.TrimSpace(u.Title+" "+parens(u.Pack)))
		for _, m := range u.Marks {
			t.add("  "+m.Where, m.Text+": "+m.Says)
		}
	}
	t.add("extent", strings.TrimSpace(j.Extent.Kind+" "+strings.Join(j.Extent.Names, ", ")))
	t.add("wanted for", j.Brief.Use)
	if o := j.Brief.Originality; o > 0 {
		t.add("originality", fmt.Sprintf("level %d", o))
	}
	for _, l := range j.Brief.OriginalityOf {
		t.add("  "+l.Subsystem, fmt.Sprintf("level %d", l.Level))
	}
	if m := j.Brief.Most; m != nil {
		t.add("at most", amount(*m)+" before tax")
	}
	if m := j.Brief.WeekWorth; m != nil {
		t.add("a week less", "is worth "+amount(*m))
	}
	t.add("horizon", fmt.Sprintf("%s km or %s years", core.FormatNumber(j.Brief.HorizonKM), core.FormatNumber(j.Brief.HorizonYears)))
	for _, p := range j.Payers {
		share := p.Percent
		if share == "" {
			share = "100"
		}
		t.add("pays", strings.TrimSpace(fmt.Sprintf("%s, %s %% %s", p.Party, share, strings.Join(p.Subsystems, ", "))))
	}
	for _, st := range j.Stages {
		t.add("paid at", fmt.Sprintf("%s, %d %%", st.Name, st.Percent))
	}
	if len(j.Speakers) > 0 {
		t.add("may speak", strings.Join(j.Speakers, ", "))
	}
	for _, l := range j.Labour {
		hour := "0.00"
		if core.Minor(l.Hour) != 0 {
			hour = amount(l.Hour)
		}
		t.add("labour", fmt.Sprintf("%s by %s at %s an hour", l.Subsystem, l.Who, hour))
	}
	for _, p := range j.Pins {
		t.add("pinned", fmt.Sprintf("%s: %s, by %s: %s", p.Place, p.Remedy, p.By, p.Reason))
	}
	for _, l := range j.Left {
		t.add("left", fmt.Sprintf("%s, by %s: %s", l.Place, l.By, l.Reason))
	}
	for _, p := range papers {
		t.add("issued", fmt.Sprintf("%s revision %d (%s), %s", p.Number, p.Revision, p.Media, p.At.In(s.settings().Zone).Format("2 January 2006 15:04")))
	}
	t.print(w, "  ", screen)
}

func parens(s string) string {
	if s == "" {
		return ""
	}
	return "(" + s + ")"
}

func (c *command) jobPinCommand() *cobra.Command {
	var reason string
	cmd := &cobra.Command{
		Use: "pin JOB PART REMEDY", Short: "Fix the remedy of a part, with the reason; a dash takes the pin out", Args: cobra.ExactArgs(3),
		Long:    "The plan shows what a pin costs. No pin reopens what safety closed.",
		Example: "  fettle job pin J-001 gearbox/gear-pair/third replace-pair --reason \"noisy on the road\" --by Jory",
		RunE: func(cmd *cobra.Command, args []string) error {
			if args[2] == "-" {
				return c.takeBack(cmd.Context(), args[0], args[1], "pinned", pinnedAt, unpin)
			}
			return c.withPlan(cmd.Context(), args[:1], func(s *shop, p core.Plan) error {
				pins, err := c.pins(p, args[1], args[2], reason)
				if err != nil {
					return err
				}
				return c.decide(cmd.Context(), s, p, store.Change{Pins: pins})
			})
		},
	}
	cmd.Flags().StringVar(&reason, "reason", "", "`WHY`; it is printed")
	return cmd
}

// takeBack takes the pins, or the words to leave a part, that answer to a name out of a job. It plans nothing: where no plan can be made, this is what opens
// the way to one.
func (c *command) takeBack(ctx context.Context, number, part, is string, places func(core.Job) []core.Place, undo undoing) error {
	return c.withShop(ctx, func(s *shop) error {
		job, err := s.job(ctx, number)
		if err != nil {
			return err
		}
		at := slices.DeleteFunc(places(job), func(p core.Place) bool { return !answersTo(p, part) })
		if len(at) == 0 {
			called, err := s.addressIn(ctx, job, part)
			if err != nil {
				return err
			}
			at = slices.DeleteFunc(places(job), func(p core.Place) bool { return !answersTo(p, called) })
		}
		if len(at) == 0 {
			return core.Errorf(core.NotFound, "see: fettle job show "+job.Number, "nothing is %s at %q", is, part)
		}
		return c.changed(ctx, s, job.Number, undo(at, c.by()))
	})
}

// undoing is the change that takes back what was decided of some parts.
type undoing func(at []core.Place, by string) store.Change

func pinnedAt(job core.Job) (at []core.Place) {
	for _, p := range job.Pins {
		at = append(at, p.Place)
	}
	return at
}

func unpin(at []core.Place, by string) (change store.Change) {
	for _, p := range at {
		change.Pins = append(change.Pins, core.Pin{Place: p, By: by})
	}
	return change
}

func leftAt(job core.Job) (at []core.Place) {
	for _, l := range job.Left {
		at = append(at, l.Place)
	}
	return at
}

func unleave(at []core.Place, by string) (change store.Change) {
	for _, p := range at {
		change.Left = append(change.Left, core.Left{Place: p, By: by})
	}
	return change
}

// decide writes pins and parts left down, if a plan can be made with them.
func (c *command) decide(ctx context.Context, s *shop, p core.Plan, change store.Change) error {
	if err := s.sound(ctx, p.Job, change); err != nil {
		return err
	}
	var more []string
	for _, ch := range p.Choices {
		if slices.ContainsFunc(change.Left, func(l core.Left) bool { return l.Safety && l.Place == ch.Place }) {
			more = append(more, trailerWords(ch.Title()))
		}
	}
	return c.changed(ctx, s, p.Job.Number, change, more...)
}

// sound tells why no plan can be made with pins and parts left: one that no sound plan goes with would leave the job without any.
func (s *shop) sound(ctx context.Context, job core.Job, change store.Change) error {
	for _, pin := range change.Pins {
		job = pinned(job, pin)
	}
	for _, l := range change.Left {
		job = leaving(job, l)
	}
	_, err := s.plan(ctx, job)
	return err
}

// pins fix the remedy of every part that answers to a name.
func (c *command) pins(p core.Plan, part, remedy, reason string) ([]core.Pin, error) {
	found, err := findChoices(p, part)
	if err != nil {
		return nil, err
	}
	var pins []core.Pin
	for _, ch := range found {
		pin, err := pinOn(p, ch, remedy, reason, c.by())
		if err != nil {
			return nil, err
		}
		pins = append(pins, pin)
	}
	return pins, nil
}

// pinOn fixes the remedy of a part.
func pinOn(p core.Plan, ch core.Choice, remedy, reason, by string) (core.Pin, error) {
	if err := knownRemedy(p, ch, remedy); err != nil {
		return core.Pin{}, err
	}
	return core.Pin{Place: ch.Place, Remedy: remedy, Reason: reason, By: by}, nil
}

// pinned is a job with a pin in place of what was pinned there, or without one.
func pinned(job core.Job, pin core.Pin) core.Job {
	job.Pins = slices.DeleteFunc(slices.Clone(job.Pins), func(x core.Pin) bool { return x.Place == pin.Place })
	if pin.Remedy != "" {
		job.Pins = append(job.Pins, pin)
	}
	return job
}

// leaves leave every part that answers to a name as it is, with the owner's words.
func (c *command) leaves(p core.Plan, part, reason string) ([]core.Left, error) {
	found, err := findChoices(p, part)
	if err != nil {
		return nil, err
	}
	var left []core.Left
	for _, ch := range found {
		left = append(left, leftOn(p, ch, reason, c.by()))
	}
	return left, nil
}

// leftOn leaves a part as it is.
func leftOn(p core.Plan, ch core.Choice, reason, by string) core.Left {
	return core.Left{Place: ch.Place, Reason: reason, By: by, Safety: p.Condition(ch.Place).SafetyCritical}
}

// leaving is a job with a part left, or left no longer.
func leaving(job core.Job, l core.Left) core.Job {
	job.Left = slices.DeleteFunc(slices.Clone(job.Left), func(x core.Left) bool { return x.Place == l.Place })
	if l.Reason != "" {
		job.Left = append(job.Left, l)
	}
	return job
}

func knownRemedy(p core.Plan, ch core.Choice, id string) error {
	place := ch.Place
	var ids []string
	for _, s := range p.Sheets {
		for _, r := range s.Assessment.Remedies {
			if s.Subsystem == place.Subsystem && s.Unit == place.Unit && r.Target == place.Target {
				if r.ID == id && r.Feasible {
					return nil
				}
				if r.Feasible {
					ids = append(ids, r.ID)
				}
			}
		}
	}
	return core.Errorf(core.Invalid, "open are: "+strings.Join(ids, ", "), "%s has no remedy %q that is open", ch.Title(), id)
}

func (c *command) jobLeaveCommand() *cobra.Command {
	var reason string
	cmd := &cobra.Command{
		Use: "leave JOB PART", Short: "Leave a part as it is, by the owner's recorded word; --reason - takes it back", Args: cobra.ExactArgs(2),
		Long:    "It is printed as left and not done, never as reused. A safety-critical part left means that the vehicle leaves on a trailer.",
		Example: "  fettle job leave J-001 gearbox/selector-fork/reverse --reason \"next winter\" --by \"M. Wellbeck\"",
		RunE: func(cmd *cobra.Command, args []string) error {
			if reason == "-" {
				return c.takeBack(cmd.Context(), args[0], args[1], "left as it is", leftAt, unleave)
			}
			if !cmd.Flags().Changed("by") { // a name that stands for every entry is not the owner's word
				return core.Errorf(core.Invalid, "say whose word it is: --by NAME", "a part is left on the owner's word, and nobody is named")
			}
			return c.withPlan(cmd.Context(), args[:1], func(s *shop, p core.Plan) error {
				left, err := c.leaves(p, args[1], reason)
				if err != nil {
					return err
				}
				return c.decide(cmd.Context(), s, p, store.Change{Left: left})
			})
		},
	}
	cmd.Flags().StringVar(&reason, "reason", "", "the owner's `WORDS`; they are printed")
	return cmd
}

// noted says that a job was changed.
func (c *command) noted(job core.Job, more ...string) error {
	return c.report(job, strings.Join(append([]string{"noted"}, more...), "\n")+"\n\n  "+c.self()+" plan "+job.Number)
}

func (c *command) changed(ctx context.Context, s *shop, number string, change store.Change, more ...string) error {
	job, err := s.book.ChangeJob(ctx, number, c.by(), change)
	if err != nil {
		return err
	}
	return c.noted(job, more...)
}

func (c *command) jobExportCommand() *cobra.Command {
	return &cobra.Command{
		Use: "export JOB FILE", Short: "A whole job as one file", Args: cobra.ExactArgs(2), Example: "  fettle job export J-001 packhorse.fettle",
		RunE: func(cmd *cobra.Command, args []string) error {
			return c.withShop(cmd.Context(), func(s *shop) error {
				f, err := os.OpenFile(args[1], os.O_CREATE|os.O_EXCL|os.O_WRONLY, 0o644)
				if err != nil {
					return &core.Error{Code: core.Conflict, What: "the file cannot be made", Where: args[1], Next: "choose another name", Err: err}
				}
				if err := s.book.ExportJob(cmd.Context(), args[0], f); err != nil {
					_ = f.Close()
					_ = os.Remove(args[1])
					return err
				}
				if err := f.Close(); err != nil {
					return err
				}
				return c.report(map[string]string{"job": args[0], "file": args[1]}, args[1]+"\n\n  in another shop folder: fettle job take "+args[1])
			})
		},
	}
}

func (c *command) jobTakeCommand() *cobra.Command {
	return &cobra.Command{
		Use: "take FILE", Short: "Take in a job that another shop folder exported", Args: cobra.ExactArgs(1), Example: "  fettle job take packhorse.fettle",
		RunE: func(cmd *cobra.Command, args []string) error {
			return c.withShop(cmd.Context(), func(s *shop) error {
				f, err := os.Open(args[0])
				if err != nil {
					return &core.Error{Code: core.NotFound, What: "the file cannot be read", Where: args[0], Next: "check its name", Err: err}
				}
				defer func() { _ = f.Close() }()
				number, added, err := s.book.ImportJob(cmd.Context(), f)
				if err != nil {
					return err
				}
				return c.report(map[string]any{"job": number, "new": added}, fmt.Sprintf("%s taken in: %d entries new", number, added))
			})
		},
	}
}

// withShop opens the shop and hands it on.
func (c *command) withShop(ctx context.Context, f func(*shop) error) error {
	s, err := c.openShop(ctx)
	if err != nil {
		return err
	}
	defer s.close()
	return f(s)
}
