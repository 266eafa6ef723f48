package chart

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"example.com/loomfolio/layout/diagram/dot"
)

// Ranks is what the library says of each tile: its column within its group, counted from 0,
// and how far down it stands among all.
type Ranks struct{ column, down []int }

// Rank asks the graph library: groups are clusters, lines within a group lead from
// one rank to the next, lines between groups pull tiles up and down. The answer serves all
// charts that differ in sizes only.
func (c Graph) Rank() (Ranks, error) {
	if err := c.verify(); err != nil {
		return Ranks{}, err
	}
	spots, err := dot.Run(c.source(), len(c.Tiles))
	if err != nil {
		return Ranks{}, err
	}
	r := Ranks{column: make([]int, len(c.Tiles)), down: make([]int, len(c.Tiles))}
	order := make([]int, len(c.Tiles))
	at := func(i int) dot.Spot { return spots[fmt.Sprintf("n%d", i)] }
	for _, tiles := range c.members() {
		var xs []float64
		for _, t := range tiles {
			xs = append(xs, at(t).X)
		}
		slices.Sort(xs)
		xs = slices.Compact(xs)
		for _, t := range tiles {
			r.column[t], _ = slices.BinarySearch(xs, at(t).X)
		}
	}
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(at(b).Y, at(a).Y) })
	for down, t := range order {
		r.down[t] = down
	}
	return r, nil
}

func (c Graph) source() string {
	var b strings.Builder
	b.WriteString("digraph g {rankdir=LR;splines=false;nodesep=0.1;ranksep=0.3;nslimit=4;nslimit1=4;mclimit=0.3;node [shape=box fixedsize=true label=\"\" width=0.6];\n")
	for g, tiles := range c.members() {
		fmt.Fprintf(&b, "subgraph cluster%d {", g)
		for _, t := range tiles {
			fmt.Fprintf(&b, "n%d [height=%.3f];", t, c.Tiles[t].H/72*dot.PerMM)
		}
		b.WriteString("}\n")
	}
	for _, l := range c.Lines {
		switch {
		case l.From == l.To:
		case c.Tiles[l.From].Group == c.Tiles[l.To].Group:
			fmt.Fprintf(&b, "n%d -> n%d;\n", l.From, l.To)
		default:
			fmt.Fprintf(&b, "n%d -> n%d [constraint=false];\n", l.From, l.To)
		}
	}
	b.WriteString("}\n")
	return b.String()
}
