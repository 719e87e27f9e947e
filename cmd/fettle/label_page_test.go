package main

import (
	"image"
	"image/color"
	"image/jpeg"
	"image/png"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"
)

// photographOf is a printed paper as a hand holds a camera over it: askew, in dull light, on a dark bench.
func photographOf(t *testing.T, pdf string) string {
	t.Helper()
	printed := filepath.Join(t.TempDir(), "printed")
	out, err := exec.Command("pdftoppm", "-r", "200", "-singlefile", "-gray", "-png", pdf, printed).CombinedOutput() // make tools installs it
	require.NoError(t, err, "%s", out)
	f, err := os.Open(printed + ".png")
	require.NoError(t, err)
	paper, err := png.Decode(f)
	require.NoError(t, err)
	require.NoError(t, f.Close())

	const wide, high, turn = 2400, 1800, 17 * math.Pi / 180
	m := image.NewGray(image.Rect(0, 0, wide, high))
	sin, cos := math.Sincos(turn)
	for y := range high {
		for x := range wide {
			dx, dy := float64(x)-300, float64(y)-200
			at := image.Pt(int(cos*dx+sin*dy), int(cos*dy-sin*dx))
			light := 60.0
			if at.In(paper.Bounds()) {
				light = 40 + .5*float64(color.GrayModel.Convert(paper.At(at.X, at.Y)).(color.Gray).Y)
			}
			m.SetGray(x, y, color.Gray{Y: uint8(light)})
		}
	}
	shot, err := os.Create(filepath.Join(t.TempDir(), "shot.jpg"))
	require.NoError(t, err)
	require.NoError(t, jpeg.Encode(shot, m, nil))
	require.NoError(t, shot.Close())
	return shot.Name()
}

// The label that was printed opens its tag, off a photograph of it, in a browser that cannot read square codes itself and without a signal.
func TestALabelIsScanned(t *testing.T) {
	b := openBench(t, append(engineShop, "tag|J-001|--on|cylinder head|--lies|rack 2", "tag|J-001|--on|crankshaft|--lies|rack 3")...)
	printed := filepath.Join(t.TempDir(), "label")
	b.fettle("paper", "J-001", "labels", "T-002", "--out", printed)
	label := photographOf(t, printed+".pdf")
	s := b.device(390, 844)
	s.open("/tags/T-002")
	s.until(`navigator.serviceWorker.controller`)
	s.open("/jobs/J-001/tags")
	s.until(`window.fettle && fettle.photo`)
	b.stop()
	s.photograph(2, photographs(t, 1)[0])
	s.until(`document.querySelector('.told')?.innerText.includes('No label could be read')`)
	s.photograph(2, label)
	s.at("/tags/T-002")
}
