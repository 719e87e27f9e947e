package web

import (
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/fettle-tools/fettle/core"
)

// A subsystem that does not answer is a note on its own bench, with why, what next, and a way to try it again.
func TestASilentSubsystemIsTriedAgain(t *testing.T) {
	x := &shop{silent: true}
	page := askOf(t, x, "GET", "/jobs/J-001/bench/box", "").Body.String()
	require.Contains(t, page, "Not assessed: its sheet has changed")
	require.Contains(t, page, "Next: accept it as it is")
	require.Contains(t, page, `action="/jobs/J-001/bench/box/again"`)
	require.Contains(t, page, "<h1>Box</h1>")
	w := askOf(t, x, "POST", "/jobs/J-001/bench/box/again", "", typedForm...)
	require.Equal(t, "/jobs/J-001/bench/box", w.Header().Get("Location"))
	require.Equal(t, []string{"box"}, x.again)
	require.Contains(t, askOf(t, x, "GET", "/jobs/J-001/bench", "").Body.String(), "It does not answer.")
	require.NotContains(t, ask(t, "GET", "/jobs/J-001/bench/box", "").Body.String(), "/again")
}

// Figures say what they are made without.
func TestFiguresSayWhatTheyAreWithout(t *testing.T) {
	failed := core.Problem{Severity: core.SeverityError, Subsystem: "power-winch", Summary: "not assessed: the plugin stopped"}
	unit := failed
	unit.Subsystem, unit.Unit = "gearbox", "gearbox-2"
	plan := core.Plan{Sheets: []core.UnitSheet{{Subsystem: "gearbox", Unit: "gearbox"}, {Subsystem: "gearbox", Unit: "gearbox-2", Failed: true}},
		Problems: []core.Problem{failed, failed, unit, {Severity: core.SeverityError, Subsystem: "frame", Summary: "the pack names no axle"}}}
	require.Equal(t, []Subsystem{{Name: "gearbox@gearbox-2", Title: "Gearbox", Silent: true}, {Name: "power-winch", Title: "Power winch", Silent: true}}, without(plan))
	require.Empty(t, without(core.Plan{}))
}
