package main

import (
	"bytes"
	"context"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/fettle-tools/fettle/core"
)

// TestPlanOfAnyFindings plans the demo's job with only some of its findings, as it stood on some evening: the plan has its shape, the money
// adds up, and a part of which nothing was found is never passed.
func TestPlanOfAnyFindings(t *testing.T) {
	ctx, c := context.Background(), demoShop(t)
	require.NoError(t, c.withShop(ctx, func(s *shop) error {
		job, err := s.job(ctx, "J-001")
		require.NoError(t, err)
		req, err := s.request(ctx, job)
		require.NoError(t, err)
		all := req.Findings
		random := rand.New(rand.NewPCG(1956, 4))
		for evening := range 12 {
			req.Findings = nil
			seen := map[core.Place]bool{}
			for _, f := range all {
				if random.IntN(11) < evening {
					req.Findings = append(req.Findings, f)
					seen[f.Place()] = true
				}
			}
			p, err := s.planner().Plan(ctx, req)
			require.NoError(t, err)
			var out bytes.Buffer
			require.NoError(t, writeJSON(&out, planToJSON(p)))
			require.NoError(t, checkPlan(out.Bytes()), "with %d findings", len(req.Findings))
			for _, cond := range p.Conditions {
				if !seen[cond.Place] && cond.ReadingsNeeded > 0 && !oneUse(p, cond.Place) && !fromOthers(cond) {
					require.NotContains(t, []core.Grade{core.WithinNew, core.WornFit, core.NearLimit}, cond.Grade, "%s was never looked at", cond.Place)
				}
			}
		}
		return nil
	}))
}

// TestShapeOfAPlanIsReallyChecked breaks a plan in many ways: each has to be told.
func TestShapeOfAPlanIsReallyChecked(t *testing.T) {
	sound := `{"job":{"number":"J-001","title":"x"},
"conditions":[{"subsystem":"s","unit":"u","part":"p","position":"","grade":"failed","wear":null,"governing_check":"c","reasons":[{"text":"r"}]}],
"choices":[{"subsystem":"s","unit":"u","part":"p","position":"","choice":"replace","remedy":"new","reasons":[],"runner_up":{"remedy":"x","costs_more":{"number":"0.50","currency":"USD"}},"flip_price":null}],
"budget":{"expected":{"number":"12.50","currency":"USD"},"p10":{"number":"10.00","currency":"USD"},"p50":{"number":"12.00","currency":"USD"},"p80":{"number":"14.00","currency":"USD"},"p90":{"number":"15.00","currency":"USD"},"contingency":{"number":"1.50","currency":"USD"}},
"work_order":{"lines":[{"kind":"work","name":"w","amount":{"number":"12.50","currency":"USD"},"tax":{"number":"0.75","currency":"USD"}}],"total_before_tax":{"number":"12.50","currency":"USD"},"tax":{"number":"0.75","currency":"USD"},"total":{"number":"13.25","currency":"USD"}},
"not_seen":[],"problems":[{"severity":"note","summary":"s"}]}`
	require.NoError(t, checkPlan([]byte(sound)))
	for _, broken := range [][2]string{
		{`"grade":"failed"`, `"grade":"bad"`},
		{`"wear":null`, `"wear":"much"`},
		{`"text":"r"`, `"text":""`},
		{`"choice":"replace"`, `"choice":"buy"`},
		{`"remedy":"new"`, `"remedy":""`},
		{`"flip_price":null`, `"flip_price":12`},
		{`"0.50"`, `"-0.50"`},
		{`"costs_more"`, `"costs"`},
		{`"12.00"`, `"9.00"`},
		{`"1.50"`, `"1.51"`},
		{`"kind":"work"`, `"kind":""`},
		{`"0.75","currency":"USD"}}]`, `"0.74","currency":"USD"}}]`},
		{`"13.25"`, `"13.26"`},
		{`"not_seen":[]`, `"not_seen":null`},
		{`"severity":"note"`, `"severity":"hint"`},
		{`"number":"J-001"`, `"no":"J-001"`},
	} {
		bad := bytes.Replace([]byte(sound), []byte(broken[0]), []byte(broken[1]), 1)
		require.NotEqual(t, sound, string(bad), broken[0])
		require.Error(t, checkPlan(bad), "%s for %s", broken[1], broken[0])
	}
}

// oneUse reports whether a part is always new, so that nobody need look at it.
func oneUse(p core.Plan, place core.Place) bool {
	for _, s := range p.Sheets {
		if part := s.Sheet.Part(place.Part); s.Subsystem == place.Subsystem && s.Unit == place.Unit && part != nil {
			return part.OneUse
		}
	}
	return false
}

// fromOthers reports whether a part is judged by what was read on others: two tooth counts make one ratio.
func fromOthers(c core.UnitCondition) bool {
	return slices.ContainsFunc(c.Reasons, func(r core.Reason) bool { return r.Check == c.GoverningCheck && len(r.FindingIDs) > 0 })
}
