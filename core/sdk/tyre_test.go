package sdk

import (
	"testing"

	"github.com/fettle-tools/fettle/core"
	"github.com/stretchr/testify/require"
)

// Worked example of the trade: longest 88.4 in, shortest 87.6, mean 88.0 (common practice).
func TestTyreSpread(t *testing.T) {
	m, err := TyreSpread(88.4, 87.6, 87.9, 88.1)
	require.NoError(t, err)
	require.InDelta(t, 88.0, m.Mean, 1e-9)
	require.InDelta(t, .0091, m.Spread, .00005)
	require.Equal(t, "rolled 87.6 to 88.4, mean 88: spread 0.91 %", m.Words())
	for _, few := range [][]float64{nil, {88}, {88, 0}} {
		_, err := TyreSpread(few...)
		require.Equal(t, core.Invalid, core.ErrorCode(err))
	}
}

// 49 CFR 570.62(a): 4/32 in on a front wheel, 2/32 elsewhere; 570.9 for 10 000 lb or less, from memory of text. UK
// Construction and Use Regulations, reg. 27: 1.6 mm up to 3 500 kg, 1.0 mm over.
func TestTreadLimits(t *testing.T) {
	require.Equal(t, .125, TreadLimitUS(12000, true).Depth)
	require.Equal(t, .0625, TreadLimitUS(12000, false).Depth)
	require.Equal(t, .0625, TreadLimitUS(5400, true).Depth)
	require.Equal(t, "49 CFR 570.62(a)", TreadLimitUS(12000, true).Source)
	require.Equal(t, 1.6, TreadLimitUK(2450).Depth)
	require.Equal(t, 1.6, TreadLimitUK(3500).Depth)
	require.Equal(t, 1.0, TreadLimitUK(3501).Depth)
	mm, err := core.Convert(TreadLimitUS(5400, false).Depth, "in", "mm")
	require.NoError(t, err)
	require.InDelta(t, 1.5875, mm, 1e-9, "2/32 in; the legal text rounds it to 1.6 mm")
}
