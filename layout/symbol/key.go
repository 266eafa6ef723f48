package symbol

import (
	"strings"

	"example.com/loomfolio/layout/sheet"
	"example.com/loomfolio/sizing/harness"
)

// Example is one symbol of the set with the words that explain it. Its tile has
// no caption.
type Example struct {
	Words string
	Tile  Tile
}

// sample is an example's part: its terminals that current enters and leaves.
type sample struct {
	words     string
	kind      harness.Kind
	name      string
	in, out   string // terminals, one blank apart
	push      bool
	change    bool
	suppress  string
	positions []string
}

// samples is the whole set in the order of the reading guide.
func samples() []sample {
	return []sample{
		{words: "battery", kind: harness.Battery, out: "+ -"},
		{words: "alternator", kind: harness.Alternator, in: "L", out: "B+"},
		{words: "bus bar", kind: harness.Bus, in: "A", out: "B C"},
		{words: "isolator", kind: harness.Isolator, in: "1", out: "2"},
		{words: "fuse", kind: harness.Fuse, in: "1", out: "2"},
		{words: "breaker, closes again or is reset", kind: harness.Breaker, in: "1", out: "2"},
		{words: "switch at rest", kind: harness.Switch, in: "1", out: "2"},
		{words: "push button", kind: harness.Switch, in: "1", out: "2", push: true},
		{words: "switch with positions: a dot joins line and position, ▲ is at rest", kind: harness.Switch, in: "1", out: "2 3", positions: []string{"0", "I", "II"}},
		{words: "relay that makes", kind: harness.Relay, in: "30 86", out: "87 85"},
		{words: "relay that changes over, diode across its coil", kind: harness.Relay, in: "30 86", out: "87 87a 85", change: true, suppress: "diode"},
		{words: "relay with a resistor across its coil", kind: harness.Relay, in: "30 86", out: "87 85", suppress: "resistor"},
		{words: "flasher", kind: harness.Flasher, in: "49", out: "49a 31"},
		{words: "motor", kind: harness.Motor, in: "+", out: "-"},
		{words: "fan", kind: harness.Motor, name: "fan", in: "+", out: "-"},
		{words: "pump", kind: harness.Motor, name: "pump", in: "+", out: "-"},
		{words: "wiper", kind: harness.Motor, name: "wiper", in: "+", out: "-"},
		{words: "starter", kind: harness.Starter, in: "30 50", out: "case"},
		{words: "lamp", kind: harness.Lamp, in: "+", out: "-"},
		{words: "heater", kind: harness.Heater, in: "+", out: "-"},
		{words: "ignition coil", kind: harness.Coil, in: "+", out: "-"},
		{words: "solenoid", kind: harness.Solenoid, in: "+", out: "-"},
		{words: "horn", kind: harness.Horn, in: "+", out: "-"},
		{words: "outlet", kind: harness.Outlet, in: "+", out: "-"},
		{words: "sender", kind: harness.Sender, in: "+", out: "-"},
		{words: "gauge", kind: harness.Gauge, in: "+", out: "-"},
		{words: "module, electronics", kind: harness.Module, in: "A B", out: "C"},
		{words: "diode", kind: harness.Diode, in: "a", out: "k"},
		{words: "resistor", kind: harness.Resistor, in: "1", out: "2"},
		{words: "capacitor", kind: harness.Capacitor, in: "1", out: "2"},
		{words: "strap", kind: harness.Strap, in: "1", out: "2"},
		{words: "connector, one cavity", kind: harness.Connector, in: "4", out: "4"},
		{words: "splice", kind: harness.Splice, in: "S", out: "S S"},
	}
}

// Key lists every symbol of the set with its words, for the reading guide, and
// last the rails and the arrow of a reference.
func Key() []Example {
	var out []Example
	for _, s := range samples() {
		out = append(out, Example{s.words, s.tile()})
	}
	supply := &canvas{w: 12, h: 12}
	supply.RoundRect(0, 0, RailWide, 12, 1, sheet.Filled(sheet.Ink))
	body := &canvas{w: 12, h: 12}
	Chassis(&body.Canvas, sheet.Rect{W: RailWide, H: 12})
	return append(out,
		Example{"supply rail", supply.done(nil, 0)},
		Example{"chassis rail: the bodywork as return", body.done(nil, 0)},
		Example{"goes on at another sheet and zone", arrow()},
	)
}

// arrow is a reference without its words.
func arrow() Tile {
	c := &canvas{w: 14, h: 8}
	c.tagShape()
	return c.done(nil, 0)
}

func (s sample) tile() Tile {
	h := &harness.Harness{Terminals: []harness.Terminal{{Part: harness.None}}}
	part := harness.Part{Kind: s.kind, Name: s.name, Momentary: s.push, Changeover: s.change, Suppression: s.suppress, Positions: s.positions}
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
	s.contacts(h, &part)
	return New(h, &part, uses, nil, Form{Pitch: 7.5})
}

// contacts gives a switch of several positions something to join: position n
// joins the first terminal and the one after n.
func (s sample) contacts(h *harness.Harness, part *harness.Part) {
	if s.kind == harness.Switch && len(s.positions) == 0 {
		part.Positions = []string{"off", "on"}
		h.Elements = append(h.Elements, contactOf(part, 1, 1))
		part.Elements = append(part.Elements, 0)
	}
	for i := 1; i < len(s.positions); i++ {
		part.Elements = append(part.Elements, harness.ElementID(len(h.Elements)))
		h.Elements = append(h.Elements, contactOf(part, i, i))
	}
}

func contactOf(part *harness.Part, to, position int) harness.Element {
	return harness.Element{Kind: harness.Contact, A: part.Terminals[0], B: part.Terminals[to],
		When: harness.Condition{Kind: harness.InPosition, Positions: []int{position}}}
}
