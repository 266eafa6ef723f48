package protect_test

import (
	"testing"

	"example.com/loomfolio/sizing/choose/rig"
)

// The shorts behind the fuses of a whole car: some 60 fuses, 250 wires.
func BenchmarkShorts(b *testing.B) {
	w := rig.Wide(60)
	s := w.Settled(b)
	for b.Loop() {
		s.Protection.Shorts()
	}
}
