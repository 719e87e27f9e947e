package web

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/fettle-tools/fettle/core"
)

// boxSheet asks a diameter of two spindles at two stations, each against a limit of its own at the front, and whether the case is cracked.
func boxSheet() (core.UnitSheet, []core.Finding) {
	f := func(v float64) *float64 { return &v }
	diameter := core.Check{ID: "diameter", Name: "diameter", Kind: core.Measured, Unit: "in", Stations: []string{"F", "R"}, Instrument: "micrometer", Limit: core.Limit{NewLow: f(1.999), NewHigh: f(2), WearLow: f(1.998)}}
	us := core.UnitSheet{Subsystem: "box", Unit: "box", Sheet: core.Sheet{Subsystem: "box", Title: "Box", UnitKind: "box", Cautions: []core.Caution{{Text: "Sharp edges."}}, Parts: []core.Part{
		{ID: "spindle", Name: "Spindle", Positions: []string{"left", "right"}, Checks: []core.Check{diameter}},
		{ID: "case", Name: "Case", SafetyCritical: true, Checks: []core.Check{{ID: "crack", Name: "crack test", Kind: core.GoNoGo, BeforeStrip: true}, {ID: "rust", Name: "rust", Kind: core.Judged}, {ID: "gasket", Name: "gasket", Kind: core.OneUse}}},
	}}, Overrides: []core.Override{{Target: core.Target{Part: "spindle", Position: "right"}, Check: "diameter", Limit: core.Limit{NewLow: f(1.989), NewHigh: f(1.99), WearLow: f(1.988)}}}}
	return us, []core.Finding{{Subsystem: "box", Unit: "box", Target: core.Target{Part: "spindle", Position: "left"}, Check: "diameter", Station: "R", AsTyped: "1.9991 in"}}
}

// A sheet has a box for every reading, with what it is held against; what was read already stands in its box unless it is wanted blank.
func TestASheetHasABoxForEveryReading(t *testing.T) {
	w := ask(t, "GET", "/jobs/J-001/sheets/box", "")
	require.Equal(t, 200, w.Code, w.Body)
	page := w.Body.String()
	require.Equal(t, 6, strings.Count(page, "<b>"), page)
	for _, s := range []string{"new 1.999 to 2 in, fails under 1.998 in · micrometer", "new 1.989 to 1.99 in", "<small>left F</small><b><i></i></b>", "<small>left R</small><b>1.9991 in</b>", "<small>right R</small>",
		"Crack test <em>before it comes apart</em>", "<i>pass   fails</i>", "<i>0   1   2   3</i>", "lives hang on it", "Sharp edges."} {
		require.Contains(t, page, s)
	}
	require.NotContains(t, page, "gasket")
	blank := ask(t, "GET", "/jobs/J-001/sheets/box?blank=1", "").Body.String()
	require.NotContains(t, blank, "1.9991")
	require.Equal(t, 6, strings.Count(blank, "<b>"))
}

// Before anything is tagged there are blank tags to write on.
func TestTagsArePrinted(t *testing.T) {
	page := askOf(t, &shop{story: func(s *core.Story) { s.Tags = nil }}, "GET", "/jobs/J-001/labels", "").Body.String()
	require.Equal(t, blankLabels, strings.Count(page, "T-_____"))
	require.Contains(t, page, "J-001, M. Wellbeck")
	x := &shop{story: func(s *core.Story) {
		s.Tags = []core.Tag{{ID: "T-014", What: "crankshaft", State: core.TagOff, Lies: "rack 2"}, {ID: "T-015", What: "gone", State: core.TagReturned}}
	}}
	page = askOf(t, x, "GET", "/jobs/J-001/labels", "").Body.String()
	require.Contains(t, page, "square code of T-014")
	require.NotContains(t, page, "T-015")
	require.NotContains(t, page, "T-_____")
	require.Contains(t, askOf(t, x, "GET", "/jobs/J-001/sheets", "").Body.String(), "1 tag of this job")
}
