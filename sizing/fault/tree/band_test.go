package tree_test

import (
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/sizing/fault/tree"
	"example.com/loomfolio/sizing/unit"
)

// TestBands: full, low by a joint that costs three tenths, some, none and negative; what is
// nearer than a tenth of the higher reading is one answer.
func TestBands(t *testing.T) {
	readings := []float64{12.6, 8.7, 0, 12.1, 4.1, -12.6, 0.05, 11.6}
	bands, at := tree.Bands(readings, 12.6)
	require.Equal(t, []int{4, 3, 1, 4, 2, 0, 1, 4}, at)
	var says []string
	for i, b := range bands {
		says = append(says, b.Says)
		require.Less(t, b.Low, b.High)
		if i > 0 {
			require.Equal(t, bands[i-1].High, b.Low, "no reading between two answers is left over")
		}
	}
	require.Equal(t, []string{"negative", "none", "some", "low", "full"}, says)
	require.Equal(t, unit.Volt(10), bands[4].Low, "a round figure where the gap is wide")
	for i, v := range readings {
		require.Equal(t, at[i], tree.At(bands, v))
	}
	require.Equal(t, -1, tree.At(bands, 20))
}

// TestAMeterFindsTheBand: a reading as the cheapest meters show it (0.5 % and 2 digits of
// 0.01 V; their manuals), rounded, lies in its band.
func TestAMeterFindsTheBand(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2))
	for range 2000 {
		readings := make([]float64, 2+r.IntN(6))
		for i := range readings {
			readings[i] = r.Float64()*15 - 2
		}
		bands, at := tree.Bands(readings, 12.6)
		for i, v := range readings {
			wrong := (2*r.Float64() - 1) * (.005*max(v, -v) + .02)
			shown := float64(int((v+wrong+100)*100+.5))/100 - 100
			require.Equal(t, at[i], tree.At(bands, shown), "%v shows %v in %v", v, shown, bands)
		}
	}
}

// TestGroupsAreThoseOfSorting: readings in any order are joined as they are when sorted and
// parted at every gap.
func TestGroupsAreThoseOfSorting(t *testing.T) {
	r := rand.New(rand.NewPCG(4, 4))
	for range 2000 {
		readings := make([]float64, 1+r.IntN(30))
		for i := range readings {
			readings[i] = float64(r.IntN(300))/20 - 3
		}
		_, at := tree.Bands(readings, 12.6)
		sorted := slices.Sorted(slices.Values(readings))
		k := 0
		for i, v := range sorted {
			if i > 0 && v-sorted[i-1] >= tree.Apart(sorted[i-1], v) {
				k++
			}
			require.Equal(t, k, at[slices.Index(readings, v)], "%v in %v", v, sorted)
		}
	}
}
