package budget

import "hash/fnv"

// stream gives one random number a trial. It is SplitMix64 (Steele, Lea and Flood, OOPSLA 2014) entered at a place that
// depends on the seed and on what the stream is for; number t is reached in one step, so that a trial in which the
// line is not due costs nothing and any worker may draw any trial.
type stream uint64

const golden = 0x9e3779b97f4a7c15

// newStream makes the stream of the nth thing of a kind that carries this id.
func newStream(seed uint64, kind, id string, nth int) stream {
	h := fnv.New64a()
	_, _ = h.Write([]byte(kind + "\x00" + id)) // a hash never fails to write
	return stream(mix(mix(seed+golden) ^ mix(h.Sum64()+uint64(nth)*golden)))
}

// bits gives 64 random bits for trial t.
func (s stream) bits(t int) uint64 { return mix(uint64(s) + uint64(t+1)*golden) }

// uniform gives a number between 0 and 1, never either.
func (s stream) uniform(t int) float64 { return (float64(int64(s.bits(t)>>11)) + .5) * 0x1p-53 }

func mix(z uint64) uint64 {
	z = (z ^ z>>30) * 0xbf58476d1ce4e5b9
	z = (z ^ z>>27) * 0x94d049bb133111eb
	return z ^ z>>31
}

// streams hands out streams and counts how often an id was met, so that two things of one name still differ.
type streams struct {
	seed uint64
	seen map[string]int
}

func newStreams(seed uint64) *streams { return &streams{seed, map[string]int{}} }

func (s *streams) of(kind, id string) stream {
	key := kind + "\x00" + id
	nth := s.seen[key]
	s.seen[key]++
	return newStream(s.seed, kind, id, nth)
}
