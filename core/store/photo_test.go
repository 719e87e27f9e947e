package store

import (
	"io"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/fettle-tools/fettle/core"
)

func TestPhotosLieUnderTheirHash(t *testing.T) {
	b := newBook(t)
	p, err := b.AddPhoto(t.Context(), "J-001", "Wren", "Layshaft worn.PNG", Photo{FindingIDs: []string{"f1"}}, strings.NewReader("abc"))
	require.NoError(t, err)
	// FIPS 180-4 example: SHA-256 of "abc".
	require.Equal(t, "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad", p.SHA256)
	require.Equal(t, "Layshaft worn", p.Title)
	require.FileExists(t, filepath.Join(b.Dir(), PhotosDir, p.SHA256+".png"))
	_, err = b.AddPhoto(t.Context(), "J-001", "Wren", "same.png", Photo{}, strings.NewReader("abc"))
	require.NoError(t, err)
	files, err := os.ReadDir(filepath.Join(b.Dir(), PhotosDir))
	require.NoError(t, err)
	require.Len(t, files, 1, "the same picture is kept once, and nothing half written stays")

	ps, err := b.Photos(t.Context(), "J-001")
	require.NoError(t, err)
	require.Equal(t, p, ps[0])
	r, err := b.OpenPhoto(ps[0])
	require.NoError(t, err)
	got, err := io.ReadAll(r)
	require.NoError(t, err)
	require.NoError(t, r.Close())
	require.Equal(t, "abc", string(got))

	_, err = b.OpenPhoto(Photo{SHA256: "00", Ext: ".png", Title: "gone"})
	require.Equal(t, core.NotFound, core.ErrorCode(err))
	_, err = b.AddPhoto(t.Context(), "J-001", "Wren", "no ending", Photo{}, strings.NewReader("abc"))
	require.Equal(t, core.Invalid, core.ErrorCode(err))
}
