package sdk

import (
	"fmt"
	"math"

	"github.com/fettle-tools/fettle/core"
)

// TyreMatch compares the rolled circumferences of the tyres of a four-wheel drive, one turn under load each. One unit.
type TyreMatch struct {
	Longest, Shortest, Mean float64
	Spread                  float64 // longest less shortest, as a share of the mean: .01 is 1 %
}

// TyreSpread works out how far the tyres' rolled circumferences are apart: with the front drive engaged the difference winds
// the drive line up (common practice, no source). An error of code Invalid wants two tyres at least, with a size.
func TyreSpread(circumferences ...float64) (TyreMatch, error) {
	if len(circumferences) < 2 {
		return TyreMatch{}, core.Errorf(core.Invalid, "roll every wheel one turn under load and measure", "one tyre cannot be compared with itself")
	}
	m := TyreMatch{Longest: greatest(circumferences), Shortest: least(circumferences), Mean: Mean(circumferences)}
	if !(m.Shortest > 0) || math.IsInf(m.Longest, 0) {
		return TyreMatch{}, core.Errorf(core.Invalid, "measure it again", "a tyre of %s rolls nowhere", core.FormatNumber(m.Shortest))
	}
	m.Spread = (m.Longest - m.Shortest) / m.Mean
	return m, nil
}

// Words tells the spread.
func (m TyreMatch) Words() string {
	return fmt.Sprintf("rolled %s to %s, mean %s: spread %.2f %%", core.FormatNumber(m.Shortest), core.FormatNumber(m.Longest), core.FormatNumber(round4(m.Mean)), 100*m.Spread)
}

// TreadRule is a printed least depth of tread.
type TreadRule struct {
	Depth  float64 // in Unit
	Unit   string
	Where  string // where on the tyre it has to be found
	Source string
}

// TreadLimitUS is the least tread of a truck in the United States, in inches: 4/32 on a front wheel over 10 000 lb gross,
// else 2/32. gross is in lb.
func TreadLimitUS(gross float64, front bool) TreadRule {
	where := "in two neighbouring main grooves, at three places round the tyre"
	switch {
	case gross <= lightTruck:
		return TreadRule{2. / 32, "in", where, "49 CFR 570.9 (2/32; from memory of text)"}
	case front:
		return TreadRule{4. / 32, "in", where, "49 CFR 570.62(a)"}
	}
	return TreadRule{2. / 32, "in", where, "49 CFR 570.62(a)"}
}

// TreadLimitUK is the least tread of a car or goods vehicle in the United Kingdom, in mm: 1.6 up to 3 500 kg gross, else 1.0.
func TreadLimitUK(gross float64) TreadRule {
	const source = "UK Construction and Use Regulations, reg. 27 (read in a summary)"
	if gross <= 3500 {
		return TreadRule{1.6, "mm", "over the middle three quarters of the breadth, all the way round", source}
	}
	return TreadRule{1.0, "mm", "over a band of three quarters of the breadth", source}
}
