package fewest

import (
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"
)

// small makes up a question of at most 7 nodes, 5 options and 3 sizes; some nodes have several
// sizes, some no choice.
func small(r *rand.Rand) *Problem {
	options, sizes := 2+r.IntN(4), 1+r.IntN(3)
	p := &Problem{Pair: [3]int{250, 60, 3000}, Most: [3]int{r.IntN(4) - 1, r.IntN(4) - 1, -1}}
	for i := range options {
		p.Alike = append(p.Alike, make([]bool, options))
		p.Alike[i][i] = true
		p.Family = append(p.Family, r.IntN(3))
		p.Tracer = append(p.Tracer, r.IntN(3) == 0)
		for j := range i {
			p.Alike[i][j] = r.IntN(5) == 0
			p.Alike[j][i] = p.Alike[i][j]
		}
	}
	for range sizes {
		price := make([]int, options)
		for o := range price {
			price[o] = 1000
			if p.Tracer[o] {
				price[o] = 1500
			}
			if r.IntN(8) == 0 {
				price[o] = 0
			}
		}
		p.Price = append(p.Price, price)
	}
	for range 3 + r.IntN(5) {
		p.Nodes = append(p.Nodes, node(r, options, sizes))
	}
	for b := range p.Nodes {
		for a := range b {
			if r.IntN(3) > 0 {
				p.Edges = append(p.Edges, Edge{a, b, Rank(r.IntN(2))})
			}
			if r.IntN(12) == 0 {
				p.Edges = append(p.Edges, Edge{a, b, Kin})
			}
		}
	}
	return p
}

func node(r *rand.Rand, options, sizes int) Node {
	n := Node{Options: r.Perm(options)[:1+r.IntN(options)]}
	for z := range sizes {
		if r.IntN(2) == 0 {
			n.Sizes = append(n.Sizes, z)
		}
	}
	if r.IntN(4) == 0 {
		for range options {
			n.Miss = append(n.Miss, 300*r.IntN(3))
		}
	}
	return n
}

// total is the whole of what the search makes small, counted afresh.
func (p *Problem) total(option []int) int {
	m := p.Measure(option)
	out := m.Cost
	for r := range Kin {
		if p.Most[r] >= 0 {
			out += over * max(0, m.Pairs[r]-m.Rule[r]-p.Most[r])
		}
	}
	for i, n := range p.Nodes {
		if n.Miss != nil {
			out += n.Miss[option[i]]
		}
	}
	for _, e := range p.Edges {
		if e.Rank == Kin && p.Family[option[e.A]] != p.Family[option[e.B]] {
			out += p.Pair[Kin]
		}
	}
	return out
}

// all tries every solution.
func (p *Problem) all(option []int, at int, best *int, see func([]int)) {
	if at == len(option) {
		*best = min(*best, p.total(option))
		see(option)
		return
	}
	for _, o := range p.Nodes[at].Options {
		option[at] = o
		p.all(option, at+1, best, see)
	}
}

// On 200 small questions the search finds what trying every solution finds, and no solution that
// tells all apart goes below the bounds.
func TestAgainstEverySolution(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2))
	reached := 0
	for n := range 200 {
		p := small(r)
		p.Most[Kin] = -1
		best, fewest := 1<<30, 1<<30
		p.all(make([]int, len(p.Nodes)), 0, &best, func(option []int) {
			if m := p.Measure(option); m.Pairs[Part] == m.Rule[Part] && m.Pairs[Run] == m.Rule[Run] {
				fewest = min(fewest, m.Reels)
			}
		})
		if got := p.total(Solve(p, nil, 40000)); got != best {
			t.Errorf("question %d: %d, of which %d would do", n, got, best)
		}
		bound := 0
		for _, b := range Bounds(p, 1000) {
			bound += b.Least
		}
		require.LessOrEqual(t, bound, fewest, "question %d", n)
		if bound == fewest {
			reached++
		}
	}
	t.Logf("the bound is reached in %d of 200", reached)
	require.Greater(t, reached, 60)
}

// What the search keeps count of is what is counted afresh, move by move.
func TestEveryMoveIsCounted(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 4))
	for range 50 {
		p := small(r)
		s := newSearch(p, p.Begin(nil))
		if len(s.open) == 0 {
			continue
		}
		for range 50 {
			n := s.open[s.next(len(s.open))]
			to := s.Nodes[n].Options[s.next(len(s.Nodes[n].Options))]
			if to == s.option[n] {
				continue
			}
			before := p.total(s.option)
			s.look(n)
			worth := s.worth(n, to) - s.worth(n, s.option[n])
			cost, pairs := s.delta(n, to)
			cost += s.above(pairs)
			s.take(n, to, pairs)
			require.Equal(t, p.total(s.option)-before, cost)
			require.Equal(t, cost, worth)
		}
	}
}

// Graphs whose fewest colours are known: an odd ring takes three though no three of it are joined,
// the Petersen graph three, the Grötzsch graph four though no three of it are joined (Mycielski,
// "Sur le coloriage des graphes", Colloquium Mathematicum 3, 1955).
func TestFewestColours(t *testing.T) {
	for _, c := range []struct {
		name  string
		n     int
		edges [][2]int
		want  int
	}{
		{"ring of 5", 5, ring(5), 3},
		{"ring of 6", 6, ring(6), 2},
		{"Petersen", 10, append(ring(5), [][2]int{{0, 5}, {1, 6}, {2, 7}, {3, 8}, {4, 9}, {5, 7}, {7, 9}, {9, 6}, {6, 8}, {8, 5}}...), 3},
		{"Grötzsch", 11, grotzsch(), 4},
	} {
		fit := make([][]bool, c.n)
		for i := range fit {
			fit[i] = make([]bool, c.n)
		}
		for _, e := range c.edges {
			fit[e[0]][e[1]], fit[e[1]][e[0]] = true, true
		}
		got, exact := colours(fit, 2, 10000)
		require.Equal(t, c.want, got, c.name)
		require.True(t, exact, c.name)
		_, exact = colours(fit, 2, 2)
		require.False(t, exact, c.name)
	}
}

func ring(n int) [][2]int {
	var out [][2]int
	for i := range n {
		out = append(out, [2]int{i, (i + 1) % n})
	}
	return out
}

// grotzsch is a ring of five, a shadow of each of its points joined to that point's neighbours, and
// one more point joined to all shadows.
func grotzsch() [][2]int {
	out := ring(5)
	for i := range 5 {
		out = append(out, [2]int{5 + i, (i + 1) % 5}, [2]int{5 + i, (i + 4) % 5}, [2]int{10, 5 + i})
	}
	return out
}

// With nothing to choose nothing is looked for.
func TestNoChoice(t *testing.T) {
	p := &Problem{Alike: [][]bool{{true}}, Family: []int{0}, Tracer: []bool{false}, Price: [][]int{{1000}}, Nodes: []Node{{Options: []int{0}, Sizes: []int{0}}}}
	require.Equal(t, []int{0}, Solve(p, nil, 40000))
	require.Equal(t, Score{Reels: 1, Cost: 1000}, p.Measure([]int{0}))
	require.Equal(t, []Bound{{1, true}}, Bounds(p, 10))
}
