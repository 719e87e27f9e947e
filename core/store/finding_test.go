package store

import (
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/fettle-tools/fettle/core"
)

func imported(fs []core.Finding) []core.Finding {
	seen := map[string]int{}
	for i := range fs {
		row := fs[i].Check + "," + fs[i].AsTyped + "," + fs[i].Note
		fs[i].ID = ImportID("J-001", row, seen[row])
		seen[row]++
	}
	return fs
}

func TestImportingTwiceChangesNothing(t *testing.T) {
	b := newBook(t)
	rows := typed("diameter", "1.999", "1.998", "1.999")
	rows[1].Note = "Measured again after cleaning"
	fs := imported(rows)
	a, err := b.AddFindings(t.Context(), "J-001", fs)
	require.NoError(t, err)
	require.Len(t, a.New, 3, "two equal rows are two rows")
	require.Equal(t, []string{"1.998", "1.999"}, values(t, b))
	before, err := b.Entries(t.Context(), "J-001")
	require.NoError(t, err)

	a, err = b.AddFindings(t.Context(), "J-001", fs)
	require.NoError(t, err)
	require.Empty(t, a.New)
	require.Equal(t, []string{fs[1].ID, fs[2].ID}, a.There)
	require.Equal(t, []string{fs[0].ID}, a.TakenBack, "superseded since: told, and still so")
	after, err := b.Entries(t.Context(), "J-001")
	require.NoError(t, err)
	require.Equal(t, before, after)
}

func TestImportAfterUndoIsTold(t *testing.T) {
	b := newBook(t)
	fs := imported(typed("diameter", "1.999", "1.998"))
	_, err := b.AddFindings(t.Context(), "J-001", fs)
	require.NoError(t, err)
	_, err = b.Undo(t.Context(), "J-001", "Wren")
	require.NoError(t, err)
	a, err := b.AddFindings(t.Context(), "J-001", fs)
	require.NoError(t, err)
	require.Equal(t, Added{TakenBack: []string{fs[0].ID, fs[1].ID}}, a)
	require.Empty(t, values(t, b))
}

func TestAgainSupersedesTheSameQuestionOnly(t *testing.T) {
	b := newBook(t)
	_, err := b.AddFindings(t.Context(), "J-001", append(typed("diameter", "1.999", "1.997"), typed("bend", ".002")...))
	require.NoError(t, err)
	require.Equal(t, []string{"1.999", "1.997", ".002"}, values(t, b), "readings that disagree both stand")
	next := typed("diameter", "1.998")
	next[0].Note = "again"
	_, err = b.AddFindings(t.Context(), "J-001", next)
	require.NoError(t, err)
	require.Equal(t, []string{".002", "1.998"}, values(t, b))
	against := typed("diameter", "2.000")
	against[0].Note = "leaned against the bench"
	_, err = b.AddFindings(t.Context(), "J-001", against)
	require.NoError(t, err)
	require.Equal(t, []string{".002", "1.998", "2.000"}, values(t, b), "only the word by itself counts")
}

func TestFindingComesBackAsItWas(t *testing.T) {
	b := newBook(t)
	f := core.Finding{ID: "f1", Subsystem: "bottom-end", Unit: "engine", Target: core.Target{Part: "main-journal", Position: "M1"}, Check: "diameter",
		Station: "FV", Value: core.Value{Kind: core.ValueQuantity, Quantity: core.Quantity{Value: 2.4985, Unit: "in", Bound: .0001}},
		AsTyped: "2.4985", Instrument: "micrometer", By: "Wren", At: noon, Note: "½ turn"}
	_, err := b.AddFindings(t.Context(), "J-001", []core.Finding{f})
	require.NoError(t, err)
	fs, err := b.Findings(t.Context(), "J-001")
	require.NoError(t, err)
	require.Equal(t, []core.Finding{f}, fs)
	_, err = b.AddFindings(t.Context(), "J-404", []core.Finding{f})
	require.Equal(t, core.NotFound, core.ErrorCode(err))
}
