package bench

import (
	"fmt"
	"math"
	"slices"

	"example.com/loomfolio/layout/frame"
	"example.com/loomfolio/layout/page"
	"example.com/loomfolio/layout/table"
	"example.com/loomfolio/sizing/fit/fitted"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/unit"
)

// Splices is a group of rows a splice: where it lies, what joins from which side, and what holds it.
func Splices(a page.Ask) []frame.Page {
	joints := used(a.R.Splices)
	if len(joints) == 0 {
		return nil
	}
	b := page.OpenLoose(a.Upright(), "Splices", "sheet/splices", "What joins in the loom. The shrink goes on before the joint.")
	b.Remark("Area together: the areas of all wires in the splice added; the splice is the size that holds the sum, or the next larger (NASA-STD-8739.4 19.11). " +
		"Splices stay out of runs that bend, are staggered so that the loom stays round, and are tied on both sides (NASA workmanship guidance 4.07); " +
		"the clear " + page.Piece(10, a.H.Sheet.Imperial) + " between their tubes is common practice. No battery cable is spliced (17 NYCRR 720.6(b)).")
	t := &table.Table{Columns: []table.Column{
		{Title: "Done", Align: table.Centre},
		{Title: "Wire", Unit: "gauge"},
		{Title: "Colour", Min: page.ColourRoom},
		{Title: "Leaves on the side", Weight: 1},
		{Title: "Other end", Weight: 1},
		{Title: "Strip", Unit: page.SizeUnit(a.H.Sheet.Imperial), Align: table.Decimal},
		{Title: "Pull-out", Unit: page.ForceUnit(a.H.Sheet.Imperial), Min: 16.5, Align: table.Right},
		{Title: "Pull", Align: table.Centre},
	}}
	forces := page.ForcesOf(a)
	for _, s := range joints {
		t.Rows = append(t.Rows, spliceRows(a, s, forces)...)
	}
	b.Table(t)
	return b.Close()
}

// used leaves out splices on which no wire ends.
func used(all []fitted.Splice) []fitted.Splice {
	return slices.DeleteFunc(slices.Clone(all), func(s fitted.Splice) bool { return len(s.Wires) == 0 })
}

// spliceRows is a heading, one row a wire and a line with what holds them.
func spliceRows(a page.Ask, s fitted.Splice, forces page.Forces) []table.Row {
	p := &a.H.Parts[s.Part]
	head := table.Heading(page.Dotted(p.Ref, page.Called(p)), s.Where)
	head.Anchor = "splice/" + p.Ref
	head.Cells[0].Link = a.Link("part/" + p.Ref)
	rows := []table.Row{head}
	for _, side := range sides(a, s) {
		for _, w := range side.wires {
			rows = append(rows, joinRow(a, s.Part, side.toward, w, forces))
		}
	}
	tube := "no listed tube passes and grips: tape it"
	if s.Shrink != "" {
		tube = "shrink " + s.Shrink + ", " + page.Piece(s.ShrinkLen, a.H.Sheet.Imperial)
	}
	area := "Area together " + page.Trimmed(float64(s.AreaSum), 2) + page.NoBreak + "mm²"
	if a.H.Sheet.Imperial {
		area = "Area together " + circularMils(s.AreaSum)
	}
	return append(rows, table.Row{Kind: table.Sum, Cells: []table.Cell{
		{Draw: table.TickBox()}, {S: page.Dotted(area, page.List(", ", s.Number, die(s.Die)), page.Ranged(s.Size), tube, beside(a, s), staggered(a, s, "Staggered")), Span: 7},
	}})
}

func die(d string) string {
	if d == "" {
		return ""
	}
	return "die " + d
}

// staggered says, behind a word for it, how far a splice is moved so that none lie side by side; "" where it stays.
func staggered(a page.Ask, s fitted.Splice, word string) string {
	if s.Shift == 0 || s.Into < 0 {
		return ""
	}
	p, run := &a.H.Parts[s.Part], &a.H.Runs[s.Into]
	by := unit.LengthText(max(s.Shift, -s.Shift), a.H.Sheet.Imperial)
	toward := run.To
	if p.Along == nil && run.To == p.Place || p.Along != nil && s.Shift < 0 {
		toward = run.From
	}
	return word + ": move it " + page.Firm(by) + " along run " + page.Letter(run.ID) + " towards " + a.H.Places[toward].Name
}

// circularMils is an area in the unit of gauge tables: that of a circle a
// thousandth of an inch across, to the nearest ten.
func circularMils(area unit.SquareMillimetre) string {
	mil := page.MillimetresInInch / 1000
	return fmt.Sprintf("%.0f%scircular mils", math.Round(float64(area)/(math.Pi/4*mil*mil)/10)*10, page.NoBreak)
}

// beside says which wires share a side, so that the tube grips.
func beside(a page.Ask, s fitted.Splice) string {
	if len(s.Beside) == 0 {
		return ""
	}
	return "lay " + page.WireNames(a, s.Beside) + " together on one side so that the tube grips"
}

func joinRow(a page.Ask, part harness.PartID, toward string, id harness.WireID, forces page.Forces) table.Row {
	w := &a.H.Wires[id]
	here, far := a.R.Ends[id][0], w.To
	if a.H.Terminals[w.From].Part != part {
		here, far = a.R.Ends[id][1], w.From
	}
	full, plain := a.Stop(far)
	return table.Row{Cells: []table.Cell{
		{Draw: table.TickBox()},
		{S: page.Firm(w.Name), Bold: true, Note: page.Firm(a.Gauge(id)), Link: a.Link("wire/" + w.Name)},
		page.ColourCell(a, id),
		table.Text(toward), table.Noted(full, plain), page.Strip(a, here),
		forces.Cell(here.Pull, here.PullList), {Draw: table.TickBox()},
	}}
}

// side is the wires that leave a splice towards one place.
type side struct {
	toward string
	wires  []harness.WireID
}

// sides parts a splice's wires by the place that they lead to, those towards
// the start of its run first.
func sides(a page.Ask, s fitted.Splice) []side {
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
	return "stays at " + a.At(p)
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
