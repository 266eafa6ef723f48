// Package power lays out where the current comes from and goes back to: the load budget
// of every state, and the grounds as stacks of rings.
//
// In: page.Ask. Out: the pages of one of the two, none where there are no loads or no
// grounds. Anchors set here: sheet/load-budget, sheet/grounds, ground/REF. All lengths are mm.
package power

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"example.com/loomfolio/layout/frame"
	"example.com/loomfolio/layout/page"
	"example.com/loomfolio/layout/sheet"
	"example.com/loomfolio/layout/table"
	"example.com/loomfolio/layout/typeface"
	"example.com/loomfolio/sizing/choose/chosen"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/rating"
	"example.com/loomfolio/sizing/unit"
)

// LoadBudget is every load with its currents and the states in which it is on,
// the sum of each state against battery and alternator, and what is drawn while
// everything is off.
func LoadBudget(a page.Ask) []frame.Page {
	if len(a.R.Loads) == 0 {
		return nil
	}
	f := a.Upright()
	if n := len(a.R.Budgets); n > mostNamed {
		f = a.Landscape()
	}
	s := page.Open(f, "Load budget", "sheet/load-budget", "What each load takes, when it is on, and whether battery and alternator carry it")
	if len(a.R.Budgets) > 0 {
		s.Head2("The states", "Loads: the sum of the list below; two in series, such as a gauge and its sender, are both counted there. Capacity: what the alternator can give.", 20)
		s.Table(stateTable(a))
		s.Say(solvedWords(a), sheet.Plain(sheet.SizeNote))
		s.Down(1)
	}
	keyOff(a, s)
	thick(a, s)
	loads(a, s)
	return s.Close()
}

// solvedWords states how exactly the states are solved: by Kirchhoff's current
// law the currents at each node sum to nothing; what is left over is the error.
func solvedWords(a page.Ask) string {
	worst := 0.0
	for i := range a.R.States {
		worst = max(worst, a.R.States[i].Residual)
	}
	bound := "1\u00a0nA" // what the solver promises, 1e-9 A
	if worst >= 1e-9 {
		bound = page.Figure(worst*1000, 6) + "\u00a0mA"
	}
	return "Solved so that in every state the currents balance at every node to within " + bound + "."
}

// mostNamed is how many states have their names over the columns; more have numbers alone.
const mostNamed = 9

// mostDots is how many states have a column of dots; more are listed by number.
const mostDots = 11

func stateTable(a page.Ask) *table.Table {
	t := &table.Table{Columns: []table.Column{
		{Title: "No.", Align: table.Right}, {Title: "State", Weight: 1}, {Title: "Loads", Unit: "A", Align: table.Decimal},
		{Title: "Battery gives", Unit: "A", Align: table.Decimal}, {Title: "Alternator gives", Unit: "A", Align: table.Decimal},
		{Title: "Capacity", Unit: "A", Align: table.Decimal}, {Title: "Balance", Min: 30},
	}}
	for i, b := range a.R.Budgets {
		state := a.H.States[b.State]
		battery, charger := delivered(a, b)
		can := table.Text("–")
		if b.Alternator > 0 {
			can = table.Text(page.Amps(float64(b.Alternator)))
		}
		alternator := table.Text("–")
		if b.Alternator > 0 {
			alternator = table.Text(page.Amps(charger))
		}
		given := table.Text(page.Amps(battery))
		if undrawn(a, b) {
			given = table.Text("–")
		}
		t.Rows = append(t.Rows, table.Row{Cells: []table.Cell{
			table.Strong(fmt.Sprint(i + 1)), {S: state.Name, Bold: true, Note: settings(a, state)},
			table.Strong(page.Amps(float64(b.Loads))), given, alternator, can, balance(a, b),
		}})
	}
	return t
}

// delivered sums what batteries and alternators give in a state, in A; a battery
// being charged counts below zero, a series string once.
func delivered(a page.Ask, b chosen.Budget) (battery, charger float64) {
	for _, e := range a.H.Elements {
		switch e.Kind {
		case harness.EMF:
			battery += float64(b.Sources[e.Name]) * float64(e.Holds())
		case harness.Charger:
			charger += float64(b.Sources[e.Name])
		}
	}
	return battery, charger
}

// balance says whether the alternator carries the state's loads.
func balance(a page.Ask, b chosen.Budget) table.Cell {
	spare := float64(b.Alternator - b.Loads)
	switch {
	case b.KeyOff:
		return table.Text("key off: see below")
	case undrawn(a, b):
		return table.Cell{S: "vehicle's own charging system, not shown", Note: "battery held at " + a.H.System.Running.String()}
	case b.Alternator <= 0:
		return table.Text("from the battery alone")
	case spare < 0:
		return table.Cell{S: "short by " + page.Amps(-spare) + " A", Bold: true, Note: "the battery is drained"}
	}
	return table.Text(page.Amps(spare) + " A to spare")
}

// undrawn tells whether the engine runs but the harness draws nothing that
// charges: the battery then stands for the vehicle's own charging.
func undrawn(a page.Ask, b chosen.Budget) bool {
	if a.H.States[b.State].Engine != harness.EngineRunning {
		return false
	}
	return !slices.ContainsFunc(a.H.Elements, func(e harness.Element) bool { return e.Kind == harness.Charger })
}

// settings says how a state is set: the switches that are not at rest and the engine.
func settings(a page.Ask, s harness.State) string {
	var words []string
	for id, pos := range s.Position {
		if p := a.Part(harness.PartID(id)); pos > 0 && p != nil && pos < len(p.Positions) {
			words = append(words, a.Plain(p)+" "+p.Positions[pos])
		}
	}
	if len(words) == 0 {
		words = append(words, "all switches at rest")
	}
	if s.Engine != "" {
		words = append(words, "engine "+string(s.Engine))
	}
	return strings.Join(words, ", ")
}

// keyOff says what is drawn with everything off and how long the battery lasts.
func keyOff(a page.Ask, s *page.Book) {
	for _, b := range a.R.Budgets {
		if !b.KeyOff {
			continue
		}
		s.Head("Key off", 12)
		s.Say(keyOffWords(a, b), sheet.Plain(sheet.SizeBody))
		s.Down(1)
		if len(b.Drains) > 0 {
			s.Table(drainTable(a, b))
		}
		s.Say(restWords(a), sheet.Plain(sheet.SizeNote))
		s.Down(1)
		return
	}
}

// restWords says by which voltage a battery's charge is known.
func restWords(a page.Ask) string {
	var words []string
	for _, r := range rating.RestVoltages(a.H.System.Volts) {
		words = append(words, fmt.Sprintf("%s\u00a0V at %s", page.Figure(float64(r.Volts), 2), strings.ReplaceAll(r.Charge.String(), " ", "\u00a0")))
	}
	return "How full a lead-acid battery is, from its voltage with nothing connected, hours after it was charged: " + page.And(words) + " (a magazine's battery test" +
		scaled(a.H.System.Volts) + ")."
}

// scaled says that the table, which is for 12 V, was taken in proportion.
func scaled(nominal unit.Volt) string {
	if nominal == 12 {
		return ""
	}
	return " at 12\u00a0V, in proportion"
}

// drainTable says through which fuses the current with everything off flows, so
// that pulling one fuse after another must show these steps on the meter.
func drainTable(a page.Ask, b chosen.Budget) *table.Table {
	t := &table.Table{Columns: []table.Column{
		{Title: "What draws it, by fuse"}, {Title: "Draws", Unit: "mA", Align: table.Decimal}, {Title: "Share", Unit: "%", Align: table.Decimal}, {Title: "Loads", Weight: 1},
	}}
	for _, d := range b.Drains {
		fuse := table.Cell{S: "no fuse"}
		if d.Fuse != harness.None {
			fuse = table.Cell{S: strings.TrimSuffix(d.Name+", "+ratingOf(a, d.Name), ", "), Bold: true, Link: a.Link("fuse/" + d.Name)}
		}
		var words []string
		for _, name := range d.Loads {
			words = append(words, a.LoadWords(name))
		}
		t.Rows = append(t.Rows, table.Row{Cells: []table.Cell{
			fuse, table.Text(page.Figure(float64(d.Amps)*1000, 1)), table.Text(page.Figure(float64(d.Share)*100, 0)), table.Text(strings.Join(words, ", ")),
		}})
	}
	return t
}

func keyOffWords(a page.Ask, b chosen.Budget) string {
	battery, _ := delivered(a, b)
	if battery < 0.0005 {
		return fmt.Sprintf("In state %q nothing is drawn from the battery.", a.H.States[b.State].Name)
	}
	text := fmt.Sprintf("In state %q the battery gives %s mA, which is %s Ah a day.", a.H.States[b.State].Name,
		page.Figure(battery*1000, 0), page.Figure(battery*24, 2))
	var ah float64
	for i := range a.H.Parts {
		ah += float64(a.H.Parts[i].Capacity)
	}
	switch {
	case len(b.Batteries) > 1:
		return text + batteriesWords(a, b)
	case b.Days > 0 && ah > 0:
		return text + fmt.Sprintf(" A full battery of %s Ah lasts %s. %s", page.Figure(ah, 0), days(b.Days), daysBasis(b.Days, ah, battery))
	case b.Days > 0:
		return text + fmt.Sprintf(" The battery lasts %s.", days(b.Days))
	}
	return text + " The battery's capacity is not given, so how long it lasts is not computed."
}

// batteriesWords says of several batteries what each gives and how long it lasts.
func batteriesWords(a page.Ask, b chosen.Budget) string {
	text := ""
	for _, r := range b.Batteries {
		amps := float64(r.Amps)
		p := a.Part(a.H.Elements[r.Battery].Part)
		text += fmt.Sprintf(" %s gives %s mA, %s Ah a day", r.Name, page.Figure(amps*1000, 0), page.Figure(amps*24, 2))
		if r.Days > 0 {
			text += fmt.Sprintf("; of %s Ah it lasts %s", page.Figure(float64(p.Capacity), 0), days(r.Days))
		}
		text += "."
	}
	for _, r := range b.Batteries {
		if p := a.Part(a.H.Elements[r.Battery].Part); r.Days > 0 {
			return text + " " + daysBasis(r.Days, float64(p.Capacity), float64(r.Amps))
		}
	}
	return text
}

// daysBasis names what the days rest on, by the share of the capacity that they use up.
func daysBasis(d, ah, amps float64) string {
	share := d * 24 * amps / ah
	if math.Abs(share-1) < 0.02 {
		return "Assumed: its whole capacity is used, a constant draw, no self-discharge. To start the engine it needs much of that, so halve the time for a car that is to start."
	}
	return fmt.Sprintf("Assumed: %s %% of its capacity may be used, a constant draw, no self-discharge.", page.Figure(share*100, 0))
}

func days(d float64) string {
	switch {
	case d >= 365:
		return "more than a year"
	case d >= 10:
		return page.Figure(d, 0) + " days"
	case d >= 2:
		return page.Figure(d, 1) + " days"
	}
	return page.Figure(d*24, 0) + " hours"
}

// dotColumn is the width of a state's column.
const dotColumn = 6.3

// loads sets the table of loads, the states' names turned over their columns.
func loads(a page.Ask, s *page.Book) {
	t := loadTable(a, s.Room.W)
	remark := "A filled dot: the load draws current in that state. "
	if len(a.R.Budgets) > mostDots {
		remark = "The states in which a load draws current stand in the last column, by their numbers. "
	}
	remark += "Lowest: the voltage across the load in its worst state, with what fuses and contacts take. Voltage drop: in the wires of feed and return, which the limit is for."
	over := namesHeight(a)
	s.Head2("The loads", remark, over+25)
	first, rest := s.Room.Below(s.Room.Y+over), s.Rest()
	rest = rest.Below(rest.Y + over)
	for i, part := range t.Flow(first, rest) {
		if i > 0 {
			s.Turn()
		}
		if len(part.Marks) > 0 && over > 0 {
			namesOver(a, s, s.Room.Y+over)
		}
		s.C.Add(part.Marks...)
		s.Room = s.Room.Below(part.Bottom)
	}
}

// namesHeight is the room of the turned names, 0 when there are too many states.
func namesHeight(a page.Ask) float64 {
	if n := len(a.R.Budgets); n == 0 || n > mostNamed {
		return 0
	}
	high := 0.0
	for _, b := range a.R.Budgets {
		for _, line := range turned(a.H.States[b.State].Name) {
			high = max(high, typeface.Width(line, sheet.Regular, sheet.SizeNote))
		}
	}
	return high + 1.5
}

const mostTurned = 34 // longest line of a turned name, mm

func turned(name string) []string {
	lines := typeface.Wrap(name, sheet.Regular, sheet.SizeNote, mostTurned)
	if len(lines) > 2 {
		lines[1] = typeface.Fit(strings.Join(lines[1:], " "), sheet.Regular, sheet.SizeNote, mostTurned)
		lines = lines[:2]
	}
	return lines
}

// namesOver turns the states' names over the last columns of a table whose head begins at y.
func namesOver(a page.Ask, s *page.Book, y float64) {
	n := len(a.R.Budgets)
	for i, b := range a.R.Budgets {
		x := s.Room.Right() - dotColumn*(float64(n-i)-0.5)
		lines := turned(a.H.States[b.State].Name)
		for k, line := range lines {
			dx := (float64(k)-float64(len(lines)-1)/2)*3.15 + 1
			st := sheet.Plain(sheet.SizeNote)
			st.Turn = 90
			s.C.Text(x+dx, y-0.5, line, st)
		}
		if i > 0 {
			edge := s.Room.Right() - dotColumn*float64(n-i)
			s.C.Line(edge, y-namesHeight(a)+1, edge, y, sheet.Solid(sheet.Hair).In(sheet.Rule))
		}
	}
}

// loadTable has a line for each load; on a lying sheet its place has a column of its own.
func loadTable(a page.Ask, room float64) *table.Table {
	t := &table.Table{Columns: []table.Column{{Title: "Load", Weight: 1, Min: 30}}}
	placed := room > roomForPlace
	if placed {
		t.Columns = append(t.Columns, table.Column{Title: "Where", Weight: 1})
	}
	t.Columns = append(t.Columns,
		table.Column{Title: "Runs", Unit: "A", Align: table.Decimal}, table.Column{Title: "Starts", Unit: "A, for s", Align: table.Right},
		table.Column{Title: "Fuse"}, table.Column{Title: "Lowest", Unit: "V, in state", Align: table.Decimal}, table.Column{Title: "Voltage drop", Unit: "of limit, V"})
	if len(a.R.Budgets) > mostDots {
		t.Columns = append(t.Columns, table.Column{Title: "On in states", Weight: 1, Min: 25})
	} else {
		for i := range a.R.Budgets {
			t.Columns = append(t.Columns, table.Column{Title: fmt.Sprint(i + 1), Align: table.Centre, Min: dotColumn, Max: dotColumn})
		}
	}
	for _, l := range a.R.Loads {
		t.Rows = append(t.Rows, loadRow(a, l, placed))
	}
	if len(a.R.Budgets) <= mostDots {
		t.Rows = append(t.Rows, loadSum(a, placed))
	}
	return t
}

// roomForPlace is the width from which the place of a load finds a column.
const roomForPlace = 220

func loadRow(a page.Ask, l chosen.Load, placed bool) table.Row {
	name := table.Text(a.LoadWords(l.Name))
	at := a.At(a.Part(a.H.Elements[l.Element].Part))
	start := ""
	if l.StartAmps > 0 {
		start = page.Amps(float64(l.StartAmps))
		if l.StartFor > 0 {
			start += ", " + strings.TrimSuffix(l.StartFor.String(), " s")
		}
	}
	fuse := table.Cell{S: strings.TrimSuffix(l.ProtectedBy+", "+page.Firm(ratingOf(a, l.ProtectedBy)), ", "), Link: a.Link("fuse/" + l.ProtectedBy)}
	if l.ProtectedBy == "" {
		fuse = table.Cell{S: "none"}
	}
	cells := []table.Cell{name}
	if placed {
		cells = append(cells, table.Cell{S: at, Colour: &sheet.Grey})
	} else {
		cells[0].Note = at
	}
	volts := strings.TrimSuffix(page.Figure(float64(l.Volts), 2)+" "+worstState(a, l), " ")
	cells = append(cells, table.Strong(page.Amps(float64(l.Amps))), table.Text(start), fuse, table.Text(volts), dropCell(l, float64(l.FeedDrop+l.ReturnDrop)))
	return table.Row{Cells: append(cells, onCells(a, l)...)}
}

// onCells shows the states in which a load is on: a dot for each, or their numbers.
func onCells(a page.Ask, l chosen.Load) []table.Cell {
	var dots []table.Cell
	var numbers []string
	for i, b := range a.R.Budgets {
		on := slices.Contains(l.On, a.H.States[b.State].Name)
		dots = append(dots, dot(on))
		if on {
			numbers = append(numbers, fmt.Sprint(i+1))
		}
	}
	if len(dots) > mostDots {
		return []table.Cell{table.Text(page.Ranges(numbers))}
	}
	return dots
}

// dropCell is the conductors' drop against its limit, bold when over.
func dropCell(l chosen.Load, drop float64) table.Cell {
	c := table.Cell{S: page.Figure(drop, 2)}
	if l.Limit > 0 {
		c.S += " of " + page.Figure(float64(l.Limit), 2)
		c.Bold = drop > float64(l.Limit)+0.005
	}
	return c
}

// worstState is the number of the state in which a load has its lowest voltage.
func worstState(a page.Ask, l chosen.Load) string {
	for i, b := range a.R.Budgets {
		if a.H.States[b.State].Name == l.State {
			return fmt.Sprintf("in %d", i+1)
		}
	}
	return ""
}

func ratingOf(a page.Ask, fuse string) string {
	for _, f := range a.R.Fuses {
		if f.Name == fuse && f.Rating > 0 {
			return f.Rating.String()
		}
	}
	return ""
}

// dot is filled when the load is on, a small ring of a point when it is off.
func dot(on bool) table.Cell {
	return table.Cell{Draw: &table.Drawing{W: 3, H: 3, Draw: func(c *sheet.Canvas, r sheet.Rect) {
		x, y := r.X+r.W/2, r.Y+r.H/2
		if on {
			c.Circle(x, y, 1.3, sheet.Filled(sheet.Ink))
			return
		}
		c.Circle(x, y, 0.3, sheet.Filled(sheet.Rule))
	}}}
}

// loadSum counts in the last row how many loads each state turns on.
func loadSum(a page.Ask, placed bool) table.Row {
	cells := []table.Cell{{S: "Loads on", Span: 6}}
	if placed {
		cells[0].Span++
	}
	for _, b := range a.R.Budgets {
		n := 0
		for _, l := range a.R.Loads {
			if slices.Contains(l.On, a.H.States[b.State].Name) {
				n++
			}
		}
		cells = append(cells, table.Cell{S: fmt.Sprint(n), Size: sheet.SizeNote})
	}
	return table.Row{Kind: table.Sum, Cells: cells}
}
