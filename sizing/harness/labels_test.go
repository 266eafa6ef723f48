package harness

import (
	"testing"

	"github.com/stretchr/testify/require"
)

// TestLabelsLieInRows: across, then down, then on a further sheet; those that are used
// up are passed over on the first sheet alone.
func TestLabelsLieInRows(t *testing.T) {
	s := LabelSheet{Across: 4, Down: 16, Wide: 45.7, High: 16.9, Left: 8.5, Top: 13, PitchAcross: 48.2, PitchDown: 16.9, First: 7}
	at := func(i int) [3]float64 {
		n, x, y := s.At(i)
		return [3]float64{float64(n), float64(x), float64(y)}
	}
	require.InDeltaSlice(t, []float64{0, 8.5 + 2*48.2, 13 + 16.9}, sliced(at(0)), 1e-9)
	require.InDeltaSlice(t, []float64{0, 8.5, 13 + 2*16.9}, sliced(at(2)), 1e-9)
	require.InDeltaSlice(t, []float64{0, 8.5 + 3*48.2, 13 + 15*16.9}, sliced(at(57)), 1e-9)
	require.InDeltaSlice(t, []float64{1, 8.5, 13}, sliced(at(58)), 1e-9)
	for n, sheets := range map[int]int{0: 0, 1: 1, 58: 1, 59: 2, 122: 2, 123: 3} {
		require.Equal(t, sheets, s.Count(n), n)
	}
	s.Clear = 5
	require.InDelta(t, 11.9, float64(s.Printed()), 1e-9)
}

func sliced(x [3]float64) []float64 { return x[:] }
