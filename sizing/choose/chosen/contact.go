package chosen

import (
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/unit"
)

// Contact is what one pair of contacts of a switch, relay or isolator carries.
type Contact struct {
	Element harness.ElementID
	Name    string // "K1.30-87"
	Part    harness.PartID
	Amps    unit.Ampere // worst continuous current
	State   string
	Cranks  unit.Ampere // a starter's current through it, for seconds; not in Amps
	Loads   []Switched  // in the state in which the rating wanted is largest
	Wants   unit.Ampere // rating wanted by FAA AC 43.13-1B table 11-4
	WantsIn string      // the state that it comes from
	Rating  unit.Ampere // given, 0 when not
}

// Switched is one load or coil behind a contact.
type Switched struct {
	Name   string
	Kind   string // lamp motor inductive resistive
	Amps   unit.Ampere
	Factor float64 // of FAA AC 43.13-1B table 11-4
}
