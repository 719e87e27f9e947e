package paper

import (
	"encoding/xml"
	"html"
	"io"
	"math"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/fettle-tools/fettle/core"
)

// figures are the money figures of a plan, exact, as printed.
func figures(p core.Plan) (scope, workOrder []string) {
	b, o := p.Budget, p.WorkOrder
	for _, m := range []core.Money{b.Expected, b.P10, b.P50, b.P80, b.P90, b.Contingency, b.SumOfLikelies, b.OverLikelies, b.Mean, b.SD, p.Proof.Value, p.Proof.Bound} {
		scope = append(scope, amount(m))
	}
	for _, m := range b.StandardErrors {
		scope = append(scope, amount(m))
	}
	for _, m := range []core.Money{o.TotalBeforeTax, o.Tax, o.Total, o.Typical} {
		scope, workOrder = append(scope, amount(m)), append(workOrder, amount(m))
	}
	for _, x := range o.Taxes {
		scope, workOrder = append(scope, amount(x.Base), amount(x.Tax)), append(workOrder, amount(x.Base), amount(x.Tax))
	}
	for _, n := range p.NotSeen {
		workOrder = append(workOrder, amount(n.Reserve))
	}
	for _, c := range p.Choices {
		if c.RunnerUp != nil {
			scope = append(scope, amount(*c.RunnerUp.CostsMore))
		}
		if c.FlipPrice != nil {
			scope = append(scope, amount(*c.FlipPrice))
		}
		if c.PinCosts != nil {
			scope = append(scope, amount(*c.PinCosts))
		}
	}
	for _, l := range o.Lines {
		if l.Kind == core.LineWork || l.Kind == core.LineReserve {
			scope = append(scope, amount(l.Amount))
		}
		workOrder = append(workOrder, amount(l.Amount))
		for _, it := range l.Items {
			workOrder = append(workOrder, amount(it.Each))
		}
	}
	return scope, workOrder
}

func TestEveryMoneyFigureIsPrinted(t *testing.T) {
	in := input()
	scope, workOrder := figures(in.Plan)
	for _, x := range []struct {
		d    Document
		want []string
	}{{Scope(in), scope}, {WorkOrder(in), workOrder}} {
		require.NotEmpty(t, x.want)
		page, err := HTML(x.d)
		require.NoError(t, err)
		pdf, err := PDF(x.d)
		require.NoError(t, err)
		words := map[string]bool{}
		for _, w := range regexp.MustCompile(`[0-9][0-9,]*\.[0-9]{2}`).FindAllString(pdfText(t, pdf), -1) {
			words[w] = true
		}
		for _, f := range x.want {
			require.True(t, strings.Contains(plainText(x.d), f), "%s lacks %s", x.d.Title, f)
			require.True(t, strings.Contains(string(page), f), "HTML of %s lacks %s", x.d.Title, f)
			require.True(t, words[f], "PDF of %s lacks %s", x.d.Title, f)
		}
	}
}

func minor(t *testing.T, s string) int64 {
	t.Helper()
	m, err := core.NewMoney(strings.ReplaceAll(s, ",", ""), "USD")
	require.NoError(t, err)
	return core.Minor(m)
}

// TestWordsToAvoid holds the papers to words that promise nothing and cannot be misread.
func TestWordsToAvoid(t *testing.T) {
	avoid := regexp.MustCompile(`(?i)\b(ok|good as new|guaranteed?|refurbished|restored|approximately|standard size|nearside|offside|health|shot|quote|estimate)\b`)
	promise := regexp.MustCompile(`(?i)\b(is|are|now) safe\b`)
	for name, d := range papers() {
		for _, l := range strings.Split(plainText(d), "\n") {
			require.NotRegexp(t, avoid, l, name)
			l = strings.ReplaceAll(l, "does not say that the vehicle is safe", "")
			require.NotRegexp(t, promise, l, name)
		}
		require.Contains(t, plainText(d), "licensed or otherwise competent person", name)
	}
	for _, d := range []Document{Scope(Input{}), WorkOrder(Input{})} {
		require.Contains(t, plainText(d), "licensed or otherwise competent person")
	}
}

func TestNotSeenStandsAtTheTopOfTheWorkOrder(t *testing.T) {
	d := WorkOrder(input())
	require.Equal(t, Heading{1, "Not seen and not assessed"}, d.Blocks[1])
	text := plainText(d)
	require.Less(t, strings.Index(text, "Transfer box is not assessed"), strings.Index(text, "# Steps"))
	require.Less(t, strings.Index(text, "Main bearing tunnel"), strings.Index(text, "# Steps"))
}

func TestNotAuthorisedUntilAgreed(t *testing.T) {
	in := input()
	require.Equal(t, NotAuthorised, WorkOrder(in).Mark)
	require.GreaterOrEqual(t, strings.Count(plainText(WorkOrder(in)), NotAuthorised), 5)
	in.Authorised = true
	require.NotContains(t, plainText(WorkOrder(in)), NotAuthorised)
}

func TestTextFromDataIsEscaped(t *testing.T) {
	const evil = `<script>alert("x")</script>&"'` + "\x00\x1b[31m 汉字 😀 \u202e"
	in := input()
	in.Shop.Name, in.Number, in.ApprovalRule = evil, evil, evil
	in.Terms = []string{evil}
	in.Plan.Job.Title, in.Plan.Job.Owner.Name = evil, evil
	for i := range in.Plan.Choices {
		in.Plan.Choices[i].PartName, in.Plan.Choices[i].Name = evil, evil
	}
	for i := range in.Plan.Conditions {
		in.Plan.Conditions[i].PartName = evil
		if g := in.Plan.Conditions[i].Gauge; g != nil {
			g.Name, g.Source = evil, evil
		}
	}
	for i := range in.Plan.WorkOrder.Lines {
		in.Plan.WorkOrder.Lines[i].Name = evil
	}
	for _, d := range []Document{Scope(in), WorkOrder(in)} {
		page, err := HTML(d)
		require.NoError(t, err)
		require.NotContains(t, strings.ToLower(string(page)), "<script")
		require.Contains(t, html.UnescapeString(string(page)), `<script>alert("x")</script>`)
		_, err = PDF(d)
		require.NoError(t, err)
	}
}

func TestHTMLIsWellFormedAndSelfContained(t *testing.T) {
	for name, d := range papers() {
		page, err := HTML(d)
		require.NoError(t, err)
		require.NotRegexp(t, `href="[^#]|src="[^d]|@import|url\((?:["']?)(?:[^#"'])`, string(page), name)
		require.NotContains(t, string(page), "ZgotmplZ", "the template engine refused a value")
		x := xml.NewDecoder(strings.NewReader(strings.TrimPrefix(string(page), "<!doctype html>")))
		x.Entity = xml.HTMLEntity
		for {
			_, err := x.Token()
			if err == io.EOF {
				break
			}
			require.NoError(t, err, name)
		}
	}
}

func TestGaugeShape(t *testing.T) {
	s, ok := shapeOf(inch("d", "diameter", 2.0, 1.9, 1.95, practice))
	require.True(t, ok)
	require.InDelta(t, gaugeLimit/2, s.Reading, 1e-9, "half worn stands half way to the limit, also where smaller is worse")
	require.InDelta(t, gaugeLimit*.002, s.To-s.From, 1e-9)
	s, _ = shapeOf(inch("d", "diameter", 0, 1, 5, practice))
	require.True(t, s.Over)
	require.InDelta(t, 1, s.Reading, 0)
	s, _ = shapeOf(inch("d", "diameter", 1, 2, .5, practice))
	require.True(t, s.Under)
	for _, g := range []*core.Gauge{nil, inch("d", "d", 1, 1, 1, ""), inch("d", "d", 0, math.Inf(1), 1, ""), inch("d", "d", 0, 1, math.NaN(), "")} {
		_, ok := shapeOf(g)
		require.False(t, ok)
	}
}

// TestReadingAsPrinted: as many figures as the uncertainty bears (GUM 7.2.6), and no fewer than the limit has.
func TestReadingAsPrinted(t *testing.T) {
	for _, x := range []struct {
		reading, bound, limit float64
		want                  string
	}{
		{1.996, .000058, 1.9985, "1.9960 ± 0.00006 in"}, {1.99551181, .0000577, 1.9985, "1.99551 ± 0.00006 in"},
		{.0165, .00017, .012, "0.0165 ± 0.00017 in"}, {6, .4, 10, "6 ± 0.4 in"}, {2.4946, 0, 2.4985, "2.4946 in"},
	} {
		require.Equal(t, x.want, reading(core.Gauge{Reading: x.reading, Bound: x.bound, Limit: x.limit, Unit: "in"}))
	}
}

// TestGaugeReadsInBlackAndWhite wants the luminance of ITU-R BT.709 to fall all the way from new to the limit.
func TestGaugeReadsInBlackAndWhite(t *testing.T) {
	last := math.Inf(1)
	for i := range bands {
		c := wearColour((float64(i) + .5) / bands)
		l := .2126*float64(c.R) + .7152*float64(c.G) + .0722*float64(c.B)
		require.Less(t, l, last-5)
		last = l
	}
}

func TestMoneyAsPrinted(t *testing.T) {
	yen, err := core.NewMoney("1234567", "JPY")
	require.NoError(t, err)
	for _, x := range []struct{ got, want string }{
		{amount(usd("1234567.5")), "1,234,567.50"}, {amount(usd("-12.00")), "-12.00"}, {amount(core.Money{}), ""},
		{toFive(usd("1232.49")), "1,230"}, {toFive(usd("1232.50")), "1,235"}, {toFive(usd("-7.60")), "-10"}, {toFive(yen), "1,234,565"},
		{span(usd("12.40"), usd("99.99")), "12–100"}, {span(usd("8"), usd("8")), "8.00"}, {span(usd("812"), usd("1498")), "810–1,500"},
		{withCode(usd("5")), "USD\u00a05.00"}, {percent(.085), "9%"},
	} {
		require.Equal(t, x.want, x.got)
	}
}

func TestWordsAsPrinted(t *testing.T) {
	for _, x := range []struct{ got, want string }{
		{positions([]string{"P1", "P2", "P3", "P4"}), "P1–P4"}, {positions([]string{"P1", "P3", "P4"}), "P1, P3, P4"},
		{positions([]string{"LF", "RF"}), "LF, RF"}, {positions([]string{"9", "10", "11"}), "9–11"}, {positions([]string{""}), ""},
		{plural("bush"), "bushes"}, {plural("journal"), "journals"}, {plural("thrust washers"), "thrust washers"}, {plural("body"), "bodies"},
		{sentence("left as it is"), "Left as it is."}, {sentence("Done."), "Done."}, {thousands(1234567), "1,234,567"}, {thousands(999), "999"},
		{weeks(core.Range3{Low: 2, Likely: 4, High: 10}), "4 weeks (2 to 10)"}, {weeks(core.Range3{}), ""},
	} {
		require.Equal(t, x.want, x.got)
	}
}

// TestEveryGradeHasWords keeps the table of plain words complete.
func TestEveryGradeHasWords(t *testing.T) {
	for g := core.WithinNew; g <= core.Failed; g++ {
		require.NotEmpty(t, gradeWords[g], g.String())
	}
}

// TestAlteredMarkStopsOrders: no agreement reaches past a mark that looks altered.
func TestAlteredMarkStopsOrders(t *testing.T) {
	in := input()
	in.Authorised = true
	in.Plan.Job.Units[1].Marks[0].Says = "looks altered"
	require.Equal(t, NotAuthorised, WorkOrder(in).Mark)
	require.Contains(t, plainText(Scope(in)), "I have been told in writing that the mark “PK4-0711” (Four-speed gearbox) looks altered. ____")
	require.Contains(t, plainText(Scope(in)), "Nothing is ordered on this signature")
}

func TestSafetyItemLeftMeansATrailer(t *testing.T) {
	in := input()
	require.NotContains(t, plainText(Scope(in)), "trailer")
	for i, c := range in.Plan.Choices {
		if c.Part == "connecting-rod" && c.Position == "3" {
			in.Plan.Choices[i].Kind = core.LeftAsIs
		}
	}
	require.Contains(t, plainText(Scope(in)), "The vehicle leaves on a trailer")
}

func TestFinalCheckWhereWheelsAreOpened(t *testing.T) {
	in := input()
	require.Contains(t, plainText(WorkOrder(in)), "This job opens wheels.")
	in.Plan.Steps = in.Plan.Steps[1:]
	require.NotContains(t, plainText(WorkOrder(in)), "Final check")
	in.Plan.Steps[0].ID, in.Plan.Steps[0].Name = "flywheel-off", "flywheel off"
	require.NotContains(t, plainText(WorkOrder(in)), "Final check", "a flywheel is no wheel")
	in.Plan.WorkOrder.Lines[len(in.Plan.WorkOrder.Lines)-1].Subsystem = "brakes"
	require.Contains(t, plainText(WorkOrder(in)), "This job opens brakes.")
}

// TestBarePlans prints plans with next to nothing in them: nothing to say is said, nothing panics.
func TestBarePlans(t *testing.T) {
	p := packhorse()
	bench := input()
	bench.Plan.Job.Vehicle, bench.Plan.Job.Extent = nil, core.Extent{Kind: core.ExtentBench}
	half := Input{Plan: core.Plan{Conditions: p.Conditions, WorkOrder: core.WorkOrder{Lines: []core.Line{{Places: []core.Place{{}}}, {Kind: core.LineReserve}}}}}
	choicesOnly := Input{Plan: core.Plan{Choices: p.Choices, NotSeen: p.NotSeen, Steps: p.Steps}}
	for _, in := range []Input{{}, bench, half, choicesOnly} {
		for _, d := range []Document{Scope(in), WorkOrder(in)} {
			pdf, err := PDF(d)
			require.NoError(t, err)
			clean(t, boxesOf(t, pdf))
			_, err = HTML(d)
			require.NoError(t, err)
		}
	}
	require.Contains(t, plainText(Scope(bench)), "A unit on the bench, without its vehicle")
}

func BenchmarkPapers(b *testing.B) {
	in := input()
	for b.Loop() {
		for _, d := range []Document{Scope(in), WorkOrder(in)} {
			if _, err := PDF(d); err != nil {
				b.Fatal(err)
			}
			if _, err := HTML(d); err != nil {
				b.Fatal(err)
			}
		}
	}
}
