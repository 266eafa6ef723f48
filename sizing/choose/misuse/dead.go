package misuse

import (
	"fmt"
	"slices"

	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/source"
)

// mostPositions is how many positions of switches that hang together are tried for a wire.
const mostPositions = 256

// deadWires reports wires between switches that carry a load's current in no position of them,
// while another wire between the same switches does.
func (f *inspection) deadWires() {
	list := f.Net.Travellers()
	if len(list) < 2 {
		return
	}
	parts := f.travelled(list)
	for _, w := range list {
		wire := &f.H.Wires[w]
		a, b := f.H.PartOf(wire.From), f.H.PartOf(wire.To)
		if a.Kind != harness.Switch || b.Kind != harness.Switch || a == b || !f.beside(w, list) {
			continue
		}
		if together := f.hanging(parts, a.ID); positionsOf(f.H, together) <= mostPositions && !f.carriesIn(w, together, map[harness.PartID]int{}) {
			f.carriesNothing(w, a, b)
		}
	}
}

// travelled lists the pairs of parts between which such wires run.
func (f *inspection) travelled(list []harness.WireID) [][2]harness.PartID {
	var out [][2]harness.PartID
	for _, w := range list {
		out = append(out, [2]harness.PartID{f.H.PartOf(f.H.Wires[w].From).ID, f.H.PartOf(f.H.Wires[w].To).ID})
	}
	return out
}

// beside tells that another of such wires joins the same two parts.
func (f *inspection) beside(w harness.WireID, list []harness.WireID) bool {
	pair := func(w harness.WireID) [2]harness.PartID {
		a, b := f.H.PartOf(f.H.Wires[w].From).ID, f.H.PartOf(f.H.Wires[w].To).ID
		return [2]harness.PartID{min(a, b), max(a, b)}
	}
	return slices.ContainsFunc(list, func(x harness.WireID) bool { return x != w && pair(x) == pair(w) })
}

// hanging lists the switches that hang together with one over such wires.
func (f *inspection) hanging(pairs [][2]harness.PartID, one harness.PartID) []harness.PartID {
	out := []harness.PartID{one}
	for i := 0; i < len(out); i++ {
		for _, two := range pairs {
			for k := range two {
				if two[k] == out[i] && !slices.Contains(out, two[1-k]) && len(f.H.Parts[two[1-k]].Positions) > 0 {
					out = append(out, two[1-k])
				}
			}
		}
	}
	return out
}

func positionsOf(h *harness.Harness, parts []harness.PartID) int {
	n := 1
	for _, p := range parts {
		n = min(n*max(len(h.Parts[p].Positions), 1), mostPositions+1)
	}
	return n
}

// carriesIn tries all positions of some switches, all other contacts being closed.
func (f *inspection) carriesIn(w harness.WireID, parts []harness.PartID, at map[harness.PartID]int) bool {
	if len(parts) == 0 {
		return f.Net.Carries(w, func(y *harness.Element) bool {
			n, set := at[y.When.Switch]
			return y.When.Kind != harness.InPosition || !set || slices.Contains(y.When.Positions, n)
		})
	}
	for n := range f.H.Parts[parts[0]].Positions {
		at[parts[0]] = n
		if f.carriesIn(w, parts[1:], at) {
			return true
		}
	}
	delete(at, parts[0])
	return false
}

func (f *inspection) carriesNothing(w harness.WireID, a, b *harness.Part) {
	wire := &f.H.Wires[w]
	f.add(source.Problem{
		Slug: "wire-carries-nothing", Level: source.Warning, Span: wire.Span, Subjects: []string{wire.Name, a.Ref, b.Ref},
		Summary: fmt.Sprintf("in no position of %s and %s does %s (%s to %s) lead current to anything", a.Ref, b.Ref, wire.Name, f.H.Terminals[wire.From].Full, f.H.Terminals[wire.To].Full),
		Detail:  fmt.Sprintf("look at the common terminals: the two wires between %s and %s end on the throws of both, the feed on the common of one and the load on that of the other; or take the wire out", a.Ref, b.Ref),
	})
}
