package paper

import (
	"bytes"
	"encoding/binary"
	"image"
	"image/color"
	"image/jpeg"
	"image/png"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"github.com/fettle-tools/fettle/core"
)

// quarters is a picture of four fields: red and green above, blue and white below.
func quarters(w, h int) *image.RGBA {
	m := image.NewRGBA(image.Rect(0, 0, w, h))
	for y := range h {
		for x := range w {
			c := []color.RGBA{{0xFF, 0, 0, 0xFF}, {0, 0xFF, 0, 0xFF}, {0, 0, 0xFF, 0xFF}, {0xFF, 0xFF, 0xFF, 0xFF}}[x*2/w+y*2/h*2]
			m.SetRGBA(x, y, c)
		}
	}
	return m
}

func testJPEG(w, h int) []byte {
	var b bytes.Buffer
	if err := jpeg.Encode(&b, quarters(w, h), &jpeg.Options{Quality: 95}); err != nil {
		panic(err)
	}
	return b.Bytes()
}

func testPNG(t *testing.T, w, h int) []byte {
	t.Helper()
	var b bytes.Buffer
	require.NoError(t, png.Encode(&b, quarters(w, h)))
	return b.Bytes()
}

// held writes into a JPEG how the camera was held, as Exif 2.32 has it: an APP1 segment with a TIFF directory of one entry.
func held(raw []byte, how uint16, order binary.ByteOrder) []byte {
	tiff := []byte("MM\x00\x2a\x00\x00\x00\x08")
	if order == binary.ByteOrder(binary.LittleEndian) {
		tiff = []byte("II\x2a\x00\x08\x00\x00\x00")
	}
	entry := make([]byte, 2+12+4)
	order.PutUint16(entry, 1)
	order.PutUint16(entry[2:], 274)
	order.PutUint16(entry[4:], 3)
	order.PutUint32(entry[6:], 1)
	order.PutUint16(entry[10:], how)
	body := append([]byte("Exif\x00\x00"), append(tiff, entry...)...)
	head := []byte{0xFF, 0xE1, 0, 0}
	binary.BigEndian.PutUint16(head[2:], uint16(len(body)+2))
	return append(append(append([]byte{}, raw[:2]...), append(head, body...)...), raw[2:]...)
}

func TestPhotographsAreMadeSmall(t *testing.T) {
	for name, raw := range map[string][]byte{"jpeg": testJPEG(1600, 900), "png": testPNG(t, 1600, 900)} {
		small, w, h, err := shrink(raw, map[int]bool{})
		require.NoError(t, err, name)
		require.Equal(t, []int{pictureSide, 360}, []int{w, h}, name)
		require.Less(t, len(small), 30_000, name)
		again, _, _, err := shrink(raw, map[int]bool{})
		require.NoError(t, err)
		require.Equal(t, small, again, "the same picture gives the same bytes")
		m, err := jpeg.Decode(bytes.NewReader(small))
		require.NoError(t, err)
		near(t, m, w/4, h/4, 0xFF, 0, 0)
		near(t, m, 3*w/4, h/4, 0, 0xFF, 0)
	}
	_, w, h, err := shrink(testJPEG(30, 20), map[int]bool{})
	require.NoError(t, err)
	require.Equal(t, []int{30, 20}, []int{w, h}, "a small one is not blown up")
}

func near(t *testing.T, m image.Image, x, y int, r, g, b uint32) {
	t.Helper()
	cr, cg, cb, _ := m.At(x, y).RGBA()
	for i, d := range []uint32{cr >> 8, cg >> 8, cb >> 8} {
		require.InDelta(t, []uint32{r, g, b}[i], d, 12, "at %d, %d", x, y)
	}
}

// TestPhotographsStandUpright: where the first row and column of the file belong is in Exif 2.32, 4.6.4 A, tag 274; the red field
// is the file's upper left.
func TestPhotographsStandUpright(t *testing.T) {
	for _, x := range []struct {
		how   uint16
		right bool // of the picture
		below bool
		wide  bool
	}{{1, false, false, true}, {2, true, false, true}, {3, true, true, true}, {4, false, true, true}, {5, false, false, false}, {6, true, false, false}, {7, true, true, false}, {8, false, true, false}} {
		for _, order := range []binary.ByteOrder{binary.BigEndian, binary.LittleEndian} {
			small, w, h, err := shrink(held(testJPEG(80, 40), x.how, order), map[int]bool{})
			require.NoError(t, err)
			require.Equal(t, x.wide, w > h, "held %d", x.how)
			m, err := jpeg.Decode(bytes.NewReader(small))
			require.NoError(t, err)
			px, py := w/4, h/4
			if x.right {
				px = 3 * w / 4
			}
			if x.below {
				py = 3 * h / 4
			}
			near(t, m, px, py, 0xFF, 0, 0)
			require.NotContains(t, string(small), "Exif", "the camera's own notes are left out")
		}
	}
}

func TestOrientationOfAnythingIsSafe(t *testing.T) {
	whole := held(testJPEG(8, 8), 6, binary.BigEndian)
	for n := range 60 {
		require.Contains(t, []int{1, 6}, orientation(whole[:n]))
	}
	whole[16], whole[17], whole[18], whole[19] = 0xFF, 0xFF, 0xFF, 0xFF
	require.Equal(t, 1, orientation(whole))
}

func TestWhatIsNoPhotographIsSaid(t *testing.T) {
	bomb := testPNG(t, 2, 2)
	binary.BigEndian.PutUint32(bomb[16:], 60_000)
	binary.BigEndian.PutUint32(bomb[20:], 60_000)
	for want, raw := range map[string][]byte{"neither JPEG nor PNG": []byte("ftypheic"), "damaged": testPNG(t, 40, 40)[:90]} {
		_, _, _, err := shrink(raw, map[int]bool{})
		require.ErrorContains(t, err, want)
	}
	_, _, _, err := shrink(bomb, map[int]bool{}) // its checksum is wrong now, or it claims too much: either way it is not opened
	require.Error(t, err)
}

// pictured is the fixture with a photograph of a finding, one of a mark, one of nothing, and one whose file is gone.
func pictured(t *testing.T) Input {
	in := input()
	in.Plan.Findings = []core.Finding{
		{ID: "f1", Subsystem: "bottom-end", Unit: "engine", Target: core.Target{Part: "crankpin", Position: "P2"}, Check: "diameter", Station: "FV", AsTyped: "1.9972 in"},
		{ID: "f2", Subsystem: "gearbox", Unit: "gearbox", Target: core.Target{Part: "rollers"}, Check: "count", AsTyped: "43"}}
	in.Plan.Job.Units[0].Marks[0].Photo = "hash-of-mark"
	in.Photos = []Photo{{SHA256: "a", Title: "Pin two", FindingIDs: []string{"f1"}, Bytes: testJPEG(900, 1200)}, {SHA256: "hash-of-mark", Title: "Block", Bytes: testPNG(t, 300, 200)},
		{SHA256: "c", Title: "the yard", Bytes: testJPEG(20, 20)}, {SHA256: "d", Title: "Tray", FindingIDs: []string{"f2", "gone"}, Fault: "The picture is not in the shop folder."}}
	return in
}

func TestPapersCarryThePhotographsOfFindingsAndMarks(t *testing.T) {
	in := pictured(t)
	for _, d := range []Document{Scope(in), WorkOrder(in)} {
		text := plainText(d)
		require.Contains(t, text, "picture | Pin two | Crankpin P2: diameter FV 1.9972 in | ")
		require.Contains(t, text, "picture | Block | Four-cylinder engine, block, left side: “D4-31882” | ")
		require.Contains(t, text, "picture | Tray | Layshaft rollers: count 43 | The picture is not in the shop folder.")
		require.NotContains(t, text, "the yard", "a picture of nothing that was found is not printed")
		pdf, err := PDF(d)
		require.NoError(t, err)
		clean(t, boxesOf(t, pdf))
		images := poppler(t, "pdfimages", pdf, "-list")
		require.Equal(t, 2, strings.Count(images, "jpeg"), images)
		page, err := HTML(d)
		require.NoError(t, err)
		require.Equal(t, 2, strings.Count(string(page), `<img src="data:image/jpeg;base64,`))
		require.NotContains(t, string(page), "ZgotmplZ")
	}
	require.NotContains(t, plainText(Scope(input())), "Photographs")
}

func TestBreakBeginsAPage(t *testing.T) {
	pdf, err := PDF(Document{Title: "Pages", Number: "T-6", Date: time.Date(2026, 3, 17, 0, 0, 0, 0, time.UTC), Blocks: []Block{Break{}, Paragraph{Text: "first"}, Break{}, Break{}, Paragraph{Text: "second"}}})
	require.NoError(t, err)
	require.Len(t, boxesOf(t, pdf), 2, "a break at the head of a page begins no other")
	page, err := HTML(Document{Blocks: []Block{Break{}}})
	require.NoError(t, err)
	require.Contains(t, string(page), `class="break"`)
}

// TestManyPhotographsOfOneSizeGiveTheSameBytes: pictures from one camera are all as wide.
func TestManyPhotographsOfOneSizeGiveTheSameBytes(t *testing.T) {
	in := pictured(t)
	in.Photos = nil
	for i := range 12 {
		m := quarters(700+i%2, 500)
		m.SetRGBA(i*20, 7, color.RGBA{A: 0xFF})
		var b bytes.Buffer
		require.NoError(t, jpeg.Encode(&b, m, nil))
		in.Photos = append(in.Photos, Photo{SHA256: strings.Repeat("a", i), Title: "of many", FindingIDs: []string{"f1"}, Bytes: b.Bytes()})
	}
	first, err := PDF(Scope(in))
	require.NoError(t, err)
	for range 6 {
		again, err := PDF(Scope(in))
		require.NoError(t, err)
		require.True(t, bytes.Equal(first, again))
	}
	widths := map[int]bool{}
	for _, b := range in.pictures() {
		if ps, ok := b.(Pictures); ok {
			for _, p := range ps.Items {
				require.False(t, widths[p.Width])
				widths[p.Width] = true
				require.Greater(t, p.Width, pictureSide-13)
			}
		}
	}
	require.Len(t, widths, 12)
}
