// Package side tells which way the current of a leg is meant to flow, so that a leg may be
// written from the live side or from the ground. In: the parts of a harness and what the
// wires of each leg join, as written. Out: for each leg whether it is written against the
// current, which leaves the live side with negative earth and comes from the bodywork with
// positive. Method: all contacts closed, all loads on, every battery with its live side up,
// solved once by package circuit; a leg whose wires carry something shows its direction.
package side

import (
	"math"

	"example.com/loomfolio/sizing/circuit"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/harness/kind"
)

// Leg is a leg as it is written: where it begins and ends, and what its wires join.
type Leg struct {
	First, Last harness.TerminalID
	Joins       [][2]harness.TerminalID
}

// Resistances by which the direction is found, ohm. They need no source: the sign of a
// current on a way that is no ring does not depend on them.
const (
	wireOhms    = 0.01
	contactOhms = 0.01
	dimOhms     = 1e4 // a load of which nothing is known
)

// A leg shows its direction from these on: by what its wires carry, A, or by what
// lies between its ends, V. Common practice, no source.
const (
	carriesFrom = 0.05
	loadFrom    = 1.0
)

// Against tells for each leg whether it is written against the current. A leg that shows
// no direction, or lies in a ring of metal, is written as most of the others are; where
// there are no others, with the current. The second result tells how most are written.
func Against(h *harness.Harness, legs []Leg) ([]bool, bool) {
	f := finderOf(h, legs)
	towards, votes := f.directions(), 0
	for i := range towards {
		if h.System.PositiveEarth {
			towards[i] = -towards[i]
		}
		if !f.leadsBack(&legs[i]) {
			votes += towards[i]
		}
	}
	out, most := make([]bool, len(legs)), votes < 0
	for i, n := range towards {
		out[i] = n < 0
		if n == 0 || out[i] != most && f.inRing(i) {
			out[i] = most
		}
	}
	return out, most
}

type finder struct {
	h    *harness.Harness
	legs []Leg
	near [][]step // by terminal: wires, and the metal within parts
}

// step is one way on from a terminal.
type step struct {
	to  harness.TerminalID
	leg int // whose wire it is; -1 inside a part
}

func finderOf(h *harness.Harness, legs []Leg) *finder {
	f := &finder{h: h, legs: legs, near: make([][]step, len(h.Terminals))}
	for i := range legs {
		for _, j := range legs[i].Joins {
			f.join(j[0], j[1], i)
		}
	}
	for i := range h.Elements {
		if e := &h.Elements[i]; metal(e) {
			f.join(e.A, e.B, -1)
		}
	}
	return f
}

func (f *finder) join(a, b harness.TerminalID, leg int) {
	f.near[a] = append(f.near[a], step{b, leg})
	f.near[b] = append(f.near[b], step{a, leg})
}

// metal tells what passes current with no load; an alternator's own contacts are left out.
func metal(e *harness.Element) bool {
	switch e.Kind {
	case harness.Join, harness.Contact, harness.FuseLink, harness.Resistance:
		return e.When.Kind != harness.EngineIs
	}
	return false
}

// directions is 1 for a leg that leads from the live side towards the other, -1 for one
// that leads back, 0 where nothing shows.
func (f *finder) directions() []int {
	out := make([]int, len(f.legs))
	n := f.network()
	solved, err := circuit.Solve(n)
	if err != nil {
		return out // metal that cannot be solved shows nothing
	}
	wire := 0
	for i := range f.legs {
		sum := 0.0
		for range f.legs[i].Joins {
			sum += solved.Amps[wire]
			wire++
		}
		out[i] = f.direction(&f.legs[i], sum, solved.Volts)
	}
	return out
}

func (f *finder) direction(l *Leg, amps float64, volts []float64) int {
	switch drop := volts[l.First] - volts[l.Last]; {
	case f.ends(l.First):
		return 1
	case f.ends(l.Last):
		return -1
	case math.Abs(drop) >= loadFrom: // false for NaN
		return sign(drop)
	case math.Abs(amps) >= carriesFrom:
		return sign(amps)
	}
	return 0
}

// leadsBack tells a battery's earth lead, which says nothing of how its writer thinks.
func (f *finder) leadsBack(l *Leg) bool {
	for _, t := range [2]harness.TerminalID{l.First, l.Last} {
		if p := f.h.PartOf(t); p != nil && p.Kind == harness.Battery {
			for _, id := range p.Elements {
				if e := &f.h.Elements[id]; e.Kind == harness.EMF && t == e.A+e.B-f.live(e) {
					return true
				}
			}
		}
	}
	return false
}

func sign(x float64) int {
	if x < 0 {
		return -1
	}
	return 1
}

// ends tells the live side of an alternator: its current comes from there.
func (f *finder) ends(t harness.TerminalID) bool {
	p := f.h.PartOf(t)
	if p == nil || p.Kind != harness.DCConverter && !kind.Charges(p.Kind) {
		return false
	}
	for _, id := range p.Elements {
		if e := &f.h.Elements[id]; e.Regulates() && t == f.live(e) {
			return true
		}
	}
	return false
}

// live is the side of a source that is not earthed.
func (f *finder) live(e *harness.Element) harness.TerminalID {
	if f.h.System.PositiveEarth {
		return e.B
	}
	return e.A
}

// inRing tells whether metal joins a leg's two ends without its own wires, or both to
// batteries on one side: then the direction hangs on which contacts are closed, and on
// which battery gives.
func (f *finder) inRing(leg int) bool {
	first, last := f.around(f.legs[leg].First, leg), f.around(f.legs[leg].Last, leg)
	if first[f.legs[leg].Last] {
		return true
	}
	live, earthed, batteries := [2]bool{}, [2]bool{first[harness.Chassis], last[harness.Chassis]}, 0
	for i := range f.h.Elements {
		e := &f.h.Elements[i]
		if e.Kind != harness.EMF {
			continue
		}
		batteries++
		for end, reached := range []map[harness.TerminalID]bool{first, last} {
			live[end] = live[end] || reached[f.live(e)]
			earthed[end] = earthed[end] || reached[e.A+e.B-f.live(e)]
		}
	}
	return batteries > 1 && (live[0] && live[1] || earthed[0] && earthed[1])
}

// around is what metal joins to a terminal without a leg's wires; the bodywork ends it.
func (f *finder) around(t harness.TerminalID, leg int) map[harness.TerminalID]bool {
	seen := map[harness.TerminalID]bool{t: true}
	for queue := []harness.TerminalID{t}; len(queue) > 0; queue = queue[1:] {
		if queue[0] == harness.Chassis {
			continue
		}
		for _, s := range f.near[queue[0]] {
			if s.leg != leg && !seen[s.to] {
				seen[s.to] = true
				queue = append(queue, s.to)
			}
		}
	}
	return seen
}
