package drawing

import (
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
	number   int // its place among all strips
}

// strips divides the circuits into strips that fit a sheet and lays them out.
// Where one had to be divided the homes of parts change, so all is done again.
func (s *sheets) strips() []*strip {
	var strips []*strip
	for _, c := range s.h.Circuits {
		for _, wires := range s.components(c.Wires) {
			strips = append(strips, &strip{wires: wires, circuits: []harness.CircuitID{c.ID}})
		}
	}
	for range 12 {
		s.chooseHomes(strips)
		s.layOut(strips)
		var next []*strip
		for _, st := range strips {
			if st.layout == nil || st.layout.Fits || len(st.wires) < 2 {
				next = append(next, st)
				continue
			}
			for _, part := range s.divide(st) {
				next = append(next, &strip{wires: part, circuits: st.circuits})
			}
		}
		if len(next) == len(strips) {
			break
		}
		strips = next
	}
	s.force(strips)
	return strips
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
