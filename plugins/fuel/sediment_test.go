package fuel

import (
	"testing"

	"github.com/fettle-tools/fettle/core"
	"github.com/stretchr/testify/require"
)

// More than 3 cubic inches of sediment make what lies after the tank a class worse. Common practice, no source.
func TestSedimentMakesThePipesStricter(t *testing.T) {
	light := []core.Finding{found("fuel-pipe", "tap-to-pump", "corrosion", "", class(1)), found("tap-and-bowl", "", "seals-and-glass", "", class(1)),
		found("fuel-pipe", "tank-to-tap", "corrosion", "", class(0)), found("tank-strap", "front", "corrosion", "", class(1))}
	clean := assess(t, append(light, found("fuel-tank", "", "sediment", "", size(2.9, "in3")))...)
	dirty := assess(t, append(light, found("fuel-tank", "", "sediment", "", size(62, "ml")))...) // 3.78 in3
	for _, c := range []struct {
		at    core.Target
		dirty core.Grade
	}{{target("fuel-pipe", "tap-to-pump"), core.Failed}, {target("tap-and-bowl", ""), core.Failed},
		{target("fuel-pipe", "tank-to-tap"), core.WithinNew}, {target("tank-strap", "front"), core.WithinNew}} {
		require.Equal(t, core.WithinNew, condition(t, clean, c.at).Grade, c.at)
		require.Equal(t, c.dirty.String(), condition(t, dirty, c.at).Grade.String(), c.at)
	}
	now, _ := open(t, dirty, target("tap-and-bowl", ""))
	require.Equal(t, []string{"reseat", "new-tap"}, now)
	require.Empty(t, clean.Problems)
	require.Len(t, dirty.Problems, 1)
	require.Contains(t, dirty.Problems[0].Summary, "judged a class stricter")
}

// A limit that the job gives is left as it is.
func TestSedimentLeavesAnOverrideAlone(t *testing.T) {
	two := 2
	o := core.Override{Target: target("tap-and-bowl", ""), Check: "seals-and-glass",
		Limit: core.Limit{WorstClass: &two, Unit: "class 0-3", Source: "agreed with the owner", Confidence: "low", Origin: "job"}}
	a := assessWith(t, []core.Override{o}, found("tap-and-bowl", "", "seals-and-glass", "", class(2)), found("fuel-tank", "", "sediment", "", size(5, "in3")))
	require.NotEqual(t, core.Failed, condition(t, a, target("tap-and-bowl", "")).Grade)
}
