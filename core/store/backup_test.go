package store

import (
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/fettle-tools/fettle/core"
)

// TestBackupWhileInUse backs up while another goroutine writes batches of three: the copy holds whole batches only.
func TestBackupWhileInUse(t *testing.T) {
	b := newBook(t)
	done := make(chan struct{})
	go func() {
		defer close(done)
		for range 60 {
			_, err := b.Append(t.Context(), notes("J-001", 3)...)
			assert.NoError(t, err)
		}
	}()
	for i := range 5 {
		dir := t.TempDir()
		require.NoError(t, b.Backup(t.Context(), filepath.Join(dir, BookFile)))
		c, err := Open(t.Context(), dir, fixed)
		require.NoError(t, err, "copy %d", i)
		es, err := c.Entries(t.Context(), "J-001")
		require.NoError(t, err)
		require.Equal(t, 1, len(es)%3, "the job and whole batches")
		require.NoError(t, c.Close())
	}
	<-done
	to := filepath.Join(t.TempDir(), "kept")
	require.NoError(t, os.WriteFile(to, []byte("holiday pictures"), 0o600))
	require.Equal(t, core.Conflict, core.ErrorCode(b.Backup(t.Context(), to)))
	got, err := os.ReadFile(to)
	require.NoError(t, err)
	require.Equal(t, "holiday pictures", string(got))
}

func TestRestore(t *testing.T) {
	b := newBook(t)
	_, err := b.AddFindings(t.Context(), "J-001", typed("diameter", "1.999"))
	require.NoError(t, err)
	backup := filepath.Join(t.TempDir(), "monday.db")
	require.NoError(t, b.Backup(t.Context(), backup))

	dir := filepath.Join(t.TempDir(), "shop")
	r, err := Restore(t.Context(), backup, dir, fixed)
	require.NoError(t, err)
	require.Equal(t, []string{"1.999"}, values(t, r))
	require.NoError(t, r.Close())
	_, err = Restore(t.Context(), backup, dir, fixed)
	require.Equal(t, core.Conflict, core.ErrorCode(err))

	bytes, err := os.ReadFile(backup)
	require.NoError(t, err)
	for i := len(bytes) / 2; i < len(bytes); i++ {
		bytes[i] ^= 0x5a
	}
	require.NoError(t, os.WriteFile(backup, bytes, 0o600))
	dir = t.TempDir()
	_, err = Restore(t.Context(), backup, dir, fixed)
	require.Equal(t, core.Invalid, core.ErrorCode(err), "%v", err)
	require.NoFileExists(t, filepath.Join(dir, BookFile))
	left, err := filepath.Glob(filepath.Join(dir, ".restore*"))
	require.NoError(t, err)
	require.Empty(t, left)
}
