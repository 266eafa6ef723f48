package cutting

import (
	"math/rand"
	"testing"

	"github.com/stretchr/testify/require"
)

// sound holds a plan to its promises.
func sound(t *testing.T, p Problem, plan Plan) {
	cut := map[int]int{}
	left := map[int]int{}
	for _, l := range p.Left {
		left[l]++
	}
	bought := 0
	for _, l := range plan.Lengths {
		used := 0
		require.NotEmpty(t, l.Cuts)
		for _, i := range l.Cuts {
			cut[i]++
			used += p.Pieces[i]
		}
		require.Equal(t, l.Whole-used, l.Over)
		require.GreaterOrEqual(t, l.Over, 0)
		if l.Left {
			left[l.Whole]--
			require.GreaterOrEqual(t, left[l.Whole], 0, "a left-over is used once")
			continue
		}
		bought += l.Whole
		if len(p.Sold.Lengths) > 0 {
			require.Contains(t, p.Sold.Lengths, l.Whole)
		} else {
			require.Zero(t, l.Whole%max(p.Sold.Step, 1))
		}
	}
	for _, i := range plan.TooLong {
		cut[i]++
	}
	require.Len(t, cut, len(p.Pieces))
	for i, n := range cut {
		require.Equal(t, 1, n, "piece %d", i)
	}
	require.Equal(t, bought, plan.Bought)
	require.LessOrEqual(t, plan.Bound, plan.Bought)
	require.Equal(t, plan.Exact, plan.Bound == plan.Bought)
}

// exhaustive tries every way to cut, and gives the least that is bought.
func exhaustive(p Problem) int {
	best := 1 << 40
	type bin struct{ room, whole int }
	var place func(i int, bins []bin, bought int)
	place = func(i int, bins []bin, bought int) {
		if bought >= best {
			return
		}
		if i == len(p.Pieces) {
			best = bought
			return
		}
		for b := range bins {
			if bins[b].room >= p.Pieces[i] {
				bins[b].room -= p.Pieces[i]
				place(i+1, bins, bought)
				bins[b].room += p.Pieces[i]
			}
		}
		for _, l := range p.Sold.Lengths {
			if l >= p.Pieces[i] {
				place(i+1, append(append([]bin(nil), bins...), bin{l - p.Pieces[i], l}), bought+l)
			}
		}
	}
	var left []bin
	for _, l := range p.Left {
		left = append(left, bin{l, l})
	}
	place(0, left, 0)
	return best
}

func small(seed int64) Problem {
	r := rand.New(rand.NewSource(seed))
	p := Problem{Sold: Sold{Lengths: [][]int{{1000}, {500, 1200}, {600, 1000, 1500}}[r.Intn(3)]}}
	for range 1 + r.Intn(7) {
		p.Pieces = append(p.Pieces, 20*(1+r.Intn(25)))
	}
	for range r.Intn(3) {
		p.Left = append(p.Left, 50*(1+r.Intn(14)))
	}
	return p
}

func TestSmallOnesAreTheLeast(t *testing.T) {
	for seed := range int64(300) {
		p := small(seed)
		plan := Solve(p)
		sound(t, p, plan)
		require.Equal(t, exhaustive(p), plan.Bought, "%+v", p)
		require.True(t, plan.Exact, "%+v", p)
	}
}

func large(seed int64, n int) Problem {
	r := rand.New(rand.NewSource(seed))
	p := Problem{Sold: Sold{Lengths: []int{5000, 10000, 25000}}}
	for range n {
		p.Pieces = append(p.Pieces, 5*(20+r.Intn(700)))
	}
	for range n / 20 {
		p.Left = append(p.Left, 10*(30+r.Intn(500)))
	}
	return p
}

func TestLargeOnesComeWithinThreePercentOfTheBound(t *testing.T) {
	for seed := range int64(20) {
		for _, n := range []int{20, 60, 200} {
			p := large(seed, n)
			plan := Solve(p)
			sound(t, p, plan)
			require.LessOrEqual(t, float64(plan.Bought), 1.03*float64(plan.Bound), "%d pieces, seed %d", n, seed)
		}
	}
}

// Wire by the metre: one length, and no left-over wasted where it saves a metre.
func TestByTheMetre(t *testing.T) {
	p := Problem{Pieces: []int{735, 1575, 105, 840}, Sold: Sold{Step: 1000}}
	plan := Solve(p)
	sound(t, p, plan)
	require.Equal(t, 4000, plan.Bought)
	require.Len(t, plan.Lengths, 1)
	require.Equal(t, []int{1, 3, 0, 2}, plan.Lengths[0].Cuts, "the longest first")
	require.Equal(t, 745, plan.Lengths[0].Over)

	p.Left = []int{300, 900}
	plan = Solve(p)
	sound(t, p, plan)
	require.Equal(t, 3000, plan.Bought, "the left-over of 900 takes 840 or 735 and 105")

	p.Left = []int{4000}
	plan = Solve(p)
	sound(t, p, plan)
	require.Zero(t, plan.Bought)
	require.True(t, plan.Lengths[0].Left)
}

func TestTooLongAndNothing(t *testing.T) {
	p := Problem{Pieces: []int{900, 1100}, Sold: Sold{Lengths: []int{1000}}}
	plan := Solve(p)
	sound(t, p, plan)
	require.Equal(t, []int{1}, plan.TooLong)
	require.Equal(t, 1000, plan.Bought)
	require.Empty(t, Solve(Problem{}).Lengths)
}

func TestSamePlan(t *testing.T) { require.Equal(t, Solve(large(4, 120)), Solve(large(4, 120))) }

func BenchmarkSolve(b *testing.B) {
	for _, n := range []int{10, 100, 400} {
		b.Run(map[int]string{10: "10", 100: "100", 400: "400"}[n], func(b *testing.B) {
			p := large(1, n)
			for b.Loop() {
				Solve(p)
			}
		})
	}
}
