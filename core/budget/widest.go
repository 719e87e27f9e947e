package budget

import (
	"cmp"
	"math"
	"slices"

	"github.com/fettle-tools/fettle/core"
)

// maxWidest is the most that are named.
const maxWidest = 10

// widest shares out the variance of the total: an owner's share is its covariance with the total over the total's variance. The shares
// of all owners sum to 1; those that widen are named, the largest first, ties in the forecast's order.
func (d *draws) widest(mean, sd float64) []core.Widener {
	if !(sd > core.Slack*(1+math.Abs(mean))) {
		return nil
	}
	n := float64(d.trials)
	ws := make([]core.Widener, len(d.owners))
	for o, name := range d.owners {
		var p product
		for _, sums := range d.sums {
			p.sum += sums[o].sum
			p.cross += sums[o].cross
		}
		covariance := p.cross/n - p.sum/n*(mean-d.centre)
		ws[o] = core.Widener{Name: name, Share: covariance / (sd * sd)}
	}
	slices.SortStableFunc(ws, func(a, b core.Widener) int { return cmp.Compare(b.Share, a.Share) })
	for i, w := range ws {
		if i == maxWidest || w.Share < core.Slack {
			return ws[:i]
		}
	}
	return ws
}
