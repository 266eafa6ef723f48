package guide

import (
	"slices"
	"strings"

	"example.com/loomfolio/layout/frame"
	"example.com/loomfolio/layout/page"
	"example.com/loomfolio/layout/sheet"
	"example.com/loomfolio/layout/typeface"
	"example.com/loomfolio/sizing/colour"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/rating"
	"example.com/loomfolio/sizing/unit"
)

// ReadingGuide explains how to read the packet: wire names and lines, the symbols and colours that
// occur in it, and for who builds it and for the archive units, terminal numbers and the
// design rules; the sources behind the sizes are for the archive alone.
func ReadingGuide(a page.Ask) []frame.Page {
	s := page.Open(a.Upright(), "Reading guide", "sheet/reading-guide", "")
	wireNames(a, s)
	symbols(a, s)
	colours(a, s)
	if a.For != page.Customer {
		items := headed("Units and terms", "", units(a))
		items = append(items, headed("Terminal numbers", designationRemark(a), designations(a))...)
		items = append(items, headed("Design rules used", "The sizes hold for these alone; the description can change each.", designRules(a))...)
		columned(s, 2, items)
	}
	if a.For == page.Archive {
		sources(a, s)
	}
	return s.Close()
}

// wireNames shows a flag of this harness taken apart, and the three line weights.
func wireNames(a page.Ask, s *page.Book) {
	id, ok := example(a)
	if !ok {
		return
	}
	s.Head("How a wire is named and drawn", 45)
	dissected(a, s, id)
	s.Say("A wire keeps its name from end to end; at a splice, fuse, switch or connector another wire begins. The letters I and O are not used. Both ends carry the name on a sleeve.", sheet.Plain(sheet.SizeBody))
	s.Down(1)
	weights(a, s)
}

// example picks the wire for the example: the first with a tracer, else the first.
func example(a page.Ask) (harness.WireID, bool) {
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
	s.Say("A line has the wire's colour in a dark outline, its tracer as dashes along the middle. Its weight tells the size:", sheet.Plain(sheet.SizeBody))
	step := s.Room.W / 3
	for i, k := range kinds {
		x, y := s.Room.X+step*float64(i), s.Room.Y+2.2
		page.Strand(&s.C, []sheet.Point{{X: x + 1, Y: y}, {X: x + 14, Y: y}}, pair, k.width)
		s.C.Text(x+17, y+1.2, k.text, sheet.Plain(sheet.SizeBody))
	}
	s.Down(4.4)
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

// colours shows each colour that occurs, with its letters and its name, as many in a row as fit.
func colours(a page.Ask, s *page.Book) {
	used := coloursUsed(a)
	if len(used) == 0 {
		return
	}
	const least, high = 27, 5
	across := min(max(1, int(s.Room.W/least)), len(used))
	rows := (len(used) + across - 1) / across
	remark := "Letters by IEC 60757: the insulation, after the slash its tracer (stripe). Shades differ between makers: go by letters and name."
	if slices.ContainsFunc(used, ours) {
		remark += " TN, LBU and LGN are letters of our own, not in IEC 60757."
	}
	s.Head2("Colours", remark, high*float64(rows))
	wide := s.Room.W / float64(across)
	for i, l := range used {
		x, y := s.Room.X+wide*float64(i%across), s.Room.Y+high*float64(i/across)
		page.Swatch(&s.C, sheet.Rect{X: x, Y: y + 0.6, W: 8, H: 3.2}, colour.Pair{Base: l})
		s.C.Text(x+9.2, y+3.4, l, sheet.Strong(sheet.SizeBody))
		name := typeface.Width(l, sheet.Bold, sheet.SizeBody) + 1.2
		s.C.Text(x+9.2+name, y+3.4, colour.Name(l), sheet.Plain(sheet.SizeBody))
	}
	s.Down(high*float64(rows) + 1.5)
}

// coloursUsed are the letters of insulations and tracers, in the order of the code.
func coloursUsed(a page.Ask) []string {
	met := map[string]bool{}
	for _, w := range a.H.Wires {
		p := a.Pair(w.ID)
		met[p.Base], met[p.Tracer] = true, true
	}
	var used []string
	for _, l := range colour.Letters() {
		if met[l] {
			used = append(used, l)
		}
	}
	return used
}

// ours tells whether a colour's letters are none of IEC 60757.
func ours(l string) bool { return l == "TN" || l == "LBU" || l == "LGN" }

// units says in which units the figures are, and against which point voltages are measured.
func units(a page.Ask) []item {
	length := "millimetres (mm); sums in metres"
	if a.H.Sheet.Imperial {
		length = "feet and inches, to the nearest eighth of an inch"
	}
	gauge := map[unit.System][2]string{
		unit.Metric: {"Wire sizes", "square millimetres of copper (mm²); a size in mm is a diameter, not an area"},
		unit.AWG:    {"Gauges", "American wire gauge (AWG), by ASTM B258"},
		unit.SAE:    {"Gauges", "SAE gauge (ga), by SAE J1128: its copper is a little less than that of the AWG size of the same number"},
	}[a.H.Sheet.Gauge]
	against := "the battery's negative post"
	if a.H.System.PositiveEarth {
		against = "the battery's positive post (this vehicle has positive ground), so live points read below zero"
	}
	return entriesOf([][2]string{
		{"Lengths", length},
		gauge,
		{"Currents, voltages", "amperes (A), volts (V), millivolts (mV); voltages are against " + against},
		{"Feed, return", "the way from the source to a load, and from the load back"},
		{"Drop", "the voltage that feed and return together lose before it reaches the load"},
		{"Ground offset", "volts between a ground and the battery's grounded post"},
		{"FAN.+, K1.30", "a terminal: the part's reference, a dot, the terminal's number"},
		{"Sheet 7, C3", "sheet 7, in the field where row C and column 3 of the border meet"},
	})
}

// entriesOf makes names in bold with what is said of them behind.
func entriesOf(pairs [][2]string) []item {
	var out []item
	for _, p := range pairs {
		if p[1] != "" {
			out = append(out, item{label: p[0], text: p[1], size: sheet.SizeBody, clear: 0.9})
		}
	}
	return out
}
