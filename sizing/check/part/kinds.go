package part

import (
	"math"

	"example.com/loomfolio/sizing/describe"
	"example.com/loomfolio/sizing/describe/read"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/harness/kind"
	"example.com/loomfolio/sizing/source"
	"example.com/loomfolio/sizing/unit"
)

// insides build what lies between the terminals of a kind; package kind says which.
var insides = map[kind.Inside]func(*builder){
	kind.Load: (*builder).plainLoad, kind.Link: (*builder).link,
	"battery":         (*builder).battery,
	"alternator":      (*builder).alternator,
	"converter":       (*builder).converter,
	"starter":         (*builder).starter,
	"isolator":        (*builder).isolator,
	"fuse-panel":      (*builder).panel,
	"bus":             (*builder).bus,
	"relay":           (*builder).relay,
	"flasher":         (*builder).flasher,
	"switch":          (*builder).switched,
	"ignition-switch": (*builder).ignition,
	"diode":           (*builder).diode,
	"resistor":        (*builder).resistor,
	"capacitor":       (*builder).capacitor,
	"strap":           (*builder).strap,
	"connector":       (*builder).connector,
	"splice":          (*builder).splice,
	"ground":          (*builder).ground,
	"unknown":         (*builder).unknown,
	"open-end":        (*builder).splice,

	"dynamo": (*builder).dynamo, "control-box": (*builder).controlBox,
	"stator": (*builder).stator, "rectifier-regulator": (*builder).rectifierRegulator,
	"solar-panel": (*builder).solarPanel, "solar-regulator": (*builder).solarRegulator, "shore-charger": (*builder).shoreCharger,
	"inverter": (*builder).inverter, "shunt": (*builder).shunt, "battery-monitor": (*builder).batteryMonitor, "split-charge": (*builder).splitCharge,
	"trailer-socket": (*builder).socket,
}

// two gives two customary terminals; a part written with others takes its
// first two when it has exactly two.
func (b *builder) two(first, second string) (a, z harness.TerminalID, ok bool) {
	a, okA := b.has(first)
	z, okZ := b.has(second)
	if okA && okZ {
		return a, z, true
	}
	if len(b.p.Terminals) == 2 {
		return b.p.Terminals[0], b.p.Terminals[1], true
	}
	b.Fail("terminals-unclear", b.w.Key.Span,
		"say under inside: what lies between them, for example inside: [{from: "+first+", to: "+second+", draws: 1 A}]",
		"%s has terminals of its own, and nothing says what is between them", b.p.Ref)
	return 0, 0, false
}

// starter turns once its solenoid has pulled in. One with terminals of its own and no 50
// among them is an inertia starter, which turns while it is fed.
func (b *builder) starter() {
	control, solenoid := b.has("50")
	if !solenoid {
		if feed, body, ok := b.two("30", "case"); ok {
			b.cranks(feed, body)
		}
		return
	}
	feed, okF := b.has("30")
	body, okB := b.has("case")
	if !okF || !okB {
		return
	}
	volts := float64(b.side(control, feed).Volts)
	hold := float64(b.w.Solenoid.Or(solenoidA))
	coil := b.element(harness.Element{
		Kind: harness.RelayCoil, Name: b.p.Ref + ".solenoid", A: control, B: body,
		Ohms: unit.Ohm(volts / hold), PullIn: unit.Volt(pullIn * volts), DropOut: unit.Volt(dropOut * volts),
	})
	b.cranks(feed, body).When = harness.Condition{Kind: harness.Energised, Coil: coil}
}

// cranks adds the motor of a starter.
func (b *builder) cranks(feed, body harness.TerminalID) *harness.Element {
	from, to := feed, body
	if b.sys.PositiveEarth { // the current comes from the body
		from, to = body, feed
	}
	b.load(b.p.Ref, from, to, b.w.Draws.V, harness.AsMotor)
	motor := &b.made.Elements[len(b.made.Elements)-1]
	motor.Floor = unit.Volt(0.3 * float64(b.side(body, feed).Volts))
	return motor
}

func (b *builder) isolator() {
	a, z, ok := b.two("1", "2")
	if !ok {
		return
	}
	if len(b.w.Positions) > 0 {
		b.positions(b.w.Positions)
		return
	}
	b.p.Positions = []string{"on", "off"}
	b.contact(a, z, []int{0})
}

func (b *builder) link() {
	if a, z, ok := b.two("1", "2"); ok {
		b.element(harness.Element{Kind: harness.FuseLink, Name: b.p.Ref, A: a, B: z, Ohms: linkR})
	}
}

// contact adds a switch contact that is closed in the given positions.
func (b *builder) contact(a, z harness.TerminalID, closed []int) {
	b.element(harness.Element{
		Kind: harness.Contact, Name: b.unique(b.between(b.called(a), b.called(z))), A: a, B: z, Ohms: contactR,
		When: harness.Condition{Kind: harness.InPosition, Switch: b.p.ID, Positions: closed},
	})
}

// positions makes the contacts of a switch; the first position is the rest position.
func (b *builder) positions(written []describe.Position) {
	type pair [2]harness.TerminalID
	var order []pair
	closed := map[pair][]int{}
	for i, pos := range written {
		b.p.Positions = append(b.p.Positions, pos.Name.Text)
		for _, names := range pos.Pairs {
			key := pair{b.terminal(names[0].Text), b.terminal(names[1].Text)}
			if key[0] > key[1] {
				key[0], key[1] = key[1], key[0]
			}
			if closed[key] == nil {
				order = append(order, key)
			}
			closed[key] = append(closed[key], i)
		}
	}
	for _, key := range order {
		b.contact(key[0], key[1], closed[key])
	}
}

func (b *builder) switched() {
	b.positions(b.w.Positions)
}

func (b *builder) ignition() {
	if len(b.w.Positions) > 0 {
		b.positions(b.w.Positions)
		return
	}
	b.p.Positions = []string{"off", "accessory", "run", "start"}
	for _, k := range []struct {
		to     string
		closed []int
	}{{"75", []int{1, 2}}, {"15", []int{2, 3}}, {"50", []int{3}}} {
		from, okF := b.has("30")
		if to, ok := b.has(k.to); ok && okF {
			b.contact(from, to, k.closed)
		}
	}
}

func (b *builder) plainLoad() {
	if from, to, ok := b.two("+", "-"); ok {
		b.load(b.p.Ref, from, to, b.p.Draws, b.behaves())
	}
}

func (b *builder) diode() {
	if a, k, ok := b.two("a", "k"); ok {
		b.element(harness.Element{Kind: harness.Rectifier, Name: b.p.Ref, A: a, B: k, Volts: b.w.Drop.Or(diodeDrop), Ohms: diodeR})
	}
}

func (b *builder) resistor() {
	if a, z, ok := b.two("1", "2"); ok {
		b.element(harness.Element{Kind: harness.Resistance, Name: b.p.Ref, A: a, B: z, Ohms: b.w.Ohms.V})
	}
}

func (b *builder) capacitor() {
	if a, z, ok := b.two("1", "2"); ok {
		b.element(harness.Element{Kind: harness.Open, Name: b.p.Ref, A: a, B: z})
	}
}

func (b *builder) strap() {
	if a, z, ok := b.two("1", "2"); ok {
		b.element(harness.Element{Kind: harness.Resistance, Name: b.p.Ref, A: a, B: z, Ohms: b.w.Ohms.Or(strapR)})
	}
}

// relay makes the coil, its suppression and the contacts.
func (b *builder) relay() {
	plus, ok86 := b.has("86")
	minus, ok85 := b.has("85")
	common, ok30 := b.has("30")
	if !ok86 || !ok85 || !ok30 {
		b.Fail("terminals-unclear", b.w.Key.Span, "name 30 85 86 87, or say under inside: what the part does", "%s is a relay without the usual terminals", b.p.Ref)
		return
	}
	coil := b.coil(plus, minus)
	if out, ok := b.has("87"); ok {
		b.follow(common, out, harness.Condition{Kind: harness.Energised, Coil: coil})
	}
	if out, ok := b.has("87a"); ok {
		b.follow(common, out, harness.Condition{Kind: harness.Released, Coil: coil})
	}
}

// coilOhms is a coil's resistance: as written, by its current at the volts that it is made for
// where that is written, else the usual one.
func (b *builder) coilOhms(volts float64, usual unit.Ohm) unit.Ohm {
	switch w := b.w.Coil; {
	case w.Given() && w.V.Ohms > 0:
		return w.V.Ohms
	case w.Given() && w.V.Amps > 0:
		return unit.Ohm(volts / float64(w.V.Amps))
	}
	return usual
}

func (b *builder) coil(plus, minus harness.TerminalID) harness.ElementID {
	volts := float64(b.side(plus, minus).Volts)
	ohms := b.coilOhms(volts, unit.Ohm(volts*volts/coilWatts))
	coil := b.element(harness.Element{
		Kind: harness.RelayCoil, Name: b.p.Ref + ".coil", A: plus, B: minus, Ohms: ohms,
		PullIn: unit.Volt(pullIn * volts), DropOut: unit.Volt(dropOut * volts),
	})
	switch b.p.Suppression {
	case "diode":
		b.element(harness.Element{Kind: harness.Rectifier, Name: b.p.Ref + ".diode", A: minus, B: plus, Volts: diodeDrop, Ohms: diodeR})
	case "resistor":
		r := unit.Ohm(float64(coilResistor) * math.Max(volts/12, 0.5))
		b.element(harness.Element{Kind: harness.Resistance, Name: b.p.Ref + ".resistor", A: plus, B: minus, Ohms: r})
	}
	return coil
}

func (b *builder) follow(a, z harness.TerminalID, when harness.Condition) {
	b.element(harness.Element{Kind: harness.Contact, Name: b.between(b.called(a), b.called(z)), A: a, B: z, Ohms: contactR, When: when})
}

// flasher: its contact is taken as closed (the lit half of the beat), so that
// wires and fuses are sized for the lamps burning.
func (b *builder) flasher() {
	in, okI := b.has("49")
	out, okO := b.has("49a")
	earth, okE := b.has("31")
	if okI && okO {
		b.element(harness.Element{Kind: harness.Contact, Name: b.between("49", "49a"), A: in, B: out, Ohms: contactR})
	}
	if b.sys.PositiveEarth { // the current comes from the body
		in, earth = earth, in
	}
	if okI && okE {
		b.load(b.p.Ref, in, earth, unit.Draw{Amps: flasherA}, harness.AsResistance)
	}
}

// panel makes a fuse between a feed and each position behind it.
func (b *builder) panel() {
	panel := &harness.Panel{Rating: map[string]unit.Ampere{}, RatingSpan: map[string]source.Span{}}
	b.p.Panel = panel
	behind := map[string]read.Word{}
	for _, f := range b.w.Feeds {
		feed := harness.PanelFeed{Name: f.Name.Text}
		in := b.terminal(f.Name.Text)
		for _, pos := range f.Positions {
			behind[pos.Text] = pos
			if b.isFeed(pos.Text) {
				b.Fail("panel-name-twice", pos.Span, "a stop "+b.p.Ref+"."+pos.Text+" could mean either: give the feed a name of its own, for example main",
					"%s is both a feed and a position of %s", pos.Text, b.p.Ref)
				continue
			}
			feed.Positions = append(feed.Positions, pos.Text)
			out := b.terminal(pos.Text)
			b.element(harness.Element{Kind: harness.FuseLink, Name: b.p.Ref + "." + pos.Text, A: in, B: out, Ohms: linkR, Position: pos.Text})
		}
		panel.Feeds = append(panel.Feeds, feed)
	}
	b.panelFace(panel, behind)
}

func (b *builder) isFeed(name string) bool {
	for _, f := range b.w.Feeds {
		if f.Name.Text == name {
			return true
		}
	}
	return false
}

// panelFace reads layout, given fuses and spares against the positions.
func (b *builder) panelFace(panel *harness.Panel, behind map[string]read.Word) {
	var names []string
	for _, f := range panel.Feeds {
		names = append(names, f.Positions...)
	}
	seen := map[string]bool{}
	for _, row := range b.w.Layout {
		var out []string
		for _, w := range row {
			out = append(out, w.Text)
			seen[w.Text] = true
		}
		panel.Layout = append(panel.Layout, out)
	}
	if len(panel.Layout) == 0 {
		panel.Layout = rowsOf(names, 6)
	} else {
		for _, n := range names {
			if !seen[n] {
				b.Fail("position-not-shown", behind[n].Span, "add it to a row of layout:", "position %s of %s has no place in the layout", n, b.p.Ref)
			}
		}
	}
	for _, f := range b.w.Fuses {
		if _, ok := behind[f.Position.Text]; !ok {
			b.Unknown("unknown-position", "fed position of "+b.p.Ref, f.Position, names)
			continue
		}
		panel.Rating[f.Position.Text] = f.Rating.V
		panel.RatingSpan[f.Position.Text] = f.Rating.Span
	}
	panel.Lid = b.w.Lid.V
	for _, s := range b.w.Spare {
		panel.Spare = append(panel.Spare, s.Text)
	}
}

func rowsOf(names []string, width int) [][]string {
	var rows [][]string
	for len(names) > width {
		rows = append(rows, names[:width])
		names = names[width:]
	}
	return append(rows, names)
}

// bus: the written terminals, or else those named in its stops, all joined.
func (b *builder) bus() {
	b.made.Open = len(b.w.Terminals) == 0
	for i := 1; i < len(b.p.Terminals); i++ {
		a, z := b.p.Terminals[0], b.p.Terminals[i]
		b.element(harness.Element{Kind: harness.Join, Name: b.between(b.called(a), b.called(z)), A: a, B: z})
	}
}

func (b *builder) connector() {
	for _, cavity := range b.p.Cavities {
		full := b.p.Ref + "." + cavity
		in := b.add(cavity+".in", full+".in", cavity)
		out := b.add(cavity+".out", full+".out", cavity)
		b.element(harness.Element{Kind: harness.Contact, Name: full, A: in, B: out, Ohms: cavityR})
	}
}

func (b *builder) splice() { b.terminal("") }

func (b *builder) ground() {
	b.element(harness.Element{Kind: harness.Resistance, Name: b.p.Ref, A: b.terminal(""), B: harness.Chassis, Ohms: b.w.Joint.Or(GoodGround)})
}

// unknown: the written terminals, or else those that its stops name. Nothing lies between
// them, but a load from + to - where it is known what it draws.
func (b *builder) unknown() {
	b.made.Open = len(b.w.Terminals) == 0
	if !b.w.Draws.Given() {
		return
	}
	if b.made.Open {
		b.terminal("+")
		b.terminal("-")
	}
	b.plainLoad()
}
