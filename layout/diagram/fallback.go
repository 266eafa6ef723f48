package diagram

import "slices"

// longestPaths numbers the columns without the library, should it fail: every
// node one column behind the last that feeds it, wires that close a ring set aside.
func longestPaths(g Graph) []int {
	next := make([][]int, len(g.Nodes))
	for _, w := range g.Wires {
		if flow(g, w) == "" {
			next[w.From.Node] = append(next[w.From.Node], w.To.Node)
		}
	}
	column := make([]int, len(g.Nodes))
	order := topDown(next)
	place := make([]int, len(order))
	for i, n := range order {
		place[n] = i
	}
	last := 0
	for _, n := range order {
		for _, m := range next[n] {
			if place[m] > place[n] {
				column[m] = max(column[m], column[n]+1)
			}
		}
		last = max(last, column[n])
	}
	for i, n := range g.Nodes {
		if n.Column == Last {
			column[i] = last
		}
	}
	return column
}

// topDown gives the nodes so that a wire leads onward, rings apart.
func topDown(next [][]int) []int {
	seen := make([]bool, len(next))
	var order []int
	var visit func(n int)
	visit = func(n int) {
		if seen[n] {
			return
		}
		seen[n] = true
		for _, m := range next[n] {
			visit(m)
		}
		order = append(order, n)
	}
	for n := range next {
		visit(n)
	}
	slices.Reverse(order)
	return order
}
