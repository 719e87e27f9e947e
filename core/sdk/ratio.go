package sdk

import (
	"fmt"
	"math"
)

// AxleRatio is a final drive by its tooth counts.
type AxleRatio struct{ Crown, Pinion int }

// ratioSlack is how far a ratio written as a decimal may be from its tooth counts: half of the third decimal.
const ratioSlack = .0005

// FindAxleRatio gives the tooth counts of a ratio, typed as 43/9 or as 4.778: of pinions of 5 to 20 teeth the smallest whose
// nearest crown wheel gives it within half of the third decimal. ok is false if there is none.
func FindAxleRatio(ratio float64) (r AxleRatio, ok bool) {
	if math.IsNaN(ratio) || ratio < 1 || ratio > 20 {
		return AxleRatio{}, false
	}
	for pinion := 5; pinion <= 20; pinion++ {
		crown := int(math.Round(ratio * float64(pinion)))
		if math.Abs(float64(crown)/float64(pinion)-ratio) <= ratioSlack {
			return AxleRatio{crown, pinion}.lowest(), true
		}
	}
	return AxleRatio{}, false
}

// lowest takes out what both counts share, so that one ratio is written in one way.
func (r AxleRatio) lowest() AxleRatio {
	a, b := r.Crown, r.Pinion
	for b != 0 {
		a, b = b, a%b
	}
	if a > 1 && r.Pinion/a >= 5 {
		return AxleRatio{r.Crown / a, r.Pinion / a}
	}
	return r
}

// Value is the ratio, 4.7778 for 43/9.
func (r AxleRatio) Value() float64 { return float64(r.Crown) / float64(r.Pinion) }

// String writes the ratio as it is counted, 43/9.
func (r AxleRatio) String() string { return fmt.Sprintf("%d/%d", r.Crown, r.Pinion) }

// Apart is the difference of two ratios in per cent of the smaller; exactly 0 for equal ones. Axles that are apart are
// never fitted to one vehicle whose front drive can be engaged (common practice, no source).
func (r AxleRatio) Apart(o AxleRatio) float64 {
	if r.Crown*o.Pinion == o.Crown*r.Pinion {
		return 0
	}
	return 100 * math.Abs(r.Value()-o.Value()) / min(r.Value(), o.Value())
}
