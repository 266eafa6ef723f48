package table

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/layout/sheet"
)

// rowsOn counts the plain rows of numbered tables part by part.
func rowsOn(parts []Part) []int {
	var out []int
	for _, p := range parts {
		n := 0
		for _, text := range texts(p) {
			if len(text.S) > 3 && text.S[:3] == "row" {
				n++
			}
		}
		out = append(out, n)
	}
	return out
}

func numbered(n int) *Table {
	t := &Table{Columns: []Column{{Title: "No."}, {Title: "What", Weight: 1}}}
	for i := range n {
		t.Rows = append(t.Rows, Texts(fmt.Sprint(i+1), fmt.Sprintf("row %d", i+1)))
	}
	return t
}

// Twenty rows fill a sheet here. One more is drawn in among them; some more than
// closer rows can save stand on a sheet of their own, never fewer than three of them.
func TestNoLoneRowOnALastSheet(t *testing.T) {
	head, row := numbered(1).Height(100), 0.0
	row = numbered(2).Height(100) - head
	area := sheet.Rect{X: 10, Y: 10, W: 100, H: numbered(20).Height(100) + row/10}
	for _, c := range []struct {
		rows int
		want []int
	}{
		{20, []int{20}},
		{21, []int{21}},
		{22, []int{22}},
		{23, []int{20, 3}},
		{24, []int{20, 4}},
		{41, nil}, // what closer rows save is not the point here
		{45, []int{20, 20, 5}},
	} {
		got := rowsOn(numbered(c.rows).Flow(area, area))
		sum := 0
		for _, n := range got {
			sum += n
		}
		require.Equal(t, c.rows, sum, "no row is lost")
		require.GreaterOrEqual(t, got[len(got)-1], min(c.rows, company), c.rows)
		if len(c.want) > 0 {
			require.Equal(t, c.want, got)
		}
	}
}

// Where closer rows do not help, rows leave the sheet before for the last one.
func TestALoneRowGetsCompany(t *testing.T) {
	table := numbered(12)
	for i := range table.Rows {
		table.Rows[i].High = 9 // room to write by hand: nothing to draw closer
	}
	area := sheet.Rect{X: 10, Y: 10, W: 100, H: table.Height(100) - 8}
	require.Equal(t, []int{9, 3}, rowsOn(table.Flow(area, area)))
}
