package main

import (
	"cmp"
	"context"
	"fmt"
	"math"
	"slices"
	"strings"

	"github.com/fettle-tools/fettle/core"
	"github.com/fettle-tools/fettle/core/web"
)

// served are the sheets of all subsystems as they are without a job. A subsystem that does not answer is left out.
func (s *shop) served(ctx context.Context) (sheets []core.UnitSheet) {
	_ = s.plugins.Start(ctx) // side by side; what does not start is left out
	for _, n := range s.names {
		if got, err := s.describe(ctx, core.Job{}, []string{n}); err == nil && len(got) > 0 {
			sheets = append(sheets, got[0])
		}
	}
	return sheets
}

// priced lists what a price may be written down for: the items of the sheets and of the strip plan, and the operations that are done outside. Each
// key and name stands once.
func (s *shop) priced(sheets []core.UnitSheet) (out []web.Named) {
	seen := map[web.Named]bool{}
	items := func(list ...core.Item) {
		for _, it := range list {
			if n := (web.Named{Key: it.Key, Name: it.Name}); !seen[n] {
				seen[n] = true
				out = append(out, n)
			}
		}
	}
	for _, us := range sheets {
		for _, o := range us.Sheet.Operations {
			items(o.Items...)
			if !o.Outwork.Empty() {
				items(core.Item{Key: o.ID, Name: o.Name})
			}
		}
		for _, step := range us.Sheet.Steps {
			items(step.OneUse...)
		}
	}
	if plan, err := s.stripPlan(); err == nil {
		for _, step := range plan.Steps {
			items(step.OneUse...)
		}
	}
	return out
}

// priceKeys lists the keys that a price may be written down for.
func (s *shop) priceKeys(ctx context.Context) (keys []string) {
	for _, it := range s.priced(s.served(ctx)) {
		keys = append(keys, it.Key)
	}
	return keys
}

// keyOf is the key of one of the things of a sort, called by its key or by its name. What is none of them is its own key.
func keyOf(typed string, things []web.Named, sort string) (string, error) {
	var keys []string
	for _, it := range things {
		if it.Key == typed {
			return typed, nil
		}
		if strings.EqualFold(it.Name, typed) && !slices.Contains(keys, it.Key) {
			keys = append(keys, it.Key)
		}
	}
	switch len(keys) {
	case 0:
		return typed, nil
	case 1:
		return keys[0], nil
	}
	return "", core.Errorf(core.Invalid, "name one of them: "+strings.Join(keys, ", "), "%q is the name of %d %s", typed, len(keys), sort)
}

// ask is one price to ask for.
type ask struct {
	core.OrderItem
	Why string `json:"why"`
}

// toAsk gathers what the order's money rests on by typical or old prices, or lacks, by key: goods, and work done outside. It is in the order of the lines.
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
			case it.Unpriced():
				add(it, "no price in "+it.Each.CurrencyCode())
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
	name := fmt.Sprintf("Outwork, %s: %s", l.Outwork, l.Bare())
	return core.OrderItem{Key: operation, Name: name, Count: 1, Each: core.MinorMoney(int64(math.Round(money)), l.Typical.CurrencyCode()), Typical: true}, true
}
