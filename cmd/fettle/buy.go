package main

import (
	"cmp"
	"context"
	"slices"
	"strconv"
	"strings"

	"github.com/spf13/cobra"

	"github.com/fettle-tools/fettle/core"
)

// buyFlags are what goods are ordered with, and what is said of them later.
type buyFlags struct {
	p                    core.Purchase
	served               []string
	count                string
	price, exchange, due string
	wrong, returned      string
	arrived, back        bool
	lies                 string
}

func (c *command) buyCommand() *cobra.Command {
	var f buyFlags
	cmd := &cobra.Command{
		Use: "buy JOB [ORDER]", Short: "Order goods, say what became of them; or what is still to buy, from whom", Args: cobra.RangeArgs(1, 2),
		Long: `--for names the part that it is for, as the plan prints it, or a line of the order, or a change like C-001. Supplier, price and exchange charge are the
price book's where somebody was asked; what is typical is asked for. It is refused while the line is only held in reserve or no agreement covers it.
With ORDER, like B-001, it says what became of it.`,
		Example: `  fettle buy J-001
  fettle buy J-001 --for gearbox/synchro-ring --from "Kestrel Row Reproductions" --price 390 --due "3 weeks"
  fettle buy J-001 B-001 --arrived --lies "shelf 4"
  fettle buy J-001 B-001 --wrong "standard size, -.020 was ordered"
  fettle buy J-001 B-001 --exchange-back`,
		RunE: func(cmd *cobra.Command, args []string) error {
			ctx := cmd.Context()
			if len(args) == 2 {
				return c.withStory(ctx, args[0], func(s *shop, story core.Story) error { return c.delivered(ctx, s, story, strings.ToUpper(args[1]), f) })
			}
			if !acting(cmd) {
				return c.withOrder(ctx, args[0], nil, func(s *shop, story core.Story, p core.Plan) error { return c.showBuying(s, story, p) })
			}
			return c.withOrder(ctx, args[0], f.served, func(s *shop, story core.Story, p core.Plan) error {
				b, err := f.purchase(ctx, s, story, p)
				if err != nil {
					return err
				}
				if story, err = s.book.Act(ctx, story.Job.Number, c.by(), &b); err != nil {
					return err
				}
				return c.bought(s, story, b.ID)
			})
		},
	}
	fl := cmd.Flags()
	fl.StringVar(&f.p.From, "from", "", "`NAME` of the supplier")
	fl.StringSliceVar(&f.served, "for", nil, "the `PART`, line or change that it is for; may be repeated")
	fl.StringVar(&f.p.Item, "item", "", "`WHAT`: an item of the price book, or words; needed where the line takes several")
	fl.StringVar(&f.count, "count", "", "`MANY`; what the order still needs if left out")
	fl.StringVar(&f.price, "price", "", "`AMOUNT` of all of it, before tax")
	fl.StringVar(&f.exchange, "exchange", "", "`AMOUNT` charged until the old unit is back")
	fl.StringVar(&f.due, "due", "", "the `DAY` promised: 2026-12-20, or \"3 weeks\"")
	fl.BoolVar(&f.arrived, "arrived", false, "it came, and is what was ordered")
	fl.StringVar(&f.wrong, "wrong", "", "it came, and is not right: `WHY`")
	fl.StringVar(&f.returned, "returned", "", "it went back, or is not wanted any more: `WHY`")
	fl.BoolVar(&f.back, "exchange-back", false, "the old unit was accepted and the charge came back")
	fl.StringVar(&f.lies, "lies", "", "`WHERE` it is put")
	return cmd
}

// delivered says what became of an order, or shows it.
func (c *command) delivered(ctx context.Context, s *shop, story core.Story, number string, f buyFlags) error {
	p := story.Bought(number)
	if p == nil {
		return core.Errorf(core.NotFound, "see: fettle buy "+story.Job.Number, "%s has no purchase %s", story.Job.Number, number)
	}
	d := core.Delivery{Purchase: number, State: p.State, ExchangeBack: f.back, Lies: f.lies}
	said := 0
	for state, is := range map[string]bool{core.PurchaseArrived: f.arrived, core.PurchaseWrong: f.wrong != "", core.PurchaseReturned: f.returned != ""} {
		if is {
			d.State, said = state, said+1
		}
	}
	d.Why = f.wrong + f.returned
	switch {
	case said > 1:
		return core.Errorf(core.Invalid, "say one of --arrived, --wrong, --returned", "%s cannot be all of that", number)
	case said == 0 && !f.back:
		return c.bought(s, story, number)
	}
	story, err := s.book.Act(ctx, story.Job.Number, c.by(), &d)
	if err != nil {
		return err
	}
	return c.bought(s, story, number)
}

// purchase makes the order. What the price book and the plan know is not asked for. All faults are told at once.
func (f buyFlags) purchase(ctx context.Context, s *shop, story core.Story, p core.Plan) (core.Purchase, error) {
	b := f.p
	var wrong faults
	note := func(err error) bool {
		if err != nil {
			wrong = append(wrong, err)
		}
		return err == nil
	}
	v, err := serve(story, p, f.served, p.Buyable)
	known := note(err)
	b.From, b.Lines, b.What = knownParty(story, b.From), v.ids, b.Item
	if f.count != "" {
		if b.Count, err = strconv.ParseFloat(strings.TrimSpace(f.count), 64); err != nil {
			note(core.Errorf(core.Invalid, "write it like 4", "%q is no number", f.count))
		}
	}
	b.Due, err = s.typedDue(f.due)
	note(err)
	b.Price, err = s.typedAmount("price", f.price)
	note(err)
	b.Exchange, err = s.typedAmountOr("exchange", f.exchange)
	note(err)
	if known {
		need, err := needed(story, p, v, b.Item)
		known = note(err)
		if len(need) == 0 && f.count == "" {
			b.Count = 1
		}
		if len(need) > 0 {
			note(f.fromBook(ctx, s, &b, need))
		}
	}
	if f.price == "" && core.Minor(b.Price) == 0 {
		note(core.Errorf(core.Invalid, "ask "+cmp.Or(b.From, "a supplier")+", then: --price AMOUNT", "the price is not known"))
	}
	if known { // of lines that are not known nothing more can be said
		wrong = append(wrong, b.Faults(&story)...)
	}
	return b, wrong.orNil()
}

// needed gives what the lines still need of one item: the one named, or the only one. None is left where words name something else.
func needed(story core.Story, p core.Plan, v served, item string) ([]core.Wanted, error) {
	var need []core.Wanted
	var keys, all []string
	for _, l := range v.lines {
		for _, it := range l.Items {
			if !slices.Contains(all, it.Key) {
				all = append(all, it.Key)
			}
		}
	}
	for _, w := range story.ToBuy(p) {
		if slices.Contains(v.ids, w.Line) && (item == "" || strings.EqualFold(w.Key, item)) {
			need = append(need, w)
			if !slices.Contains(keys, w.Key) {
				keys = append(keys, w.Key)
			}
		}
	}
	switch {
	case len(keys) > 1:
		return nil, core.Errorf(core.Invalid, "name one with --item: "+strings.Join(keys, ", "), "several things are needed for it")
	case len(keys) == 0 && item == "" && len(all) > 0:
		return nil, core.Errorf(core.Conflict, "to order more, name it: --item "+all[0]+" --count 1", "all of it is ordered already")
	}
	return need, nil
}

// fromBook fills what the order and the price book know of the goods.
func (f buyFlags) fromBook(ctx context.Context, s *shop, b *core.Purchase, need []core.Wanted) error {
	first := need[0]
	b.Item, b.What, b.Lines = first.Key, first.Name, nil
	outstanding := 0.0
	for _, w := range need {
		outstanding += w.Count
		b.Lines = append(b.Lines, w.Line)
	}
	if f.count == "" {
		b.Count = outstanding
	}
	if b.From == "" && !first.Typical {
		b.From = first.Supplier
	}
	prices, err := s.book.Prices(ctx)
	if err != nil {
		return err
	}
	for _, e := range prices {
		if e.Item != b.Item || b.From == "" || !strings.EqualFold(e.Supplier, b.From) {
			continue
		}
		if three, ok := e.Price.Minor3(s.settings().Currency); ok && f.price == "" {
			b.Price = core.MinorMoney(int64(three.Likely*b.Count+.5), s.settings().Currency)
		}
		if f.exchange == "" && e.Exchange != "" {
			if b.Exchange, err = s.typedAmountOr("exchange", e.Exchange); err != nil {
				return err
			}
		}
		return nil
	}
	return nil
}
