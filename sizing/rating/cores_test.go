package rating_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/sizing/rating"
	"example.com/loomfolio/sizing/unit"
)

// TestHelix holds the take-up of a twist against one turn rolled out flat: a right
// triangle of the lay and the circumference (elementary geometry). 3-4-5 is exact.
func TestHelix(t *testing.T) {
	for _, c := range []struct{ pitch, lay, want float64 }{
		{30 / math.Pi, 40, 1.25}, // 30, 40, 50
		{20 / math.Pi, 21, 29.0 / 21},
		{1.6, 30.48, 1.013507}, // √(1 + (5.026548 ÷ 30.48)²)
		{1.6, 0, 1},
		{0, 25, 1},
	} {
		require.InDelta(t, c.want, rating.Twisted(unit.Millimetre(c.pitch), unit.Millimetre(c.lay)), 1e-6)
	}
}

// TestPitchCircle: centres of equal circles that touch in a ring (elementary geometry).
func TestPitchCircle(t *testing.T) {
	for n, want := range map[int]float64{1: 0, 2: 1, 3: 2 / math.Sqrt(3), 4: math.Sqrt2, 6: 2} {
		require.InDelta(t, want, float64(rating.PitchCircle(1, n)), 1e-12, n)
	}
}

// TestLay: FAA AC 43.13-1B, twists per foot, from memory: 20 gauge 10 for two wires
// and for three, 16 gauge 8 and 7, 10 gauge 6.5 and 5.5.
func TestLay(t *testing.T) {
	for _, c := range []struct {
		area       unit.SquareMillimetre
		two, three float64
	}{{0.52, 10, 10}, {1.31, 8, 7}, {5.26, 6.5, 5.5}, {0.1, 10, 10}, {70, 4, 3}} {
		lay, key := rating.Lay(c.area, 2)
		require.InDelta(t, 304.8/c.two, float64(lay), 1e-9)
		require.Equal(t, "ac43-twist", key)
		lay, _ = rating.Lay(c.area, 3)
		require.InDelta(t, 304.8/c.three, float64(lay), 1e-9)
	}
}

// TestCoreOrders: DIN 47100, base and ring, as two cable makers' pages print it; ISO 1724
// (12N), colours and sizes as a cable maker's table has them.
func TestCoreOrders(t *testing.T) {
	require.Equal(t, []string{"din-47100", "iso-1724"}, rating.CoreOrders())
	din := rating.Cores("din-47100")
	require.Len(t, din, 44)
	for number, want := range map[int]string{1: "WH", 2: "BN", 3: "GN", 4: "YE", 5: "GY", 6: "PK", 7: "BU", 8: "RD", 9: "BK", 10: "VT",
		11: "GY/PK", 12: "RD/BU", 13: "WH/GN", 14: "BN/GN", 23: "WH/RD", 30: "YE/PK", 44: "RD/BK"} {
		require.Equal(t, number, din[number-1].Number)
		require.Equal(t, want, din[number-1].Colour, number)
	}
	seen := map[string]bool{}
	for _, c := range din {
		require.False(t, seen[c.Colour], c.Colour)
		seen[c.Colour] = true
	}
	trailer := rating.Cores("iso-1724")
	require.Len(t, trailer, 7)
	require.Equal(t, rating.Core{Number: 3, Mark: "31", Colour: "WH", Size: unit.Gauge{System: unit.Metric, Size: "2.5"}, Source: "iso-1724"}, trailer[2])
	require.Equal(t, rating.Core{Number: 7, Mark: "58L", Colour: "BK", Size: unit.Gauge{System: unit.Metric, Size: "1.5"}, Source: "iso-1724"}, trailer[6])
	require.Empty(t, rating.Cores("none"))
}
