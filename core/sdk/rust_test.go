package sdk

import (
	"testing"

	"github.com/stretchr/testify/require"
)

// ISO 8501-1, rust grades.
func TestRustGrades(t *testing.T) {
	var grades string
	for _, g := range RustGrades() {
		grades += g.Grade
	}
	require.Equal(t, "ABCD", grades)
	require.Contains(t, RustGrades()[0].Words, "adheres")
	require.Contains(t, RustGrades()[1].Words, "begun")
	require.Contains(t, RustGrades()[2].Words, "slight pitting")
	require.Contains(t, RustGrades()[3].Words, "general pitting")
}

// Degrees only grow with the rusted share; their percentages are from memory and not tested.
func TestDegreeOfRusting(t *testing.T) {
	last := ""
	for _, p := range []float64{0, .01, .2, .9, 5, 45} {
		d, ok := DegreeOfRusting(p)
		require.True(t, ok)
		require.Greater(t, d, last)
		last = d
	}
	for _, p := range []float64{-1, 60} {
		_, ok := DegreeOfRusting(p)
		require.False(t, ok)
	}
}
