// Package choose makes the choices that a builder would otherwise make by
// hand: gauge, fuse, terminal, crimp, shrink, splice, ring stack, bundle and
// reel. In: the model, the ways, the tables of package rating, and the solved
// states. Out: one result a wire, fuse, load, end … with the reason of each
// choice, its numbers and their source.
package choose

import (
	"example.com/loomfolio/sizing/harness"
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
	Drop        unit.Volt    // in this wire, in that state
	Ambient     unit.Celsius // hottest zone that it passes
	Bundle      int          // wires carrying current with it in its fullest run
	Ampacity    unit.Ampere  // at that ambient and bundle
	Temperature unit.Celsius // estimated conductor temperature
	ProtectedBy string       // element name of the fuse or breaker; "" when none
	Wants       Wants
	Given       bool
	Reason      string
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
	FeedDrop    unit.Volt // in the conductors of the feed
	ReturnDrop  unit.Volt // in the conductors of the return
	OtherDrop   unit.Volt // fuses, contacts, joints
	Limit       unit.Volt
	LimitText   string // "3 % of 12 V", "0.5 V"
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
	Given       bool
	Amps        unit.Ampere // worst continuous current
	State       string
	Feeds       []string         // names of the loads behind it
	Wires       []harness.WireID // wires that it protects
	Smallest    harness.WireID   // the wire that stands least; None when it feeds none
	MostAllowed unit.Ampere      // the largest rating that those wires stand
	Prospective unit.Ampere      // short at the far end
	ClearsIn    unit.Second      // longest opening time at that current; 0 when not known
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

// End is one end of a wire.
type End struct {
	Wire      harness.WireID
	End       string // a or b
	Terminal  harness.TerminalID
	Fitting   string // "ring M6", "receptacle 6.3", "butt splice", "contact, 2-way family"
	Crimp     string // "blue insulated", "open barrel", "battery lug"
	Size      string // wire range of the fitting: "1.5-2.5 mm2"
	Strip     unit.Millimetre
	Pull      float64 // N
	PullList  string  // the list it is from
	Shrink    string  // "6/2 dual wall 3:1", "" when the crimp is insulated
	ShrinkLen unit.Millimetre
	Label     string // marker text
	Reason    string
	Sources   []string
}

// Ground is one ground point.
type Ground struct {
	Part    harness.PartID
	Rings   []harness.WireID // bottom up
	Amps    unit.Ampere
	State   string
	Lift    unit.Volt
	Surface string
	Stud    string
	Washer  string // "star washer on bared metal", …
	Prep    string
}

// Splice is one splice.
type Splice struct {
	Part      harness.PartID
	Wires     []harness.WireID
	AreaSum   unit.SquareMillimetre
	Size      string
	Shrink    string
	ShrinkLen unit.Millimetre
	Where     string
}

// Run is what lies in one run.
type Run struct {
	Run       harness.RunID
	Wires     []harness.WireID
	Diameter  unit.Millimetre
	Cover     unit.Millimetre // bore of the cover
	CoverName string
}

// Reel is the wire of one gauge, insulation and colour.
type Reel struct {
	Gauge      unit.Gauge
	Insulation string
	Base       string
	Tracer     string
	Wires      []harness.WireID // in cutting order
	Need       unit.Millimetre
	Buy        unit.Millimetre
	Copper     unit.Gram
}

// Item is one line of the shopping list.
type Item struct {
	Group string // wire, fuses, relays, terminals, shrink, cover, connectors, markers
	What  string
	Count float64
	Unit  string // "m", "pcs"
	For   string // where it is used, short
}

// Budget is the sum of one state.
type Budget struct {
	State      int
	Loads      unit.Ampere            // sum of load currents
	Sources    map[string]unit.Ampere // delivered, by element name
	Alternator unit.Ampere            // what it can deliver in this state, 0 when it does not run
	KeyOff     bool                   // everything at rest, engine off
	Days       float64                // key-off: days until the battery is flat; 0 when not computed
}
