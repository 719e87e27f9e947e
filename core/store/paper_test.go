package store

import (
	"encoding/json"
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
