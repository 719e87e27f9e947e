package decide

import (
	"context"

	"github.com/fettle-tools/fettle/core"
)

var _ core.Curver = Solver{}

// Curve gives the least risk under each of several caps, as Decide does with a Cap and Bare set.
func (s Solver) Curve(ctx context.Context, sel core.Selection, caps []int64) ([]core.Selected, error) {
	s.Bare = true
	d, blocks, err := s.prepare(ctx, &sel)
	if err != nil {
		return nil, err
	}
	if !d.layOut() {
		return nil, d.conflict()
	}
	list := make([]core.Selected, len(caps))
	for i, most := range caps {
		one := *d
		one.sel.Cap = &most
		least, err := one.within()
		switch {
		case err != nil:
			return nil, err
		case one.out.Choice != nil:
			if err := one.blocks(blocks); err != nil {
				return nil, err
			}
		case least >= never:
			return nil, one.conflict()
		default:
			one.out.Bound = least
		}
		list[i] = one.out
	}
	return list, nil
}
