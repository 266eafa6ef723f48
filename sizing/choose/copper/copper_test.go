package copper

import (
	"math"
	"math/rand"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"
)

// exhaustive tries every set of steps: the least mass of those that meet all
// that the highest steps meet, and that have the least violation of the rest.
func exhaustive(p *Problem) float64 {
	n := len(p.Groups)
	step := make([]int, n)
	for g := range step {
		step[g] = len(p.Groups[g]) - 1
	}
	limit := make([]float64, len(p.Demands))
	for d := range limit {
		limit[d] = max(p.Drop(d, step), p.Demands[d].Limit+p.Demands[d].room())
	}
	best := math.Inf(1)
	var try func(g int, mass float64)
	try = func(g int, mass float64) {
		if mass >= best {
			return
		}
		if g == n {
			for d := range limit {
				if p.Drop(d, step) > limit[d] {
					return
				}
			}
			best = mass
			return
		}
		for i := p.Floor[g]; i < len(p.Groups[g]); i++ {
			step[g] = i
			try(g+1, mass+p.Groups[g][i].Mass)
		}
	}
	try(0, 0)
	return best
}

// small makes up to six wires of part of the ISO ladder, and up to six demands
// on any of them; one in eight cannot be met.
func small(r *rand.Rand) Problem {
	var p Problem
	groups := 1 + r.Intn(6)
	for range groups {
		first := r.Intn(6)
		p.Groups = append(p.Groups, wires(0.2 + 4*r.Float64())[first:first+9])
		p.Floor = append(p.Floor, r.Intn(4))
	}
	amps := 0.5 + 12*r.Float64()
	for range 1 + r.Intn(6) {
		d := Demand{Limit: 0.15 + r.Float64()}
		if r.Intn(8) == 0 {
			d.Limit /= 20
		}
		for _, g := range r.Perm(groups)[:1+r.Intn(groups)] {
			d.Terms = append(d.Terms, Term{g, amps * (0.2 + r.Float64())})
		}
		p.Demands = append(p.Demands, d)
	}
	return p
}

// tree makes a feed that all share, branches, and a return that some share.
func tree(r *rand.Rand) Problem {
	var p Problem
	for range 6 {
		p.Groups = append(p.Groups, wires(0.3 + 4*r.Float64())[:9])
		p.Floor = append(p.Floor, r.Intn(3))
	}
	loads := []float64{0.5 + 5*r.Float64(), 0.5 + 5*r.Float64(), 0.5 + 5*r.Float64(), 0.5 + 5*r.Float64()}
	for state := 1; state < 16; state++ {
		feed, back := 0.0, 0.0
		for i, a := range loads {
			if state>>i&1 == 1 {
				feed += a
				if i < 2 {
					back += a
				}
			}
		}
		for i, a := range loads {
			if state>>i&1 == 0 {
				continue
			}
			d := Demand{Limit: 0.36 + 0.2*float64(i%2), Terms: []Term{{0, feed}, {1 + i, a}}}
			if i < 2 {
				d.Terms = append(d.Terms, Term{5, back})
			}
			p.Demands = append(p.Demands, d)
		}
	}
	return p
}

// fewer is how many of the generated problems are tried: a fifth where time is short.
func fewer(n int) int {
	if testing.Short() {
		return n / 5
	}
	return n
}

func TestNothingIsLighterOnSmallProblems(t *testing.T) {
	r := rand.New(rand.NewSource(11))
	hopeless := 0
	for k := range fewer(600) {
		p := small(r)
		if k%3 == 0 {
			p = tree(r)
		}
		if k%2 == 0 {
			p = warm(p, r, 7)
		}
		got := Least(p)
		best := exhaustive(&p)
		require.InEpsilon(t, best, got.Mass, 1e-8, "problem %d", k)
		require.True(t, got.Exact, "problem %d", k)
		require.InEpsilon(t, got.Mass, got.Bound, 1e-8)
		requireValid(t, &p, &got)
		for _, met := range got.Met {
			if !met {
				hopeless++
			}
		}
	}
	require.Greater(t, hopeless, fewer(10), "demands that cannot be met are among them")
}

// requireValid checks the figures of a result against the problem.
func requireValid(t *testing.T, p *Problem, r *Result) {
	t.Helper()
	highest, mass := make([]int, len(p.Groups)), 0.0
	for g, sizes := range p.Groups {
		highest[g] = len(sizes) - 1
		require.GreaterOrEqual(t, r.Step[g], p.Floor[g])
		mass += sizes[r.Step[g]].Mass
	}
	require.InDelta(t, mass, r.Mass, 1e-9*mass)
	require.LessOrEqual(t, r.Bound, r.Mass)
	for d := range p.Demands {
		can := p.Demands[d].Meets(p.Drop(d, highest))
		require.Equal(t, can, r.Met[d], "what can be met is met, demand %d", d)
		require.Equal(t, r.Met[d], p.Demands[d].Meets(p.Drop(d, r.Step)))
	}
}

func TestGapOnLargeProblems(t *testing.T) {
	for _, groups := range []int{100, 200, 400, 1000, 1500} {
		if testing.Short() && groups > 400 {
			continue
		}
		for seed := range int64(max(1, 400/groups)) {
			p := randomCar(seed, groups)
			r := Least(p)
			requireValid(t, &p, &r)
			t.Logf("%d groups, %d demands: %.1f g, bound %.1f g, gap %.2f %%, exact %v", groups, len(p.Demands), r.Mass, r.Bound, 100*r.Gap(), r.Exact)
			require.Less(t, r.Gap(), 0.01)
		}
	}
}

func TestGapWithShortWarmLadders(t *testing.T) {
	for _, groups := range []int{60, 100, 200, 400, 1000} {
		if testing.Short() && groups > 200 {
			continue
		}
		for seed := range int64(max(1, 600/groups)) {
			p := warm(randomCar(seed, groups), rand.New(rand.NewSource(seed)), 8)
			r := Least(p)
			requireValid(t, &p, &r)
			t.Logf("%d groups, %d demands: %.1f g, bound %.1f g, gap %.2f %%, exact %v", groups, len(p.Demands), r.Mass, r.Bound, 100*r.Gap(), r.Exact)
			require.Less(t, r.Gap(), map[bool]float64{true: 0.01, false: 0.015}[groups <= 400])
		}
	}
}

func TestSameInputSameResult(t *testing.T) {
	p := randomCar(5, 200)
	require.Equal(t, Least(p), Least(p))
}

// A lower limit, a higher floor or one more demand never makes the least lighter.
func TestHarderIsHeavier(t *testing.T) {
	r := rand.New(rand.NewSource(3))
	for range 100 {
		p := tree(r)
		easy := Least(p)
		p.Demands[r.Intn(len(p.Demands))].Limit *= 0.8
		lower := Least(p)
		require.GreaterOrEqual(t, lower.Mass, easy.Mass*(1-1e-9))
		p.Floor[r.Intn(6)] += 2
		higher := Least(p)
		require.GreaterOrEqual(t, higher.Mass, lower.Mass*(1-1e-9))
		p.Demands = append(p.Demands, Demand{Limit: 0.3, Terms: []Term{{0, 9}, {3, 4}}})
		more := Least(p)
		require.GreaterOrEqual(t, more.Mass, higher.Mass*(1-1e-9))
	}
}

func TestOddInput(t *testing.T) {
	require.Equal(t, Result{Step: []int{}, Exact: true, Met: []bool{}}, Least(Problem{}))
	one := [][]Size{wires(1)}
	for _, c := range []struct {
		name string
		p    Problem
		step int
		met  []bool
	}{
		{"no demand", Problem{Groups: one, Floor: []int{3}}, 3, []bool{}},
		{"no floor given", Problem{Groups: one}, 0, []bool{}},
		{"floor above the ladder", Problem{Groups: one, Floor: []int{99}}, len(iso) - 1, []bool{}},
		{"no terms", Problem{Groups: one, Demands: []Demand{{Limit: 0}, {Limit: -1}}}, 0, []bool{true, false}},
		{"limit not above 0", Problem{Groups: one, Demands: []Demand{{Limit: 0, Terms: []Term{{0, 1}}}}}, len(iso) - 1, []bool{false}},
		{"no current", Problem{Groups: one, Demands: []Demand{{Limit: 1, Terms: []Term{{0, 0}, {0, -3}}}}}, 0, []bool{true}},
		{"no such group", Problem{Groups: one, Demands: []Demand{{Limit: 1, Terms: []Term{{7, 1}, {-1, 1}}}}}, 0, []bool{true}},
		{"not a number", Problem{Groups: one, Demands: []Demand{{Limit: math.NaN(), Terms: []Term{{0, 1}}}}}, len(iso) - 1, []bool{false}},
		{"no limit", Problem{Groups: one, Demands: []Demand{{Limit: math.Inf(1), Terms: []Term{{0, 1}}}}}, 0, []bool{true}},
		{"a group named twice", Problem{Groups: one, Demands: []Demand{{Limit: 0.0372, Terms: []Term{{0, 1}, {0, 1}}}}}, 3, []bool{true}},
		{"exactly the limit", Problem{Groups: one, Demands: []Demand{{Limit: 10 * wires(1)[7].Ohms, Terms: []Term{{0, 10}}}}}, 7, []bool{true}},
	} {
		r := Least(c.p)
		require.Equal(t, []int{c.step}, r.Step, c.name)
		require.Equal(t, c.met, r.Met, c.name)
		require.True(t, r.Exact, c.name)
		require.InDelta(t, one[0][c.step].Mass, r.Mass, 1e-12, c.name)
	}
	r := Least(Problem{Groups: [][]Size{nil, wires(1)}, Floor: []int{0, 2}, Demands: []Demand{{Limit: 1, Terms: []Term{{0, 5}, {1, 5}}}}})
	require.Equal(t, []int{0, 2}, r.Step, "a group without sizes")
}

// A size that is no better in ohms than a lighter one is never taken.
func TestUselessSizes(t *testing.T) {
	p := Problem{
		Groups:  [][]Size{{{1, 4}, {2, 5}, {3, 2}, {2.5, 2}, {9, 1}}},
		Demands: []Demand{{Limit: 2, Terms: []Term{{0, 1}}}},
	}
	r := Least(p)
	require.Equal(t, []int{3}, r.Step)
	require.True(t, r.Exact)
}

func BenchmarkLeast(b *testing.B) {
	for _, groups := range []int{10, 100, 1000} {
		b.Run(map[int]string{10: "10 groups", 100: "100 groups", 1000: "1000 groups"}[groups], func(b *testing.B) {
			p := randomCar(1, groups)
			for b.Loop() {
				Least(p)
			}
		})
	}
}

// lighter looks for any valid set under a mass, by nothing but depth first
// search that gives up a branch when its mass, or a drop with all later groups
// on their highest step, is too much already. Every demand must be one that can
// be met.
func lighter(p *Problem, mass float64) bool {
	n := len(p.Groups)
	rest, step := make([]float64, n+1), make([]int, n)
	for g := n - 1; g >= 0; g-- {
		rest[g] = rest[g+1] + p.Groups[g][p.Floor[g]].Mass
		step[g] = len(p.Groups[g]) - 1
	}
	var try func(g int, sum float64) bool
	try = func(g int, sum float64) bool {
		if g == n {
			return true
		}
		top := len(p.Groups[g]) - 1
		for step[g] = top; step[g] >= p.Floor[g]; step[g]-- {
			if sum+p.Groups[g][step[g]].Mass+rest[g+1] >= mass {
				continue
			}
			if !meetsAll(p, step) {
				break
			}
			if try(g+1, sum+p.Groups[g][step[g]].Mass) {
				return true
			}
		}
		step[g] = top
		return false
	}
	return try(0, 0)
}

func meetsAll(p *Problem, step []int) bool {
	for d := range p.Demands {
		if !p.Demands[d].Meets(p.Drop(d, step)) {
			return false
		}
	}
	return true
}

func TestNothingIsLighterOnSmallCars(t *testing.T) {
	for seed := range int64(fewer(100)) {
		p := randomCar(seed, 6+int(seed%4))
		if seed%2 == 1 {
			p = warm(p, rand.New(rand.NewSource(seed)), 9)
		}
		r := Least(p)
		require.True(t, r.Exact, seed)
		requireValid(t, &p, &r)
		if slices.Contains(r.Met, false) {
			continue
		}
		require.False(t, lighter(&p, r.Mass*(1-1e-8)), "seed %d", seed)
		require.True(t, lighter(&p, r.Mass*(1+1e-8)), "seed %d: the search finds the set itself", seed)
	}
}

// shuffled is the same problem with its groups and demands in another order.
func shuffled(p *Problem, r *rand.Rand) Problem {
	q := Problem{Groups: make([][]Size, len(p.Groups)), Floor: make([]int, len(p.Groups))}
	to := r.Perm(len(p.Groups))
	for g, sizes := range p.Groups {
		q.Groups[to[g]], q.Floor[to[g]] = sizes, p.Floor[g]
	}
	for _, d := range r.Perm(len(p.Demands)) {
		e := Demand{Limit: p.Demands[d].Limit}
		for _, t := range p.Demands[d].Terms {
			e.Terms = append(e.Terms, Term{to[t.Group], t.Amps})
		}
		q.Demands = append(q.Demands, e)
	}
	return q
}

// The search goes another way through a problem in another order: no bound may
// stand above a mass that the other found.
func TestOrderDoesNotMatter(t *testing.T) {
	r := rand.New(rand.NewSource(2))
	exact := 0
	for seed := range int64(20) {
		p := randomCar(seed, 20+int(seed)*4)
		if seed%2 == 1 {
			p = warm(p, r, 9)
		}
		q := shuffled(&p, r)
		a, b := Least(p), Least(q)
		require.LessOrEqual(t, a.Bound, b.Mass*(1+2e-9), "seed %d", seed)
		require.LessOrEqual(t, b.Bound, a.Mass*(1+2e-9), "seed %d", seed)
		if a.Exact && b.Exact {
			exact++
		}
	}
	t.Logf("%d of 20 proven both ways", exact)
	require.Greater(t, exact, 15)
}
