package describe

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"example.com/loomfolio/sizing/colour/convention"
	"example.com/loomfolio/sizing/describe/read"
	"example.com/loomfolio/sizing/unit"
)

// rootKeys are the keys at the left edge of the file.
var rootKeys = []read.Key[Description]{
	read.JoinedBy(read.Alike, read.Needed(read.Custom("loomfolio", "the format's version, 1", takeVersion))),
	read.JoinedBy(read.Over, read.Needed(read.Line("title", "a title in words", func(d *Description) *read.Word { return &d.Title }))),
	read.JoinedBy(read.Over, read.Line("revision", "a revision, such as A", func(d *Description) *read.Word { return &d.Revision })),
	read.JoinedBy(read.Over, read.Custom("date", "a date, such as 2026-11-02", takeDate)),
	read.JoinedBy(read.Over, read.Within("vehicle", vehicleKeys, func(d *Description) *Vehicle { return &d.Vehicle })),
	read.JoinedBy(read.Over, read.Line("customer", "a name", func(d *Description) *read.Word { return &d.Customer })),
	read.JoinedBy(read.Over, read.Line("builder", "a name", func(d *Description) *read.Word { return &d.Builder })),
	read.JoinedBy(read.Over, read.Line("checked-by", "a name", func(d *Description) *read.Word { return &d.CheckedBy })),
	read.JoinedBy(read.Over, read.Text("notes", "free text", func(d *Description) *read.Word { return &d.Notes })),
	read.JoinedBy(read.Over, read.Within("sheet", sheetKeys, func(d *Description) *Sheet { return &d.Sheet })),
	read.JoinedBy(read.Alike, read.Needed(read.Custom("system", "keys with values, at least volts: 12", takeSystem))),
	read.Custom("systems", "a name for each further voltage, with volts: and from:", takeSystems),
	read.JoinedBy(read.Over, read.Within("practice", practiceKeys, func(d *Description) *Practice { return &d.Practice })),
	read.JoinedBy(read.Nowhere, read.Custom("include", "a list of files in this folder, such as [parts/shop.yaml]", readBefore[Description])),
	read.Custom("templates", "a name for each template, with its parameters and sections", readBefore[Description]),
	read.Custom("use", "a list such as [{template: headlamp, side: left}]", readBefore[Description]),
	read.Custom("places", "a name for each place, with its keys", takePlaces),
	read.Custom("runs", "a list of {from: …, to: …, length: …}", takeRuns),
	read.Custom("screens", "a name for each screen, with where its drain goes", takeScreens),
	read.Custom("cables", "a name for each cable, with its type", takeCables),
	read.Needed(read.Custom("parts", "a name for each part, with its keys", takeParts)),
	read.Needed(read.Custom("circuits", "a name for each circuit, with its legs", takeCircuits)),
	read.JoinedBy(read.Deeper, read.Custom("states", "a name for each state, with the switches' positions", takeStates)),
	read.Custom("measured", holdsMeasured, takeMeasured),
	read.Custom("accept", "a list such as "+holdsAccept, takeAccept),
	read.JoinedBy(read.Alone, read.Custom("variants", holdsVariants, takeVariants)),
}

// readBefore is of keys that package read has written out before the tables are read.
func readBefore[T any](*read.Reader, read.Entry, *T) {}

const holdsEach = "marks with what they stand for, such as {side: [left, right]}: one entry for each"

func each[T any]() read.Key[T] { return read.Custom("each", holdsEach, readBefore[T]) }

const holdsAccept = "[{finding: slack-only, at: tray, because: measured on the car}]"

var acceptKeys = []read.Key[Accept]{
	read.Needed(read.Line("finding", "the word in brackets behind a finding, such as slack-only", func(a *Accept) *read.Word { return &a.Finding })),
	read.Custom("at", holdsAcceptedAt, takeAcceptedAt),
	read.Needed(read.Line("because", "the reason in words", func(a *Accept) *read.Word { return &a.Because })),
}

const holdsAcceptedAt = "what it is said of: a part, wire, circuit, state or place, or a list of them"

func takeAccept(r *read.Reader, e read.Entry, d *Description) {
	for _, x := range r.Items(e, "a list such as "+holdsAccept) {
		var a Accept
		read.Mapping(r, x, acceptKeys, &a)
		d.Accept = append(d.Accept, a)
	}
}

func takeAcceptedAt(r *read.Reader, e read.Entry, a *Accept) {
	if e.IsList() {
		a.At = r.Words(e, holdsAcceptedAt)
	} else if w, ok := r.Line(e, holdsAcceptedAt); ok {
		a.At = []read.Word{w}
	}
}

var vehicleKeys = []read.Key[Vehicle]{
	read.Line("name", "a name", func(v *Vehicle) *read.Word { return &v.Name }),
	read.Line("identity", "a chassis number or mark", func(v *Vehicle) *read.Word { return &v.Identity }),
}

var sheetKeys = []read.Key[Sheet]{
	read.Choice("paper", unit.Papers(), func(s *Sheet) *read.Word { return &s.Paper }),
	read.Choice("units", []string{"metric", "imperial"}, func(s *Sheet) *read.Word { return &s.Units }),
	read.Choice("gauge", []string{"mm2", "awg", "sae"}, func(s *Sheet) *read.Word { return &s.Gauge }),
	read.Line("picture", holdsPicture, func(s *Sheet) *read.Word { return &s.Picture }),
}

const holdsPicture = "a JPEG or PNG file beside the description, such as photos/fan.jpg"

var systemKeys = []read.Key[System]{
	read.Needed(read.Quantity("volts", "the nominal voltage: 6, 12, 24 or 48", func(s *System) *read.Value[unit.Volt] { return &s.Volts }, parseNominal)),
	volts("running", func(s *System) *read.Value[unit.Volt] { return &s.Running }),
	read.Choice("earth", []string{"negative", "positive"}, func(s *System) *read.Word { return &s.Earth }),
	read.Choice("return", []string{"chassis", "wired"}, func(s *System) *read.Word { return &s.Return }),
}

var sideKeys = []read.Key[Side]{
	read.Needed(read.Quantity("volts", "its nominal voltage, such as 12", func(s *Side) *read.Value[unit.Volt] { return &s.Volts }, parseSide)),
	volts("running", func(s *Side) *read.Value[unit.Volt] { return &s.Running }),
	read.Needed(read.Custom("from", "where it begins, such as DC1.out+ or BAT1.+, or a list of such stops", takeFrom)),
}

var practiceKeys = []read.Key[Practice]{
	read.Custom("drop", "a limit for each class, such as default: 3 %", takeDrop),
	read.Line("insulation", "a wire family", func(p *Practice) *read.Word { return &p.Insulation }),
	read.Choice("ampacity", []string{"computed", "abyc"}, func(p *Practice) *read.Word { return &p.Ampacity }),
	read.Within("slack", slackKeys, func(p *Practice) *Slack { return &p.Slack }),
	gauge("smallest", func(p *Practice) *read.Value[unit.Gauge] { return &p.Smallest }),
	read.Flag("mixed", func(p *Practice) *read.Value[bool] { return &p.Mixed }),
	share("fuse-load", func(p *Practice) *read.Value[unit.Fraction] { return &p.FuseLoad }),
	read.Within("fuses", fuseShelfKeys, func(p *Practice) *FuseShelf { return &p.Fuses }),
	read.Choice("method", []string{"computed", "abyc-e11", "ac43-13"}, func(p *Practice) *read.Word { return &p.Method }),
	read.Choice("pull", []string{"ul-486a", "mil-t-7928", "abyc-e11", "nasa-8739", "ul-486e", "iec-60352-2"}, func(p *Practice) *read.Word { return &p.Pull }),
	read.Line("ground-colour", "colour letters, such as BK", func(p *Practice) *read.Word { return &p.Ground }),
	read.Line("feed-colour", "colour letters, such as RD", func(p *Practice) *read.Word { return &p.Feed }),
	read.Custom("stock", "for each gauge a list of colours", takeStock),
	read.Custom("sold", "the lengths in which wire is sold, such as [10 m, 25 m]", takeSold),
	share("spare", func(p *Practice) *read.Value[unit.Fraction] { return &p.Spare }),
	read.Custom("wire-types", "a name for each reel, with its keys", takeWireTypes),
	read.Custom("terminals", "a list of the shop's own terminals, such as "+holdsTerminal, takeTerminals),
	read.Within("labels", labelKeys, func(p *Practice) *Labels { return &p.Labels }),
	read.Custom("packs", holdsPacks, takePacks),
	read.Custom("prices", holdsPrices, takePrices),
	read.Custom("palette", "for each colour its shade, such as RD: \"#a01020\"", takePalette),
	read.Choice("colour-change", []string{"change", "keep-base", "keep"}, func(p *Practice) *read.Word { return &p.Change }),
	read.Custom("conventions", holdsConventions, takeConventions),
	read.Choice("convention-colours", []string{"prefer", "always"}, func(p *Practice) *read.Word { return &p.Insist }),
	read.Within("twist", twistKeys, func(p *Practice) *Twist { return &p.Twist }),
	read.Within("screen", screenMakeKeys, func(p *Practice) *ScreenMake { return &p.Screen }),
	read.Custom("cable-types", "a name for each type of cable, with its keys", takeCableTypes),
	read.Custom("buy", holdsBuy, takeBuy),
	read.Within("tell-apart", apartKeys, func(p *Practice) *Apart { return &p.Apart }),
	read.Custom("tools", holdsTools, takeTools),
	read.Custom("minutes", holdsMinutes, takeMinutes),
}

var holdsConventions = "none, " + strings.Join(convention.Words(), ", ") + ", a colour for each function, or a list of these in order, such as [british, {horn: BN/YE}]"

var slackKeys = []read.Key[Slack]{
	length("each-end", func(s *Slack) *read.Value[unit.Millimetre] { return &s.EachEnd }),
	share("dress", func(s *Slack) *read.Value[unit.Fraction] { return &s.Dress }),
	length("round-up", func(s *Slack) *read.Value[unit.Millimetre] { return &s.RoundUp }),
}

var fuseShelfKeys = []read.Key[FuseShelf]{
	amps("smallest", func(f *FuseShelf) *read.Value[unit.Ampere] { return &f.Smallest }),
	read.Custom("stock", holdsFuseStock, takeFuseStock),
}

const holdsFuseStock = "a list of ratings, such as [5 A, 7.5 A, 10 A]"

var wireTypeKeys = []read.Key[WireType]{
	read.Needed(degrees("class", func(w *WireType) *read.Value[unit.Celsius] { return &w.Class })),
	read.Needed(read.Custom("sizes", "a list of {size: …, area: …, diameter: …, resistance: …}", takeSizes)),
}

var wireSizeKeys = []read.Key[WireTypeSize]{
	read.Needed(gauge("size", func(w *WireTypeSize) *read.Value[unit.Gauge] { return &w.Size })),
	read.Needed(read.Quantity("area", "an area of metal, such as 2.0 mm2", func(w *WireTypeSize) *read.Value[unit.SquareMillimetre] { return &w.Area }, unit.ParseArea)),
	read.Needed(stretchOf("diameter", func(w *WireTypeSize) *read.Value[unit.Millimetre] { return &w.Diameter })),
	read.Needed(read.Quantity("resistance", "a resistance by length, such as 8.81 mohm/m", func(w *WireTypeSize) *read.Value[unit.OhmPerMetre] { return &w.Resistance }, unit.ParseOhmPerMetre)),
}

const holdsTerminal = "{fitting: ring, stud: M6, from: 1.5 mm2, to: 2.5 mm2, part: R6-2.5}"

var sleeves = []string{"red", "blue", "yellow"}

var terminalKeys = []read.Key[ShopTerminal]{
	read.Needed(read.Choice("fitting", []string{"ring", "receptacle", "contact", "butt", "bullet", "ferrule", "splice"}, func(t *ShopTerminal) *read.Word { return &t.Fitting })),
	read.Line("stud", "a stud's thread, such as M6", func(t *ShopTerminal) *read.Word { return &t.Stud }),
	read.Line("tab", "a tab's width, such as 6.3", func(t *ShopTerminal) *read.Word { return &t.Tab }),
	read.Line("family", "a family of contacts", func(t *ShopTerminal) *read.Word { return &t.Family }),
	read.Needed(gauge("from", func(t *ShopTerminal) *read.Value[unit.Gauge] { return &t.From })),
	read.Needed(gauge("to", func(t *ShopTerminal) *read.Value[unit.Gauge] { return &t.To })),
	stretchOf("insulation-from", func(t *ShopTerminal) *read.Value[unit.Millimetre] { return &t.Thinnest }),
	stretchOf("insulation-to", func(t *ShopTerminal) *read.Value[unit.Millimetre] { return &t.Thickest }),
	read.Needed(read.Line("part", "the shop's part number", func(t *ShopTerminal) *read.Word { return &t.Part })),
	read.Line("die", "the die of the tool", func(t *ShopTerminal) *read.Word { return &t.Die }),
	read.Line("tool", "the tool", func(t *ShopTerminal) *read.Word { return &t.Tool }),
	read.Choice("sleeve", sleeves, func(t *ShopTerminal) *read.Word { return &t.Sleeve }),
	stretchOf("strip", func(t *ShopTerminal) *read.Value[unit.Millimetre] { return &t.Strip }),
}

var placeKeys = []read.Key[Place]{
	read.Line("name", "a plain name", func(p *Place) *read.Word { return &p.Name }),
	read.Line("zone", "a zone, such as engine", func(p *Place) *read.Word { return &p.Zone }),
	degrees("ambient", func(p *Place) *read.Value[unit.Celsius] { return &p.Ambient }),
	read.Choice("surface", surfaces, func(p *Place) *read.Word { return &p.Surface }),
	length("tail", func(p *Place) *read.Value[unit.Millimetre] { return &p.Tail }),
	read.Custom("lies", holdsLies, takeLies),
	read.Line("picture", holdsPicture, func(p *Place) *read.Word { return &p.Picture }),
	each[Place](),
}

var surfaces = []string{"bare", "painted", "coated"}

var runKeys = []read.Key[Run]{
	read.Needed(read.Line("from", "a place", func(x *Run) *read.Word { return &x.From })),
	read.Needed(read.Line("to", "a place", func(x *Run) *read.Word { return &x.To })),
	read.Needed(length("length", func(x *Run) *read.Value[unit.Millimetre] { return &x.Length })),
	read.Line("cover", "what is over the loom, such as braid", func(x *Run) *read.Word { return &x.Cover }),
	read.Flag("flexes", func(x *Run) *read.Value[bool] { return &x.Flexes }),
	each[Run](),
}

var circuitKeys = []read.Key[Circuit]{
	read.Line("number", "a number", func(c *Circuit) *read.Word { return &c.Number }),
	read.Line("name", "a plain name", func(c *Circuit) *read.Word { return &c.Name }),
	read.Line("class", "a class of practice: drop:", func(c *Circuit) *read.Word { return &c.Class }),
	read.Line("function", "what the circuit does, such as horn", func(c *Circuit) *read.Word { return &c.Task }),
	read.Text("notes", "free text", func(c *Circuit) *read.Word { return &c.Notes }),
	read.Needed(read.Custom("legs", "a list of legs, each a list of stops", takeLegs)),
	read.Flag("existing", func(c *Circuit) *read.Value[bool] { return &c.Existing }),
	each[Circuit](),
}

var stopKeys = []read.Key[Stop]{
	read.Needed(read.Custom("to", "a stop: PART.terminal or PART", takeTo)),
	stretchOf("length", func(s *Stop) *read.Value[unit.Millimetre] { return &s.Length }),
	gauge("gauge", func(s *Stop) *read.Value[unit.Gauge] { return &s.Gauge }),
	read.Line("colour", "colour letters, such as OG/BK", func(s *Stop) *read.Word { return &s.Colour }),
	read.Line("found", "the colour that is there now, such as GN/RD", func(s *Stop) *read.Word { return &s.Found }),
	read.Line("insulation", "a wire family", func(s *Stop) *read.Word { return &s.Insulation }),
	read.Custom("via", "a list of places", func(r *read.Reader, e read.Entry, s *Stop) {
		before := r.Said()
		s.Via = r.Words(e, "a list of places")
		s.Beside = len(s.Via) == 0 && r.Said() == before
	}),
	read.Line("twist", "a name for the twisted pair", func(s *Stop) *read.Word { return &s.Twist }),
	read.Line("screen", "a name for the screen", func(s *Stop) *read.Word { return &s.Screen }),
	read.Line("cable", "one of cables:", func(s *Stop) *read.Word { return &s.Cable }),
	read.Line("core", "the core: its number, mark or colour", func(s *Stop) *read.Word { return &s.Core }),
	read.Line("wire", "the wire's own name", func(s *Stop) *read.Word { return &s.Name }),
	read.Line("was", "what this stop was called before, PART.terminal or PART", func(s *Stop) *read.Word { return &s.Was }),
	read.Flag("existing", func(s *Stop) *read.Value[bool] { return &s.Existing }),
}

// legKeys are of a leg with each:, which package read has written out where both are given.
var legKeys = []read.Key[Leg]{
	read.Needed(each[Leg]()),
	read.Needed(read.Custom("leg", "the stops of each of the legs", readBefore[Leg])),
}

func takeVersion(r *read.Reader, e read.Entry, _ *Description) {
	w, ok := r.Line(e, "the format's version, 1")
	if ok && w.Text != "1" {
		r.Say(w.Span, "unknown-version", fmt.Sprintf("this is written for format %q", w.Text), "Only format 1 is read: write loomfolio: 1, or use a newer program.")
	}
}

// takeDate checks that the date is one of the calendar.
func takeDate(r *read.Reader, e read.Entry, d *Description) {
	w, ok := r.Line(e, "a date, such as 2026-11-02")
	if !ok {
		return
	}
	d.Date = w
	if _, err := time.Parse(time.DateOnly, w.Text); err != nil {
		r.Say(w.Span, "bad-date", fmt.Sprintf("%q is no day of the calendar", w.Text), "Write year, month and day as 2026-11-02.")
	}
}

func takeSystem(r *read.Reader, e read.Entry, d *Description) {
	d.System.Span = e.Key.Span
	read.Mapping(r, e, systemKeys, &d.System)
}

// takeSystems reads the further voltages on board.
func takeSystems(r *read.Reader, e read.Entry, d *Description) {
	for _, x := range r.Entries(e, "a name for each further voltage, such as house: {volts: 12, from: DC1.out+}", true) {
		s := Side{Key: x.Key}
		read.Mapping(r, x, sideKeys, &s)
		d.Systems = append(d.Systems, s)
	}
}

// takeFrom reads the stops from which a voltage begins.
func takeFrom(r *read.Reader, e read.Entry, s *Side) {
	items := []read.Entry{e}
	if e.IsList() {
		items = r.Items(e, "a stop, PART.terminal or PART, or a list of them")
	}
	for _, x := range items {
		var stop Stop
		if takeTo(r, x, &stop); stop.Part.Given() {
			s.From = append(s.From, stop)
		}
	}
}

// parseSide reads the nominal voltage of a further side, for which a bare number will do.
func parseSide(text string) (unit.Volt, error) {
	if strings.Trim(text, "0123456789.,") == "" {
		text += " V"
	}
	v, err := parseVolts(text)
	if err == nil && v <= 0 {
		err = read.Refuse("bad-system-voltage", fmt.Sprintf("%s is no voltage", v), "Write its nominal voltage, such as 12.")
	}
	return v, err
}

// parseNominal reads the nominal voltage, for which a bare number will do.
func parseNominal(text string) (unit.Volt, error) {
	if strings.Trim(text, "0123456789.,") == "" {
		text += " V"
	}
	v, err := parseVolts(text)
	if err == nil && v != 6 && v != 12 && v != 24 && v != 48 {
		err = read.Refuse("bad-system-voltage", fmt.Sprintf("%s is no nominal voltage of a vehicle", v),
			"Write the nominal voltage, 6, 12, 24 or 48; the charging voltage goes under running:, such as running: 14.2 V.")
	}
	return v, err
}

func takeDrop(r *read.Reader, e read.Entry, p *Practice) {
	for _, x := range r.Entries(e, "a limit for each class, such as default: 3 %", true) {
		p.Drop = append(p.Drop, DropClass{Name: x.Key, Limit: read.Parsed(r, x, "an allowed drop, such as 3 % or 0.5 V", unit.ParseDropLimit)})
	}
}

// takeStock reads colours by gauge: a list, or a mapping to the lengths left.
func takeStock(r *read.Reader, e read.Entry, p *Practice) {
	for _, x := range r.Entries(e, "for each gauge a list of colours", true) {
		line := StockLine{Gauge: gaugeKey(r, x.Key)}
		if x.IsMap() {
			line.Colours = reels(r, x)
		} else {
			for _, w := range r.Unique(x, "a list of colours, or the lengths left for each colour") {
				line.Colours = append(line.Colours, StockColour{Colour: w})
			}
		}
		p.Stock = append(p.Stock, line)
	}
}

// takePalette reads shades by letters.
func takePalette(r *read.Reader, e read.Entry, p *Practice) {
	const holds = "for each colour its shade, such as RD: \"#a01020\""
	p.Palette = wordPairs(r, e, holds)
}

// takeConventions reads a set of colours, or several in order: by name, or one's own.
func takeConventions(r *read.Reader, e read.Entry, p *Practice) {
	known := convention.Words()
	items := []read.Entry{e}
	if e.IsList() {
		items = r.Items(e, holdsConventions)
	} else {
		known = append([]string{"none"}, known...)
	}
	for _, x := range items {
		if x.IsMap() {
			p.Customs = append(p.Customs, Custom{Own: wordPairs(r, x, holdsConventions)})
		} else if w, ok := r.Line(x, holdsConventions); ok {
			p.Customs = append(p.Customs, Custom{Word: r.Among(e.Key.Text, w, known)})
		}
	}
}

// wordPairs reads a mapping of words.
func wordPairs(r *read.Reader, e read.Entry, holds string) []Pair {
	var out []Pair
	for _, x := range r.Entries(e, holds, true) {
		if w, ok := r.Line(x, "a value"); ok {
			out = append(out, Pair{Key: x.Key, Value: w})
		}
	}
	return out
}

// gaugeKey reads a gauge that stands as a key.
func gaugeKey(r *read.Reader, w read.Word) read.Value[unit.Gauge] {
	v := gaugeOf(r, read.Itself(w))
	if v.Given() {
		v.Span = w.Span
	}
	return v
}

func reels(r *read.Reader, e read.Entry) []StockColour {
	var out []StockColour
	for _, x := range r.Entries(e, "for each colour a list of lengths", true) {
		colour := StockColour{Colour: x.Key}
		for _, item := range r.Items(x, "a list of the lengths left, such as [2.4 m, 800 mm]") {
			colour.Left = append(colour.Left, read.Parsed(r, item, "a length, such as 2.4 m", parseStretch))
		}
		out = append(out, colour)
	}
	return out
}

func takeSold(r *read.Reader, e read.Entry, p *Practice) {
	for _, item := range r.Items(e, "a list of lengths, such as [10 m, 25 m]") {
		p.Sold = append(p.Sold, read.Parsed(r, item, "a length, such as 10 m", parseStretch))
	}
}

func takeFuseStock(r *read.Reader, e read.Entry, f *FuseShelf) {
	for _, item := range r.Items(e, holdsFuseStock) {
		f.Stock = append(f.Stock, read.Parsed(r, item, "a rating, such as 7.5 A", unit.ParseAmpere))
	}
}

func takeWireTypes(r *read.Reader, e read.Entry, p *Practice) {
	for _, x := range r.Entries(e, "a name for each reel, with its keys", true) {
		w := WireType{Name: x.Key}
		read.Mapping(r, x, wireTypeKeys, &w)
		p.WireTypes = append(p.WireTypes, w)
	}
}

func takeSizes(r *read.Reader, e read.Entry, w *WireType) {
	for _, x := range r.Items(e, "a list of {size: …, area: …, diameter: …, resistance: …}") {
		size := WireTypeSize{Span: r.Place(x)}
		read.Mapping(r, x, wireSizeKeys, &size)
		w.Sizes = append(w.Sizes, size)
	}
}

func takeTerminals(r *read.Reader, e read.Entry, p *Practice) {
	for _, x := range r.Items(e, "a list of the shop's own terminals, such as "+holdsTerminal) {
		t := ShopTerminal{Span: r.Place(x)}
		read.Mapping(r, x, terminalKeys, &t)
		p.Terminals = append(p.Terminals, t)
	}
}

func takePlaces(r *read.Reader, e read.Entry, d *Description) {
	for _, x := range r.Entries(e, "a name for each place, with its keys", true) {
		p := Place{Key: x.Key}
		read.Mapping(r, x, placeKeys, &p)
		d.Places = append(d.Places, p)
	}
}

func takeRuns(r *read.Reader, e read.Entry, d *Description) {
	for _, x := range r.Items(e, "a list of {from: …, to: …, length: …}") {
		run := Run{Span: r.Place(x)}
		read.Mapping(r, x, runKeys, &run)
		d.Runs = append(d.Runs, run)
	}
}

func takeCircuits(r *read.Reader, e read.Entry, d *Description) {
	for _, x := range r.Entries(e, "a name for each circuit, with its legs", true) {
		c := Circuit{Key: x.Key, Span: x.Key.Span}
		read.Mapping(r, x, circuitKeys, &c)
		d.Circuits = append(d.Circuits, c)
	}
	checkNumbers(r, d.Circuits)
}

// takeStates reads the positions in each state; {} means all at rest.
func takeStates(r *read.Reader, e read.Entry, d *Description) {
	d.StatesSpan = e.Key.Span
	for _, x := range r.Entries(e, "a name for each state, with the switches' positions", true) {
		s := State{Key: x.Key}
		for _, set := range r.Entries(x, "{} for everything at rest, or positions such as {IGN: run}", true) {
			takeSetting(r, set, &s)
		}
		d.States = append(d.States, s)
	}
}

var engines = []string{"off", "running", "cranking"}

// stateKeys are the words beside the names of switches.
var stateKeys = []read.Key[State]{
	read.Custom("engine", "one of "+strings.Join(engines, ", "), func(r *read.Reader, e read.Entry, s *State) {
		if w, ok := r.Line(e, "one of "+strings.Join(engines, ", ")); ok {
			s.Engine = r.Among("condition of the engine", w, engines)
		}
	}),
}

func takeSetting(r *read.Reader, e read.Entry, s *State) {
	if slices.Contains(read.NamesOf(stateKeys), e.Key.Text) {
		read.Take(r, []read.Entry{e}, stateKeys, s)
	} else if w, ok := r.Line(e, "the name of a position"); ok {
		s.Settings = append(s.Settings, Pair{Key: e.Key, Value: w})
	}
}

// takeLegs reads the legs of a circuit.
func takeLegs(r *read.Reader, e read.Entry, c *Circuit) {
	items := r.Items(e, "a list of legs: each line a dash and the stops in brackets, - [BAT.+, F1, LAMP.+]")
	if flat(items) {
		r.Say(r.Place(e), "wrong-shape", "a leg is a list of stops, and legs is a list of legs",
			"Put the stops in one more pair of brackets: begin the line with a dash, - [BAT.+, F1, LAMP.+].")
		return
	}
	if len(items) == 0 && e.IsList() {
		r.Say(e.Key.Span, "too-few-stops", "the circuit has no legs", "Write at least one leg: - [BAT.+, F1, LAMP.+]")
	}
	for _, x := range items {
		c.Legs = append(c.Legs, leg(r, x))
	}
}

// flat tells that a list of legs holds stops.
func flat(items []read.Entry) bool {
	for _, x := range items {
		if x.IsList() || x.Empty() || x.IsAlias() {
			return false
		}
	}
	return len(items) > 0
}

func leg(r *read.Reader, e read.Entry) Leg {
	leg := Leg{Span: r.Place(e)}
	if e.IsMap() {
		read.Mapping(r, e, legKeys, &leg)
		return leg
	}
	for _, x := range r.Items(e, "a list of stops, such as [BAT.+, F1, LAMP.+]") {
		leg.Stops = append(leg.Stops, stop(r, x))
	}
	if n := len(leg.Stops); e.IsList() && n < 2 {
		r.Say(leg.Span, "too-few-stops", fmt.Sprintf("the leg has %d of at least two stops", n), "A wire runs from one stop to the next: name where it comes from and where it goes.")
	}
	return leg
}

// stop reads one stop, a word or a mapping.
func stop(r *read.Reader, e read.Entry) Stop {
	var s Stop
	if e.IsMap() {
		read.Mapping(r, e, stopKeys, &s)
		return s
	}
	takeTo(r, e, &s)
	return s
}

func takeTo(r *read.Reader, e read.Entry, s *Stop) {
	w, ok := r.Line(e, "a stop: PART.terminal or PART")
	if !ok {
		return
	}
	s.To = w
	if strings.HasPrefix(w.Text, "?") {
		s.Part, s.Open = w, true
		return
	}
	part, terminal, split := strings.Cut(w.Text, ".")
	part, terminal = strings.TrimSpace(part), strings.TrimSpace(terminal)
	if part == "" || split && terminal == "" {
		r.Say(w.Span, "bad-stop", fmt.Sprintf("%q is not a stop", w.Text), "Write PART.terminal, such as FAN.+, or the part's name alone where it has one way through.")
		return
	}
	s.Part = r.Piece(w, e, part, 0)
	if split {
		s.Terminal = r.Piece(w, e, terminal, strings.Index(w.Text, ".")+1)
	}
}
