package store

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/fettle-tools/fettle/core"
)

// TestWhatIsSentTwiceIsTakenOnce: a device that never heard the answer sends its tag again, and cannot bring back what was taken back meanwhile.
func TestWhatIsSentTwiceIsTakenOnce(t *testing.T) {
	b := newBook(t)
	ctx := t.Context()
	id := "0b0e7a3c-6d0c-4a52-9a0c-3f1f0a6f2b11"
	_, there, err := b.Batch(ctx, "J-001", id)
	require.NoError(t, err)
	require.False(t, there)
	for range 2 {
		s, err := b.ActTogether(ctx, "J-001", "Wren", Together{Batch: id}, &core.Tag{What: "box", State: core.TagOff, Lies: "rack"})
		require.NoError(t, err)
		require.Len(t, s.Tags, 1)
	}
	acts, there, err := b.Batch(ctx, "J-001", id)
	require.NoError(t, err)
	require.True(t, there)
	require.Len(t, acts, 1)
	require.Equal(t, "T-001", acts[0].(*core.Tag).ID)
	job, err := b.JobOf(ctx, "T-001")
	require.NoError(t, err)
	require.Equal(t, "J-001", job)
	_, err = b.JobOf(ctx, "T-002")
	require.Equal(t, core.NotFound, core.ErrorCode(err))

	_, err = b.Undo(ctx, "J-001", "Wren")
	require.NoError(t, err)
	s, err := b.ActTogether(ctx, "J-001", "Wren", Together{Batch: id}, &core.Tag{What: "box", State: core.TagOff, Lies: "rack"})
	require.NoError(t, err)
	require.Empty(t, s.Tags, "taken back stays taken back")
}

func TestAPictureIsFoundByItsHashWhileItIsLive(t *testing.T) {
	b := newBook(t)
	ctx := t.Context()
	p, err := b.AddPhoto(ctx, "J-001", "Wren", "shaft.png", Photo{}, strings.NewReader("abc"))
	require.NoError(t, err)
	got, err := b.Photo(ctx, p.SHA256)
	require.NoError(t, err)
	require.Equal(t, p, got)
	_, err = b.Photo(ctx, "00")
	require.Equal(t, core.NotFound, core.ErrorCode(err))
	_, err = b.Undo(ctx, "J-001", "Wren")
	require.NoError(t, err)
	_, err = b.Photo(ctx, p.SHA256)
	require.Equal(t, core.NotFound, core.ErrorCode(err))
}
