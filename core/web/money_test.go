package web

import (
	"context"
	"net/url"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"github.com/fettle-tools/fettle/core"
)

func usd(number string) core.Money {
	m, err := core.NewMoney(number, "USD")
	if err != nil {
		panic(err)
	}
	return m
}

var fork = core.Place{Subsystem: "gearbox", Unit: "gearbox-2", Target: core.Target{Part: "selector-fork", Position: "first"}}

// onePlan is a plan of one part that is worn out, with a second remedy that is open.
func onePlan() core.Plan {
	states := []core.State{{Chance: 1, Grade: core.PastLimit, Remedies: []string{"build-up", "replace"}}}
	condition := core.Condition{Target: fork.Target, Grade: core.PastLimit, GoverningCheck: "wear", States: states, Reasons: []core.Reason{{Check: "wear", Text: "wear .040 in, limit .030 in", Source: "a manual"}}}
	sheet := core.Sheet{Title: "Gearbox", Parts: []core.Part{{ID: "selector-fork", Name: "Selector fork", Positions: []string{"first"}, SafetyCritical: true,
		Checks: []core.Check{{ID: "wear", Name: "wear of the pads", Kind: core.Measured, Stations: []string{"A", "B"}}}}}}
	us := core.UnitSheet{Subsystem: fork.Subsystem, Unit: fork.Unit, Sheet: sheet, Assessment: core.Assessment{Conditions: []core.Condition{condition}, Remedies: []core.Remedy{
		{ID: "build-up", Target: fork.Target, Kind: core.Rebuild, Name: "Pads built up", Feasible: true},
		{ID: "replace", Target: fork.Target, Kind: core.Replace, Name: "New fork", Feasible: true},
		{ID: "reuse", Target: fork.Target, Kind: core.Reuse, Name: "Use again", Feasible: true},
	}}}
	curve := make([]core.Money, 101)
	for i := range curve {
		curve[i] = core.MinorMoney(int64(100_00+i*100), "USD")
	}
	flip := usd("88.00")
	return core.Plan{Job: core.Job{Number: "J-001"}, Sheets: []core.UnitSheet{us}, Proof: core.Proof{Proven: true},
		Conditions: []core.UnitCondition{{Place: fork, PartName: "Selector fork", SafetyCritical: true, Condition: condition}},
		Choices: []core.Choice{{Place: fork, PartName: "Selector fork", Kind: core.Rebuild, Remedy: "build-up", Name: "Pads built up", Reasons: condition.Reasons,
			RunnerUp: &core.RunnerUp{Remedy: "replace", Name: "New fork", CostsMore: new(usd("41.50"))}, FlipPrice: &flip, FlipOn: "welding"}},
		Findings: []core.Finding{{Subsystem: fork.Subsystem, Unit: fork.Unit, Target: fork.Target, Check: "wear", Station: "A", AsTyped: ".040 in"}},
		Budget: core.Budget{Expected: usd("150.00"), P10: usd("110.00"), P50: usd("150.00"), P80: usd("180.00"), P90: usd("190.00"), Contingency: usd("30.00"),
			SumOfLikelies: usd("140.00"), OverLikelies: usd("40.00"), Curve: curve, StandardErrors: []core.Money{usd("1.00"), usd("2.00"), usd("3.00"), usd("4.00")},
			Widest: []core.Widener{{Name: "Case not settled", Share: .4}}},
		WorkOrder: core.WorkOrder{TotalBeforeTax: usd("150.00"), Tax: usd("0.00"), Total: usd("150.00"), Typical: usd("75.00")}}
}

func (s *shop) Looks(context.Context, string) ([]core.Look, error) {
	return []core.Look{{Parts: []core.LookedAt{{Place: fork, PartName: "Selector fork", Checks: []core.LookCheck{{Check: "wear", Name: "wear of the pads", Instrument: "micrometer", Minutes: 3}}}},
		Open: []core.LookStep{{Name: "Gearbox out"}, {Name: "Top cover off"}}, Minutes: 130, Share: .125, Together: .125}}, nil
}

// Pin takes a pin with a reason alone.
func (s *shop) Pin(_ context.Context, _, _, remedy, reason, _ string) error {
	if remedy != "" && reason == "" {
		return core.Errorf(core.Invalid, "say why", "the pin has no reason")
	}
	return nil
}

func (s *shop) Leave(context.Context, string, string, string, string) error { return nil }
func (s *shop) Rates() []core.Rate                                          { return []core.Rate{{Skill: "mechanic", Hour: usd("85.00")}} }

func (s *shop) SetWishes(_ context.Context, _, _, most, _ string) error {
	_, err := core.ReadAmount(most, "USD")
	return err
}

func (s *shop) Suppose(_ context.Context, _ string, x Supposition) (Supposed, error) {
	if x.Rate == "x" {
		return Supposed{}, core.Errorf(core.Invalid, "write it like 95", `"x" is no amount`)
	}
	return Supposed{Words: []string{"an hour of mechanic at " + x.Rate}, Comparison: core.Compare(onePlan(), onePlan())}, nil
}

func (s *shop) Weigh(context.Context, string) error { return nil }
func (s *shop) Weighing(context.Context, string) (Slow[core.Weighing], error) {
	if s.weighed == nil {
		return Slow[core.Weighing]{Begun: true, N: 3, Of: 20}, nil
	}
	return Slow[core.Weighing]{Begun: true, Value: s.weighed, Stale: true}, nil
}

func (s *shop) Narrow(context.Context, string) error { return nil }
func (s *shop) Narrowing(context.Context, string) (Slow[[]core.BudgetDay], error) {
	days := []core.BudgetDay{{Expected: usd("150.00"), P10: usd("100.00"), P80: usd("190.00"), P90: usd("200.00"), NotSeen: 4},
		{Day: "2026-10-01", Findings: 7, Expected: usd("140.00"), P10: usd("125.00"), P80: usd("150.00"), P90: usd("155.00")}}
	return Slow[[]core.BudgetDay]{Begun: true, Value: &days}, nil
}

// A look leads to the first question of it that has no answer.
func TestALookLeadsToItsQuestion(t *testing.T) {
	page := ask(t, "GET", "/jobs/J-001/look", "").Body.String()
	require.Contains(t, page, `href="/jobs/J-001/bench/gearbox@gearbox-2#selector-fork%2Ffirst%20wear%20B"`)
	for _, words := range []string{"Selector fork first", "wear of the pads", "micrometer", "12\u00a0%", "2.2\u00a0h", "First: Top cover off, and a step before it"} {
		require.Contains(t, page, words)
	}
}

func TestAChoiceTellsItsWholeChain(t *testing.T) {
	at := "/jobs/J-001/choices/" + fork.String()
	require.Contains(t, ask(t, "GET", "/jobs/J-001/choices", "").Body.String(), "1 rebuilt")
	list := ask(t, "GET", "/jobs/J-001/choices/gearbox@gearbox-2", "").Body.String()
	require.Contains(t, list, `href="`+at+`"`)
	require.Contains(t, list, "41.50 more")
	page := ask(t, "GET", at, "").Body.String()
	for _, words := range []string{"Past limit", "lives hang on it", "wear A .040 in", "wear .040 in, limit .030 in", "rebuild: Pads built up", "New fork, would cost <strong>41.50</strong> more", "88.00 USD for “welding”: at that price another way is as cheap", "leaves on a trailer"} {
		require.Contains(t, page, words)
	}
	// What the condition closes is not offered for a pin.
	require.Contains(t, page, `value="replace"`)
	require.NotContains(t, page, `value="reuse"`)

	require.Equal(t, 404, ask(t, "GET", "/jobs/J-001/choices/gearbox/none", "").Code)
	require.Equal(t, 404, ask(t, "GET", "/jobs/J-001/choices/brakes", "").Code)
}

func post(t *testing.T, address string, fields ...string) (code int, body, to string) {
	t.Helper()
	return postOf(t, &shop{}, address, fields...)
}

// postOf is post to a shop that remembers what was written into it.
func postOf(t *testing.T, x *shop, address string, fields ...string) (code int, body, to string) {
	t.Helper()
	form := url.Values{}
	for i := 0; i < len(fields); i += 2 {
		form.Add(fields[i], fields[i+1])
	}
	w := askOf(t, x, "POST", address, form.Encode(), "Content-Type", "application/x-www-form-urlencoded")
	return w.Code, w.Body.String(), w.Header().Get("Location")
}

// What may not be written down is told above the form, with what was typed in it.
func TestAPinNeedsItsReason(t *testing.T) {
	at := "/jobs/J-001/choices/" + fork.String()
	code, _, to := post(t, at, "do", "pin", "remedy", "replace", "reason", "cracked", "by", "Jory")
	require.Equal(t, 303, code)
	require.Equal(t, at, to)
	code, page, _ := post(t, at, "do", "pin", "remedy", "replace", "by", "Wenna")
	require.Equal(t, 422, code)
	require.Contains(t, page, "The pin has no reason")
	require.Contains(t, page, `value="replace" checked`)
	require.Contains(t, page, `value="Wenna"`)
	for _, do := range []string{"", "pin", "leave"} {
		code, _, _ = post(t, at, "do", do)
		require.Equal(t, 422, code, do)
	}
	for _, do := range []string{"unpin", "unleave"} {
		code, _, _ = post(t, at, "do", do)
		require.Equal(t, 303, code, do)
	}
}

func TestASumIsAskedAbout(t *testing.T) {
	page := ask(t, "GET", "/jobs/J-001/money", "").Body.String()
	for _, words := range []string{"150.00", "110 to 190", "± 3.00", "Case not settled", "40\u00a0%", "50\u00a0% of it before tax rests on typical prices", "<svg class=\"curve\""} {
		require.Contains(t, page, words)
	}
	require.Contains(t, ask(t, "GET", "/jobs/J-001/money?sum=125", "").Body.String(), "enough in 25 of 100 such jobs, too little in 75")
	w := ask(t, "GET", "/jobs/J-001/money?sum=lots", "")
	require.Equal(t, 422, w.Code)
	require.Contains(t, w.Body.String(), `value="lots"`)

	code, page, _ := post(t, "/jobs/J-001/money", "most", "lots", "week-worth", "12")
	require.Equal(t, 422, code)
	require.Contains(t, page, `name="most" inputmode="decimal" value="lots"`)
	require.Contains(t, page, `value="12"`)
	code, _, to := post(t, "/jobs/J-001/money", "most", "140")
	require.Equal(t, 303, code)
	require.Equal(t, "/jobs/J-001/money", to)
}

// What is held back is named once, and nothing is no sum.
func TestWhatIsHeldBackIsNamed(t *testing.T) {
	x := &shop{planned: func(p *core.Plan) {
		p.WorkOrder.Lines = []core.Line{{Kind: core.LineReserve, Name: "Reserve: weld the fork", Amount: usd("12.00"), Chance: new(.25), Places: []core.Place{fork}},
			{Kind: core.LineReserve, Name: "Reserve: true the shaft", Amount: usd("0.00"), Chance: new(.5), Places: []core.Place{fork}}}
	}}
	page := askOf(t, x, "GET", "/jobs/J-001/choices/"+fork.String(), "").Body.String()
	require.Contains(t, page, "<dt>Held back</dt><dd><strong>12.00</strong> weld the fork, 25\u00a0% likely</dd>")
	require.Contains(t, page, "<dt>Held back</dt><dd><strong>Nothing</strong> for true the shaft, 50\u00a0% likely</dd>")
}

// Sums that are made without a rate or a price say so, with the way to say it.
func TestSumsSayWhatTheyAreMadeWithout(t *testing.T) {
	lacks := &shop{planned: func(p *core.Plan) {
		p.Problems = []core.Problem{{Lacks: core.LacksRate, Summary: `no hourly rate for "mechanic": that work is priced without its labour`}, {Lacks: core.LacksPrice, Summary: "no price in USD for a seal"}}
	}}
	at := "/jobs/J-001/choices"
	for _, address := range []string{"/jobs/J-001/money", at, at + "/gearbox@gearbox-2", at + "/" + fork.String()} {
		page := askOf(t, lacks, "GET", address, "").Body.String()
		require.Contains(t, page, "The sums are made without what an hour costs and 1 price.", address)
		require.Contains(t, page, `href="/shop">Say it at the shop`, address)
		require.NotContains(t, ask(t, "GET", address, "").Body.String(), "are made without", address)
	}
}

// When the job is done is a range too: its days, what it waits for, and how likely it is by a day.
func TestTheFinishIsToldWithItsDays(t *testing.T) {
	x := &shop{planned: func(p *core.Plan) {
		f := core.Finish{From: time.Date(2026, 11, 2, 0, 0, 0, 0, time.UTC), P10: 2, P50: 4, P80: 5.5, P90: 7, StandardErrors: []float64{.01, .02, .03, .04}, Hours: 90, HoursWeek: 30,
			HeldUp: []core.HoldUp{{Name: "Crankshaft ground", Chance: .6, Wait: 3.2, Later: 1.1, Share: .3}, {Name: "hardly ever", Chance: .001}}}
		for i := range 101 {
			f.Curve = append(f.Curve, float64(i)/10)
		}
		p.Finish = &f
	}}
	page := askOf(t, x, "GET", "/jobs/J-001/money", "").Body.String()
	require.Contains(t, page, "<td>30 November 2026</td><td class=\"right\">4.0 ± 0.02</td>")
	require.Contains(t, page, "Counted from today, with 90 h at the bench on average, at 30 h a week.")
	require.Contains(t, page, "<strong>Crankshaft ground</strong>")
	require.Contains(t, page, "the last to come in 60\u00a0% of such jobs: then 3.2 weeks away on average, and the finish is 1.1 weeks later for it; 30\u00a0% of what widens the range")
	require.NotContains(t, page, "hardly ever")
	require.Contains(t, askOf(t, x, "GET", "/jobs/J-001/money?by=2026-12-07", "").Body.String(), "<strong>2026-12-07</strong>: <strong>done in 50 of 100 such jobs, not yet in 50</strong>")
	for by, says := range map[string]string{"soon": "“soon” is no day", "2026-10-01": "“2026-10-01” is past"} {
		w := askOf(t, x, "GET", "/jobs/J-001/money?by="+by, "")
		require.Equal(t, 422, w.Code)
		require.Contains(t, w.Body.String(), says)
	}
	x.planned = func(p *core.Plan) { p.Finish = nil }
	require.Contains(t, askOf(t, x, "GET", "/jobs/J-001/money", "").Body.String(), "Say them at the shop")
}

// A problem that parts share stands once with their names; of rates the notice above them tells.
func TestAProblemThatPartsShareIsToldOnce(t *testing.T) {
	x := &shop{planned: func(p *core.Plan) {
		p.Problems = nil
		for _, to := range p.Sheets[0].Sheet.Parts {
			p.Problems = append(p.Problems, core.Problem{Subsystem: "gearbox", Unit: "gearbox-2", Lacks: core.LacksRate, Summary: "no hourly rate", Target: core.Target{Part: to.ID}},
				core.Problem{Subsystem: "gearbox", Unit: "gearbox-2", Lacks: core.LacksPrice, Summary: "no price in USD for pins", Target: core.Target{Part: to.ID}},
				core.Problem{Subsystem: "gearbox", Unit: "gearbox-2", Summary: "seals are of two sorts", Target: core.Target{Part: to.ID}})
		}
	}}
	page := askOf(t, x, "GET", "/jobs/J-001/choices/gearbox@gearbox-2", "").Body.String()
	require.Equal(t, 1, strings.Count(page, "seals are of two sorts"))
	require.NotContains(t, page, "no price in USD for pins")
	require.NotContains(t, page, "no hourly rate")
}

func TestASuppositionIsCompared(t *testing.T) {
	require.NotContains(t, ask(t, "GET", "/jobs/J-001/money/what-if?skill=mechanic", "").Body.String(), `id="if"`)
	require.Contains(t, ask(t, "GET", "/jobs/J-001/money/what-if?skill=mechanic&rate=95", "").Body.String(), "An hour of mechanic at 95")
	w := ask(t, "GET", "/jobs/J-001/money/what-if?skill=mechanic&rate=x", "")
	require.Equal(t, 422, w.Code)
	require.Contains(t, w.Body.String(), `value="x"`)
}

// A page that waits asks again how far it is; one that has its answer does not, and says when it is no longer of today.
func TestWhatTakesLongSaysHowFarItIs(t *testing.T) {
	page := ask(t, "GET", "/jobs/J-001/money/weighing", "").Body.String()
	require.Contains(t, page, `hx-trigger="every 1s"`)
	require.Contains(t, page, "plan 3 of 20")
	require.Contains(t, page, `value="15"`)
	code, _, to := post(t, "/jobs/J-001/money/weighing")
	require.Equal(t, 303, code)
	require.Equal(t, "/jobs/J-001/money/weighing", to)

	x := &shop{weighed: &core.Weighing{Risks: []core.Weighed{{Total: usd("100.00"), Risk: usd("50.00"), Left: 3}, {Total: usd("120.00"), Risk: usd("10.00"), More: usd("20.00"), Less: usd("40.00"),
		Differs: []core.ChoiceDifference{{PartName: "Bush", Was: "left as it is", Now: "replace: New bush"}}}}, Waits: []core.Weighed{{Total: usd("120.00"), Weeks: 6}}}}
	page = askOf(t, x, "GET", "/jobs/J-001/money/weighing", "").Body.String()
	require.NotContains(t, page, "hx-trigger")
	require.Contains(t, page, "has changed since")
	require.Contains(t, page, "&#43;20.00 for 40.00 less risk")
	require.Contains(t, page, "Bush: replace: New bush")
	require.Contains(t, page, `href="/jobs/J-001/money?most=120.00#wishes"`)

	days := ask(t, "GET", "/jobs/J-001/money/days", "").Body.String()
	require.Contains(t, days, "67\u00a0% of what was expected")
	require.Contains(t, days, `<rect x="50" y="5" width="60"`)
}
