package transferbox

import (
	"testing"

	"github.com/fettle-tools/fettle/core"
	"github.com/stretchr/testify/require"
)

// shimReadings are those of the intermediate shaft in a worked example, common practice: case 1.1870 deep, bearing
// 1.1620 out, joint .0100 when pressed.
func shimReadings(joint, pack float64) []core.Finding {
	var fs []core.Finding
	for _, s := range []struct {
		station string
		x       float64
	}{{"depth", 1.1870}, {"joint", joint}, {"stand_out", 1.1620}, {"pack", pack}} {
		f := found("intermediate-shims", "", "end-float", size(s.x))
		f.Station, f.ID = s.station, "shims-"+s.station
		fs = append(fs, f)
	}
	return fs
}

func stock(words string) []core.Fact {
	return []core.Fact{{Name: "shims", Value: core.Value{Kind: core.ValueWord, Word: words}, Source: "shop"}}
}

func TestShimPackIsMadeUp(t *testing.T) {
	a := assess(t, stock("in stock .003 .005 .010 .020"), shimReadings(.0100, .0200)...)
	require.Equal(t, core.PastLimit, condition(t, a, intermediate).Grade, ".035 less .020 leaves .015")
	now, _ := open(t, a, intermediate)
	require.Equal(t, []string{"re-shim", "new-shims"}, now)
	r := remedy(t, a, intermediate, "re-shim")
	require.Equal(t, "Pack made up anew for the float: pack 0.031 = 1 x 0.02 + 1 x 0.005 + 2 x 0.003", r.Name)
	require.Equal(t, []core.Yield{{Key: "intermediate-shims", Value: "0.031"}}, r.Yields)
	why := r.Why[len(r.Why)-1]
	require.Contains(t, why.Text, "end float then 0.004 in; thicker pack = less end float, more preload; prove it: end float by dial")
	require.Equal(t, []string{"shims-depth", "shims-joint", "shims-stand_out"}, why.FindingIDs)
	require.Contains(t, condition(t, a, intermediate).Reasons, why)
	for _, f := range condition(t, a, intermediate).Facts {
		if f.Name == "shim-pack" {
			require.InDelta(t, .0310, f.Value.Quantity.Value, 1e-9)
			return
		}
	}
	t.Fatal("the pack is no fact")
}

// Made up without a joint, the joint is no part of the sum.
func TestShimPackWithoutJoint(t *testing.T) {
	a := assess(t, stock(".003, .005, .010"), shimReadings(0, .0210)...)
	require.Equal(t, core.WithinNew, condition(t, a, intermediate).Grade)
	require.Contains(t, remedy(t, a, intermediate, "re-shim").Name, "pack 0.021 = 1 x 0.01 + 1 x 0.005 + 2 x 0.003")
	now, _ := open(t, a, intermediate)
	require.Contains(t, now, "reuse", "the pack that is in gives .0040")
}

// Without the stock the pack is told, not made up; where the stock cannot make it, the nearest are told.
func TestShimPackThatCannotBeMade(t *testing.T) {
	a := assess(t, nil, shimReadings(.0100, .0200)...)
	require.Len(t, a.Problems, 1)
	require.Equal(t, "the intermediate shaft wants a pack of 0.031 in", a.Problems[0].Summary)
	require.Equal(t, "Pack made up anew for the float", remedy(t, a, intermediate, "re-shim").Name)

	a = assess(t, stock(".010"), shimReadings(.0100, .0200)...)
	require.Len(t, a.Problems, 1)
	require.Contains(t, a.Problems[0].Next, "0.03, 0.04")

	a = assess(t, stock("none that fit"), shimReadings(.0100, .0200)...)
	require.Contains(t, a.Problems[0].Next, "fact shims")

	fs := shimReadings(.0100, .0200)
	fs[0].Value = size(1.1500)
	a = assess(t, stock(".003 .005 .010"), fs...)
	require.Contains(t, a.Problems[0].Summary, "cannot be made", "it stands out more than the case is deep")
}

// Half the readings make no pack and no noise.
func TestShimPackWaitsForItsReadings(t *testing.T) {
	a := assess(t, stock(".003 .005 .010 .020"), shimReadings(.0100, .0200)[:2]...)
	require.Empty(t, a.Problems)
	require.Equal(t, core.NotSeen, condition(t, a, intermediate).Grade)
}
