package page

import (
	"math"

	"example.com/loomfolio/layout/sheet"
	"example.com/loomfolio/layout/table"
)

// ColumnGap is the white between two columns of a sheet, mm.
const ColumnGap = 6

// leastColumn is how high a column is at least, mm; where less is left the columns
// begin on the next sheet.
const leastColumn = 30

// columns are those that a book is being filled in; none while n is below 2.
type columns struct {
	n, at   int
	band    sheet.Rect // all columns of this sheet
	deepest float64    // of the columns before this one
}

// Columns lets what follows flow down n columns, one after the other and sheet by sheet. Columns(1)
// ends that: what follows then goes on over the whole width, under the deepest column.
func (b *Book) Columns(n int) {
	if c := b.columns; c.n > 1 {
		b.Room = c.band.Below(b.deepest())
		b.columns = columns{}
	}
	if n < 2 {
		return
	}
	if b.Room.H < leastColumn && !b.Fresh() {
		b.Turn()
	}
	b.columns = columns{n: n}
	b.columns.restart(b)
}

// ColumnWide is the width of one of n columns of the room.
func (b *Book) ColumnWide(n int) float64 { return ColumnWide(b.Room.W, n, ColumnGap) }

func columnOf(band sheet.Rect, n, i int) sheet.Rect {
	w := ColumnWide(band.W, n, ColumnGap)
	return sheet.Rect{X: band.X + (w+ColumnGap)*float64(i), Y: band.Y, W: w, H: band.H}
}

// restart begins the first column of what is left of the sheet.
func (c *columns) restart(b *Book) {
	if c.n < 2 {
		return
	}
	c.at, c.band, c.deepest = 0, b.Room, b.Room.Y
	b.start(columnOf(c.band, c.n, 0))
}

// next goes to the next column of this sheet, if there is one.
func (c *columns) next(b *Book) bool {
	if c.n < 2 || c.at+1 >= c.n {
		return false
	}
	c.deepest = math.Max(c.deepest, b.Room.Y)
	c.at++
	b.start(columnOf(c.band, c.n, c.at))
	return true
}

// first is the first column of an area, the area itself where there are none.
func (c *columns) first(area sheet.Rect) sheet.Rect {
	if c.n < 2 {
		return area
	}
	return columnOf(area, c.n, 0)
}

// deepest is where what stands on the sheet ends.
func (b *Book) deepest() float64 {
	if b.columns.n > 1 {
		return math.Max(b.columns.deepest, b.Room.Y)
	}
	return b.Room.Y
}

// areas are what a table fills from here on: the room left, the columns after it, those of further sheets.
func (b *Book) areas() table.Areas {
	c := b.columns
	rest := b.Rest()
	if c.n < 2 {
		return func(i int) sheet.Rect {
			if i == 0 {
				return b.Room
			}
			return rest
		}
	}
	room := b.Room
	var unseen sheet.Canvas
	whole := b.Frame.Running(&unseen, b.name+", continued")
	return func(i int) sheet.Rect {
		switch at := c.at + i; {
		case i == 0:
			return room
		case at < c.n:
			return columnOf(c.band, c.n, at)
		default:
			return columnOf(whole, c.n, at%c.n)
		}
	}
}

// Spread sets a table in n columns that end at one height, as far as its rows allow, and goes
// on under them over the whole width. It begins on the next sheet where less than so much height is left.
func (b *Book) Spread(t *table.Table, n int, least float64) {
	b.Need(math.Max(least, leastColumn))
	b.Columns(n)
	set := t.Settle(b.Room.W)
	areas := b.areas()
	first := (len(set.Measure(areas)) - 1) / n * n // of the last sheet's columns
	low, high := 0.0, areas(first).H
	if first == 0 && set.Height() < high*float64(n) {
		low = set.Height() / float64(n) / 2
	}
	for high-low > 1 {
		mid := (low + high) / 2
		if even := set.Measure(lowered(areas, first, mid)); len(even) <= first+n && within(even, areas, first, mid) {
			high = mid
		} else {
			low = mid
		}
	}
	b.pour(set.FlowIn(lowered(areas, first, high)))
	b.Columns(1)
}

// lowered are areas of which those from one on are at most so high.
func lowered(areas table.Areas, from int, high float64) table.Areas {
	return func(i int) sheet.Rect {
		r := areas(i)
		if i >= from {
			r.H = math.Min(r.H, high)
		}
		return r
	}
}

// within tells whether the parts from one on keep within a height; a row that fits nowhere stands out.
func within(parts []table.Part, areas table.Areas, from int, high float64) bool {
	for i := from; i < len(parts); i++ {
		if parts[i].Bottom > areas(i).Y+high+1e-6 {
			return false
		}
	}
	return true
}
