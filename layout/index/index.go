// Package index lays out the last sheets of the binder, in which whoever holds a wire or a part
// in the hand finds it: wires by number, parts by place.
//
// In: page.Ask. Out: the pages, none of a harness without wires. It holds that every wire and
// every part with a wire on it has one row, with the sheet and zone where it is drawn and where
// its work stands. Anchors set here: sheet/index, index/NAME.
package index

import (
	"fmt"
	"slices"
	"strings"

	"example.com/loomfolio/layout/frame"
	"example.com/loomfolio/layout/page"
	"example.com/loomfolio/layout/sheet"
	"example.com/loomfolio/layout/table"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/unit"
)

// rowPad is the clear space over and under a row, mm.
const rowPad = 0.15

// leastColumn is how wide a column is at least where more than two find room, mm.
const leastColumn = 80

// Index is all wires by number, then all parts by place with the wire at each terminal.
func Index(a page.Ask) []frame.Page {
	if len(a.H.Wires) == 0 {
		return nil
	}
	b := page.Open(a.Upright(), "Index", "sheet/index", "")
	n := max(2, int((b.Room.W+page.ColumnGap)/(leastColumn+page.ColumnGap)))
	b.Head2("Wires by number", zones(a), 40)
	b.Spread(wireTable(a), n, 40)
	b.Head2("Parts by place", plugs(a), 40)
	parts := partTable(a)
	b.Spread(parts, abreast(b, parts, n), 40)
	return b.Close()
}

// zones says how to read where a wire is drawn, by the first one that is.
func zones(a page.Ask) string {
	sheet, zone := 17, "B3"
	for _, id := range byNumber(a) {
		if p, ok := a.Known[drawnAt(a, &a.H.Wires[id])]; ok {
			sheet, zone = p.Sheet, p.Zone
			break
		}
	}
	return fmt.Sprintf("Sheet and zone: %d%s%s is zone %s of sheet %d.", sheet, page.NoBreak, zone, zone, sheet)
}

// leastParts is how wide a column of parts is at least, mm.
const leastParts = 50

// abreast is in how many columns the parts take least room: so many, or one more where there is room for it.
func abreast(b *page.Book, t *table.Table, n int) int {
	high := func(n int) float64 { return t.Height(b.ColumnWide(n)) / float64(n) }
	if b.ColumnWide(n+1) >= leastParts && high(n+1) < high(n) {
		return n + 1
	}
	return n
}

// plugs says how to read the terminals.
func plugs(a page.Ask) string {
	s := "Where each is drawn, then terminal and wire: 30 11A is wire 11A on terminal 30"
	for i := range a.H.Parts {
		if a.H.Parts[i].Kind == harness.Connector {
			s += "; of a plug, feed half | load half of each cavity"
			break
		}
	}
	return s + "."
}

// at is where an anchor stands, in short: "17 B3"; a dash where it does not.
func at(a page.Ask, anchor string) string {
	p, ok := a.Known[anchor]
	if !ok {
		return "–"
	}
	return fmt.Sprintf("%d%s%s", p.Sheet, page.NoBreak, p.Zone)
}

// wireTable has one row a wire, in the natural order of their numbers.
func wireTable(a page.Ask) *table.Table {
	t := &table.Table{Tight: true, Pad: rowPad, Size: sheet.SizeNote, Columns: []table.Column{
		{Title: "Wire"}, {Title: "Colour"}, {Title: page.Or(sizeUnit(a), "Size"), Align: table.Decimal}, {Title: "From → to", Weight: 1}, {Title: "Drawn"},
	}}
	worked := a.For != page.Customer
	if worked {
		t.Columns = append(t.Columns, table.Column{Title: "Cut"})
	}
	for _, id := range byNumber(a) {
		w := &a.H.Wires[id]
		name, drawn, row := page.Firm(w.Name), drawnAt(a, w), "wire/"+w.Name
		cells := []table.Cell{
			{S: name, Bold: true, Link: a.Link(row)}, table.Text(a.Pair(id).String()), table.Text(size(a, id)),
			table.Text(page.Firm(page.FarStop(a, w.From)) + " → " + page.Firm(page.FarStop(a, w.To))), {S: at(a, drawn), Link: a.Link(drawn)},
		}
		if worked {
			cells = append(cells, table.Cell{S: at(a, row), Link: a.Link(row)})
		}
		t.Rows = append(t.Rows, table.Row{Anchor: "index/" + w.Name, Cells: cells})
	}
	return t
}

// byNumber are the wires in the natural order of their names, 2A before 11A.
func byNumber(a page.Ask) []harness.WireID {
	out := make([]harness.WireID, len(a.H.Wires))
	for i := range out {
		out[i] = harness.WireID(i)
	}
	slices.SortStableFunc(out, func(x, y harness.WireID) int { return unit.Natural(a.H.Wires[x].Name, a.H.Wires[y].Name) })
	return out
}

// drawnAt is the anchor of a wire's flag on a diagram, else that of its circuit.
func drawnAt(a page.Ask, w *harness.Wire) string {
	if flag := "drawn/" + w.Name; a.Link(flag) != "" {
		return flag
	}
	return "circuit/" + a.H.Circuits[w.Circuit].Key
}

// sizeUnit is the unit of the sizes where they share one.
func sizeUnit(a page.Ask) string {
	text := ""
	for i := range a.H.Wires {
		_, u, _ := strings.Cut(a.Gauge(harness.WireID(i)), " ")
		if i > 0 && u != text {
			return ""
		}
		text = u
	}
	return text
}

// size is a wire's size, without its unit where the column has that.
func size(a page.Ask, w harness.WireID) string {
	return page.Firm(strings.TrimSuffix(a.Gauge(w), " "+page.Or(sizeUnit(a), "none")))
}
