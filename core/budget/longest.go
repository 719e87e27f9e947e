package budget

import (
	"cmp"
	"slices"

	"github.com/fettle-tools/fettle/core"
)

// begins is a piece of work that may begin once the bench has had so many hours, and the work whose wait that comes from.
type begins struct {
	at, hours float64
	cause     int32
}

// longest is the longest path, in hours of the bench, among one that is known and those that run up to the beginning of a piece of work and
// then through the hours of all that begins no earlier. Of equals it is the first. The queue's order is lost.
func longest(queue []begins, known float64, why int32) (float64, int32) {
	queue = latest(queue, known)
	slices.SortStableFunc(queue, func(a, b begins) int { return cmp.Compare(b.at, a.at) })
	var hours float64
	for _, q := range queue {
		hours += q.hours
		if q.at+hours > known {
			known, why = q.at+hours, q.cause
		}
	}
	return known, why
}

// latest keeps the work at whose beginning the longest path can turn: what begins so early that all that is kept, after it, ends before some
// path that is known is dropped, until nothing more can be.
func latest(queue []begins, known float64) []begins {
	var hours float64
	for _, q := range queue {
		known, hours = max(known, q.at+q.hours), hours+q.hours
	}
	for {
		kept, less := queue[:0], hours
		for _, q := range queue {
			if q.at+hours*(1+core.Slack) < known { // sums are rounded in another order
				less -= q.hours
			} else {
				kept = append(kept, q)
			}
		}
		if len(kept) == len(queue) {
			return kept
		}
		queue, hours = kept, less
	}
}
