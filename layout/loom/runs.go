package loom

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"example.com/loomfolio/layout/page"
	"example.com/loomfolio/layout/sheet"
	"example.com/loomfolio/layout/table"
	"example.com/loomfolio/layout/typeface"
	"example.com/loomfolio/sizing/fit/fitted"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/unit"
)

// listing is the list of runs made ready for a width.
type listing struct {
	set   *table.Settled
	rows  int
	under float64 // height of what stands under the table
}

func (a drawer) listing(width float64) listing {
	var unseen sheet.Canvas
	under := listGap + a.contents(&unseen, sheet.Rect{W: width}) + listGap + page.TextHeight(a.remarks(), page.Quiet(), width)
	return listing{set: a.runTable().Settle(width), rows: len(a.R.Runs), under: under}
}

// listGap is clear under the table and under the wires in the runs, mm.
const listGap = 2

// least is the least height of the list, its rows drawn close.
func (l listing) least() float64 {
	const closer = 0.5
	return l.set.Height() - closer*float64(l.rows) + l.under
}

// in lays the table into a room so that all that stands under it has its place there too.
func (l listing) in(room sheet.Rect) (table.Part, bool) {
	room.H -= l.under
	rest := room
	rest.H = math.Inf(1)
	parts := l.set.Flow(room, rest)
	return parts[0], len(parts) == 1
}

// list sets the list of runs into a book: on the sheet being filled where it fits, else
// on the next, else on as many as it takes.
func (a drawer) list(b *page.Book) {
	list := a.listing(b.Room.W)
	part, ok := list.in(b.Room)
	if !ok {
		if !b.Fresh() {
			b.Turn()
		}
		part, ok = list.in(b.Room)
	}
	b.C.Anchor("sheet/runs", b.Room.X, b.Room.Y)
	if ok {
		b.C.Add(part.Marks...)
		b.Down(part.Bottom + listGap - b.Room.Y)
	} else {
		b.Flow(list.set)
	}
	var unseen sheet.Canvas
	b.Need(a.contents(&unseen, b.Room))
	b.Down(a.contents(&b.C, b.Room) + listGap)
	b.Remark(a.remarks())
}

// runTable has one row a run: its way, its wires and its cover, how tight it bends,
// what it passes through and what holds it.
func (a drawer) runTable() *table.Table {
	imperial := a.H.Sheet.Imperial
	size := page.SizeUnit(imperial)
	t := &table.Table{Columns: []table.Column{
		{Title: "Laid", Align: table.Centre},
		{Title: "Run", Align: table.Centre},
		{Title: "From and to", Unit: "→ pulled this way", Min: a.wayRoom(), Weight: 1},
		{Title: "Length", Unit: page.LengthUnit(imperial), Align: table.Decimal},
		{Title: "Wires", Align: table.Decimal},
		{Title: "Bundle", Unit: "⌀ " + size, Align: table.Decimal},
		{Title: "Cover", Unit: "min. inside ⌀, " + size},
		{Title: "Outside", Unit: "⌀ " + size, Align: table.Decimal},
		{Title: "Bend radius", Unit: "min. / long life, " + size, Min: a.bendRoom(), Align: table.Centre},
		{Title: "Hole", Unit: "for ends, " + size, Align: table.Decimal},
		{Title: "Grommet", Unit: "inside, " + size, Align: table.Decimal},
		{Title: "Heat-shrink", Unit: "over each end", Min: a.shrinkRoom()},
		{Title: "Supports", Unit: "between", Align: table.Decimal},
	}}
	for _, r := range a.R.Runs {
		t.Rows = append(t.Rows, a.runRow(r))
	}
	return t
}

func (a drawer) runRow(r fitted.Run) table.Row {
	imperial := a.H.Sheet.Imperial
	run := &a.H.Runs[r.Run]
	row := table.Row{Anchor: a.rowAnchor(run.ID), Cells: []table.Cell{
		{Draw: table.TickBox()},
		{S: page.Letter(run.ID), Bold: true, Link: a.Link(a.RunAnchor(run.ID))},
		table.Strong(a.way(r)), table.Text(page.Length(run.Length, imperial)), table.Text(fmt.Sprint(len(r.Wires))),
	}}
	if len(r.Wires) == 0 {
		return row
	}
	row.Cells = append(row.Cells,
		page.Across(r.Diameter, imperial), table.Text(page.List(" ", page.OrDash(r.CoverName), a.inside(r))),
		page.Across(r.Outside, imperial), table.Text(a.bend(r)),
		page.Bore(r.Hole, imperial), page.Bore(r.Grommet, imperial),
		a.shrink(r), table.Text(fmt.Sprint(r.Clamps)))
	return row
}

// inside is the least inside diameter of a cover, "" where it has none.
func (a drawer) inside(r fitted.Run) string {
	if r.Cover == 0 {
		return ""
	}
	return page.Bore(r.Cover, a.H.Sheet.Imperial).S
}

// air is what a cell needs beside its text, mm.
const air = 3

// wayRoom is the width at which the ends of every run stand in one line, within reason, mm.
func (a drawer) wayRoom() float64 {
	const most = 78
	wide := 0.0
	for _, r := range a.R.Runs {
		wide = max(wide, typeface.Width(a.way(r), sheet.Bold, sheet.SizeBody)+air)
	}
	return min(wide, most)
}

// way names the ends of a run, and whether it flexes.
func (a drawer) way(r fitted.Run) string {
	run := &a.H.Runs[r.Run]
	text := a.H.Places[run.From].Name + pulled(run, r) + a.H.Places[run.To].Name
	if run.Flexes {
		text += ", flexes in use"
	}
	return text
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

// shrinkRoom is the width at which the heat-shrink of every run stands in one line, mm.
func (a drawer) shrinkRoom() float64 {
	wide := 0.0
	for _, r := range a.R.Runs {
		wide = max(wide, typeface.Width(a.shrink(r).S, sheet.Regular, sheet.SizeBody)+air)
	}
	return wide
}

// bend says how tight a run bends at most, and for long life.
func (a drawer) bend(r fitted.Run) string {
	imperial := a.H.Sheet.Imperial
	return page.Across(r.BendLeast, imperial).S + " / " + page.Across(r.BendLong, imperial).S
}

// bendRoom is the width at which the bend radii of every run stand in one line, mm.
func (a drawer) bendRoom() float64 {
	wide := 0.0
	for _, r := range a.R.Runs {
		wide = max(wide, typeface.Width(a.bend(r), sheet.Regular, sheet.SizeBody)+air)
	}
	return wide
}

// shrinkLength is the length of the heat-shrink over the ends where all have one, for
// the remark; else "".
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
// same, such as its wall, for the remark; else "".
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

// builtUp says where tape goes under a heat-shrink so that it grips; "" for nowhere.
func (a drawer) builtUp() string {
	var runs []string
	for _, r := range a.R.Runs {
		if r.Taped > 0 {
			runs = append(runs, page.Letter(r.Run)+" to "+page.Firm(unit.AcrossText(r.Taped, a.H.Sheet.Imperial)))
		}
	}
	if len(runs) == 0 {
		return ""
	}
	return " Under the heat-shrink wind tape round the wires first, so that it grips: " + page.List(", ", runs...) + " across."
}

// remarks say under the list what its figures mean, and how a run is held.
func (a drawer) remarks() string {
	imperial := a.H.Sheet.Imperial
	out := "Length: without tails and slack. Bundle: the wires pressed round. Minimum inside diameter of cover: about a quarter over the bundle (FAA AC 43.13-1B 11-249); " +
		"its wall is common practice, no source. Min. bend radius: inside, where the loom is clamped on both sides of the bend, and for long life (NASA-STD-8739.4 7.3.21: 6 and 10 diameters). " +
		"Supports stand at most " + page.Either(imperial, "24 in", "610 mm") + " apart (FAA AC 43.13-1B 11-96a, 46 CFR 183.340(b)(4)), with a tie between where more than " + page.Either(imperial, "12 in", "305 mm") +
		" apart (11-158b); cable ties alone are not supports. Between supports it deflects no more than " + page.Either(imperial, "1/2 in", "13 mm") + " under light hand pressure (11-118). Keep it " +
		page.Either(imperial, "6 in", "150 mm") + " clear of fuel lines, " + page.Either(imperial, "2 in", "50 mm") + " where clamps hold it off (11-96)."
	if shared := page.List(", ", a.shrinkShared(), a.shrinkLength()); shared != "" {
		out += " Heat-shrink: " + shared + "."
	}
	out += a.builtUp()
	if slices.ContainsFunc(a.R.Runs, hollow) {
		out += " Conduit and tube: a smooth-edged drain hole of " + page.Either(imperial, "1/4 in", "6 mm") + " at the lowest point, where level every " + page.Either(imperial, "5 ft", "1.5 m") +
			" (46 CFR 183.340(b)(6))."
	}
	return out
}

// hollow tells a cover in which water stands from braid and tape.
func hollow(r fitted.Run) bool {
	return len(r.Wires) > 0 && (strings.EqualFold(r.CoverName, "conduit") || strings.EqualFold(r.CoverName, "tube"))
}
