package probe_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/sizing/fault/probe"
)

// chain are suspects in a row, with a test of cost 1 between any two.
func chain(weights ...float64) probe.Problem {
	p := probe.Problem{Weights: weights}
	for k := 1; k < len(weights); k++ {
		t := probe.Test{Cost: 1, Answer: make([]int, len(weights))}
		for i := k; i < len(weights); i++ {
			t.Answer[i] = 1
		}
		p.Tests = append(p.Tests, t)
	}
	return p
}

func equal(n int) []float64 {
	w := make([]float64, n)
	for i := range w {
		w[i] = 1
	}
	return w
}

// TestHalfSplit: equal suspects in a chain. Mean by the definition, (N f + 2 (N - 2^f))/N with
// f = floor(log2 N). Published for 16: 4 tests against 16 one after the other (half-split rule
// as taught to technicians; document from memory).
func TestHalfSplit(t *testing.T) {
	for n, want := range map[int]struct {
		most int
		mean float64
	}{2: {1, 1}, 3: {2, 1.6667}, 5: {3, 2.4}, 7: {3, 2.8571}, 8: {3, 3}, 12: {4, 3.6667}, 16: {4, 4}, 20: {5, 4.4}, 32: {5, 5}} {
		tree := probe.Best(chain(equal(n)...))
		require.InDelta(t, want.mean, tree.Mean, 5e-5, n)
		require.InDelta(t, want.mean, tree.Cost, 5e-5, n)
		require.Equal(t, want.most, tree.Most, n)
		require.Equal(t, n <= probe.Limit, tree.Exact)
		require.Len(t, tree.Classes, n)
	}
	require.InDelta(t, 20, probe.Huffman(equal(1<<20), 2), 1e-9, "1,048,576 parts: 20 tests (published, document from memory)")
	require.InDelta(t, 20, probe.Entropy(equal(1<<20)), 1e-9)
}

// TestWeightedChains: the optimum computed by an independent program, as the least alphabetic
// tree; halving by weight is not always best (2.8611 in the second).
func TestWeightedChains(t *testing.T) {
	for _, c := range []struct {
		weights       []float64
		best, entropy float64
	}{
		{[]float64{.4, .3, .2, .1}, 1.9, 1.8464},
		{[]float64{1, 2, 3, 4, 5, 6, 7, 8}, 2.8333, 2.7942},
		{[]float64{128, 64, 32, 16, 8, 4, 2, 1}, 1.9647, 1.963},
		{[]float64{30, 4, 6, 4, 15, 4, 10, 4, 5, 20}, 2.9706, 2.902},
	} {
		tree := probe.Best(chain(c.weights...))
		require.InDelta(t, c.best, tree.Mean, 5e-5)
		require.InDelta(t, c.entropy, probe.Entropy(c.weights), 5e-5)
	}
}

// six is the published example of six states and five tests (Pattipati and Alexandridis, 1990,
// matrix from memory; all figures computed by an independent program as well).
func six() probe.Problem {
	return probe.Problem{Weights: []float64{.70, .01, .02, .10, .05, .12}, Tests: []probe.Test{
		{Cost: 1, Answer: []int{0, 0, 0, 1, 1, 1}},
		{Cost: 1, Answer: []int{0, 1, 0, 0, 1, 1}},
		{Cost: 1, Answer: []int{0, 0, 1, 0, 0, 1}},
		{Cost: 1, Answer: []int{0, 0, 1, 1, 0, 1}},
		{Cost: 1, Answer: []int{0, 1, 0, 1, 0, 0}},
	}}
}

func TestSixStates(t *testing.T) {
	p := six()
	tree := probe.Best(p)
	require.InDelta(t, 2.18, tree.Cost, 1e-9, "published optimum")
	require.Equal(t, 1, tree.Root.Test, "first test t2")
	require.InDelta(t, 1.4549, probe.Entropy(p.Weights), 5e-5)
	require.InDelta(t, 1.59, probe.Huffman(p.Weights, 2), 1e-9)
	for i, bits := range []float64{.8415, .6801, .5842, .7950, .4999} {
		require.InDelta(t, bits, information(p.Weights, p.Tests[i]), 5e-5, "t%d", i+1)
	}
}

// information is what a test tells whose answers are sure.
func information(weights []float64, t probe.Test) float64 {
	chance := make([][]float64, len(weights))
	for i, a := range t.Answer {
		chance[i] = make([]float64, 16)
		chance[i][a] = 1
	}
	return probe.Doubtful(weights, chance)
}

// TestHuffman: any question may be asked (computed by an independent program); with three
// answers what does not divide stands alone.
func TestHuffman(t *testing.T) {
	require.InDelta(t, 3, probe.Huffman(equal(8), 2), 1e-9)
	require.InDelta(t, 1.9, probe.Huffman([]float64{.4, .3, .2, .1}, 2), 1e-9)
	require.InDelta(t, 2.8333, probe.Huffman([]float64{1, 2, 3, 4, 5, 6, 7, 8}, 2), 5e-5)
	require.InDelta(t, 2, probe.Huffman(equal(9), 3), 1e-9)
	require.InDelta(t, 2, probe.Huffman(equal(8), 3), 1e-9, "3, 3 and 2")
	require.InDelta(t, (1.+2*6)/7, probe.Huffman(equal(7), 3), 1e-9, "3, 3 and one alone")
}

// TestMoreAnswers lower the bound from log2 to log3 (definition): 27 suspects, three tests.
func TestMoreAnswers(t *testing.T) {
	p := probe.Problem{Weights: equal(27)}
	for _, by := range []int{1, 3, 9} {
		x := probe.Test{Cost: 1}
		for i := range 27 {
			x.Answer = append(x.Answer, i/by%3)
		}
		p.Tests = append(p.Tests, x)
	}
	tree := probe.Best(p)
	require.InDelta(t, 3, tree.Mean, 1e-9)
	require.Equal(t, 3, tree.Most)
	require.Less(t, tree.Mean, probe.Entropy(p.Weights))
}

// TestOrder: bulb, fuse, ground, connector, switch; numbers computed by trying all orders, rule from memory.
func TestOrder(t *testing.T) {
	chance, cost := []float64{.10, .45, .25, .05, .15}, []float64{.5, 1, 2, 4, 3}
	require.Equal(t, []int{1, 0, 2, 4, 3}, probe.Order(chance, cost))
	require.InDelta(t, 2.975, expected(probe.Order(chance, cost), chance, cost), 1e-9)
	require.InDelta(t, 3.275, expected(probe.Order(chance, equal(5)), chance, cost), 1e-9, "by chance alone")
}

func expected(order []int, chance, cost []float64) float64 {
	sum, paid := 0.0, 0.0
	for _, i := range order {
		paid += cost[i]
		sum += chance[i] * paid
	}
	return sum
}

// TestNoisyTest: a part that shows every second time; the most that one test can tell is at
// two fifths of the parts, 1/3.1063 bit (computed), below the published 4 tests a bit of
// halving, 2 e ln 2 = 3.7683 of testing 1/e, 3.5 of both halves and 3.1546 of thirds by turns.
func TestNoisyTest(t *testing.T) {
	told := func(q float64) float64 {
		return probe.Doubtful([]float64{q, 1 - q}, [][]float64{{.5, .5}, {1, 0}})
	}
	require.InDelta(t, 3.1063, 1/told(.4), 5e-5)
	for _, q := range []float64{.1, .3, .39, .41, .5, .7} {
		require.Less(t, told(q), told(.4))
	}
	for _, published := range []float64{4, 2 * math.E * math.Ln2, 3.5, 5 * math.Ln2 / math.Log(3)} {
		require.Greater(t, published, 1/told(.4))
	}
}

// TestThreeMultipliers and two adders, A=3 B=2 C=2 D=3 E=3, seen F=10 (should be 12) and G=12
// (de Kleer and Williams, 1987, from memory; numbers computed): probe X first.
func TestThreeMultipliers(t *testing.T) {
	for _, c := range []struct {
		bad     float64
		x, y, z float64
	}{{.01, 1.0408, .0815, .0474}, {.1, 1.2532, .5097, .37}} {
		weights, points := multipliers(c.bad)
		for i, want := range []float64{c.x, c.y, c.z} {
			require.InDelta(t, want, information(weights, probe.Test{Answer: points[i]}), 5e-5)
		}
	}
}

// multipliers gives the sets of broken parts (M1, M2, M3, A1, A2) that explain what is seen,
// with their weights, and what each says at X, Y and Z: 0 nothing is known there, else the value.
func multipliers(bad float64) (weights []float64, points [3][]int) {
	for set := range 32 {
		v, ok := explains(set)
		if !ok {
			continue
		}
		w := 1.0
		for i := range 5 {
			if set>>i&1 == 1 {
				w *= bad
			} else {
				w *= 1 - bad
			}
		}
		weights = append(weights, w)
		for i := range v {
			points[i] = append(points[i], v[i])
		}
	}
	return weights, points
}

// explains says what a set of broken parts makes of X, Y and Z, and whether it explains F and G.
func explains(set int) (v [3]int, ok bool) {
	good := func(i int) bool { return set>>i&1 == 0 }
	for i := range 3 {
		if good(i) {
			v[i] = 6
		}
	}
	for range 2 {
		for a, sum := range []int{10, 12} {
			x, y := &v[a], &v[a+1]
			switch {
			case !good(3 + a):
			case *x != 0 && *y != 0 && *x+*y != sum:
				return v, false
			case *x != 0:
				*y = sum - *x
			case *y != 0:
				*x = sum - *y
			}
		}
	}
	return v, true
}

// TestUnknownIsAnyValue: where some suspects say nothing of a point, of which m values are
// possible, what remains is H + sum p ln p + p(U) ln m (de Kleer and Williams, 1987, the
// formula derived anew for p that holds the unknown's share).
func TestUnknownIsAnyValue(t *testing.T) {
	w := []float64{.5, .3, .2}
	m := 4
	chance := [][]float64{{1, 0, 0, 0}, {0, 1, 0, 0}, {.25, .25, .25, .25}}
	remains := probe.Entropy(w)
	for _, p := range []float64{.55, .35, .05, .05} {
		remains += p * math.Log2(p)
	}
	remains += .2 * math.Log2(float64(m))
	require.InDelta(t, remains, probe.Entropy(w)-probe.Doubtful(w, chance), 1e-12)
}

// random is a problem drawn by lot.
func random(r *rand.Rand, suspects, tests, answers int) probe.Problem {
	var p probe.Problem
	for range suspects {
		p.Weights = append(p.Weights, .1+r.Float64()*10)
	}
	for range tests {
		x := probe.Test{Cost: .5 + float64(r.IntN(6))}
		for range suspects {
			x.Answer = append(x.Answer, r.IntN(answers))
		}
		p.Tests = append(p.Tests, x)
	}
	return p
}

// TestBestIsBest: against trying everything, without bounds, classes or subsets by bits.
func TestBestIsBest(t *testing.T) {
	r := rand.New(rand.NewPCG(7, 1))
	for range 150 {
		p := random(r, 2+r.IntN(6), 1+r.IntN(5), 2+r.IntN(3))
		tree := probe.Best(p)
		ids := make([]int, len(p.Weights))
		sum := 0.0
		for i, w := range p.Weights {
			ids[i] = i
			sum += w
		}
		require.InDelta(t, brute(p, ids)/sum, tree.Cost, 1e-9)
		requireSound(t, p, tree)
	}
}

// brute is the least cost times weight of any tree.
func brute(p probe.Problem, set []int) float64 {
	best, whole := math.Inf(1), 0.0
	for _, i := range set {
		whole += p.Weights[i]
	}
	for _, x := range p.Tests {
		parts := map[int][]int{}
		for _, i := range set {
			parts[x.Answer[i]] = append(parts[x.Answer[i]], i)
		}
		if len(parts) < 2 {
			continue
		}
		cost := x.Cost * whole
		for _, part := range parts {
			cost += brute(p, part)
		}
		best = min(best, cost)
	}
	if math.IsInf(best, 1) {
		return 0
	}
	return best
}

// requireSound: whoever it is, the tree's questions lead to his class.
func requireSound(t *testing.T, p probe.Problem, tree probe.Tree) {
	t.Helper()
	for _, class := range tree.Classes {
		for _, who := range class {
			left := class
			asked := 0
			for n := tree.Root; n != nil; asked++ {
				at := -1
				for i, b := range n.Branches {
					if b.Answer == p.Tests[n.Test].Answer[who] {
						at = i
					}
				}
				require.GreaterOrEqual(t, at, 0)
				left, n = n.Branches[at].Left, n.Branches[at].Next
			}
			require.LessOrEqual(t, asked, tree.Most)
			if tree.Root != nil {
				require.Equal(t, class, left)
			}
		}
	}
}

// TestManySuspects: beyond the limit the tree is sound and near the bound.
func TestManySuspects(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 9))
	for _, n := range []int{17, 40, 120} {
		for range 5 {
			p := random(r, n, 60, 3)
			tree := probe.Best(p)
			requireSound(t, p, tree)
			require.False(t, tree.Exact && len(tree.Classes) > probe.Limit)
			w := make([]float64, len(tree.Classes))
			for i, c := range tree.Classes {
				for _, k := range c {
					w[i] += p.Weights[k]
				}
			}
			require.GreaterOrEqual(t, tree.Mean, probe.Huffman(w, 3)-1e-9)
			require.Less(t, tree.Cost, 1.35*.5*probe.Entropy(w)/math.Log2(3)*4, "the cheapest tests cost half a minute")
		}
	}
}

func TestNothingToAsk(t *testing.T) {
	for _, p := range []probe.Problem{{}, {Weights: equal(1)}, {Weights: equal(3)}, {Weights: equal(2), Tests: []probe.Test{{Cost: 1, Answer: []int{4, 4}}}}} {
		tree := probe.Best(p)
		require.Nil(t, tree.Root)
		require.Zero(t, tree.Mean)
		require.Zero(t, tree.Most)
	}
}

func BenchmarkBest(b *testing.B) {
	for _, n := range []int{8, 16, 40, 120} {
		b.Run(fmt.Sprint(n), func(b *testing.B) {
			p := random(rand.New(rand.NewPCG(1, 1)), n, 60, 3)
			for b.Loop() {
				probe.Best(p)
			}
		})
	}
}
