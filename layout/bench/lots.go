package bench

import (
	"fmt"

	"example.com/loomfolio/layout/page"
	"example.com/loomfolio/layout/table"
	"example.com/loomfolio/sizing/fit/fitted"
	"example.com/loomfolio/sizing/unit"
)

// Room to write by hand, mm.
const (
	readingRoom = 11.0
	signRoom    = 20.0
	lotHigh     = 8.0
)

// lotTable has one row a lot of crimps, with room for the readings of its specimens.
func lotTable(a page.Ask) *table.Table {
	imperial := a.H.Sheet.Imperial
	t := &table.Table{Columns: []table.Column{
		{Title: "Crimp", Unit: "wire range", Weight: 1},
		{Title: "Wire", Unit: "gauge"},
		{Title: "Tool", Weight: 1},
		{Title: "Crimps", Align: table.Decimal},
		{Title: "To hold", Unit: pullUnit(imperial), Min: 16.5, Align: table.Right},
	}}
	for n := range mostSpecimens(a.R.Lots) {
		t.Columns = append(t.Columns, table.Column{Title: fmt.Sprintf("No. %d", n+1), Unit: firstUnit(imperial), Min: readingRoom + 3})
	}
	t.Columns = append(t.Columns, table.Column{Title: "Name, date", Min: signRoom + 3})
	forces := pullsOf(a)
	for _, l := range a.R.Lots {
		t.Rows = append(t.Rows, lotRow(l, forces))
	}
	return t
}

func mostSpecimens(lots []fitted.Lot) int {
	most := 0
	for _, l := range lots {
		most = max(most, l.Specimens)
	}
	return most
}

// firstUnit is the unit in which the readings are written.
func firstUnit(imperial bool) string {
	if imperial {
		return "lbf"
	}
	return "N"
}

func lotRow(l fitted.Lot, forces pulls) table.Row {
	fitting := l.Fitting
	if fitting == "splice" {
		fitting = "" // its size says that it is a barrel
	}
	wire := table.Cell{S: page.Firm(l.Gauge.String()), Bold: true}
	if l.Beside != "" {
		wire.Note = "beside " + page.Firm(l.Beside)
	}
	cells := []table.Cell{
		table.Noted(page.List(", ", l.Part, l.Crimp), page.List(", ", fitting, page.Ranged(l.Size))), wire, table.Text(page.List(", die ", l.Tool, l.Die)), table.Text(fmt.Sprint(l.Count)),
		forces.cell(l.Pull, l.PullList),
	}
	for range l.Specimens {
		cells = append(cells, table.Cell{Draw: table.Blank(readingRoom)})
	}
	return table.Row{High: lotHigh, Cells: append(cells, table.Cell{Draw: table.Blank(signRoom)})}
}

// stackTable has one row a stud that holds several rings, from the bottom up.
func stackTable(a page.Ask) *table.Table {
	t := &table.Table{Columns: []table.Column{
		{Title: "Stud"}, {Title: "Thread"}, {Title: "Rings, from the bottom up", Weight: 1}, {Title: "Tighten to", Unit: torqueUnit(a.H.Sheet.Imperial)}, {Title: "Done", Align: table.Centre},
	}}
	for _, s := range a.R.Stacks {
		var rings []string
		for _, w := range s.Rings {
			rings = append(rings, page.Firm(a.H.Wires[w].Name+" ("+a.Gauge(w)+")"))
		}
		rings = append(rings, a.Drains(s.Terminal)...)
		full, plain := a.Stop(s.Terminal)
		t.Rows = append(t.Rows, table.Row{Cells: []table.Cell{
			{S: full, Bold: true, Note: plain}, table.Text(s.Stud), table.Text(page.List(", ", rings...)), table.Noted(torque(s, a.H.Sheet.Imperial), s.On), {Draw: table.TickBox()},
		}})
	}
	return t
}

func torqueUnit(imperial bool) string {
	_, name := unit.Torque(1, imperial)
	return name
}

// torque is in the sheet's unit; a dash where no table has one.
func torque(s fitted.Stack, imperial bool) string {
	most, _ := unit.Torque(s.Most, imperial)
	least, _ := unit.Torque(s.Least, imperial)
	switch {
	case s.Most == 0:
		return "–"
	case s.Least < s.Most:
		return least + " to " + most
	}
	return most
}

// grip says how wide the wire is for the insulation grip of a contact.
func grip(over unit.Millimetre, imperial bool) string {
	switch {
	case over == 0:
		return ""
	case imperial:
		return fmt.Sprintf("%.2f%sin over all", float64(over)/page.MillimetresInInch, page.NoBreak)
	}
	return page.Trimmed(float64(over), 1) + page.NoBreak + "mm over all"
}
