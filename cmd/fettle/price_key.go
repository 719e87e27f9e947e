package main

import (
	"cmp"
	"context"
	"fmt"
	"math"
	"slices"
	"strings"

	"github.com/fettle-tools/fettle/core"
)

// priceKeys lists what a price may be written down for: the items of the sheets served and of the strip plan, and the operations that are
// done outside. A subsystem that does not answer is left out.
func (s *shop) priceKeys(ctx context.Context) (keys []string) {
	_ = s.plugins.Start(ctx) // side by side; what does not start has no items here
	items := func(list []core.Item) {
		for _, it := range list {
			keys = append(keys, it.Key)
		}
	}
	for _, n := range s.names {
		sheets, err := s.describe(ctx, core.Job{}, []string{n})
		if err != nil {
			continue
		}
		for _, us := range sheets {
			for _, o := range us.Sheet.Operations {
				items(o.Items)
				if !o.Outwork.Empty() {
					keys = append(keys, o.ID)
				}
			}
			for _, step := range us.Sheet.Steps {
				items(step.OneUse)
			}
		}
	}
	if plan, err := s.stripPlan(); err == nil {
		for _, step := range plan.Steps {
			items(step.OneUse)
		}
	}
	return keys
}

// ask is one price to ask for.
type ask struct {
	core.OrderItem
	Why string `json:"why"`
}

// toAsk gathers what the order's money rests on by typical or old prices, by key: goods, and work done outside. It is in the order of the lines.
func toAsk(p core.Plan) []ask {
	out := []ask{}
	add := func(it core.OrderItem, why string) {
		for i := range out {
			if out[i].Key == it.Key {
				out[i].Count += it.Count
				return
			}
		}
		out = append(out, ask{it, why})
	}
	for _, l := range p.WorkOrder.Lines {
		for _, it := range l.Items {
			switch {
			case it.Typical:
				add(it, "typical, not asked")
			case it.Old:
				add(it, "asked too long ago")
			}
		}
		if it, ok := typicalOutwork(l); ok {
			add(it, "typical, not asked")
		}
	}
	return out
}

// toAskFirst is toAsk, the dearest first.
func toAskFirst(p core.Plan) []ask {
	asks := toAsk(p)
	worth := func(a ask) float64 { return a.Count * float64(core.Minor(a.Each)) }
	slices.SortStableFunc(asks, func(a, b ask) int { return cmp.Compare(worth(b), worth(a)) })
	return asks
}

// typicalOutwork is the work outside that a line rests on by a typical price: what the line's typical money is beyond its goods. The money of
// a reserve stands there at its chance.
func typicalOutwork(l core.Line) (core.OrderItem, bool) {
	money := float64(core.Minor(l.Typical))
	if l.Chance != nil && *l.Chance > 0 {
		money /= *l.Chance
	}
	for _, it := range l.Items {
		if it.Typical {
			money -= it.Count * float64(core.Minor(it.Each))
		}
	}
	if l.Outwork == "" || money < 100 { // less is what rounding leaves
		return core.OrderItem{}, false
	}
	operation := l.ID[strings.LastIndex(l.ID, ":")+1:]
	operation, _, _ = strings.Cut(operation, "/") // one price for every piece of a kind
	name := fmt.Sprintf("Outwork, %s: %s", l.Outwork, strings.TrimPrefix(l.Name, "Reserve: "))
	return core.OrderItem{Key: operation, Name: name, Count: 1, Each: core.MinorMoney(int64(math.Round(money)), l.Typical.CurrencyCode()), Typical: true}, true
}
