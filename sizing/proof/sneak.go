package proof

import "example.com/loomfolio/sizing/harness"

// Live is a piece of metal and when it is live.
type Live struct {
	Net    harness.TerminalID   // its first terminal
	Points []harness.TerminalID // all of it, in their order
	Wires  []harness.WireID
	When   []Lives // by column of Proof.When
}

// Lives says how a net stands in a column.
type Lives int

// How a net stands.
const (
	NotLive Lives = iota // not live
	Fed                  // live from a source
	Behind               // shows volts through a load or coil only
	Ground               // part of the return
)

// Without is what differs with one fuse out, everything that it carries being on.
type Without struct {
	Fuse  harness.ElementID
	State int   // in which it is out: that in which it carries most
	Nets  []int // into Live, those that stand otherwise than in that state's column
	Lives []Lives
	Still []int // into Live, nets behind the fuse that are live though it is out
}

// Sneak is a way of the current that nobody meant.
type Sneak struct {
	Kind  string // of the table in sizing/fault/sneak
	State string // in which it shows, and what was changed: "parked, then hazard on"
	Path  []Stop // from the source to ground
	Loads []harness.ElementID
	Amps  float64
	Says  string // what happens
	Cure  string
	Slug  string // of the finding that tells it, "" where it is told here alone
}

// Stop is a stop on a way.
type Stop struct {
	At      harness.TerminalID
	Wire    harness.WireID    // that leads on from here, None where an element does
	Element harness.ElementID // None where a wire leads on
	Against bool              // against the direction that is written
}

// Looked says what was enumerated.
type Looked struct {
	States, Changes, Pairs, Solved int
	Left                           string // what was not looked at, "" for nothing
}
