package guide

import (
	"fmt"
	"maps"
	"slices"
	"strings"

	"example.com/loomfolio/layout/frame"
	"example.com/loomfolio/layout/page"
	"example.com/loomfolio/layout/sheet"
	"example.com/loomfolio/layout/table"
	"example.com/loomfolio/sizing/colour"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/rating"
	"example.com/loomfolio/sizing/unit"
)

// ReadingGuide explains how to read the packet: symbols, colours, wire names and
// lines, units, the practice in force and the published sources behind the sizes.
func ReadingGuide(a page.Ask) []frame.Page {
	s := page.Open(a.Upright(), "Reading guide", "sheet/reading-guide", "How to read the other sheets, and what decided the sizes")
	wireNames(a, s)
	symbols(a, s)
	colours(a, s)
	units(a, s)
	practice(a, s)
	designations(a, s)
	sources(a, s)
	return s.Close()
}

// wireNames shows a flag of this harness taken apart, and the three line weights.
func wireNames(a page.Ask, s *page.Book) {
	id, ok := shown(a)
	if !ok {
		return
	}
	s.Head("How a wire is named and drawn", 60)
	dissected(a, s, id)
	s.Say("A wire keeps its name from end to end; at a splice, fuse, switch or connector another wire begins. The letters I and O are not used. Both ends carry the name on a sleeve.", sheet.Plain(sheet.SizeBody))
	s.Down(2)
	weights(a, s)
}

// shown picks the wire for the example: the first with a tracer, else the first.
func shown(a page.Ask) (harness.WireID, bool) {
	for _, w := range a.H.Wires {
		if a.Pair(w.ID).Tracer != "" {
			return w.ID, true
		}
	}
	return 0, len(a.H.Wires) > 0
}

// splitName parts a wire's name into its circuit's number and its letter; an own
// name stays whole.
func splitName(name, number string) (string, string) {
	if rest, ok := strings.CutPrefix(name, number); ok && number != "" && rest != "" {
		return number, rest
	}
	return "", name
}

// weights draws the three line weights beside each other.
func weights(a page.Ask, s *page.Book) {
	pair := colour.Pair{Base: "YE", Tracer: "BK"}
	kinds := []struct {
		width float64
		text  string
	}{{page.ThinLine, "up to 1 mm²"}, {page.MediumLine, "above 1, up to 4 mm²"}, {page.HeavyLine, "above 4 mm²"}}
	if system := a.H.Sheet.Gauge; system != unit.Metric {
		thin, medium := heaviest(system, page.ThinLine), heaviest(system, page.MediumLine)
		kinds[0].text = thin + " and thinner"
		kinds[1].text = "above " + thin + ", up to " + medium
		kinds[2].text = "above " + medium
	}
	s.Need(22)
	s.Say("In a diagram the line has the wire's colour inside a dark outline; the tracer runs along its middle as dashes. Three weights tell how heavy the conductor is:", sheet.Plain(sheet.SizeBody))
	step := s.Room.W / 3
	for i, k := range kinds {
		x, y := s.Room.X+step*float64(i), s.Room.Y+3.5
		page.Strand(&s.C, []sheet.Point{{X: x + 1, Y: y}, {X: x + 14, Y: y}}, pair, k.width)
		s.C.Text(x+17, y+1.2, k.text, sheet.Plain(sheet.SizeBody))
	}
	s.Down(9)
}

// heaviest is the heaviest size of a gauge system that is drawn no wider than a line weight.
func heaviest(system unit.System, weight float64) string {
	var most rating.Conductor
	for _, c := range rating.Sizes(system) {
		if page.LineWeight(float64(c.Area)) <= weight && c.Area > most.Area {
			most = c
		}
	}
	return most.Gauge.String()
}

// colours lists each colour letter used, its name and how many wires have it.
func colours(a page.Ask, s *page.Book) {
	bases, tracers := map[string]int{}, map[string]int{}
	for _, w := range a.H.Wires {
		p := a.Pair(w.ID)
		bases[p.Base]++
		if p.Tracer != "" {
			tracers[p.Tracer]++
		}
	}
	var used []string
	for _, l := range colour.Letters() {
		if bases[l]+tracers[l] > 0 {
			used = append(used, l)
		}
	}
	if len(used) == 0 {
		return
	}
	grid := &table.Table{Columns: []table.Column{{Title: "Letters"}, {Title: "Colour", Weight: 1}, {Title: "Wires", Align: table.Right}, {Title: "Tracers", Align: table.Right}}}
	grid.Columns = append(append(grid.Columns, table.Column{Min: 8, Max: 8}), grid.Columns...)
	half := (len(used) + 1) / 2
	for i := range half {
		row := table.Row{Cells: colourCells(used[i], bases, tracers)}
		if i+half < len(used) {
			row.Cells = append(row.Cells, table.Cell{})
			row.Cells = append(row.Cells, colourCells(used[i+half], bases, tracers)...)
		}
		grid.Rows = append(grid.Rows, row)
	}
	s.Whole("Colours", "The letters follow IEC 60757; the first is the insulation, the one after the slash its tracer (stripe). Shades differ between makers: go by letters and name.", grid)
}

func colourCells(l string, bases, tracers map[string]int) []table.Cell {
	name := table.Text(colour.Name(l))
	switch l {
	case "TN", "LBU", "LGN":
		name.Note = "not in IEC 60757; letters of our own"
	}
	number := func(n int) table.Cell {
		if n == 0 {
			return table.Text("–")
		}
		return table.Text(fmt.Sprint(n))
	}
	return []table.Cell{{S: l, Bold: true, Draw: page.SwatchDrawing(colour.Pair{Base: l})}, name, number(bases[l]), number(tracers[l])}
}

// units says in which units the figures are, and against which point voltages are measured.
func units(a page.Ask, s *page.Book) {
	length := "millimetres (mm); sums in metres"
	if a.H.Sheet.Imperial {
		length = "feet and inches, to the nearest eighth of an inch"
	}
	gauge := map[unit.System]string{
		unit.Metric: "square millimetres of copper (mm²); a size in mm is something else",
		unit.AWG:    "American wire gauge (AWG), by ASTM B258",
		unit.SAE:    "SAE gauge (ga), by SAE J1128: its copper is a little less than that of the AWG size of the same number",
	}[a.H.Sheet.Gauge]
	against := "the battery's negative post"
	if a.H.System.PositiveEarth {
		against = "the battery's positive post (this vehicle has positive earth), so live points read below zero"
	}
	s.Whole("Units and short words", "", pairsTable([][2]string{
		{"Lengths", length},
		{"Wire sizes", gauge},
		{"Currents, voltages", "amperes (A), volts (V), thousandths of a volt (mV); voltages are against " + against},
		{"Feed, return", "the way from the source to a load, and from the load back"},
		{"Drop", "the voltage that feed and return together lose before it reaches the load"},
		{"Offset", "the voltage between a ground point and the battery's earthed post"},
		{"FAN.+, K1.30", "a terminal: the part's reference, a dot, the terminal's number (numbers by DIN 72552 where it has one)"},
		{"Sheet 7, C3", "sheet 7, in the field where row C and column 3 of the border meet"},
	}))
}

func pairsTable(pairs [][2]string) *table.Table {
	t := &table.Table{NoHead: true, Columns: []table.Column{{Min: 36, Max: 46}, {Weight: 1}}}
	for _, p := range pairs {
		t.Rows = append(t.Rows, table.Row{Cells: []table.Cell{table.Strong(p[0]), table.Text(p[1])}})
	}
	return t
}

// practice states the rules in force for this harness.
func practice(a page.Ask, s *page.Book) {
	s.Whole("The practice in force", "The sizes hold for this practice alone; the description can change each line.", pairsTable(practiceLines(a)))
}

func practiceLines(a page.Ask) [][2]string {
	p := a.H.Practice
	method := map[string]string{
		"computed": "computed: all wires together, the least copper that keeps drop, heat, protection and handling",
		"abyc-e11": "ABYC E-11, wire by wire: circular mils = 10.75 × amperes × feet ÷ volts allowed, copper at 20 °C",
		"ac43-13":  "FAA AC 43.13-1B, wire by wire: tables 11-6 and 11-9, copper at 20 °C",
	}[p.Method]
	current := map[string]string{
		"abyc":     "the table of ABYC E-11, with its factors for ambient and bundle",
		"computed": "heat balance of each wire beside the others in its run; its resistance at the temperature it reaches",
	}[p.Ampacity]
	switch p.Method {
	case "abyc-e11":
		current = "the table of ABYC E-11, with its factors for ambient and bundle"
	case "ac43-13":
		current = "FAA AC 43.13-1B table 11-9, large bundles at 70 °C"
	}
	smallest := "the smallest of the size system"
	if p.Smallest.Given() {
		smallest = p.Smallest.String()
	}
	series := "wires in series without a branch take one size, and so do the cables that crank the engine"
	if p.Mixed {
		series = "wires in series may differ in size"
	}
	imperial := a.H.Sheet.Imperial
	lines := [][2]string{
		{"Allowed drop", dropWords(a)},
		{"Method", page.Or(method, p.Method)},
		{"Current of a wire", current},
		{"Insulation", insulationWords(p.Insulation)},
		{"Smallest size", smallest + "; " + series},
		{"Fuse load", fmt.Sprintf("a fuse runs at no more than %s of its rating; none is chosen below %s, and stocked ratings come first", p.FuseLoad, p.LeastFuse)},
		{"Length", fmt.Sprintf("run and tails, plus %s at each end, plus %s for dressing, rounded up to %s",
			unit.LengthText(p.EachEnd, imperial), p.Dress, unit.LengthText(p.RoundUp, imperial))},
		{"Colours", fmt.Sprintf("grounds %s, feeds straight from the battery %s", letters(p.GroundColour), letters(p.FeedColour))},
		{"Handled as one", unitWords(a)},
		{"Pull-out force", pullWords(p.Pull)},
	}
	return slices.DeleteFunc(lines, func(l [2]string) bool { return l[1] == "" })
}

// unitWords says how twists and screens are made and what a cable's cores count as;
// "" where there are none.
func unitWords(a page.Ask) string {
	p, imperial := a.H.Practice, a.H.Sheet.Imperial
	var words []string
	has := func(test func(*harness.Unit) bool) bool {
		return slices.ContainsFunc(a.H.Units, func(u harness.Unit) bool { return test(&u) })
	}
	if has(func(u *harness.Unit) bool { return len(a.R.Units[u.ID].Twists) > 0 }) {
		lay := "a lay by the thickest wire (FAA AC 43.13-1B, from memory)"
		if p.Lay > 0 {
			lay = "a lay of " + unit.LengthText(p.Lay, imperial)
		}
		words = append(words, "wires of a twist are cut to one length, longer by its turns at "+lay)
	}
	if has(func(u *harness.Unit) bool { return u.HasScreen() }) {
		words = append(words, "a screen is earthed at one end alone (common practice, no source)")
	}
	if has(func(u *harness.Unit) bool { return u.Kind == harness.Cabled }) {
		words = append(words, "cores of a cable count as a bundle under its sheath")
	}
	return strings.Join(words, "; ")
}

func letters(l string) string {
	if n := colour.Name(l); n != "" {
		return l + " (" + n + ")"
	}
	return page.Or(l, "not fixed")
}

// dropWords lists the drop limit of each class, in volts too.
func dropWords(a page.Ask) string {
	used := map[string]bool{"default": true}
	for _, c := range a.H.Circuits {
		used[c.Class] = true
	}
	if a.H.Practice.Method == "ac43-13" {
		return "0.5 V at 14 V whatever the class (FAA AC 43.13-1B table 11-6), in proportion at other voltages; feed and return together"
	}
	var words []string
	for _, class := range slices.Sorted(maps.Keys(a.H.Practice.Drop)) {
		if !used[class] {
			continue
		}
		limit := a.H.Practice.Drop[class]
		text := class + " " + limit.String()
		if limit.Volts == 0 {
			text += fmt.Sprintf(" (%s V)", page.Figure(float64(limit.Of(a.H.System.Volts)), 2))
		}
		words = append(words, text)
	}
	return strings.Join(words, "; ") + "; feed and return together, of " + a.H.System.Volts.String()
}

func insulationWords(name string) string {
	if in, ok := rating.InsulationOf(name); ok {
		return fmt.Sprintf("%s, class %s", name, in.Class)
	}
	return name
}

func pullWords(list string) string {
	return map[string]string{
		"ul-486a": "UL 486A", "mil-t-7928": "MIL-T-7928", "abyc-e11": "ABYC E-11, for one minute", "nasa-8739": "NASA-STD-8739.4",
	}[list]
}

// sources lists the documents that the figures rest on, by how each was come by, in two columns.
func sources(a page.Ask, s *page.Book) {
	if len(a.R.Sources) == 0 {
		return
	}
	t := &table.Table{NoHead: true, NoZebra: true, Size: sheet.SizeNote, Columns: []table.Column{{Weight: 1}, {Min: 3, Max: 3}, {Weight: 1}}}
	for _, kind := range []struct {
		status rating.Status
		title  string
		means  string
	}{
		{rating.Read, "Read", "the figures were taken from the document"},
		{rating.Unnamed, "Unnamed", "read, no maker named: check against the part's data sheet"},
		{rating.FromMemory, "From memory", "remembered, not looked up: check before relying on it"},
		{rating.CommonPractice, "Common practice", "what the trade does, without a document"},
	} {
		var entries []table.Cell
		for _, x := range a.R.Sources {
			if x.Status == kind.status {
				entries = append(entries, entryOf(x))
			}
		}
		if len(entries) == 0 {
			continue
		}
		t.Rows = append(t.Rows, table.Heading(kind.title, kind.means))
		half := (len(entries) + 1) / 2
		for i := range half {
			row := table.Row{Cells: []table.Cell{entries[i], {}, {}}}
			if i+half < len(entries) {
				row.Cells[2] = entries[i+half]
			}
			t.Rows = append(t.Rows, row)
		}
	}
	s.Head2("Sources that decided something here", "The documents whose figures were used, and what was taken from each.", 30)
	s.Table(t)
}

// entryOf is a source as an entry of a bibliography: the document with its part or
// table in bold, what was taken from it under that.
func entryOf(x rating.Source) table.Cell {
	document, what, ok := strings.Cut(x.Title, ": ")
	if !ok {
		return table.Text(x.Title)
	}
	return table.Cell{S: document, Bold: true, Note: page.Capital(what)}
}
