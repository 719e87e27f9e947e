package paper

import (
	"fmt"

	"github.com/fettle-tools/fettle/core"
)

// ownersChoices are the parts that are rebuilt or renewed where another way is open, and what it would cost more.
func (in Input) ownersChoices(as []area) []Block {
	t := Table{Compact: true, Columns: []Column{{Head: "Part, and what is chosen", Share: 5}, {Head: "Open to the owner instead", Share: 6}, {Head: "Costs more", Right: true}}}
	var pins []string
	var costs []core.Money
	for _, a := range as {
		group := Row{Group: true, Cells: []Cell{{Text: a.Title}}}
		for _, g := range a.Groups {
			c := g.Choices[0]
			if c.Pinned != nil {
				pins = append(pins, fmt.Sprintf("%s, fixed by %s: %s", g.Spoken(), c.Pinned.By, sentence(c.Name)))
				if c.PinCosts != nil {
					costs = append(costs, *c.PinCosts)
				}
			}
			for _, r := range openWays(g) {
				if group.Group {
					t.Rows, group = append(t.Rows, group), Row{}
				}
				t.Rows = append(t.Rows, Row{Cells: []Cell{{Text: r.members.Spoken() + ": " + chosenWords[c.Kind]}, {Text: r.name}, {Text: reach(r.low, r.high)}}})
			}
		}
	}
	if len(t.Rows) == 0 && len(pins) == 0 {
		return nil
	}
	bs := []Block{Heading{1, "The owner's choices"},
		Paragraph{Text: "What is chosen is the cheapest sound way, with the risk of having to do it again counted in. Another way is open for these: tell the shop before signing. " +
			"A part that is used again may be renewed as well; what that costs stands in the appendix."}}
	if len(t.Rows) > 0 {
		bs = append(bs, t)
	}
	if len(pins) > 0 {
		bs = append(bs, List{pins})
	}
	if len(costs) > 0 {
		// The plan prices all that is fixed together and says the sum at each.
		bs = append(bs, Paragraph{Text: fmt.Sprintf("What is fixed costs %s more, all together, than the cheapest sound way without it.", amount(costs[0]))})
	}
	return bs
}

// chosenWords are what is chosen, in a word; how it is done stands with the work.
var chosenWords = map[core.RemedyKind]string{core.Reuse: "used again", core.Rebuild: "rebuilt", core.Replace: "new", core.LeftAsIs: "left", core.Undecided: "not settled"}

// openWays are those of a group that is not simply used again. One at the same money is the shop's to choose.
func openWays(g group) []otherWay {
	open := group{Part: g.Part, PartName: g.PartName, All: g.All}
	for k, c := range g.Choices {
		sound := c.Kind == core.Reuse && k < len(g.Conditions) && isFit(g.Conditions[k], c)
		if costsMore(c) && !sound && core.Minor(*c.RunnerUp.CostsMore) != 0 {
			open.Choices = append(open.Choices, c)
		}
	}
	return otherWaysOf(open)
}

// costsMore reports whether there is a next best way that is told in money. Within what may be spent it is told in risk alone.
func costsMore(c core.Choice) bool { return c.RunnerUp != nil && c.RunnerUp.CostsMore != nil }

// otherWay is the next best way for some members of a group: the least and the most that it costs more, and the prices at which
// the choice would turn.
type otherWay struct {
	members           group
	name, turns       string
	low, high         core.Money
	flipLow, flipHigh core.Money
}

// otherWaysOf gathers the members of a group by their next best way.
func otherWaysOf(g group) []otherWay {
	var out []otherWay
	for _, c := range g.Choices {
		if !costsMore(c) && c.FlipPrice == nil {
			continue
		}
		w := otherWay{members: group{PartName: g.PartName, All: g.All}}
		if costsMore(c) {
			w.name = c.RunnerUp.Name
		}
		if c.FlipPrice != nil {
			w.turns = "Turns on: " + c.FlipOn
		}
		i := 0
		for i < len(out) && (out[i].name != w.name || out[i].turns != w.turns) {
			i++
		}
		if i == len(out) {
			out = append(out, w)
		}
		out[i].take(c)
	}
	return out
}

func (w *otherWay) take(c core.Choice) {
	w.members.Choices = append(w.members.Choices, c)
	if costsMore(c) {
		w.low, w.high = widen(w.low, w.high, *c.RunnerUp.CostsMore)
	}
	if c.FlipPrice != nil {
		w.flipLow, w.flipHigh = widen(w.flipLow, w.flipHigh, *c.FlipPrice)
	}
}

// widen takes an amount into a range; one without a currency is empty.
func widen(low, high, m core.Money) (core.Money, core.Money) {
	if low.CurrencyCode() == "" {
		return m, m
	}
	if core.Minor(m) < core.Minor(low) {
		low = m
	}
	if core.Minor(m) > core.Minor(high) {
		high = m
	}
	return low, high
}

// reach is one amount, or the least and the most.
func reach(low, high core.Money) string {
	if core.Minor(low) == core.Minor(high) {
		return amount(low)
	}
	return amount(low) + "–" + amount(high)
}

// Way is another way that is open to the owner for parts that are not simply used again.
type Way struct {
	Parts   string // as spoken
	Chosen  string // what becomes of them as it is
	Instead string
	Low     core.Money // what it costs more, for the part where it is least
	High    core.Money // and where it is most
	Place   core.Place
}

// OpenWays are those of one subsystem of one unit.
func OpenWays(p core.Plan, subsystem, unit string) []Way {
	var out []Way
	for _, a := range areas(p) {
		if a.Subsystem != subsystem || a.Unit != unit {
			continue
		}
		for _, g := range a.Groups {
			for _, r := range openWays(g) {
				out = append(out, Way{r.members.Spoken(), chosenWords[g.Kind()], r.name, r.low, r.high, r.members.Choices[0].Place})
			}
		}
	}
	return out
}
