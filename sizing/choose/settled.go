package choose

import (
	"example.com/loomfolio/sizing/choose/demand"
	"example.com/loomfolio/sizing/choose/protect"
	"example.com/loomfolio/sizing/flow"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/rating"
	"example.com/loomfolio/sizing/unit"
)

// Settled is what the rounds came to. Nothing of it is changed any more.
type Settled struct {
	*Round
	Bound  float64          // g, below which no set of gauges of the free wires comes; 0 when there is none
	Rounds int              // of solving and choosing until nothing changed
	Shorts []flow.Shorts    // by ElementID; of fuses
	Drawn  [][]*demand.Draw // by WireID: the draws that it carries, loads first, then what charges
}

// Copper gives the mass of all wires, and the bound that the last choice had
// below it, wires of a given gauge included. Where the currents moved a little
// after that choice, the mass itself is the highest bound that is claimed.
func (s *Settled) Copper() (mass, bound unit.Gram) {
	if s.Bound > 0 {
		bound = unit.Gram(s.Bound)
	}
	for i := range s.H.Wires {
		w := harness.WireID(i)
		own := rating.CopperMass(s.Size(w).Conductor.Area, weighed(s.Base, w))
		mass += own
		if s.Fixed[w] && s.Bound > 0 {
			bound += own
		}
	}
	return mass, min(bound, mass)
}

// WantedForDrop gives by WireID the size that the drop rule alone would ask of each wire,
// given gauges set free.
func (s *Settled) WantedForDrop() []int {
	free := groupsOf(s.Demand, s.Pins, make([]bool, len(s.Fixed)), make([]Lift, len(s.Fixed)))
	with := sizes{Protection: s.Protection, groups: free}
	if s.ByRule() {
		return with.published(func(harness.WireID) int { return 0 })
	}
	return with.computed(func(w harness.WireID) int { return s.Floors[w].Handling })
}

// Plan is what is bought above what is least.
type Plan struct {
	Sizes map[string][]unit.Gauge // by shelf (trial.Base.Keys): the sizes that are bought; a shelf that is not named keeps all
	Least []unit.Gauge            // by WireID: no thinner than that; not given: as thin as may be. nil for none
	Fuses []Rated                 // by ElementID: no smaller than that; nil for none
}

// Rated is the rating and the body of a fuse that is bought; zero for none.
type Rated = protect.Rated
