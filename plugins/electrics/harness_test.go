package electrics

import (
	"testing"

	"github.com/fettle-tools/fettle/core"
	"github.com/stretchr/testify/require"
)

// branches reads the insulation of the branches, all sound near fuel.
func branches(classes ...int) []core.Finding {
	var fs []core.Finding
	for i, at := range []string{"engine-bay", "dash", "front", "rear"} {
		fs = append(fs, found("harness-branch", at, "insulation", "", class(classes[i])), found("harness-branch", at, "near-fuel", "", passes(true)))
	}
	return fs
}

// Three bad branches may be mended; four are a new harness (common practice, no source).
func TestTooManyBranchesToMend(t *testing.T) {
	for _, c := range []struct {
		classes []int
		repair  bool
	}{{[]int{2, 0, 0, 0}, true}, {[]int{2, 2, 1, 3}, true}, {[]int{2, 2, 2, 3}, false}} {
		a := assess(t, branches(c.classes...)...)
		now, ever := open(t, a, target("harness-branch", "engine-bay"))
		if c.repair {
			require.Equal(t, []string{"repair", "with-harness"}, now, c.classes)
			continue
		}
		require.Equal(t, []string{"with-harness"}, now)
		require.Equal(t, []string{"with-harness"}, ever)
	}
}

// A harness is kept as a lot or renewed as a lot: whatever is kept yields the same, whatever is renewed another.
func TestHarnessIsOneLot(t *testing.T) {
	lots := map[string]string{"reuse": "kept", "repair": "kept", "take-out-added": "kept", "with-harness": "new", "new-harness": "new"}
	for _, r := range assess(t).Remedies {
		if r.Target.Part == "harness" || r.Target.Part == "harness-branch" {
			require.Equal(t, []core.Yield{{Key: "harness-lot", Value: lots[r.ID]}}, r.Yields, "%s %s", r.Target, r.ID)
		}
	}
}
