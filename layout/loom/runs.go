package loom

import (
	"fmt"
	"slices"
	"strings"

	"example.com/loomfolio/layout/page"
	"example.com/loomfolio/layout/sheet"
	"example.com/loomfolio/layout/table"
	"example.com/loomfolio/sizing/fit/fitted"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/unit"
)

// listHigh is how high the list of runs is with the wires in them and its remarks.
func (a drawer) listHigh(width float64) float64 {
	var unseen sheet.Canvas
	high := a.runTable().Settle(width).Height() + listGap + a.contents(&unseen, sheet.Rect{W: width}) + listGap
	for _, text := range a.remarks() {
		high += page.TextHeight(text, page.Quiet(), width) + listGap
	}
	return high
}

// listGap is clear under the table and under each remark, mm.
const listGap = 2

// list sets the list of runs into a book.
func (a drawer) list(b *page.Book) {
	if high := a.listHigh(b.Room.W); high > b.Room.H && !b.Fresh() {
		b.Turn()
	}
	b.C.Anchor("sheet/runs", b.Room.X, b.Room.Y)
	b.Table(a.runTable())
	high := a.contents(&b.C, b.Room)
	b.Down(high + listGap)
	for _, text := range a.remarks() {
		b.Remark(text)
	}
}

// runTable has one row a run: its way, its wires and its cover, how tight it bends,
// what it passes through and what holds it.
func (a drawer) runTable() *table.Table {
	imperial := a.H.Sheet.Imperial
	size := page.SizeUnit(imperial)
	shared := a.shrinkShared()
	t := &table.Table{Columns: []table.Column{
		{Title: "Laid", Align: table.Centre},
		{Title: "Run", Align: table.Centre},
		{Title: "From and to", Unit: "→ pulled this way", Weight: 1},
		{Title: "Length", Unit: page.LengthUnit(imperial), Align: table.Decimal},
		{Title: "Wires", Align: table.Decimal},
		{Title: "Bundle", Unit: "diameter, " + size, Align: table.Decimal},
		{Title: "Cover"},
		{Title: "Cover inside", Unit: "at least, " + size, Align: table.Decimal},
		{Title: "Outside", Unit: size, Align: table.Decimal},
		{Title: "Min. bend radius", Unit: size, Align: table.Decimal},
		{Title: "for long life", Unit: size, Align: table.Decimal},
		{Title: "Hole for ends", Unit: size, Align: table.Decimal},
		{Title: "Grommet inside", Unit: size, Align: table.Decimal},
		{Title: "Heat-shrink over each end", Unit: page.List(", ", shared, a.shrinkLength())},
		{Title: "Supports between", Align: table.Decimal},
	}}
	for _, r := range a.R.Runs {
		t.Rows = append(t.Rows, a.runRow(r))
	}
	return t
}

func (a drawer) runRow(r fitted.Run) table.Row {
	imperial := a.H.Sheet.Imperial
	run := &a.H.Runs[r.Run]
	way := table.Strong(a.H.Places[run.From].Name + pulled(run, r) + a.H.Places[run.To].Name)
	if run.Flexes {
		way.Note = "flexes in use"
	}
	row := table.Row{Anchor: a.rowAnchor(run.ID), Cells: []table.Cell{
		{Draw: table.TickBox()},
		{S: page.Letter(run.ID), Bold: true, Link: a.Link(a.RunAnchor(run.ID))},
		way, table.Text(page.Length(run.Length, imperial)), table.Text(fmt.Sprint(len(r.Wires))),
	}}
	if len(r.Wires) == 0 {
		return row
	}
	row.Cells = append(row.Cells,
		page.Across(r.Diameter, imperial), table.Text(page.OrDash(r.CoverName)), page.Bore(r.Cover, imperial),
		page.Across(r.Outside, imperial), page.Across(r.BendLeast, imperial), page.Across(r.BendLong, imperial),
		page.Bore(r.Hole, imperial), page.Bore(r.Grommet, imperial),
		a.shrink(r), table.Text(fmt.Sprint(r.Clamps)))
	return row
}

// pulled stands between the ends of a run: an arrow the way in which its ends are pulled
// through a hole, a dash where nothing is.
func pulled(run *harness.Run, r fitted.Run) string {
	switch {
	case len(r.Wires) == 0:
		return " – "
	case r.PassFrom == run.To:
		return " ← "
	}
	return " → "
}

// rowAnchor is the anchor of a run's row in the list.
func (a drawer) rowAnchor(r harness.RunID) string {
	return "laid/" + strings.TrimPrefix(a.RunAnchor(r), "run/")
}

// shrinkLength is the length of the heat-shrink over the ends where all have one, for
// the head of the column; else "".
func (a drawer) shrinkLength() string {
	one := unit.Millimetre(0)
	for _, r := range a.R.Runs {
		switch {
		case r.Boot == "" || r.BootLen == one:
		case one == 0:
			one = r.BootLen
		default:
			return ""
		}
	}
	if one == 0 {
		return ""
	}
	return page.Piece(one, a.H.Sheet.Imperial) + " long"
}

// shrinkShared is the end of the words of all heat-shrinks where they have one that is the
// same, such as its wall, for the head of the column; else "".
func (a drawer) shrinkShared() string {
	shared, first := "", true
	for _, r := range a.R.Runs {
		if r.Boot == "" {
			continue
		}
		_, wall, _ := strings.Cut(r.Boot, ":1 ")
		if !first && wall != shared {
			return ""
		}
		shared, first = wall, false
	}
	return shared
}

// shrink is what goes over both ends of a cover.
func (a drawer) shrink(r fitted.Run) table.Cell {
	cell := table.Text(page.OrDash(page.Firm(strings.TrimSuffix(r.Boot, " "+a.shrinkShared()))))
	if r.Boot != "" && a.shrinkLength() == "" {
		cell.Note = page.Piece(r.BootLen, a.H.Sheet.Imperial) + " long"
	}
	return cell
}

// remarks say under the list what its figures mean, and how a run is held.
func (a drawer) remarks() []string {
	imperial := a.H.Sheet.Imperial
	out := []string{
		"Lengths are those of the run, without tails and slack. The bundle's diameter is that of the wires pressed round; the inside of the cover is the least to take, about a quarter over the bundle " +
			"(FAA AC 43.13-1B 11-249); the wall of covers is common practice, no source. Bends: the inner radius, the least where the loom is clamped on both sides of the bend, and that for long life " +
			"(NASA-STD-8739.4 7.3.21: 6 and 10 diameters).",
		"Supports stand at most " + page.Either(imperial, "24 in", "610 mm") + " apart (FAA AC 43.13-1B 11-96a, 46 CFR 183.340(b)(4)), a tie between them where they are more than " + page.Either(imperial, "12 in", "305 mm") +
			" apart (11-158b); cable ties alone are not supports. Between two supports the loom deflects no more than " + page.Either(imperial, "1/2 in", "13 mm") + " under light hand pressure (11-118). It stays " +
			page.Either(imperial, "6 in", "150 mm") + " clear of fuel lines, " + page.Either(imperial, "2 in", "50 mm") + " where it is clamped so that it cannot come nearer (11-96).",
	}
	if slices.ContainsFunc(a.R.Runs, hollow) {
		out = append(out, "Conduit and tube: a drain hole of "+page.Either(imperial, "1/4 in", "6 mm")+" at the lowest point, in a level length one every "+page.Either(imperial, "5 ft", "1.5 m")+
			" (46 CFR 183.340(b)(6)), its edge smoothed.")
	}
	return out
}

// hollow tells a cover in which water stands from braid and tape.
func hollow(r fitted.Run) bool {
	return len(r.Wires) > 0 && (strings.EqualFold(r.CoverName, "conduit") || strings.EqualFold(r.CoverName, "tube"))
}
