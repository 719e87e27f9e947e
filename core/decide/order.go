package decide

import (
	"math/bits"
	"slices"
)

// elimination is an order in which the variables of a graph are summed out, with the clique that each one makes.
type elimination struct {
	cliques [][]int32 // by position: the neighbours left, then the variable itself
	width   int       // of the largest clique, less one
	cells   int       // of all tables together
}

// crowded is the degree from which a vertex is kept back without counting its fill.
const crowded = 24

// graph is what is left while an order is sought: sorted neighbours, and the key of each vertex.
type graph struct {
	adj  [][]int32
	size []int // values of each variable
	key  []uint64
	done []bool
	todo keyHeap
	// Scratch.
	stale, both, slab []int32
}

// eliminate orders a graph by least fill, ties by the table's size, then by index. It stops, with ok false, as soon
// as a clique is over maxWidth or the tables together are over maxCells, so nothing is ever allocated for them.
// It uses adj up.
func eliminate(adj [][]int32, size []int, maxWidth, maxCells int) (e elimination, ok bool) {
	g := graph{adj: adj, size: size, key: make([]uint64, len(adj)), done: make([]bool, len(adj)), todo: make(keyHeap, 0, 2*len(adj))}
	e.cliques = make([][]int32, 0, len(adj))
	for v := range adj {
		g.key[v] = g.rank(v)
		g.todo.push(keyed{g.key[v], int32(v)})
	}
	for len(e.cliques) < len(adj) {
		k := g.todo.pop()
		if g.done[k.v] || g.key[k.v] != k.key {
			continue
		}
		clique := g.clique(k.v)
		e.width = max(e.width, len(clique)-1)
		e.cells += cells(clique, size, maxCells)
		if e.width > maxWidth || e.cells > maxCells {
			return e, false
		}
		e.cliques = append(e.cliques, clique)
		g.remove(int(k.v))
	}
	return e, true
}

// clique is a vertex after its neighbours.
func (g *graph) clique(v int32) []int32 {
	return append(append(room(&g.slab, len(g.adj[v])+1), g.adj[v]...), v)
}

// cells is the size of a table over these variables, cut off just over most.
func cells(vars []int32, size []int, most int) int {
	n := 1
	for _, v := range vars {
		n *= size[v]
		if n > most {
			return most + 1
		}
	}
	return n
}

// rank is the key of a vertex: fill, then the size of its table.
func (g *graph) rank(v int) uint64 {
	near := g.adj[v]
	weight := bits.Len(uint(g.size[v]))
	for _, u := range near {
		weight += bits.Len(uint(g.size[u]))
	}
	if len(near) > crowded {
		return uint64(1)<<50 | uint64(len(near))<<20 | uint64(weight)
	}
	fill := 0
	for i, u := range near {
		for _, w := range near[i+1:] {
			if !linked(g.adj, u, w) {
				fill++
			}
		}
	}
	return uint64(fill)<<20 | uint64(weight)
}

// linked reports an edge, looked up on the side with fewer.
func linked(adj [][]int32, u, w int32) bool {
	if len(adj[u]) > len(adj[w]) {
		u, w = w, u
	}
	_, ok := place(adj[u], w)
	return ok
}

// short is up to how many neighbours are looked through one by one.
const short = 12

// place finds where x is in a sorted list, and whether it is there.
func place(list []int32, x int32) (int, bool) {
	if len(list) > short {
		return slices.BinarySearch(list, x)
	}
	for i, y := range list {
		if y >= x {
			return i, y == x
		}
	}
	return len(list), false
}

// remove takes a vertex out, joins its neighbours, and ranks anew what that changed.
func (g *graph) remove(v int) {
	g.done[v] = true
	near := g.adj[v]
	stale := append(g.stale[:0], near...)
	for _, u := range near {
		i, _ := place(g.adj[u], int32(v))
		g.adj[u] = slices.Delete(g.adj[u], i, i+1)
	}
	for i, u := range near {
		for _, w := range near[i+1:] {
			if linked(g.adj, u, w) {
				continue
			}
			stale = append(stale, g.common(u, w)...)
			g.adj[u] = insert(g.adj[u], w)
			g.adj[w] = insert(g.adj[w], u)
		}
	}
	slices.Sort(stale)
	g.stale = stale
	for _, u := range slices.Compact(stale) {
		if k := g.rank(int(u)); k != g.key[u] {
			g.key[u] = k
			g.todo.push(keyed{k, u})
		}
	}
}

// common gives the neighbours that two vertices share, good until it is called again.
func (g *graph) common(u, w int32) []int32 {
	if len(g.adj[u]) > len(g.adj[w]) {
		u, w = w, u
	}
	both := g.both[:0]
	for _, z := range g.adj[u] {
		if _, ok := place(g.adj[w], z); ok {
			both = append(both, z)
		}
	}
	g.both = both
	return both
}

// insert puts x into a sorted list that may hold it already.
func insert(list []int32, x int32) []int32 {
	i, ok := place(list, x)
	if ok {
		return list
	}
	return slices.Insert(list, i, x)
}

// keyed is a vertex with the key it had when it was queued.
type keyed struct {
	key uint64
	v   int32
}

// before reports that a vertex goes first: the one with the least key, then the lowest.
func (k keyed) before(other keyed) bool {
	return k.key < other.key || k.key == other.key && k.v < other.v
}

// keyHeap is a binary heap of them. The library's would allocate each one.
type keyHeap []keyed

func (h *keyHeap) push(k keyed) {
	list := append(*h, k)
	at := len(list) - 1
	for at > 0 && k.before(list[(at-1)/2]) {
		list[at] = list[(at-1)/2]
		at = (at - 1) / 2
	}
	list[at] = k
	*h = list
}

func (h *keyHeap) pop() keyed {
	list := *h
	first, last := list[0], list[len(list)-1]
	list = list[:len(list)-1]
	at := 0
	for 2*at+1 < len(list) {
		below := 2*at + 1
		if below+1 < len(list) && list[below+1].before(list[below]) {
			below++
		}
		if !list[below].before(last) {
			break
		}
		list[at] = list[below]
		at = below
	}
	if len(list) > 0 {
		list[at] = last
	}
	*h = list
	return first
}
