package main

import (
	"fmt"
	"io"
	"strings"

	"github.com/spf13/cobra"

	"github.com/fettle-tools/fettle/core"
)

func (c *command) receiveCommand() *cobra.Command {
	var r core.Received
	var sizes []string
	var refuse, charged string
	cmd := &cobra.Command{
		Use: "receive JOB [OUTWORK]", Short: "Measure what comes back against what was asked; take it in, or refuse it", Args: cobra.RangeArgs(1, 2),
		Long: `Each thing that was asked is measured before it goes on the shelf: --size says it as it was asked, with the reading. What was not measured is not taken
in; what is off size is refused with --refuse, or taken in with a reason, --why. What was asked in words passes or fails.`,
		Example: `  fettle receive J-001 O-001
  fettle receive J-001 O-001 --size "M1 diameter 2.4792 in" --size "cracks pass" --lies "rack 1"
  fettle receive J-001 O-001 --size "M1 diameter 2.4700 in" --refuse "nine thou under what was asked"`,
		RunE: func(cmd *cobra.Command, args []string) error {
			return c.withStory(cmd.Context(), args[0], func(s *shop, story core.Story) error {
				if len(args) == 1 {
					return c.showOut(s, story)
				}
				r.Outwork = strings.ToUpper(args[1])
				o := story.Sent(r.Outwork)
				if o == nil {
					return core.Errorf(core.NotFound, "see: fettle send "+story.Job.Number, "%s has no outwork %s", story.Job.Number, args[1])
				}
				if !acting(cmd) {
					return c.showOutwork(s, story, *o)
				}
				if r.Accepted = refuse == ""; !r.Accepted {
					r.Why = refuse
				}
				if err := readBack(s, *o, &r, sizes, charged); err != nil {
					return err
				}
				story, err := s.book.Act(cmd.Context(), story.Job.Number, c.by(), &r)
				if err != nil {
					return err
				}
				return c.showOutwork(s, story, *story.Sent(r.Outwork))
			})
		},
	}
	f := cmd.Flags()
	f.StringArrayVar(&sizes, "size", nil, "`WHAT` was asked, and the reading; may be repeated")
	f.StringVar(&r.Lies, "lies", "", "`WHERE` it is put")
	f.StringVar(&refuse, "refuse", "", "refuse it: `WHY`")
	f.StringVar(&r.Why, "why", "", "`WHY` it will do although it is not as asked")
	f.StringVar(&charged, "charged", "", "`AMOUNT` charged before tax, if not the price agreed")
	return cmd
}

// readBack fills in what was measured and charged. All faults are told at once.
func readBack(s *shop, o core.Outwork, r *core.Received, sizes []string, charged string) (err error) {
	var errs faults
	for _, t := range sizes {
		res, err := core.ReadResult(t, o.Asked)
		if err != nil {
			errs = append(errs, err)
			continue
		}
		r.Results = append(r.Results, res)
	}
	if r.Charged, err = s.typedAmountOr("charged", charged); err != nil {
		errs = append(errs, err)
	}
	return errs.orNil()
}

func (c *command) showOutwork(s *shop, story core.Story, o core.Outwork) error {
	if c.asJSON() {
		return writeJSON(c.out, o)
	}
	printOutwork(c.out, s, o)
	switch o.State {
	case core.OutworkOut:
		c.print(fmt.Sprintf("\n  %s receive %s %s --size ... --lies WHERE", c.self(), story.Job.Number, o.ID))
	case core.OutworkRefused:
		c.print(fmt.Sprintf("\n  it stays with %s until it is received: %s receive %s %s --size ... --lies WHERE", o.To, c.self(), story.Job.Number, o.ID))
	}
	return nil
}

func printOutwork(w io.Writer, s *shop, o core.Outwork) {
	fmt.Fprintf(w, "%s  %s: %s\n", o.ID, o.To, o.Work)
	t := newTable("", "")
	t.add("sent", s.day(o.Sent.At)+", "+strings.Join(o.Tags, ", "))
	if !o.Due.IsZero() {
		t.add("promised", s.day(o.Due))
	}
	price := amount(o.Price) + " " + o.Price.CurrencyCode()
	if o.Type != core.PriceFixed {
		price += ", not fixed"
	}
	if o.Charged != nil {
		price += "; charged " + amount(*o.Charged)
	}
	t.add("price", price)
	is := o.State
	if !o.Back.At.IsZero() {
		is += ", " + s.day(o.Back.At)
	}
	if o.Why != "" {
		is += ": " + o.Why
	}
	t.add("is", is)
	t.print(w, "  ", screen)
	if len(o.Asked) == 0 {
		return
	}
	t = newTable("asked", "", "measured", "")
	for _, a := range o.Asked {
		got, ok := "not measured", ""
		for _, r := range o.Results {
			if strings.EqualFold(r.What, a.What) {
				got, ok = r.As, "off"
				if r.OK {
					ok = "as asked"
				}
			}
		}
		t.add(a.What, a.Range(), got, ok)
	}
	t.print(w, "  ", screen)
}
