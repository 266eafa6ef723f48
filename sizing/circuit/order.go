package circuit

import (
	"container/heap"
	"slices"
)

// leastDegree orders the vertices of a graph for elimination: always the one
// with the fewest neighbours left, the lowest number among equals (Tinney and
// Walker 1967, scheme 2). The neighbours are sorted, without the vertex itself.
func leastDegree(neighbours [][]int) []int {
	n := len(neighbours)
	g := make([][]int, n)
	queue := make(degreeQueue, 0, n)
	for v, list := range neighbours {
		g[v] = slices.Clone(list)
		queue = append(queue, degreeOf{len(list), v})
	}
	heap.Init(&queue)
	done := make([]bool, n)
	order := make([]int, 0, n)
	for queue.Len() > 0 {
		next := heap.Pop(&queue).(degreeOf)
		if done[next.vertex] || next.degree != len(g[next.vertex]) {
			continue
		}
		done[next.vertex] = true
		order = append(order, next.vertex)
		for _, u := range g[next.vertex] {
			g[u] = merged(g[u], g[next.vertex], u, next.vertex)
			heap.Push(&queue, degreeOf{len(g[u]), u})
		}
		g[next.vertex] = nil
	}
	return order
}

// merged is the sorted union of two sorted lists without two of their members.
func merged(a, b []int, skip, skip2 int) []int {
	out := make([]int, 0, len(a)+len(b))
	for len(a) > 0 || len(b) > 0 {
		var v int
		switch {
		case len(b) == 0 || len(a) > 0 && a[0] < b[0]:
			v, a = a[0], a[1:]
		case len(a) == 0 || b[0] < a[0]:
			v, b = b[0], b[1:]
		default:
			v, a, b = a[0], a[1:], b[1:]
		}
		if v != skip && v != skip2 {
			out = append(out, v)
		}
	}
	return out
}

// degreeOf is a vertex with its number of neighbours; a queue may hold stale ones.
type degreeOf struct{ degree, vertex int }

type degreeQueue []degreeOf

func (q degreeQueue) Len() int { return len(q) }
func (q degreeQueue) Less(i, j int) bool {
	return q[i].degree < q[j].degree || q[i].degree == q[j].degree && q[i].vertex < q[j].vertex
}
func (q degreeQueue) Swap(i, j int) { q[i], q[j] = q[j], q[i] }
func (q *degreeQueue) Push(x any)   { *q = append(*q, x.(degreeOf)) }
func (q *degreeQueue) Pop() any {
	old := *q
	last := old[len(old)-1]
	*q = old[:len(old)-1]
	return last
}
