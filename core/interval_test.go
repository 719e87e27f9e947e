package core

import (
	"testing"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/stat/distuv"
)

// The exact intervals that Newcombe (Two-sided confidence intervals for the single proportion, Statistics in Medicine 17, 1998, table I)
// gives for his four examples.
func TestBoundsArePublishedOnes(t *testing.T) {
	for _, x := range []struct {
		share
		low, high float64
	}{{share{81, 263}, .2527, .3676}, {share{15, 148}, .0578, .1617}, {share{0, 20}, 0, .1684}, {share{1, 29}, .0009, .1776}} {
		low, high := x.bounds()
		require.InDelta(t, x.low, low, .00005, "%d of %d", x.k, x.n)
		require.InDelta(t, x.high, high, .00005, "%d of %d", x.k, x.n)
	}
}

// The same bounds are quantiles of the beta distribution.
func TestBoundsAreBetaQuantiles(t *testing.T) {
	for n := 1; n <= 40; n++ {
		for k := 0; k <= n; k++ {
			low, high := share{k, n}.bounds()
			if k > 0 {
				require.InDelta(t, distuv.Beta{Alpha: float64(k), Beta: float64(n - k + 1)}.Quantile(.025), low, 1e-9, "%d of %d", k, n)
			} else {
				require.Zero(t, low)
			}
			if k < n {
				require.InDelta(t, distuv.Beta{Alpha: float64(k + 1), Beta: float64(n - k)}.Quantile(.975), high, 1e-9, "%d of %d", k, n)
			} else {
				require.Equal(t, 1.0, high)
			}
		}
	}
	low, high := share{}.bounds()
	require.Equal(t, [2]float64{0, 1}, [2]float64{low, high})
}

// heldAt are jobs that came to so much under or over scopes of P50 100, P80 120 and P90 130.
func heldAt(came ...int64) []Closed {
	m := func(n int64) Money { return MinorMoney(n*100, "USD") }
	var out []Closed
	for _, c := range came {
		s := &ScopeHeld{P50: m(100), P80: m(120), P90: m(130), Came: m(c)}
		out = append(out, Closed{Taught: &Taught{First: s, Last: s}})
	}
	return append(out, Closed{}, Closed{Taught: &Taught{NoMoney: "the job was stopped: it was not finished"}})
}

func TestHowOftenThePriceHeld(t *testing.T) {
	first, last := HowHeld(heldAt(90, 110, 120, 140))
	require.Equal(t, first, last)
	require.Equal(t, []int{1, 3, 3}, []int{first[0].Under, first[1].Under, first[2].Under})
	require.Equal(t, 4, first[1].Of)
	require.InDelta(t, .1941, first[1].Low, .0001)
	require.InDelta(t, .9937, first[1].High, .0001)
	require.Equal(t, "too few to tell", first[1].Says)
	over := make([]int64, 6)
	for i := range over {
		over[i] = 200
	}
	first, _ = HowHeld(heldAt(over...))
	require.Contains(t, first[1].Says, "the figure is too low", "none of six under P80")
	first, _ = HowHeld(heldAt(make([]int64, 8)...))
	require.Contains(t, first[0].Says, "the figure is too high", "eight of eight under P50")
	first, _ = HowHeld(nil)
	require.Equal(t, "no job to go by", first[2].Says)
	sixteen := make([]int64, 20)
	for i := range sixteen[:4] {
		sixteen[i] = 125
	}
	first, _ = HowHeld(heldAt(sixteen...))
	require.Contains(t, first[1].Says, "as it should be", "16 of 20 under P80")
}
