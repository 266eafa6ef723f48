package symbol

import (
	"strings"

	"example.com/loomfolio/layout/sheet"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/harness/kind"
)

// Group is the symbols of one role, and how the role is told by the tile's edge.
type Group struct {
	Title    string
	Words    string
	Examples []Example
}

// Example is one symbol of the set with the words that explain it. Its tile has
// no caption.
type Example struct {
	Words Variant
	Tile  Tile
}

// Key lists every symbol of the set by role, for the reading guide, and with them the
// rails and the arrow of a reference.
func Key() []Group {
	groups := []Group{
		{Title: "Supplies", Words: "heavy left edge"},
		{Title: "Protection", Words: "cut corners"},
		{Title: "Switches", Words: "open sides, heavy foot; drawn at rest; a dot joins a line and a position; dashed: what moves together"},
		{Title: "Loads", Words: "round corners"},
		{Title: "Joints and grounds", Words: "plain edge, or none; the bodywork is a hatched rail at the right"},
	}
	for _, s := range samples() {
		g := &groups[kind.RoleOf(s.kind)]
		g.Examples = append(g.Examples, Example{s.v, s.tile()})
	}
	first, last := &groups[0], &groups[len(groups)-1]
	first.Examples = append(first.Examples, Example{"supply rail", supplyRail()})
	last.Examples = append(last.Examples, Example{groundOne, groundPoint()}, Example{"continues on that sheet, zone", arrow()})
	last.Examples = append(last.Examples, Example{"light flag: another circuit's wire", lightFlag()},
		Example{ownWireOne, ownWire()}, Example{bodyOne, onBody()},
		Example{"dashed tab: the other side of a contact, fed elsewhere", dashedTab()}, Example{"figures under a tab: volts", voltsTab()})
	return groups
}

// The line of a wire of the vehicle's own: pieces and gaps between them, mm.
const (
	OwnDash = 3.4
	OwnGap  = 1.3
)

// What only some diagrams have.
const (
	ownWireOne Variant = "broken line: the vehicle's own wire, existing; ≥: measure it"
	bodyOne    Variant = "grounded by its own body, without a wire"
)

// ownWire is the broken line of a wire that is there already.
func ownWire() Tile {
	c := &canvas{w: 16, h: 5}
	c.Polyline([]sheet.Point{{X: 0, Y: 2.5}, {X: 16, Y: 2.5}}, sheet.Dashed(1.2, OwnDash, OwnGap))
	return c.done(nil, 0)
}

// onBody is a terminal that stands on the bodywork.
func onBody() Tile {
	c := &canvas{w: 4, h: 8}
	c.tabs([]landed{{Use{Name: "-", Body: true}, []float64{4}}}, East)
	return c.done(nil, 0)
}

// lightFlag is the name of a wire that belongs to another circuit.
func lightFlag() Tile {
	c := &canvas{w: 14, h: 8}
	c.Rect(3, 0.4, 8, 4.4, sheet.Both(sheet.Solid(0.2), sheet.White))
	c.word(7, 2.6, "7A", true)
	c.Line(0, 6.4, 14, 6.4, sheet.Solid(0.8))
	return c.done(nil, 0)
}

// dashedTab is a terminal on which no wire lands in a diagram.
func dashedTab() Tile {
	c := &canvas{w: 10, h: 8}
	c.tab(5, 4, tab, "30", false)
	return c.done(nil, 0)
}

// voltsTab is a terminal with what a meter reads there.
func voltsTab() Tile {
	c := &canvas{w: 10, h: 9}
	c.tab(5, 2.7, tab, "30", true)
	c.volts(5, 2.7+tab/2, []string{"13.5"})
	return c.done(nil, 0)
}

// supplyRail is the bar from which a sheet's feeds start.
func supplyRail() Tile {
	c := &canvas{w: 10, h: 12}
	c.RoundRect(0, 0, RailWide, 12, 1, sheet.Filled(sheet.Ink))
	c.line(RailWide, 6, 10, 6)
	return c.done(nil, 0)
}

// groundPoint is a return's wire on the hatched rail of the bodywork.
func groundPoint() Tile {
	c := &canvas{w: 10, h: 12}
	Chassis(&c.Canvas, sheet.Rect{X: 7, W: RailWide, H: 12})
	c.line(0, 6, 7, 6)
	return c.done(nil, 0)
}

// arrow is a reference without its words.
func arrow() Tile {
	c := &canvas{w: 14, h: 8}
	c.tagShape()
	return c.done(nil, 0)
}

// sample is an example's part: its terminals that current enters and leaves.
type sample struct {
	v         Variant
	kind      harness.Kind
	name      string
	in, out   string // terminals, one blank apart
	push      bool
	rests     bool // its contact rests closed
	change    bool
	detail    string // suppression of a relay, type of a breaker
	positions []string
	loads     int
}

// samples is the whole set in the order of the reading guide.
func samples() []sample {
	all := append(supplySamples(), switchSamples()...)
	all = append(all, relaySamples()...)
	all = append(all, loadSamples()...)
	all = append(all, plainSamples()...)
	return append(all, chargingSamples()...)
}

func supplySamples() []sample {
	through := func(v Variant, k harness.Kind, detail string) sample {
		return sample{v: v, kind: k, in: "1", out: "2", detail: detail}
	}
	position := through(positionOne, harness.FusePanel, "")
	position.in = "in"
	return []sample{
		{v: batteryOne, kind: harness.Battery, out: "+ -"},
		{v: alternatorOne, kind: harness.Alternator, in: "L", out: "B+"},
		{v: dynamoOne, kind: harness.Alternator, name: "Dynamo", in: "L", out: "B+"},
		{v: converterOne, kind: harness.DCConverter, in: "in", out: "out"},
		{v: busOne, kind: harness.Bus, in: "A", out: "B C"},
		through(fuseOne, harness.Fuse, ""), position,
		{v: panelOne, kind: harness.FusePanel, in: "in"},
		through(breakerOne, harness.Breaker, ""), through(breakerCycles, harness.Breaker, "1"),
		through(breakerStays, harness.Breaker, "2"), through(breakerReset, harness.Breaker, "3"),
	}
}

func switchSamples() []sample {
	two := func(v Variant, k harness.Kind, push, rests bool) sample {
		return sample{v: v, kind: k, in: "1", out: "2", push: push, rests: rests, positions: []string{"off", "on"}}
	}
	three := sample{v: positionsOne, kind: harness.Switch, in: "1", out: "2 3", positions: []string{"0", "I", "II"}}
	springs := three
	springs.v, springs.push = springsOne, true
	return []sample{
		two(isolatorClosed, harness.Isolator, false, true), two(isolatorOpen, harness.Isolator, false, false),
		two(switchOpen, harness.Switch, false, false), two(switchClosed, harness.Switch, false, true),
		two(buttonOpen, harness.Switch, true, false), two(buttonClosed, harness.Switch, true, true),
		three, springs,
		{v: ignitionOne, kind: harness.IgnitionSwitch, in: "30", out: "75 15 50", positions: []string{"0", "I", "II", "III"}},
		{v: flasherOne, kind: harness.Flasher, in: "49", out: "49a 31"},
	}
}

func relaySamples() []sample {
	var all []sample
	for _, change := range []bool{false, true} {
		for _, detail := range []string{"none", "diode", "resistor"} {
			s := sample{kind: harness.Relay, in: "30 86", out: "87 85", change: change, detail: detail}
			if change {
				s.out = "87 87a 85"
			}
			s.v = relayVariant(&harness.Part{Changeover: change, Suppression: detail})
			all = append(all, s)
		}
	}
	return all
}

func loadSamples() []sample {
	load := func(v Variant, k harness.Kind, name string, loads int) sample {
		return sample{v: v, kind: k, name: name, in: "+", out: "-", loads: loads}
	}
	all := []sample{
		load(motorOne, harness.Motor, "", 1), load(fanOne, harness.Motor, "Fan", 1), load(pumpOne, harness.Motor, "Pump", 1),
		load(wiperOne, harness.Motor, "Wiper", 1), load(windowOne, harness.Motor, "Window", 1),
		{v: starterOne, kind: harness.Starter, in: "30 50", out: "case"},
		load(lampOne, harness.Lamp, "", 1), load(filamentsOne, harness.Lamp, "", 2), load(diodeLampOne, harness.Lamp, "Lamp, LED", 1),
	}
	for _, l := range plainLoads {
		all = append(all, load(l.v, l.kind, "", 1))
	}
	all = append(all, signSamples()...)
	return append(all, sample{v: moduleOne, kind: harness.Module, in: "A B", out: "C"})
}

func plainSamples() []sample {
	return []sample{
		{v: connectorOne, kind: harness.Connector, in: "4", out: "4"},
		{v: spliceOne, kind: harness.Splice, in: "S", out: "S S"},
		{v: diodeOne, kind: harness.Diode, in: "a", out: "k"},
		{v: resistorOne, kind: harness.Resistor, in: "1", out: "2"},
		{v: capacitorOne, kind: harness.Capacitor, in: "1", out: "2"},
		{v: strapOne, kind: harness.Strap, in: "1", out: "2"},
		{v: unknownOne, kind: harness.Unknown, in: "a", out: "b"},
		{v: openEndOne, kind: harness.OpenEnd, in: "?"},
	}
}

func (s sample) tile() Tile {
	h, part, uses := s.model()
	return New(h, part, uses, nil, Form{Pitch: 7.5})
}

// model is a harness of the example's part alone.
func (s sample) model() (*harness.Harness, *harness.Part, []Use) {
	h := &harness.Harness{Terminals: []harness.Terminal{{Part: harness.None}}}
	part := &harness.Part{Kind: s.kind, Name: s.name, Momentary: s.push, Changeover: s.change, Positions: s.positions}
	if s.kind == harness.Breaker {
		part.BreakerType = s.detail
	} else {
		part.Suppression = s.detail
	}
	var uses []Use
	at := map[string]int{}
	put := func(names string, in, out int) {
		for _, n := range strings.Fields(names) {
			i, ok := at[n]
			if !ok {
				i = len(uses)
				at[n] = i
				id := harness.TerminalID(len(h.Terminals))
				h.Terminals = append(h.Terminals, harness.Terminal{ID: id, Name: n})
				part.Terminals = append(part.Terminals, id)
				uses = append(uses, Use{Terminal: id, Name: n})
			}
			uses[i].In += in
			uses[i].Out += out
		}
	}
	put(s.in, 1, 0)
	if s.kind == harness.Connector {
		at = map[string]int{}
	}
	put(s.out, 0, 1)
	s.elements(h, part)
	return h, part, uses
}

// elements gives a switch its contacts, a lamp its filaments: position n of a
// switch joins the first terminal and the one after n; one of two positions that
// rests closed does so in its first.
func (s sample) elements(h *harness.Harness, part *harness.Part) {
	add := func(e harness.Element) {
		part.Elements = append(part.Elements, harness.ElementID(len(h.Elements)))
		h.Elements = append(h.Elements, e)
	}
	for range s.loads {
		add(harness.Element{Kind: harness.Load, Behaves: harness.AsResistance})
	}
	if s.rests {
		add(contactOf(part, 1, 0))
		return
	}
	for i := 1; i < len(s.positions); i++ {
		add(contactOf(part, i, i))
	}
}

func contactOf(part *harness.Part, to, position int) harness.Element {
	return harness.Element{Kind: harness.Contact, A: part.Terminals[0], B: part.Terminals[to],
		When: harness.Condition{Kind: harness.InPosition, Positions: []int{position}}}
}
