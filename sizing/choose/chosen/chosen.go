// Package chosen holds the electrical choices as they come out of package choose:
// plain values, by wire, load, fuse, contact and state, which sheets and figures
// read without the engine that made them.
package chosen

import (
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/network"
	"example.com/loomfolio/sizing/unit"
)

// Wants is the size that each rule alone would ask for.
type Wants struct{ Drop, Heat, Protection, Handling unit.Gauge }

// Wire is everything chosen for one wire.
type Wire struct {
	Gauge       unit.Gauge
	Area        unit.SquareMillimetre
	Diameter    unit.Millimetre // over the insulation
	Insulation  string
	Class       unit.Celsius
	Resistance  unit.Ohm     // of the whole wire at 20 C
	Amps        unit.Ampere  // worst continuous current, always >= 0
	State       string       // the state that gives it
	Drop        unit.Volt    // in this wire, in that state, at its temperature there
	Cold        unit.Volt    // the same at 20 C, as published rules count
	Ambient     unit.Celsius // hottest zone that it passes
	Bundle      int          // wires carrying current with it in its fullest run
	Ampacity    unit.Ampere  // at that ambient and bundle
	Temperature unit.Celsius // of the conductor where it is hottest, from the heat balance
	HottestIn   string       // the state that gives it
	ProtectedBy string       // element name of the fuse or breaker; "" when none
	Wants       Wants
	Below       Neighbour  // the next thinner size; where few sizes are bought, the next one of those
	Least       unit.Gauge // its own least size, where a thicker one is bought; else not given
	Bought      string     // why that one is bought: "bought with the 1 mm² of 14 other wires"; "" where Least is not given
	Given       bool
	Reason      string
	Loads       string   // of a thick wire that few small loads make so: all that it carries
	Saves       string   // and what a higher limit for these would save; both "" otherwise
	Sources     []string // keys of rating.Source
}

// Load is one load's worst case.
type Load struct {
	Element     harness.ElementID
	Name        string
	Amps        unit.Ampere // running
	StartAmps   unit.Ampere
	StartFor    unit.Second
	State       string    // the state with its lowest voltage
	Volts       unit.Volt // across the load in that state
	FeedDrop    unit.Volt // in the conductors of the feed, at their temperature in that state
	ReturnDrop  unit.Volt // in the conductors of the return
	Cold        unit.Volt // in both with the copper at 20 C, as published rules count
	OtherDrop   unit.Volt // fuses, contacts, joints
	Limit       unit.Volt
	LimitText   string // "3 % of 12 V", "0.5 V"
	Class       string // the class of practice.drop that the limit is of
	Own         string // the key by which the load says its own limit: drop, needs; "" for that of its class
	ProtectedBy string
	Feed        []harness.WireID // from the source to the load
	Return      []harness.WireID // from the load to the source
	On          []string         // names of the states in which it draws current
}

// Fuse is one fuse, breaker or panel position.
type Fuse struct {
	Element     harness.ElementID
	Name        string // "MF1", "FP.3"
	Part        harness.PartID
	Position    string
	Body        string
	Rating      unit.Ampere
	BodyColour  string // "yellow"
	Breaker     bool
	Type        string // of a breaker, SAE J553: 1, 2, 3; "" when not given
	Given       bool
	Amps        unit.Ampere // worst continuous current
	State       string
	Spare       unit.Ampere      // that it carries continuously beyond Amps where it sits
	Feeds       []string         // names of the loads behind it
	Wires       []harness.WireID // wires that it protects
	Smallest    harness.WireID   // the wire that stands least; None when it feeds none
	MostAllowed unit.Ampere      // the largest rating that those wires stand
	Prospective unit.Ampere      // short at the far end
	ClearsIn    unit.Second      // longest opening time at that current; 0 when not known
	Least       unit.Ampere      // what its currents alone ask for, where a larger one is bought; else 0
	Bought      string           // why that one is bought: "bought as 10 A like 6 others"; "" where Least is 0
	Below       Neighbour        // the next smaller rating of the body
	Above       Neighbour        // the next larger one
	Reason      string
	Sources     []string
}

// Relay is one relay's currents.
type Relay struct {
	Part    harness.PartID
	Coil    unit.Ampere
	Contact unit.Ampere
	Rating  unit.Ampere // given, 0 when not
}

// Budget is the sum of one state.
type Budget struct {
	State      int
	Loads      unit.Ampere            // sum of load currents; a load behind a converter counts at the converter's input
	Behind     []Side                 // what lies behind each converter, in the order of the elements
	Sources    map[string]unit.Ampere // delivered, by element name
	Alternator unit.Ampere            // what it can deliver in this state, 0 when it does not run
	KeyOff     bool                   // everything at rest, engine off
	Days       float64                // key-off: days until the batteries together are flat; 0 when not computed
	Drain      unit.Ampere            // key-off: what the batteries give, a series string once
	Drains     []Drain                // key-off: what draws it, by fuse, the most first
	Batteries  []Resting              // key-off: each battery alone, in the order of the elements
}

// Side is what lies behind one converter in a state.
type Side struct {
	Converter harness.ElementID
	Name      string
	Loads     unit.Ampere // sum of load currents
	Asked     unit.Ampere // what they are described to take
	Gives     unit.Ampere // what the converter gives them and its battery
	Limit     unit.Ampere
}

// Drain is what is drawn through one fuse with everything at rest.
type Drain struct {
	Fuse  harness.ElementID // the fuse nearest to the loads; None where they have none
	Name  string            // "FP.3", "" without a fuse
	Amps  unit.Ampere
	Share unit.Fraction // of all that is drawn
	Loads []string      // names of the loads and coils, in the order of the elements
}

// Resting is one battery with everything at rest.
type Resting struct {
	Battery harness.ElementID
	Name    string
	Amps    unit.Ampere // that it gives; below 0 where another battery charges it
	Days    float64     // until it is flat; 0 where it gives nothing or has no capacity
}

// Reckoned is what sizes wires beside the declared states, or for one that is a fault: one solved again with batteries
// flat or at the lowest voltage, or the described currents of loads that none turns on (its
// Volts are nil).
type Reckoned struct {
	network.State
	Cranking bool // seconds only
}

// Chosen is every electrical choice.
type Chosen struct {
	Wires      []Wire // by WireID
	Loads      []Load // in the order of the elements
	Fuses      []Fuse // in the order of the elements
	Relays     []Relay
	Contacts   []Contact       // in the order of the elements
	Spares     []Spare         // in the order of the elements; only of what it is known
	Budgets    []Budget        // by index into States
	States     []network.State // by index into Harness.States, with the chosen wires and fuses
	Faulty     []bool          // by index into States: a fault, which sizes nothing; see trial.Solved
	Reckoned   []Reckoned      // what was solved or summed beside these
	SourceKeys []string        // of the sources that decided something, each once

	// CopperMass is that of all wires with their terminals: a terminal weighs about
	// what terminalLength of its conductor does.
	CopperMass unit.Gram
	// CopperBound: with the currents, fuses and floors that were settled on, no set
	// of gauges that keeps all drops is lighter. 0 where a published table sizes
	// wire by wire.
	CopperBound unit.Gram

	Rounds int // of solving and choosing until nothing changed
}
