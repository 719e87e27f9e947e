package main

import (
	"context"
	"fmt"
	"io"
	"slices"
	"strings"

	"github.com/spf13/cobra"

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
			return c.withPlan(cmd.Context(), args, func(s *shop, was core.Plan) error {
				req, words, err := w.request(cmd.Context(), s, was, cmd.Flags().Changed)
				if err != nil {
					return err
				}
				if len(words) == 0 {
					return core.Errorf(core.Invalid, "suppose something, such as: "+c.self()+" what-if "+was.Job.Number+" --rate mechanic=95", "nothing is supposed")
				}
				now, err := s.planner().Plan(cmd.Context(), req)
				if err != nil {
					return err
				}
				cmp := core.Compare(was, now)
				if c.asJSON() {
					return writeJSON(c.out, whatIfJSON{was.Job.Number, words, cmp})
				}
				printComparison(c.out, was.Job, words, cmp, all)
				return nil
			})
		},
	}
	w.job.define(cmd)
	for _, f := range []string{"owner", "vehicle", "pack", "unit", "apart", "stages"} {
		_ = cmd.Flags().MarkHidden(f)
	}
	cmd.Flags().StringArrayVar(&w.pins, "pin", nil, "fix a remedy, `PART=REMEDY`; may be repeated")
	cmd.Flags().StringArrayVar(&w.leaves, "leave", nil, "leave a `PART` as it is; may be repeated")
	cmd.Flags().StringArrayVar(&w.rates, "rate", nil, "an hour's rate, `SKILL=AMOUNT`; may be repeated")
	cmd.Flags().StringArrayVar(&w.prices, "price", nil, "what an item costs each, `ITEM=AMOUNT`; may be repeated")
	cmd.Flags().StringVar(&w.from, "from", "", "buy from this `SUPPLIER` what he has a price for")
	cmd.Flags().BoolVar(&all, "all", false, "show every line that differs, not the largest alone")
	return cmd
}

// request gives the request of the supposed plan, and what is supposed in words.
func (w *supposed) request(ctx context.Context, s *shop, was core.Plan, given func(string) bool) (core.PlanRequest, []string, error) {
	var errs faults
	var words []string
	job := was.Job
	w.job.keep(given, job)
	changed, err := w.job.job(job.Title)
	if err != nil {
		return core.PlanRequest{}, nil, err
	}
	for _, flag := range []string{"extent", "name", "use", "originality", "horizon-km", "horizon-years", "stored", "ran", "worked", "service-km", "age-years"} {
		if given(flag) {
			words = append(words, strings.ReplaceAll(flag, "-", " ")+" "+w.said(flag))
		}
	}
	job.Extent, job.Brief = changed.Extent, changed.Brief
	if err := s.checkJob(ctx, job); err != nil {
		return core.PlanRequest{}, nil, err
	}
	for _, p := range w.pins {
		part, remedy, ok := strings.Cut(p, "=")
		if !ok {
			errs = append(errs, core.Errorf(core.Invalid, "write it like gearbox/gear-pair/third=replace-pair", "--pin %q", p))
			continue
		}
		found, err := findChoices(was, part)
		if err != nil {
			errs = append(errs, err)
			continue
		}
		for _, ch := range found {
			if err := knownRemedy(was, ch.Place, remedy); err != nil {
				errs = append(errs, err)
				continue
			}
			job.Pins = slices.DeleteFunc(slices.Clone(job.Pins), func(q core.Pin) bool { return q.Place == ch.Place })
			job.Pins = append(job.Pins, core.Pin{Place: ch.Place, Remedy: remedy, Reason: "supposed", By: s.c.by()})
			words = append(words, ch.Place.String()+" "+remedy)
		}
	}
	for _, part := range w.leaves {
		found, err := findChoices(was, part)
		if err != nil {
			errs = append(errs, err)
			continue
		}
		for _, ch := range found {
			job.Left = append(slices.Clone(job.Left), core.Left{Place: ch.Place, Reason: "supposed", By: s.c.by()})
			words = append(words, ch.Place.String()+" left as it is")
		}
	}
	req, err := s.request(ctx, job)
	if err != nil {
		return req, nil, err
	}
	more, wrong := w.terms(&req.Terms)
	if errs = append(errs, wrong...); len(errs) > 0 {
		return req, nil, errs
	}
	return req, append(words, more...), nil
}

// terms puts the supposed rates and prices into the shop's.
func (w *supposed) terms(t *core.Terms) (words []string, errs faults) {
	t.Rates, t.Prices = slices.Clone(t.Rates), slices.Clone(t.Prices)
	for _, r := range w.rates {
		skill, hour, ok := strings.Cut(r, "=")
		m, err := core.NewMoney(hour, t.Currency)
		if !ok || err != nil {
			errs = append(errs, core.Errorf(core.Invalid, "write it like mechanic=95", "--rate %q", r))
			continue
		}
		t.Rates = slices.DeleteFunc(t.Rates, func(x core.Rate) bool { return x.Skill == skill })
		t.Rates = append(t.Rates, core.Rate{Skill: skill, Hour: m})
		words = append(words, "an hour of "+skill+" at "+amount(m))
	}
	if w.from != "" {
		sold := map[string]bool{}
		for _, p := range t.Prices {
			if strings.EqualFold(p.Supplier, w.from) {
				sold[p.Item] = true
			}
		}
		if len(sold) == 0 {
			errs = append(errs, core.Errorf(core.NotFound, "see who sells what: fettle price list", "no price is from %q", w.from))
		}
		t.Prices = slices.DeleteFunc(t.Prices, func(p core.PriceEntry) bool { return sold[p.Item] && !strings.EqualFold(p.Supplier, w.from) })
		words = append(words, "all that "+w.from+" has a price for from there")
	}
	for _, p := range w.prices {
		item, each, ok := strings.Cut(p, "=")
		m, err := core.NewMoney(each, t.Currency)
		if !ok || err != nil {
			errs = append(errs, core.Errorf(core.Invalid, "write it like gear-pair=280", "--price %q", p))
			continue
		}
		t.Prices = slices.DeleteFunc(t.Prices, func(x core.PriceEntry) bool { return x.Item == item })
		t.Prices = append(t.Prices, core.PriceEntry{Item: item, Supplier: "supposed", Kind: "new",
			Price: core.Money3{Low: each, Likely: each, High: each, Currency: t.Currency}, Date: t.Today})
		words = append(words, item+" at "+amount(m)+" each")
	}
	return words, errs
}

// said gives a flag of the job as it was given.
func (w *supposed) said(flag string) string {
	j := w.job
	switch flag {
	case "extent":
		return j.extent
	case "name":
		return strings.Join(j.names, ", ")
	case "use":
		return j.use
	case "originality":
		return fmt.Sprint(j.originality)
	case "horizon-km":
		return fmt.Sprint(j.horizonKM)
	case "horizon-years":
		return fmt.Sprint(j.horizonYears)
	case "stored":
		return j.stored
	case "ran":
		return j.ran
	case "worked":
		return j.worked
	case "service-km":
		return fmt.Sprint(j.serviceKM)
	}
	return fmt.Sprint(j.ageYears)
}

func printComparison(w io.Writer, job core.Job, words []string, c core.Comparison, all bool) {
	fmt.Fprintf(w, "%s  %s\n\nWHAT IF  %s\n\n", job.Number, job.Title, strings.Join(words, "; "))
	t := newTable("", ">as it is", ">then", ">more")
	for _, s := range c.Sums {
		t.add(s.Name, amount(s.Was), amount(s.Now), signed(s.More))
	}
	t.add("hours expected", hoursShown(c.Hours[0]), hoursShown(c.Hours[1]), fmt.Sprintf("%+.1f", c.Hours[1]-c.Hours[0]))
	t.print(w, "  ", screen)
	if len(c.Choices)+len(c.Lines) == 0 {
		fmt.Fprintln(w, "\nNo part is decided otherwise, and no line changes.")
		return
	}
	if len(c.Choices) > 0 {
		fmt.Fprintf(w, "\nDECIDED OTHERWISE (%d)\n", len(c.Choices))
		t := newTable("part", "as it is", "then")
		for _, d := range firstOf(c.Choices, all) {
			t.add(strings.TrimSpace(d.PartName+" "+d.Position), orElse(d.Was, "not in the plan"), orElse(d.Now, "not in the plan"))
		}
		t.print(w, "  ", screen)
	}
	if len(c.Lines) > 0 {
		fmt.Fprintf(w, "\nLINES THAT DIFFER (%d)\n", len(c.Lines))
		t := newTable(">as it is", ">then", ">more", "line")
		for _, l := range firstOf(c.Lines, all) {
			t.add(amount(l.Was), amount(l.Now), signed(l.More), l.Name)
		}
		t.print(w, "  ", screen)
	}
	if !all && (len(c.Choices) > fewDifferences || len(c.Lines) > fewDifferences) {
		fmt.Fprintln(w, "\nThe largest are shown; --all shows every one.")
	}
}

// firstOf gives the first few, or all.
func firstOf[T any](list []T, all bool) []T {
	if all || len(list) <= fewDifferences {
		return list
	}
	return list[:fewDifferences]
}

func orElse(s, otherwise string) string {
	if s == "" {
		return otherwise
	}
	return s
}
