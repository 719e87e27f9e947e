package sdk

import (
	"fmt"
	"math"

	"github.com/fettle-tools/fettle/core"
)

// isoRange is one range of nominal sizes of ISO 286-1, in mm: over < D <= upTo. The fundamental deviations are those of
// ISO 286-2 in micrometres: of the upper edge for f, g, of the lower for k (grades 4 to 7), n, p. Rows from 18 to 50 were read in
// two tables that agree; the grades of 50 to 80 too.
type isoRange struct {
	over, upTo    float64
	f, g, k, n, p float64
}

var isoRanges = []isoRange{
	{18, 30, -20, -7, 2, 15, 22},
	{30, 50, -25, -9, 2, 17, 26},
	{50, 80, math.NaN(), math.NaN(), math.NaN(), math.NaN(), math.NaN()},
}

// isoGrades are the multiples of the tolerance unit for IT6 to IT10 (ISO 286-1).
var isoGrades = map[int]float64{6: 10, 7: 16, 8: 25, 9: 40, 10: 64}

// ToleranceUnit is i of ISO 286-1 in micrometres, for the range over < D <= upTo in mm: .45 D^(1/3) + .001 D with D the
// geometric mean of the range.
func ToleranceUnit(over, upTo float64) float64 {
	d := math.Sqrt(over * upTo)
	return .45*math.Cbrt(d) + .001*d
}

// StandardTolerance is the tolerance of a grade IT6 to IT10 in micrometres, for a nominal size over 18 to 80 mm. ISO 286-1
// rounds to whole micrometres, above 100 to fives.
func StandardTolerance(nominal float64, grade int) (float64, error) {
	r, err := isoRangeOf(nominal)
	if err != nil {
		return 0, err
	}
	k, ok := isoGrades[grade]
	if !ok {
		return 0, core.Errorf(core.Invalid, "grades 6 to 10 are held", "no tolerance grade IT%d", grade)
	}
	t := k * ToleranceUnit(r.over, r.upTo)
	if t > 100 {
		return 5 * math.Round(t/5), nil
	}
	return math.Round(t), nil
}

func isoRangeOf(nominal float64) (isoRange, error) {
	for _, r := range isoRanges {
		if r.over < nominal && nominal <= r.upTo {
			return r, nil
		}
	}
	return isoRange{}, core.Errorf(core.NotFound, "nominal sizes over 18 to 80 mm are held; look it up in ISO 286-2",
		"no tolerance for %s mm", core.FormatNumber(nominal))
}

// HoleH gives the deviations of an H hole in micrometres: 0 and the tolerance of its grade. nominal is in mm.
func HoleH(nominal float64, grade int) (low, high float64, err error) {
	t, err := StandardTolerance(nominal, grade)
	return 0, t, err
}

// ShaftDeviations gives the lower and upper deviation of a shaft of letter f, g, h, k, n or p in micrometres; nominal is
// in mm, over 18 to 50 (h to 80). ISO 286-2.
func ShaftDeviations(nominal float64, letter string, grade int) (low, high float64, err error) {
	t, err := StandardTolerance(nominal, grade)
	if err != nil {
		return 0, 0, err
	}
	r, _ := isoRangeOf(nominal)
	edge, upper := math.NaN(), false
	switch letter {
	case "f":
		edge, upper = r.f, true
	case "g":
		edge, upper = r.g, true
	case "h":
		edge, upper = 0, true
	case "k":
		if edge = r.k; grade > 7 {
			edge = 0
		}
	case "n":
		edge = r.n
	case "p":
		edge = r.p
	}
	if math.IsNaN(edge) {
		return 0, 0, core.Errorf(core.NotFound, "letters f, g, h, k, n, p are held for sizes over 18 to 50 mm, h to 80; look it up in ISO 286-2",
			"no deviation %s for %s mm", letter, core.FormatNumber(nominal))
	}
	if upper {
		return edge - t, edge, nil
	}
	return edge, edge + t, nil
}

// FitKind is what a fit is over its whole range.
type FitKind string

// The kinds of fit (ISO 286-1).
const (
	ClearanceFit    FitKind = "clearance"
	TransitionFit   FitKind = "transition"
	InterferenceFit FitKind = "interference"
)

// Kind says whether the fit is loose, tight or either; a fit that is tightest at nothing is still a clearance fit.
func (f Fit) Kind() FitKind {
	switch {
	case f.Tightest >= 0:
		return ClearanceFit
	case f.Loosest <= 0:
		return InterferenceFit
	}
	return TransitionFit
}

// ISOFit gives the sizes in mm and the fit in micrometres of an H hole and a shaft, "H7" and "g6".
func ISOFit(nominal float64, hole, shaft string) (h, s SizeBand, f Fit, err error) {
	holeLetter, holeGrade, err := fitCode(hole)
	if err == nil && holeLetter != "H" {
		err = core.Errorf(core.NotFound, "holes H are held", "no hole %q", hole)
	}
	if err != nil {
		return
	}
	letter, grade, err := fitCode(shaft)
	if err != nil {
		return
	}
	hl, hh, err := HoleH(nominal, holeGrade)
	if err != nil {
		return
	}
	sl, sh, err := ShaftDeviations(nominal, letter, grade)
	if err != nil {
		return
	}
	h = SizeBand{nominal + hl/1000, nominal + hh/1000}
	s = SizeBand{nominal + sl/1000, nominal + sh/1000}
	return h, s, FitOf(SizeBand{hl, hh}, SizeBand{sl, sh}), nil
}

// fitCode splits "g6" into its letter and its grade.
func fitCode(code string) (letter string, grade int, err error) {
	if _, err := fmt.Sscanf(code, "%1s%d", &letter, &grade); err != nil || code != fmt.Sprintf("%s%d", letter, grade) {
		return "", 0, core.Errorf(core.Invalid, "write a letter and a grade, like H7 or g6", "%q is no tolerance class", code)
	}
	return letter, grade, nil
}
