// Package network joins the model and the pure solver: it turns the harness in
// one state, with a resistance for each wire, into a circuit.Network, solves
// it, and gives the results back by terminal, element and wire. It also prints
// a solved state as a plain SPICE netlist.
//
// In: a harness.Harness, the index of a state, ohms by wire (and, where they
// differ from the element's own, by element), Options. Out: a State. Volts,
// amperes, ohms; a wire's current counts from From to To, an element's from A to B.
//
// Terminals joined by a Join whose condition holds share a node. A Join or
// Contact that follows a coil becomes a contact that the solver moves; any other
// element that follows a coil stands behind such a contact, with a node of its
// own between them. An element whose condition does not hold is left out.
// What follows a coil that is itself left out stands as when that is released.
//
// The reference node is the first battery's minus, its plus in a positive-earth
// vehicle, the chassis where there is no battery. What no metal joins to it (a
// battery of its own, with its loads) is counted from the minus of its own first
// battery, else its charger, else the chassis; only what has none of these floats. While the engine runs a
// charged battery neither gives nor takes between its EMF and the charging
// voltage (the higher of the system's and its chargers'), of which a battery in a
// series string has its share, as of the voltage of a flat one.
//
// A load of constant power takes it at any voltage from its Floor up, and below is a
// resistance: a feed that is too weak for it shows as a voltage under that floor.
//
// A state stands alone, with nothing before it: all coils begin released and pull
// in, or not, as the voltages then are; one that has pulled in lets go below its
// drop-out only. So a relay that is fed together with the starter's solenoid has
// pulled in before the starter takes hold, and is held at a voltage at which it
// would not pull in; one whose feed comes after the solenoid must pull in at the
// voltage while cranking.
//
// Solve is Prepare and Prepared.Solve. Prepared.With solves the same state with
// other resistances without working out its structure again, Prepared.Faults
// tries faults, thousands a second.
//
// What holds: every slice has one entry for each ID; what is left out carries 0 A;
// the currents at each node, joins included, sum to nothing within Residual.
package network

import (
	"example.com/loomfolio/sizing/circuit"
	"example.com/loomfolio/sizing/harness"
)

// State is one solved state. The slices that only tell the structure (NodeNames,
// Of, WireAt, ElementAt) are shared among the solvings of one Prepared.
type State struct {
	Name      string
	Index     int       // into Harness.States
	Volts     []float64 // by TerminalID, against battery negative (battery positive when that is earthed), each island against its own; NaN where floating
	WireAmps  []float64 // by WireID, From to To
	Amps      []float64 // by ElementID, A to B
	Energised []bool    // by ElementID
	Residual  float64   // A
	Chatter   []harness.ElementID
	Network   circuit.Network
	Solution  circuit.Solution
	NodeNames []string // by node: its first terminal in ID order (so "chassis" for the chassis' node); "ELEMENT.inside" for a made node
	Of        []int    // node by TerminalID; -1 where the terminal is not part of the network
	Elements  []Printed
	WireAt    []int // by WireID: index into Network.Elements
	Besides   []Beside
	ElementAt []int // by ElementID: index into Network.Elements, -1 for a Join that is a node and for what is left out
}

// Resistances are the ohms to solve with; +Inf is an open circuit.
type Resistances struct {
	Wires []float64 // by WireID, above 0
	Links []float64 // by ElementID; 0: the element's own. May be nil. Loads do not heed it
}

// Options change what is solved.
type Options struct {
	Flat []harness.ElementID // the batteries (EMF) that are flat: they take all that they get, so that a charger runs at its limit
	Low  bool                // loads of constant power take the current of the lowest voltage that they work at, whatever they get

	Held    []harness.ElementID // relay coils that begin energised, as a state before left them; the rest begin released
	Sources []Source            // batteries that are other than described
	Turning []Source            // loads that are turned from outside, as a fan in the wind: sources while that lasts
	Bridges []Bridge            // where a fault may join two terminals: open until one does (Fault.Bridge)
}

// Source is an element that gives Volts (A against B) behind Ohms.
type Source struct {
	Element harness.ElementID
	Volts   float64
	Ohms    float64
}

// Bridge is a place where two terminals may touch.
type Bridge struct{ A, B harness.TerminalID }

// Printed is one element of the solved network for `figures` and the netlist:
// what stood between which nodes, with its frozen value.
type Printed struct {
	Name  string  // wire name or element name
	Kind  string  // resistance, current, voltage, open
	A, B  string  // node names
	Value float64 // ohm, A from A to B, V of A against B; 0 for open
	Ohms  float64 // the resistance behind a voltage
	Note  string  // "wire", "fuse", "breaker", "contact", "coil", "battery", "alternator", "diode", "resistance"; of a load its part's kind
}
