package diagram

import "slices"

// tightPaths numbers the columns by the longest paths and then pulls nodes to
// where their wires are shortest, as far as all wires still lead onward but one
// that may close a ring, as a sensor's return does; nil when more than one would.
func tightPaths(g Graph) []int {
	column := longestPaths(g)
	last := slices.Max(column)
	before, after := make([][]int, len(g.Nodes)), make([][]int, len(g.Nodes))
	rings := 0
	for _, w := range g.Wires {
		if flow(g, w) != "" {
			continue
		}
		if column[w.To.Node] <= column[w.From.Node] {
			if rings++; rings > 1 {
				return nil
			}
			continue
		}
		after[w.From.Node] = append(after[w.From.Node], w.To.Node)
		before[w.To.Node] = append(before[w.To.Node], w.From.Node)
	}
	for range len(g.Nodes) {
		moved := false
		for i, n := range g.Nodes {
			to := pulled(column, i, before[i], after[i], last)
			if n.Column == Free && to != column[i] {
				column[i], moved = to, true
			}
		}
		if !moved {
			break
		}
	}
	return column
}

// pulled is the column in which a node's wires are shortest: near those behind it
// if they are more, near those before it if these are more, else where it is.
func pulled(column []int, node int, before, after []int, last int) int {
	lo, hi := 0, last
	for _, m := range before {
		lo = max(lo, column[m]+1)
	}
	for _, m := range after {
		hi = min(hi, column[m]-1)
	}
	switch {
	case len(after) > len(before):
		return hi
	case len(after) < len(before):
		return lo
	}
	return column[node]
}

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
