package bench

import (
	"slices"

	"example.com/loomfolio/layout/frame"
	"example.com/loomfolio/layout/page"
	"example.com/loomfolio/layout/table"
	"example.com/loomfolio/sizing/fit"
	"example.com/loomfolio/sizing/harness"
)

// Splices is one row a splice: where it lies, what joins from which side, and what holds it.
func Splices(a page.Ask) []frame.Page {
	if len(a.R.Splices) == 0 {
		return nil
	}
	b := open(a.Upright(), "Splices", "sheet/splices", "What joins in the loom. The shrink goes on before the joint.")
	imperial := a.H.Sheet.Imperial
	t := &table.Table{Columns: []table.Column{
		{Title: "Splice"},
		{Title: "Where", Weight: 1},
		{Title: "Joins", Unit: "side, wire, gauge", Weight: 1},
		{Title: "Colour", Weight: 0.5},
		{Title: "Area sum", Unit: "mm²", Align: table.Decimal},
		{Title: "Splice size", Weight: 0.5},
		{Title: "Shrink", Unit: "length", Weight: 0.5},
		{Title: "Done", Align: table.Centre},
	}}
	for _, s := range a.R.Splices {
		t.Rows = append(t.Rows, spliceRows(a, s, imperial)...)
	}
	b.table(t)
	b.remark("Area sum: the areas of all wires in the splice added; the splice is the size that holds the sum, or the next larger (NASA-STD-8739.4 19.11). " +
		"Keep splices out of stretches that bend, apart from each other along the loom, and tied on both sides.")
	return b.close()
}

// spliceRows is one row a wire, the first of which says what the splice is.
func spliceRows(a page.Ask, s fit.Splice, imperial bool) []table.Row {
	p := &a.H.Parts[s.Part]
	var rows []table.Row
	for _, side := range sides(a, s) {
		for i, w := range side.wires {
			rows = append(rows, joinRow(a, side.toward, w, i == 0))
		}
	}
	if len(rows) == 0 {
		rows = []table.Row{{Cells: make([]table.Cell, 8)}}
	}
	first := &rows[0]
	first.Anchor = "splice/" + p.Ref
	first.Cells[0] = table.Cell{S: p.Ref, Bold: true, Note: called(p), Link: a.Link("part/" + p.Ref)}
	first.Cells[1] = table.Text(s.Where)
	first.Cells[4] = table.Strong(trimmed(float64(s.AreaSum), 2))
	first.Cells[5] = table.Strong(s.Size)
	first.Cells[6] = table.Text("–")
	if s.Shrink != "" {
		first.Cells[6] = table.Noted(s.Shrink, piece(s.ShrinkLen, imperial))
	}
	first.Cells[7] = table.Cell{Draw: table.TickBox()}
	return rows
}

func joinRow(a page.Ask, toward string, w harness.WireID, first bool) table.Row {
	name := a.H.Wires[w].Name
	cells := make([]table.Cell, 8)
	cells[2] = table.Cell{S: joined(firm(name), firm(a.Gauge(w))), Bold: true, Link: a.Link("wire/" + name)}
	if first {
		cells[2].Note = toward
	}
	cells[3] = page.SwatchCell(a.Pair(w))
	return table.Row{Cells: cells}
}

// side is the wires that leave a splice towards one place.
type side struct {
	toward string
	wires  []harness.WireID
}

// sides parts a splice's wires by the place that they lead to, those towards
// the start of its run first.
func sides(a page.Ask, s fit.Splice) []side {
	var out []side
	for _, w := range s.Wires {
		toward := toward(a, s.Part, w)
		i := slices.IndexFunc(out, func(o side) bool { return o.toward == toward })
		if i < 0 {
			i = len(out)
			out = append(out, side{toward: toward})
		}
		out[i].wires = append(out[i].wires, w)
	}
	return out
}

// toward says on which side of a splice a wire leaves.
func toward(a page.Ask, part harness.PartID, w harness.WireID) string {
	p := &a.H.Parts[part]
	places := a.R.Ways[w].Places
	if a.H.Terminals[a.H.Wires[w].From].Part != part {
		places = slices.Clone(places)
		slices.Reverse(places)
	}
	if len(places) > 0 && places[0] == p.Place {
		places = places[1:]
	}
	switch {
	case len(places) > 0:
		return "towards " + a.H.Places[places[0]].Name
	case p.Along != nil:
		return "towards " + a.H.Places[along(a, part, w)].Name
	}
	return "here"
}

// along is the end of its run to which a wire leads that ends in another splice of the run.
func along(a page.Ask, part harness.PartID, w harness.WireID) harness.PlaceID {
	here := a.H.Parts[part].Along
	run := a.H.Runs[here.Run]
	other := a.H.PartOf(a.H.Wires[w].To)
	if other != nil && other.ID == part {
		other = a.H.PartOf(a.H.Wires[w].From)
	}
	if other != nil && other.Along != nil && other.Along.Run == here.Run && other.Along.Distance < here.Distance {
		return run.From
	}
	return run.To
}
