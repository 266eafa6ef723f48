// Package colour holds the colours of insulation, how alike two of them look,
// and the assignment of a base colour and tracer to every wire. Letters follow
// IEC 60757; a pair is written base/tracer with a slash (OG/BK).
package colour

import "example.com/loomfolio/sizing/harness"

// Pair is a wire's colour: the base and an optional tracer.
type Pair struct {
	Base   string // IEC 60757 letters
	Tracer string // "" when plain
}

// String gives RD or OG/BK.
func (p Pair) String() string {
	if p.Tracer == "" {
		return p.Base
	}
	return p.Base + "/" + p.Tracer
}

// Choice is a wire's colour with its reason.
type Choice struct {
	Pair   Pair
	Reason string // "ground: BK by practice", "unlike its 14 neighbours by at least 18.3 (check in good light)"
	Given  bool
	By     string // whose custom it is, where it is one: "British practice"
	Task   string // what for, in the word of the conventions: "main-beam"
	Found  Pair   // of the wire that is there now, in a car to be rewired; zero when not said
}

// Lock holds a wire's colour from an earlier run: planned, or built already. A
// planned one gives way to a hard rule only, one that is built to nothing but a
// colour written in the description.
type Lock struct {
	Pair  Pair
	Built bool
}

// Locks are the locked colours; nil when there are none.
type Locks map[harness.WireID]Lock

// Report sums up an assignment. Neighbours are wires of different nets that
// end at one part or lie in one run; two ground wires are no neighbours, and
// neither are wires whose copper differs 2.5 fold. Distances are in CIEDE2000
// units; pairs of which both colours were settled beforehand (by a rule, a
// lock, the description) stand apart in Settled.
type Report struct {
	LookAlikes int     // neighbouring wires of one colour
	Smallest   float64 // distance of the nearest two neighbours that differ; 0 when there are none
	Bound      float64 // no assignment under the same rules keeps all neighbours farther apart
	Settled    float64 // distance of the nearest two neighbours that were both settled; 0 when there are none
	Runs       []Spot  // by RunID
	Parts      []Spot  // by PartID
}

// Spot is how the colours stand in one run or at one part.
type Spot struct {
	Nets    int      // nets that meet there
	Reached float64  // distance of the nearest two neighbours there that differ; 0 when there are none
	Bound   float64  // it cannot be greater
	Exact   bool     // proved: the bound can be reached, the rest of the loom apart
	Near    []Near   // wires there that are not clear apart, the nearest first
	Bundles []Bundle // of a run in which colours repeat; nil elsewhere
}

// Bundle is the wires of a run that are tied together under bands of one
// colour, each colour once (MIL-STD-681F 5.1.3).
type Bundle struct {
	Number int    // from 1
	Band   string // letters of the band's colour
	Wires  []harness.WireID
}
