package store

import (
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/fettle-tools/fettle/core"
)

func values(t *testing.T, b *Book) []string {
	t.Helper()
	fs, err := b.Findings(t.Context(), "J-001")
	require.NoError(t, err)
	out := []string{}
	for _, f := range fs {
		out = append(out, f.AsTyped)
	}
	return out
}

func typed(check string, texts ...string) []core.Finding {
	fs := []core.Finding{}
	for _, s := range texts {
		fs = append(fs, core.Finding{Subsystem: "gearbox", Target: core.Target{Part: "layshaft"}, Check: check, AsTyped: s, By: "Wren"})
	}
	return fs
}

func TestUndoTakesBackWholeBatches(t *testing.T) {
	b := newBook(t)
	add := func(texts ...string) {
		_, err := b.AddFindings(t.Context(), "J-001", typed("diameter", texts...))
		require.NoError(t, err)
	}
	add("1", "2", "3") // one file
	add("4", "5")      // one line
	add("6")

	u, err := b.Undo(t.Context(), "J-001", "Ashby")
	require.NoError(t, err)
	require.Equal(t, "1 finding", u.Words())
	require.Equal(t, "Wren", u.By)
	require.Equal(t, []string{"1", "2", "3", "4", "5"}, values(t, b))
	u, err = b.Undo(t.Context(), "J-001", "Ashby")
	require.NoError(t, err)
	require.Equal(t, "2 findings", u.Words())
	require.Equal(t, []string{"1", "2", "3"}, values(t, b))

	u, err = b.Redo(t.Context(), "J-001", "Ashby")
	require.NoError(t, err)
	require.Equal(t, "2 findings", u.Words(), "the latest undo first")
	require.Equal(t, []string{"1", "2", "3", "4", "5"}, values(t, b))
	_, err = b.Redo(t.Context(), "J-001", "Ashby")
	require.NoError(t, err)
	require.Equal(t, []string{"1", "2", "3", "4", "5", "6"}, values(t, b))
	_, err = b.Redo(t.Context(), "J-001", "Ashby")
	require.Equal(t, core.NotFound, core.ErrorCode(err))

	for range 3 {
		_, err = b.Undo(t.Context(), "J-001", "Ashby")
		require.NoError(t, err)
	}
	require.Empty(t, values(t, b))
	_, err = b.Undo(t.Context(), "J-001", "Ashby")
	require.Equal(t, core.NotFound, core.ErrorCode(err), "the job itself stays")
	all, err := b.AllFindings(t.Context(), "J-001")
	require.NoError(t, err)
	require.Len(t, all, 6, "nothing is lost")
}

// One reading may be taken back among others, as a device takes back its own and not another's; brought back it stands again.
func TestTakeBackOneFinding(t *testing.T) {
	b := newBook(t)
	added, err := b.AddFindings(t.Context(), "J-001", typed("diameter", "1", "2"))
	require.NoError(t, err)
	_, err = b.AddFindings(t.Context(), "J-001", typed("diameter", "3"))
	require.NoError(t, err)
	u, err := b.TakeBack(t.Context(), "J-001", "Ashby", added.New[0])
	require.NoError(t, err)
	require.Equal(t, "1 finding", u.Words())
	require.Equal(t, []string{"2", "3"}, values(t, b))
	_, err = b.TakeBack(t.Context(), "J-001", "Ashby", added.New[0])
	require.Equal(t, core.NotFound, core.ErrorCode(err))
	_, err = b.Redo(t.Context(), "J-001", "Ashby")
	require.NoError(t, err)
	require.Equal(t, []string{"1", "2", "3"}, values(t, b))
}

func TestUndoOfACorrectionBringsTheFirstReadingBack(t *testing.T) {
	b := newBook(t)
	first, err := b.AddFindings(t.Context(), "J-001", typed("diameter", "1.999 in"))
	require.NoError(t, err)
	second := typed("diameter", "1.998 in")
	second[0].Supersedes = first.New
	_, err = b.AddFindings(t.Context(), "J-001", second)
	require.NoError(t, err)
	require.Equal(t, []string{"1.998 in"}, values(t, b))
	_, err = b.Undo(t.Context(), "J-001", "Wren")
	require.NoError(t, err)
	require.Equal(t, []string{"1.999 in"}, values(t, b))
	_, err = b.Redo(t.Context(), "J-001", "Wren")
	require.NoError(t, err)
	require.Equal(t, []string{"1.998 in"}, values(t, b))
}

func TestUndoNeverTouchesPapersOrOtherJobs(t *testing.T) {
	b := newBook(t)
	_, err := b.OpenJob(t.Context(), core.Job{Number: "J-002"}, "Wren")
	require.NoError(t, err)
	_, err = b.AddFindings(t.Context(), "J-002", typed("diameter", "other job"))
	require.NoError(t, err)
	_, err = b.Issue(t.Context(), "Wren", Paper{Job: "J-001", Kind: "scope", Number: "S-1", Revision: 1, Bytes: []byte("x")})
	require.NoError(t, err)
	_, err = b.Undo(t.Context(), "J-001", "Wren")
	require.Equal(t, core.NotFound, core.ErrorCode(err))
	fs, err := b.Findings(t.Context(), "J-002")
	require.NoError(t, err)
	require.Len(t, fs, 1)
}
