package harness

import "example.com/loomfolio/sizing/unit"

// KeptState says how far a kept choice has come.
type KeptState string

// The states of a line of the record; "" is a choice of this run.
const (
	Planned KeptState = "planned"  // not made yet
	Built   KeptState = "built"    // made, and in the vehicle
	Retired KeptState = "retired"  // made once, and no longer described
	Own     KeptState = "existing" // the vehicle's own, which the description calls existing; on no line of the record
)

// Kept is what the as-built record holds of a wire. The zero Kept is a wire that
// the record does not know. A value in the description goes before it; what is
// built goes before a new choice, and so does what is planned as long as it serves.
type Kept struct {
	State      KeptState
	Name       string
	Gauge      unit.Gauge
	Insulation string
	Base       string // colour letters
	Tracer     string
	Length     unit.Millimetre // 0 where the wire has to be cut anew
	Sleeves    []string        // names in the record of wires that look alike where they meet, by choice: number sleeves tell them apart
	Line       int             // of the record, from 1
}

// KeptFuse is what the record holds of a fuse, breaker or panel position.
type KeptFuse struct {
	State  KeptState
	Rating unit.Ampere
	Body   string
	Line   int
}

// IsBuilt tells whether what is kept by an index is in the vehicle, as it was built or as the
// vehicle's own; kept may be nil.
func IsBuilt(kept []KeptState, i int) bool {
	return i < len(kept) && (kept[i] == Built || kept[i] == Own)
}

// BuiltUnit tells whether all wires of a unit are in the vehicle.
func BuiltUnit(u *Unit, kept []KeptState) bool {
	for _, w := range u.Wires {
		if !IsBuilt(kept, int(w)) {
			return false
		}
	}
	return true
}
