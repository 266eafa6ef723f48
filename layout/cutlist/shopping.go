package cutlist

import (
	"fmt"
	"math"
	"strings"

	"example.com/loomfolio/layout/frame"
	"example.com/loomfolio/layout/page"
	"example.com/loomfolio/layout/sheet"
	"example.com/loomfolio/layout/table"
	"example.com/loomfolio/sizing/fit/fitted"
	"example.com/loomfolio/sizing/unit"
)

// Sizes of the list, mm.
const (
	priceRoom  = 14.0 // the line to write a price on
	wireColumn = 50.0 // of wire to buy
	itemColumn = 80.0 // of all else
)

// Shopping is what to buy, group by group: wire by size and colour first.
func Shopping(a page.Ask) []frame.Page {
	if len(a.R.Shopping) == 0 && len(a.R.Reels) == 0 {
		return nil
	}
	b := page.Open(a.Upright(), "Shopping list", "sheet/shopping", "Everything for this loom, rounded up to how it is sold; what is not counted stands at the end.")
	priced := priced(a)
	if rows := wireRows(a, priced); len(rows) > 0 {
		room := wireColumn
		if priced || asked(a) {
			room = itemColumn
		}
		b.Spread(&table.Table{Company: true, Tight: true, Pad: closePad, Columns: wireColumns(a, priced), Rows: rows}, page.Abreast(b.Room.W, room, page.ColumnGap), 0)
		b.Down(0.8)
		b.Say(allWire(a), sheet.Strong(sheet.SizeBody))
		if text := hanks(a); text != "" {
			b.Say(text, page.Quiet())
		}
		b.Down(1)
	}
	n := page.Abreast(b.Room.W, itemColumn, page.ColumnGap)
	b.Cards(n, page.ColumnGap, 0, itemCards(a, b.ColumnWide(n)))
	if priced {
		b.Table(&table.Table{NoHead: true, Columns: []table.Column{{Weight: 1}, {Min: 30, Align: table.Right}}, Rows: []table.Row{allTogether(a)}})
	}
	costs(a, b)
	weighed(a, b)
	b.Down(1)
	b.Remark(counted(a))
	return b.Close()
}

// priced tells whether the description has prices; without them the list has no column for any.
func priced(a page.Ask) bool { return len(a.H.Practice.Prices) > 0 }

// counted says what the list holds beside what is drawn, and what it leaves out.
func counted(a page.Ask) string {
	bolts, paint := "bolts of clamps", ""
	if a.Grounded() {
		bolts, paint = "ground studs, bolts of clamps", "paint or grease for the grounds; "
	}
	return "Sold in such lengths and packs, one spare fuse of each rating, unless described otherwise: common practice, no source. Counted too: two crimps of each lot for the pull test (their wire comes off the spare length), " +
		"a grommet wherever a run leads from one zone into another. Not counted: batteries, starter and alternator, loads, modules, senders and gauges, with the nuts of their studs; " +
		bolts + "; solder; " + paint + "tools; markers, which come off the sheet of labels."
}

// wireColumns are those of wire to buy, lengths without their unit.
func wireColumns(a page.Ask, priced bool) []table.Column {
	unit := page.LongUnit(a.H.Sheet.Imperial)
	out := []table.Column{
		{}, {Title: "Colour", Min: 22, Weight: 1}, {Title: "Need", Unit: unit, Align: table.Decimal}, {Title: "Buy", Unit: unit, Align: table.Decimal}, {Title: "For", Unit: "wires", Align: table.Decimal},
	}
	if asked(a) {
		out = append(out, table.Column{Title: "Ask for", Min: 24})
	}
	return withPrice(a, out, priced)
}

func withPrice(a page.Ask, columns []table.Column, priced bool) []table.Column {
	if priced {
		columns = append(columns, table.Column{Title: "Price", Unit: a.H.Practice.Currency, Min: priceRoom + 2, Align: table.Right})
	}
	return columns
}

// wireRows lists the wire to buy, a group for each size and insulation.
func wireRows(a page.Ask, priced bool) []table.Row {
	var rows []table.Row
	for _, group := range page.Gauges(a.R.Reels) {
		if sum := page.Total(group); sum.ToCut() == 0 {
			continue
		}
		rows = append(rows, table.Heading(page.Dotted("Wire "+page.Firm(group[0].Gauge.String()), page.Wall(group[0].Insulation)), ""))
		for _, r := range group {
			if r.ToCut() > 0 {
				rows = append(rows, wireRow(a, r, priced))
			}
		}
	}
	return rows
}

// allWire sums the wire up: what is cut, what is bought for it, and its copper.
func allWire(a page.Ask) string {
	sum, imperial := page.Total(a.R.Reels), a.H.Sheet.Imperial
	text := "All wire: " + page.Metres(sum.Need, imperial) + " needed, " + page.ToBuy(sum.Buy, imperial) + " to buy"
	if imperial {
		return text
	}
	return text + ", " + copper(sum.Copper)
}

// allTogether is the sum of all prices; a line to write it on where some lack.
func allTogether(a page.Ask) table.Row {
	sum, priced, open := 0.0, 0, 0
	for _, it := range a.R.Shopping {
		switch {
		case it.Priced:
			sum += it.Sum
			priced++
		case it.Bought():
			open++
		}
	}
	row := table.Row{Kind: table.Sum, High: 9, Cells: []table.Cell{{S: page.List(", ", "All together", a.H.Practice.Currency)}, {Draw: table.Blank(priceRoom)}}}
	if priced > 0 {
		row.Cells[1] = table.Strong(money(sum))
		if open > 0 {
			row.Cells[0].S += fmt.Sprintf(", but for %s without a price", page.Counted(open, "line"))
		}
	}
	return row
}

func money(x float64) string { return fmt.Sprintf("%.2f", x) }

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
	if it := itemOf(a, r); it.Priced {
		return table.Text(money(it.Sum))
	}
	return table.Cell{Draw: table.Blank(priceRoom)}
}

func wireRow(a page.Ask, r fitted.Reel, priced bool) table.Row {
	imperial := a.H.Sheet.Imperial
	pair := pairOf(r)
	buy := table.Strong(page.BareToBuy(r.Buy, imperial))
	if r.Buy == 0 {
		buy = table.Text("shelf")
	}
	cells := []table.Cell{
		{Draw: table.TickBox()}, {S: page.OrDash(pair.String()), Draw: page.ShortSwatch(pair)},
		table.Text(page.Bare(r.Need, imperial)), buy, table.Text(fmt.Sprint(r.ToCut())),
	}
	if asked(a) {
		cells = append(cells, table.Cell{S: askFor(r.Buy, imperial), Size: sheet.SizeNote})
	}
	if priced {
		cells = append(cells, reelPrice(a, r))
	}
	return table.Row{Cells: cells}
}

// groupRule says by what rule a group is counted.
func groupRule(group string, imperial bool) string {
	switch group {
	case "boots":
		return "on studs that are live and unfused (33 CFR 183.445)"
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
