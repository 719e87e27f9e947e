package store

import (
	"database/sql"
	"encoding/json"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/fettle-tools/fettle/core"
)

func TestIssuedPaperIsFrozen(t *testing.T) {
	b := newBook(t)
	bytes := []byte("%PDF-1.7\x00\xff pages")
	n, err := b.NextRevision(t.Context(), "J-001-S")
	require.NoError(t, err)
	require.Equal(t, 1, n)
	issued, err := b.Issue(t.Context(), "Wren",
		Paper{Job: "J-001", Kind: "scope", Number: "J-001-S", Revision: 1, Bytes: bytes, Inputs: json.RawMessage(`{"seed":7}`)},
		Paper{Job: "J-001", Kind: "scope", Number: "J-001-S", Revision: 1, Media: "text/html", Bytes: []byte("<p>")})
	require.NoError(t, err)
	require.Len(t, issued, 2)

	p, err := b.Paper(t.Context(), "J-001-S", 1, "")
	require.NoError(t, err)
	require.Equal(t, bytes, p.Bytes, "the very bytes")
	require.Equal(t, hash(bytes), p.SHA256)
	require.Equal(t, "Wren", p.By)
	require.Equal(t, noon, p.At)
	require.JSONEq(t, `{"seed":7}`, string(p.Inputs))

	_, err = b.Issue(t.Context(), "Wren", Paper{Job: "J-001", Kind: "scope", Number: "J-001-S", Revision: 1, Bytes: []byte("other")})
	require.Equal(t, core.Conflict, core.ErrorCode(err))
	require.ErrorContains(t, err, "J-001-S revision 1")
	_, err = b.Issue(t.Context(), "Wren", Paper{Job: "J-001", Kind: "scope", Number: "J-001-S", Revision: 1, Media: "text/plain", Bytes: []byte("other")})
	require.Equal(t, core.Conflict, core.ErrorCode(err), "no later addition to what was issued")
	n, err = b.NextRevision(t.Context(), "J-001-S")
	require.NoError(t, err)
	require.Equal(t, 2, n)
	_, err = b.Issue(t.Context(), "Wren", Paper{Job: "J-001", Kind: "scope", Number: "J-001-S", Revision: 2, Bytes: []byte("second")})
	require.NoError(t, err)

	list, err := b.Papers(t.Context(), "J-001")
	require.NoError(t, err)
	require.Len(t, list, 3)
	require.Equal(t, []int{1, 1, 2}, []int{list[0].Revision, list[1].Revision, list[2].Revision})
	require.Nil(t, list[0].Bytes)

	frozen, err := b.Frozen(t.Context(), "J-001")
	require.NoError(t, err)
	require.Len(t, frozen, 3)
	require.Equal(t, Frozen{Kind: "scope", Number: "J-001-S", Revision: 1, Media: "application/pdf", SHA256: hash(bytes), Size: len(bytes), By: "Wren", At: noon}, frozen[0])
	require.Equal(t, "text/html", frozen[1].Media)
	require.Equal(t, 2, frozen[2].Revision)
	none, err := b.Frozen(t.Context(), "J-002")
	require.NoError(t, err)
	require.Empty(t, none)
}

func TestIssueIsAllOrNone(t *testing.T) {
	b := newBook(t)
	_, err := b.Issue(t.Context(), "Wren", Paper{Job: "J-001", Kind: "scope", Number: "A", Revision: 1, Bytes: []byte("a")},
		Paper{Job: "J-001", Kind: "scope", Number: "B", Revision: 0, Bytes: []byte("b")})
	require.Equal(t, core.Invalid, core.ErrorCode(err))
	_, err = b.Paper(t.Context(), "A", 1, "")
	require.Equal(t, core.NotFound, core.ErrorCode(err))
	_, err = b.Issue(t.Context(), "Wren", Paper{Job: "J-404", Kind: "scope", Number: "A", Revision: 1, Bytes: []byte("a")})
	require.Equal(t, core.NotFound, core.ErrorCode(err))
}

// A book of before this table gets it from its papers: once for each revision, whatever its media.
func TestAnOlderBooksPapersAreFoundAgain(t *testing.T) {
	b := newBook(t)
	inputs := json.RawMessage(`{"order":{"total":{"number":"12.50","currency":"USD"}},"budget":{"contingency":{"number":"5.00","currency":"USD"}},"valid_until":"2026-12-01T00:00:00Z"}`)
	for revision := 1; revision <= 2; revision++ {
		_, err := b.Issue(t.Context(), "Wren",
			Paper{Job: "J-001", Kind: "scope", Number: "S-1", Revision: revision, Media: "application/pdf", Bytes: []byte{byte(revision)}, Inputs: inputs},
			Paper{Job: "J-001", Kind: "scope", Number: "S-1", Revision: revision, Media: "text/plain", Bytes: []byte{byte(revision), 1}, Inputs: inputs})
		require.NoError(t, err)
	}
	issued := func(b *Book) (all []telling) {
		require.NoError(t, b.reading(t.Context(), func(tx *sql.Tx) (err error) {
			all, err = issuedOf(t.Context(), tx, "J-001")
			return err
		}))
		return all
	}
	want := issued(b)
	require.Len(t, want, 2)
	require.Equal(t, core.MinorMoney(1250, "USD"), want[1].paper.Total)
	require.Equal(t, core.MinorMoney(500, "USD"), want[1].paper.Contingency)

	dir := copyBook(t, b)
	execOn(t, filepath.Join(dir, BookFile), `DROP TRIGGER issued_paper; DROP TABLE issued; DELETE FROM goose_db_version WHERE version_id = 4; PRAGMA user_version = 3`)
	again, err := Open(t.Context(), dir, fixed)
	require.NoError(t, err)
	t.Cleanup(func() { _ = again.Close() })
	require.Equal(t, want, issued(again))
}
