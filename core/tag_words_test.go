package core_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/fettle-tools/fettle/core"
)

func TestParseFasteners(t *testing.T) {
	for text, want := range map[string]core.Fasteners{
		"6 x 3/8 UNF 1 1/2 in, bag 3, longest at rear": {In: 6, Thread: "3/8 UNF", Length: "1 1/2 in", Bag: "3", Note: "longest at rear"},
		"4x M8 30 mm":                     {In: 4, Thread: "M8", Length: "30 mm"},
		"2 split pins, heads none, rusty": {In: 2, Thread: "split pins", Head: "none", Note: "rusty"},
		`8 x 5/16 BSF 7/8"`:               {In: 8, Thread: "5/16 BSF", Length: `7/8"`},
	} {
		got, err := core.ParseFasteners(text)
		require.NoError(t, err, text)
		require.Equal(t, want, got)
	}
	for _, text := range []string{"", "some bolts", "0 x M8", "-2 x M8"} {
		_, err := core.ParseFasteners(text)
		require.Equal(t, core.Invalid, core.ErrorCode(err), text)
	}
	f, err := core.ParseFasteners("6 x 3/8 UNF 1 1/2 in, bag 3, longest at rear")
	require.NoError(t, err)
	require.Equal(t, "6 x 3/8 UNF 1 1/2 in, bag 3, longest at rear", f.String())
	five := 5
	f.Out = &five
	require.Equal(t, 1, f.Short())
}

func TestParseShims(t *testing.T) {
	got, err := core.ParseShims("outer: .003 .005 .010 in")
	require.NoError(t, err)
	require.Len(t, got, 3)
	require.Equal(t, core.Shim{Thickness: core.Quantity{Value: .005, Unit: "in"}, Side: "outer"}, got[1])
	got, err = core.ParseShims("3 thou 0.2 mm")
	require.NoError(t, err)
	require.Equal(t, []core.Shim{{Thickness: core.Quantity{Value: 3, Unit: "thou"}}, {Thickness: core.Quantity{Value: .2, Unit: "mm"}}}, got)
	for _, text := range []string{"", ".003 .005", "outer:", "-.003 in", "3 lb"} {
		_, err := core.ParseShims(text)
		require.Equal(t, core.Invalid, core.ErrorCode(err), text)
	}
}
