package store

import (
	"bytes"
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/fettle-tools/fettle/core"
)

// filled is a book whose job has findings, an undo, a paper and a picture.
func filled(t *testing.T) *Book {
	t.Helper()
	b := newBook(t)
	_, err := b.AddFindings(t.Context(), "J-001", typed("diameter", "1.999", "1.998"))
	require.NoError(t, err)
	_, err = b.AddFindings(t.Context(), "J-001", typed("bend", "<.002 & \"straight\""))
	require.NoError(t, err)
	_, err = b.AddFindings(t.Context(), "J-001", typed("bend", ".003"))
	require.NoError(t, err)
	_, err = b.Undo(t.Context(), "J-001", "Wren")
	require.NoError(t, err)
	_, err = b.Issue(t.Context(), "Wren", Paper{Job: "J-001", Kind: "scope", Number: "J-001-S", Revision: 1, Bytes: []byte("\x00\xffpages")})
	require.NoError(t, err)
	_, err = b.AddPhoto(t.Context(), "J-001", "Wren", "shaft.png", Photo{}, strings.NewReader("picture"))
	require.NoError(t, err)
	return b
}

func export(t *testing.T, b *Book) []byte {
	t.Helper()
	var out bytes.Buffer
	require.NoError(t, b.ExportJob(t.Context(), "J-001", &out))
	return out.Bytes()
}

func TestJobOutAndIn(t *testing.T) {
	from := filled(t)
	parcel := export(t, from)
	to, err := Create(t.Context(), t.TempDir(), fixed)
	require.NoError(t, err)
	defer to.Close()
	job, added, err := to.ImportJob(t.Context(), bytes.NewReader(parcel))
	require.NoError(t, err)
	require.Equal(t, "J-001", job)
	require.Equal(t, 8, added)
	require.Equal(t, string(parcel), string(export(t, to)), "out again, the same bytes")
	require.Equal(t, values(t, from), values(t, to))
	p, err := to.Paper(t.Context(), "J-001-S", 1, "")
	require.NoError(t, err)
	require.Equal(t, "\x00\xffpages", string(p.Bytes))

	_, added, err = to.ImportJob(t.Context(), bytes.NewReader(parcel))
	require.NoError(t, err)
	require.Zero(t, added, "in again, nothing")
	_, err = from.Redo(t.Context(), "J-001", "Wren")
	require.NoError(t, err)
	_, added, err = to.ImportJob(t.Context(), bytes.NewReader(export(t, from)))
	require.NoError(t, err)
	require.Equal(t, 1, added, "only what is new since")
	require.Equal(t, values(t, from), values(t, to))
	require.Equal(t, core.NotFound, core.ErrorCode(from.ExportJob(t.Context(), "J-404", &bytes.Buffer{})))
}

func TestImportJobRefuses(t *testing.T) {
	parcel := string(export(t, filled(t)))
	lines := strings.SplitAfter(parcel, "\n")
	another := newBook(t) // its J-001 is another job
	tests := map[string]struct {
		text string
		code core.Code
	}{
		"empty":           {"", core.Invalid},
		"not a parcel":    {`{"entry":{}}`, core.Invalid},
		"cut short":       {strings.Join(lines[:5], ""), core.Invalid},
		"cut in a line":   {parcel[:len(parcel)/2], core.Invalid},
		"a line missing":  {strings.Join(append(lines[:3:3], lines[4:]...), ""), core.Invalid},
		"newer":           {strings.Replace(parcel, fmt.Sprintf(`"schema":%d`, Schema), `"schema":99`, 1), core.Newer},
		"another job's":   {strings.Replace(parcel, `"job":"J-001","kind":"finding"`, `"job":"J-002","kind":"finding"`, 1), core.Invalid},
		"changed paper":   {strings.Replace(parcel, "AP9wYWdlcw==", "AP9wYWdlcg==", 1), core.Invalid},
		"changed picture": {strings.Replace(parcel, "cGljdHVyZQ==", "cGljdHVyZA==", 1), core.Invalid},
	}
	for name, tt := range tests {
		t.Run(name, func(t *testing.T) {
			to, err := Create(t.Context(), t.TempDir(), fixed)
			require.NoError(t, err)
			defer to.Close()
			require.True(t, name == "empty" || tt.text != parcel)
			_, _, err = to.ImportJob(t.Context(), strings.NewReader(tt.text))
			require.Equal(t, tt.code, core.ErrorCode(err), "%v", err)
			jobs, err := to.Jobs(t.Context())
			require.NoError(t, err)
			require.Empty(t, jobs, "all or nothing")
		})
	}
	_, _, err := another.ImportJob(t.Context(), strings.NewReader(parcel))
	require.Equal(t, core.Conflict, core.ErrorCode(err))
}
