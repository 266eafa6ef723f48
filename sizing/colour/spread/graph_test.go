package spread

import (
	"testing"

	"github.com/stretchr/testify/require"
)

// graph is a plain colouring problem: colours are options, all different.
type graph struct {
	n     int
	edges [][2]int
}

// mycielski gives the graph myciel(k) of the DIMACS colouring benchmarks (J.
// Mycielski, "Sur le coloriage des graphs", 1955): it needs k+1 colours and has
// no triangle.
func mycielski(k int) graph {
	g := graph{2, [][2]int{{0, 1}}}
	for range k - 1 {
		n := g.n
		next := graph{2*n + 1, append([][2]int(nil), g.edges...)}
		for _, e := range g.edges {
			next.edges = append(next.edges, [2]int{e[0], n + e[1]}, [2]int{e[1], n + e[0]})
		}
		for i := range n {
			next.edges = append(next.edges, [2]int{n + i, 2 * n})
		}
		g = next
	}
	return g
}

// queens gives the graph of an n by n board: squares from which a queen takes another.
func queens(n int) graph {
	g := graph{n: n * n}
	for a := range n * n {
		for b := range a {
			r, c := a/n-b/n, a%n-b%n
			if r == 0 || c == 0 || r == c || r == -c {
				g.edges = append(g.edges, [2]int{b, a})
			}
		}
	}
	return g
}

func (g graph) problem(colours int) *Problem {
	p := &Problem{Far: make([][]int, colours), Plain: make([]bool, colours), Family: make([]int, colours)}
	var all []int
	for i := range colours {
		p.Far[i] = make([]int, colours)
		all = append(all, i)
		for j := range colours {
			if i != j {
				p.Far[i][j] = 1
			}
		}
	}
	for range g.n {
		p.Nodes = append(p.Nodes, Node{Options: all, Reels: []int{0}})
	}
	for _, e := range g.edges {
		p.Edges = append(p.Edges, Edge{A: e[0], B: e[1], Rank: Along, Cost: 1})
	}
	return p
}

// The chromatic numbers and numbers of edges listed for the DIMACS colouring
// benchmarks. The greedy run alone reaches the first six.
func TestGreedyColoursKnownGraphs(t *testing.T) {
	for _, c := range []struct {
		name           string
		g              graph
		edges, colours int
	}{
		{"myciel3", mycielski(3), 20, 4}, {"myciel4", mycielski(4), 71, 5}, {"myciel5", mycielski(5), 236, 6},
		{"myciel6", mycielski(6), 755, 7}, {"myciel7", mycielski(7), 2360, 8}, {"queen5_5", queens(5), 160, 5},
	} {
		require.Len(t, c.g.edges, c.edges, c.name)
		_, ok := newField(c.g.problem(c.colours)).run(Floors{0, 1, 0}, true, nil)
		require.True(t, ok, c.name)
	}
}

func TestExchangesColourKnownGraphs(t *testing.T) {
	for _, c := range []struct {
		name           string
		g              graph
		edges, colours int
	}{{"queen6_6", queens(6), 290, 7}, {"queen7_7", queens(7), 476, 7}, {"queen8_8", queens(8), 728, 9}} {
		require.Len(t, c.g.edges, c.edges, c.name)
		f := newField(c.g.problem(c.colours))
		start, _ := f.run(Floors{0, 1, 0}, false, nil)
		ok := false
		for n := 0; n < 60 && !ok; n++ {
			start, ok = f.tabu(Floors{0, 1, 0}, start)
		}
		require.True(t, ok, c.name)
		for _, e := range c.g.edges {
			require.NotEqual(t, start[e[0]], start[e[1]], c.name)
		}
	}
}

// A small graph is solved exactly: the result is that of trying everything.
func TestSmallGraphsAgainstTryingAll(t *testing.T) {
	seed := uint32(1)
	next := func(n int) int { seed = seed*1664525 + 1013904223; return int(seed>>8) % n }
	for range 30 {
		const m, n = 5, 6
		p := graph{n: n}.problem(m)
		for i := range m {
			for j := range i {
				p.Far[i][j] = 1 + next(50)
				p.Far[j][i] = p.Far[i][j]
			}
		}
		for a := range n {
			for b := range a {
				if next(2) == 0 {
					p.Edges = append(p.Edges, Edge{A: b, B: a, Rank: Rank(next(2)), Cost: 1})
				}
			}
		}
		require.Equal(t, bestOf(p), smallest(p, Solve(p).Option), "%v", p)
	}
}

// smallest gives the costs and the least distances of Touch and Along.
func smallest(p *Problem, option []int) [3]int {
	out := [3]int{0, never, never}
	for _, e := range p.Edges {
		d := p.Far[option[e.A]][option[e.B]]
		if d == 0 {
			out[0] -= e.Cost
			continue
		}
		out[1+int(e.Rank)] = min(out[1+int(e.Rank)], d)
	}
	return out
}

func bestOf(p *Problem) [3]int {
	option := make([]int, len(p.Nodes))
	best := [3]int{-never, 0, 0}
	for {
		if x := smallest(p, option); x[0] > best[0] || x[0] == best[0] && (x[1] > best[1] || x[1] == best[1] && x[2] > best[2]) {
			best = x
		}
		i := 0
		for ; i < len(option); i++ {
			if option[i]++; option[i] < len(p.Far) {
				break
			}
			option[i] = 0
		}
		if i == len(option) {
			return best
		}
	}
}
