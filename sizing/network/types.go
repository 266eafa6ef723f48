// Package network joins the model and the pure solver: it turns the harness in
// one state, with a resistance for each wire, into a circuit.Network, solves
// it, and gives the results back by terminal, element and wire. It also prints
// a solved state as a plain SPICE netlist.
package network

import (
	"example.com/loomfolio/sizing/circuit"
	"example.com/loomfolio/sizing/harness"
)

// State is one solved state.
type State struct {
	Name      string
	Index     int       // into Harness.States
	Volts     []float64 // by TerminalID, against battery negative (battery positive when that is earthed); NaN where floating
	WireAmps  []float64 // by WireID, From to To
	Amps      []float64 // by ElementID, A to B
	Energised []bool    // by ElementID
	Residual  float64   // A
	Chatter   []harness.ElementID
	Network   circuit.Network
	Solution  circuit.Solution
	NodeNames []string // by node: the terminals that form it, first in the file's order
	Of        []int    // node by TerminalID; -1 where the terminal is not part of the network
	Elements  []Printed
}

// Printed is one element of the solved network for `figures` and the netlist:
// what stood between which nodes, with its frozen value.
type Printed struct {
	Name  string  // wire name or element name
	Kind  string  // resistance, current, voltage, open
	A, B  string  // node names
	Value float64 // ohm, A, V
	Ohms  float64 // the resistance behind a voltage
	Note  string  // "wire", "fuse", "lamp", …
}
