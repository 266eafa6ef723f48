package ladder_test

import (
	"math"
	"math/bits"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/sizing/ladder"
)

// Against every subset of the kinds, on 400 small instances drawn by lot: the same cost for
// every number of kinds, and the set named costs what is said.
func TestCurveEqualsExhaustiveSearch(t *testing.T) {
	for seed := range uint64(400) {
		r := rand.New(rand.NewPCG(seed, 1))
		n := 1 + r.IntN(8)
		needs, free := drawn(r, n), make([]bool, n)
		for i := range free {
			free[i] = r.IntN(6) == 0
		}
		want := make([]float64, n+1)
		for k := range want {
			want[k] = math.Inf(1)
		}
		for mask := range 1 << n {
			if kinds, counted, ok := subset(mask, free); ok {
				want[counted] = min(want[counted], costOf(kinds, needs))
			}
		}
		got := ladder.Curve(n, needs, free)
		for k := range got {
			require.InDelta(t, 0, diff(want[k], got[k].Cost), 1e-9, "seed %d, %d kinds", seed, k)
			if !math.IsInf(got[k].Cost, 1) {
				require.InDelta(t, got[k].Cost, costOf(got[k].Kinds, needs), 1e-9)
			}
		}
	}
}

func diff(a, b float64) float64 {
	if math.IsInf(a, 1) && math.IsInf(b, 1) {
		return 0
	}
	return a - b
}

func drawn(r *rand.Rand, n int) []ladder.Need {
	var out []ladder.Need
	for range 1 + r.IntN(7) {
		x := ladder.Need{Least: r.IntN(n), Cost: make([]float64, n)}
		x.Most = x.Least + r.IntN(n-x.Least)
		for i, sum := 0, 0.0; i < n; i++ {
			sum += float64(r.IntN(9))
			x.Cost[i] = sum
		}
		out = append(out, x)
	}
	return out
}

func subset(mask int, free []bool) (kinds []int, counted int, ok bool) {
	for i := range free {
		in := mask>>i&1 == 1
		if free[i] && !in {
			return nil, 0, false
		}
		if in {
			kinds = append(kinds, i)
		}
		if in && free[i] {
			counted--
		}
	}
	return kinds, counted + bits.OnesCount(uint(mask)), true
}

func costOf(kinds []int, needs []ladder.Need) float64 {
	sum := 0.0
	for _, x := range needs {
		kind := ladder.Set{Kinds: kinds}.Serving(x)
		if kind < 0 {
			return math.Inf(1)
		}
		sum += x.Cost[kind]
	}
	return sum
}
