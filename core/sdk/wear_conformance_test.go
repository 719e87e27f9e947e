package sdk

import (
	"testing"

	"github.com/stretchr/testify/require"
)

// JCGM 106:2012 section 7 (single results) and section 9 (a process of 1500 ohm resistors, N(1500, .12)).
func TestConformance(t *testing.T) {
	require.InDelta(t, .9044, Conformance(1500, .12, new(1499.80), new(1500.20)), 1e-4)
	require.InDelta(t, .84134, Conformance(10.003, .002, nil, new(10.005)), 1e-5)
	require.InDelta(t, .43382, Conformance(9.52, .06, new(9.53), nil), 1e-5)
	require.InDelta(t, .89435, Conformance(57.120, .004, new(57.115), new(57.140)), 1e-5)
	require.Equal(t, 1.0, Conformance(2.4985, 0, new(2.4985), nil), "a reading at the limit is within it")
}

// ILAC-G8:09/2019: the chance of a false acceptance of a result exactly at the acceptance limit.
func TestFalseAcceptance(t *testing.T) {
	const limit, u = 10.0, .01
	require.InDelta(t, .02275, 1-Conformance(limit-2*u, u, nil, new(limit)), 1e-5, "guard band w = U = 2u")
	require.InDelta(t, .5, 1-Conformance(limit, u, nil, new(limit)), 1e-12, "simple acceptance")
}

// Guard-banded decision in the manner of ISO 14253-1: micrometer with a permissible error of .003 mm, U = .001.
func TestGuarded(t *testing.T) {
	low, high := new(-.003), new(.003)
	require.Equal(t, Conforms, Guarded(.0017, .001, low, high))
	require.Equal(t, Conforms, Guarded(.0020, .001, low, high), "exactly at the acceptance limit")
	require.Equal(t, NotProven, Guarded(.0025, .001, low, high))
	require.Equal(t, Fails, Guarded(.0041, .001, low, high))
	require.Equal(t, Fails, Guarded(-.0041, .001, low, high))
	require.Equal(t, Conforms, Guarded(.0030, 0, low, high))
}
