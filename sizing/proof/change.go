package proof

import "example.com/loomfolio/sizing/harness"

// Change is what follows if something is changed later: computed, for the circuit's sheet.
type Change struct {
	Circuit harness.CircuitID
	Part    harness.PartID
	If      string // "a fan of 25 A"
	Then    string // "fuse FP.3 to 30 A, wires 12A and 12B to 6 mm²"
}
