package core_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/fettle-tools/fettle/core"
)

func TestEnoughIsReadOffTheCurve(t *testing.T) {
	usd := func(n int64) core.Money { return core.MinorMoney(100*n, "USD") }
	b := core.Budget{}
	for i := range int64(101) {
		b.Curve = append(b.Curve, usd(1000+10*i))
	}
	for sum, want := range map[int64]float64{999: 0, 1000: 0, 1010: .01, 1505: .505, 1800: .8, 2000: 1, 9000: 1} {
		require.InDelta(t, want, b.Enough(usd(sum)), 1e-12, sum)
	}
	// Half of all trials at one figure: that figure is enough for all of them.
	flat := core.Budget{Curve: []core.Money{usd(100), usd(200), usd(200), usd(300)}}
	require.InDelta(t, 2./3, flat.Enough(usd(200)), 1e-12)
	require.InDelta(t, 1./6, flat.Enough(usd(150)), 1e-12)
	require.Zero(t, core.Budget{}.Enough(usd(1)))
}

// The percentiles of a plan are at least as likely to be enough as they say, to the curve's own hundredth: where many trials come to
// one figure, more so.
func TestPercentilesAreEnoughAtLeastAsOftenAsTheySay(t *testing.T) {
	p := plan(t, request(), unseenBox())
	for sum, want := range map[core.Money]float64{p.Budget.P10: .1, p.Budget.P50: .5, p.Budget.P80: .8, p.Budget.P90: .9} {
		require.GreaterOrEqual(t, p.Budget.Enough(sum), want-.011)
	}
}
