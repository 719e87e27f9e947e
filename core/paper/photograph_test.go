package paper

import (
	"bytes"
	"encoding/binary"
	"image/jpeg"
	"testing"

	"github.com/stretchr/testify/require"
)

// A photograph is kept upright, within its size, without what the camera wrote beside it.
func TestAPhotographIsKeptWithoutTheCamerasNotes(t *testing.T) {
	raw := held(testJPEG(3000, 1500), 6, binary.BigEndian)
	require.Contains(t, string(raw), "Exif")
	kept, err := Kept(raw)
	require.NoError(t, err)
	m, err := jpeg.Decode(bytes.NewReader(kept))
	require.NoError(t, err)
	require.Equal(t, []int{keptSide / 2, keptSide}, []int{m.Bounds().Dx(), m.Bounds().Dy()})
	near(t, m, 3*keptSide/8, keptSide/4, 0xFF, 0, 0)
	require.NotContains(t, string(kept), "Exif")
	again, err := Kept(raw)
	require.NoError(t, err)
	require.Equal(t, kept, again, "what is sent twice is the same file")

	small, err := Shown(kept)
	require.NoError(t, err)
	require.Less(t, len(small), 20_000)
	whole, err := Kept(testJPEG(80, 40))
	require.NoError(t, err)
	m, err = jpeg.Decode(bytes.NewReader(whole))
	require.NoError(t, err)
	require.Equal(t, 80, m.Bounds().Dx(), "a small one is not blown up")
	_, err = Kept([]byte("ftypheic"))
	require.ErrorContains(t, err, "neither JPEG nor PNG")
}
