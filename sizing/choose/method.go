package choose

import (
	"math"

	"example.com/loomfolio/sizing/choose/shelf"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/rating"
	"example.com/loomfolio/sizing/unit"
)

// Feet in a metre.
const Feet = 1 / 0.3048

// byRule tells that a published rule sizes the wires one by one.
func (s *sizer) ByRule() bool { return s.H.Practice.Method != "computed" }

// published sizes wire by wire, by a rule that is printed somewhere: no wire
// knows of its neighbours, and each takes the whole drop of its loop as its own.
//   - abyc-e11: circular mils = 10.75 x amperes x feet of the loop / volts allowed;
//   - ac43-13: FAA AC 43.13-1B table 11-6, 0.5 V from the bus to the load and
//     back at 14 V, resistances and currents of table 11-9.
//
// Heat, fuses, handling and the one gauge of a series stay in force.
func (s *sizer) published(method string) []int {
	floor := make([]int, len(s.H.Wires))
	for w := range floor {
		floor[w] = s.Floors[w].Least()
	}
	for i := range s.Draws {
		d := &s.Draws[i]
		if !d.Counts {
			continue
		}
		for _, w := range d.Wires() {
			fits := s.RuleOf(method, d, w)
			j, _ := s.Of[w].Least(fits)
			floor[w] = max(floor[w], j)
		}
	}
	next := append([]int(nil), s.At...)
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
func (s *sizer) RuleOf(method string, d *Draw, w harness.WireID) func(*shelf.Size) bool {
	amps := math.Abs(s.States[d.State].WireAmps[w])
	loop := 0.0
	for _, x := range d.Wires() {
		loop += s.Metres(x)
	}
	if method == "abyc-e11" {
		limit, _ := s.LimitOf(d)
		area := rating.ABYCDropArea(unit.Ampere(amps), loop*Feet, limit)
		return func(z *shelf.Size) bool { return float64(z.Conductor.Area) >= float64(area)*0.99999 }
	}
	allowed := 0.5 * float64(s.Nominal()) / 12
	return func(z *shelf.Size) bool { return amps*loop*z.Ohms <= allowed*(1+1e-9) }
}
