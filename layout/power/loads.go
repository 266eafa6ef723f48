package power

import (
	"fmt"
	"slices"
	"strings"

	"example.com/loomfolio/layout/page"
	"example.com/loomfolio/layout/sheet"
	"example.com/loomfolio/layout/table"
	"example.com/loomfolio/sizing/choose/chosen"
)

const (
	dotColumn = 3.6 // width of a state's column, mm
	mostDots  = 12  // states that have a column of dots; more are listed by letter
	leastRows = 25  // height of the list that its heading is kept with, mm
)

// loads sets the list of loads.
func loads(a page.Ask, s *page.Book) {
	remark := "A dot: on in that state. Loads on one line: each. "
	switch n := len(a.R.Budgets); {
	case n == 0:
		remark = ""
	case n > mostDots:
		remark = "On in: the states in which it draws current. Loads on one line: each. "
	}
	s.Head2("The loads", remark+"Lowest: the voltage across the load in its worst state, after fuses and contacts. Drop: in the wires of feed and return, which the limit is for.", leastRows)
	s.Table(loadTable(a))
}

// loadTable has a line for each load; alike ones share it.
func loadTable(a page.Ask) *table.Table {
	t := &table.Table{Tight: true, Pad: rowPad, Columns: []table.Column{
		{Title: "Load", Weight: 1, Min: 30}, {Title: "Runs", Unit: "A", Align: table.Decimal}, {Title: "Starts", Unit: "A, for s", Align: table.Right},
		{Title: "Fuse"}, {Title: "Lowest", Unit: "V, in", Align: table.Decimal}, {Title: "Drop", Unit: "of limit, V", Align: table.Right},
	}}
	if len(a.R.Budgets) <= mostDots {
		for i := range a.R.Budgets {
			t.Columns = append(t.Columns, table.Column{Title: page.StateLetter(i), Align: table.Centre, Min: dotColumn, Max: dotColumn})
		}
	} else {
		t.Columns = append(t.Columns, table.Column{Title: "On in", Min: 22})
	}
	for _, l := range alike(a) {
		t.Rows = append(t.Rows, loadRow(a, l))
	}
	return t
}

// alike gathers the loads of which the same would be printed, in the order of the first.
func alike(a page.Ask) [][]chosen.Load {
	var out [][]chosen.Load
	at := map[string]int{}
	for _, l := range a.R.Loads {
		key := strings.Join([]string{page.Amps(float64(l.Amps)), starts(l), l.ProtectedBy, lowest(a, l), dropCell(l).S, fmt.Sprint(l.On)}, "|")
		i, ok := at[key]
		if !ok {
			i = len(out)
			at[key] = i
			out = append(out, nil)
		}
		out[i] = append(out[i], l)
	}
	return out
}

func loadRow(a page.Ask, loads []chosen.Load) table.Row {
	l := loads[0]
	fuse := table.Cell{S: l.ProtectedBy, Link: a.Link("fuse/" + l.ProtectedBy)}
	if l.ProtectedBy == "" {
		fuse = table.Cell{S: "none"}
	}
	cells := []table.Cell{
		table.Text(named(a, loads)), table.Strong(page.Amps(float64(l.Amps))), table.Text(starts(l)), fuse, table.Text(lowest(a, l)), dropCell(l),
	}
	return table.Row{Cells: append(cells, onCells(a, l)...)}
}

// named are the plain names of loads that share a line.
func named(a page.Ask, loads []chosen.Load) string {
	if len(loads) == 1 {
		return a.LoadWords(loads[0].Name)
	}
	var names []string
	for _, l := range loads {
		names = append(names, l.Name)
	}
	return strings.Join(page.LoadNames(a, names), ", ")
}

// starts is the starting current with its time, "" of a load that has none.
func starts(l chosen.Load) string {
	if l.StartAmps <= 0 {
		return ""
	}
	text := page.Amps(float64(l.StartAmps))
	if l.StartFor > 0 {
		text += ", " + strings.TrimSuffix(l.StartFor.String(), " s")
	}
	return text
}

// lowest is a load's lowest voltage with the letter of the state.
func lowest(a page.Ask, l chosen.Load) string {
	text := page.Figure(float64(l.Volts), 2)
	for i, b := range a.R.Budgets {
		if a.H.States[b.State].Name == l.State {
			return text + " " + page.StateLetter(i)
		}
	}
	return text
}

// onCells shows the states in which a load is on: a dot for each, or their letters.
func onCells(a page.Ask, l chosen.Load) []table.Cell {
	var dots []table.Cell
	var on []int
	for i, b := range a.R.Budgets {
		is := slices.Contains(l.On, a.H.States[b.State].Name)
		dots = append(dots, dot(is))
		if is {
			on = append(on, i)
		}
	}
	if len(dots) > mostDots {
		return []table.Cell{table.Text(page.StateLetters(on))}
	}
	return dots
}

// dropCell is the conductors' drop against its limit, bold when over.
func dropCell(l chosen.Load) table.Cell {
	drop := float64(l.FeedDrop + l.ReturnDrop)
	c := table.Cell{S: page.Figure(drop, 2)}
	if l.Limit > 0 {
		c.S += " of " + page.Figure(float64(l.Limit), 2)
		c.Bold = drop > float64(l.Limit)+0.005
	}
	return c
}

// dot is filled when the load is on, a small ring of a point when it is off.
func dot(on bool) table.Cell {
	return table.Cell{Draw: &table.Drawing{W: 2.2, H: 3, Draw: func(c *sheet.Canvas, r sheet.Rect) {
		x, y := r.X+r.W/2, r.Y+r.H/2
		if on {
			c.Circle(x, y, 1.1, sheet.Filled(sheet.Ink))
			return
		}
		c.Circle(x, y, 0.25, sheet.Filled(sheet.Rule))
	}}}
}
