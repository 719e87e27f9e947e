package steering

import (
	"context"
	"testing"

	"github.com/fettle-tools/fettle/core"
	"github.com/fettle-tools/fettle/core/sdk"
	"github.com/stretchr/testify/require"
)

var (
	rimPlay   = found("lash", "", "free-play", in(2.4))
	armPlay   = found("steering-gear", "", "arm-play", in(.060))
	jointPlay = found("ball-joint", "drag-link-front", "axial-play", in(.035))
)

// 2.4 in at a 17 in wheel is past 2.125 (49 CFR 570.60 table 2, between its rows). Box and arm .060, drag link end .035:
// worked example of the trade, common practice.
func TestWhereTheLashIs(t *testing.T) {
	a := assess(t, rimPlay, armPlay, jointPlay)
	require.Equal(t, core.PastLimit, a.condition(lash).Grade)
	require.InDelta(t, 1.24, *a.condition(lash).Wear, .005)
	require.Contains(t, a.words(lash), "box and arm 1.19 in (50 %), drag link's front end 0.694 in (29 %); the rest, 0.516 in, is elsewhere")
	now, ever := a.open(lash)
	require.Equal(t, []string{"put-right"}, now)
	require.Equal(t, []string{"put-right"}, ever)
	r := a.remedy(lash, "put-right")
	require.Equal(t, "What is worn put right (box and arm, drag link's front end), set, and play read again", r.Name)
	require.Equal(t, []string{"box-overhaul", "ball-joints/drag-link", "set-toe", "adjust-and-grease"}, r.Operations)
	require.Equal(t, []string{"steering-box-out"}, r.Steps)
	require.Contains(t, a.remedy(lash, "adjust").Why[len(a.remedy(lash, "adjust").Why)-1].Text, "adjusting is for a box and joints within theirs")
}

func TestLashInTheJointAlone(t *testing.T) {
	r := assess(t, rimPlay, found("steering-gear", "", "arm-play", in(.010)), jointPlay).remedy(lash, "put-right")
	require.Equal(t, []string{"ball-joints/drag-link", "set-toe", "adjust-and-grease"}, r.Operations)
	require.Equal(t, []string{"links-off"}, r.Steps, "the box stays in")
}

func TestLashWithNothingWornIsAdjusted(t *testing.T) {
	a := assess(t, rimPlay, found("steering-gear", "", "arm-play", in(.010)))
	now, _ := a.open(lash)
	require.Equal(t, []string{"adjust", "put-right"}, now)
	require.Contains(t, a.words(lash), "box and arm 0.198 in")
}

func TestLashNotFollowedUp(t *testing.T) {
	a := assess(t, rimPlay)
	require.Contains(t, a.problems(), "where the play at the rim comes from is not known yet -> read the play at the tip of the drop arm")
	now, _ := a.open(lash)
	require.Equal(t, []string{"adjust", "put-right"}, now)
}

func TestLashReadingsThatDisagree(t *testing.T) {
	a := assess(t, found("lash", "", "free-play", in(2.2)), found("steering-gear", "", "arm-play", in(.2)))
	require.Contains(t, a.words(lash), "more than was found at the rim: read them again")
}

// Without drop arm and ratio the play cannot be carried to the rim; what is worn is told all the same.
func TestLashWithoutFacts(t *testing.T) {
	a := assessWith(t, []core.Fact{fact("W", in(17)), fact("T_thread", in(.6875)), fact("T_toe", in(.125))}, rimPlay, jointPlay)
	require.NotContains(t, a.words(lash), "at the rim:")
	now, _ := a.open(lash)
	require.Equal(t, []string{"put-right"}, now)
}

// A wheel of 16 in or less has one limit, 2 in: 49 CFR 570.60 table 2.
func TestSmallWheel(t *testing.T) {
	facts := append([]core.Fact{fact("W", in(14))}, packhorse()[1:]...)
	a := assessWith(t, facts, found("lash", "", "free-play", in(1.9)))
	require.Equal(t, core.NearLimit, a.condition(lash).Grade)
	a = assessWith(t, facts, found("lash", "", "free-play", in(2.01)))
	require.Equal(t, core.PastLimit, a.condition(lash).Grade)
}

// The sheet's limits are the regulations': 49 CFR 570.60 tables 2 and 3, 570.7(b) and (d).
func TestLimitsAreTheRegulations(t *testing.T) {
	p, err := sdk.New(Subsystem())
	require.NoError(t, err)
	for _, wheel := range []float64{14, 16, 17, 18, 20, 22} {
		sheet, _, err := p.Describe(context.Background(), append([]core.Fact{fact("W", in(wheel))}, packhorse()[1:]...))
		require.NoError(t, err)
		require.InDelta(t, sdk.LashLimit(wheel), *sheet.Check("lash", "free-play").Limit.WearHigh, 1e-9, "%g in", wheel)
		require.InDelta(t, sdk.ToeLimit(.125), *sheet.Check("toe", "toe-in").Limit.WearHigh, 1e-9)
		for check, rim := range map[string]float64{"tread-play": 16, "tread-play-heavy-18": 18, "tread-play-heavy-over-18": 20} {
			require.InDelta(t, sdk.LinkagePlayLimit(rim, 20000), *sheet.Check("front-wheel", check).Limit.WearHigh, 1e-9, check)
		}
	}
}
