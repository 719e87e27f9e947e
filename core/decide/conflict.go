package decide

import (
	"fmt"
	"slices"
	"strings"

	"github.com/fettle-tools/fettle/core"
)

// conflict names a small set of parts that no choice of remedies satisfies: dropping any one of them would leave a
// choice for the others.
func (d *decision) conflict() error {
	var parts []int
	for _, g := range joined(d.sel) {
		g = slices.DeleteFunc(g, func(p int) bool { return !slices.Contains(d.model.parts, p) })
		if len(g) > 0 && !d.satisfiable(g) {
			parts = g
			break
		}
	}
	if len(parts) == 0 {
		return core.Errorf(core.Invalid, "look at the any-of steps of the strip plan", "the steps of the extent cannot all be opened")
	}
	for _, p := range slices.Clone(parts) {
		rest := slices.DeleteFunc(slices.Clone(parts), func(q int) bool { return q == p })
		if len(rest) > 0 && !d.satisfiable(rest) {
			parts = rest
		}
	}
	return core.Errorf(core.Invalid, "take back a pin, or look at the sets and the requires and excludes of these parts",
		"no choice of remedies suits %s%s", d.names(parts), d.ties(parts))
}

// satisfiable reports that some choice suits these parts, whatever it costs.
func (d *decision) satisfiable(parts []int) bool {
	m := newModel(d.basis, parts, nil)
	for v := range m.net.cost {
		m.net.cost[v] = make([]int64, len(m.net.cost[v]))
	}
	sol, err := solve(d.ctx, m.net, d.lim, ask{})
	return err != nil || sol.bound < never
}

// names lists parts in words: "a", or "a, b together".
func (d *decision) names(parts []int) string {
	list := make([]string, len(parts))
	for i, p := range parts {
		list[i] = d.sel.Parts[p].ID
	}
	if len(list) == 1 {
		return list[0]
	}
	return strings.Join(list, ", ") + " together"
}

// ties lists the sets and bonds between parts in words, "" if there are none.
func (d *decision) ties(parts []int) string {
	var list []string
	for _, s := range d.sel.Sets {
		n := 0
		for _, p := range parts {
			if slices.Contains(s.Members, p) {
				n++
			}
		}
		if n > 1 {
			list = append(list, "set "+s.ID)
		}
	}
	for _, b := range d.sel.Bonds {
		if !slices.Contains(parts, b.Part) || !slices.Contains(parts, b.OtherPart) {
			continue
		}
		p, q := &d.sel.Parts[b.Part], &d.sel.Parts[b.OtherPart]
		verb := "requires"
		if b.Excludes {
			verb = "excludes"
		}
		list = append(list, fmt.Sprintf("%s %s %s %s %s", p.ID, p.Options[b.Option].ID, verb, q.ID, q.Options[b.OtherOption].ID))
	}
	if len(list) == 0 {
		return ""
	}
	return " (" + strings.Join(list, "; ") + ")"
}
