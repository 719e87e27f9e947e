package sdk

import "math"

// RingGapBand is the end gap of a new ring in a bore of this size: .003 to .005 of it (from memory). Under it the ring is
// filed or changed.
func RingGapBand(bore float64) SizeBand { return SizeBand{.003 * bore, .005 * bore} }

// RingGapLimit is the largest end gap: .010 of the bore (common practice; TM 9-6115-464-34 allows .040 in on its engine).
func RingGapLimit(bore float64) float64 { return .010 * bore }

// RingGapChange is how much the end gap grows when the bore does: the ring has to close a circle that is longer by pi
// times the change. TM 5-3825-229-14&P says the same in words: a bore .0012 in small closes the gap by about .003.
func RingGapChange(boreChange float64) float64 { return math.Pi * boreChange }

// RingGapAtTop is the gap at the top of the stroke of a ring that was fitted in the unworn bottom: the reason why new
// rings in a tapered bore are money badly spent.
func RingGapAtTop(atBottom, taper float64) float64 { return atBottom + RingGapChange(taper) }

// RingTaper is the taper at which a ring with this gap at the bottom reaches a limit at the top.
func RingTaper(atBottom, limit float64) float64 { return (limit - atBottom) / math.Pi }
