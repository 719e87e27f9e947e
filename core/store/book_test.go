package store

import (
	"context"
	"database/sql"
	"os"
	"path/filepath"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"github.com/fettle-tools/fettle/core"
)

var noon = time.Date(2026, 3, 2, 12, 0, 0, 123456789, time.UTC)

func fixed() time.Time { return noon }

// newBook makes a shop in a temporary folder with one job, J-001.
func newBook(t testing.TB) *Book {
	t.Helper()
	b, err := Create(t.Context(), t.TempDir(), fixed)
	require.NoError(t, err)
	t.Cleanup(func() { require.NoError(t, b.Close()) })
	_, err = b.OpenJob(t.Context(), core.Job{Title: "Gearbox on the bench"}, "Wren")
	require.NoError(t, err)
	return b
}

func TestCreateThenOpen(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "shop with % and ?# in it")
	b, err := Create(t.Context(), dir, fixed)
	require.NoError(t, err)
	_, err = b.OpenJob(t.Context(), core.Job{}, "Wren")
	require.NoError(t, err)
	require.NoError(t, b.Close())
	for _, name := range []string{BookFile, PhotosDir, PapersDir} {
		require.FileExists(t, filepath.Join(dir, BookFile))
		_, err := os.Stat(filepath.Join(dir, name))
		require.NoError(t, err)
	}
	_, err = Create(t.Context(), dir, fixed)
	require.Equal(t, core.Conflict, core.ErrorCode(err))

	b, err = Open(t.Context(), dir, fixed)
	require.NoError(t, err)
	defer b.Close()
	jobs, err := b.Jobs(t.Context())
	require.NoError(t, err)
	require.Len(t, jobs, 1)
}

func TestConnectionsAreDurableAndChecked(t *testing.T) {
	b := newBook(t)
	for name, db := range map[string]*sql.DB{"writer": b.write, "reader": b.read} {
		for pragma, want := range map[string]string{"journal_mode": "wal", "synchronous": "2", "foreign_keys": "1", "busy_timeout": "10000"} {
			var got string
			require.NoError(t, db.QueryRowContext(t.Context(), "PRAGMA "+pragma).Scan(&got))
			require.Equal(t, want, got, "%s of the %s", pragma, name)
		}
	}
	_, err := b.read.ExecContext(t.Context(), `INSERT INTO entries (id, job, kind, at, "by", batch, body) VALUES ('x','','y','','','','{}')`)
	require.Error(t, err, "readers cannot write")
}

func TestOpenRefuses(t *testing.T) {
	t.Run("no book", func(t *testing.T) {
		dir := t.TempDir()
		_, err := Open(t.Context(), dir, fixed)
		require.Equal(t, core.NotFound, core.ErrorCode(err))
		require.NotEmpty(t, core.ErrorNext(err))
		require.NoFileExists(t, filepath.Join(dir, BookFile), "a look makes no book")
	})
	t.Run("no database", func(t *testing.T) {
		dir := t.TempDir()
		require.NoError(t, os.WriteFile(filepath.Join(dir, BookFile), []byte("a letter to the owner, of more than sixteen bytes"), 0o600))
		_, err := Open(t.Context(), dir, fixed)
		require.Equal(t, core.Invalid, core.ErrorCode(err))
	})
	t.Run("another program's database", func(t *testing.T) {
		dir := t.TempDir()
		execOn(t, filepath.Join(dir, BookFile), `CREATE TABLE birds (name TEXT)`)
		_, err := Open(t.Context(), dir, fixed)
		require.Equal(t, core.Invalid, core.ErrorCode(err))
		require.ErrorContains(t, err, "no shop's book")
	})
	t.Run("a newer program's book", func(t *testing.T) {
		b := newBook(t)
		dir := copyBook(t, b)
		execOn(t, filepath.Join(dir, BookFile), `PRAGMA user_version = 99`)
		_, err := Open(t.Context(), dir, fixed)
		require.Equal(t, core.Newer, core.ErrorCode(err))
		require.ErrorContains(t, err, "schema 99")
		require.ErrorContains(t, err, BookFile)
	})
}

// TestOpenRepeatsMigrations opens a book that was created but never migrated, as after a power cut in between.
func TestOpenRepeatsMigrations(t *testing.T) {
	dir := t.TempDir()
	require.NoError(t, os.WriteFile(filepath.Join(dir, BookFile), nil, 0o600))
	b, err := Open(t.Context(), dir, fixed)
	require.NoError(t, err)
	version, err := b.version(t.Context())
	require.NoError(t, err)
	require.Equal(t, Schema, version)
	require.NoError(t, b.Close())
}

func TestTheFileItselfRefusesChanges(t *testing.T) {
	b := newBook(t)
	_, err := b.Issue(t.Context(), "Wren", Paper{Job: "J-001", Kind: "scope", Number: "S-1", Revision: 1, Bytes: []byte("x")})
	require.NoError(t, err)
	for _, stmt := range []string{`UPDATE entries SET body = '{}'`, `DELETE FROM entries`, `UPDATE papers SET bytes = x'00'`, `DELETE FROM papers`} {
		_, err := b.write.ExecContext(t.Context(), stmt)
		require.Error(t, err, stmt)
		require.Equal(t, core.Conflict, core.ErrorCode(b.fault(err)), stmt)
	}
}

// copyBook gives a new shop folder with a copy of the book.
func copyBook(t testing.TB, b *Book) string {
	t.Helper()
	dir := t.TempDir()
	require.NoError(t, b.Backup(context.Background(), filepath.Join(dir, BookFile)))
	return dir
}

func execOn(t testing.TB, path, stmt string) {
	t.Helper()
	db, err := sql.Open("sqlite", path)
	require.NoError(t, err)
	_, err = db.Exec(stmt)
	require.NoError(t, err)
	require.NoError(t, db.Close())
}
