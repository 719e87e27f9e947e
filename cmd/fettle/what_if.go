package main

import (
	"cmp"
	"context"
	"fmt"
	"io"
	"slices"
	"strings"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"

	"github.com/fettle-tools/fettle/core"
)

// fewDifferences is how many lines that differ are shown unless all are asked for.
const fewDifferences = 20

// supposed is what a plan is compared with: the job, or the shop's prices, otherwise than they are.
type supposed struct {
	job           jobFlags
	pins, leaves  []string
	rates, prices []string
	from          string
}

// whatIfJSON is what what-if --json prints.
type whatIfJSON struct {
	Job     string   `json:"job"`
	Suppose []string `json:"suppose"` // in words
	core.Comparison
}

func (c *command) whatIfCommand() *cobra.Command {
	var w supposed
	var all bool
	cmd := &cobra.Command{
		Use:   "what-if JOB",
		Short: "Two plans compared line by line: as it is, and if something were otherwise; nothing is written down",
		Long: `Say what is supposed: a remedy fixed (--pin), a part left as it is (--leave), an hour's rate, a price, one supplier for all
that he sells, another extent, another purpose. Both plans are drawn with the same seed, so that what differs is what was
supposed and nothing else. No pin reopens what safety closed.`,
		Example: `  fettle what-if J-001 --rate mechanic=95
  fettle what-if J-001 --pin gearbox/gear-pair/third=replace-pair
  fettle what-if J-001 --extent "named units or subsystems" --name brakes --name steering
  fettle what-if J-001 --horizon-years 3 --originality 1
  fettle what-if J-001 --price gear-pair=280 --from "Kestrel Row Reproductions"`,
		Args: cobra.ExactArgs(1),
		RunE: func(cmd *cobra.Command, args []string) error {
			return c.withFinish(cmd.Context(), args, func(s *shop, was core.Plan) error {
				req, words, err := w.request(cmd.Context(), s, was, cmd.Flags())
				if err != nil {
					return err
				}
				if len(words) == 0 {
					return core.Errorf(core.Invalid, "suppose something, such as: "+c.self()+" what-if "+was.Job.Number+" --rate mechanic=95", "nothing is supposed")
				}
				now, err := s.suppose(cmd.Context(), req)
				if err != nil {
					return err
				}
				compared := core.Compare(was, now)
				if c.asJSON() {
					return writeJSON(c.out, whatIfJSON{was.Job.Number, words, compared})
				}
				printComparison(c.out, was.Job, words, compared, all)
				return nil
			})
		},
	}
	w.define(cmd.Flags())
	cmd.Flags().BoolVar(&all, "all", false, "show every line that differs, not the largest alone")
	return cmd
}

// define adds the flags that say what is supposed.
func (w *supposed) define(f *pflag.FlagSet) {
	w.job.briefFlags.define(f)
	f.StringArrayVar(&w.pins, "pin", nil, "fix a remedy, `PART=REMEDY`; may be repeated")
	f.StringArrayVar(&w.leaves, "leave", nil, "leave a `PART` as it is; may be repeated")
	f.StringArrayVar(&w.rates, "rate", nil, "an hour's rate, `SKILL=AMOUNT`; may be repeated")
	f.StringArrayVar(&w.prices, "price", nil, "what an item costs each, `ITEM=AMOUNT`; may be repeated")
	f.StringVar(&w.from, "from", "", "buy from this `SUPPLIER` what he has a price for")
}

// request gives the request of the supposed plan, and what is supposed in words. All that is wrong is told at once.
func (w *supposed) request(ctx context.Context, s *shop, was core.Plan, flags *pflag.FlagSet) (core.PlanRequest, []string, error) {
	job, words, err := w.supposedJob(ctx, s, was, flags)
	var errs faults
	if err != nil {
		errs = append(errs, err)
		job = was.Job
	}
	req, err := s.request(ctx, job)
	if err != nil {
		return req, nil, err
	}
	for _, suppose := range []func(context.Context, *shop, *core.Terms) ([]string, error){w.supposeRates, w.supposeSupplier, w.supposePrices} {
		more, err := suppose(ctx, s, &req.Terms)
		if err != nil {
			errs = append(errs, err)
		}
		words = append(words, more...)
	}
	return req, words, errs.orNil()
}

// supposedJob is the job with another extent or brief, other pins, other parts left.
func (w *supposed) supposedJob(ctx context.Context, s *shop, was core.Plan, flags *pflag.FlagSet) (core.Job, []string, error) {
	job := was.Job
	w.job.keep(flags.Changed, job)
	changed, err := w.job.job(s, job.Title)
	if err != nil {
		return job, nil, err
	}
	var words []string
	brief := pflag.NewFlagSet("", pflag.ContinueOnError)
	new(briefFlags).define(brief)
	flags.Visit(func(f *pflag.Flag) {
		if brief.Lookup(f.Name) != nil {
			words = append(words, strings.ReplaceAll(f.Name, "-", " ")+" "+strings.Trim(f.Value.String(), "[]"))
		}
	})
	job.Extent, job.Brief = changed.Extent, changed.Brief
	if err := s.checkJob(ctx, job); err != nil {
		return job, nil, err
	}
	var errs faults
	for _, text := range w.pins {
		part, remedy, ok := strings.Cut(text, "=")
		if !ok || remedy == "" {
			errs = append(errs, core.Errorf(core.Invalid, "write it like gearbox/gear-pair/third=replace-pair", "--pin %q", text))
			continue
		}
		pins, err := s.c.pins(was, part, remedy, "supposed")
		if err != nil {
			errs = append(errs, err)
		}
		for _, pin := range pins {
			job = pinned(job, pin)
			words = append(words, pin.Place.Words()+" "+remedy)
		}
	}
	for _, part := range w.leaves {
		left, err := s.c.leaves(was, part, "supposed")
		if err != nil {
			errs = append(errs, err)
		}
		for _, l := range left {
			job = leaving(job, l)
			words = append(words, l.Place.Words()+" left as it is")
		}
	}
	return job, words, errs.orNil()
}

// cutAmount parts NAME=AMOUNT.
func (s *shop) cutAmount(flag, text, like string) (string, core.Money, error) {
	name, number, ok := strings.Cut(text, "=")
	if !ok || name == "" || number == "" {
		return "", core.Money{}, core.Errorf(core.Invalid, "write it like "+like, "--%s %q", flag, text)
	}
	m, err := s.typedAmount(flag, number)
	if err == nil && core.Minor(m) < 0 {
		err = core.Errorf(core.Invalid, "write an amount of 0 or more", "--%s %q", flag, text)
	}
	return name, m, err
}

func (w *supposed) supposeRates(_ context.Context, s *shop, t *core.Terms) (words []string, err error) {
	var errs faults
	t.Rates = slices.Clone(t.Rates)
	for _, text := range w.rates {
		skill, m, err := s.cutAmount("rate", text, "mechanic=95")
		if err != nil {
			errs = append(errs, err)
			continue
		}
		t.Rates = append(slices.DeleteFunc(t.Rates, func(x core.Rate) bool { return x.Skill == skill }), core.Rate{Skill: skill, Hour: m})
		words = append(words, "an hour of "+skill+" at "+amount(m))
	}
	return words, errs.orNil()
}

// supposeSupplier buys from one supplier what he has a price for.
func (w *supposed) supposeSupplier(_ context.Context, _ *shop, t *core.Terms) ([]string, error) {
	if w.from == "" {
		return nil, nil
	}
	var sold []string
	for _, p := range t.Prices {
		if strings.EqualFold(p.Supplier, w.from) {
			sold = append(sold, p.Item)
		}
	}
	if len(sold) == 0 {
		return nil, core.Errorf(core.NotFound, "see who sells what: fettle price list", "no price is from %q", w.from)
	}
	t.Prices = slices.DeleteFunc(slices.Clone(t.Prices), func(p core.PriceEntry) bool {
		return slices.Contains(sold, p.Item) && !strings.EqualFold(p.Supplier, w.from)
	})
	return []string{"all that " + w.from + " has a price for from there"}, nil
}

func (w *supposed) supposePrices(ctx context.Context, s *shop, t *core.Terms) (words []string, err error) {
	if len(w.prices) == 0 {
		return nil, nil
	}
	var errs faults
	known := s.priceKeys(ctx)
	t.Prices = slices.Clone(t.Prices)
	for _, text := range w.prices {
		item, m, err := s.cutAmount("price", text, "gear-pair=280")
		if err != nil {
			errs = append(errs, err)
			continue
		}
		if !slices.Contains(known, item) {
			next := "see what has a price: fettle price ask"
			if n := core.Nearest(item, known); n != "" {
				next = fmt.Sprintf("did you mean %q?", n)
			}
			errs = append(errs, core.Errorf(core.NotFound, next, "no sheet here asks for %q", item))
			continue
		}
		each := m.Number()
		t.Prices = append(slices.DeleteFunc(t.Prices, func(x core.PriceEntry) bool { return x.Item == item }),
			core.PriceEntry{Item: item, Supplier: "supposed", Kind: "new", Price: core.Money3{Low: each, Likely: each, High: each, Currency: t.Currency}, Date: t.Today})
		words = append(words, item+" at "+amount(m)+" each")
	}
	return words, errs.orNil()
}

func printComparison(w io.Writer, job core.Job, words []string, c core.Comparison, all bool) {
	fmt.Fprintf(w, "%s  %s\n\nWHAT IF  %s\n\n", job.Number, job.Title, strings.Join(words, "; "))
	for _, note := range c.Notes {
		para(w, "", "NOTE "+note)
	}
	if len(c.Notes) > 0 {
		fmt.Fprintln(w)
	}
	t := newTable("", ">as it is", ">then", ">more")
	for _, s := range c.Sums {
		t.add(s.Name, amount(s.Was), amount(s.Now), signed(s.More))
	}
	t.add("hours expected", hoursShown(c.Hours[0]), hoursShown(c.Hours[1]), fmt.Sprintf("%+.1f", c.Hours[1]-c.Hours[0]))
	if c.Weeks != nil {
		t.add("weeks to finish, P80", fmt.Sprintf("%.1f", c.Weeks[0]), fmt.Sprintf("%.1f", c.Weeks[1]), fmt.Sprintf("%+.1f", c.Weeks[1]-c.Weeks[0]))
	}
	t.print(w, "  ", screen)
	if len(c.Choices)+len(c.Lines) == 0 {
		fmt.Fprintln(w, "\nNo part is decided otherwise, and no line changes.")
		return
	}
	if len(c.Choices) > 0 {
		fmt.Fprintf(w, "\nDECIDED OTHERWISE (%d)\n", len(c.Choices))
		t := newTable("part", "as it is", "then")
		for _, d := range firstOf(c.Choices, fewDifferences, all) {
			t.add(strings.TrimSpace(d.PartName+" "+d.Position), cmp.Or(d.Was, "not in the plan"), cmp.Or(d.Now, "not in the plan"))
		}
		t.print(w, "  ", screen)
	}
	if len(c.Lines) > 0 {
		fmt.Fprintf(w, "\nLINES THAT DIFFER (%d)\n", len(c.Lines))
		t := newTable(">as it is", ">then", ">more", "line")
		for _, l := range firstOf(c.Lines, fewDifferences, all) {
			t.add(amount(l.Was), amount(l.Now), signed(l.More), l.Name)
		}
		t.print(w, "  ", screen)
	}
	if !all && (len(c.Choices) > fewDifferences || len(c.Lines) > fewDifferences) {
		fmt.Fprintln(w, "\nThe largest are shown; --all shows every one.")
	}
}
