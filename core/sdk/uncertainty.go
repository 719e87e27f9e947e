package sdk

import "math"

// StandardUncertainty turns an instrument's +/- bound into a standard uncertainty in the same unit:
// u = a / sqrt(3), a rectangular distribution (JCGM 100:2008 4.3.7).
func StandardUncertainty(bound float64) float64 { return math.Abs(bound) / math.Sqrt(3) }

// normal is the distribution function of the standard normal distribution.
func normal(z float64) float64 { return .5 * math.Erfc(-z/math.Sqrt2) }
