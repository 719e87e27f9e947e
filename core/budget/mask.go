package budget

import "math/bits"

// chunkSize is the number of trials drawn together, line by line, so that one line's curve stays in the fastest cache. It is what a
// byte can count, which spares the bounds checks.
const (
	chunkSize = 256
	maskWords = chunkSize / 64
)

type mask [maskWords]uint64

func (m *mask) set(t int)      { m[t>>6] |= 1 << (t & 63) }
func (m *mask) has(t int) bool { return m[t>>6]>>(t&63)&1 != 0 }

func (m *mask) or(o *mask) {
	for w := range m {
		m[w] |= o[w]
	}
}

// list appends the trials of the mask, in order.
func (m *mask) list(to []uint8) []uint8 {
	for w, word := range m {
		for ; word != 0; word &= word - 1 {
			to = append(to, uint8(w<<6|bits.TrailingZeros64(word)))
		}
	}
	return to
}

// amounts holds one figure a trial of a chunk.
type amounts [chunkSize]float64
