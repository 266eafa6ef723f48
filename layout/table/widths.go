package table

import (
	"math"
	"slices"
	"strings"

	"example.com/loomfolio/layout/sheet"
	"example.com/loomfolio/layout/typeface"
)

// Space around and inside cells, mm.
const (
	padX   = 1.3
	padY   = 1.1
	beside = 1.5 // between a drawing and its text
)

// The same in a table that is Tight.
const (
	tightX = 0.9
	tightY = 0.6
)

// padX is the space left and right of a cell's text, padY that over and under it.
func (t *Table) padX() float64 { return either(t.Tight, tightX, padX) }

func (t *Table) padY() float64 {
	if t.Pad > 0 {
		return t.Pad
	}
	return either(t.Tight, tightY, padY)
}

func either(first bool, a, b float64) float64 {
	if first {
		return a
	}
	return b
}

// demand is the width range of a column, padding included.
type demand struct{ least, ideal float64 }

// widths settles the column widths for a total; they fill it exactly unless the
// table is Rigid and needs less.
func (t *Table) widths(total float64) []float64 {
	needs := make([]demand, len(t.Columns))
	for i := range t.Columns {
		needs[i] = t.demand(i)
	}
	t.widenForSpans(needs)
	least, ideal := 0.0, 0.0
	for _, d := range needs {
		least, ideal = least+d.least, ideal+d.ideal
	}
	if least >= total {
		return level(needs, total, func(d demand) float64 { return d.least }, false)
	}
	if ideal >= total {
		w := level(needs, total-least, func(d demand) float64 { return d.ideal - d.least }, true)
		return t.lower(w, needs)
	}
	w := make([]float64, len(needs))
	for i, d := range needs {
		w[i] = d.ideal
	}
	if !t.Rigid {
		t.spread(w, total-ideal)
	}
	return w
}

// level shares a total so that every column gets what it wants up to one common
// measure: modest wants are met in full and the greatest are cut. With onTop the
// shares come on top of the least widths, else they are the widths.
func level(needs []demand, total float64, want func(demand) float64, onTop bool) []float64 {
	wants := make([]float64, len(needs))
	for i, d := range needs {
		wants[i] = want(d)
	}
	order := slices.Sorted(slices.Values(wants))
	most := total
	for i, v := range order { // the columns from i on share what the others left
		most = total / float64(len(order)-i)
		if v > most {
			break
		}
		total -= v
	}
	w := make([]float64, len(needs))
	for i, d := range needs {
		w[i] = math.Min(wants[i], most)
		if onTop {
			w[i] += d.least
		}
	}
	return w
}

// spread gives spare width to the columns with a Weight, else to all in
// proportion to their width.
func (t *Table) spread(w []float64, spare float64) {
	share := make([]float64, len(w))
	sum := 0.0
	for i, c := range t.Columns {
		share[i] = c.Weight
		sum += c.Weight
	}
	if sum == 0 {
		copy(share, w)
		for _, s := range share {
			sum += s
		}
	}
	for i := range w {
		w[i] += spare * share[i] / sum
	}
}

func (t *Table) demand(i int) demand {
	col := t.Columns[i]
	d := t.headDemand(col)
	for _, row := range t.Rows {
		if row.Kind == Group {
			continue
		}
		if c, span := row.at(i); span == 1 {
			d = d.with(t.cellDemand(c, row.Kind, col.Align))
		}
	}
	if col.Align == Decimal {
		before, after := t.decimals(i)
		d = d.with(demand{before + after, before + after})
	}
	d.least += 2 * t.padX()
	d.ideal += 2 * t.padX()
	if col.Max > 0 {
		d.least, d.ideal = math.Min(d.least, col.Max), math.Min(d.ideal, col.Max)
	}
	d.least = math.Max(d.least, col.Min)
	d.ideal = math.Max(d.ideal, d.least)
	return d
}

func (d demand) with(o demand) demand {
	return demand{math.Max(d.least, o.least), math.Max(d.ideal, o.ideal)}
}

func (t *Table) headDemand(c Column) demand {
	if t.NoHead {
		return demand{}
	}
	least := math.Max(typeface.Longest(c.Title, sheet.Bold, sheet.SizeNote), typeface.Width(c.Unit, sheet.Regular, sheet.SizeNote))
	return demand{least, math.Max(least, math.Min(typeface.Width(c.Title, sheet.Bold, sheet.SizeNote), 20))}
}

func (t *Table) cellDemand(c Cell, kind Kind, a Align) demand {
	face, size := c.face(kind), t.size(c)
	d := demand{typeface.Longest(c.S, face, size), widest(c.S, face, size)}
	if a == Decimal && c.number() {
		d.least = d.ideal
	}
	d = d.with(demand{typeface.Longest(c.Note, sheet.Regular, sheet.SizeNote), widest(c.Note, sheet.Regular, sheet.SizeNote)})
	if c.Draw != nil {
		extra := c.Draw.W
		if c.S != "" || c.Note != "" {
			extra += beside
		}
		d.least, d.ideal = d.least+extra, d.ideal+extra
	}
	return d
}

// widenForSpans makes room for cells over several columns that would not fit them.
func (t *Table) widenForSpans(needs []demand) {
	for _, row := range t.Rows {
		if row.Kind == Group {
			continue
		}
		for i := range t.Columns {
			c, span := row.at(i)
			if span < 2 {
				continue
			}
			d := t.cellDemand(c, row.Kind, Left)
			part := needs[i:min(i+span, len(needs))]
			have := -2 * t.padX()
			for _, p := range part {
				have += p.least
			}
			last := &part[len(part)-1]
			if lack := d.least - have; lack > 0 {
				last.least += lack
				last.ideal = math.Max(last.ideal, last.least)
			}
		}
	}
}

func widest(s string, face sheet.Face, size float64) float64 {
	w := 0.0
	for line := range strings.SplitSeq(s, "\n") {
		w = math.Max(w, typeface.Width(line, face, size))
	}
	return w
}

// at gives the cell that starts in a column and how many columns it takes; 0
// columns where a cell before it reaches over.
func (r Row) at(column int) (Cell, int) {
	i := 0
	for _, c := range r.Cells {
		span := max(c.Span, 1)
		if i == column {
			return c, span
		}
		if column < i+span {
			return Cell{}, 0
		}
		i += span
	}
	return Cell{}, 1
}

func (t *Table) size(c Cell) float64 {
	switch {
	case c.Size > 0:
		return c.Size
	case t.Size > 0:
		return t.Size
	}
	return sheet.SizeBody
}

func (c Cell) face(kind Kind) sheet.Face {
	if c.Bold || kind == Sum {
		return sheet.Bold
	}
	return sheet.Regular
}
