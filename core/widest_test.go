package core_test

import (
	"testing"

	"github.com/stretchr/testify/require"
)

// What widens the price says of which sheet it is, once: work that is named after its sheet already says so.
func TestWhatWidensThePriceNamesItsSheetOnce(t *testing.T) {
	widest := func(name string) []string {
		b := box()
		b.answer.Operations[0].Name = name
		var names []string
		for _, w := range plan(t, request(), b).Budget.Widest {
			names = append(names, w.Name)
		}
		return names
	}
	require.Contains(t, widest("overhaul"), "Box: overhaul")
	require.Contains(t, widest("Box overhauled"), "Box overhauled")
}
