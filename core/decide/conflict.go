package decide

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"github.com/fettle-tools/fettle/core"
)

// conflict names a small set of parts that no choice of remedies satisfies: dropping any one of them would leave a
// choice for the others.
func (d *decision) conflict() error {
	open := func(p int) []int { return d.sel.Parts[p].States[0].Options }
	for _, g := range joined(d.sel) {
		g = slices.DeleteFunc(g, func(p int) bool { return !slices.Contains(d.model.parts, p) })
		if len(g) > 0 && !d.satisfiable(g, open) {
			g = d.fewest(g, open)
			return &core.Unsuited{Parts: g, Err: core.Errorf(core.Invalid, "do without a pin; if nothing is pinned, look at the sets and the requires and excludes of these parts",
				"%s%s", d.unsuited(g), d.ties(g, open))}
		}
	}
	return core.Errorf(core.Invalid, "look at the any-of steps of the strip plan", "the steps of the extent cannot all be opened")
}

// satisfiable reports that some choice among the open options suits these parts, whatever it costs.
func (d *decision) satisfiable(parts []int, open func(part int) []int) bool {
	options := make([][]int, len(parts))
	for i, p := range parts {
		options[i] = open(p)
	}
	m := newModel(d.basis, parts, options)
	for v := range m.net.cost {
		m.net.cost[v] = make([]int64, len(m.net.cost[v]))
	}
	sol, err := solve(d.ctx, m.net, d.lim, ask{})
	return err != nil || sol.bound < never
}

// fewest leaves out parts as long as nothing suits the others.
func (d *decision) fewest(parts []int, open func(part int) []int) []int {
	for _, p := range slices.Clone(parts) {
		rest := slices.DeleteFunc(slices.Clone(parts), func(q int) bool { return q == p })
		if len(rest) > 0 && !d.satisfiable(rest, open) {
			parts = rest
		}
	}
	return parts
}

// unsuited says that nothing suits these parts.
func (d *decision) unsuited(parts []int) string {
	if len(parts) == 1 {
		return "no remedy suits " + d.names(parts)
	}
	return "no remedies of " + d.names(parts) + " go together"
}

// names lists parts in words: "a", "a, b and c".
func (d *decision) names(parts []int) string {
	list := make([]string, len(parts))
	for i, p := range parts {
		list[i] = d.name(p)
	}
	if last := len(list) - 1; last > 0 {
		return strings.Join(list[:last], ", ") + " and " + list[last]
	}
	return list[0]
}

func (d *decision) name(part int) string {
	return cmp.Or(d.sel.Parts[part].Name, d.sel.Parts[part].ID)
}

// mostTies are listed; more would be read by nobody.
const mostTies = 3

// ties lists the sets and bonds between the open options of parts in words, "" if there are none.
func (d *decision) ties(parts []int, open func(part int) []int) string {
	var list []string
	for _, s := range d.sel.Sets {
		n := 0
		for _, p := range parts {
			if slices.Contains(s.Members, p) {
				n++
			}
		}
		if n > 1 {
			list = append(list, fmt.Sprintf("they are of one set, “%s”", cmp.Or(s.Name, s.ID)))
		}
	}
	option := func(p, o int) string {
		x := &d.sel.Parts[p].Options[o]
		return fmt.Sprintf("%s, “%s”,", d.name(p), cmp.Or(x.Name, x.ID))
	}
	for _, b := range d.sel.Bonds {
		if !slices.Contains(parts, b.Part) || !slices.Contains(parts, b.OtherPart) || !slices.Contains(open(b.Part), b.Option) {
			continue
		}
		does, matters := "needs", true
		if b.Excludes {
			does, matters = "does not go with", slices.Contains(open(b.OtherPart), b.OtherOption)
		}
		if matters {
			list = append(list, strings.TrimSuffix(option(b.Part, b.Option)+" "+does+" "+option(b.OtherPart, b.OtherOption), ","))
		}
	}
	if len(list) == 0 {
		return ""
	}
	more := ""
	if n := len(list) - mostTies; n > 0 {
		list, more = list[:mostTies], fmt.Sprintf("; and %d ties more", n)
	}
	return ": " + strings.Join(list, "; ") + more
}
