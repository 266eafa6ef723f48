// Package cutlist lays out what is cut and bought: the cut list, wire by wire and cable
// by cable, the shopping list, and the list by which wires are told apart.
//
// In: page.Ask. Out: the pages of one kind of sheet, none when there is nothing to say. It
// holds that every wire has one row in the cut list, and that nothing is computed here
// beyond sums and counts. Anchors set here: sheet/cut-list, sheet/shopping, sheet/tracing, wire/NAME.
package cutlist

import (
	"fmt"
	"slices"
	"strings"

	"example.com/loomfolio/layout/frame"
	"example.com/loomfolio/layout/page"
	"example.com/loomfolio/layout/table"
	"example.com/loomfolio/sizing/colour"
	"example.com/loomfolio/sizing/fit/fitted"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/unit"
)

// given marks what the description says and nothing computed.
const given = "*"

// CutList is one row a wire in the order of cutting: gauge by gauge, reel by reel.
func CutList(a page.Ask) []frame.Page {
	if len(a.R.Reels)+len(a.R.Cables) == 0 {
		return nil
	}
	b := page.OpenLoose(a.Upright(), "Cut list", "sheet/cut-list",
		"In the order of cutting: gauge, insulation, colour, the longest first. "+given+" = given in the description, not computed.")
	b.Remark("Current is meant to flow from end A to end B; each strip length stands before its end. " + markerRule(a) +
		" A length marked " + given + " is cut as written, whatever the way through the loom; the others hold the way, the tails and the slack at both ends." + builtRule(a))
	b.Table(cutTable(a))
	if t := planTable(a); len(t.Rows) > 0 {
		b.Section("Which length each wire is cut from", t)
	}
	b.Section("Sums by gauge and colour", reelTable(a))
	if len(a.R.Cables) > 0 {
		b.Section("Cables by type", cableTable(a))
	}
	return b.Close()
}

// markerRule says what the markers of a wire read, on the first end to be cut.
func markerRule(a page.Ask) string {
	id := fitted.Order(a.H, a.R.Reels)[0]
	if label := a.R.Ends[id][0].Label; label != "" {
		return "A marker reads: wire, this end → the other end, so first " + strings.ReplaceAll(label, "  ", " ") + "."
	}
	return ""
}

// builtRule says what the word in place of a box to tick means, where there is one.
func builtRule(a page.Ask) string {
	n := 0
	for i := range a.H.Wires {
		if a.R.KeptWire(harness.WireID(i)) == harness.Built {
			n++
		}
	}
	if n == 0 {
		return ""
	}
	return fmt.Sprintf(" %d of %d are marked built: they are in the vehicle, and neither cut again nor bought.", n, len(a.H.Wires))
}

// cutCell is a box to tick, or the word that there is nothing to cut.
func cutCell(a page.Ask, id harness.WireID) table.Cell {
	if a.R.KeptWire(id) == harness.Built {
		return table.Cell{Note: "built"}
	}
	return table.Cell{Draw: table.TickBox()}
}

func cutTable(a page.Ask) *table.Table {
	imperial := a.H.Sheet.Imperial
	lengths := table.Decimal
	if imperial {
		lengths = table.Right // feet and inches have no common point
	}
	t := &table.Table{Company: true, Columns: []table.Column{
		{Title: "Cut"},
		{Title: "Wire", Unit: "gauge"},
		{Title: "Colour", Unit: "base/tracer", Min: page.ColourRoom},
		{Title: "Length", Unit: page.LengthUnit(imperial), Align: lengths},
		{Title: "Strip", Unit: page.SizeUnit(imperial), Align: table.Decimal},
		{Title: "End A", Unit: "fitting", Weight: 1},
		{Title: "Strip", Unit: page.SizeUnit(imperial), Align: table.Decimal},
		{Title: "End B", Unit: "fitting", Weight: 1},
	}}
	for _, group := range page.Gauges(a.R.Reels) {
		t.Rows = append(t.Rows, gaugeRows(a, group)...)
	}
	t.Rows = append(t.Rows, unitRows(a)...)
	return t
}

// gaugeRows are the rows of one gauge; those of its wires that are in a unit stand
// with that, further on.
func gaugeRows(a page.Ask, group []fitted.Reel) []table.Row {
	of := a.H.UnitOf()
	var rows []table.Row
	elsewhere := 0
	for _, reel := range group {
		for _, w := range reel.Wires {
			if of[w] != harness.None {
				elsewhere++
				continue
			}
			row := cutRow(a, w)
			row.Cells[3].Note = cutFrom(&reel, w, a.H.Sheet.Imperial)
			rows = append(rows, row)
		}
	}
	if len(rows) == 0 {
		return nil
	}
	head := table.Heading(page.Dotted(group[0].Gauge.String(), page.Wall(group[0].Insulation)), reelSums(group, a.H.Sheet.Imperial))
	if elsewhere > 0 {
		head.Cells[1].S += fmt.Sprintf("; %d with their units below", elsewhere)
	}
	return append([]table.Row{head}, rows...)
}

// cutFrom says which length a wire is cut from where its reel has several: "left-over 2, 8 ft".
func cutFrom(r *fitted.Reel, w harness.WireID, imperial bool) string {
	i := r.CutOf(w)
	if i < 0 || r.Source(i) == "" {
		return ""
	}
	return page.Firm(r.Source(i)+", ") + strings.Replace(page.Metres(r.Cuts[i].Whole, imperial), ".0"+page.NoBreak, page.NoBreak, 1)
}

func reelSums(reels []fitted.Reel, imperial bool) string {
	sum := page.Total(reels)
	built := ""
	if sum.Built > 0 {
		built = fmt.Sprintf("%d built", sum.Built)
	}
	return page.List(", ", page.Counted(len(sum.Wires), "wire"), built, page.Metres(sum.Need, imperial)+" cut", page.ToBuy(sum.Buy, imperial)+" to buy", copper(sum.Copper))
}

func copper(g unit.Gram) string { return page.Firm(g.String()) + " copper" }

func cutRow(a page.Ask, id harness.WireID) table.Row {
	w, way := &a.H.Wires[id], a.R.Ways[id]
	name := table.Cell{S: page.Firm(w.Name), Bold: true, Note: page.Firm(a.R.Wires[id].Gauge.String()), Link: a.Link("end/" + w.Name)}
	if a.R.Wires[id].Given {
		name.Note += page.NoBreak + given
	}
	cut := table.Strong(page.Length(way.Length, a.H.Sheet.Imperial))
	if way.Given {
		cut.S += page.NoBreak + given
	}
	ends := a.R.Ends[id]
	return table.Row{Anchor: "wire/" + w.Name, Cells: []table.Cell{
		cutCell(a, id), name, shade(a, id), cut,
		page.Strip(a, ends[0]), endCell(a, w.From, ends[0]),
		page.Strip(a, ends[1]), endCell(a, w.To, ends[1]),
	}}
}

func endCell(a page.Ask, t harness.TerminalID, e fitted.End) table.Cell {
	c := table.Cell{S: a.H.Terminals[t].Full, Note: e.Fitting}
	if e.Crimp == fitted.NoneFits {
		c.Note += ": none fits"
	}
	if p := a.H.PartOf(t); p != nil {
		c.Link = a.Link("part/" + p.Ref)
	}
	return c
}

// reelTable sums what is cut by gauge, insulation and colour, two reels a line.
func reelTable(a page.Ask) *table.Table {
	imperial := a.H.Sheet.Imperial
	t := &table.Table{Company: true}
	for side := range 2 {
		if side > 0 {
			t.Columns = append(t.Columns, table.Column{Min: page.Gap, Weight: 1})
		}
		t.Columns = append(t.Columns, table.Column{Title: "Colour", Min: page.ColourRoom},
			table.Column{Title: "Wires", Align: table.Decimal}, table.Column{Title: "Cut", Unit: page.LongUnit(imperial), Align: table.Decimal},
			table.Column{Title: "Buy", Unit: page.LongUnit(imperial), Align: table.Decimal},
			table.Column{Title: "Left over", Unit: page.LongUnit(imperial), Align: table.Decimal})
	}
	for _, group := range page.Gauges(a.R.Reels) {
		t.Rows = append(t.Rows, table.Heading(page.Dotted(group[0].Gauge.String(), page.Wall(group[0].Insulation)), reelSums(group, imperial)))
		for two := range slices.Chunk(group, 2) {
			row := table.Row{}
			for side, r := range two {
				if side > 0 {
					row.Cells = append(row.Cells, table.Cell{})
				}
				row.Cells = append(row.Cells, reelCells(r, imperial)...)
			}
			t.Rows = append(t.Rows, row)
		}
	}
	t.Rows = append(t.Rows, table.Row{Kind: table.Sum, Cells: []table.Cell{{S: "All wire: " + reelSums(a.R.Reels, imperial), Span: 11}}})
	return t
}

// planTable says what is cut from which length, for reels that are cut from more
// than one, or from the shelf; of the others all is cut from the one that is bought.
func planTable(a page.Ask) *table.Table {
	imperial := a.H.Sheet.Imperial
	t := &table.Table{Company: true, Columns: []table.Column{
		{Title: "Done"},
		{Title: "Colour", Unit: "gauge", Min: page.ColourRoom},
		{Title: "Cut from", Align: table.Decimal, Unit: page.LongUnit(imperial)},
		{Title: "Wires, in this order", Weight: 1},
		{Title: "Leaves", Align: table.Decimal, Unit: page.LongUnit(imperial)},
	}}
	for _, r := range a.R.Reels {
		if len(r.TooLong) == 0 && (len(r.Cuts) == 0 || len(r.Cuts) == 1 && !r.Cuts[0].Shelf) {
			continue
		}
		for i, c := range r.Cuts {
			t.Rows = append(t.Rows, planRow(a, &r, c, r.Source(i)))
		}
		if len(r.TooLong) > 0 {
			t.Rows = append(t.Rows, table.Row{Cells: []table.Cell{
				{Draw: table.TickBox()}, reelCell(r), table.Text("–"), {S: page.WireNames(a, r.TooLong), Note: "longer than any length that is sold: join two, or buy it by the metre"}, table.Text("–"),
			}})
		}
	}
	return t
}

func planRow(a page.Ask, r *fitted.Reel, c fitted.Cut, source string) table.Row {
	imperial := a.H.Sheet.Imperial
	from := table.Strong(page.Bare(c.Whole, imperial))
	from.Note = source
	return table.Row{Cells: []table.Cell{{Draw: table.TickBox()}, reelCell(*r), from, table.Text(page.WireNames(a, c.Wires)), table.Text(page.Bare(c.Over, imperial))}}
}

func reelCell(r fitted.Reel) table.Cell {
	c := page.SwatchCell(pairOf(r))
	c.Note = page.Firm(r.Gauge.String())
	return c
}

func reelCells(r fitted.Reel, imperial bool) []table.Cell {
	pair := pairOf(r)
	return []table.Cell{
		{S: pair.String(), Bold: true, Draw: page.SwatchDrawing(pair)},
		table.Text(fmt.Sprint(len(r.Wires))), table.Text(page.Bare(r.Need, imperial)),
		table.Strong(page.BareToBuy(r.Buy, imperial)), table.Text(page.Bare(over(r), imperial)),
	}
}

// over is what is left of the lengths that are bought.
func over(r fitted.Reel) unit.Millimetre {
	sum := unit.Millimetre(0)
	for _, c := range r.Cuts {
		if !c.Shelf {
			sum += c.Over
		}
	}
	return sum
}

func pairOf(r fitted.Reel) colour.Pair { return colour.Pair{Base: r.Base, Tracer: r.Tracer} }
