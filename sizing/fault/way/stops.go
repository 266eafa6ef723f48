package way

import (
	"slices"

	"example.com/loomfolio/sizing/harness"
)

// Stop is a wire or an element of a way, with its ends as the way passes them from the
// source on.
type Stop struct {
	Wire     harness.WireID    // harness.None where it is an element
	Element  harness.ElementID // harness.None where it is a wire
	From, To harness.TerminalID
}

// Feed gives the stops from the source to the load, as far as they are known.
func (w *Ways) Feed(h *harness.Harness, x *Way) []Stop {
	stops := w.walk(h, x.side(h, true), backwards(x.Own.Feed.Wires), backwards(x.Own.Feed.Elements))
	slices.Reverse(stops)
	for i := range stops {
		stops[i].From, stops[i].To = stops[i].To, stops[i].From
	}
	return stops
}

// Back gives the stops from the load to the source.
func (w *Ways) Back(h *harness.Harness, x *Way) []Stop {
	return w.walk(h, x.side(h, false), x.Own.Back.Wires, x.Own.Back.Elements)
}

// side is the terminal of the load on the side of its feed, or of its return.
func (x *Way) side(h *harness.Harness, feed bool) harness.TerminalID {
	e := &h.Elements[x.Draw]
	if feed != x.Own.Turned {
		return h.Live(e)
	}
	return h.Earthed(e)
}

// walk follows wires and elements, each list in its order, from a terminal on.
func (w *Ways) walk(h *harness.Harness, at harness.TerminalID, wires []harness.WireID, elements []harness.ElementID) []Stop {
	var out []Stop
	for len(wires)+len(elements) > 0 {
		s, ok := Stop{}, false
		if len(wires) > 0 {
			x := &h.Wires[wires[0]]
			if s, ok = w.step(at, x.From, x.To); ok {
				s.Wire, s.Element, wires = x.ID, harness.None, wires[1:]
			}
		}
		if !ok && len(elements) > 0 {
			e := &h.Elements[elements[0]]
			if s, ok = w.step(at, e.A, e.B); ok {
				s.Wire, s.Element, elements = harness.None, e.ID, elements[1:]
			}
		}
		if !ok {
			return out
		}
		out = append(out, s)
		at = s.To
	}
	return out
}

// step goes from one end to the other where one of them is joined to where the walk stands.
func (w *Ways) step(at, a, b harness.TerminalID) (Stop, bool) {
	switch {
	case w.Joined[at] == w.Joined[a]:
		return Stop{From: a, To: b}, true
	case w.Joined[at] == w.Joined[b]:
		return Stop{From: b, To: a}, true
	}
	return Stop{}, false
}

func backwards[T any](list []T) []T {
	out := slices.Clone(list)
	slices.Reverse(out)
	return out
}
