package describe

import (
	"fmt"
	"strings"
	"time"

	"gopkg.in/yaml.v3"

	"example.com/loomfolio/sizing/source"
	"example.com/loomfolio/sizing/unit"
)

// rootKeys are the keys at the left edge of the file.
var rootKeys = []key[Description]{
	needed(custom("loomfolio", "the format's version, 1", takeVersion)),
	needed(word("title", "a title in words", func(d *Description) *Word { return &d.Title })),
	word("revision", "a revision, such as A", func(d *Description) *Word { return &d.Revision }),
	custom("date", "a date, such as 2026-11-02", takeDate),
	word("customer", "a name", func(d *Description) *Word { return &d.Customer }),
	word("builder", "a name", func(d *Description) *Word { return &d.Builder }),
	word("checked-by", "a name", func(d *Description) *Word { return &d.CheckedBy }),
	free("notes", "free text", func(d *Description) *Word { return &d.Notes }),
	within("vehicle", vehicleKeys, func(d *Description) *Vehicle { return &d.Vehicle }),
	within("sheet", sheetKeys, func(d *Description) *Sheet { return &d.Sheet }),
	needed(custom("system", "keys with values, at least volts: 12", takeSystem)),
	within("practice", practiceKeys, func(d *Description) *Practice { return &d.Practice }),
	custom("places", "a name for each place, with its keys", takePlaces),
	custom("runs", "a list of {from: …, to: …, length: …}", takeRuns),
	custom("screens", "a name for each screen, with where its drain goes", takeScreens),
	custom("cables", "a name for each cable, with its type", takeCables),
	needed(custom("parts", "a name for each part, with its keys", takeParts)),
	needed(custom("circuits", "a name for each circuit, with its legs", takeCircuits)),
	custom("states", "a name for each state, with the switches' positions", takeStates),
}

var vehicleKeys = []key[Vehicle]{
	word("name", "a name", func(v *Vehicle) *Word { return &v.Name }),
	word("identity", "a chassis number or mark", func(v *Vehicle) *Word { return &v.Identity }),
}

var sheetKeys = []key[Sheet]{
	choice("paper", unit.Papers(), func(s *Sheet) *Word { return &s.Paper }),
	choice("units", []string{"metric", "imperial"}, func(s *Sheet) *Word { return &s.Units }),
	choice("gauge", []string{"mm2", "awg", "sae"}, func(s *Sheet) *Word { return &s.Gauge }),
}

var systemKeys = []key[System]{
	needed(quantity("volts", "the nominal voltage: 6, 12, 24 or 48", func(s *System) *Value[unit.Volt] { return &s.Volts }, parseNominal)),
	volts("running", func(s *System) *Value[unit.Volt] { return &s.Running }),
	choice("earth", []string{"negative", "positive"}, func(s *System) *Word { return &s.Earth }),
	choice("return", []string{"chassis", "wired"}, func(s *System) *Word { return &s.Return }),
}

var practiceKeys = []key[Practice]{
	custom("drop", "a limit for each class, such as default: 3 %", takeDrop),
	word("insulation", "a wire family", func(p *Practice) *Word { return &p.Insulation }),
	choice("ampacity", []string{"computed", "abyc"}, func(p *Practice) *Word { return &p.Ampacity }),
	within("slack", slackKeys, func(p *Practice) *Slack { return &p.Slack }),
	gauge("smallest", func(p *Practice) *Value[unit.Gauge] { return &p.Smallest }),
	flag("mixed", func(p *Practice) *Value[bool] { return &p.Mixed }),
	share("fuse-load", func(p *Practice) *Value[unit.Fraction] { return &p.FuseLoad }),
	choice("method", []string{"computed", "abyc-e11", "ac43-13"}, func(p *Practice) *Word { return &p.Method }),
	choice("pull", []string{"ul-486a", "mil-t-7928", "abyc-e11", "nasa-8739", "ul-486e", "iec-60352-2"}, func(p *Practice) *Word { return &p.Pull }),
	word("ground-colour", "colour letters, such as BK", func(p *Practice) *Word { return &p.Ground }),
	word("feed-colour", "colour letters, such as RD", func(p *Practice) *Word { return &p.Feed }),
	custom("stock", "for each gauge a list of colours", takeStock),
	custom("sold", "the lengths in which wire is sold, such as [10 m, 25 m]", takeSold),
	share("spare", func(p *Practice) *Value[unit.Fraction] { return &p.Spare }),
	custom("wire-types", "a name for each reel, with its keys", takeWireTypes),
	custom("terminals", "a list of the shop's own terminals, such as "+holdsTerminal, takeTerminals),
	within("labels", labelKeys, func(p *Practice) *Labels { return &p.Labels }),
	custom("packs", holdsPacks, takePacks),
	custom("prices", holdsPrices, takePrices),
	custom("palette", "for each colour its shade, such as RD: \"#a01020\"", takePalette),
	choice("colour-change", []string{"change", "keep-base", "keep"}, func(p *Practice) *Word { return &p.Change }),
	custom("conventions", holdsConventions, takeConventions),
	within("twist", twistKeys, func(p *Practice) *Twist { return &p.Twist }),
	within("screen", screenMakeKeys, func(p *Practice) *ScreenMake { return &p.Screen }),
	custom("cable-types", "a name for each type of cable, with its keys", takeCableTypes),
}

const holdsConventions = "none, marine, german, or a colour for each function, such as {horn: BN/YE}"

var slackKeys = []key[Slack]{
	length("each-end", func(s *Slack) *Value[unit.Millimetre] { return &s.EachEnd }),
	share("dress", func(s *Slack) *Value[unit.Fraction] { return &s.Dress }),
	length("round-up", func(s *Slack) *Value[unit.Millimetre] { return &s.RoundUp }),
}

var wireTypeKeys = []key[WireType]{
	needed(degrees("class", func(w *WireType) *Value[unit.Celsius] { return &w.Class })),
	needed(custom("sizes", "a list of {size: …, area: …, diameter: …, resistance: …}", takeSizes)),
}

var wireSizeKeys = []key[WireTypeSize]{
	needed(gauge("size", func(w *WireTypeSize) *Value[unit.Gauge] { return &w.Size })),
	needed(quantity("area", "an area of metal, such as 2.0 mm2", func(w *WireTypeSize) *Value[unit.SquareMillimetre] { return &w.Area }, unit.ParseArea)),
	needed(stretchOf("diameter", func(w *WireTypeSize) *Value[unit.Millimetre] { return &w.Diameter })),
	needed(quantity("resistance", "a resistance by length, such as 8.81 mohm/m", func(w *WireTypeSize) *Value[unit.OhmPerMetre] { return &w.Resistance }, unit.ParseOhmPerMetre)),
}

const holdsTerminal = "{fitting: ring, stud: M6, from: 1.5 mm2, to: 2.5 mm2, part: R6-2.5}"

var sleeves = []string{"red", "blue", "yellow"}

var terminalKeys = []key[ShopTerminal]{
	needed(choice("fitting", []string{"ring", "receptacle", "contact", "butt", "bullet", "ferrule", "splice"}, func(t *ShopTerminal) *Word { return &t.Fitting })),
	word("stud", "a stud's thread, such as M6", func(t *ShopTerminal) *Word { return &t.Stud }),
	word("tab", "a tab's width, such as 6.3", func(t *ShopTerminal) *Word { return &t.Tab }),
	word("family", "a family of contacts", func(t *ShopTerminal) *Word { return &t.Family }),
	needed(gauge("from", func(t *ShopTerminal) *Value[unit.Gauge] { return &t.From })),
	needed(gauge("to", func(t *ShopTerminal) *Value[unit.Gauge] { return &t.To })),
	stretchOf("insulation-from", func(t *ShopTerminal) *Value[unit.Millimetre] { return &t.Thinnest }),
	stretchOf("insulation-to", func(t *ShopTerminal) *Value[unit.Millimetre] { return &t.Thickest }),
	needed(word("part", "the shop's part number", func(t *ShopTerminal) *Word { return &t.Part })),
	word("die", "the die of the tool", func(t *ShopTerminal) *Word { return &t.Die }),
	word("tool", "the tool", func(t *ShopTerminal) *Word { return &t.Tool }),
	choice("sleeve", sleeves, func(t *ShopTerminal) *Word { return &t.Sleeve }),
	stretchOf("strip", func(t *ShopTerminal) *Value[unit.Millimetre] { return &t.Strip }),
}

var placeKeys = []key[Place]{
	word("name", "a plain name", func(p *Place) *Word { return &p.Name }),
	word("zone", "a zone, such as engine", func(p *Place) *Word { return &p.Zone }),
	degrees("ambient", func(p *Place) *Value[unit.Celsius] { return &p.Ambient }),
	choice("surface", surfaces, func(p *Place) *Word { return &p.Surface }),
	length("tail", func(p *Place) *Value[unit.Millimetre] { return &p.Tail }),
}

var surfaces = []string{"bare", "painted", "coated"}

var runKeys = []key[Run]{
	needed(word("from", "a place", func(x *Run) *Word { return &x.From })),
	needed(word("to", "a place", func(x *Run) *Word { return &x.To })),
	needed(length("length", func(x *Run) *Value[unit.Millimetre] { return &x.Length })),
	word("cover", "what is over the loom, such as braid", func(x *Run) *Word { return &x.Cover }),
	flag("flexes", func(x *Run) *Value[bool] { return &x.Flexes }),
}

var circuitKeys = []key[Circuit]{
	word("number", "a number", func(c *Circuit) *Word { return &c.Number }),
	word("name", "a plain name", func(c *Circuit) *Word { return &c.Name }),
	word("class", "a class of practice: drop:", func(c *Circuit) *Word { return &c.Class }),
	word("function", "what the circuit does, such as horn", func(c *Circuit) *Word { return &c.Task }),
	free("notes", "free text", func(c *Circuit) *Word { return &c.Notes }),
	needed(custom("legs", "a list of legs, each a list of stops", takeLegs)),
}

var stopKeys = []key[Stop]{
	needed(custom("to", "a stop: PART.terminal or PART", takeTo)),
	stretchOf("length", func(s *Stop) *Value[unit.Millimetre] { return &s.Length }),
	gauge("gauge", func(s *Stop) *Value[unit.Gauge] { return &s.Gauge }),
	word("colour", "colour letters, such as OG/BK", func(s *Stop) *Word { return &s.Colour }),
	word("found", "the colour that is there now, such as GN/RD", func(s *Stop) *Word { return &s.Found }),
	word("insulation", "a wire family", func(s *Stop) *Word { return &s.Insulation }),
	custom("via", "a list of places", func(r *reader, e entry, s *Stop) {
		before := len(r.problems)
		s.Via = r.words(e, "a list of places")
		s.Beside = len(s.Via) == 0 && len(r.problems) == before
	}),
	word("twist", "a name for the twisted pair", func(s *Stop) *Word { return &s.Twist }),
	word("screen", "a name for the screen", func(s *Stop) *Word { return &s.Screen }),
	word("cable", "one of cables:", func(s *Stop) *Word { return &s.Cable }),
	word("core", "the core: its number, mark or colour", func(s *Stop) *Word { return &s.Core }),
	word("wire", "the wire's own name", func(s *Stop) *Word { return &s.Name }),
	word("was", "what this stop was called before, PART.terminal or PART", func(s *Stop) *Word { return &s.Was }),
}

func takeVersion(r *reader, e entry, _ *Description) {
	w, ok := r.line(e, "the format's version, 1")
	if ok && w.Text != "1" {
		r.say(w.Span, "unknown-version", fmt.Sprintf("this is written for format %q", w.Text), "Only format 1 is read: write loomfolio: 1, or use a newer program.")
	}
}

// takeDate checks that the date is one of the calendar.
func takeDate(r *reader, e entry, d *Description) {
	w, ok := r.line(e, "a date, such as 2026-11-02")
	if !ok {
		return
	}
	d.Date = w
	if _, err := time.Parse(time.DateOnly, w.Text); err != nil {
		r.say(w.Span, "bad-date", fmt.Sprintf("%q is no day of the calendar", w.Text), "Write year, month and day as 2026-11-02.")
	}
}

func takeSystem(r *reader, e entry, d *Description) {
	d.System.Span = e.key.Span
	read(r, e, systemKeys, &d.System)
}

// parseNominal reads the nominal voltage, for which a bare number will do.
func parseNominal(text string) (unit.Volt, error) {
	if strings.Trim(text, "0123456789.") == "" {
		text += " V"
	}
	v, err := parseVolts(text)
	if err == nil && v != 6 && v != 12 && v != 24 && v != 48 {
		err = &refusal{"bad-system-voltage", fmt.Sprintf("%s is no nominal voltage of a vehicle", v),
			"Write the nominal voltage, 6, 12, 24 or 48; the charging voltage goes under running:, such as running: 14.2 V."}
	}
	return v, err
}

func takeDrop(r *reader, e entry, p *Practice) {
	for _, x := range r.entries(e, "a limit for each class, such as default: 3 %", true) {
		p.Drop = append(p.Drop, DropClass{Name: x.key, Limit: value(r, x, "an allowed drop, such as 3 % or 0.5 V", unit.ParseDropLimit)})
	}
}

// takeStock reads colours by gauge: a list, or a mapping to the lengths left.
func takeStock(r *reader, e entry, p *Practice) {
	for _, x := range r.entries(e, "for each gauge a list of colours", true) {
		line := StockLine{Gauge: r.gaugeKey(x.key)}
		if x.value.Kind == yaml.MappingNode {
			line.Colours = r.reels(x)
		} else {
			for _, w := range r.unique(x, "a list of colours, or the lengths left for each colour") {
				line.Colours = append(line.Colours, StockColour{Colour: w})
			}
		}
		p.Stock = append(p.Stock, line)
	}
}

// takePalette reads shades by letters.
func takePalette(r *reader, e entry, p *Practice) {
	const holds = "for each colour its shade, such as RD: \"#a01020\""
	p.Palette = r.wordPairs(e, holds)
}

// takeConventions reads the name of a set, or a set of one's own.
func takeConventions(r *reader, e entry, p *Practice) {
	if e.value.Kind == yaml.MappingNode {
		p.OwnCustoms = r.wordPairs(e, holdsConventions)
		return
	}
	if w, ok := r.line(e, holdsConventions); ok {
		p.Customs = r.among(e.key.Text, w, []string{"none", "marine", "german"})
	}
}

// wordPairs reads a mapping of words.
func (r *reader) wordPairs(e entry, holds string) []Pair {
	var out []Pair
	for _, x := range r.entries(e, holds, true) {
		if w, ok := r.line(x, "a value"); ok {
			out = append(out, Pair{Key: x.key, Value: w})
		}
	}
	return out
}

// gaugeKey reads a gauge that stands as a key.
func (r *reader) gaugeKey(w Word) Value[unit.Gauge] {
	n := &yaml.Node{Kind: yaml.ScalarNode, Tag: "!!str", Value: w.Text, Line: w.Span.Start.Line, Column: w.Span.Start.Column}
	v := r.gauge(entry{key: w, value: n})
	if v.Given() {
		v.Span = w.Span
	}
	return v
}

func (r *reader) reels(e entry) []StockColour {
	var out []StockColour
	for _, x := range r.entries(e, "for each colour a list of lengths", true) {
		colour := StockColour{Colour: x.key}
		for _, item := range r.items(x, "a list of the lengths left, such as [2.4 m, 800 mm]") {
			colour.Left = append(colour.Left, value(r, item, "a length, such as 2.4 m", parseStretch))
		}
		out = append(out, colour)
	}
	return out
}

func takeSold(r *reader, e entry, p *Practice) {
	for _, item := range r.items(e, "a list of lengths, such as [10 m, 25 m]") {
		p.Sold = append(p.Sold, value(r, item, "a length, such as 10 m", parseStretch))
	}
}

func takeWireTypes(r *reader, e entry, p *Practice) {
	for _, x := range r.entries(e, "a name for each reel, with its keys", true) {
		w := WireType{Name: x.key}
		read(r, x, wireTypeKeys, &w)
		p.WireTypes = append(p.WireTypes, w)
	}
}

func takeSizes(r *reader, e entry, w *WireType) {
	for _, x := range r.items(e, "a list of {size: …, area: …, diameter: …, resistance: …}") {
		size := WireTypeSize{Span: r.span(x.value)}
		read(r, x, wireSizeKeys, &size)
		w.Sizes = append(w.Sizes, size)
	}
}

func takeTerminals(r *reader, e entry, p *Practice) {
	for _, x := range r.items(e, "a list of the shop's own terminals, such as "+holdsTerminal) {
		t := ShopTerminal{Span: r.span(x.value)}
		read(r, x, terminalKeys, &t)
		p.Terminals = append(p.Terminals, t)
	}
}

func takePlaces(r *reader, e entry, d *Description) {
	for _, x := range r.entries(e, "a name for each place, with its keys", true) {
		p := Place{Key: x.key}
		read(r, x, placeKeys, &p)
		d.Places = append(d.Places, p)
	}
}

func takeRuns(r *reader, e entry, d *Description) {
	for _, x := range r.items(e, "a list of {from: …, to: …, length: …}") {
		run := Run{Span: r.span(x.value)}
		read(r, x, runKeys, &run)
		d.Runs = append(d.Runs, run)
	}
}

func takeCircuits(r *reader, e entry, d *Description) {
	for _, x := range r.entries(e, "a name for each circuit, with its legs", true) {
		c := Circuit{Key: x.key, Span: x.key.Span}
		read(r, x, circuitKeys, &c)
		r.refuseAirbags(c.Key, c.Name)
		d.Circuits = append(d.Circuits, c)
	}
	r.checkNumbers(d.Circuits)
}

// takeStates reads the positions in each state; {} means all at rest.
func takeStates(r *reader, e entry, d *Description) {
	d.StatesSpan = e.key.Span
	for _, x := range r.entries(e, "a name for each state, with the switches' positions", true) {
		s := State{Key: x.key}
		for _, set := range r.entries(x, "{} for everything at rest, or positions such as {IGN: run}", true) {
			r.takeSetting(set, &s)
		}
		d.States = append(d.States, s)
	}
}

var engines = []string{"off", "running", "cranking"}

func (r *reader) takeSetting(e entry, s *State) {
	w, ok := r.line(e, "the name of a position")
	switch {
	case !ok:
	case e.key.Text == "engine":
		s.Engine = r.among("condition of the engine", w, engines)
	default:
		s.Settings = append(s.Settings, Pair{Key: e.key, Value: w})
	}
}

// takeLegs reads the legs of a circuit.
func takeLegs(r *reader, e entry, c *Circuit) {
	items := r.items(e, "a list of legs: each line a dash and the stops in brackets, - [BAT.+, F1, LAMP.+]")
	if flat(items) {
		r.say(r.span(e.value), "wrong-shape", "a leg is a list of stops, and legs is a list of legs",
			"Put the stops in one more pair of brackets: begin the line with a dash, - [BAT.+, F1, LAMP.+].")
		return
	}
	if len(items) == 0 && e.value.Kind == yaml.SequenceNode {
		r.say(e.key.Span, "too-few-stops", "the circuit has no legs", "Write at least one leg: - [BAT.+, F1, LAMP.+]")
	}
	for _, x := range items {
		c.Legs = append(c.Legs, r.leg(x))
	}
}

// flat tells that a list of legs holds stops.
func flat(items []entry) bool {
	for _, x := range items {
		if x.value.Kind == yaml.SequenceNode || missing(x.value) || x.value.Kind == yaml.AliasNode {
			return false
		}
	}
	return len(items) > 0
}

func (r *reader) leg(e entry) Leg {
	leg := Leg{Span: r.span(e.value)}
	for _, x := range r.items(e, "a list of stops, such as [BAT.+, F1, LAMP.+]") {
		leg.Stops = append(leg.Stops, r.stop(x))
	}
	if n := len(leg.Stops); e.value.Kind == yaml.SequenceNode && n < 2 {
		r.say(leg.Span, "too-few-stops", fmt.Sprintf("the leg has %d of at least two stops", n), "A wire runs from one stop to the next: name where it comes from and where it goes.")
	}
	return leg
}

// stop reads one stop, a word or a mapping.
func (r *reader) stop(e entry) Stop {
	var s Stop
	if e.value.Kind == yaml.MappingNode {
		read(r, e, stopKeys, &s)
		return s
	}
	takeTo(r, e, &s)
	return s
}

func takeTo(r *reader, e entry, s *Stop) {
	w, ok := r.line(e, "a stop: PART.terminal or PART")
	if !ok {
		return
	}
	s.To = w
	part, terminal, split := strings.Cut(w.Text, ".")
	part, terminal = strings.TrimSpace(part), strings.TrimSpace(terminal)
	if part == "" || split && terminal == "" {
		r.say(w.Span, "bad-stop", fmt.Sprintf("%q is not a stop", w.Text), "Write PART.terminal, such as FAN.+, or the part's name alone where it has one way through.")
		return
	}
	s.Part = r.piece(w, e.value, part, 0)
	if split {
		s.Terminal = r.piece(w, e.value, terminal, strings.Index(w.Text, ".")+1)
	}
}

// piece gives a part of a word with its own place, where the text stands in
// the file as it was read; else with the place of the whole.
func (r *reader) piece(w Word, n *yaml.Node, text string, from int) Word {
	line := r.lineOf(n)
	column := w.Span.Start.Column - 1
	rest := string([]rune(line)[min(column, source.Width(line)):])
	at := strings.Index(rest, w.Text)
	if at < 0 || source.Width(rest[:at]) >= w.Span.Width {
		return Word{Text: text, Span: w.Span}
	}
	start := at + from + strings.Index(w.Text[from:], text)
	return Word{Text: text, Span: source.At(n.Line, column+1+source.Width(rest[:start]), source.Width(text))}
}
