// Package sneak looks for ways of the current that nobody meant: with nothing broken, in
// some position of the switches, something is fed, shorted or held that should not be.
//
// In: the model, its solved states and what was found before. Out: the sneak paths stop by
// stop with what happens and the cure, the findings that tell them, and what was looked at.
//
// Method: every state; from every state each switch put in each other position; from the
// states of rest and of driving each pair of switches whose circuits hang together; relays
// as the state before left them; batteries, fans in the wind and coils that let go. A change
// of switches is a change of a few elements in a network that stays prepared. What is fed is
// held against the way that the legs are written: a load with a real current whose own way
// is open has come to it by a sneak path; a current that no load explains is a short. One
// finding a link, the state with the fewest changes first. The clues are those of sneak
// circuit analysis (Boeing's handbook for NASA, 1970; Rome Air Development Center, 1990):
// power to power, ground to ground, current against the drawn direction, the cross link
// between two legs.
//
// Always holds: what declared states show comes before what changes show; the same model
// gives the same list.
package sneak

import (
	"example.com/loomfolio/sizing/fault/sneak/kick"
	"example.com/loomfolio/sizing/flow"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/network"
	"example.com/loomfolio/sizing/proof"
	"example.com/loomfolio/sizing/source"
)

// Found is what the search came to.
type Found struct {
	Sneaks   []proof.Sneak
	Problems source.Problems
	Looked   proof.Looked
}

// search is the work.
type search struct {
	*graph
	bench
	owner   *flow.Owner
	owns    []*flow.Own // by ElementID, of draws: the way through all contacts; nil until it is asked for
	said    source.Problems
	draws   []harness.ElementID // loads that take something, and coils
	coils   []harness.ElementID
	kept    [][2]harness.ElementID     // batteries that something keeps apart
	resting map[harness.ElementID]bool // what has a real current with everything at rest
	pulled  []pulled
	latch   []*latch
	cold    map[string][]harness.ElementID // what holds in a scene from rest, by its key
	waited  map[harness.ElementID]int      // how often a coil was solved for that something might hold
	unheld  int                            // how often it was not
	joint   []*link
	links   []*link
	meant   map[string]bool // loads with ways on which they came to their current as meant
	shorts  []*link
	shorted map[string]bool // scenes that are a short, by their key
	seen    map[string]bool // scenes that were solved, by their key
	tried   map[[3]int]bool // switches closed behind back-fed metal: vertex, part, position
	sets    [4]marks        // fed, back, and both past loads
	Found
}

// Search looks at a sized harness. Said is what was found before: what it tells is not told
// again. The error is the solver's.
func Search(h *harness.Harness, states []network.State, said source.Problems) (Found, error) {
	net := flow.NewNet(h)
	owner := net.Owner()
	s := &search{
		graph: newGraph(h, owner), bench: newBench(h, states), owner: owner, owns: make([]*flow.Own, len(h.Elements)), said: said,
		meant: map[string]bool{}, shorted: map[string]bool{}, seen: map[string]bool{}, tried: map[[3]int]bool{}, resting: map[harness.ElementID]bool{},
		cold: map[string][]harness.ElementID{}, waited: map[harness.ElementID]int{},
	}
	for i := range h.Elements {
		if e := &h.Elements[i]; flow.Draws(e) && (e.Kind == harness.RelayCoil || e.Amps > 0) {
			s.draws = append(s.draws, e.ID)
			if e.Kind == harness.RelayCoil {
				s.coils = append(s.coils, e.ID)
			}
		}
	}
	s.kept = s.apart()
	if err := s.scenes(); err != nil {
		return Found{}, err
	}
	s.tell()
	kicks, found := kick.Search(h)
	s.Sneaks, s.Problems = append(s.Sneaks, kicks...), append(s.Problems, found...)
	s.retell()
	s.Problems = s.Problems.Sorted()
	return s.Found, nil
}

// own is the way that is meant for a draw, through all contacts.
func (s *search) own(id harness.ElementID) *flow.Own {
	if s.owns[id] == nil {
		own := s.owner.Of(id, nil)
		s.owns[id] = &own
	}
	return s.owns[id]
}
