package core

import (
	"testing"

	"github.com/stretchr/testify/require"
)

// A drum seen past its limit makes its own axle's row as good as certain, and leaves the other axle's.
func TestARowOfOneAxle(t *testing.T) {
	drum := Part{ID: "drum", Positions: []string{"LF", "RF", "LR", "RR"}, Outlook: []State{{Chance: .85, Grade: WornFit}, {Chance: .15, Grade: PastLimit}}}
	at := func(p string) Target { return Target{Part: "drum", Position: p} }
	s := UnitSheet{Sheet: Sheet{Parts: []Part{drum}, Hidden: []Hidden{
		{ID: "H32/front", Chance: .15, Parts: []Target{at("LF"), at("RF")}, HistoryKeys: []string{"water"}},
		{ID: "H32/rear", Chance: .15, Parts: []Target{at("LR"), at("RR")}}}},
		Assessment: Assessment{Conditions: []Condition{{Target: at("LF"), Grade: PastLimit, ReadingsTaken: 1, States: []State{{Chance: 1, Grade: PastLimit}}}}}}
	o := newOutlook(Brief{Stored: "damp"}, s)
	require.Equal(t, []bool{true, false}, o.happened)
	require.Equal(t, chanceCap, o.rowChance(0))
	require.InDelta(t, .15*5/(4+.15*1.3), o.rowChance(1), 1e-12, "what was seen counts by its history")
}

// Four pins of one row are one event: seen fit together they count once, and two seen past it count as one.
func TestARowCountsOnce(t *testing.T) {
	pin := Part{ID: "pin", Positions: []string{"P1", "P2", "P3", "P4"}, Outlook: []State{{Chance: .6, Grade: WornFit}, {Chance: .4, Grade: PastLimit, RegisterID: "H01"}}}
	at := func(p string) Target { return Target{Part: "pin", Position: p} }
	seen := func(p string, g Grade) Condition {
		return Condition{Target: at(p), Grade: g, ReadingsTaken: 1, States: []State{{Chance: 1, Grade: g}}}
	}
	s := UnitSheet{Sheet: Sheet{Parts: []Part{pin}, Hidden: []Hidden{{ID: "H01", Chance: .4, Parts: []Target{at("P1"), at("P2"), at("P3"), at("P4")}}}}}
	s.Assessment.Conditions = []Condition{seen("P1", WornFit), seen("P2", WithinNew), seen("P3", WornFit)}
	fit := newOutlook(Brief{}, s)
	require.InDelta(t, 4/4.4, fit.multiplier(), 1e-12)
	s.Assessment.Conditions = []Condition{seen("P1", PastLimit), seen("P2", PastLimit), seen("P3", WornFit)}
	require.InDelta(t, 5/4.4, newOutlook(Brief{}, s).multiplier(), 1e-12)
}
