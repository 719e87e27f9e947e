package decide

import "github.com/fettle-tools/fettle/core"

// groups parts the Selection: sure are the parts of the optimum, ascending; blocks are the parts joined by sets and
// bonds to one with more than one state, each ascending, in the order of their first part.
func groups(sel *core.Selection) (sure []int, blocks [][]int) {
	for _, g := range joined(sel) {
		unseen := false
		for _, p := range g {
			unseen = unseen || len(sel.Parts[p].States) > 1
		}
		if unseen {
			blocks = append(blocks, g)
		}
	}
	in := make([]bool, len(sel.Parts))
	for _, b := range blocks {
		for _, p := range b {
			in[p] = true
		}
	}
	for p := range sel.Parts {
		if !in[p] {
			sure = append(sure, p)
		}
	}
	return sure, blocks
}

// joined splits all parts by sets and bonds, each group ascending, in the order of their first part.
func joined(sel *core.Selection) [][]int {
	root := make([]int, len(sel.Parts))
	for p := range root {
		root[p] = p
	}
	find := func(p int) int {
		for root[p] != p {
			root[p] = root[root[p]]
			p = root[p]
		}
		return p
	}
	join := func(p, q int) {
		p, q = find(p), find(q)
		root[max(p, q)] = min(p, q)
	}
	for _, s := range sel.Sets {
		for _, p := range s.Members {
			join(p, s.Members[0])
		}
	}
	for _, b := range sel.Bonds {
		join(b.Part, b.OtherPart)
	}
	count := make([]int, len(root))
	groups := 0
	for p := range root {
		if r := find(p); r == p {
			groups++
		}
		count[root[p]]++
	}
	list, slab := make([][]int, 0, groups), make([]int, len(root))
	index := make([]int, len(root))
	for p := range root {
		r := find(p)
		if r == p {
			index[r] = len(list)
			list = append(list, slab[:0:count[r]])
			slab = slab[count[r]:]
		}
		list[index[r]] = append(list[index[r]], p)
	}
	return list
}
