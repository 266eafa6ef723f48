package power

import (
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/samples/toy"
	"example.com/loomfolio/sizing/choose/chosen"
	"example.com/loomfolio/sizing/network"
)

func TestDays(t *testing.T) {
	for d, want := range map[float64]string{500: "more than a year", 50: "50 days", 5.25: "5.2 days", 0.5: "12 hours"} {
		require.Equal(t, want, days(d))
	}
}

// TestKeyOffWords names the share of the capacity that the days rest on: 60 Ah at
// 25 mA are 100 days for the whole, 50 for the half.
func TestKeyOffWords(t *testing.T) {
	a := toy.Car(6, 3)
	require.Contains(t, keyOffWords(a, a.R.Budgets[0]), "25 mA, which is 0.60 Ah a day. A full battery of 60 Ah lasts 50 days. Assumed: 50 % of its capacity")
}

// TestSeveralBatteriesAtRest: each is told with its own current and days.
func TestSeveralBatteriesAtRest(t *testing.T) {
	a := toy.Car(6, 3)
	b := a.R.Budgets[0]
	b.Batteries = []chosen.Resting{{Battery: 0, Name: "BAT1", Amps: 0.005, Days: 250}, {Battery: 0, Name: "BAT2", Amps: 0.02, Days: 62.5}}
	words := keyOffWords(a, b)
	require.Contains(t, words, "BAT1 gives 5 mA, 0.12 Ah a day; of 60 Ah it lasts 250 days. BAT2 gives 20 mA, 0.48 Ah a day; of 60 Ah it lasts 62 days.")
	require.Contains(t, words, "50 % of its capacity")
}

// TestDrainTable: each fuse with its milliamperes, share and loads, as the model gives them.
func TestDrainTable(t *testing.T) {
	a := toy.Car(6, 3)
	rows := drainTable(a, a.R.Budgets[0]).Rows
	require.Len(t, rows, 2)
	require.Equal(t, []string{"MF1, 60 A", "20.0", "80", "Radio"}, []string{rows[0].Cells[0].S, rows[0].Cells[1].S, rows[0].Cells[2].S, rows[0].Cells[3].S})
	require.Equal(t, "no fuse", rows[1].Cells[0].S)
}

// TestSolvedWords states what is left over, or that it is below what the solver promises.
func TestSolvedWords(t *testing.T) {
	a := toy.Car(6, 3)
	require.Contains(t, solvedWords(a), "to within 1\u00a0nA")
	a.R.States = append(a.R.States, network.State{Residual: 3e-6})
	require.Contains(t, solvedWords(a), "to within 0.003000\u00a0mA")
}
