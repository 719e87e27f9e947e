package main

import (
	"bytes"
	"context"
	"image"
	"image/color"
	"image/png"
	"math"

	"github.com/fettle-tools/fettle/core/store"
)

// demoPhotos adds pictures that are drawn here: nobody's photographs.
func (s *shop) demoPhotos(ctx context.Context, job string) error {
	findings, err := s.book.Findings(ctx, job)
	if err != nil {
		return err
	}
	for _, p := range []struct {
		title, part, position string
		draw                  func(x, y float64) color.Color
	}{
		{"Crankpin P4, ground once by itself", "crankpin", "P4", drawJournal},
		{"Third speed wheel, 29 teeth", "gear-pair", "third", drawGear},
		{"Rollers on the tray, 43 of 44", "layshaft-rollers", "", drawRollers},
	} {
		var ids []string
		for _, f := range findings {
			if f.Target.Part == p.part && f.Target.Position == p.position {
				ids = append(ids, f.ID)
			}
		}
		var b bytes.Buffer
		if err := png.Encode(&b, picture(p.draw)); err != nil {
			return err
		}
		if _, err := s.book.AddPhoto(ctx, job, "Wenna", "drawn.png", store.Photo{Title: p.title, FindingIDs: ids}, &b); err != nil {
			return err
		}
	}
	return nil
}

// picture draws on a bench-grey ground; x and y run from -1 to 1.
func picture(draw func(x, y float64) color.Color) image.Image {
	const w, h = 640, 480
	im := image.NewRGBA(image.Rect(0, 0, w, h))
	for py := range h {
		for px := range w {
			im.Set(px, py, draw((float64(px)-w/2)/(h/2), (float64(py)-h/2)/(h/2)))
		}
	}
	return im
}

func grey(v float64) color.Color {
	n := uint8(255 * math.Max(0, math.Min(1, v)))
	return color.RGBA{n, n, uint8(float64(n) * .96), 255}
}

// drawJournal is a crankpin between its webs, scored round the middle.
func drawJournal(x, y float64) color.Color {
	switch {
	case math.Abs(x) > .6 && math.Abs(y) < .85:
		return grey(.35 - .1*y)
	case math.Abs(y) < .5:
		shade := .85 * math.Sqrt(1-y*y/.26)
		if math.Abs(x) < .2 && math.Mod(math.Abs(x)*60, 1) < .3 {
			shade *= .7
		}
		return grey(shade)
	}
	return grey(.18)
}

// drawGear is a wheel with 29 teeth.
func drawGear(x, y float64) color.Color {
	r, a := math.Hypot(x, y), math.Atan2(y, x)
	edge := .72
	if math.Sin(29*a) > 0 {
		edge = .84
	}
	switch {
	case r < .2:
		return grey(.15)
	case r < .3 || r < edge:
		return grey(.5 + .2*math.Cos(a-1))
	}
	return grey(.2)
}

// drawRollers is a tray of 44 places with one empty.
func drawRollers(x, y float64) color.Color {
	const across, down = 11, 4
	i, j := math.Floor((x+1.1)/.2), math.Floor((y+.8)/.4)
	if i < 0 || i >= across || j < 0 || j >= down {
		return grey(.25)
	}
	dx, dy := math.Mod(x+1.1, .2)-.1, math.Mod(y+.8, .4)-.2
	if math.Abs(dx) < .06 && math.Abs(dy) < .16 && !(i == across-1 && j == down-1) {
		return grey(.9 - 6*math.Abs(dx))
	}
	return grey(.3)
}
