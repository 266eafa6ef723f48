package cutlist

import (
	"fmt"

	"example.com/loomfolio/layout/page"
	"example.com/loomfolio/layout/table"
	"example.com/loomfolio/sizing/fit/fitted"
	"example.com/loomfolio/sizing/harness"
)

// plan names the length that a wire is cut from, where there are several or it is a
// left-over: L1, L2 … for left-overs, N1, N2 … for new ones.
type plan map[harness.WireID]string

func planned(a page.Ask) plan {
	p := plan{}
	left, bought := 0, 0
	for i := range a.R.Reels {
		if !parts(&a.R.Reels[i]) {
			continue
		}
		for _, c := range a.R.Reels[i].Cuts {
			name := ""
			if c.Shelf {
				left++
				name = fmt.Sprintf("L%d", left)
			} else {
				bought++
				name = fmt.Sprintf("N%d", bought)
			}
			for _, w := range c.Wires {
				p[w] = name
			}
		}
	}
	return p
}

// parts tells whether a reel is cut from more than one length, or from the shelf; of
// the others all is cut from the one that is bought.
func parts(r *fitted.Reel) bool {
	return len(r.TooLong) > 0 || len(r.Cuts) > 1 || len(r.Cuts) == 1 && r.Cuts[0].Shelf
}

// planTable says what is cut from which length.
func planTable(a page.Ask, p plan) *table.Table {
	imperial := a.H.Sheet.Imperial
	t := &table.Table{Company: true, Tight: true, Columns: []table.Column{
		{Title: "Done"}, {Title: "Cut from"}, {Title: "Colour"}, {Title: "Size"},
		{Title: "Length", Align: table.Decimal, Unit: page.LongUnit(imperial)},
		{Title: "Wires, in this order", Weight: 1},
		{Title: "Leaves", Align: table.Decimal, Unit: page.LongUnit(imperial)},
	}}
	for i := range a.R.Reels {
		r := &a.R.Reels[i]
		if !parts(r) {
			continue
		}
		for _, c := range r.Cuts {
			t.Rows = append(t.Rows, planRow(a, r, c, p))
		}
		if len(r.TooLong) > 0 {
			wires := table.Noted(page.WireNames(a, r.TooLong), "longer than any length that is sold: join two, or buy it by the metre")
			t.Rows = append(t.Rows, table.Row{Cells: append(reelCells(r, "–"), table.Text("–"), wires, table.Text("–"))})
		}
	}
	return t
}

func planRow(a page.Ask, r *fitted.Reel, c fitted.Cut, p plan) table.Row {
	imperial := a.H.Sheet.Imperial
	from := "new"
	if c.Shelf {
		from = "left-over"
	}
	if len(c.Wires) > 0 {
		from = p[c.Wires[0]] + " " + from
	}
	wires := page.WireNames(a, c.Wires)
	if c.Drains > 0 {
		wires += ", then " + page.Span(c.Drains, imperial) + " for drains"
	}
	return table.Row{Cells: append(reelCells(r, from),
		table.Strong(page.Bare(c.Whole, imperial)), table.Text(wires), table.Text(page.Bare(c.Over, imperial)))}
}

// reelCells begin a row about a reel.
func reelCells(r *fitted.Reel, from string) []table.Cell {
	pair := pairOf(*r)
	return []table.Cell{
		{Draw: table.TickBox()}, table.Text(page.Firm(from)), {S: page.OrDash(pair.String()), Bold: true, Draw: page.ShortSwatch(pair)}, table.Text(page.Firm(r.Gauge.String())),
	}
}
