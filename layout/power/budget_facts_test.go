package power

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/layout/page"
	"example.com/loomfolio/samples/toy"
)

// TestEveryLoadOnALine: each load once, with what it runs at, starts with, its fuse, its lowest
// voltage, its drop and limit; those that share a line have all of these alike.
func TestEveryLoadOnALine(t *testing.T) {
	for name, a := range toy.Samples(t) {
		said := toy.Squeezed(toy.Words(LoadBudget(a)))
		seen := map[string]bool{}
		for _, group := range alike(a) {
			row := loadRow(a, group)
			for _, l := range group {
				require.False(t, seen[l.Name], l.Name)
				seen[l.Name] = true
				word, _, _ := strings.Cut(a.LoadWords(l.Name), " ")
				require.Contains(t, row.Cells[0].S, word, name)
				require.Equal(t, page.Amps(float64(l.Amps)), row.Cells[1].S)
				require.Equal(t, page.Figure(float64(l.Volts), 2), strings.Fields(row.Cells[4].S)[0])
				require.Contains(t, row.Cells[5].S, page.Figure(float64(l.FeedDrop+l.ReturnDrop), 2)+" of "+page.Figure(float64(l.Limit), 2))
				require.Equal(t, page.Or(l.ProtectedBy, "none"), row.Cells[3].S)
			}
			for _, i := range []int{0, 1, 2, 3, 4, 5} {
				require.Contains(t, said, toy.Squeezed(row.Cells[i].S), name)
			}
		}
		require.Len(t, seen, len(a.R.Loads), name)
	}
}

// TestEveryStateHasItsSums: loads on, loads, what battery and alternator give, what is to spare, and its switches.
func TestEveryStateHasItsSums(t *testing.T) {
	for name, a := range toy.Samples(t) {
		said := toy.Squeezed(toy.Words(LoadBudget(a)))
		rows := stateTable(a).Rows
		require.Len(t, rows, len(a.R.Budgets))
		for i, b := range a.R.Budgets {
			state := a.H.States[b.State]
			require.Contains(t, said, toy.Squeezed(a.Settings(state)), "%s: %s", name, state.Name)
			for _, c := range rows[i].Cells {
				require.Contains(t, said, toy.Squeezed(c.S), name)
			}
			require.Equal(t, page.Amps(float64(b.Loads)), rows[i].Cells[3].S)
			if b.Alternator > 0 {
				require.Contains(t, toy.Plain(rows[i].Cells[5].S), " of "+page.Amps(float64(b.Alternator)))
			}
		}
	}
}

// TestSheetsOfTheLoadBudget: one line a load, so that a whole car takes two sheets.
func TestSheetsOfTheLoadBudget(t *testing.T) {
	for name, a := range toy.Samples(t) {
		most := map[string]int{"first": 1, "tender": 1, "camper": 2, "kestrel": 2}[name]
		require.LessOrEqual(t, len(LoadBudget(a)), most, name)
	}
}
