package proof

import (
	"slices"

	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/unit"
)

// Kind is what is wrong with an element.
type Kind string

// The kinds of faults.
const (
	Open         Kind = "open"         // a wire, contact, fuse holder, coil, load or source lets nothing through
	Joint        Kind = "joint"        // a joint costs the load a part of its voltage
	Short        Kind = "short"        // metal touches ground or a neighbour
	Welded       Kind = "welded"       // a contact does not open
	Burnt        Kind = "burnt"        // a contact costs its load a part of its voltage
	Stuck        Kind = "stuck"        // a relay draws its coil current and does not move
	Unearthed    Kind = "unearthed"    // a ground point is off: all that ends there has lost it together
	Shorted      Kind = "shorted"      // a diode, load or coil lets everything through
	Flat         Kind = "flat"         // a battery is flat
	Disconnected Kind = "disconnected" // a battery, or a machine, is off the loom
	Dead         Kind = "dead"         // a source gives nothing
)

// Fault is one thing that is broken, and what a meter shows then.
type Fault struct {
	ID      string // stable, unique: "12A:open", "12A:joint-30", "12A:short", "12A~13B:short", "K1.30-87:welded", "G3:unearthed"
	Element string // a wire's name, an element's, a part's or PART.terminal
	Kind    Kind
	Part    harness.PartID      // where it lies: the part, None for a wire
	Wire    harness.WireID      // None where it is no wire's
	Costs   unit.Fraction       // of a joint or burnt contact: the part of the load's voltage
	Ohms    unit.Ohm            // of a joint or burnt contact, on top of what is there when sound; of what touches; else 0
	Amps    unit.Ampere         // through what touches, before any fuse opens
	State   int                 // in which it shows, and is solved here
	Load    harness.ElementID   // that it was looked at for; None for none
	Blown   []harness.ElementID // fuses that it opens: an effect, not a cause
	Dead    []harness.ElementID // loads that work in this state when all is well, and do not with it
	Weak    []harness.ElementID // loads that get less than nine tenths of their voltage
	Extra   []harness.ElementID // loads that work though they should not
	Volts   []Shows             // on the ways of its load and of what it touches, and wherever a reading moves by 0.5 V; in the order of the points
	Says    string              // what no reading shows: that no fuse opens and wire burns, that a relay buzzes; "" for nothing
	Weight  float64             // how likely, against a visible crimp's 1
	Why     string              // of the weight: the row of the table
}

// Shows is what a meter shows at a point with a fault.
type Shows struct {
	Point int // into Points
	Volts unit.Volt
	Float bool // nothing defines a voltage
}

// Ladder is what is measured for one load, from its feed to its ground, load on.
type Ladder struct {
	Load  harness.ElementID
	State int
	Rungs []Rung
	Rest  []int // into Faults: those that leave every rung right, the load itself, the likeliest first
}

// Suspects are all faults that a ladder tells.
func (l *Ladder) Suspects() []int {
	out := slices.Clone(l.Rest)
	for _, r := range l.Rungs {
		for _, m := range r.Means {
			out = append(out, m.Faults...)
		}
	}
	return out
}

// Rung is one point of a ladder.
type Rung struct {
	Point     int
	Volts     unit.Volt
	Low, High unit.Volt
	Means     []Meaning // in the order of their volts, the highest first; the sound reading is none
}

// Meaning is a band of readings at a rung, all rungs above it being right, and what it
// then is.
type Meaning struct {
	Low, High unit.Volt
	Faults    []int // into Faults, the likeliest first
}

// Together is a set of symptoms: when just these are dead, weak and on without being
// switched in a state, and those that share something with them live, it is one of a few
// faults. Of a ground that several loads have lost some are weak and some on through one
// another.
type Together struct {
	State  int
	Dead   []harness.ElementID
	Weak   []harness.ElementID
	Extra  []harness.ElementID
	Live   []harness.ElementID // work in that state and share wires or contacts with these, those that share most first
	Faults []int               // into Faults, the likeliest first
}
