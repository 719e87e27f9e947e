package decide

import (
	"container/heap"
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
}

// eliminate orders a graph by least fill, ties by the table's size, then by index. It stops, with ok false, as soon
// as a clique is over maxWidth or the tables together are over maxCells, so nothing is ever allocated for them.
// It uses adj up.
func eliminate(adj [][]int32, size []int, maxWidth, maxCells int) (e elimination, ok bool) {
	g := graph{adj: adj, size: size, key: make([]uint64, len(adj)), done: make([]bool, len(adj))}
	for v := range adj {
		g.key[v] = g.rank(v)
		g.todo = append(g.todo, keyed{g.key[v], int32(v)})
	}
	heap.Init(&g.todo)
	for len(e.cliques) < len(adj) {
		k := heap.Pop(&g.todo).(keyed)
		if g.done[k.v] || g.key[k.v] != k.key {
			continue
		}
		clique := append(slices.Clone(g.adj[k.v]), k.v)
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
	_, ok := slices.BinarySearch(adj[u], w)
	return ok
}

// remove takes a vertex out, joins its neighbours, and ranks anew what that changed.
func (g *graph) remove(v int) {
	g.done[v] = true
	near := g.adj[v]
	stale := slices.Clone(near)
	for _, u := range near {
		i, _ := slices.BinarySearch(g.adj[u], int32(v))
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
	for _, u := range slices.Compact(stale) {
		if k := g.rank(int(u)); k != g.key[u] {
			g.key[u] = k
			heap.Push(&g.todo, keyed{k, u})
		}
	}
}

// common gives the neighbours that two vertices share.
func (g *graph) common(u, w int32) []int32 {
	if len(g.adj[u]) > len(g.adj[w]) {
		u, w = w, u
	}
	var both []int32
	for _, z := range g.adj[u] {
		if _, ok := slices.BinarySearch(g.adj[w], z); ok {
			both = append(both, z)
		}
	}
	return both
}

// insert puts x into a sorted list that may hold it already.
func insert(list []int32, x int32) []int32 {
	i, ok := slices.BinarySearch(list, x)
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

// keyHeap gives the least key first, then the lowest vertex.
type keyHeap []keyed

func (h keyHeap) Len() int { return len(h) }
func (h keyHeap) Less(i, j int) bool {
	if h[i].key != h[j].key {
		return h[i].key < h[j].key
	}
	return h[i].v < h[j].v
}
func (h keyHeap) Swap(i, j int) { h[i], h[j] = h[j], h[i] }
func (h *keyHeap) Push(x any)   { *h = append(*h, x.(keyed)) }
func (h *keyHeap) Pop() any {
	old := *h
	x := old[len(old)-1]
	*h = old[:len(old)-1]
	return x
}
