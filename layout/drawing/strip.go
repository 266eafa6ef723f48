package drawing

import (
	"slices"

	"example.com/loomfolio/layout/diagram"
	"example.com/loomfolio/sizing/harness"
)

// strip is a set of wires drawn together from left to right.
type strip struct {
	wires    []harness.WireID
	circuits []harness.CircuitID
	graph    *graph
	layout   *diagram.Layout
	form     look
}

// strips divides the circuits into strips that fit a sheet and lays them out.
// Where one had to be divided the homes of parts change, so all is done again.
func (s *sheets) strips() []*strip {
	s.use = uses(s.h)
	var strips []*strip
	for _, c := range s.h.Circuits {
		for _, wires := range s.components(c.Wires) {
			strips = append(strips, &strip{wires: wires, circuits: []harness.CircuitID{c.ID}})
		}
	}
	for range 12 {
		s.chooseHomes(strips)
		var next []*strip
		divided := false
		for i, st := range strips {
			s.layOut(i, st)
			if st.layout == nil || st.layout.Fits || len(st.wires) < 2 {
				next = append(next, st)
				continue
			}
			divided = true
			for _, half := range s.divide(st) {
				next = append(next, &strip{wires: half, circuits: st.circuits})
			}
		}
		if strips = next; !divided {
			break
		}
	}
	return slices.DeleteFunc(strips, func(st *strip) bool { return st.layout == nil })
}

// components groups wires that hang together by tiles; supplies and grounds,
// which are drawn as rails, join nothing.
func (s *sheets) components(wires []harness.WireID) [][]harness.WireID {
	in := setOf(wires)
	root := map[harness.WireID]harness.WireID{}
	for _, w := range wires {
		root[w] = w
	}
	find := func(w harness.WireID) harness.WireID {
		for root[w] != w {
			w = root[w]
		}
		return w
	}
	for _, p := range s.partsOf(wires) {
		for _, tied := range s.tied(&s.h.Parts[p], in) {
			for _, w := range tied[1:] {
				root[find(w)] = find(tied[0])
			}
		}
	}
	var out [][]harness.WireID
	at := map[harness.WireID]int{}
	for _, w := range wires {
		r := find(w)
		if _, ok := at[r]; !ok {
			at[r] = len(out)
			out = append(out, nil)
		}
		out[at[r]] = append(out[at[r]], w)
	}
	return out
}

// tied gives the sets of wires that a part holds together on a strip.
func (s *sheets) tied(p *harness.Part, in set) [][]harness.WireID {
	var each [][]harness.WireID
	var all []harness.WireID
	for _, t := range p.Terminals {
		_, arrive, leave := s.landing(t, in)
		if here := append(arrive, leave...); len(here) > 0 {
			each = append(each, here)
			all = append(all, here...)
		}
	}
	switch {
	case len(all) == 0 || p.Kind == harness.Ground || s.feedsOnly(p, s.touched(p, in), in):
		return nil
	case p.Kind == harness.FusePanel:
		return each
	case p.Kind == harness.Connector:
		return s.byCavity(p, in)
	}
	return [][]harness.WireID{all}
}

func (s *sheets) byCavity(p *harness.Part, in set) [][]harness.WireID {
	var out [][]harness.WireID
	for _, cavity := range cavities(s.h, p) {
		var here []harness.WireID
		for _, t := range cavity {
			_, arrive, leave := s.landing(t, in)
			here = append(append(here, arrive...), leave...)
		}
		if len(here) > 0 {
			out = append(out, here)
		}
	}
	return out
}

// cavities groups a connector's terminals by cavity.
func cavities(h *harness.Harness, p *harness.Part) [][]harness.TerminalID {
	var out [][]harness.TerminalID
	at := map[string]int{}
	for _, t := range p.Terminals {
		name := h.Terminals[t].Cavity
		if _, ok := at[name]; !ok {
			at[name] = len(out)
			out = append(out, nil)
		}
		out[at[name]] = append(out[at[name]], t)
	}
	return out
}

// divide cuts a strip that does not fit in two: between legs where it has
// several, else in the middle of its wires, at a connector if there is one near.
func (s *sheets) divide(st *strip) [][]harness.WireID {
	at := s.bestCut(st.wires, s.legEnds(st.wires))
	if at == 0 {
		at = s.bestCut(st.wires, s.chainCuts(st.wires))
	}
	var out [][]harness.WireID
	for _, half := range [][]harness.WireID{st.wires[:at], st.wires[at:]} {
		out = append(out, s.components(half)...)
	}
	return out
}

// cut is a place between two wires of the list and what it costs.
type cut struct {
	at    int
	price float64
}

// bestCut weighs the price of each cut against how far it is from the middle.
func (s *sheets) bestCut(wires []harness.WireID, cuts []cut) int {
	best, bestPrice := 0, 1e18
	for _, c := range cuts {
		off := float64(2*c.at-len(wires)) / float64(len(wires))
		if price := c.price + 12*off*off; price < bestPrice {
			best, bestPrice = c.at, price
		}
	}
	return best
}

// legEnds gives the cuts between legs, priced by the parts that stand on both sides.
func (s *sheets) legEnds(wires []harness.WireID) []cut {
	var out []cut
	for i := 1; i < len(wires); i++ {
		a, b := s.h.Wires[wires[i-1]], s.h.Wires[wires[i]]
		if a.Leg != b.Leg || a.Circuit != b.Circuit {
			out = append(out, cut{i, float64(s.shared(wires[:i], wires[i:]))})
		}
	}
	return out
}

// chainCuts gives the cuts within a leg; one at a connector is cheap.
func (s *sheets) chainCuts(wires []harness.WireID) []cut {
	var out []cut
	for i := 1; i < len(wires); i++ {
		price := 3.0
		if p := s.h.PartOf(s.h.Wires[wires[i]].From); p != nil && p.Kind == harness.Connector {
			price = 1
		}
		out = append(out, cut{i, price})
	}
	return out
}

// shared counts the parts, rails apart, that both lists land on.
func (s *sheets) shared(a, b []harness.WireID) int {
	n := 0
	other := s.partsOf(b)
	for _, p := range s.partsOf(a) {
		k := s.h.Parts[p].Kind
		if k != harness.Ground && k != harness.Battery && k != harness.FusePanel && slices.Contains(other, p) {
			n++
		}
	}
	return n
}
