package cutlist

import (
	"fmt"
	"math"
	"strings"

	"example.com/loomfolio/layout/frame"
	"example.com/loomfolio/layout/page"
	"example.com/loomfolio/layout/table"
	"example.com/loomfolio/sizing/colour"
	"example.com/loomfolio/sizing/fit/fitted"
	"example.com/loomfolio/sizing/unit"
)

// priceRoom is the line to write a price on, mm.
const priceRoom = 20

// Shopping is what to buy, group by group: wire by gauge and colour first.
func Shopping(a page.Ask) []frame.Page {
	if len(a.R.Shopping) == 0 && len(a.R.Reels) == 0 {
		return nil
	}
	b := page.OpenLoose(a.Upright(), "Shopping list", "sheet/shopping", "Everything for this harness, rounded up to how it is sold (common practice, no source, unless the description says). Tick what lies on the bench.")
	b.Remark(counted(a))
	t := &table.Table{Company: true, Columns: []table.Column{
		{Title: "Got"},
		{Title: "What", Weight: 1},
		{Title: "Need", Align: table.Decimal},
		{Title: "Buy", Align: table.Decimal},
		{Title: "What for", Weight: 1},
		{Title: "Price", Unit: a.H.Practice.Currency, Min: priceRoom + 3, Align: table.Right},
	}}
	t.Rows = append(wireRows(a), itemRows(a)...)
	t.Rows = append(t.Rows, allTogether(a))
	b.Table(t)
	return b.Close()
}

// counted says what the list holds beside what is drawn, and what it leaves out.
func counted(a page.Ask) string {
	bolts, paint := "the bolts of clamps", ""
	if a.Grounded() {
		bolts, paint = "the studs of the grounds and the bolts of clamps, which are fixed to the bodywork", "paint or grease for the grounds; "
	}
	return "Counted too: the spare fuses that the description names, else one of each rating (common practice, no source), two crimps of each lot for the pull test, a grommet wherever a run leads from one zone into another. " +
		"Not counted: batteries, machines, loads, modules, senders and gauges, with the nuts of their studs, which are the vehicle's own; " + bolts + "; solder, since nothing is soldered; " +
		paint + "tools; printed markers, which come off the sheet of labels. Wire for the pull test comes off the spare length."
}

// wireRows lists the wire to buy, a group for each gauge and insulation.
func wireRows(a page.Ask) []table.Row {
	imperial := a.H.Sheet.Imperial
	var rows []table.Row
	for _, group := range page.Gauges(a.R.Reels) {
		if sum := page.Total(group); sum.ToCut() == 0 {
			continue
		}
		rows = append(rows, table.Heading(page.Dotted("Wire", group[0].Gauge.String(), page.Wall(group[0].Insulation)), reelSums(group, imperial)))
		for _, r := range group {
			if r.ToCut() > 0 {
				rows = append(rows, wireRow(a, r))
			}
		}
	}
	if len(rows) == 0 {
		return nil
	}
	sum := page.Total(a.R.Reels)
	return append(rows, table.Row{Kind: table.Sum, Cells: []table.Cell{
		{S: "All wire", Span: 2}, table.Text(page.Metres(sum.Need, imperial)), table.Text(page.ToBuy(sum.Buy, imperial)), {S: copper(sum.Copper), Span: 2},
	}})
}

// allTogether is the sum of all prices; a line to write it on where some lack.
func allTogether(a page.Ask) table.Row {
	sum, priced, open := 0.0, 0, 0
	for _, it := range a.R.Shopping {
		switch {
		case it.Priced:
			sum += it.Sum
			priced++
		case bought(it):
			open++
		}
	}
	row := table.Row{Kind: table.Sum, High: 9, Cells: []table.Cell{{S: "All together", Span: 5}, {Draw: table.Blank(priceRoom)}}}
	if priced > 0 {
		row.Cells[1] = table.Strong(money(sum))
		if open > 0 {
			row.Cells[0].S += fmt.Sprintf(", but for %s without a price", page.Counted(open, "line"))
		}
	}
	return row
}

// bought tells an item from what comes off the sheet of labels.
func bought(it fitted.Item) bool {
	return (it.Group != "wire" || it.Count > 0) && (it.Group != "markers" || it.Unit != "pcs")
}

func money(x float64) string { return fmt.Sprintf("%.2f", x) }

// priceCell is a line's price, or a line to write it on.
func priceCell(it fitted.Item) table.Cell {
	switch {
	case it.Priced:
		return table.Text(money(it.Sum))
	case bought(it):
		return table.Cell{Draw: table.Blank(priceRoom)}
	}
	return table.Text("–")
}

// buyCell is how much is bought, with the packs that it comes in.
func buyCell(it fitted.Item, imperial bool) table.Cell {
	if !bought(it) {
		return table.Text("–")
	}
	whole := it
	whole.Count = it.Buy
	c := table.Strong(quantity(whole, imperial))
	if packs := it.Buy / max(it.Pack, 1e-9); it.Pack > 0 && (it.Unit == "pcs" && it.Pack > 1 || it.Unit == "m" && packs > 1.5) {
		one := it
		one.Count = it.Pack
		c.Note = page.Trimmed(packs, 0) + page.NoBreak + "×" + page.NoBreak + strings.TrimSuffix(quantity(one, imperial), page.NoBreak+it.Unit)
	}
	return c
}

// itemOf finds a reel's line of the list.
func itemOf(a page.Ask, r fitted.Reel) fitted.Item {
	for _, it := range a.R.Shopping {
		if it.Group == "wire" && it.What == r.Name() {
			return it
		}
	}
	return fitted.Item{}
}

func reelPrice(a page.Ask, r fitted.Reel) table.Cell {
	if r.Buy == 0 {
		return table.Text("–")
	}
	return priceCell(itemOf(a, r))
}

func wireRow(a page.Ask, r fitted.Reel) table.Row {
	imperial := a.H.Sheet.Imperial
	pair := pairOf(r)
	return table.Row{Cells: []table.Cell{
		{Draw: table.TickBox()},
		{S: page.Dotted(pair.String(), colour.Words(pair)), Draw: page.SwatchDrawing(pair)},
		table.Text(page.Metres(r.Need, imperial)), reelBuy(r, imperial), table.Text(page.Counted(r.ToCut(), "wire")),
		reelPrice(a, r),
	}}
}

// reelBuy is how much wire is bought, nothing where the shelf has it all.
func reelBuy(r fitted.Reel, imperial bool) table.Cell {
	if r.Buy == 0 {
		return table.Noted("–", "left over")
	}
	return table.Strong(page.ToBuy(r.Buy, imperial))
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
			rows = append(rows, table.Heading(page.Capital(group), groupRule(group, a.H.Sheet.Imperial)))
		}
		rows = append(rows, table.Row{Cells: []table.Cell{
			{Draw: table.TickBox()}, table.Text(page.Dashed(item.What)), table.Text(quantity(item, a.H.Sheet.Imperial)), buyCell(item, a.H.Sheet.Imperial),
			table.Text(item.For), priceCell(item),
		}})
	}
	return rows
}

// groupRule says by what rule a group is counted.
func groupRule(group string, imperial bool) string {
	switch group {
	case "boots":
		return "on studs that are live with no fuse before them (33 CFR 183.445)"
	case "clamps":
		return "cushioned, at most " + page.Either(imperial, "24 in", "610 mm") + " apart (FAA AC 43.13-1B 11-96a)"
	case "ties":
		return "every " + page.Either(imperial, "12 in", "305 mm") + " (FAA AC 43.13-1B 11-158b), two at each splice"
	}
	return ""
}

// quantity is a count with its unit; lengths are given in feet on an imperial sheet.
func quantity(item fitted.Item, imperial bool) string {
	switch {
	case item.Unit == "m":
		return page.ToBuy(unit.Millimetre(item.Count*1000), imperial)
	case item.Count == 1 && item.Unit == "pcs":
		return "1" + page.NoBreak + "pc"
	case item.Count == math.Trunc(item.Count):
		return strings.TrimSpace(page.Trimmed(item.Count, 0) + page.NoBreak + item.Unit)
	}
	return page.Trimmed(item.Count, 2) + page.NoBreak + item.Unit
}
