package main

import (
	"cmp"
	"context"
	"fmt"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"github.com/spf13/cobra"

	"github.com/fettle-tools/fettle/core"
)

// changeFlags are what a surprise is written down with, and what is done about it and its note.
type changeFlags struct {
	p                                core.Surprise
	options                          []string
	note, again                      bool
	answer                           []string
	who, how, drop, withdraw, expire string
}

func (c *command) changeCommand() *cobra.Command {
	var f changeFlags
	cmd := &cobra.Command{
		Use: "change JOB [PART|CHANGE|NOTE]", Short: "What the agreed scope did not price: write it down, put it to the owner, write the answer down", Args: cobra.RangeArgs(1, 2),
		Long: `Surprises gather until --note puts all of them to the owner at once. Of a PART, as the plan prints it, the findings, the limit and what can be done come
from the plan: what is chosen now, the next best, and leaving it, each with what it costs more than was agreed, tax included. --option says it otherwise; a dash
instead of PART is for what no sheet names. A note once sent is as sent: only its answer is added. What was declined is put to the owner anew with
--again: a yes to it then settles the matter.`,
		Example: `  fettle change J-001
  fettle change J-001 crankpin/P4
  fettle change J-001 crankpin/P4 --found "cracked at the fillet" --not-before "under the old shells" --option "used crank: 420, 3 weeks" --option "leave it; it will break"
  fettle change J-001 --note
  fettle change J-001 N-001 --answer C-001=1,C-002=0 --who "Marta Wellbeck" --how phone
  fettle change J-001 C-002 --again --option "a used one: 180"
  fettle change J-001 C-001 --drop "read again: it is sound"`,
		RunE: func(cmd *cobra.Command, args []string) error {
			ctx := cmd.Context()
			return c.withStory(ctx, args[0], func(s *shop, story core.Story) error {
				name := ""
				if len(args) == 2 {
					name = args[1]
				}
				switch {
				case f.note:
					return c.sendNote(ctx, s, story)
				case name == "":
					return c.showChanges(s, story)
				case f.again:
					return c.putAnew(ctx, s, story, strings.ToUpper(name), f)
				case changeNumber.MatchString(name):
					return c.surprise(ctx, s, story, strings.ToUpper(name), f.drop)
				case noteNumber.MatchString(name):
					return c.noteOf(ctx, s, story, strings.ToUpper(name), f)
				}
				return c.found(ctx, s, story, name, f)
			})
		},
	}
	fl := cmd.Flags()
	fl.StringVar(&f.p.Found, "found", "", "`WHAT` was found; the plan's words if left out")
	fl.StringVar(&f.p.NotBefore, "not-before", "", "`WHY` it was not seen before")
	fl.StringArrayVar(&f.options, "option", nil, "`WHAT` can be done, with what it costs more, tax included, like \"do it: 420, 1 week\" or \"leave it; it will leak\"; may be repeated")
	fl.BoolVar(&f.p.Safety, "safety", false, "lives hang on it; the sheet says so of its own parts")
	fl.StringVar(&f.p.Tag, "tag", "", "the `TAG` of the piece")
	fl.BoolVar(&f.again, "again", false, "put it to the owner anew, as it stood but for what is said otherwise")
	fl.BoolVar(&f.note, "note", false, "put everything that is gathering to the owner")
	fl.StringSliceVar(&f.answer, "answer", nil, "the `CHOICES`: C-001=1 takes its first option, C-002=0 none")
	fl.StringVar(&f.who, "who", "", "`NAME` of who answered")
	fl.StringVar(&f.how, "how", "", "`HOW`: "+strings.Join(core.Ways, ", "))
	fl.StringVar(&f.drop, "drop", "", "it is none after all: `WHY`")
	fl.StringVar(&f.withdraw, "withdraw", "", "take the note back: `WHY`")
	fl.StringVar(&f.expire, "expired", "", "no answer came in time: `WHY` it is over")
	return cmd
}

var noteNumber = regexp.MustCompile(`^[Nn]-[0-9]{3,}$`)

// putAnew writes down what was answered once before, as it stood but for what is said otherwise.
func (c *command) putAnew(ctx context.Context, s *shop, story core.Story, number string, f changeFlags) error {
	was := story.Surprise(number)
	if was == nil {
		return core.Errorf(core.NotFound, "see: fettle change "+story.Job.Number, "%s has no change %s", story.Job.Number, number)
	}
	p := *was
	p.ID, p.Note, p.Withdrawn, p.Again = "", "", "", was.ID
	p.Found, p.NotBefore, p.Tag = cmp.Or(f.p.Found, p.Found), cmp.Or(f.p.NotBefore, p.NotBefore), cmp.Or(strings.ToUpper(f.p.Tag), p.Tag)
	p.Safety = p.Safety || f.p.Safety
	p.Options = slices.Clone(was.Options)
	for i := range p.Options { // what no plan priced is a line of the new number
		p.Options[i].Lines = slices.DeleteFunc(slices.Clone(p.Options[i].Lines), func(id string) bool { return strings.HasPrefix(id, "change:") })
	}
	if err := s.readOptions(f.options, &p); err != nil {
		return err
	}
	return c.writeSurprise(ctx, s, story, &p)
}

// readOptions puts what is typed in the place of a surprise's options; nothing typed leaves them.
func (s *shop) readOptions(typed []string, p *core.Surprise) error {
	var options []core.SurpriseOption
	for _, t := range typed {
		o, err := s.readOption(t)
		if err != nil {
			return err
		}
		options = append(options, o)
	}
	if len(options) > 0 {
		p.Options = options
	}
	return nil
}

// found writes a surprise down.
func (c *command) found(ctx context.Context, s *shop, story core.Story, part string, f changeFlags) error {
	p := f.p
	p.Tag = strings.ToUpper(p.Tag)
	if err := s.readOptions(f.options, &p); err != nil {
		return err
	}
	if part != "-" {
		if err := c.fromPlan(ctx, s, story, part, &p); err != nil {
			return err
		}
	}
	if strings.TrimSpace(p.NotBefore) == "" {
		return core.Errorf(core.Invalid, "say it: --not-before WHY", "why was it not seen before the scope was agreed to?")
	}
	return c.writeSurprise(ctx, s, story, &p)
}

// writeSurprise says what each option draws of the contingency, and writes the surprise into the book.
func (c *command) writeSurprise(ctx context.Context, s *shop, story core.Story, p *core.Surprise) error {
	_, left := story.Contingency()
	var places []core.Place
	if p.Target.Part != "" {
		places = []core.Place{{Subsystem: p.Subsystem, Unit: p.Unit, Target: p.Target}}
	}
	for i, o := range p.Options {
		if o.Tax.CurrencyCode() == "" { // typed, and no plan's
			o.Tax = story.TaxIn(o.Sum, places)
		}
		p.Options[i].Tax = o.Tax
		p.Options[i].DrawsOn = core.MinorMoney(min(max(core.Minor(o.Sum)-core.Minor(o.Tax), 0), core.Minor(left)), s.settings().Currency)
	}
	story, err := s.book.Act(ctx, story.Job.Number, c.by(), p)
	if err != nil {
		return err
	}
	return c.surprise(ctx, s, story, p.ID, "")
}

// surprise drops one, or shows it.
func (c *command) surprise(ctx context.Context, s *shop, story core.Story, number, drop string) error {
	p := story.Surprise(number)
	if p == nil {
		return core.Errorf(core.NotFound, "see: fettle change "+story.Job.Number, "%s has no change %s", story.Job.Number, number)
	}
	if drop != "" {
		q := *p
		q.Withdrawn = drop
		var err error
		if story, err = s.book.Act(ctx, story.Job.Number, c.by(), &q); err != nil {
			return err
		}
		p = story.Surprise(number)
	}
	if c.asJSON() {
		return writeJSON(c.out, p)
	}
	printSurprise(c.out, *p)
	if p.Note == "" && p.Withdrawn == "" {
		c.print(fmt.Sprintf("\n  %s change %s --note    put it to the owner, with all that is gathering (%d)", c.self(), story.Job.Number, len(story.Gathering())))
	}
	return nil
}

// sendNote gathers what is open into one change note.
func (c *command) sendNote(ctx context.Context, s *shop, story core.Story) error {
	var n core.Note // its Paper is the number of the issued paper, once one is printed of it
	for _, p := range story.Gathering() {
		n.Surprises = append(n.Surprises, p.ID)
	}
	story, err := s.book.Act(ctx, story.Job.Number, c.by(), &n)
	if err != nil {
		return err
	}
	return c.showNote(s, story, n.ID)
}

// noteOf answers a note, takes it back, or shows it.
func (c *command) noteOf(ctx context.Context, s *shop, story core.Story, number string, f changeFlags) error {
	if story.Note(number) == nil {
		return core.Errorf(core.NotFound, "see: fettle change "+story.Job.Number, "%s has no change note %s", story.Job.Number, number)
	}
	a := core.Answer{Note: number, Who: f.who, How: f.how, Why: f.withdraw + f.expire}
	switch {
	case f.withdraw != "":
		a.State = core.NoteWithdrawn
	case f.expire != "":
		a.State = core.NoteExpired
	case len(f.answer) == 0:
		return c.showNote(s, story, number)
	default:
		if err := readAnswers(f.answer, &a); err != nil {
			return err
		}
	}
	story, err := s.book.Act(ctx, story.Job.Number, c.by(), &a)
	if err != nil {
		return err
	}
	return c.showNote(s, story, number)
}

// readAnswers reads C-001=1. A note of which nothing is taken is declined.
func readAnswers(typed []string, a *core.Answer) error {
	a.State = core.NoteDeclined
	for _, t := range typed {
		number, option, ok := strings.Cut(strings.ToUpper(strings.TrimSpace(t)), "=")
		n, err := strconv.Atoi(option)
		if !ok || err != nil {
			return core.Errorf(core.Invalid, "write C-001=1 for its first option, C-001=0 for none", "--answer %q", t)
		}
		if n > 0 {
			a.State = core.NoteApproved
		}
		a.Options = append(a.Options, core.NoteAnswer{Surprise: number, Option: n})
	}
	return nil
}
