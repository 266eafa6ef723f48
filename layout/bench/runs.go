package bench

import (
	"fmt"
	"slices"
	"strings"

	"example.com/loomfolio/layout/frame"
	"example.com/loomfolio/layout/page"
	"example.com/loomfolio/layout/table"
	"example.com/loomfolio/sizing/fit/fitted"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/unit"
)

// Runs is one row a run of the loom: its way, its wires and its cover.
func Runs(a page.Ask) []frame.Page {
	if len(a.R.Runs) == 0 {
		return nil
	}
	imperial := a.H.Sheet.Imperial
	b := page.OpenLoose(a.Upright(), "Runs of the loom", "sheet/runs", "What lies in each run, and the cover that goes over it. The letters are those of the loom map.")
	t := &table.Table{Columns: []table.Column{
		{Title: "Laid", Align: table.Centre},
		{Title: "Run", Align: table.Centre},
		{Title: "From", Weight: 0.5},
		{Title: "To", Weight: 0.5},
		{Title: "Length", Unit: page.LengthUnit(imperial), Align: table.Decimal},
		{Title: "Wires", Align: table.Decimal},
		{Title: "Which", Weight: 1},
		{Title: "Bundle", Unit: page.SizeUnit(imperial) + " across", Align: table.Decimal},
		{Title: "Bore of cover", Unit: page.SizeUnit(imperial), Align: table.Decimal},
		{Title: "Cover", Weight: 0.5},
	}}
	for _, r := range a.R.Runs {
		t.Rows = append(t.Rows, runRow(a, r, imperial))
	}
	b.Table(t)
	b.Remark("Lengths are those of the run, without tails and slack. The bundle's diameter is that of the wires pressed round; " +
		"the bore of the cover is the least to take, about a quarter over the bundle (FAA AC 43.13-1B 11-249).")
	b.Section("Bends, holes and supports", passTable(a))
	b.Remark("Bends: the inner radius, the least where the loom is clamped on both sides of the bend, and that for long life (NASA-STD-8739.4 7.3.21: 6 and 10 diameters). " +
		"Supports stand at most " + page.Either(imperial, "24 in", "610 mm") + " apart (FAA AC 43.13-1B 11-96a, 46 CFR 183.340(b)(4)), a tie between them where they are more than " + page.Either(imperial, "12 in", "305 mm") +
		" apart (11-158b); plastic ties alone are no support. The wall of covers is common practice, no source.")
	b.Remark(laying(imperial))
	if slices.ContainsFunc(a.R.Runs, hollow) {
		b.Remark(drained(imperial))
	}
	return b.Close()
}

// laying says how a run hangs between its supports, and what it keeps away from.
func laying(imperial bool) string {
	return "Between two supports a loom sags by " + page.Either(imperial, "1/2 in", "13 mm") + " at most when it is pressed lightly by hand (FAA AC 43.13-1B 11-118), and it stays " + page.Either(imperial, "6 in", "150 mm") +
		" clear of fuel lines, " + page.Either(imperial, "2 in", "50 mm") + " where it is clamped so that it cannot come nearer (11-96)."
}

// drained says where water leaves a cover that holds it.
func drained(imperial bool) string {
	return "Conduit and tube: a drain hole of " + page.Either(imperial, "1/4 in", "6 mm") + " at the lowest point, in a level length one every " + page.Either(imperial, "5 ft", "1.5 m") +
		" (46 CFR 183.340(b)(6)), its edge smoothed."
}

// hollow tells a cover in which water stands from braid and tape.
func hollow(r fitted.Run) bool {
	return len(r.Wires) > 0 && (strings.EqualFold(r.CoverName, "conduit") || strings.EqualFold(r.CoverName, "tube"))
}

// passTable has one row a run: how tight it bends, what it passes through, what holds it.
func passTable(a page.Ask) *table.Table {
	imperial := a.H.Sheet.Imperial
	unitOf := page.SizeUnit(imperial)
	t := &table.Table{Columns: []table.Column{
		{Title: "Run", Align: table.Centre},
		{Title: "Outside", Unit: unitOf, Align: table.Decimal},
		{Title: "Bend, least", Unit: unitOf, Align: table.Decimal},
		{Title: "Bend, long", Unit: unitOf, Align: table.Decimal},
		{Title: "Hole", Unit: "for ends, " + unitOf, Align: table.Decimal},
		{Title: "Passed from", Weight: 0.5},
		{Title: "Grommet bore", Unit: unitOf, Align: table.Decimal},
		{Title: "Boots", Unit: "one each end", Weight: 1},
		{Title: "Supports", Unit: "between ends", Align: table.Decimal},
	}}
	for _, r := range a.R.Runs {
		if len(r.Wires) == 0 {
			continue
		}
		boot := table.Text(page.OrDash(r.Boot))
		if r.Boot != "" {
			boot.Note = page.Piece(r.BootLen, imperial) + " long"
		}
		t.Rows = append(t.Rows, table.Row{Cells: []table.Cell{
			table.Strong(page.Letter(r.Run)), page.Across(r.Outside, imperial), page.Across(r.BendLeast, imperial), page.Across(r.BendLong, imperial),
			bore(r.Hole, imperial), table.Text(placeName(a.H, r.PassFrom)), bore(r.Grommet, imperial), boot, table.Text(fmt.Sprint(r.Clamps)),
		}})
	}
	return t
}

func runRow(a page.Ask, r fitted.Run, imperial bool) table.Row {
	run := &a.H.Runs[r.Run]
	which, cover := page.WireNames(a, r.Wires), r.CoverName
	if len(r.Wires) == 0 {
		which = "no wires"
	}
	if cover == "" {
		cover = "–"
	}
	to := table.Strong(a.H.Places[run.To].Name)
	if run.Flexes {
		to.Note = "this run bends in use"
	}
	return table.Row{Cells: []table.Cell{
		{Draw: table.TickBox()},
		{S: page.Letter(run.ID), Bold: true, Link: a.Link(a.RunAnchor(run.ID))},
		table.Strong(placeName(a.H, run.From)), to,
		table.Text(page.Length(run.Length, imperial)),
		table.Text(fmt.Sprint(len(r.Wires))), table.Text(which),
		page.Across(r.Diameter, imperial), bore(r.Cover, imperial), table.Text(cover),
	}}
}

func placeName(h *harness.Harness, p harness.PlaceID) string { return h.Places[p].Name }

// bore is the least bore to take, a dash where there is none; its column has the unit.
func bore(mm unit.Millimetre, imperial bool) table.Cell {
	if mm == 0 {
		return table.Text("–")
	}
	text, _, _ := strings.Cut(strings.ReplaceAll(unit.BoreText(mm, imperial), " in", ""), " mm")
	return table.Text(text)
}
