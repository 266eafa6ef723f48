package bench

import (
	"fmt"
	"strings"

	"example.com/loomfolio/layout/frame"
	"example.com/loomfolio/layout/page"
	"example.com/loomfolio/layout/table"
	"example.com/loomfolio/sizing/colour"
	"example.com/loomfolio/sizing/fit"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/unit"
)

// given marks what the description says and nothing computed.
const given = "*"

// colourRoom keeps the swatch and the letters of two colours in one line, mm.
const colourRoom = 31

// CutList is one row a wire in the order of cutting: gauge by gauge, reel by reel.
func CutList(a page.Ask) []frame.Page {
	if len(a.R.Reels) == 0 {
		return nil
	}
	b := open(a.Landscape(), "Cut list", "sheet/cut-list",
		"In the order of cutting: gauge, insulation, colour. "+given+" = given in the description, not computed.")
	b.table(cutTable(a))
	b.remark("End A is where the current is meant to come from, end B where it goes; the strip length stands before its end. " +
		"A length marked " + given + " is cut as written, whatever the way through the loom; the others hold the way, the tails and the slack at both ends.")
	b.section("Sums by gauge and colour", reelTable(a))
	return b.close()
}

func cutTable(a page.Ask) *table.Table {
	imperial := a.H.Sheet.Imperial
	t := &table.Table{Columns: []table.Column{
		{Title: "Cut"},
		{Title: "Wire", Unit: "gauge"},
		{Title: "Colour", Min: colourRoom},
		{Title: "Length", Unit: lengthUnit(imperial), Align: table.Decimal},
		{Title: "Strip", Unit: sizeUnit(imperial), Align: table.Decimal},
		{Title: "End A", Unit: "fitting", Weight: 1},
		{Title: "Strip", Unit: sizeUnit(imperial), Align: table.Decimal},
		{Title: "End B", Unit: "fitting", Weight: 1},
		{Title: "Marker text", Unit: "circuit", Weight: 1},
	}}
	for _, group := range gauges(a.R.Reels) {
		t.Rows = append(t.Rows, table.Heading(joined(group[0].Gauge.String(), wall(group[0].Insulation)), reelSums(group, imperial)))
		for _, reel := range group {
			for _, w := range reel.Wires {
				t.Rows = append(t.Rows, cutRow(a, w))
			}
		}
	}
	return t
}

// gauges parts the reels where gauge or insulation change.
func gauges(reels []fit.Reel) [][]fit.Reel {
	var groups [][]fit.Reel
	for i, r := range reels {
		if i > 0 && r.Gauge == reels[i-1].Gauge && r.Insulation == reels[i-1].Insulation {
			last := len(groups) - 1
			groups[last] = append(groups[last], r)
			continue
		}
		groups = append(groups, []fit.Reel{r})
	}
	return groups
}

// total is a reel that stands for several.
func total(reels []fit.Reel) fit.Reel {
	var sum fit.Reel
	for _, r := range reels {
		sum.Wires = append(sum.Wires, r.Wires...)
		sum.Need += r.Need
		sum.Buy += r.Buy
		sum.Copper += r.Copper
	}
	return sum
}

func reelSums(reels []fit.Reel, imperial bool) string {
	sum := total(reels)
	return list(", ", page.Counted(len(sum.Wires), "wire"), metres(sum.Need, imperial)+" cut", toBuy(sum.Buy, imperial)+" to buy", copper(sum.Copper))
}

func copper(g unit.Gram) string { return firm(g.String()) + " copper" }

func cutRow(a page.Ask, id harness.WireID) table.Row {
	w, way := &a.H.Wires[id], a.R.Ways[id]
	name := table.Cell{S: firm(w.Name), Bold: true, Note: firm(a.R.Wires[id].Gauge.String()), Link: a.Link("end/" + w.Name)}
	if a.R.Wires[id].Given {
		name.Note += noBreak + given
	}
	cut := table.Strong(length(way.Length, a.H.Sheet.Imperial))
	if way.Given {
		cut.S += noBreak + given
	}
	ends := a.R.Ends[id]
	return table.Row{Anchor: "wire/" + w.Name, Cells: []table.Cell{
		{Draw: table.TickBox()}, name, page.SwatchCell(a.Pair(id)), cut,
		strip(a, ends[0]), endCell(a, w.From, ends[0]),
		strip(a, ends[1]), endCell(a, w.To, ends[1]),
		markerCell(a, id),
	}}
}

func strip(a page.Ask, e fit.End) table.Cell {
	if e.Strip == 0 {
		return table.Text("–")
	}
	c := table.Text(size(e.Strip, a.H.Sheet.Imperial))
	if folded(e) {
		c.Note = "fold back"
	}
	return c
}

// folded tells whether the strands of a thin wire are folded back to fill the
// crimp, which the strip length allows for.
func folded(e fit.End) bool { return strings.Contains(e.Reason, "fold the strands back") }

func endCell(a page.Ask, t harness.TerminalID, e fit.End) table.Cell {
	return table.Cell{S: a.H.Terminals[t].Full, Note: e.Fitting}
}

// markerCell is the marker's text over the circuit, what is twisted or screened with the wire under both.
func markerCell(a page.Ask, id harness.WireID) table.Cell {
	w := &a.H.Wires[id]
	c := &a.H.Circuits[w.Circuit]
	ends := a.R.Ends[id]
	text := ends[0].Label
	if ends[1].Label != text {
		text = list("\n", text, ends[1].Label)
	}
	return table.Cell{S: text, Note: list("\n", c.Name, together(a.H, id)), Link: a.Link("circuit/" + c.Key)}
}

// together says which wires a wire is twisted or screened with.
func together(h *harness.Harness, id harness.WireID) string {
	w := &h.Wires[id]
	twist := others(h, id, "twisted", w.Twist, func(o *harness.Wire) string { return o.Twist })
	screen := others(h, id, "screened", w.Screen, func(o *harness.Wire) string { return o.Screen })
	return list("\n", twist, screen)
}

func others(h *harness.Harness, id harness.WireID, word, key string, of func(*harness.Wire) string) string {
	if key == "" {
		return ""
	}
	var with []string
	for i := range h.Wires {
		if o := &h.Wires[i]; o.ID != id && of(o) == key {
			with = append(with, firm(o.Name))
		}
	}
	if len(with) == 0 {
		return word + " (" + key + ")"
	}
	return word + " with " + strings.Join(with, ", ")
}

// reelTable sums what is cut by gauge, insulation and colour, one line a reel.
func reelTable(a page.Ask) *table.Table {
	imperial := a.H.Sheet.Imperial
	t := &table.Table{Rigid: true, Columns: []table.Column{
		{Title: "Gauge"}, {Title: "Insulation"}, {Title: "Colour", Min: colourRoom}, {Title: "In words"},
		{Title: "Wires", Align: table.Decimal}, {Title: "Cut", Unit: longUnit(imperial), Align: table.Decimal},
		{Title: "To buy", Unit: longUnit(imperial), Align: table.Decimal}, {Title: "Copper", Align: table.Right},
	}}
	for _, r := range a.R.Reels {
		pair := pairOf(r)
		cells := append([]table.Cell{
			table.Strong(firm(r.Gauge.String())), table.Text(wall(r.Insulation)),
			{S: pair.String(), Bold: true, Draw: page.SwatchDrawing(pair)}, table.Text(colour.Words(pair)),
		}, sums(r, imperial)...)
		t.Rows = append(t.Rows, table.Row{Cells: cells})
	}
	whole := append([]table.Cell{{S: "All wire", Span: 4}}, sums(total(a.R.Reels), imperial)...)
	t.Rows = append(t.Rows, table.Row{Kind: table.Sum, Cells: whole})
	return t
}

// sums are the cells of a reel's sums.
func sums(r fit.Reel, imperial bool) []table.Cell {
	return []table.Cell{
		table.Text(fmt.Sprint(len(r.Wires))), table.Text(bare(r.Need, imperial)),
		table.Text(bareToBuy(r.Buy, imperial)), table.Text(firm(r.Copper.String())),
	}
}

func pairOf(r fit.Reel) colour.Pair { return colour.Pair{Base: r.Base, Tracer: r.Tracer} }
