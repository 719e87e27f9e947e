package body

import (
	"testing"

	"github.com/fettle-tools/fettle/core"
	"github.com/stretchr/testify/require"
)

// To 1 % rusted through is nothing, to 10 % is patched, to 35 % a section is let in, beyond it the panel is renewed. Common practice.
func TestHowMuchRustThrough(t *testing.T) {
	sound := []core.Finding{found("panel", "sill-LH", "thickness", inches(.047)), found("panel", "sill-LH", "pitting", class(1))}
	for _, c := range []struct {
		percent float64
		open    []string
	}{
		{0, []string{"reuse", "patch", "section", "new-panel"}},
		{1, []string{"reuse", "patch", "section", "new-panel"}},
		{4, []string{"patch", "section", "new-panel"}},
		{10, []string{"patch", "section", "new-panel"}},
		{12, []string{"section", "new-panel"}},
		{35, []string{"section", "new-panel"}},
		{36, []string{"new-panel"}},
	} {
		a := assess(t, 0, append(sound, found("panel", "sill-LH", "perforated", share(c.percent)))...)
		now, ever := open(t, a, "panel", "sill-LH")
		require.Equal(t, c.open, now, "%g %%", c.percent)
		require.Equal(t, c.open, ever)
	}
	now, _ := open(t, assess(t, 0, found("floor", "tunnel", "perforated", share(6))), "floor", "tunnel")
	require.Equal(t, []string{"patch", "new-floor"}, now)
	now, _ = open(t, assess(t, 0, found("floor", "tunnel", "perforated", share(16))), "floor", "tunnel")
	require.Equal(t, []string{"new-floor"}, now)
}

func hours(t *testing.T, a core.Assessment, part, position, id string) float64 {
	t.Helper()
	r := remedy(t, a, part, position, id)
	for _, o := range a.Operations {
		if o.ID == r.Operations[0] {
			return o.Hours.Likely
		}
	}
	t.Fatalf("no operation %s", r.Operations[0])
	return 0
}

// A crack in aluminium is stopped and a nut that spun is cut out, though neither is past its limit; each by its number.
func TestPutRightBeforeItIsPastItsLimit(t *testing.T) {
	a := assess(t, 2, found("aluminium-panel", "A1", "cracks", count(2)), found("aluminium-panel", "A1", "edge-corrosion", class(0)),
		found("captive-nuts", "", "seized-or-spinning", count(5)), found("trim-of-year", "", "wrong-items", count(3)))
	now, ever := open(t, a, "aluminium-panel", "A1")
	require.NotContains(t, append(now, ever...), "reuse")
	require.InDelta(t, 1.4, hours(t, a, "aluminium-panel", "A1", "stop-and-weld"), 1e-12)
	now, _ = open(t, a, "captive-nuts", "")
	require.Equal(t, []string{"new-nuts"}, now)
	require.InDelta(t, 1.75, hours(t, a, "captive-nuts", "", "new-nuts"), 1e-12)
	require.Equal(t, 3.0, hours(t, a, "trim-of-year", "", "correct"))
	a = assess(t, 2, found("captive-nuts", "", "seized-or-spinning", count(2)))
	now, _ = open(t, a, "captive-nuts", "")
	require.Contains(t, now, "reuse", "one or two are within new")
}

func TestWhatANeighbourIsTold(t *testing.T) {
	a := assess(t, 0, found("panel", "wing-LH", "perforated", share(50)), found("timber", "sill-RH", "moisture", share(24)), found("bulkhead", "", "corrosion", class(3)))
	var told string
	for _, p := range a.Problems {
		told += p.Summary + " -> " + p.Next + "\n"
	}
	require.Contains(t, told, "has to match the right wing -> offer both up")
	require.Contains(t, told, "wet timber hides its rot -> dry it")
	require.Contains(t, told, "everything of the front is set by the bulkhead -> repair and align it first")
	require.Len(t, a.Problems, 3)
}
