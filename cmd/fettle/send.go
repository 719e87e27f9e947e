package main

import (
	"fmt"
	"io"
	"slices"
	"strings"
	"time"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"

	"github.com/fettle-tools/fettle/core"
)

// sendFlags are what outwork is ordered with.
type sendFlags struct {
	o                   core.Outwork
	served, tags, sizes []string
	price, due          string
	estimated           bool
}

func (c *command) sendCommand() *cobra.Command {
	var f sendFlags
	cmd := &cobra.Command{
		Use: "send JOB", Short: "Send work out by tag, to a size, for a price; or what is out, with whom, since when", Args: cobra.ExactArgs(1),
		Long: `--for names the part that the work is for, as the plan prints it, or a line of the order, or a change like C-001. It is refused while the line is
only held in reserve, while a part of its set is not read, or while no agreement covers it. A size is asked as a range with its unit, and named after a check, "M1 diameter" or "main journal diameter" for all, it is
the new size when the part is built in; what is not measured is
asked in words. The price binds unless it is --estimated.`,
		Example: `  fettle send J-001
  fettle send J-001 --to "Tern Lane Grinding" --for crankpin/P4 --tags T-014,T-015 --size "M1 diameter 2.4790..2.4795 in" --price 520 --due "6 weeks"`,
		RunE: func(cmd *cobra.Command, args []string) error {
			if !acting(cmd) {
				return c.withStory(cmd.Context(), args[0], func(s *shop, story core.Story) error { return c.showOut(s, story) })
			}
			return c.withOrder(cmd.Context(), args[0], f.served, func(s *shop, story core.Story, p core.Plan) error {
				sent, unsent, err := f.outwork(s, story, p)
				if err != nil {
					return err
				}
				if story, err = s.book.Act(cmd.Context(), story.Job.Number, c.by(), &sent); err != nil {
					return err
				}
				return c.report(sentJSON{*story.Sent(sent.ID), unsent}, sentWords(c, s, story, sent.ID, unsent))
			})
		},
	}
	fl := cmd.Flags()
	fl.StringVar(&f.o.To, "to", "", "`NAME` of the outworker")
	fl.StringSliceVar(&f.served, "for", nil, "the `PART`, line or change that the work is for; may be repeated")
	fl.StringSliceVar(&f.tags, "tags", nil, "`TAGS` of what goes, as a set: T-014,T-015; those of the parts that the line serves if left out")
	fl.StringVar(&f.o.Work, "work", "", "the work in `WORDS`; the order's own if left out")
	fl.StringArrayVar(&f.sizes, "size", nil, "a `SIZE` or condition it must come back to; may be repeated")
	fl.StringVar(&f.price, "price", "", "`AMOUNT` before tax")
	fl.BoolVar(&f.estimated, "estimated", false, "the price may still move")
	fl.StringVar(&f.due, "due", "", "the `DAY` promised: 2026-12-20, or \"6 weeks\"")
	fl.StringVar(&f.o.Parts, "parts", "", "`WHO` supplies the parts")
	fl.SetNormalizeFunc(func(_ *pflag.FlagSet, name string) pflag.NormalizedName {
		if name == "estimate" {
			name = "estimated"
		}
		return pflag.NormalizedName(name)
	})
	return cmd
}

// acting reports whether a command was given anything to do beside its shop and its way of printing.
func acting(cmd *cobra.Command) bool {
	does := false
	cmd.LocalNonPersistentFlags().VisitAll(func(f *pflag.Flag) { does = does || f.Changed })
	return does
}

// outwork makes the order, and says what of its set does not go. All faults are told at once.
func (f sendFlags) outwork(s *shop, story core.Story, p core.Plan) (core.Outwork, []string, error) {
	o := f.o
	v, err := serve(story, p, f.served, func(places []core.Place) ([]core.Line, error) { return f.oneKind(story, p, places) })
	var wrong faults
	note := func(err error) {
		if err != nil {
			wrong = append(wrong, err)
		}
	}
	note(err)
	known := err == nil
	if o.Price, err = s.typedAmount("price", f.price); strings.TrimSpace(f.price) == "" {
		err = core.Errorf(core.Invalid, "agree the price first, then: --price AMOUNT, with --estimated if it may still move", "the work has no price")
	}
	note(err)
	o.Due, err = s.typedDue(f.due)
	note(err)
	for _, t := range f.sizes {
		a, err := core.ReadAsked(t)
		note(err)
		if err == nil {
			o.Asked = append(o.Asked, a)
		}
	}
	for _, t := range f.tags {
		o.Tags = append(o.Tags, strings.ToUpper(strings.TrimSpace(t)))
	}
	if len(f.tags) == 0 {
		o.Tags = story.Sends(v.lines)
	}
	o.To, o.Lines, o.Type = knownParty(story, o.To), v.ids, core.PriceFixed
	if f.estimated {
		o.Type = core.PriceEstimate
	}
	if o.Work == "" {
		o.Work = v.names()
	}
	if known { // of lines that are not known nothing more can be said
		wrong = append(wrong, o.Faults(&story)...)
	}
	return o, orEmpty(story.Unsent(v.lines, o.Tags)), wrong.orNil()
}

// oneKind gives the lines of parts that go to one sort of outworker and are not with one yet.
func (f sendFlags) oneKind(story core.Story, p core.Plan, places []core.Place) ([]core.Line, error) {
	lines, err := p.Sendable(places)
	if err != nil {
		return nil, err
	}
	left := slices.DeleteFunc(slices.Clone(lines), func(l core.Line) bool { return story.AtWork(l.ID) != nil })
	if len(left) == 0 {
		o := story.AtWork(lines[0].ID)
		return nil, core.Errorf(core.Conflict, "to send more of it, name the line: --for "+lines[0].ID, "%s is %s already: %s, %s", lines[0].Name, o.State, o.ID, o.To)
	}
	var which []string
	for _, l := range left {
		which = append(which, fmt.Sprintf("%s (%s)", l.ID, l.Outwork))
	}
	if slices.ContainsFunc(left, func(l core.Line) bool { return l.Outwork != left[0].Outwork }) {
		return nil, core.Errorf(core.Invalid, "name one with --for: "+strings.Join(which, ", "), "%s goes to more than one sort of outworker", places[0])
	}
	return left, nil
}

// knownParty gives a party's name as the shop keeps it.
func knownParty(story core.Story, name string) string {
	for _, p := range story.Parties {
		if strings.EqualFold(p.Name, strings.TrimSpace(name)) {
			return p.Name
		}
	}
	return strings.TrimSpace(name)
}

type sentJSON struct {
	core.Outwork
	Unsent []string `json:"not_sent_with_it"`
}

func sentWords(c *command, s *shop, story core.Story, number string, unsent []string) string {
	o := story.Sent(number)
	words := fmt.Sprintf("%s  %s to %s: %s", o.ID, strings.Join(o.Tags, ", "), o.To, o.Work)
	for _, a := range o.Asked {
		words += fmt.Sprintf("\n  asked: %s, %s", a.What, a.Range())
	}
	if len(o.Asked) == 0 {
		words += "\n  no size is asked for: nothing will be measured against when it comes back"
	}
	if len(unsent) > 0 {
		words += "\n  it goes as a set, and these do not go with it: " + strings.Join(unsent, "; ")
	}
	return words + fmt.Sprintf("\n\n  %s receive %s %s ...    when it is back", c.self(), story.Job.Number, o.ID)
}

// outJSON is what send --json prints of a job.
type outJSON struct {
	Job     string         `json:"job"`
	Late    []string       `json:"late"`
	Outwork []core.Outwork `json:"outwork"` // late first, then out, refused, accepted
	ToSend  []toSendJSON   `json:"to_send"`
}

// toSendJSON is a line of the scope that somebody else carries out and nobody has yet.
type toSendJSON struct {
	Line       string `json:"line"`
	Name       string `json:"name"`
	Outworker  string `json:"outworker"` // what kind
	Authorised bool   `json:"authorised"`
}

func (c *command) showOut(s *shop, story core.Story) error {
	now := c.clock()
	v := outJSON{Job: story.Job.Number, Late: []string{}, Outwork: orEmpty(story.OutFirst(now)), ToSend: []toSendJSON{}}
	for _, o := range v.Outwork {
		if o.Late(now) {
			v.Late = append(v.Late, o.ID)
		}
	}
	for _, l := range story.ToSend() {
		v.ToSend = append(v.ToSend, toSendJSON{l.ID, l.Name, l.Outwork, story.Covered(l.ID) == nil})
	}
	if c.asJSON() {
		return writeJSON(c.out, v)
	}
	printOut(c.out, s, v, now)
	return nil
}

func printOut(w io.Writer, s *shop, v outJSON, now time.Time) {
	if len(v.Outwork) == 0 {
		fmt.Fprintln(w, "nothing of "+v.Job+" is out")
	}
	t := newTable("out", "with", "tags", "since", "promised", ">price", "is", "work")
	for _, o := range v.Outwork {
		is, price := o.State, amount(o.Price)
		if o.Late(now) {
			is = "LATE"
		}
		if o.Type != core.PriceFixed {
			price += ", not fixed"
		}
		t.add(o.ID, o.To, strings.Join(o.Tags, " "), s.day(o.Sent.At), s.day(o.Due), price, is, o.Work)
	}
	if len(v.Outwork) > 0 {
		t.print(w, "", screen)
	}
	if len(v.ToSend) == 0 {
		return
	}
	fmt.Fprintln(w, "\nto send")
	t = newTable("", "", "")
	for _, l := range v.ToSend {
		no := ""
		if !l.Authorised {
			no = "NOT AUTHORISED"
		}
		t.add(l.Outworker, no, l.Name)
	}
	t.print(w, "  ", screen)
}
