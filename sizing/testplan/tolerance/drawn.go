package tolerance

import (
	"math"

	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/network"
	"example.com/loomfolio/sizing/rating"
)

// Drawn is the least and the most that loads and coils draw from the sources in a state,
// by interval: each its own tolerance, and what the source's volts make of it.
func Drawn(h *harness.Harness, s *network.State) (low, high float64) {
	for i := range h.Elements {
		e, amps := &h.Elements[i], math.Abs(s.Amps[i])
		if e.Kind != harness.Load && e.Kind != harness.RelayCoil || amps < 1e-6 {
			continue
		}
		t, power := rating.ToleranceOf(string(e.Behaves)), 1.0
		switch {
		case e.Kind == harness.RelayCoil:
			t = rating.ToleranceOf("coil")
		case e.Behaves == harness.AsLamp:
			power = 0.55
		case e.Behaves != harness.AsResistance:
			power = 0
		}
		v := rating.ToleranceOf("battery volts")
		low += amps * t.Low * math.Pow(v.Low-0.05, power)
		high += amps * t.High * math.Pow(v.High+0.02, power)
	}
	return low, high
}
