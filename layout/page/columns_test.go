package page

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/layout/frame"
	"example.com/loomfolio/layout/sheet"
	"example.com/loomfolio/layout/table"
)

func numbered(n int) *table.Table {
	t := &table.Table{Columns: []table.Column{{Title: "No."}, {Title: "What", Weight: 1}}}
	for i := range n {
		t.Rows = append(t.Rows, table.Texts(fmt.Sprint(i+1), fmt.Sprintf("row %d", i+1)))
	}
	return t
}

func opened(t *testing.T) *Book {
	t.Helper()
	f, err := frame.Of("A4", false)
	require.NoError(t, err)
	return Open(f, "Index", "sheet/index", "")
}

// rows gives where the rows of numbered tables stand on a page, in their order.
func rows(p frame.Page) (at []sheet.Point) {
	for _, m := range p.Marks {
		if x, ok := m.(sheet.Text); ok && len(x.S) > 4 && x.S[:4] == "row " {
			at = append(at, sheet.Point{X: x.X, Y: x.Y})
		}
	}
	return at
}

func TestColumnsAreFilledOneAfterTheOther(t *testing.T) {
	b := opened(t)
	b.Columns(2)
	b.Table(numbered(60))
	b.Columns(1)
	pages := b.Close()
	require.Len(t, pages, 1)
	at := rows(pages[0])
	require.Len(t, at, 60)
	left, right := 0, 0
	for _, p := range at {
		if p.X < at[0].X+20 {
			left++
		} else {
			right++
		}
	}
	require.Greater(t, left, right)
	require.Equal(t, at[0].Y, at[left].Y, "both columns begin at one height")
	require.Greater(t, pages[0].Bottom, at[left-1].Y, "the sheet ends under the deeper column")
}

func TestColumnsGoOnOnFurtherSheets(t *testing.T) {
	b := opened(t)
	b.Columns(3)
	b.Table(numbered(300))
	sum := 0
	pages := b.Close()
	for _, p := range pages {
		sum += len(rows(p))
	}
	require.Equal(t, 300, sum)
	require.Len(t, pages, 3)
}

// TestASpreadTableEndsAtOneHeight: its columns differ by few rows, and what follows has the rest
// of the sheet.
func TestASpreadTableEndsAtOneHeight(t *testing.T) {
	for _, n := range []int{2, 9, 20, 31, 70, 95, 140} {
		b := opened(t)
		b.Spread(numbered(n), 2, 0)
		pages := b.Close()
		last := rows(pages[len(pages)-1])
		left, right := 0, 0
		for _, p := range last {
			if p.X < last[0].X+20 {
				left++
			} else {
				right++
			}
		}
		require.InDelta(t, left, right, 4, "%d rows: %d and %d", n, left, right)
		sum := 0
		for _, p := range pages {
			sum += len(rows(p))
		}
		require.Equal(t, n, sum)
	}
}

func TestABookTellsWhereItEnds(t *testing.T) {
	b := opened(t)
	b.Table(numbered(5))
	p := b.Close()[0]
	last := rows(p)[4].Y
	require.InDelta(t, last+4, p.Bottom, 3)
}
