package decide

import (
	"fmt"
	"slices"
)

// reach is the steps that a joint option opens beyond the optimum's, and what they cost.
type reach struct {
	steps []int
	cost  int64
}

// beyond closes the wanted steps over the optimum's, each any-of clause by the cheapest way.
func (j *joint) beyond(wanted []int) reach {
	wanted = j.access.reduce(wanted, j.out.Steps)
	slices.Sort(wanted)
	key := fmt.Sprint(wanted)
	r, known := j.reached[key]
	if !known {
		r = j.decision.beyond(wanted)
		j.reached[key] = r
	}
	return r
}

func (d *decision) beyond(wanted []int) reach {
	open := slices.Clone(d.out.Steps)
	for _, x := range wanted {
		d.access.extend(open, x)
	}
	if !d.access.closed(open) {
		open = slices.Clone(d.out.Steps)
		net := &network{}
		of := d.access.model(net, wanted, open)
		for _, x := range wanted {
			net.dom[of[x]] = 2
		}
		sol, err := solve(d.ctx, net, d.lim, ask{})
		ready := func(x int) bool { return of[x] >= 0 && err == nil && sol.value < never && sol.assign[of[x]] == 1 }
		d.access.opened(open, wanted, ready)
	}
	var r reach
	for x := range open {
		if open[x] && !d.out.Steps[x] {
			r.steps = append(r.steps, x)
			r.cost += d.sel.Steps[x].Cost
		}
	}
	return r
}
