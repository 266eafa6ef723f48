package sneak

import (
	"encoding/binary"
	"math"
	"slices"

	"example.com/loomfolio/sizing/flow"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/proof"
)

// step is a wire or an element of a way, as one walks from the source's live side to the
// load and on to its earth side.
type step struct {
	wire     harness.WireID
	element  harness.ElementID
	from, to harness.TerminalID
	against  bool // of a wire: the current runs against its writing
}

// way is the steps from a source to a load and back, the load among them.
type way []step

// key is the same for the same way of the same load.
func (w way) key(id harness.ElementID) string {
	b := binary.AppendVarint(nil, int64(id))
	for _, x := range w {
		b = binary.AppendVarint(binary.AppendVarint(b, int64(x.wire)), int64(x.element))
	}
	return string(b)
}

// way follows the largest current from a draw to its source and back.
func (s *search) way(v view, id harness.ElementID) way {
	e := &s.h.Elements[id]
	in, out := e.A, e.B
	if v.Amps(id) < 0 {
		in, out = out, in
	}
	feed, back := s.follow(v, in, id, -1), s.follow(v, out, id, 1)
	if !s.sign { // told from the live side
		feed, back, in, out = back, feed, out, in
	}
	for i := range feed {
		feed[i].from, feed[i].to = feed[i].to, feed[i].from
	}
	slices.Reverse(feed)
	return append(append(feed, step{harness.None, id, in, out, false}), back...)
}

// follow walks from a terminal along the largest current, against it (-1) or with it (1),
// up to a source, which is the last step.
func (s *search) follow(v view, from harness.TerminalID, skip harness.ElementID, sign float64) way {
	var out way
	seen := map[int]bool{}
	for at := s.vertex[from]; !seen[at]; {
		seen[at] = true
		next, ok := s.largest(v, at, skip, sign)
		if !ok {
			return out
		}
		e := &s.edges[next]
		out = append(out, s.step(v, e, at))
		if e.element != harness.None && isSource(&s.h.Elements[e.element]) {
			return out
		}
		at = e.other(at)
	}
	return out
}

func isSource(e *harness.Element) bool { return e.Gives() }

// largest gives the edge that brings (-1) or takes (1) most current at a vertex.
func (s *search) largest(v view, at int, skip harness.ElementID, sign float64) (best int, ok bool) {
	most := flow.Least
	for _, i := range s.at[at] {
		e := &s.edges[i]
		if e.element != harness.None && e.element == skip {
			continue
		}
		away := s.amps(v, e)
		if e.b == at {
			away = -away
		}
		if away*sign > most*(1+1e-9) {
			best, most, ok = i, away*sign, true
		}
	}
	return best, ok
}

// amps is an edge's current from its a to its b, 0 for none.
func (s *search) amps(v view, e *edge) float64 {
	a := 0.0
	if e.wire != harness.None {
		a = v.WireAmps(e.wire)
	} else {
		a = v.Amps(e.element)
	}
	if math.IsNaN(a) {
		return 0
	}
	return a
}

// step is an edge as it is walked from a vertex.
func (s *search) step(v view, e *edge, at int) step {
	x := step{wire: e.wire, element: e.element}
	if e.wire != harness.None {
		x.from, x.to = s.h.Wires[e.wire].From, s.h.Wires[e.wire].To
		x.against = v.WireAmps(e.wire) < 0
	} else {
		x.from, x.to = s.h.Elements[e.element].A, s.h.Elements[e.element].B
	}
	if e.a != at {
		x.from, x.to = x.to, x.from
	}
	return x
}

// stops is a way for the proof.
func (w way) stops() []proof.Stop {
	var out []proof.Stop
	for _, x := range w {
		out = append(out, proof.Stop{At: x.from, Wire: x.wire, Element: x.element, Against: x.against})
	}
	if len(w) > 0 {
		out = append(out, proof.Stop{At: w[len(w)-1].to, Wire: harness.None, Element: harness.None})
	}
	return out
}

// named tells a way by the terminals on which its wires end.
func (s *search) named(w way) []string {
	var out []string
	add := func(t harness.TerminalID) {
		if name := s.h.Terminals[t].Full; len(out) == 0 || out[len(out)-1] != name {
			out = append(out, name)
		}
	}
	for _, x := range w {
		if x.wire != harness.None {
			add(x.from)
			add(x.to)
		}
	}
	return out
}
