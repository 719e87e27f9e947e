package sdk

import (
	"math"

	"github.com/fettle-tools/fettle/core"
)

// maxShims bounds the pieces of a pack: with more the joint would not hold its face (common practice, no source).
const maxShims = 16

// shimSearch looks for packs of one total: depth first over the sizes, for one number of pieces at a time, so that
// the first number that gives a pack is the fewest.
type shimSearch struct {
	wanted   float64
	half     float64 // half of how exact the total must be
	thinnest float64
	sizes    []Shim // thickest first
	now      []int
	best     []int
	error    float64 // of best
	seen     map[shimState]bool
}

// shimState is where a look starts: coming there again finds nothing better.
type shimState struct {
	size, pieces int
	rest         int64 // in millionths
}

func newShimSearch(wanted, half, thinnest float64, shims []Shim) *shimSearch {
	sizes := sortedShims(shims)
	return &shimSearch{wanted: wanted, half: half * (1 + 1e-6), thinnest: thinnest, sizes: sizes, now: make([]int, len(sizes))}
}

// fewest returns how many of each size make the pack of fewest pieces.
func (s *shimSearch) fewest() ([]int, bool) {
	for pieces := range maxShims + 1 {
		s.best, s.error, s.seen = nil, math.Inf(1), map[shimState]bool{}
		s.look(0, pieces, s.wanted)
		if s.best != nil {
			return s.best, true
		}
	}
	return nil, false
}

// look places the pieces left among the sizes from i on; rest is the thickness still missing.
func (s *shimSearch) look(i, pieces int, rest float64) {
	if pieces == 0 {
		if e := math.Abs(rest); e <= s.half && e < s.error-1e-12 && s.holds() {
			s.best, s.error = append([]int{}, s.now...), e
		}
		return
	}
	if i == len(s.sizes) {
		return
	}
	thickest, thinnest := s.sizes[i].Thickness, s.sizes[len(s.sizes)-1].Thickness
	if float64(pieces)*thickest < rest-s.half || float64(pieces)*thinnest > rest+s.half {
		return
	}
	state := shimState{i, pieces, int64(math.Round(rest * 1e6))}
	if s.seen[state] {
		return
	}
	s.seen[state] = true
	most := pieces
	if c := s.sizes[i].Count; c >= 0 {
		most = min(most, c)
	}
	for n := most; n >= 0; n-- {
		s.now[i] = n
		s.look(i+1, pieces-n, rest-float64(n)*thickest)
	}
	s.now[i] = 0
}

// holds reports whether the pack now looked at keeps the rule that no thin shim lies alone.
func (s *shimSearch) holds() bool {
	pieces, thin := 0, false
	for i, n := range s.now {
		pieces += n
		thin = thin || n > 0 && s.sizes[i].Thickness < s.thinnest*(1-core.Slack)
	}
	return pieces != 1 || !thin
}

// nearest names the closest totals below and above that can be made up, within a few steps.
func (s *shimSearch) nearest() string {
	words := ""
	for _, sign := range []float64{-1, +1} {
		for step := 1; step <= 40; step++ {
			total := s.wanted + sign*float64(step)*2*s.half
			if total < 0 {
				break
			}
			near := &shimSearch{wanted: total, half: s.half, thinnest: s.thinnest, sizes: s.sizes, now: make([]int, len(s.sizes))}
			if counts, ok := near.fewest(); ok {
				made := 0.0
				for i, n := range counts {
					made += float64(n) * s.sizes[i].Thickness
				}
				if words != "" {
					words += ", "
				}
				words += core.FormatNumber(round5(made))
				break
			}
		}
	}
	if words == "" {
		return "none"
	}
	return words
}
