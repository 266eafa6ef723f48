package power

import (
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/samples/toy"
)

// TestThickTable: wires of which the same is said share a row, others are not listed.
func TestThickTable(t *testing.T) {
	a := toy.Car(6, 3)
	require.Empty(t, thickTable(a).Rows)
	for _, w := range []int{0, 2} {
		a.R.Wires[w].Loads, a.R.Wires[w].Saves = "2 loads, 115 A", "the fridge is small beside the rest"
	}
	rows := thickTable(a).Rows
	require.Len(t, rows, 1)
	require.Equal(t, a.H.Wires[0].Name+", "+a.H.Wires[2].Name, rows[0].Cells[0].S)
	require.Contains(t, toy.Plain(rows[0].Cells[1].Note), "2 loads, 115 A. The fridge is small beside the rest.")
}
