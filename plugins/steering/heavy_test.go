package steering

import (
	"testing"

	"github.com/fettle-tools/fettle/core"
	"github.com/stretchr/testify/require"
)

// Play of .30 in at the tread: past 1/4 in on a light vehicle whatever its rim (49 CFR 570.7(b)); within 3/8 on a truck over
// 10 000 lb on 17 in rims, within 1/2 on 20 in (49 CFR 570.60 table 3).
func TestLinkagePlayByRimAndWeight(t *testing.T) {
	for _, c := range []struct {
		name       string
		rim, gross float64
		grade      core.Grade
	}{
		{"light, small rim", 16, 5400, core.PastLimit},
		{"light, large rim", 20, 9000, core.PastLimit},
		{"heavy, 16 in", 16, 15000, core.PastLimit},
		{"heavy, 17 in", 17, 15000, core.NearLimit},
		{"heavy, 20 in", 20, 15000, core.NearLimit},
	} {
		t.Run(c.name, func(t *testing.T) {
			facts := append(packhorse()[:8:8], fact("rim", in(c.rim)), fact("gross", of(c.gross, "lb")))
			a := assessWith(t, facts, found("front-wheel", "LF", "tread-play", in(.30)))
			require.Equal(t, c.grade.String(), a.condition(target("front-wheel", "LF")).Grade.String())
		})
	}
}

func TestHeavyReadingStandsForItsTruck(t *testing.T) {
	facts := append(packhorse()[:8:8], fact("rim", in(20)), fact("gross", of(15000, "lb")))
	a := assessWith(t, facts, found("front-wheel", "LF", "tread-play-heavy-over-18", in(.05)))
	require.Equal(t, core.WithinNew.String(), a.condition(target("front-wheel", "LF")).Grade.String(), "nothing is left to read")
}

func TestHeavyReadingOnALightVehicle(t *testing.T) {
	a := assess(t, found("front-wheel", "LF", "tread-play-heavy-over-18", in(.05)))
	require.Contains(t, a.problems(), "written for a heavier truck or another rim")
	require.Equal(t, core.NotSeen, a.condition(target("front-wheel", "LF")).Grade)
}
