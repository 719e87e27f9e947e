package sdk

import (
	"testing"
	"time"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"github.com/fettle-tools/fettle/core"
)

func stock(sizes ...float64) []Shim {
	var ss []Shim
	for _, s := range sizes {
		ss = append(ss, Shim{s, -1})
	}
	return ss
}

// TM 5-3825-226-24: tapered swivel bearings, cover gaps without shims, .004 in taken off the mean for preload.
func TestSwivelPack(t *testing.T) {
	j := ShimJoint{Name: "swivel", Convention: ThickerIsLooser, Proof: "rolling torque 40 to 60 lbf-in, seal and link off"}
	wanted, err := j.Wanted(0, -Mean([]float64{.031, .035}), -.004)
	require.NoError(t, err)
	require.InDelta(t, .029, wanted, tol)
	p, err := j.Pack(wanted, stock(.003, .005, .010))
	require.NoError(t, err)
	require.Equal(t, []Shim{{.010, 2}, {.003, 3}}, p.Pieces)
	require.Equal(t, "pack 0.029 = 2 x 0.01 + 3 x 0.003", p.Words)
	require.Equal(t, "thicker pack = more end float, less preload; prove it: rolling torque 40 to 60 lbf-in, seal and link off", p.Meaning)
}

// Worked example, common practice: an intermediate shaft's end float set from depths, with and without its joint.
func TestEndFloatPack(t *testing.T) {
	j := ShimJoint{Name: "intermediate shaft", Convention: ThickerIsTighter}
	const depth, standOut, joint, float = 1.1870, 1.1620, .0100, .0040
	wanted, err := j.Wanted(0, depth+joint-standOut, float)
	require.NoError(t, err)
	require.InDelta(t, .0310, wanted, tol)
	p, err := j.Pack(wanted, stock(.003, .005, .010, .020))
	require.NoError(t, err)
	require.Equal(t, []Shim{{.020, 1}, {.005, 1}, {.003, 2}}, p.Pieces)

	without, err := j.Wanted(0, depth-standOut, float)
	require.NoError(t, err)
	require.InDelta(t, .0210, without, tol)
}

// Worked example, common practice: a pinion's spacer pack, from a trial float to a preload.
func TestPreloadPack(t *testing.T) {
	wanted, err := ShimJoint{Name: "pinion", Convention: ThickerIsLooser}.Wanted(.0480, .0065, -.0015)
	require.NoError(t, err)
	require.InDelta(t, .0400, wanted, tol)
}

// TM 10-3930-660-34 12-3: of shims of .060 in all and a play of .020, half of what closes the play goes below,
// .020, and .005 more above, .025.
func TestKnuckleShims(t *testing.T) {
	wanted, err := ShimJoint{Name: "knuckle", Convention: ThickerIsLooser}.Wanted(.060, .020, .005)
	require.NoError(t, err)
	require.InDelta(t, .020+.025, wanted, tol)
}

// TM 9-2320-289-34 for the equal and opposite change; the factor and the figures are common practice.
func TestCrownWheelBacklash(t *testing.T) {
	set, shift, err := CrownWheelShims{BackSide: .0920, ToothSide: .0880}.SetBacklash(.014, .008, 0)
	require.NoError(t, err)
	require.InDelta(t, .0080, shift, tol)
	require.InDelta(t, .1000, set.BackSide, tol)
	require.InDelta(t, .0800, set.ToothSide, tol)
	require.InDelta(t, .1800, set.BackSide+set.ToothSide, 1e-12)
	require.Contains(t, set.Words(), "together 0.18 as before")
	_, _, err = CrownWheelShims{BackSide: .0920, ToothSide: .0050}.SetBacklash(.014, .008, 0)
	require.Equal(t, core.Conflict, core.ErrorCode(err))
}

// Worked example, common practice: the sign turns with the maker's convention, so none is assumed.
func TestPinionDepthByMarks(t *testing.T) {
	pack, err := PinionPack(.0380, +.002, -.003, MinusSitsCloser)
	require.NoError(t, err)
	require.InDelta(t, .0430, pack, tol)
	pack, err = PinionPack(.0380, +.002, -.003, PlusSitsCloser)
	require.NoError(t, err)
	require.InDelta(t, .0330, pack, tol)
	_, err = PinionPack(.0380, +.002, -.003, "")
	require.Equal(t, core.Invalid, core.ErrorCode(err))
}

func TestPackNeedsItsConvention(t *testing.T) {
	_, err := ShimJoint{Name: "layshaft"}.Wanted(0, .01, .004)
	require.ErrorContains(t, err, "layshaft")
	require.Contains(t, core.ErrorNext(err), string(ThickerIsTighter))
	_, err = ShimJoint{Name: "layshaft"}.Pack(.01, stock(.010))
	require.Error(t, err)
}

func TestPackRules(t *testing.T) {
	j := ShimJoint{Name: "cover", Convention: ThickerIsTighter}
	_, err := j.Pack(.002, stock(.002))
	require.Error(t, err, "no shim under .003 lies alone")
	p, err := j.Pack(.007, stock(.002, .005))
	require.NoError(t, err)
	require.Len(t, p.Pieces, 2)
	p, err = j.Pack(0, nil)
	require.NoError(t, err)
	require.Equal(t, "no shims", p.Words)
	_, err = j.Pack(-.004, stock(.003))
	require.Error(t, err)

	p, err = j.Pack(.020, []Shim{{.010, 1}, {.005, 2}, {.020, 0}})
	require.NoError(t, err)
	require.Equal(t, []Shim{{.010, 1}, {.005, 2}}, p.Pieces, "no more than there are")

	_, err = j.Pack(.0310, stock(.010))
	require.Equal(t, core.NotFound, core.ErrorCode(err))
	require.Contains(t, core.ErrorNext(err), "0.03, 0.04")

	p, err = j.Pack(.0302, stock(.010, .0001))
	require.NoError(t, err)
	require.Len(t, p.Pieces, 1, "exact to .0005 is enough; fewer pieces are better")
}

// A pack out of many sizes that cannot be made is still refused at once.
func TestPackIsQuick(t *testing.T) {
	start := time.Now()
	_, err := ShimJoint{Name: "cover", Convention: ThickerIsTighter, Exact: .0002}.Pack(.2005,
		stock(.010, .012, .014, .016, .018, .020, .022, .024, .026, .028))
	require.Error(t, err)
	require.Less(t, time.Since(start), 2*time.Second)
}

// Against trying everything: the same fewest pieces, from sizes in half thousandths.
func TestPackAgainstEveryCombination(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		units := rapid.SliceOfNDistinct(rapid.IntRange(6, 60), 1, 4, rapid.ID[int]).Draw(t, "sizes")
		counts := rapid.SliceOfN(rapid.IntRange(0, 3), len(units), len(units)).Draw(t, "counts")
		total := rapid.IntRange(0, 150).Draw(t, "total")
		shims := make([]Shim, len(units))
		for i, u := range units {
			shims[i] = Shim{float64(u) * .0005, counts[i]}
		}
		fewest := fewestByTrying(units, counts, total)
		p, err := ShimJoint{Name: "any", Convention: ThickerIsTighter}.Pack(float64(total)*.0005, shims)
		if fewest < 0 {
			require.Error(t, err)
			return
		}
		require.NoError(t, err)
		pieces := 0
		for _, s := range p.Pieces {
			pieces += s.Count
		}
		require.Equal(t, fewest, pieces)
		require.InDelta(t, float64(total)*.0005, p.Total, 1e-9)
	})
}

func fewestByTrying(units, counts []int, total int) int {
	if total == 0 {
		return 0
	}
	if len(units) == 0 {
		return -1
	}
	best := -1
	for n := 0; n <= counts[0] && n*units[0] <= total; n++ {
		if rest := fewestByTrying(units[1:], counts[1:], total-n*units[0]); rest >= 0 && (best < 0 || n+rest < best) {
			best = n + rest
		}
	}
	return best
}
