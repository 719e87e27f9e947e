package sdk

import (
	"math"

	"github.com/fettle-tools/fettle/core"
)

// HexSize is the width across flats of a hexagon, in inches: the largest it is made, which the spanner is named by, and
// the least.
type HexSize struct {
	Most, Least float64
}

// hexSizes are the hexagons of inch fasteners by diameter in sixteenths of an inch: cap screw heads by ASME B18.2.1 and
// nuts by ASME B18.2.2. Those of 3/8,
// 7/16 and 1/2 in were looked up, the others are from memory; a least size of 0 is not held.
var hexSizes = map[int]struct{ head, nut HexSize }{
	4:  {HexSize{.438, 0}, HexSize{.438, 0}},
	5:  {HexSize{.500, 0}, HexSize{.500, 0}},
	6:  {HexSize{.562, .551}, HexSize{.562, .551}},
	7:  {HexSize{.625, 0}, HexSize{.688, 0}},
	8:  {HexSize{.750, .736}, HexSize{.750, .736}},
	9:  {HexSize{.812, 0}, HexSize{.875, 0}},
	10: {HexSize{.938, 0}, HexSize{.938, 0}},
	12: {HexSize{1.125, 0}, HexSize{1.125, 0}},
	14: {HexSize{1.312, 0}, HexSize{1.312, 0}},
	16: {HexSize{1.500, 0}, HexSize{1.500, 0}},
}

// nutHeights are the thicknesses of hexagon nuts by ASME B18.2.2, those that were looked up, by diameter in sixteenths.
var nutHeights = map[int]HexSize{6: {.337, .320}, 8: {.448, .427}}

// Spanners are what a bolt and its nut are turned with, in inches across flats, of unified threads. Head and nut need
// not be alike: a 7/16 bolt has a 5/8 head and an 11/16 nut.
type Spanners struct {
	Head, Nut         HexSize
	HeadName, NutName string  // as a spanner is marked: "9/16"
	NutHeight         HexSize // thickness of the nut, in; 0 where it is not held
}

// Differ reports whether the head takes another spanner than the nut.
func (s Spanners) Differ() bool { return s.HeadName != s.NutName }

// SpannersFor gives the spanners for a bolt of unified thread, by its diameter in inches, 1/4 to 1. A size not held is an
// Invalid error. Old British sizes take other spanners: a nut that feels nearly right has another thread.
func SpannersFor(diameter float64) (Spanners, error) {
	n := int(math.Round(diameter * 16))
	h, ok := hexSizes[n]
	if !ok || math.Abs(diameter*16-float64(n)) > 1e-6 {
		return Spanners{}, core.Errorf(core.Invalid, "measure across the flats", "no hexagon is held for a bolt of %s in", core.FormatNumber(diameter))
	}
	return Spanners{h.head, h.nut, sixteenths(h.head.Most), sixteenths(h.nut.Most), nutHeights[n]}, nil
}

// sixteenths names a size by the nearest sixteenth: .562 is 9/16, .688 is 11/16.
func sixteenths(x float64) string {
	top, under := int(math.Round(x*16)), 16
	for top > 0 && top%2 == 0 && under > 1 {
		top, under = top/2, under/2
	}
	switch whole := top / under; {
	case under == 1:
		return core.FormatNumber(float64(top))
	case whole > 0:
		return core.FormatNumber(float64(whole)) + " " + core.FormatNumber(float64(top%under)) + "/" + core.FormatNumber(float64(under))
	}
	return core.FormatNumber(float64(top)) + "/" + core.FormatNumber(float64(under))
}
