// Package proof holds, plain, how the finished wiring is proved with a meter and how a
// fault in it is found years later: test points, what is asked of them before and with
// power, what every single fault does, the ladder and the next measurement for every
// load, what is live when, ways that nobody meant, and what follows from a change. It is
// filled by sizing/testplan, sizing/fault and what lies under them, and read by sheets and
// figures. Volts are against battery negative (battery positive where that is earthed),
// as in network.State.
package proof

import "example.com/loomfolio/sizing/harness"

// Proof is all of it. The lists are in a fixed order; references among them are indices.
type Proof struct {
	Points   []Point    // in the order of the terminals
	Before   Before     // with the battery off
	Power    []Step     // first power, in order
	Readings []Reading  // with power: by state, then point
	Sections []Section  // joints under load, by state, then from the source on
	Through  []Through  // amps by fuse, in the order of the fuses
	Coils    []CoilAmps // by relay
	KeyOff   KeyOff
	Untold   []Untold   // opens, joints and burnt contacts of Faults that no reading or section shows
	Faults   []Fault    // the dictionary
	Ladders  []Ladder   // by load, in the order of the loads that have one
	Together []Together // the largest group of dead loads first
	Trees    []Tree     // by load, in the order of Ladders; the root is nil where nothing can be asked
	Live     []Live     // by net, in the order of its first terminal
	When     []string   // what Live is told for: names of the columns
	Without  []Without  // fuse by fuse, in the order of the fuses
	Sneaks   []Sneak
	Looked   Looked   // what was enumerated for Sneaks
	Changes  []Change // what follows if the vehicle is changed, by circuit
	Found    Found    // what nobody knows yet, and what was measured
}

// None is the index of nothing.
const None = harness.None
