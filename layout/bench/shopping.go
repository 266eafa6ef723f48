package bench

import (
	"math"
	"strings"

	"example.com/loomfolio/layout/frame"
	"example.com/loomfolio/layout/page"
	"example.com/loomfolio/layout/table"
	"example.com/loomfolio/sizing/colour"
	"example.com/loomfolio/sizing/fit"
	"example.com/loomfolio/sizing/unit"
)

// priceRoom is the line to write a price on, mm.
const priceRoom = 20

// Shopping is what to buy, group by group: wire by gauge and colour first.
func Shopping(a page.Ask) []frame.Page {
	if len(a.R.Shopping) == 0 && len(a.R.Reels) == 0 {
		return nil
	}
	b := open(a.Upright(), "Shopping list", "sheet/shopping", "Everything for this harness, with what it is for. Tick what lies on the bench; write the price beside it.")
	t := &table.Table{Columns: []table.Column{
		{Title: "Got"},
		{Title: "What", Weight: 1},
		{Title: "How much", Align: table.Decimal},
		{Title: "What for", Weight: 1},
		{Title: "Price", Min: priceRoom + 3},
	}}
	t.Rows = append(wireRows(a), itemRows(a)...)
	t.Rows = append(t.Rows, table.Row{Kind: table.Sum, High: 9, Cells: []table.Cell{{S: "All together", Span: 4}, {Draw: table.Blank(priceRoom)}}})
	b.table(t)
	return b.close()
}

// wireRows lists the wire to buy, a group for each gauge and insulation.
func wireRows(a page.Ask) []table.Row {
	imperial := a.H.Sheet.Imperial
	var rows []table.Row
	for _, group := range gauges(a.R.Reels) {
		if sum := total(group); sum.ToCut() == 0 {
			continue
		}
		rows = append(rows, table.Heading(joined("Wire", group[0].Gauge.String(), wall(group[0].Insulation)), reelSums(group, imperial)))
		for _, r := range group {
			if r.ToCut() > 0 {
				rows = append(rows, wireRow(r, imperial))
			}
		}
	}
	if len(rows) == 0 {
		return nil
	}
	sum := total(a.R.Reels)
	return append(rows, table.Row{Kind: table.Sum, Cells: []table.Cell{
		{S: "All wire", Span: 2}, table.Text(toBuy(sum.Buy, imperial)), {S: copper(sum.Copper), Span: 2},
	}})
}

func wireRow(r fit.Reel, imperial bool) table.Row {
	pair := pairOf(r)
	return table.Row{Cells: []table.Cell{
		{Draw: table.TickBox()},
		{S: joined(pair.String(), colour.Words(pair)), Draw: page.SwatchDrawing(pair)},
		table.Strong(toBuy(r.Buy, imperial)),
		table.Text(joined(page.Counted(r.ToCut(), "wire"), metres(r.Need, imperial)+" cut")),
		{Draw: table.Blank(priceRoom)},
	}}
}

// itemRows lists the rest in its groups. Wire by the length stands there already, reel by reel.
func itemRows(a page.Ask) []table.Row {
	var rows []table.Row
	group := ""
	for _, item := range a.R.Shopping {
		if item.Group == "wire" && len(a.R.Reels) > 0 {
			continue
		}
		if item.Group != group {
			group = item.Group
			rows = append(rows, table.Heading(capital(group), ""))
		}
		rows = append(rows, table.Row{Cells: []table.Cell{
			{Draw: table.TickBox()}, table.Text(dashed(item.What)), table.Strong(quantity(item, a.H.Sheet.Imperial)), table.Text(item.For),
			{Draw: table.Blank(priceRoom)},
		}})
	}
	return rows
}

// quantity is a count with its unit; lengths are given in feet on an imperial sheet.
func quantity(item fit.Item, imperial bool) string {
	switch {
	case item.Unit == "m":
		return toBuy(unit.Millimetre(item.Count*1000), imperial)
	case item.Count == 1 && item.Unit == "pcs":
		return "1" + noBreak + "pc"
	case item.Count == math.Trunc(item.Count):
		return strings.TrimSpace(trimmed(item.Count, 0) + noBreak + item.Unit)
	}
	return trimmed(item.Count, 2) + noBreak + item.Unit
}
