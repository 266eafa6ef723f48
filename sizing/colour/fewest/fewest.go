// Package fewest gives every node of a graph one of its options so that few reels are bought: a
// reel is an option in a size, bought once for all nodes of that size. Joined nodes that look alike
// cost something too, each pair by its rank, and no more than so many are allowed. It knows no
// wires: sizes and options are numbers, costs are thousandths of a reel.
//
// In: the Problem. Out: one option a node, and what no solution goes below. The work is bounded by
// counts of moves, never by time, and the same Problem gives the same answer.
package fewest

// Rank says where two nodes meet.
type Rank uint8

// The ranks.
const (
	Part Rank = iota
	Run
	Kin // nodes that keep to one family of options; no pair that looks alike
	ranks
)

// Problem is the question.
type Problem struct {
	Alike  [][]bool   // by two options, symmetric, true on the diagonal
	Family []int      // by option
	Price  [][]int    // by size and option: of a reel; 0 for one that is there
	Tracer []bool     // by option: not plain
	Nodes  []Node     // in any order
	Edges  []Edge     // each two nodes once a rank at most
	Pair   [ranks]int // by rank: what two nodes cost that are alike (of Kin: that are not of one family)
	Most   [ranks]int // by rank: no more such pairs, those apart whose ends have no choice; below 0: no limit
}

// Node is what is to get an option.
type Node struct {
	Options []int // at least one
	Sizes   []int // in which its option is bought
	Miss    []int // by option: what it costs that it is not the one that was wished; nil for nothing
}

func (n *Node) fixed() bool { return len(n.Options) == 1 }

// Edge joins two nodes.
type Edge struct {
	A, B int
	Rank Rank
}

// Score is what a solution costs.
type Score struct {
	Reels   int        // bought: those that are there apart
	Tracers int        // of them that are not plain
	Pairs   [ranks]int // alike, those by rule among them
	Rule    [ranks]int // of them those whose ends have no choice
	Cost    int        // reels and pairs, in thousandths of a reel, without limits and wishes
}

// thousand is one reel.
const thousand = 1000

// Measure counts what a solution costs.
func (p *Problem) Measure(option []int) Score {
	var out Score
	c := len(p.Alike)
	bought := make([]bool, len(p.Price)*c)
	for i := range p.Nodes {
		for _, s := range p.Nodes[i].Sizes {
			o := option[i]
			if bought[s*c+o] {
				continue
			}
			bought[s*c+o] = true
			if price := p.Price[s][o]; price > 0 {
				out.Reels++
				if p.Tracer[o] {
					out.Tracers++
				}
				out.Cost += price
			}
		}
	}
	for _, e := range p.Edges {
		if e.Rank == Kin || !p.Alike[option[e.A]][option[e.B]] {
			continue
		}
		out.Pairs[e.Rank]++
		out.Cost += p.Pair[e.Rank]
		if p.Nodes[e.A].fixed() && p.Nodes[e.B].fixed() {
			out.Rule[e.Rank]++
		}
	}
	return out
}
