package main

import (
	"context"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"github.com/fettle-tools/fettle/core"
	"github.com/fettle-tools/fettle/core/store"
)

// stripFlags are what may be said of a step on the command line.
type stripFlags struct {
	done, confirm, lost bool
	hours, undo, skip   string
	who                 []string
	people              int
}

func (c *command) stripCommand() *cobra.Command {
	var f stripFlags
	cmd := &cobra.Command{
		Use: "strip JOB [STEP]", Short: "What comes off next, and what to mind; or write a step down as done", Args: cobra.RangeArgs(1, 2),
		Long: `Without a step: what can be done next by the job's plan, with hours, hands, what is lifted, what must be held or looked at first, and the readings
that go with it. With a step and its hours it is done: refused while something has to come off before, hands are too few, support is not confirmed, or
readings would be lost that nobody has taken. --lost writes those off, by name. Hours are all hands' together; several --who share them.`,
		Example: `  fettle strip J-001
  fettle strip J-001 hub-off/LF
  fettle strip J-001 arrival --hours 3 --who Jory --who Wenna
  fettle strip J-001 rear-axle-off --hours 1:30 --who Jory --people 2 --confirm
  fettle strip J-001 hub-off/LF --undo "put back to move it"
  fettle strip J-001 exhaust-off --skip "it came without one"`,
		RunE: func(cmd *cobra.Command, args []string) error {
			return c.withStory(cmd.Context(), args[0], func(s *shop, story core.Story) error {
				if len(args) == 1 {
					return c.showStrip(cmd.Context(), s, story)
				}
				f.done = f.done || cmd.Flags().Changed("hours")
				return c.stripStep(cmd.Context(), s, story, args[1], f)
			})
		},
	}
	fs := cmd.Flags()
	fs.BoolVar(&f.done, "done", false, "the step is done; --hours says so too")
	fs.StringVar(&f.hours, "hours", "", "`HOURS` it took, all hands together, like 1.5 or 1:30")
	fs.StringArrayVar(&f.who, "who", nil, "`NAME` of who did it; may be repeated; you, if left out")
	fs.IntVar(&f.people, "people", 0, "`HOW` many hands were there; those of the settings if left out")
	fs.BoolVar(&f.confirm, "confirm", false, "what had to be looked at first was looked at")
	fs.BoolVar(&f.lost, "lost", false, "readings that were not taken are lost: write that down")
	fs.StringVar(&f.undo, "undo", "", "it is put back, or was not done; `WHY`")
	fs.StringVar(&f.skip, "skip", "", "it is passed over; `WHY`")
	cmd.MarkFlagsMutuallyExclusive("undo", "skip", "hours")
	cmd.MarkFlagsMutuallyExclusive("undo", "skip", "done")
	return cmd
}

// stripStep shows a step, or writes down what became of it.
func (c *command) stripStep(ctx context.Context, s *shop, story core.Story, word string, f stripFlags) error {
	if !f.done && f.undo == "" && f.skip == "" {
		return c.showStep(ctx, s, story, word)
	}
	v, step, err := s.strip(ctx, story, word, f, c.by(), "")
	if err != nil {
		return err
	}
	words := step.Name + ": " + v.Is
	if len(v.Still) > 0 {
		words += "\nstill written as done, though it comes after this: " + strings.Join(v.Still, ", ") + "\nput back too? take those back as well: --undo WHY"
	}
	if len(v.Lost) > 0 {
		words += "\nlost: " + strings.Join(step.Lost, "; ")
	}
	next := "\n\n  " + c.self() + " strip " + v.Job + "    what comes off next"
	if v.Is == core.StepIsDone && !step.Free {
		next += "\n  " + c.self() + " tag " + v.Job + "      tag what came off, and say where it lies"
	}
	return c.report(v, words+next)
}

func (c *command) showStep(ctx context.Context, s *shop, story core.Story, word string) error {
	step, err := s.stripStep(ctx, story, word)
	if err != nil {
		return err
	}
	if c.asJSON() {
		return writeJSON(c.out, step)
	}
	printSteps(c.out, []core.StripStep{step})
	for _, err := range step.Faults(story.Job.Number, core.Doing{People: s.settings().People}) {
		para(c.out, "  ", "not yet: "+err.Error())
	}
	return nil
}

// stripStep finds a step of a job as it stands.
func (s *shop) stripStep(ctx context.Context, story core.Story, word string) (core.StripStep, error) {
	steps, err := s.stripSteps(ctx, story, word)
	if err != nil {
		return core.StripStep{}, err
	}
	step, err := core.FindStep(steps, word)
	if err != nil {
		return core.StripStep{}, err
	}
	return *step, nil
}

// strip writes down what became of a step. batch is an id of it that was made elsewhere, or "".
func (s *shop) strip(ctx context.Context, story core.Story, word string, f stripFlags, by, batch string) (v strippedJSON, step core.StripStep, err error) {
	if step, err = s.stripStep(ctx, story, word); err != nil {
		return v, step, err
	}
	done, with, acts := &core.StepDone{Is: core.StepIsDone}, store.Together{}, []core.Act(nil)
	switch {
	case f.undo != "":
		done.Is, done.Why = core.StepIsUndone, f.undo
	case f.skip != "":
		done.Is, done.Why = core.StepIsSkipped, f.skip
	default:
		if done, with, acts, err = s.finished(story, step, f, by); err != nil {
			return v, step, err
		}
	}
	done.Step, done.Unit, done.Free, with.Batch = step.ID, step.Unit, step.Free, batch
	if story, err = s.book.ActTogether(ctx, story.Job.Number, by, with, append([]core.Act{done}, acts...)...); err != nil {
		return v, step, err
	}
	v = strippedJSON{story.Job.Number, story.Job.State, step.Key, done.Is, done.Hours, orEmpty(with.Findings), []string{}}
	if done.Is == core.StepIsUndone {
		steps, err := s.stripSteps(ctx, story, step.Key)
		if err != nil {
			return v, step, err
		}
		v.Still = orEmpty(core.StillDone(steps))
	}
	return v, step, nil
}

// finished is a step that is done, with its hours, and with the readings that are lost by it.
func (s *shop) finished(story core.Story, step core.StripStep, f stripFlags, by string) (done *core.StepDone, with store.Together, acts []core.Act, err error) {
	if len(f.who) == 0 && by != "" {
		f.who = []string{by}
	}
	done = &core.StepDone{Is: core.StepIsDone, Who: strings.Join(f.who, ", "), People: s.hands(f)}
	var errs faults
	if f.hours == "" {
		errs = append(errs, core.Errorf(core.Invalid, "say it: --hours 1.5", "how long did it take?"))
	} else if done.Hours, err = core.ParseHours(f.hours); err != nil {
		errs = append(errs, err)
	}
	if len(f.who) == 0 {
		errs = append(errs, core.Errorf(core.Invalid, "name who: --who NAME", "the hours are nobody's"))
	}
	errs = append(errs, step.Faults(story.Job.Number, core.Doing{People: done.People, Confirmed: f.confirm, Lost: f.lost})...)
	if acts, err = s.workedOn(story, step, f.who, done.Hours); err != nil {
		errs = append(errs, err)
	}
	if f.confirm {
		done.Confirmed = step.ConfirmHelp
	}
	for _, u := range step.Unread {
		with.Findings = append(with.Findings, u.Lost(by))
	}
	return done, with, acts, errs.orNil()
}

// hands are how many were there: as said, as the settings say, or those named.
func (s *shop) hands(f stripFlags) int {
	switch {
	case f.people > 0:
		return f.people
	case s.settings().People > 0:
		return max(s.settings().People, len(f.who))
	}
	return len(f.who)
}

// workedOn writes a step's hours, shared among those who did it, each at their own charge.
func (s *shop) workedOn(story core.Story, step core.StripStep, who []string, hours float64) (acts []core.Act, err error) {
	if hours == 0 {
		return nil, nil
	}
	for _, name := range who {
		w := core.Worked{Who: name, Task: taskOf(step), Subsystem: benchOf(step), Hours: hours / float64(len(who)), Skill: step.Skill}
		if w.Rate, err = story.HourRate(name, w.Subsystem, w.Skill, s.settings().Rates); err != nil {
			return nil, err
		}
		acts = append(acts, &w)
	}
	return acts, nil
}

// taskOf names a step as the task that hours were spent on.
func taskOf(step core.StripStep) string {
	if step.Key == step.ID {
		return step.Name
	}
	return step.Name + " (" + step.Unit + ")"
}

// benchOf is the subsystem whose own bench step it is; "" of a step of the strip plan.
func benchOf(step core.StripStep) string {
	subsystem, _, own := strings.Cut(step.ID, ":")
	if !own {
		return ""
	}
	return subsystem
}

// strippedJSON is what strip --json prints after a step.
type strippedJSON struct {
	Job   string         `json:"job"`
	State string         `json:"state"`
	Step  string         `json:"step"`
	Is    string         `json:"is"`
	Hours float64        `json:"hours"`
	Lost  []core.Finding `json:"lost"`
	Still []string       `json:"still"` // steps that stand as done and wanted the one taken back
}

// stripSteps gives the steps of a job as they stand, without a plan: of the subsystems, only the one whose bench step is meant and those
// whose readings a step of that name destroys are asked.
func (s *shop) stripSteps(ctx context.Context, story core.Story, word string) ([]core.StripStep, error) {
	req, err := s.request(ctx, story.Job)
	if err != nil {
		return nil, err
	}
	var names []string
	if subsystem, _, own := strings.Cut(word, ":"); own {
		names = append(names, subsystem)
	}
	for _, step := range core.StripSteps(req, nil, story) {
		if strings.EqualFold(step.Name, word) || strings.EqualFold(step.ID, strings.Split(word, "@")[0]) {
			for _, id := range step.Destroys {
				subsystem, _, _ := strings.Cut(id, "/")
				names = append(names, subsystem)
			}
		}
	}
	names = slices.DeleteFunc(slices.Compact(slices.Sorted(slices.Values(names))), func(n string) bool { return !slices.Contains(s.names, n) })
	_ = s.plugins.Start(ctx, names...) // side by side; what does not start says so when it is asked
	sheets, err := s.describeFor(ctx, req, names...)
	if err != nil {
		return nil, err
	}
	return core.StripSteps(req, core.InExtent(req.Job, sheets), story), nil
}
