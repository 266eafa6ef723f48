package diagram

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"example.com/loomfolio/layout/diagram/dot"
)

// assignColumns gives the column of each node, numbered from 0. Where no wires
// form a ring the longest paths decide, pulled tight; else the library does.
func assignColumns(g Graph) []int {
	if columns := tightPaths(g); columns != nil {
		return columns
	}
	return libraryColumns(g)
}

// libraryColumns asks the library; should it fail, the longest paths decide.
func libraryColumns(g Graph) []int {
	var b strings.Builder
	b.WriteString("digraph g {rankdir=LR;splines=line;nodesep=0.2;ranksep=0.5;node [shape=box fixedsize=true label=\"\" width=0.5];\n")
	for i, n := range g.Nodes {
		fmt.Fprintf(&b, "n%d [height=%s];\n", i, inches(n.H))
	}
	for i, w := range g.Wires {
		fmt.Fprintf(&b, "n%d -> n%d [id=e%d%s];\n", w.From.Node, w.To.Node, i, flow(g, w))
	}
	for _, c := range []struct {
		want Column
		rank string
	}{{First, "min"}, {Last, "max"}} {
		b.WriteString(sameRank(g, c.want, c.rank))
	}
	b.WriteString("}\n")
	spots, err := dot.Run(b.String(), len(g.Nodes))
	if err != nil {
		return longestPaths(g)
	}
	return byX(len(g.Nodes), spots)
}

// flow says that a wire which leaves to the left or arrives from the right does
// not say which tile comes first.
func flow(g Graph, w Wire) string {
	from, to := g.pin(w.From), g.pin(w.To)
	if from.Side == West || to.Side == East {
		return " constraint=false"
	}
	return ""
}

func (g Graph) pin(e End) Pin { return g.Nodes[e.Node].Pins[e.Pin] }

func sameRank(g Graph, want Column, rank string) string {
	var names []string
	for i, n := range g.Nodes {
		if n.Column == want {
			names = append(names, fmt.Sprintf("n%d", i))
		}
	}
	if len(names) == 0 {
		return ""
	}
	return "{rank=" + rank + "; " + strings.Join(names, "; ") + "}\n"
}

func inches(mm float64) string { return fmt.Sprintf("%.4f", mm*dot.PerMM/72) }

// byX numbers the distinct x from left to right.
func byX(n int, spots map[string]dot.Spot) []int {
	var xs []int
	at := make([]int, n)
	for i := range n {
		at[i] = int(math.Round(spots[fmt.Sprintf("n%d", i)].X))
		xs = append(xs, at[i])
	}
	slices.Sort(xs)
	xs = slices.Compact(xs)
	for i := range at {
		at[i], _ = slices.BinarySearch(xs, at[i])
	}
	return at
}
