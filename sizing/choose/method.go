package choose

import (
	"math"

	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/rating"
	"example.com/loomfolio/sizing/unit"
)

// Feet in a metre.
const feet = 1 / 0.3048

// byRule tells that a published rule sizes the wires one by one.
func (s *sizer) byRule() bool { return s.h.Practice.Method != "computed" }

// published sizes wire by wire, by a rule that is printed somewhere: no wire
// knows of its neighbours, and each takes the whole drop of its loop as its own.
//   - abyc-e11: circular mils = 10.75 x amperes x feet of the loop / volts allowed;
//   - ac43-13: FAA AC 43.13-1B table 11-6, 0.5 V from the bus to the load and
//     back at 14 V, resistances and currents of table 11-9.
//
// Heat, fuses, handling and the one gauge of a series stay in force.
func (s *sizer) published(method string) []int {
	floor := make([]int, len(s.h.Wires))
	for w := range floor {
		floor[w] = s.floors[w].least()
	}
	for i := range s.draws {
		d := &s.draws[i]
		if !d.counts {
			continue
		}
		for _, w := range d.wires() {
			fits := s.ruleOf(method, d, w)
			j, _ := s.shelf[w].least(fits)
			floor[w] = max(floor[w], j)
		}
	}
	next := append([]int(nil), s.at...)
	for _, wires := range s.groups {
		most := 0
		for _, w := range wires {
			most = max(most, floor[w])
		}
		for _, w := range wires {
			next[w] = most
		}
	}
	return next
}

// ruleOf gives the test that a size of a wire must pass for one load.
func (s *sizer) ruleOf(method string, d *draw, w harness.WireID) func(*size) bool {
	amps := math.Abs(s.states[d.state].WireAmps[w])
	loop := 0.0
	for _, x := range d.wires() {
		loop += s.metres(x)
	}
	if method == "abyc-e11" {
		limit, _ := s.limitOf(d)
		area := rating.ABYCDropArea(unit.Ampere(amps), loop*feet, limit)
		return func(z *size) bool { return float64(z.conductor.Area) >= float64(area)*0.99999 }
	}
	allowed := 0.5 * float64(s.nominal()) / 12
	return func(z *size) bool { return amps*loop*z.ohms <= allowed*(1+1e-9) }
}
