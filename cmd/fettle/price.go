package main

import (
	"cmp"
	"context"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"time"

	"github.com/spf13/cobra"

	"github.com/fettle-tools/fettle/core"
	"github.com/fettle-tools/fettle/core/config"
	"github.com/fettle-tools/fettle/core/web"
)

func (c *command) priceCommand() *cobra.Command {
	cmd := &cobra.Command{Use: "price", Short: "The price book: what things cost, from whom, asked when", Example: "  fettle price ask J-001\n  fettle price set regrind 325"}
	cmd.AddCommand(c.priceListCommand(), c.priceSetCommand(), c.priceImportCommand(), c.priceMissingCommand(), c.priceUndoCommand())
	return cmd
}

func (c *command) priceListCommand() *cobra.Command {
	return &cobra.Command{
		Use: "list", Short: "The price book as it stands", Args: cobra.NoArgs, Example: "  fettle price list",
		RunE: func(cmd *cobra.Command, _ []string) error {
			return c.withShop(cmd.Context(), func(s *shop) error {
				prices, err := s.book.Prices(cmd.Context())
				if err != nil {
					return err
				}
				if c.asJSON() {
					return writeJSON(c.out, prices)
				}
				t := newTable("item", ">low", ">likely", ">high", "", "kind", "from", "asked")
				for _, p := range prices {
					asked := p.Date.In(s.settings().Zone).Format("2006-01-02")
					if c.clock().Sub(p.Date) > core.PriceOldDays*24*time.Hour {
						asked += ", old"
					}
					t.add(p.Item, p.Price.Low, p.Price.Likely, p.Price.High, p.Price.Currency, p.Kind, p.Supplier, asked)
				}
				t.print(c.out, "", screen)
				return nil
			})
		},
	}
}

func (c *command) priceSetCommand() *cobra.Command {
	p := core.PriceEntry{}
	cmd := &cobra.Command{
		Use: "set ITEM PRICE [LIKELY HIGH]", Short: "Write down a price: one figure, or low, likely and high", Args: cobra.RangeArgs(2, 4),
		Long:    "ITEM is the key of what is priced, or its name, as the sheets and: fettle price ask have them.",
		Example: "  fettle price set gearbox-overhaul-parts 240 390 700 --from \"Kestrel Row Reproductions\" --kind reproduction --lead-weeks 3",
		RunE: func(cmd *cobra.Command, args []string) error {
			return c.withShop(cmd.Context(), func(s *shop) error {
				three := args[1:]
				switch len(three) {
				case 1:
					three = []string{three[0], three[0], three[0]}
				case 2:
					return core.Errorf(core.Invalid, "give one price, or three", "low and likely without high")
				}
				p.Item, p.Price = args[0], core.Money3{Low: three[0], Likely: three[1], High: three[2]}
				p, odd, err := s.setPrice(cmd.Context(), c.by(), p)
				if err != nil {
					return err
				}
				if odd != nil {
					fmt.Fprintf(c.err, "fettle: %s\n  next: %s\n", odd.What, odd.Next)
				}
				return c.report(p, fmt.Sprintf("%s: %s, %s, %s %s from %s", p.Item, p.Price.Low, p.Price.Likely, p.Price.High, p.Price.Currency, cmp.Or(p.Supplier, "nobody named")))
			})
		},
	}
	f := cmd.Flags()
	f.StringVar(&p.Supplier, "from", "", "`NAME` of who sells it")
	f.StringVar(&p.Kind, "kind", "new", "`KIND` of supply: "+strings.Join(core.PriceKinds, ", "))
	f.StringVar(&p.Exchange, "exchange", "", "`AMOUNT` held back until the old part is returned")
	f.Float64Var(&p.LeadWeeks.Likely, "lead-weeks", 0, "`WEEKS` it takes to come")
	f.StringVar(&p.Note, "note", "", "`WHAT` else was said")
	return cmd
}

// setPrice writes a price down, of an item called by its key or by its name. Low and high may be left out. What is odd about it, that no sheet
// asks for it, is said beside it.
func (s *shop) setPrice(ctx context.Context, by string, p core.PriceEntry) (_ core.PriceEntry, odd *core.Error, err error) {
	if p.Item = strings.TrimSpace(p.Item); p.Item == "" {
		return p, nil, core.Errorf(core.Invalid, "see: fettle price ask", "it is not said what it is the price of")
	}
	p.Price.Currency = s.settings().Currency
	p.Price.Low, p.Price.High = cmp.Or(p.Price.Low, p.Price.Likely), cmp.Or(p.Price.High, p.Price.Likely)
	var wrong faults
	for _, n := range []*string{&p.Price.Low, &p.Price.Likely, &p.Price.High} {
		if _, err := core.NewMoney(*n, p.Price.Currency); err == nil {
			continue // as it was typed
		}
		m, err := core.ReadAmount(*n, p.Price.Currency)
		if err != nil && !slices.ContainsFunc(wrong, func(x error) bool { return x.Error() == err.Error() }) {
			wrong = append(wrong, err)
		}
		*n = m.Number()
	}
	if len(wrong) > 0 {
		return p, nil, wrong
	}
	if !slices.Contains(core.PriceKinds, p.Kind) {
		return p, nil, core.Errorf(core.Invalid, "use one of: "+strings.Join(core.PriceKinds, ", "), "%q is no kind of supply", p.Kind)
	}
	if three, ok := p.Price.Minor3(p.Price.Currency); ok && three.Low < 0 {
		return p, nil, core.Errorf(core.Invalid, "write an amount of 0 or more", "%s is less than nothing", p.Price.Low)
	}
	if three, ok := p.Price.Minor3(p.Price.Currency); !ok || three.Low > three.Likely || three.Likely > three.High {
		return p, nil, core.Errorf(core.Invalid, "give low, likely, high in this order", "%s, %s, %s do not rise", p.Price.Low, p.Price.Likely, p.Price.High)
	}
	items := s.priced(s.served(ctx))
	if p.Item, err = keyOf(p.Item, items, "items"); err != nil {
		return p, nil, err
	}
	p.Date = s.c.clock().UTC()
	if err := s.book.AddPrices(ctx, by, []core.PriceEntry{p}); err != nil {
		return p, nil, err
	}
	if !slices.ContainsFunc(items, func(it web.Named) bool { return it.Key == p.Item }) {
		odd = core.Errorf(core.NotFound, "see: fettle price ask", "noted, but no sheet here asks for %q", p.Item)
		var called []string
		for _, it := range items {
			called = append(called, it.Key, it.Name)
		}
		if n := core.Nearest(p.Item, called); n != "" {
			odd.Next = fmt.Sprintf("did you mean %q? then: fettle price undo", n)
		}
	}
	return p, odd, nil
}

func (c *command) priceImportCommand() *cobra.Command {
	return &cobra.Command{
		Use: "import FILE.csv", Short: "Take prices from a CSV file; importing it twice changes nothing", Args: cobra.ExactArgs(1),
		Long:    "Columns: item,supplier,kind,low,likely,high,currency,exchange,lead_low,lead_likely,lead_high,date,note.",
		Example: "  fettle price import prices.csv",
		RunE: func(cmd *cobra.Command, args []string) error {
			return c.withShop(cmd.Context(), func(s *shop) error {
				data, err := os.ReadFile(args[0])
				if err != nil {
					return &core.Error{Code: core.NotFound, What: "the file cannot be read", Where: args[0], Next: "check its name", Err: err}
				}
				prices, bad := config.ReadPrices(data, filepath.Base(args[0]))
				added, err := s.book.ImportPrices(cmd.Context(), c.by(), prices)
				if err != nil {
					return err
				}
				if err := c.tellPrices(len(added.New), len(added.There), len(bad)); err != nil {
					return err
				}
				var told faults
				for _, f := range bad {
					told = append(told, &core.Error{Code: core.Invalid, What: f.What, Where: f.Place(), Next: f.Next})
				}
				return told.orNil()
			})
		},
	}
}

func (c *command) tellPrices(fresh, there, refused int) error {
	if c.asJSON() {
		return writeJSON(c.out, imported{fresh, there, refused})
	}
	c.print(fmt.Sprintf("%d prices new, %d already there, %d faults", fresh, there, refused))
	return nil
}

func (c *command) priceMissingCommand() *cobra.Command {
	return &cobra.Command{
		Use: "ask [JOB]", Short: "What a job's money rests on that nobody has asked, dearest first", Args: cobra.MaximumNArgs(1), Example: "  fettle price ask J-001",
		RunE: func(cmd *cobra.Command, args []string) error {
			return c.withPlan(cmd.Context(), args, func(_ *shop, p core.Plan) error {
				asks := toAskFirst(p)
				if c.asJSON() {
					return writeJSON(c.out, asks)
				}
				t := newTable("item", "what", ">count", ">typical each", "why")
				for _, a := range asks {
					t.add(a.Key, a.Name, core.FormatNumber(a.Count), amount(a.Each), a.Why)
				}
				t.print(c.out, "", screen)
				return nil
			})
		},
	}
}
