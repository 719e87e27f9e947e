package paper

import (
	"fmt"
	"slices"
	"strings"

	"github.com/fettle-tools/fettle/core"
)

// bundle is the lines of one piece of work at several positions, read as one: its amount is the sum of their rounded amounts.
type bundle struct {
	Name   string // without its position
	Lines  []core.Line
	At     []string // the positions
	Hours  core.Range3
	Low    core.Money
	High   core.Money
	Amount core.Money
}

// bundles gathers lines that are the same piece of work, charged in the same way, in the order of the first of each.
func bundles(ls []core.Line) []bundle {
	var out []bundle
	index := map[string]int{}
	for _, l := range ls {
		base, at := cutPosition(l)
		key := strings.Join([]string{string(l.Kind), l.Subsystem, l.Unit, base, charge(l)}, "\x00")
		i, ok := index[key]
		if !ok {
			i = len(out)
			index[key] = i
			out = append(out, bundle{Name: withoutPosition(lineName(l), at), Low: sum(l.Amount.CurrencyCode()), High: sum(l.Amount.CurrencyCode()), Amount: sum(l.Amount.CurrencyCode())})
		}
		out[i].add(l, at)
	}
	return out
}

func (b *bundle) add(l core.Line, at string) {
	code := l.Amount.CurrencyCode()
	b.Lines = append(b.Lines, l)
	b.Low, b.High, b.Amount = sum(code, b.Low, l.Low), sum(code, b.High, l.High), sum(code, b.Amount, l.Amount)
	b.Hours = b.Hours.Add(l.Hours)
	if at != "" {
		b.At = append(b.At, at)
	}
}

// cutPosition parts the id of a line into its piece of work and its position.
func cutPosition(l core.Line) (base, at string) {
	if i := strings.LastIndexByte(l.ID, '/'); i > 0 {
		return l.ID[:i], l.ID[i+1:]
	}
	return l.ID, ""
}

// withoutPosition is a name without the position at its end.
func withoutPosition(name, at string) string {
	if at == "" {
		return name
	}
	for _, end := range []string{" (" + at + ")", ", " + at} {
		if i := strings.Index(name, end); i > 0 {
			return name[:i] + name[i+len(end):]
		}
	}
	return name
}

// Title is the work with where it is done: "Replace one pushrod, 2 times: 3, 8".
func (b bundle) Title() string {
	s := b.Name
	if len(b.Lines) > 1 && !slices.Contains([]core.LineKind{core.LineStrip, core.LineRefit, both}, b.Lines[0].Kind) {
		s += fmt.Sprintf(", %d times", len(b.Lines))
	}
	if at := spokenAt(b.At, nil); at != "" {
		s += ": " + at
	}
	return s
}

// Places are the parts that the lines serve, each once.
func (b bundle) Places() []core.Place {
	var out []core.Place
	seen := map[core.Place]bool{}
	for _, l := range b.Lines {
		for _, p := range l.Places {
			if !seen[p] {
				seen[p], out = true, append(out, p)
			}
		}
	}
	return out
}

// Reach is the range of the lines together; of what is held back, the most.
func (b bundle) Reach() string {
	if b.Lines[0].Kind == core.LineReserve {
		return strings.TrimPrefix(upTo(b.High), "up to ")
	}
	if charge(b.Lines[0]) == chargeFixed {
		return "fixed"
	}
	return span(b.Low, b.High)
}

// Chances are those of the lines: one figure, or the least and the greatest.
func (b bundle) Chances() string {
	low, high := 2.0, -1.0
	for _, l := range b.Lines {
		if l.Chance != nil {
			low, high = min(low, *l.Chance), max(high, *l.Chance)
		}
	}
	switch {
	case high < 0:
		return ""
	case percent(low) == percent(high):
		return percent(high)
	}
	return strings.TrimSuffix(percent(low), "%") + "–" + percent(high)
}

// Each is what one of several lines comes to, or each of them where they differ; "" of a single line.
func (b bundle) Each() string {
	var as []string
	for _, l := range b.Lines {
		as = append(as, amount(l.Amount))
	}
	if len(as) == 1 {
		return ""
	}
	if one := unique(as); len(one) == 1 {
		return one[0]
	}
	return strings.Join(as, ", ")
}

// Items are the goods of all lines, each once with how many.
func (b bundle) Items() string {
	var items []core.OrderItem
	for _, l := range b.Lines {
		for _, it := range l.Items {
			i := slices.IndexFunc(items, func(x core.OrderItem) bool { return x.Key == it.Key })
			if i < 0 {
				items = append(items, it)
				continue
			}
			items[i].Count += it.Count
		}
	}
	var out []string
	for _, it := range items {
		out = append(out, number(it.Count, 2)+" × "+it.Name)
	}
	return strings.Join(out, "; ")
}

// Cautions of the lines, each once.
func (b bundle) Cautions() []string {
	var out []string
	for _, l := range b.Lines {
		for _, c := range l.Cautions {
			out = append(out, "Caution: "+sentence(c.Text))
		}
	}
	return unique(out)
}

// amounts adds up bundles, in the currency of the paper.
func amounts(code string, bs []bundle) core.Money {
	var ms []core.Money
	for _, b := range bs {
		ms = append(ms, b.Amount)
	}
	return sum(code, ms...)
}

// How a line comes to be paid.
const (
	chargeReserve = "held back"
	chargeFixed   = "fixed"
	chargeTime    = "time used"
	chargeCost    = "at cost"
)

func charge(l core.Line) string {
	switch {
	case l.Kind == core.LineReserve:
		return chargeReserve
	case core.Minor(l.Low) == core.Minor(l.High):
		return chargeFixed
	case l.Hours != (core.Range3{}):
		return chargeTime
	}
	return chargeCost
}
