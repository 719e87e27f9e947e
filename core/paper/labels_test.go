package paper

import (
	"fmt"
	"image"
	"image/color"
	"image/png"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/fettle-tools/fettle/core"
)

// TestLabelCodesAreReadBack reads the square codes off both printed papers with a reader that is not ours: each gives the number beside it, and
// each number that is printed is read as often as it has labels. A missing reader fails.
func TestLabelCodesAreReadBack(t *testing.T) {
	s := atWork()
	for i := range 30 {
		told(&s, "Jory", &core.Tag{ID: fmt.Sprintf("T-%03d", 17*i+100), What: "one of many", Lies: "rack 1", State: core.TagOff})
	}
	for _, n := range []string{"T-1234", "T-1234-05", "T-1234-05-06"} {
		told(&s, "Jory", &core.Tag{ID: n, What: "a part of a part", Lies: "rack 1", State: core.TagOff})
	}
	d := must(Labels(storyInput(s, "J-001-L"), ""))
	var want []string
	for _, b := range d.Blocks {
		for _, l := range b.(LabelSheet).Items {
			want = append(want, l.Number)
		}
	}
	slices.Sort(want)
	require.Contains(t, want, "T-1234-05-06")

	pdf, err := PDF(d)
	require.NoError(t, err)
	dir := t.TempDir()
	file := filepath.Join(dir, "labels.pdf")
	require.NoError(t, os.WriteFile(file, pdf, 0o600))
	// At 100 dots an inch a module is four dots wide; finer, this reader misses codes of which it sees several at once.
	out, err := exec.Command(tool(t, "pdftoppm"), "-r", "100", "-png", file, filepath.Join(dir, "page")).CombinedOutput() //nolint:gosec // a fixed program and a file of our own
	require.NoError(t, err, "%s", out)
	require.Equal(t, want, readCodes(t, filepath.Join(dir, "page-*.png")))

	html, err := HTML(d)
	require.NoError(t, err)
	dir = t.TempDir()
	for i, path := range regexp.MustCompile(`<path d="(M[^"]*)"`).FindAllSubmatch(html, -1) {
		drawCode(t, string(path[1]), filepath.Join(dir, "code-"+strconv.Itoa(i)+".png"))
	}
	require.Equal(t, want, readCodes(t, filepath.Join(dir, "code-*.png")))
}

// readCodes reads all square codes in the pictures that a pattern means, sorted.
func readCodes(t *testing.T, pattern string) []string {
	t.Helper()
	reader, err := exec.LookPath("zbarimg")
	if err != nil {
		t.Fatal("zbarimg is not installed, so no code can be read back: apt-get install zbar-tools")
	}
	files, err := filepath.Glob(pattern)
	require.NoError(t, err)
	require.NotEmpty(t, files)
	out, err := exec.Command(reader, append([]string{"--nodbus", "--quiet", "--raw"}, files...)...).Output() //nolint:gosec // a fixed program and files of our own
	require.NoError(t, err, "%s", out)
	codes := strings.Fields(string(out))
	slices.Sort(codes)
	return codes
}

// drawCode draws the runs of a path, "M4 4h7v1h-7z", four dots a module.
func drawCode(t *testing.T, path, file string) {
	t.Helper()
	const dots = 4
	runs := regexp.MustCompile(`M(\d+) (\d+)h(\d+)v1h-(\d+)z`).FindAllStringSubmatch(path, -1)
	require.NotEmpty(t, runs)
	img := image.NewGray(image.Rect(0, 0, 64*dots, 64*dots))
	for i := range img.Pix {
		img.Pix[i] = 255
	}
	for _, r := range runs {
		x, _ := strconv.Atoi(r[1])
		y, _ := strconv.Atoi(r[2])
		w, _ := strconv.Atoi(r[3])
		for dx := range w * dots {
			for dy := range dots {
				img.SetGray(x*dots+dx, y*dots+dy, color.Gray{})
			}
		}
	}
	f, err := os.Create(file) //nolint:gosec // in the test's own folder
	require.NoError(t, err)
	require.NoError(t, png.Encode(f, img))
	require.NoError(t, f.Close())
}
