package paper

import (
	"bytes"
	"fmt"
	"image"
	"image/color"
	"image/draw"
	"image/jpeg"
	_ "image/png" // photographs come as PNG too

	"github.com/fettle-tools/fettle/core"
)

const (
	pictureSide  = 640      // the longer side as printed, in points of the picture: about 280 an inch at a third of a page
	pictureMost  = 80 << 20 // points: a file that claims more is not opened
	pictureGrade = 72       // of 100, as the JPEG encoder has it
)

// shrink makes a photograph small enough for a paper: turned the way it was taken, no larger than pictureSide, JPEG, with nothing
// of the camera's own notes (place, time, serial numbers) left in it. The same bytes give the same bytes. An error says why a
// picture cannot be printed. taken are the widths of the pictures beside it: it gets another one, a point or two less, and adds it. The
// PDF library writes pictures in the order of their widths and those of one width in any order.
func shrink(raw []byte, taken map[int]bool) (out []byte, width, height int, err error) {
	img, turn, err := decoded(raw)
	if err != nil {
		return nil, 0, 0, err
	}
	small := turned(scaled(img, pictureSide, turn >= 5, taken), turn)
	out, err = asJPEG(small, pictureGrade)
	return out, small.Rect.Dx(), small.Rect.Dy(), err
}

// decoded opens a photograph and says how it is to be turned. Errors are of code Invalid.
func decoded(raw []byte) (img image.Image, turn int, err error) {
	head, kind, err := image.DecodeConfig(bytes.NewReader(raw))
	if err != nil {
		return nil, 0, core.Errorf(core.Invalid, "keep it as JPEG or PNG", "it is neither JPEG nor PNG")
	}
	if head.Width < 1 || head.Height < 1 || head.Width > pictureMost/head.Height {
		return nil, 0, core.Errorf(core.Invalid, "make it smaller", "it claims %d by %d points", head.Width, head.Height)
	}
	if img, _, err = image.Decode(bytes.NewReader(raw)); err != nil {
		return nil, 0, core.Errorf(core.Invalid, "take it from the camera again", "its file is damaged")
	}
	if kind == "jpeg" {
		return img, orientation(raw), nil
	}
	return img, 1, nil
}

func asJPEG(img image.Image, grade int) ([]byte, error) {
	var b bytes.Buffer
	if err := jpeg.Encode(&b, img, &jpeg.Options{Quality: grade}); err != nil {
		return nil, fmt.Errorf("write a picture: %w", err)
	}
	return b.Bytes(), nil
}

// fitted is the size that a picture gets: no side over most, and of a width, once it is turned on its side or not, that
// is not taken yet.
func fitted(w, h, most int, aside bool, taken map[int]bool) (nw, nh int) {
	nw, nh = w, h
	if longer := max(w, h); longer > most {
		nw, nh = max(w*most/longer, 1), max(h*most/longer, 1)
	}
	wide := &nw
	if aside {
		wide = &nh
	}
	for taken[*wide] && *wide > 1 {
		*wide--
	}
	taken[*wide] = true
	return nw, nh
}

// scaled makes a picture the size that fits: each new point is the mean of those it covers, on white where they are clear.
func scaled(img image.Image, most int, aside bool, taken map[int]bool) *image.RGBA {
	w, h := img.Bounds().Dx(), img.Bounds().Dy()
	full := image.NewRGBA(image.Rect(0, 0, w, h))
	draw.Draw(full, full.Rect, image.White, image.Point{}, draw.Src)
	draw.Draw(full, full.Rect, img, img.Bounds().Min, draw.Over)
	nw, nh := fitted(w, h, most, aside, taken)
	if nw == w && nh == h {
		return full
	}
	out := image.NewRGBA(image.Rect(0, 0, nw, nh))
	for y := range nh {
		for x := range nw {
			out.SetRGBA(x, y, mean(full, image.Rect(x*w/nw, y*h/nh, (x+1)*w/nw, (y+1)*h/nh)))
		}
	}
	return out
}

// mean is the colour of a field of points.
func mean(img *image.RGBA, r image.Rectangle) color.RGBA {
	var sums [3]int
	for y := r.Min.Y; y < r.Max.Y; y++ {
		row := img.Pix[img.PixOffset(r.Min.X, y) : img.PixOffset(r.Max.X-1, y)+4]
		for i := 0; i < len(row); i += 4 {
			sums[0], sums[1], sums[2] = sums[0]+int(row[i]), sums[1]+int(row[i+1]), sums[2]+int(row[i+2])
		}
	}
	n := r.Dx() * r.Dy()
	return color.RGBA{R: uint8(sums[0] / n), G: uint8(sums[1] / n), B: uint8(sums[2] / n), A: 0xFF}
}

// turned stands a picture upright by the orientation that the camera wrote down, 1 to 8 (Exif 2.32, 4.6.4 A, tag 274).
func turned(img *image.RGBA, how int) *image.RGBA {
	w, h := img.Rect.Dx(), img.Rect.Dy()
	if how < 2 || how > 8 {
		return img
	}
	nw, nh := w, h
	if how >= 5 {
		nw, nh = h, w
	}
	out := image.NewRGBA(image.Rect(0, 0, nw, nh))
	for y := range h {
		for x := range w {
			nx, ny := x, y
			switch how {
			case 2:
				nx = w - 1 - x
			case 3:
				nx, ny = w-1-x, h-1-y
			case 4:
				ny = h - 1 - y
			case 5:
				nx, ny = y, x
			case 6:
				nx, ny = h-1-y, x
			case 7:
				nx, ny = h-1-y, w-1-x
			case 8:
				nx, ny = y, w-1-x
			}
			out.SetRGBA(nx, ny, img.RGBAAt(x, y))
		}
	}
	return out
}
