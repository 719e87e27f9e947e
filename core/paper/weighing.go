package paper

import (
	"strings"

	"github.com/fettle-tools/fettle/core"
)

// Weighing shows the owner what more money buys: less risk of doing it again, or a shorter wait. Nothing is agreed by it. It needs the weighing.
func Weighing(in StoryInput) Document {
	d := in.open("What more money buys")
	w := in.Weighing
	if len(w.Risks) == 0 || len(w.Waits) == 0 {
		return d.with(Paragraph{Text: "No plan could be made yet: there is nothing to weigh."})
	}
	d.Blocks = append(d.Blocks, Paragraph{Text: "These are sound plans for the same job, from the least with every safety item done to the cheapest with its risk counted in. " +
		"Less money leaves parts as they are that no life hangs on: they will have to be opened again sooner or later. Say which line you want, and the scope is written for it. Nothing is agreed by this paper."},
		Heading{1, "Money against risk"})
	if c, ok := RiskCurve(w.Risks); ok {
		d.Blocks = append(d.Blocks, c)
	}
	t := Table{Compact: true, Columns: []Column{{Head: "Total", Right: true}, {Head: "More", Right: true}, {Head: "Risk", Right: true}, {Head: "Left", Right: true}, {Head: "For it", Share: 8}}}
	for i, x := range w.Risks {
		more, words := "", "The least with every safety item done."
		if i > 0 {
			more, words = amount(x.More), forIt(x)
		}
		t.Rows = append(t.Rows, Row{Cells: []Cell{{Text: amount(x.Total)}, {Text: more}, {Text: amount(x.Risk)}, {Text: number(float64(x.Left), 0)}, {Text: words}}})
	}
	d.Blocks = append(d.Blocks, t, Paragraph{Small: true, Text: "Total: expected, before tax, with what is held in reserve for parts not seen yet. Risk: what opening it again within the time it is to last is expected to cost, " +
		"each part by itself, which errs on the high side. Left: parts left as they are; none of them is one on which lives hang."})
	d.Blocks = append(d.Blocks, Heading{1, "Money against waiting"})
	if len(w.Waits) == 1 {
		return d.with(Paragraph{Text: "The cheapest plan waits " + number(w.Waits[0].Weeks, 1) + " weeks, likely, for goods and work outside. No other sound plan waits less. A wait may turn out longer: the range of the finish, in the scope, counts that in."})
	}
	t = Table{Compact: true, Columns: []Column{{Head: "Longest wait", Right: true, Share: 3}, {Head: "Total", Right: true}, {Head: "More", Right: true}, {Head: "For it", Share: 8}}}
	for i, x := range w.Waits {
		more, words := "", "The cheapest, its risk counted in."
		if i > 0 {
			more, words = amount(x.More), forIt(x)
		}
		t.Rows = append(t.Rows, Row{Cells: []Cell{{Text: number(x.Weeks, 1) + " weeks"}, {Text: amount(x.Total)}, {Text: more}, {Text: words}}})
	}
	return d.with(t, Paragraph{Small: true, Text: "The longest likely wait for goods or work outside. Waits run side by side, so the longest counts. One may turn out longer: the range of the finish, in the scope, counts that in."})
}

// with adds blocks at the end.
func (d Document) with(bs ...Block) Document {
	d.Blocks = append(d.Blocks, bs...)
	return d
}

// fewNamed is how many parts a line names: those that lower the risk most.
const fewNamed = 5

func forIt(x core.Weighed) string {
	words := core.SayDifferences(x.Differs)
	rest := ""
	if n := len(words) - fewNamed; n > 0 {
		words, rest = words[:fewNamed], "; and "+number(float64(n), 0)+" more"
	}
	return sentence(strings.Join(words, "; ") + rest)
}

// RiskCurve draws risk against money. ok is false where there is nothing to draw.
func RiskCurve(risks []core.Weighed) (c Curve, ok bool) {
	if len(risks) < 2 || core.Minor(risks[0].Risk) <= 0 {
		return c, false
	}
	code := risks[0].Risk.CurrencyCode()
	digits, _ := core.CurrencyDigits(code)
	scale := int64(1)
	for range digits {
		scale *= 10
	}
	step := int64(niceStep(float64(core.Minor(risks[0].Risk)/scale)/5)) * scale
	top := (core.Minor(risks[0].Risk) + step - 1) / step * step
	height := func(minor int64) float64 { return float64(minor) / float64(top) }
	c = Curve{Label: "Expected total before tax, " + code, Side: "Expected cost of opening it again, " + code}
	for _, x := range risks {
		c.Points, c.Heights = append(c.Points, x.Total), append(c.Heights, height(core.Minor(x.Risk)))
	}
	for v := int64(0); v <= top; v += step {
		c.Levels = append(c.Levels, CurveLevel{height(v), toWhole(core.MinorMoney(v, code), 1)})
	}
	last := len(risks) - 1
	c.Marks = []CurveMark{{"least", risks[0].Total, c.Heights[0]}, {"cheapest with its risk", risks[last].Total, c.Heights[last]}}
	return c, true
}
