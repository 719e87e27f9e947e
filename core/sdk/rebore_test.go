package sdk

import (
	"testing"

	"github.com/stretchr/testify/require"
)

// inchTolerance is what a worked sum in inches may differ by.
const inchTolerance = .00005

// bore has three planes: under the ridge, middle, bottom, each across the thrust faces and along the axis.
func bore(position string, tt, ta, mt, ma, bt, ba float64) Bore {
	return Bore{Position: position, Planes: []Plane{{&tt, &ta}, {&mt, &ma}, {&bt, &ba}}}
}

func bores() []Bore {
	return []Bore{
		bore("1", 3.3832, 3.3801, 3.3810, 3.3790, 3.3768, 3.3764),
		bore("2", 3.3846, 3.3808, 3.3818, 3.3795, 3.3770, 3.3765),
		bore("3", 3.3851, 3.3812, 3.3822, 3.3796, 3.3769, 3.3765),
		bore("4", 3.3838, 3.3803, 3.3813, 3.3791, 3.3767, 3.3764),
	}
}

// pitted is the same block with a pit of .0060 in at the middle of bore 3, thrust side.
func pitted() []Bore {
	bs := bores()
	beside := 3.3822
	bs[2].Pits = []Pit{{&beside, .0060}}
	return bs
}

// The trade's worked example of a rebore, common practice. Sums to .00005 in.
func TestBoresTakeTwenty(t *testing.T) {
	g := BoresRule(3.3750).Group(bores(), 0)
	for i, want := range []struct{ max, oor, taper, wear, required float64 }{
		{3.3832, .0031, .0064, .0082, .0153}, {3.3846, .0038, .0076, .0096, .0174}, {3.3851, .0039, .0082, .0101, .0180}, {3.3838, .0035, .0071, .0088, .0163},
	} {
		n := g.Bores[i]
		require.InDelta(t, want.max, n.Max, inchTolerance)
		require.InDelta(t, want.oor, n.OutOfRound, inchTolerance)
		require.InDelta(t, want.taper, n.Taper, inchTolerance)
		require.InDelta(t, want.wear, n.Wear, inchTolerance)
		require.InDelta(t, want.required, n.Required, inchTolerance)
		require.Equal(t, .020, n.Alone)
		require.False(t, n.Pitted)
	}
	require.Equal(t, .020, g.Step)
	require.Equal(t, "3", g.Driver)
	require.InDelta(t, .0020, g.Margin, inchTolerance)
	require.InDelta(t, 3.3950, g.Finished, inchTolerance)
	require.True(t, g.Complete)
	require.True(t, g.Settled)
	require.False(t, g.Close)
	require.Empty(t, g.Mismatched)
	require.Empty(t, g.Sleeves, "nothing under the smallest step")
}

// A pit takes twice its depth: .0072 + .0120 + .0040 = .0232. The other offer is a sleeve in that bore.
func TestPitSetsTheStepOrTakesASleeve(t *testing.T) {
	g := BoresRule(3.3750).Group(pitted(), 0)
	require.InDelta(t, .0232, g.Required, inchTolerance)
	require.True(t, g.Bores[2].Pitted)
	require.Equal(t, .030, g.Step)
	require.Equal(t, "3", g.Driver)
	require.Equal(t, "2", g.NextDriver)
	require.Equal(t, .020, g.NextStep)
	require.Equal(t, []SleeveOffer{{Step: .020, Positions: []string{"3"}}}, g.Sleeves)
	require.Equal(t, []string{"all to +.030, by bore 3, which needs .0232 out; bored to 3.405 and on to fit each piston",
		"without bore 3, bore 2 would need +.020", "or a sleeve in bore 3 and all to +.020"}, g.Words())
}

// Where its place is not known, a pit counts as beside the largest reading: .0101 + .0120 + .0040.
func TestPitWithoutAPlace(t *testing.T) {
	bs := bores()
	bs[2].Pits = []Pit{{nil, .0060}}
	require.InDelta(t, .0261, BoresRule(3.3750).Group(bs, 0).Required, inchTolerance)
}

// Thinnest wall .196: .181 after .030, .166 after .060, both above .125. The trade's worked example, common practice.
func TestWallAfterBoring(t *testing.T) {
	require.InDelta(t, .181, WallAfter(.196, 0, .030), inchTolerance)
	require.InDelta(t, .166, WallAfter(.196, 0, .060), inchTolerance)
	require.InDelta(t, .186, WallAfter(.196, .010, .030), inchTolerance)
	r := BoresRule(3.3750)
	wall := .196
	require.False(t, r.TooThin(&wall, 0, .060))
	require.False(t, r.TooThin(nil, 0, .060), "not measured is not judged")
	thin := .138
	bs := pitted()
	bs[0].Wall = &thin
	g := r.Group(bs, 0)
	require.Equal(t, []string{"1"}, g.Thin)
	require.Contains(t, g.Words(), "the wall of bore 1 would be too thin: it is sleeved")
	require.Equal(t, []SleeveOffer{{.020, []string{"3"}}, {.030, []string{"1"}}}, g.Sleeves, ".138 leaves .128 after .020 and .123 after .030")
}

func TestStepWithoutPistonsIsSkipped(t *testing.T) {
	r := BoresRule(3.3750)
	r.Pistons = []float64{0, .030, .060}
	g := r.Group(bores(), 0)
	require.Equal(t, .030, g.Step)
	require.Equal(t, []float64{.020}, g.Skipped)
	require.Contains(t, g.Words(), "no pistons to be had at +.020")
}

func TestBeyondTheLargestOversize(t *testing.T) {
	bs := bores()
	bs[1] = bore("2", 3.4330, 3.4300, 3.4310, 3.4290, 3.4270, 3.4265)
	g := BoresRule(3.3750).Group(bs, 0)
	require.True(t, g.Beyond)
	require.Zero(t, g.Step)
	require.Equal(t, []SleeveOffer{{.020, []string{"2"}}, {.030, []string{"2"}}, {.040, []string{"2"}}, {.060, []string{"2"}}}, g.Sleeves)
	require.Contains(t, g.Words()[0], "more than the largest step: sleeves, or another block")
}

func TestBoresPartlyRead(t *testing.T) {
	bs := bores()
	bs[3].Planes[2].H = nil
	g := BoresRule(3.3750).Group(bs, 0)
	require.False(t, g.Complete)
	require.False(t, g.Settled)
	require.Equal(t, 23, g.Taken)
	require.Contains(t, g.Words(), "no order until all are read: bore 4 5 of 6")
	require.Zero(t, BoresRule(3.3750).Group([]Bore{{Position: "1", Planes: make([]Plane, 3)}}, 0).Step)
}

// One odd bore has pistons of another size: a set is bought for the whole block.
func TestOddBore(t *testing.T) {
	bs := bores()
	bs[1] = bore("2", 3.3990, 3.3980, 3.3975, 3.3970, 3.3962, 3.3961)
	require.Equal(t, []string{"2"}, BoresRule(3.3750).Group(bs, 0).Mismatched)
}

// The bore gauge's .0002 in is no small thing where .0199 or .0201 has to come out (JCGM 100).
func TestNearAStep(t *testing.T) {
	r := BoresRule(3.3750)
	r.U = StandardUncertainty(.0002)
	g := r.Group([]Bore{bore("1", 3.3870, 3.3831, 3.3840, 3.3830, 3.3770, 3.3766)}, 0)
	require.InDelta(t, .0199, g.Required, inchTolerance)
	require.True(t, g.Close)
	require.True(t, g.Uncertain)
}

// A block at an oversize is graded against that size, as a crank is at an undersize (common practice).
func TestBlockAtAnOversize(t *testing.T) {
	r := BoresRule(3.3750)
	at := []Bore{bore("1", 3.3958, 3.3955, 3.3955, 3.3954, 3.3952, 3.3951), bore("2", 3.3957, 3.3954, 3.3955, 3.3953, 3.3952, 3.3952)}
	p := r.Present(.020, at)
	require.True(t, p.Agreed)
	require.Equal(t, .020, p.Step)
	require.InDelta(t, 3.3950, p.Top, inchTolerance)
	require.False(t, r.Present(0, at).Agreed)
	require.Contains(t, r.Present(0, at).Words, "every bore reads as +.020, but there is no mark")
	require.Contains(t, r.Present(.030, at).Words, "marked +.030, but bore 1 reads 3.3951: not that size")
	require.Contains(t, r.Present(.010, at).Words, "marked +.010, but bore 1 reads as +.020: look at the pistons")
	require.Equal(t, "standard size", r.Present(0, bores()).Words)
	require.Zero(t, r.Present(0, nil).Step)
	g := r.Group(at, .020)
	require.Equal(t, .030, g.Step)
	require.Empty(t, g.Mismatched)
}

func TestOversizeInWords(t *testing.T) {
	require.Equal(t, "+.020", Oversize(.020))
	require.Equal(t, "standard", Oversize(0))
}
