package main

import (
	"context"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"github.com/fettle-tools/fettle/core"
)

// hoursFlags are what may be said of hours on the command line.
type hoursFlags struct {
	who, rate, line, skill, note string
	start, end, drop             bool
}

func (c *command) hoursCommand() *cobra.Command {
	var f hoursFlags
	cmd := &cobra.Command{
		Use: "hours JOB [TASK] [HOURS]", Short: "Time by task and person, against what was expected; write some down, or start and end a timer", Args: cobra.RangeArgs(1, 3),
		Long: `TASK is a step of the strip plan, a line of the issued scope, or words; --line says which line words belong to. An hour is charged at what the shop
keeps of the party, else what was agreed for their work on the subsystem, else the shop's rate of the skill; where none is known it is asked. A timer
runs until --end writes its hours, whatever is switched off meanwhile; with HOURS beside --end those are written instead.
Hours too many are taken back with a minus, after two dashes.`,
		Example: `  fettle hours J-001
  fettle hours J-001 "sorting the boxes" 1:30 --who Jory
  fettle hours J-001 "painting the frame" 6 --who "Marta Wellbeck" --rate 0 --line frame/rails
  fettle hours J-001 engine-out --start --who Jory
  fettle hours J-001 --end --who Jory
  fettle hours J-001 "sorting the boxes" --who Jory -- -0:30`,
		RunE: func(cmd *cobra.Command, args []string) error {
			if f.who == "" {
				f.who = c.by()
			}
			return c.withStory(cmd.Context(), args[0], func(s *shop, story core.Story) error {
				return c.hours(cmd.Context(), s, story, args[1:], f)
			})
		},
	}
	fs := cmd.Flags()
	fs.StringVar(&f.who, "who", "", "`NAME` of who worked; you, if left out")
	fs.StringVar(&f.rate, "rate", "", "`WHAT` an hour is charged at; 0: nothing")
	fs.StringVar(&f.line, "line", "", "the `LINE` of the issued scope, or a part it is work on")
	fs.StringVar(&f.skill, "skill", "", "whose `SKILL` it was; the step's or the line's if left out, else mechanic")
	fs.StringVar(&f.note, "note", "", "`WHAT` else is to be known")
	fs.BoolVar(&f.start, "start", false, "start a timer")
	fs.BoolVar(&f.end, "end", false, "end the timer, and write its hours")
	fs.BoolVar(&f.drop, "drop", false, "end the timer and write nothing")
	cmd.MarkFlagsMutuallyExclusive("start", "end", "drop")
	return cmd
}

func (c *command) hours(ctx context.Context, s *shop, story core.Story, args []string, f hoursFlags) error {
	var act core.Act
	var err error
	switch {
	case f.drop:
		act = &core.Timer{Who: f.who, Dropped: true}
	case f.end:
		act, err = c.endTimer(s, story, args, f)
	case len(args) == 0 && !f.start:
		return c.showHours(ctx, s, story)
	case f.start && len(args) != 1:
		err = core.Errorf(core.Invalid, "name one task, and no hours: they are counted", "a timer is started on a task")
	case f.start:
		var w core.Worked
		w, err = s.worked(ctx, story, args[0], f)
		act = &core.Timer{Who: w.Who, Task: w.Task, Line: w.Line, Subsystem: w.Subsystem, Skill: w.Skill, Rate: w.Rate, Note: w.Note}
	case len(args) == 1:
		err = core.Errorf(core.Invalid, "write them like 1.5 or 1:30, or --start a timer", "how many hours went into %s?", args[0])
	default:
		act, err = s.hoursAs(ctx, story, args[0], args[1], f)
	}
	if err != nil {
		return err
	}
	if story, err = s.book.Act(ctx, story.Job.Number, c.by(), act); err != nil {
		return err
	}
	return c.showHours(ctx, s, story)
}

// hoursAs are hours as typed.
func (s *shop) hoursAs(ctx context.Context, story core.Story, task, hours string, f hoursFlags) (*core.Worked, error) {
	w, err := s.worked(ctx, story, task, f)
	if err == nil {
		w.Hours, err = core.ParseHours(hours)
	}
	return &w, err
}

// endTimer gives the hours of a timer: of the one who is named, or of the only one who has one.
func (c *command) endTimer(s *shop, story core.Story, args []string, f hoursFlags) (*core.Worked, error) {
	if f.who == "" && len(story.Timers) == 1 {
		f.who = story.Timers[0].Who
	}
	t := story.Running(f.who)
	if t == nil {
		return nil, core.Errorf(core.Conflict, "see: fettle hours "+story.Job.Number, "no timer of %q runs", f.who)
	}
	if len(args) == 2 && !strings.EqualFold(args[0], t.Task) || len(args) == 1 && !strings.EqualFold(args[0], t.Task) && !looksLikeHours(args[0]) {
		return nil, core.Errorf(core.Conflict, "end that one, or start another after it", "the timer of %s is on %s, not on %s", t.Who, t.Task, args[0])
	}
	w, err := t.Ended(c.clock())
	if n := len(args); n > 0 && looksLikeHours(args[n-1]) { // how long it was is told: the clock does not matter
		w.Hours, err = core.ParseHours(args[n-1])
	}
	if err != nil {
		return nil, err
	}
	if f.rate != "" {
		if w.Rate, err = s.typedAmount("rate", f.rate); err != nil {
			return nil, err
		}
	}
	if f.note != "" {
		w.Note = f.note
	}
	return &w, nil
}

func looksLikeHours(text string) bool {
	_, err := core.ParseHours(text)
	return err == nil
}

// worked fills hours from what the book knows: the line or step that is meant, its subsystem and skill, and the charge.
func (s *shop) worked(ctx context.Context, story core.Story, task string, f hoursFlags) (core.Worked, error) {
	w := core.Worked{Who: f.who, Task: task, Note: f.note, Skill: "mechanic"}
	line, err := lineOf(story, task, f.line)
	if err != nil {
		return w, err
	}
	if line != nil {
		w.Line, w.Subsystem = line.ID, line.Subsystem
		if task == line.ID {
			w.Task = line.Name
		}
		if line.Skill != "" {
			w.Skill = line.Skill
		}
	} else if step, err := s.stepCalled(ctx, story, task); err != nil {
		return w, err
	} else if step != nil {
		w.Task, w.Skill, w.Subsystem = taskOf(*step), step.Skill, benchOf(*step)
	}
	if f.skill != "" {
		w.Skill = f.skill
	}
	if f.rate != "" {
		w.Rate, err = s.typedAmount("rate", f.rate)
		return w, err
	}
	if strings.TrimSpace(w.Who) == "" {
		return w, nil // the book asks who it was
	}
	w.Rate, err = story.HourRate(w.Who, w.Subsystem, w.Skill, s.settings().Rates)
	return w, err
}

// lineOf finds the line of the scope issued last that hours belong to: the task is a line's id, or a line or part is named beside it.
func lineOf(story core.Story, task, named string) (*core.Line, error) {
	p := story.LastScope()
	if p == nil {
		if named != "" {
			return nil, core.Errorf(core.Conflict, "leave --line out, or issue the scope: fettle scope "+story.Job.Number+" --issue", "no scope of %s is issued that has lines", story.Job.Number)
		}
		return nil, nil
	}
	if i := slices.IndexFunc(p.Lines, func(l core.Line) bool { return l.ID == task }); i >= 0 && named == "" {
		return &p.Lines[i], nil
	}
	if named == "" {
		return nil, nil
	}
	places, err := p.Places(named)
	if err != nil {
		return nil, err
	}
	var found []int
	var ids []string
	for i, l := range p.Lines {
		at := slices.ContainsFunc(l.Places, func(q core.Place) bool { return slices.Contains(places, q.String()) })
		if slices.Contains(places, l.ID) || at && l.Kind == core.LineWork {
			found, ids = append(found, i), append(ids, l.ID)
		}
	}
	switch len(found) {
	case 1:
		return &p.Lines[found[0]], nil
	case 0:
		return nil, core.Errorf(core.Invalid, "leave --line out", "no work on %s stands on %s revision %d", named, p.Number, p.Revision)
	}
	return nil, core.Errorf(core.Invalid, "name one of: "+strings.Join(ids, ", "), "%s has %d lines", named, len(found))
}

// stepCalled finds the step of the strip plan that a word names; nil if it is no step.
func (s *shop) stepCalled(ctx context.Context, story core.Story, word string) (*core.StripStep, error) {
	var steps []core.StripStep
	var err error
	if subsystem, _, own := strings.Cut(word, ":"); own && slices.Contains(s.names, subsystem) {
		steps, err = s.stripSteps(ctx, story, word)
	} else {
		var req core.PlanRequest
		req, err = s.request(ctx, story.Job)
		steps = core.StripSteps(req, nil, story)
	}
	if err != nil {
		return nil, err
	}
	step, err := core.FindStep(steps, word)
	if core.ErrorCode(err) == core.NotFound {
		return nil, nil // words of somebody's own
	}
	return step, err
}
