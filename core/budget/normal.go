package budget

import (
	"math"
	"math/bits"
	"sync"
)

// normalCDF is the chance that a standard normal is at most z.
func normalCDF(z float64) float64 { return math.Erfc(-z/math.Sqrt2) / 2 }

// normalQuantile is the z below which a standard normal falls with chance p, 0 < p < 1.
func normalQuantile(p float64) float64 { return math.Sqrt2 * math.Erfinv(2*p-1) }

// The lower half of the normal quantile is tabulated by powers of two of the chance, each cut in 64, down to 2^-33: the
// steps shrink where the quantile is steep. Between nodes it is straight; the error in z is under 1e-4.
const (
	octaves     = 32
	octaveCells = 64
)

type normalTable [octaves*octaveCells + 1]float64

var normals = sync.OnceValue(func() *normalTable {
	var t normalTable
	for j := range octaves * octaveCells {
		octave := octaves - 1 - j/octaveCells
		t[j] = normalQuantile(math.Ldexp(1+float64(j%octaveCells)/octaveCells, -octave-2))
	}
	return &t // the last node is the median, 0
})

// at turns 64 random bits into a standard normal: one bit for the side, the others for the chance.
func (t *normalTable) at(b uint64) float64 {
	w := b<<1 | 1
	octave := bits.LeadingZeros64(w) & (octaves - 1) // beyond 2^-32 the octaves repeat: never met in practice
	m := w << (octave + 1)
	i := (octaves-1-octave)*octaveCells + int(m>>58)
	z := t[i] + float64(m<<6>>11)*0x1p-53*(t[i+1]-t[i])
	return math.Float64frombits(math.Float64bits(z) ^ b&(1<<63))
}
