package budget

import (
	"math"
	"sync"
)

// normalCDF is the chance that a standard normal is at most z.
func normalCDF(z float64) float64 { return math.Erfc(-z/math.Sqrt2) / 2 }

// normalQuantile is the z below which a standard normal falls with chance p, 0 < p < 1.
func normalQuantile(p float64) float64 { return math.Sqrt2 * math.Erfinv(2*p-1) }

// The lower half of the normal quantile is tabulated by powers of two of the chance, each cut in 64, from 2^-33 up to 1/2: the steps
// shrink where the quantile is steep. That is how a float64 is laid out, so its leading bits are the node's number. Between nodes the
// quantile is straight; the error in z is under 1e-4.
const (
	octaves     = 32
	octaveBits  = 6
	octaveCells = 1 << octaveBits
	cellBits    = 52 - octaveBits           // of the mantissa, within a cell
	firstNode   = (1023 + 21) << octaveBits // of 2^21, the least of the 53-bit integers drawn
	oneBits     = 1023 << 52                // the float64 1
	cellMask    = 1<<cellBits - 1
)

// normalTable holds for each cell the line through its ends, over 1 to 2.
type normalTable [octaves * octaveCells]struct{ at, slope float64 }

var normals = sync.OnceValue(func() *normalTable {
	var t normalTable
	node := func(j int) float64 {
		return normalQuantile(math.Ldexp(1+float64(j%octaveCells)/octaveCells, j/octaveCells-octaves-1))
	}
	for j := range t {
		t[j].slope = node(j+1) - node(j)
		t[j].at = node(j) - t[j].slope
	}
	return &t
})

// at turns 64 random bits into a standard normal: the lowest bit for the side, the others for the chance.
func (t *normalTable) at(b uint64) float64 {
	x := math.Float64bits(float64(int64(b>>11 | 1<<21)))
	c := &t[x>>cellBits-firstNode]
	z := c.at + c.slope*math.Float64frombits(x&cellMask<<octaveBits|oneBits)
	return math.Float64frombits(math.Float64bits(z) ^ b<<63)
}
