package sdk

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"github.com/fettle-tools/fettle/core"
)

// lashRows are the most free play at the rim by wheel diameter, in inches: 49 CFR 570.60 table 2 (manual), and the table
// of 49 CFR 393.209(b) for power steering; it is not carried past 20 in for power. 22 in manual: 393.209(b).
var lashRows = []struct{ wheel, manual, power float64 }{{16, 2, 4.5}, {18, 2.25, 4.75}, {20, 2.5, 5.25}, {22, 2.75, 0}}

// LashTable is the most free play at the rim that the printed tables allow a steering wheel, in inches: the row of the
// largest diameter that is not over this one, 16 in and less being one row. The tables print no rule for sizes between;
// taking the row below is the cautious reading (common practice). ok is false for a wheel of no size, or where no row
// is printed.
func LashTable(wheel float64, power bool) (limit float64, ok bool) {
	if !(wheel > 0) {
		return 0, false
	}
	row := lashRows[0]
	for _, r := range lashRows {
		if core.LessOrEqual(r.wheel, wheel) {
			row = r
		}
	}
	if limit = row.manual; power {
		limit = row.power
	}
	return limit, limit > 0
}

// LashLimit is the same for manual steering with the rows joined by a line: 2 in up to a 16 in wheel, an eighth of an
// inch more for each inch over it. At every row it is the wheel's diameter over 8.
func LashLimit(wheel float64) float64 { return 2 + .125*math.Max(0, wheel-16) }

// lightTruck is the gross weight, in lb, up to which 49 CFR 570 subpart A holds; heavier is subpart B.
const lightTruck = 10000

// LinkagePlayLimit is the most linkage play at a front wheel's tread, in inches, for a rim diameter in inches and a gross
// weight in lb: 49 CFR 570.7(b) up to 10 000 lb, 570.60 table 3 over it.
func LinkagePlayLimit(rim, gross float64) float64 {
	switch {
	case gross <= lightTruck || rim <= 16:
		return .25
	case rim <= 18:
		return .375
	}
	return .5
}

// SteeringTrain is what carries a play at the drop arm up to the rim of the steering wheel. Lengths in inches.
type SteeringTrain struct {
	Wheel   float64 // diameter of the steering wheel
	DropArm float64 // between its centres
	Ratio   float64 // of the box
}

// Degrees is a play along the rim as an angle of the wheel, in degrees.
func (s SteeringTrain) Degrees(rim float64) float64 { return rim / (math.Pi * s.Wheel) * 360 }

// AtRim is what a play at the drop arm's tip, or at an end of the drag link, comes to along the rim.
func (s SteeringTrain) AtRim(play float64) float64 { return play / s.DropArm * s.Ratio * s.Wheel / 2 }

// LashSource is a play measured at its own place, in inches.
type LashSource struct {
	Name string
	Play float64
}

// LashShare is what one source comes to at the rim.
type LashShare struct {
	Name  string
	AtRim float64 // inches along the rim
	Share float64 // of the whole, 0 to 1
}

// LashShares is where a play at the rim comes from.
type LashShares struct {
	Lash  float64
	Parts []LashShare // largest first
	Rest  float64     // not measured: swivels, other ends, column; below 0 the readings do not agree
}

// Shares parts a play found at the rim among the sources measured (common practice, no source).
func (s SteeringTrain) Shares(lash float64, sources []LashSource) LashShares {
	r := LashShares{Lash: lash, Rest: lash}
	for _, x := range sources {
		at := s.AtRim(x.Play)
		r.Parts = append(r.Parts, LashShare{x.Name, at, at / lash})
		r.Rest -= at
	}
	slices.SortStableFunc(r.Parts, func(a, b LashShare) int { return cmp.Compare(b.AtRim, a.AtRim) })
	return r
}

// Agree reports whether the sources come to no more than what was found at the rim.
func (r LashShares) Agree() bool { return core.LessOrEqual(0, r.Rest) }

// Known is the share of the whole that the measured sources make, 0 to 1.
func (r LashShares) Known() float64 { return 1 - r.Rest/r.Lash }

// Words tells the shares in a line.
func (r LashShares) Words() string {
	s := fmt.Sprintf("of %s in at the rim", core.FormatNumber(round3(r.Lash)))
	for i, p := range r.Parts {
		join := ": "
		if i > 0 {
			join = ", "
		}
		s += fmt.Sprintf("%s%s %s in (%.0f %%)", join, p.Name, core.FormatNumber(round3(p.AtRim)), 100*p.Share)
	}
	if !r.Agree() {
		return s + "; that is more than was found at the rim: read them again"
	}
	return s + fmt.Sprintf("; the rest, %s in, is elsewhere (swivels, other ends, column)", core.FormatNumber(round3(r.Rest)))
}

// round3 drops what arithmetic adds beyond a thousandth, for printing only.
func round3(v float64) float64 { return math.Round(v*1e3) / 1e3 }
