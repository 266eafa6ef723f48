package drawing

import (
	"cmp"
	"slices"
	"strconv"

	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/harness/kind"
)

// inOrder is the circuits in the order of their numbers; those without one, and those
// whose number is a word, keep the order of the description behind the others.
func (s *sheets) inOrder() []harness.CircuitID {
	var out []harness.CircuitID
	for _, c := range s.h.Circuits {
		out = append(out, c.ID)
	}
	number := func(c harness.CircuitID) int {
		if n, err := strconv.Atoi(s.h.Circuits[c].Number); err == nil {
			return n
		}
		return 1 << 30
	}
	slices.SortStableFunc(out, func(a, b harness.CircuitID) int { return cmp.Compare(number(a), number(b)) })
	return out
}

// carries tells of the kinds that carry the supply from battery and alternator to the
// panels, and back.
func carries(k harness.Kind) bool {
	return kind.Charges(k) || slices.Contains([]harness.Kind{harness.Battery, harness.DCConverter, harness.ControlBox, harness.Shunt, harness.SplitCharge, harness.Starter, harness.Isolator, harness.Fuse, harness.Breaker,
		harness.Bus, harness.FusePanel, harness.Ground, harness.Strap, harness.Splice, harness.Connector, harness.Diode, harness.Resistor}, k)
}

// power is the job of the supply: the circuits that join battery and alternator to
// posts and panels, with what feeds the other panels; nil where there is none.
func (s *sheets) power() *job {
	var candidates []harness.CircuitID
	reached := map[harness.PartID]bool{}
	for i := range s.h.Parts {
		if k := s.h.Parts[i].Kind; k == harness.Battery || kind.Charges(k) {
			reached[s.h.Parts[i].ID] = true
		}
	}
	for _, id := range s.inOrder() {
		if s.onlyCarries(&s.h.Circuits[id]) {
			candidates = append(candidates, id)
		}
	}
	j := &job{power: true}
	for again := true; again; {
		again = false
		for _, id := range candidates {
			if slices.Contains(j.circuits, id) || !s.touches(s.h.Circuits[id].Wires, reached) {
				continue
			}
			j.circuits, again = append(j.circuits, id), true
			s.reach(s.h.Circuits[id].Wires, reached)
		}
	}
	if len(j.circuits) == 0 {
		return nil
	}
	slices.SortFunc(j.circuits, func(a, b harness.CircuitID) int {
		return cmp.Compare(slices.Index(s.inOrder(), a), slices.Index(s.inOrder(), b))
	})
	for _, id := range j.circuits {
		j.wires = append(j.wires, s.h.Circuits[id].Wires...)
	}
	j.lent = s.lentToPower(j.wires, reached)
	return j
}

// onlyCarries tells whether a circuit passes nothing but what carries the supply, or is
// of the class of starting or charging and has no relay in it.
func (s *sheets) onlyCarries(c *harness.Circuit) bool {
	if len(c.Wires) == 0 {
		return false
	}
	heavy := c.Class == "start" || c.Class == "charge"
	return !slices.ContainsFunc(s.partsOf(c.Wires), func(id harness.PartID) bool {
		k := s.h.Parts[id].Kind
		return !carries(k) && !(heavy && (k == harness.Switch || k == harness.Relay))
	})
}

func (s *sheets) touches(wires []harness.WireID, reached map[harness.PartID]bool) bool {
	return slices.ContainsFunc(s.partsOf(wires), func(id harness.PartID) bool { return reached[id] })
}

// reach adds the parts of some wires, grounds apart: the bodywork joins everything.
func (s *sheets) reach(wires []harness.WireID, reached map[harness.PartID]bool) {
	for _, id := range s.partsOf(wires) {
		if s.h.Parts[id].Kind != harness.Ground {
			reached[id] = true
		}
	}
}

// lentToPower lends the supply the wires by which it leads on to further fuses, posts
// and panels.
func (s *sheets) lentToPower(wires []harness.WireID, reached map[harness.PartID]bool) lent {
	in := setOf(wires)
	l := lent{tagged: set{}}
	for again := true; again; {
		again = false
		for _, w := range s.h.Wires {
			if !in[w.ID] && !s.h.Jumper(w.ID) && reached[s.h.Terminals[w.From].Part] && s.feedsOn(w) && l.add(w.ID) {
				in[w.ID], again = true, true
				s.reach([]harness.WireID{w.ID}, reached)
			}
		}
	}
	return l
}

// feedsOn tells whether a wire leads the supply on to a fuse, a post or a panel's feed.
func (s *sheets) feedsOn(w harness.Wire) bool {
	from, to := s.h.PartOf(w.From), s.h.PartOf(w.To)
	if from == nil || to == nil || earthedPole(s.h, w.From) || from.Kind == harness.Starter {
		return false
	}
	switch to.Kind {
	case harness.Fuse, harness.Breaker, harness.Isolator:
		return true
	case harness.Bus:
		return from.Kind != harness.Bus
	case harness.FusePanel:
		return to.Panel != nil && s.feedOf(to, s.h.Terminals[w.To].Name) == ""
	}
	return false
}
