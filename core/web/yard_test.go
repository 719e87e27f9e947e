package web

import (
	"context"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"github.com/fettle-tools/fettle/core"
)

// keptPlans is the plan that was kept of the one job.
type keptPlans struct {
	plan   *core.Plan
	fresh  bool
	coming bool
}

func (s *shop) WeeklyHours() float64 { return 40 }
func (s *shop) KeptPlan(_ context.Context, job string) (p *core.Plan, fresh, coming bool) {
	if job != "J-001" {
		return nil, false, false
	}
	return s.plan, s.fresh, s.coming
}

// The yard says what waits, what is late, where things lie, and what a job may come to where that was worked out already.
func TestTheYardSaysWhatWaits(t *testing.T) {
	quiet := &shop{story: func(s *core.Story) { s.Outwork, s.Purchases = nil, nil }}
	page := askOf(t, quiet, "GET", "/", "").Body.String()
	require.Contains(t, page, "Waits for the owner&#39;s yes to the strip-down")
	require.NotContains(t, page, "P80")
	require.NotContains(t, page, "Late:")
	require.Contains(t, page, "No hours are agreed yet.")
	require.NotContains(t, page, "data-busy")
	quiet.coming = true
	page = askOf(t, quiet, "GET", "/", "").Body.String()
	require.Contains(t, page, "What it may come to is being worked out.")
	require.Contains(t, page, "data-busy")

	x := &shop{keptPlans: keptPlans{plan: &core.Plan{Budget: core.Budget{P50: core.MinorMoney(974200, "USD"), P80: core.MinorMoney(1120050, "USD")}}}, story: func(s *core.Story) {
		s.Outwork = []core.Outwork{{ID: "O-001", To: "Tern Lane", Work: "regrind", State: core.OutworkOut, Due: time.Now().AddDate(0, 0, -9)}}
		s.Tags = []core.Tag{{ID: "T-001", What: "crankshaft", State: core.TagOff, Lies: "rack 2"}, {ID: "T-002", What: "rods", State: core.TagOff, Lies: "Rack 2"}}
	}}
	page = askOf(t, x, "GET", "/", "").Body.String()
	for _, s := range []string{"<strong>Late:</strong> O-001", "O-001 at Tern Lane", "<strong>LATE</strong>", `<td>rack 2</td><td class="right">2</td>`, "9\u00a0742.00 (P50, as likely as not) to 11\u00a0200.50 USD (P80, eight times in ten)", "before the last entries"} {
		require.Contains(t, page, s)
	}
	x.plan.Problems = []core.Problem{{Lacks: core.LacksRate, Summary: `no hourly rate for "mechanic": that work is priced without its labour`}, {Lacks: core.LacksPrice, Summary: "no price in USD for a seal"}, {Lacks: core.LacksPrice, Summary: "no price in USD for a seal"}, {Lacks: core.LacksPrice, Summary: "no price in USD for a pin"}}
	require.Contains(t, askOf(t, x, "GET", "/", "").Body.String(), "before the last entries, without what an hour costs and 2 prices")
	x.plan.Budget.P80 = core.MinorMoney(0, "USD")
	page = askOf(t, x, "GET", "/", "").Body.String()
	require.Contains(t, page, "What it may come to is not known without what an hour costs and 2 prices.")
	require.NotContains(t, page, "P80")
	x.fresh, x.plan.Problems, x.plan.Budget.P80 = true, nil, core.MinorMoney(1120050, "USD")
	require.NotContains(t, askOf(t, x, "GET", "/", "").Body.String(), "before the last entries")
	x.story = func(s *core.Story) { s.Job.State = core.StateHandedOver }
	page = askOf(t, x, "GET", "/", "").Body.String()
	require.Contains(t, page, "No job is in the yard.")
	require.Contains(t, page, "1 job is handed over")
	require.Equal(t, 0, strings.Count(page, `href="/jobs/`))
}
