package web

// Slow is how far something is that takes longer than a page may.
type Slow[T any] struct {
	Begun bool // false: nobody has asked for it, or nobody waited for it
	N, Of int  // how far it is; 0 of 0 at first
	Value *T   // nil: not there yet
	Stale bool // the book has changed since it was begun
}

// Waiting reports that it is under way.
func (s Slow[T]) Waiting() bool { return s.Begun && s.Value == nil }

// Part is how far it is in whole per cent.
func (s Slow[T]) Part() int {
	if s.Of == 0 {
		return 0
	}
	return 100 * s.N / s.Of
}
