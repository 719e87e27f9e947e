package sdk

import (
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/fettle-tools/fettle/core"
)

func TestAPackedSheetIsTheSameSheet(t *testing.T) {
	files, err := filepath.Glob("../../plugins/*/sheet.yaml")
	require.NoError(t, err)
	require.Len(t, files, 18)
	for _, file := range append(files, "testdata/bench.yaml", "template.yaml") {
		text, err := os.ReadFile(file)
		require.NoError(t, err)
		d, faults := load(text, true)
		require.Empty(t, faults, file)
		packed := string(d.pack())
		again, err := unpack(packed)
		require.NoError(t, err, file)
		require.Equal(t, packed, string(again.pack()), file)

		one, other := &Plugin{doc: d}, &Plugin{doc: again}
		facts := []core.Fact{}
		for _, f := range d.facts {
			if q := f.low; q != nil && f.unit != "count" && f.unit != wordUnit {
				facts = append(facts, core.Fact{Name: f.name.text, Value: core.Value{Kind: core.ValueQuantity, Quantity: core.Quantity{Value: (*f.low + *f.high) / 2, Unit: f.unit}}, Source: "test"})
			}
		}
		for _, given := range [][]core.Fact{nil, facts} {
			s1, p1, err1 := one.Describe(t.Context(), given)
			s2, p2, err2 := other.Describe(t.Context(), given)
			require.NoError(t, err1)
			require.NoError(t, err2)
			require.Equal(t, s1, s2, file)
			require.Equal(t, p1, p2, file)
			a1, err1 := one.Assess(t.Context(), core.AssessRequest{Unit: "u", Facts: given})
			a2, err2 := other.Assess(t.Context(), core.AssessRequest{Unit: "u", Facts: given})
			require.NoError(t, err1)
			require.NoError(t, err2)
			require.Equal(t, a1, a2, file)
		}
	}
}

func TestAPackedSheetCutShortIsRefused(t *testing.T) {
	text, err := os.ReadFile("testdata/bench.yaml")
	require.NoError(t, err)
	d, faults := load(text, true)
	require.Empty(t, faults)
	packed := string(d.pack())
	for n := 0; n < len(packed); n += 7 {
		_, err := unpack(packed[:n])
		require.ErrorIs(t, err, errPacked, n)
	}
	_, err = unpack(packed + "x")
	require.ErrorIs(t, err, errPacked)
}
