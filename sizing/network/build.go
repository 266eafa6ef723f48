package network

import (
	"fmt"
	"math"
	"slices"

	"example.com/loomfolio/sizing/circuit"
	"example.com/loomfolio/sizing/forest"
	"example.com/loomfolio/sizing/harness"
)

// What stands where the model gives no value.
const (
	contactOhms  = 0.002  // a closed contact; common practice, no source
	fuseOhms     = 0.005  // a fuse and its clips; common practice, no source
	joinOhms     = 0.001  // a join that follows a coil; common practice, no source
	insideOhms   = 0.0001 // the contact before a load or coil that follows a coil (a starter's solenoid); common practice, no source
	batteryOhms  = 0.008  // common practice, no source
	chargerOhms  = 0.001  // a regulator senses its own output; common practice, no source
	diodeOhms    = 0.01   // common practice, no source
	pullInPart   = 0.65   // of the nominal voltage; common practice, no source
	dropOutPart  = 0.1    // of the nominal voltage; common practice, no source
	loadFloor    = 0.5    // of the nominal voltage, for a constant current; common practice, no source
	lampFloor    = 1.0 / 12
	flatPerVolt  = 11.9 / 12 // EMF of a flat lead-acid battery over its nominal voltage; common practice, no source
	nominalVolts = 12        // where the system gives none
)

// builder turns the model in one state into a network.
type builder struct {
	h     *harness.Harness
	state *harness.State
	index int // of the state
	r     Resistances
	o     Options

	nodes     nodes
	of        []int    // node by terminal
	names     []string // by node
	elements  []circuit.Element
	notes     []string            // by circuit element
	follows   []harness.ElementID // by circuit element: the coil it follows, or None
	wireAt    []int
	elementAt []int
	bridgeAt  []int                       // by index into Options.Bridges; -1 where both terminals are one node, or one is none
	outputs   map[harness.TerminalID]bool // what converters' outputs reach; nil until it is asked for
	passing   []pass                      // the order in which the joins' currents are found
}

// build makes the network; each step adds to what the one before made.
func (b *builder) build() (circuit.Network, error) {
	b.makeNodes()
	most := len(b.h.Wires) + len(b.h.Elements)
	b.elements, b.notes = make([]circuit.Element, 0, most), make([]string, 0, most)
	b.follows, b.wireAt = make([]harness.ElementID, 0, most), make([]int, 0, len(b.h.Wires))
	if err := b.wires(); err != nil {
		return circuit.Network{}, err
	}
	b.elementAt = slices.Repeat([]int{-1}, len(b.h.Elements))
	for i := range b.h.Elements {
		b.element(&b.h.Elements[i])
	}
	for i, coil := range b.follows {
		if coil != harness.None {
			b.elements[i].Control = b.elementAt[coil]
		}
	}
	b.inputs()
	b.bridges()
	b.uniqueNames()
	return circuit.Network{Nodes: len(b.names), Reference: b.reference(), Grounds: b.grounds(), Elements: b.elements}, nil
}

// inputs joins the input of each converter to its output.
func (b *builder) inputs() {
	for i := range b.h.Elements {
		e := &b.h.Elements[i]
		if e.Kind != harness.Converter || b.elementAt[e.ID] < 0 || b.elementAt[e.Input] < 0 {
			continue
		}
		in := &b.elements[b.elementAt[e.Input]]
		in.Kind, in.Control, in.Amps, in.AtVolts = circuit.Intake, b.elementAt[e.ID], 0, 0
		in.Efficiency, in.Standing = float64(e.Efficiency), float64(e.Standing)
		in.Floor = or(float64(b.h.Elements[e.Input].Floor), loadFloor*b.nominal(&b.h.Elements[e.Input]))
	}
}

// bridges adds what faults may close, open for now.
func (b *builder) bridges() {
	for _, x := range b.o.Bridges {
		from, to := b.of[x.A], b.of[x.B]
		if from < 0 || to < 0 || from == to {
			b.bridgeAt = append(b.bridgeAt, -1)
			continue
		}
		name := b.terminalName(x.A) + "~" + b.terminalName(x.B)
		b.bridgeAt = append(b.bridgeAt, b.add(circuit.Element{Name: name, Kind: circuit.Resistor, A: from, B: to, Ohms: math.Inf(1)}, "bridge", harness.None))
	}
}

// check tells what is wrong with resistances.
func (r Resistances) check(h *harness.Harness) error {
	if len(r.Wires) != len(h.Wires) {
		return fmt.Errorf("network: %d resistances for %d wires", len(r.Wires), len(h.Wires))
	}
	if r.Links != nil && len(r.Links) != len(h.Elements) {
		return fmt.Errorf("network: %d link resistances for %d elements", len(r.Links), len(h.Elements))
	}
	for i, ohms := range r.Wires {
		if !(ohms > 0) {
			return fmt.Errorf("network: wire %s needs a resistance above 0 ohm, not %g", h.Wires[i].Name, ohms)
		}
	}
	return nil
}

func (b *builder) wires() error {
	if err := b.r.check(b.h); err != nil {
		return err
	}
	for i, w := range b.h.Wires {
		b.wireAt = append(b.wireAt, b.add(circuit.Element{
			Name: w.Name, Kind: circuit.Resistor, A: b.of[w.From], B: b.of[w.To], Ohms: b.r.Wires[i],
		}, "wire", harness.None))
	}
	return nil
}

func (b *builder) add(e circuit.Element, note string, coil harness.ElementID) int {
	if coil == harness.None {
		e.Control = -1
	}
	b.elements = append(b.elements, e)
	b.notes = append(b.notes, note)
	b.follows = append(b.follows, coil)
	return len(b.elements) - 1
}

// condition tells whether an element is there in this state, and which coil it
// follows, if any.
func (b *builder) condition(c harness.Condition) (there bool, coil harness.ElementID) {
	switch c.Kind {
	case harness.Energised, harness.Released:
		if b.coilThere(&b.h.Elements[c.Coil]) {
			return true, c.Coil
		}
		return c.Kind == harness.Released, harness.None
	}
	return b.state.There(c), harness.None
}

// coilThere tells whether a coil is part of the network: one that follows a
// coil itself always is, behind a contact.
func (b *builder) coilThere(coil *harness.Element) bool {
	switch coil.When.Kind {
	case harness.InPosition, harness.EngineIs:
		there, _ := b.condition(coil.When)
		return there
	}
	return true
}

// element adds what a model's element is in this state.
func (b *builder) element(e *harness.Element) {
	there, coil := b.condition(e.When)
	if !there || e.Kind == harness.Open || e.Kind == harness.Load && e.Amps == 0 {
		return
	}
	if e.Kind == harness.Join && coil == harness.None {
		return
	}
	law, note := b.law(e)
	law.Name, law.A, law.B = e.Name, b.of[e.A], b.of[e.B]
	if e.Kind == harness.Converter {
		if input, _ := b.condition(b.h.Elements[e.Input].When); !input {
			return
		}
		coil = harness.None // it stops with its input
	}
	if coil != harness.None {
		law.Breaks = e.When.Kind == harness.Released
		if law.Kind == circuit.Resistor {
			law.Kind = circuit.Contact
		} else {
			law.A = b.behind(law, coil)
			law.Breaks, coil = false, harness.None
		}
	}
	b.elementAt[e.ID] = b.add(law, note, coil)
}

// behind puts a contact before an element and gives the node between them.
func (b *builder) behind(e circuit.Element, coil harness.ElementID) int {
	inside := b.newNode(e.Name + ".inside")
	b.add(circuit.Element{
		Name: e.Name + ".contact", Kind: circuit.Contact, A: e.A, B: inside, Ohms: insideOhms, Breaks: e.Breaks,
	}, "contact", coil)
	return inside
}

// law gives an element's electrical law, without its ends, and its note.
func (b *builder) law(e *harness.Element) (circuit.Element, string) {
	switch e.Kind {
	case harness.Join:
		return circuit.Element{Kind: circuit.Resistor, Ohms: b.ohms(e, joinOhms)}, "contact"
	case harness.Contact:
		if e.Keeps > 0 { // its drop is found once the rest is solved
			return circuit.Element{Kind: circuit.Diode, Ohms: b.ohms(e, contactOhms)}, "stabiliser"
		}
		return circuit.Element{Kind: circuit.Resistor, Ohms: b.ohms(e, contactOhms)}, "contact"
	case harness.FuseLink:
		return circuit.Element{Kind: circuit.Resistor, Ohms: b.ohms(e, fuseOhms)}, b.linkNote(e)
	case harness.Resistance:
		return circuit.Element{Kind: circuit.Resistor, Ohms: b.ohms(e, 0) / b.pulse(e)}, "resistance"
	case harness.RelayCoil:
		return b.coil(e), "coil"
	case harness.EMF:
		return b.source(e), "battery"
	case harness.Charger:
		return circuit.Element{Kind: circuit.Limited, Volts: float64(e.Volts), Ohms: b.ohms(e, chargerOhms), Amps: float64(e.Amps)}, "alternator"
	case harness.Converter:
		return circuit.Element{Kind: circuit.Limited, Volts: float64(e.Volts), Ohms: b.ohms(e, chargerOhms), Amps: float64(e.Amps)}, "converter"
	case harness.Rectifier:
		return circuit.Element{Kind: circuit.Diode, Volts: float64(e.Volts), Ohms: b.ohms(e, diodeOhms)}, "diode"
	}
	return b.load(e), b.loadNote(e)
}

func (b *builder) linkNote(e *harness.Element) string {
	if e.Part != harness.None && b.h.Parts[e.Part].Kind == harness.Breaker {
		return "breaker"
	}
	return "fuse"
}

// loadNote is the kind of a load's part.
func (b *builder) loadNote(e *harness.Element) string {
	if e.Part == harness.None {
		return "load"
	}
	return string(b.h.Parts[e.Part].Kind)
}

// ohms gives an element's resistance: as asked for, its own, or the usual one.
func (b *builder) ohms(e *harness.Element, usual float64) float64 {
	switch {
	case b.r.Links != nil && b.r.Links[e.ID] != 0:
		return b.r.Links[e.ID]
	case e.Ohms != 0:
		return float64(e.Ohms)
	}
	return usual
}

// nominal is the nominal voltage that an element is made for.
func (b *builder) nominal(e *harness.Element) float64 {
	return or(float64(b.h.SystemOf(e).Volts), nominalVolts)
}

func or(v, usual float64) float64 {
	if v != 0 {
		return v
	}
	return usual
}

func (b *builder) coil(e *harness.Element) circuit.Element {
	pullIn := or(float64(e.PullIn), pullInPart*b.nominal(e))
	dropOut := or(float64(e.DropOut), min(pullIn, dropOutPart*b.nominal(e)))
	if len(b.o.Flat) > 0 && e.Senses {
		dropOut = min(dropOut, dropOutPart*b.nominal(e)) // it comes and goes with a flat battery: what counts is what it carries
	}
	return circuit.Element{Kind: circuit.Coil, Ohms: b.ohms(e, 0), PullIn: pullIn, DropOut: dropOut, Held: slices.Contains(b.o.Held, e.ID)}
}

func (b *builder) source(e *harness.Element) circuit.Element {
	s, share := circuit.Element{Kind: circuit.Source, Volts: float64(e.Volts), Ohms: b.ohms(e, batteryOhms)}, float64(e.Holds())
	if other, ok := given(b.o.Sources, e.ID); ok {
		return other
	}
	switch {
	case slices.Contains(b.o.Flat, e.ID):
		s.Volts = flatPerVolt * b.nominal(e) * share
	case b.state.Engine == harness.EngineRunning && !b.charged() && !b.converted(e):
		s.Volts = float64(b.h.SystemOf(e).Running) * share
	case b.h.Charges(b.state) || b.converted(e):
		s.Idle = b.charging(e) * share
	}
	return s
}

// converted tells a battery that a converter charges: metal and fuses lead from an output
// to its live pole. A converter may work whatever the engine does.
func (b *builder) converted(battery *harness.Element) bool {
	if b.outputs == nil {
		b.outputs = b.metalOfOutputs()
	}
	return b.outputs[b.h.Live(battery)]
}

// metalOfOutputs are the terminals to which metal, fuses and isolators that are on lead
// from the live side of a converter's output.
func (b *builder) metalOfOutputs() map[harness.TerminalID]bool {
	if !slices.ContainsFunc(b.h.Elements, func(e harness.Element) bool { return e.Kind == harness.Converter }) {
		return map[harness.TerminalID]bool{}
	}
	sets, out := forest.New(len(b.h.Terminals)), map[harness.TerminalID]bool{}
	for i := range b.h.Wires {
		sets.Join(int(b.h.Wires[i].From), int(b.h.Wires[i].To))
	}
	for i := range b.h.Elements {
		if e := &b.h.Elements[i]; b.isMetal(e) {
			sets.Join(int(e.A), int(e.B))
		}
	}
	for i := range b.h.Elements {
		e := &b.h.Elements[i]
		if e.Kind != harness.Converter {
			continue
		}
		for t := range b.h.Terminals {
			if sets.Root(t) == sets.Root(int(b.h.Live(e))) {
				out[harness.TerminalID(t)] = true
			}
		}
	}
	return out
}

// isMetal tells what joins its terminals in this state whatever relays do.
func (b *builder) isMetal(e *harness.Element) bool {
	there, coil := b.condition(e.When)
	switch e.Kind {
	case harness.Join, harness.FuseLink:
		return there && coil == harness.None
	case harness.Contact:
		return there && coil == harness.None && (e.When.Kind == harness.Always || e.Part != harness.None && b.h.Parts[e.Part].Kind == harness.Isolator)
	}
	return false
}

// given finds an element among sources.
func given(list []Source, id harness.ElementID) (circuit.Element, bool) {
	at := slices.IndexFunc(list, func(s Source) bool { return s.Element == id })
	if at < 0 {
		return circuit.Element{}, false
	}
	return circuit.Element{Kind: circuit.Source, Volts: list[at].Volts, Ohms: list[at].Ohms}, true
}

// charged tells whether the harness has an alternator or dynamo of its own. Where it has
// none, the vehicle's charging system is not described and holds the battery
// at the running voltage while the engine runs.
func (b *builder) charged() bool {
	for i := range b.h.Elements {
		if b.h.Elements[i].ByEngine() {
			return true
		}
	}
	return false
}

// charging is the voltage up to which a charged battery takes no current: the most that
// charges on its side.
func (b *builder) charging(battery *harness.Element) float64 {
	volts := float64(b.h.SystemOf(battery).Running)
	for i := range b.h.Elements {
		if e := &b.h.Elements[i]; e.Regulates() && (e.Kind == harness.Converter || b.state.There(e.When)) && b.h.SystemOf(e).Volts == b.h.SystemOf(battery).Volts {
			volts = max(volts, float64(e.Volts))
		}
	}
	return volts
}

// pulse is the share of the time in which an element carries current: the mean of what
// points make and break, while the engine runs.
func (b *builder) pulse(e *harness.Element) float64 {
	if b.state.Engine != harness.EngineRunning {
		return 1
	}
	return or(float64(e.Pulse), 1)
}

func (b *builder) load(e *harness.Element) circuit.Element {
	amps, at := float64(e.Amps)*b.pulse(e), or(float64(e.AtVolts), or(float64(b.h.SystemOf(e).Running), b.nominal(e)))
	floor := float64(e.Floor)
	if turned, ok := given(b.o.Turning, e.ID); ok {
		return turned
	}
	if e.Behaves == harness.AsPower && b.o.Low && b.h.ConverterOf(e.ID) == nil {
		return circuit.Element{Kind: circuit.Current, Amps: float64(e.Most()), Floor: or(floor, loadFloor*b.nominal(e))}
	}
	switch e.Behaves {
	case harness.AsPower:
		return circuit.Element{Kind: circuit.Power, Amps: amps, AtVolts: at, Floor: or(floor, loadFloor*b.nominal(e))}
	case harness.AsCurrent, harness.AsMotor:
		return circuit.Element{Kind: circuit.Current, Amps: amps, Floor: or(floor, loadFloor*b.nominal(e))}
	case harness.AsLamp:
		return circuit.Element{Kind: circuit.Lamp, Amps: amps, AtVolts: at, Floor: or(floor, lampFloor*b.nominal(e))}
	}
	return circuit.Element{Kind: circuit.Resistor, Ohms: at / amps}
}

// uniqueNames adds a prime to an element whose name a wire or another already has.
func (b *builder) uniqueNames() {
	taken := make(map[string]bool, len(b.elements))
	for i := range b.elements {
		for taken[b.elements[i].Name] {
			b.elements[i].Name += "'"
		}
		taken[b.elements[i].Name] = true
	}
}
