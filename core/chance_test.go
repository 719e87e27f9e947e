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
