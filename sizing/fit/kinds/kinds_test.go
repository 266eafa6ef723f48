package kinds_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/sizing/fit/kinds"
)

// Against every set of kinds, on 300 small instances drawn by lot: the least weight, of those
// the least cost; what nothing serves is left alone.
func TestPickEqualsExhaustiveSearch(t *testing.T) {
	for seed := range uint64(300) {
		r := rand.New(rand.NewPCG(seed, 2))
		weights, needs := drawn(r)
		weight, cost := best(weights, needs)
		used := map[int]bool{}
		gotWeight, gotCost := 0.0, 0.0
		for i, k := range kinds.Pick(weights, needs) {
			if k < 0 {
				require.Empty(t, needs[i])
				continue
			}
			require.Contains(t, needs[i], k)
			gotCost += needs[i][k]
			if !used[k] {
				used[k], gotWeight = true, gotWeight+weights[k]
			}
		}
		require.InDelta(t, weight, gotWeight, 1e-9, "seed %d", seed)
		require.InDelta(t, cost, gotCost, 1e-9, "seed %d", seed)
	}
}

func drawn(r *rand.Rand) ([]float64, []kinds.Need) {
	weights := make([]float64, 1+r.IntN(7))
	for k := range weights {
		weights[k] = float64(1 + r.IntN(2))
	}
	needs := make([]kinds.Need, 1+r.IntN(7))
	for i := range needs {
		needs[i] = kinds.Need{}
		for k := range weights {
			if r.IntN(2) == 0 {
				needs[i][k] = float64(r.IntN(9))
			}
		}
	}
	return weights, needs
}

func best(weights []float64, needs []kinds.Need) (weight, cost float64) {
	weight, cost = math.Inf(1), math.Inf(1)
	for mask := range 1 << len(weights) {
		w, c, serves := sums(mask, weights, needs)
		if serves && (w < weight || w == weight && c < cost) {
			weight, cost = w, c
		}
	}
	return weight, cost
}

func sums(mask int, weights []float64, needs []kinds.Need) (w, c float64, serves bool) {
	for k := range weights {
		if mask>>k&1 == 1 {
			w += weights[k]
		}
	}
	for _, x := range needs {
		least := math.Inf(1)
		for k, cost := range x {
			if mask>>k&1 == 1 {
				least = math.Min(least, cost)
			}
		}
		if len(x) > 0 {
			c += least
		}
	}
	return w, c, !math.IsInf(c, 1)
}
