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
	"example.com/loomfolio/sizing/choose/chosen"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/rating"
	"example.com/loomfolio/sizing/unit"
)

// LoadBudget is the sum of each state against battery and alternator, every load with its
// currents and the states in which it is on, and what is drawn while everything is off.
func LoadBudget(a page.Ask) []frame.Page {
	if len(a.R.Loads) == 0 {
		return nil
	}
	s := page.Open(a.Upright(), "Load budget", "sheet/load-budget", "")
	if len(a.R.Budgets) > 0 {
		s.Table(stateTable(a))
		if words := behindWords(a); words != "" {
			s.Remark(words)
		}
		s.Remark("Loads: the sum of the list below; two in series, such as a gauge and its sender, are both counted. " + chargingWords(a) + solvedWords(a))
	}
	loads(a, s)
	besides(a, s)
	return s.Close()
}

// besides sets what is drawn with everything off and what makes cables thick, side by side
// where there are both; the lower column takes how full a battery is.
func besides(a page.Ask, s *page.Book) {
	t := thickTable(a)
	rest := func(s *page.Book) { s.Remark(restWords(a)) }
	off := slices.IndexFunc(a.R.Budgets, func(b chosen.Budget) bool { return b.KeyOff })
	left := func(s *page.Book) { keyOff(a, s, a.R.Budgets[off]) }
	right := func(s *page.Book) { thick(s, t) }
	switch {
	case off < 0:
		right(s)
	case len(t.Rows) == 0:
		left(s)
		rest(s)
	default:
		abreast(s, left, right, rest)
	}
}

// abreast sets two things side by side, and a third in the column that is lower.
func abreast(s *page.Book, left, right, third func(*page.Book)) {
	low, high := columnHigh(s.Frame, left), columnHigh(s.Frame, right)
	more := columnHigh(s.Frame, third)
	under := &left
	if low > high {
		under, low, high = &right, high, low
	}
	first := *under
	*under = func(s *page.Book) {
		first(s)
		third(s)
	}
	s.Need(math.Max(low+more, high) + 2)
	s.Down(2)
	s.Columns(2)
	left(s)
	s.Next()
	right(s)
	s.Columns(1)
}

// columnHigh is the height that something takes in one of two columns.
func columnHigh(f frame.Frame, set func(*page.Book)) float64 {
	s := page.Open(f, "", "", "")
	s.Columns(2)
	top := s.Room.Y
	set(s)
	return s.Room.Y - top
}

// behindWords say what hangs behind each converter in the state in which that is most; it
// counts among the loads by what the converter takes for it.
func behindWords(a page.Ask) string {
	most := map[string]chosen.Side{}
	state, order := map[string]int{}, []string{}
	for _, b := range a.R.Budgets {
		for _, x := range b.Behind {
			if _, known := most[x.Name]; !known {
				order = append(order, x.Name)
			} else if x.Loads <= most[x.Name].Loads {
				continue
			}
			most[x.Name], state[x.Name] = x, b.State
		}
	}
	var out []string
	for _, name := range order {
		x := most[name]
		out = append(out, fmt.Sprintf("%s gives %s at most; the loads behind it take %s in %s", name, page.Firm(x.Limit.String()), page.Firm(page.Amps(float64(x.Loads))+" A"), a.H.States[state[name]].Name))
	}
	if len(out) == 0 {
		return ""
	}
	return strings.Join(out, ". ") + ". Loads behind a converter count by what it takes for them."
}

// chargingWords say that the vehicle's own charging system is not in the description.
func chargingWords(a page.Ask) string {
	if !slices.ContainsFunc(a.R.Budgets, func(b chosen.Budget) bool { return undrawn(a, b) }) {
		return ""
	}
	return "The vehicle's own charging system is not shown; it holds the battery at " + page.Firm(a.H.System.Running.String()) + ". "
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

func stateTable(a page.Ask) *table.Table {
	t := &table.Table{Tight: true, Pad: statePad, Columns: []table.Column{
		{Title: ""}, {Title: "State"}, {Title: "On", Align: table.Right}, {Title: "Loads", Unit: "A", Align: table.Decimal}, {Title: "Battery gives", Unit: "A", Align: table.Decimal},
		{Title: "Alternator gives", Unit: "of, A", Align: table.Right}, {Title: "To spare", Unit: "A", Align: table.Decimal}, {Title: "Switches that are not at rest", Weight: 1, Min: 40},
	}}
	for i, b := range a.R.Budgets {
		state := a.H.States[b.State]
		battery, charger := delivered(a, b)
		alternator, given := "–", page.Amps(battery)
		if b.Alternator > 0 {
			alternator = page.Firm(page.Amps(charger) + " of " + page.Amps(float64(b.Alternator)))
		}
		if undrawn(a, b) {
			given, alternator = "–", "not shown"
		}
		t.Rows = append(t.Rows, table.Row{Cells: []table.Cell{
			table.Strong(page.StateLetter(i)), table.Strong(state.Name), table.Text(fmt.Sprint(turnedOn(a, state))), table.Strong(page.Amps(float64(b.Loads))),
			table.Text(given), table.Text(alternator), spare(b), {Note: a.Settings(state)},
		}})
	}
	return t
}

// The room over and under a line of the lists, mm.
const (
	rowPad   = 0.3
	statePad = 0.45
)

// turnedOn counts the loads that a state turns on.
func turnedOn(a page.Ask, s harness.State) int {
	n := 0
	for _, l := range a.R.Loads {
		if slices.Contains(l.On, s.Name) {
			n++
		}
	}
	return n
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

// spare is what the alternator can give above the state's loads; it is short of them where
// the battery is drained.
func spare(b chosen.Budget) table.Cell {
	left := float64(b.Alternator - b.Loads)
	switch {
	case b.KeyOff || b.Alternator <= 0:
		return table.Text("–")
	case left < 0:
		return table.Cell{S: page.Figure(left, 1), Bold: true, Note: "short: the battery is drained"}
	}
	return table.Text(page.Amps(left))
}

// undrawn tells whether the engine runs but the harness draws nothing that
// charges: the battery then stands for the vehicle's own charging.
func undrawn(a page.Ask, b chosen.Budget) bool {
	if a.H.States[b.State].Engine != harness.EngineRunning {
		return false
	}
	return !slices.ContainsFunc(a.H.Elements, func(e harness.Element) bool { return e.Kind == harness.Charger })
}

// keyOff says what is drawn with everything off and how long the battery lasts.
func keyOff(a page.Ask, s *page.Book, b chosen.Budget) {
	s.Head("Key off", 12)
	s.Say(keyOffWords(a, b), sheet.Plain(sheet.SizeBody))
	s.Down(1)
	if len(b.Drains) > 0 {
		s.Table(drainTable(a, b))
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
	t := &table.Table{Tight: true, Columns: []table.Column{
		{Title: "By fuse"}, {Title: "Draws", Unit: "mA", Align: table.Decimal}, {Title: "Share", Unit: "%", Align: table.Decimal}, {Title: "Loads", Weight: 1},
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
	text := fmt.Sprintf("In state %q the drain is %s mA, which is %s Ah a day.", a.H.States[b.State].Name,
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

func ratingOf(a page.Ask, fuse string) string {
	for _, f := range a.R.Fuses {
		if f.Name == fuse && f.Rating > 0 {
			return f.Rating.String()
		}
	}
	return ""
}
