package chosen

import (
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/unit"
)

// Spare is how much more one load may draw, or a source that charges may give, with
// everything as it was chosen.
type Spare struct {
	Element harness.ElementID
	Amps    unit.Ampere      // as it is described
	UpTo    unit.Ampere      // described so, every rule is kept; no more than Amps where one is not kept as it is
	Safe    unit.Ampere      // described so, and with Warm, no fuse opens and nothing gets too hot
	Lost    unit.Volt        // in its wires at Safe; 0 where they are held to no limit
	Allowed unit.Volt        // what its wires may lose
	Warm    []Thicker        // wires in the same runs that have to grow for Safe, as it gets warmer there
	Limits  []Limit          // what gives out, the first first
	Unrated []harness.PartID // relays and isolators on its way that state no rating
}

// Rules of limits.
const (
	ByContinuous = "continuous" // a fuse carries no more for hours
	ByStart      = "start"      // a fuse may open while the load starts
	ByHeat       = "heat"       // a wire carries no more where it lies
	ByBeside     = "beside"     // a wire in the same run gets too warm for its own current or fuse
	ByContact    = "contact"    // a contact is rated for no more
	ByUnrated    = "unrated"    // a switch that states no rating is asked for it
	ByDrop       = "drop"       // a load loses more volts than its class allows
	ByAlternator = "alternator" // a state asks for more than is given
	ByKeyOff     = "key-off"    // the battery loses too much at rest
)

// Hard tells a limit of the load's own way beyond which something opens or gets too hot.
func (l *Limit) Hard() bool {
	switch l.Rule {
	case ByDrop, ByAlternator, ByKeyOff, ByBeside:
		return false
	}
	return true
}

// Limit is one thing that gives out as a load grows.
type Limit struct {
	Rule    string
	Name    string            // of the fuse, wire, contact, load or state
	Element harness.ElementID // None where it is none
	Wire    harness.WireID    // None where it is none
	UpTo    unit.Ampere       // of the load as described
	Rating  unit.Ampere       // of a fuse: the next one that serves; 0 where there is none
	Thicker []Thicker         // wires that have to grow then
}

// Thicker is a wire and the size that it needs then.
type Thicker struct {
	Wire  harness.WireID
	Gauge unit.Gauge
}
