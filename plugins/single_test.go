package plugins_test

import (
	"context"
	"fmt"
	"testing"

	"github.com/fettle-tools/fettle/core"
	"github.com/stretchr/testify/require"
)

// One finding at a time, on a part that is sound in all else, read without uncertainty. Worked examples of the trade,
// common practice; limits and their sources stand in the sheets. wear is nil where the part has none.
func TestSingleFindings(t *testing.T) {
	w := func(v float64) *float64 { return &v }
	for _, c := range []struct {
		row   string
		x     float64
		wear  *float64
		grade core.Grade
	}{
		{"BE01", 2.4946, w(4.90), core.PastLimit},
		{"BE02", .0008, w(.71), core.NearLimit},
		{"BE10", .0165, w(2.12), core.PastLimit},
		{"BE10", .002, nil, core.TooTight},
		{"BE14", .0023, w(0), core.WithinNew},
		{"BE14", .0012, nil, core.TooTight},
		{"BE22", .0011, w(.43), core.WornFit},
		{"CB01", .0101, w(1.26), core.PastLimit},
		{"CB02", .0064, w(.78), core.NearLimit},
		{"CB17", .0034, w(0), core.WithinNew},
		{"CB18", .005, w(.67), core.NearLimit},
		{"CH08", .001, w(0), core.WithinNew},
		{"CH11", .05, w(.67), core.NearLimit},
		{"CH14", .004, w(.60), core.NearLimit},
		{"CH17", 62, w(1.29), core.PastLimit},
		{"CL01", .03, w(.71), core.NearLimit},
		{"CL11", .006, w(.61), core.NearLimit},
		{"GB08", .016, w(.50), core.WornFit},
		{"GB02", .002, nil, core.TooTight},
		{"RA01", .014, w(.67), core.NearLimit},
		{"RA03", .0045, w(.50), core.WornFit},
		{"FA01", 9, w(1.24), core.PastLimit},
		{"FA01", 48, w(0), core.WithinNew},
		{"TB03", .0018, w(1.30), core.PastLimit},
		{"PS01", .012, w(.20), core.WornFit},
		{"FU04", 1.2, w(1.60), core.PastLimit},
		{"EL20", 1.24, w(.57), core.NearLimit},
		{"EL23", .289, w(1.89), core.PastLimit},
		{"ST01", 2.4, w(1.24), core.PastLimit},
		{"ST29", .1875, w(1.00), core.NearLimit},
		{"CO09", .009, w(.40), core.WornFit},
		{"CF05", .09, w(.56), core.NearLimit},
		{"CF01", .31, w(1.48), core.PastLimit},
		{"SP01", 5.3, w(1.33), core.PastLimit},
		{"SP02", 312.5, w(.62), core.NearLimit},
		{"HW01", .012, w(1.40), core.PastLimit},
		{"HW01", .0005, nil, core.TooTight},
		{"HW21", .91, w(.82), core.NearLimit},
		{"BO10", .22, w(.52), core.NearLimit},
		{"BR01", 12.031, w(.31), core.WornFit},
		{"BR02", 12.07, w(1.50), core.PastLimit},
		{"BR03", .007, w(.57), core.NearLimit},
		{"BR10", .06, w(.69), core.NearLimit},
	} {
		t.Run(fmt.Sprint(c.row, " ", c.x), func(t *testing.T) {
			b, r := rowOf(t, c.row)
			p, sheet := b.described(t)
			part, check := sheet.Part(r.part), sheet.Check(r.part, r.check)
			findings := append(sound(*part, check.ID), reading(*part, *check, c.x)...)
			a, err := p.Assess(context.Background(), core.AssessRequest{Unit: b.name, Facts: b.facts, Findings: findings})
			require.NoError(t, err)
			cond, _ := of(a, part.Targets()[0])
			require.Equal(t, c.grade.String(), cond.Grade.String(), "%v", cond.Reasons)
			if c.wear == nil {
				return
			}
			require.NotNil(t, cond.Wear)
			require.InDelta(t, *c.wear, max(0, *cond.Wear), .0051)
			if *c.wear > 0 {
				require.Equal(t, check.ID, cond.GoverningCheck)
			}
		})
	}
}

func rowOf(t *testing.T, id string) (builtIn, row) {
	t.Helper()
	for _, b := range builtIns() {
		for _, r := range b.rows {
			if r.id == id {
				return b, r
			}
		}
	}
	t.Fatalf("no row %s", id)
	return builtIn{}, row{}
}

// sound reads every check of a part, but one, as good.
func sound(part core.Part, but string) []core.Finding {
	var fs []core.Finding
	for _, c := range part.Checks {
		if c.ID == but || c.Kind == core.OneUse || c.Kind == core.Derived && c.Formula != "" && len(c.Stations) == 0 && hasStations(part) {
			continue
		}
		x := 0.0
		if c.Kind == core.GoNoGo {
			x = 1
		}
		if l := c.Limit; l.NewLow != nil && l.NewHigh != nil {
			x = (*l.NewLow + *l.NewHigh) / 2
		}
		fs = append(fs, reading(part, c, x)...)
	}
	return fs
}

// hasStations reports that a derived check without stations of its own is worked out from a sibling's.
func hasStations(part core.Part) bool {
	for _, c := range part.Checks {
		if c.Kind == core.Measured && len(c.Stations) > 0 {
			return true
		}
	}
	return false
}

// reading is one figure for a check at the part's first position, at all of its stations.
func reading(part core.Part, c core.Check, x float64) []core.Finding {
	f := core.Finding{Target: part.Targets()[0], Check: c.ID}
	switch c.Kind {
	case core.Judged:
		f.Value = core.Value{Kind: core.ValueClass, Class: int(x)}
	case core.Counted:
		f.Value = core.Value{Kind: core.ValueCount, Count: int(x)}
	case core.GoNoGo:
		f.Value = core.Value{Kind: core.ValuePass, Pass: x > .5}
	default:
		f.Value = core.Value{Kind: core.ValueQuantity, Quantity: core.Quantity{Value: x, Unit: c.Unit}}
	}
	f.AsTyped = f.Value.String()
	stations := c.Stations
	if c.Kind == core.Derived || len(stations) == 0 {
		stations = []string{""}
	}
	var fs []core.Finding
	for _, s := range stations {
		g := f
		g.Station, g.ID = s, c.ID+"@"+s
		fs = append(fs, g)
	}
	return fs
}
