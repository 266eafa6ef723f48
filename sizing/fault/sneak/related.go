package sneak

import (
	"slices"

	"example.com/loomfolio/sizing/forest"
	"example.com/loomfolio/sizing/harness"
)

// related lists the pairs of parts with positions whose circuits share metal, a load or a
// relay: what hangs together between the fuses, the live sides of the sources and the earth.
func (s *search) related() [][2]harness.PartID {
	rail := s.railed()
	f := forest.New(len(s.at))
	for i := range s.edges {
		e := &s.edges[i]
		if rail.has(e.a) || rail.has(e.b) || e.element != harness.None && s.parts(e.element) {
			continue
		}
		f.Join(e.a, e.b)
	}
	for i := range s.h.Elements {
		if e := &s.h.Elements[i]; e.When.Kind == harness.Energised || e.When.Kind == harness.Released {
			s.joinOff(&f, rail, &s.h.Elements[e.When.Coil], e)
		}
	}
	return s.pairsIn(&f, rail)
}

// railed marks what metal that no switch parts joins to a source or to the earth; isolators
// count as closed.
func (s *search) railed() *marks {
	lives, deads := s.rails(harness.EngineRunning)
	rail := &s.sets[2]
	s.reach(rail, append(lives, deads...), walk{any: true, shut: func(e *harness.Element) bool {
		return e.When.Kind == harness.Always && float64(e.Ohms) < metal || e.Part != harness.None && s.h.Parts[e.Part].Kind == harness.Isolator
	}})
	return rail
}

// parts tells an element at which circuits part: a fuse, a source.
func (s *search) parts(id harness.ElementID) bool {
	e := &s.h.Elements[id]
	return e.Kind == harness.FuseLink || isSource(e)
}

// joinOff joins a coil's circuit to that of what follows it.
func (s *search) joinOff(f *forest.Forest, rail *marks, coil, e *harness.Element) {
	for _, a := range [2]int{s.live(coil), s.dead(coil)} {
		for _, b := range [2]int{s.live(e), s.dead(e)} {
			if !rail.has(a) && !rail.has(b) {
				f.Join(a, b)
			}
		}
	}
}

// pairsIn lists the pairs of parts with contacts in one circuit, in their order.
func (s *search) pairsIn(f *forest.Forest, rail *marks) [][2]harness.PartID {
	in := map[int][]harness.PartID{}
	var order []int
	for p, list := range s.moved {
		for _, id := range list {
			e := &s.h.Elements[id]
			for _, v := range [2]int{s.vertex[e.A], s.vertex[e.B]} {
				root := f.Root(v)
				if rail.has(v) || slices.Contains(in[root], harness.PartID(p)) {
					continue
				}
				if in[root] == nil {
					order = append(order, root)
				}
				in[root] = append(in[root], harness.PartID(p))
			}
		}
	}
	var out [][2]harness.PartID
	seen := map[[2]harness.PartID]bool{}
	for _, root := range order {
		for i, p := range in[root] {
			for _, q := range in[root][:i] {
				if two := [2]harness.PartID{q, p}; !seen[two] {
					seen[two] = true
					out = append(out, two)
				}
			}
		}
	}
	return out
}
