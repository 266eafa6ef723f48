package track

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/layout/sheet"
)

// TestArrangeAndPack: a wire whose level piece would lie on another's stands to its left, and
// those that overlap have tracks of their own.
func TestArrangeAndPack(t *testing.T) {
	runs := Arrange([]Run{New(0, []float64{0}, []float64{10}), New(1, []float64{10}, []float64{20}), New(2, []float64{40}, []float64{50})}, 1)
	at := func(seg int) int { return slices.IndexFunc(runs, func(r Run) bool { return r.Seg == seg }) }
	require.Less(t, at(1), at(0))
	require.Equal(t, 2, Pack(runs, 1))
	require.Zero(t, runs[at(1)].Track)
	require.Equal(t, 1, runs[at(0)].Track)
	require.Zero(t, runs[at(2)].Track)
}

// TestUntie leads one of two wires that change places over a level piece at a free height.
func TestUntie(t *testing.T) {
	ring := []Run{New(0, []float64{10}, []float64{20}), New(1, []float64{20}, []float64{10})}
	require.Len(t, leftOver(ring, 1), 2)
	runs := Untie(ring, []float64{10, 20, 20, 10}, 1, 1)
	require.Len(t, runs, 3)
	require.Empty(t, leftOver(runs, 1))
	require.True(t, runs[0].Half && runs[2].Second)
	require.Equal(t, runs[0].Right, runs[2].Left)
}

func TestTidy(t *testing.T) {
	require.Equal(t, []sheet.Point{{}, {X: 5}, {X: 5, Y: 3}},
		Tidy([]sheet.Point{{}, {X: 2}, {X: 2}, {X: 5}, {X: 5, Y: 1}, {X: 5, Y: 3}}))
}
