package cutlist

import (
	"fmt"
	"strings"

	"example.com/loomfolio/layout/page"
	"example.com/loomfolio/layout/table"
	"example.com/loomfolio/sizing/fit/fitted"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/unit"
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
	return table.Row{Cells: append(reelCells(r, from),
		table.Strong(page.Bare(c.Whole, imperial)), table.Text(page.WireNames(a, c.Wires)), table.Text(page.Bare(c.Over, imperial)))}
}

// reelCells begin a row about a reel.
func reelCells(r *fitted.Reel, from string) []table.Cell {
	pair := pairOf(*r)
	return []table.Cell{
		{Draw: table.TickBox()}, table.Text(page.Firm(from)), {S: page.OrDash(pair.String()), Bold: true, Draw: page.ShortSwatch(pair)}, table.Text(page.Firm(r.Gauge.String())),
	}
}

// leftRule says what is left of the wire and the cables that are bought, colour by colour, but for
// what is cut by a plan.
func leftRule(a page.Ask) string {
	imperial := a.H.Sheet.Imperial
	var all []string
	groups := page.Gauges(a.R.Reels)
	for _, group := range groups {
		var out []string
		for i := range group {
			if over := over(&group[i]); !parts(&group[i]) && over > 0 {
				out = append(out, page.Firm(page.List(" ", pairOf(group[i]).String(), page.Bare(over, imperial))))
			}
		}
		all = left(all, sizeAmong(group[0], groups), out)
	}
	var out []string
	for i := range a.R.Cables {
		if c := &a.R.Cables[i]; c.Buy > c.Need {
			out = append(out, page.Firm(c.Type.Name+" "+page.Bare(c.Buy-c.Need, imperial)))
		}
	}
	if all = left(all, "cables", out); len(all) == 0 {
		return ""
	}
	return "Left over of what is bought, " + page.LongUnit(imperial) + ": " + strings.Join(all, "; ") + "."
}

// sizeAmong is a reel's size, with its insulation where others of the size have another.
func sizeAmong(r fitted.Reel, groups [][]fitted.Reel) string {
	for _, g := range groups {
		if g[0].Gauge == r.Gauge && g[0].Insulation != r.Insulation {
			return sizeOf(r)
		}
	}
	return r.Gauge.String()
}

func left(all []string, head string, what []string) []string {
	if len(what) == 0 {
		return all
	}
	return append(all, page.Firm(head)+": "+strings.Join(what, ", "))
}

// over is what is left of the lengths that are bought.
func over(r *fitted.Reel) unit.Millimetre {
	sum := unit.Millimetre(0)
	for _, c := range r.Cuts {
		if !c.Shelf {
			sum += c.Over
		}
	}
	return sum
}
