package sdk

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"github.com/fettle-tools/fettle/core"
)

// Clearance is the clearance of two measured mates, hole less shaft: negative is interference. Uncertainties add by
// root sum of squares (JCGM 100:2008 5.1.2). All in one unit.
func Clearance(hole, shaft Estimate) Estimate {
	return Combine(func(x []float64) float64 { return x[0] - x[1] }, hole, shaft).Estimate
}

// SizeBand is the range a size is made within.
type SizeBand struct {
	Low, High float64
}

// Fit is the range of clearance of two mates as made; negative is interference. Fits tables write clearance as L (loose)
// and interference as T (tight): "0.0008L to 0.0007T".
type Fit struct {
	Loosest, Tightest float64
}

// FitOf works the fit out of the sizes of both mates.
func FitOf(hole, shaft SizeBand) Fit {
	return Fit{Loosest: hole.High - shaft.Low, Tightest: hole.Low - shaft.High}
}

// String writes the fit as fits tables do, the loosest first.
func (f Fit) String() string { return looseTight(f.Loosest) + " to " + looseTight(f.Tightest) }

func looseTight(c float64) string {
	if c = round6(c); c < 0 {
		return core.FormatNumber(-c) + "T"
	}
	return core.FormatNumber(c) + "L"
}

// round6 drops what arithmetic adds beyond the sixth decimal, for printing only.
func round6(v float64) float64 { return math.Round(v*1e6) / 1e6 }

// ParseFit reads a fit as fits tables print it: "0.0008L-0.0007T", "0.0005T to 0.0015T". The two may stand in either order.
func ParseFit(text string) (Fit, error) {
	s := strings.NewReplacer("–", "-", " to ", "-", " ", "").Replace(text)
	one, two, ok := strings.Cut(s, "-")
	a, errA := parseLooseTight(one)
	b, errB := parseLooseTight(two)
	if !ok || errA != nil || errB != nil {
		return Fit{}, core.Errorf(core.Invalid, "write it like 0.0008L to 0.0007T, L for loose and T for tight", "%q is no fit", text)
	}
	return Fit{Loosest: math.Max(a, b), Tightest: math.Min(a, b)}, nil
}

func parseLooseTight(s string) (float64, error) {
	if s == "" {
		return 0, strconv.ErrSyntax
	}
	sign := 1.0
	switch s[len(s)-1] {
	case 'T', 't':
		sign = -1
	case 'L', 'l':
	default:
		return 0, strconv.ErrSyntax
	}
	v, err := strconv.ParseFloat(s[:len(s)-1], 64)
	if err == nil && (v < 0 || math.IsInf(v, 0) || math.IsNaN(v)) {
		err = strconv.ErrRange
	}
	return sign * v, err
}

// CheckFit compares a printed fit with the one its printed sizes give, to 1e-9: manuals carry slips of the pen, and one
// swallowed goes into every later verdict. It returns nil if they agree, else an Invalid error that says what the sizes
// would have to be.
func CheckFit(hole, shaft SizeBand, printed Fit) error {
	made := FitOf(hole, shaft)
	if near(made.Loosest, printed.Loosest) && near(made.Tightest, printed.Tightest) {
		return nil
	}
	holeFor := SizeBand{shaft.High + printed.Tightest, shaft.Low + printed.Loosest}
	shaftFor := SizeBand{hole.High - printed.Loosest, hole.Low - printed.Tightest}
	return core.Errorf(core.Invalid,
		fmt.Sprintf("look the figures up again: that fit takes a hole of %s with this shaft, or a shaft of %s with this hole", holeFor, shaftFor),
		"the printed fit %s does not follow from hole %s and shaft %s, which give %s", printed, hole, shaft, made)
}

func near(a, b float64) bool { return math.Abs(a-b) <= 1e-9 }

// String gives the band as "1.0000 to 1.0012", without trailing zeros.
func (b SizeBand) String() string {
	return core.FormatNumber(round6(b.Low)) + " to " + core.FormatNumber(round6(b.High))
}

// LimitHole is the largest hole that keeps within a wear limit of clearance with the smallest shaft.
func LimitHole(shaft SizeBand, limit float64) float64 { return shaft.Low + limit }

// LimitShaft is the smallest shaft that keeps within a wear limit of clearance with the largest hole.
func LimitShaft(hole SizeBand, limit float64) float64 { return hole.High - limit }
