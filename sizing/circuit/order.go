package circuit

import (
	"cmp"
	"slices"
)

// leastDegree orders the vertices of a graph for elimination: always one with
// the fewest neighbours left (Tinney and Walker 1967, scheme 2). The neighbours
// are sorted, without the vertex itself; the lists are used up.
func leastDegree(neighbours [][]int32) []int {
	e := &elimination{near: neighbours, degree: make([]int, len(neighbours)), gone: make([]bool, len(neighbours)), mark: make([]int32, len(neighbours))}
	for v := len(neighbours) - 1; v >= 0; v-- {
		e.degree[v] = len(neighbours[v])
		e.push(int32(v))
	}
	order := make([]int, 0, len(neighbours))
	for len(order) < len(neighbours) {
		v := e.pop()
		order = append(order, int(v))
		e.eliminate(v)
	}
	return order
}

// elimination is a graph from which vertices are taken one by one, their
// neighbours joined to each other. A list of neighbours may hold vertices that
// are gone; a queue may hold vertices whose degree has changed since.
type elimination struct {
	near   [][]int32
	degree []int
	gone   []bool
	mark   []int32   // by vertex: the stamp of the last list that held it
	stamp  int32     //
	queue  [][]int32 // by degree: the vertices, last in first out
	least  int       // no queue below this holds anything
}

func (e *elimination) push(v int32) {
	d := e.degree[v]
	for len(e.queue) <= d {
		e.queue = append(e.queue, nil)
	}
	e.queue[d] = append(e.queue[d], v)
	e.least = min(e.least, d)
}

// pop gives a vertex of least degree.
func (e *elimination) pop() int32 {
	for {
		list := e.queue[e.least]
		if len(list) == 0 {
			e.least++
			continue
		}
		v := list[len(list)-1]
		e.queue[e.least] = list[:len(list)-1]
		if !e.gone[v] && e.degree[v] == e.least {
			return v
		}
	}
}

func (e *elimination) eliminate(v int32) {
	e.gone[v] = true
	around := e.alive(v)
	for _, u := range around {
		e.degree[u]--
	}
	slices.SortFunc(around, func(a, b int32) int {
		return cmp.Or(cmp.Compare(len(e.near[a]), len(e.near[b])), cmp.Compare(a, b))
	})
	for n := range len(around) - 1 {
		e.joinAll(around[n], around[n+1:])
	}
	for _, u := range around {
		e.push(u)
	}
	e.near[v] = nil
}

// joinAll makes a vertex a neighbour of others. Only its own list is looked
// through, so that the list of a hub is seldom read.
func (e *elimination) joinAll(u int32, others []int32) {
	e.stamp++
	for _, w := range e.alive(u) {
		e.mark[w] = e.stamp
	}
	for _, w := range others {
		if e.mark[w] != e.stamp {
			e.near[u], e.near[w] = append(e.near[u], w), append(e.near[w], u)
			e.degree[u]++
			e.degree[w]++
		}
	}
}

// alive drops from a vertex's list those that are gone.
func (e *elimination) alive(v int32) []int32 {
	kept := e.near[v][:0]
	for _, u := range e.near[v] {
		if !e.gone[u] {
			kept = append(kept, u)
		}
	}
	e.near[v] = kept
	return kept
}
