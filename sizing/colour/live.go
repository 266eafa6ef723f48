package colour

import (
	"fmt"
	"strings"

	"example.com/loomfolio/sizing/forest"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/source"
)

// live marks, by wire, the nets that a source reaches through metal, contacts, fuses and diodes
// alone: not what lies behind a load, such as the wire from a lamp to a switch on its ground side,
// which custom often gives the ground's colour with a tracer.
func (t *task) live() []bool {
	f := nets(t.h)
	role := roles(t.h, f)
	reach := t.reach(f, role)
	out := make([]bool, len(t.h.Wires))
	for w := range out {
		root := f.Root(int(t.h.Wires[w].From))
		out[w] = reach[root] >= 0 && role[root] != ground
	}
	return out
}

// reach counts, by net, the contacts, fuses and diodes that lie between the next source and
// it, at least; -1 where none reaches it.
func (t *task) reach(f forest.Forest, role []role) []int {
	out := make([]int, len(f))
	for net, is := range t.sources(f) {
		if !is {
			out[net] = -1
		}
	}
	for n, again := 1, true; again; n++ {
		again = false
		for i := range t.h.Elements {
			e := &t.h.Elements[i]
			a, b := f.Root(int(e.A)), f.Root(int(e.B))
			if out[a] < 0 {
				a, b = b, a
			}
			if conducts(e) && out[a] == n-1 && out[b] < 0 && role[a] != ground && role[b] != ground {
				out[b], again = n, true
			}
		}
	}
	return out
}

// sources marks the nets on the live poles of batteries and chargers.
func (t *task) sources(f forest.Forest) []bool {
	out := make([]bool, len(f))
	for i := range t.h.Elements {
		e := &t.h.Elements[i]
		hot := e.A
		if t.h.System.PositiveEarth {
			hot = e.B
		}
		if e.Gives() {
			out[f.Root(int(hot))] = true
		}
	}
	return out
}

func conducts(e *harness.Element) bool {
	if e.A == harness.Chassis || e.B == harness.Chassis {
		return false
	}
	switch e.Kind {
	case harness.Contact, harness.FuseLink, harness.Rectifier, harness.Join:
		return true
	}
	return false
}

// inGroundColour is one warning on all live wires whose description gives them the ground's
// colour. The cores of a cable have the colours of its maker.
func (v *verdict) inGroundColour() source.Problems {
	base, live := practicePair(v.h.Practice.GroundColour, "BK").Base, v.live()
	var names []string
	var at source.Span
	for _, w := range v.order {
		wire := &v.h.Wires[w]
		if !live[w] || v.held[w].force != written || v.core[w] || wire.Base != base {
			continue
		}
		if len(names) == 0 {
			at = wire.ColourSpan
		}
		names = append(names, wire.Name)
	}
	if len(names) == 0 {
		return nil
	}
	return source.Problems{{
		Slug: "live-in-ground-colour", Level: source.Warning, Span: at,
		Summary:  fmt.Sprintf("live and given in the ground's colour %s: %s", base, strings.Join(names, ", ")),
		Detail:   "leave the colour out to have one chosen, or write another; practice: {ground-colour: …} says which is the ground's",
		Subjects: names,
	}}
}
