package fault

import (
	"cmp"
	"maps"
	"slices"

	"example.com/loomfolio/sizing/choose/chosen"
	"example.com/loomfolio/sizing/harness"
)

// coil is a relay's coil with the loads and coils that follow it, in order.
type coil struct {
	harness.Element
	follow []harness.ElementID
}

// coils are all coils in the order of the elements, and where they are found.
type coils struct {
	all []coil
	of  map[harness.ElementID]int
}

// coils finds the coils. A load follows a coil where its feed or return leads over a
// contact that the coil makes, or it works only with the coil itself; load or coil
// follows where, in a state in which it works, such a contact alone joins it to a battery.
func (v *vehicle) coils(states []joins) coils {
	follow := following{}
	makes := v.contacts()
	for _, l := range v.Loads {
		v.onTheWay(l, makes, follow)
	}
	for i := range states {
		v.overContacts(i, states[i], follow)
	}
	out := coils{of: map[harness.ElementID]int{}}
	for _, e := range v.h.Elements {
		if e.Kind == harness.RelayCoil && e.Part >= 0 {
			out.of[e.ID] = len(out.all)
			out.all = append(out.all, coil{e, slices.Sorted(maps.Keys(follow[e.ID]))})
		}
	}
	return out
}

// following tells, by coil, what follows it.
type following map[harness.ElementID]map[harness.ElementID]bool

func (f following) add(coil, e harness.ElementID) {
	if f[coil] == nil {
		f[coil] = map[harness.ElementID]bool{}
	}
	f[coil][e] = true
}

// contacts are the elements that need a coil, by the terminal at which they begin.
func (v *vehicle) contacts() [][]harness.Element {
	out := make([][]harness.Element, len(v.h.Terminals))
	for _, e := range v.h.Elements {
		if e.When.Kind == harness.Energised && e.Kind != harness.Load {
			out[e.A] = append(out[e.A], e)
		}
	}
	return out
}

// onTheWay finds the coils whose contacts lie on a load's way.
func (v *vehicle) onTheWay(l chosen.Load, makes [][]harness.Element, follow following) {
	if when := v.h.Elements[l.Element].When; when.Kind == harness.Energised {
		follow.add(when.Coil, l.Element)
	}
	on := map[harness.TerminalID]bool{}
	for _, w := range slices.Concat(l.Feed, l.Return) {
		on[v.h.Wires[w].From], on[v.h.Wires[w].To] = true, true
	}
	for t := range on {
		for _, e := range makes[t] {
			if on[e.B] {
				follow.add(e.When.Coil, l.Element)
			}
		}
	}
}

// overContacts takes each closed contact of a relay out in a state and finds what falls.
func (v *vehicle) overContacts(state int, j joins, follow following) {
	works := v.working(state, j)
	for _, e := range v.h.Elements {
		if e.When.Kind != harness.Energised || !conducts(e) || !v.closed(state, e.When) {
			continue
		}
		c := j.without(e)
		for _, dark := range c.unfed() {
			for _, w := range within(works, dark) {
				if w.ID != e.When.Coil && c.drops(v.ends(j, w.Element)) {
					follow.add(e.When.Coil, w.ID)
				}
			}
		}
	}
}

// end is one end of what works in a state: of a coil that holds, or of a load that is on.
type end struct {
	harness.Element
	met int // when the search met it
}

// working are the ends of what works in a state, in the order in which the search met them.
func (v *vehicle) working(state int, j joins) []end {
	var out []end
	add := func(e harness.Element) { out = append(out, end{e, j.met[e.A]}, end{e, j.met[e.B]}) }
	for _, e := range v.h.Elements {
		if e.Kind == harness.RelayCoil && v.States[state].Energised[e.ID] {
			add(e)
		}
	}
	for _, l := range v.Loads {
		if slices.Contains(l.On, v.h.States[state].Name) {
			add(v.h.Elements[l.Element])
		}
	}
	slices.SortFunc(out, func(x, y end) int { return cmp.Or(cmp.Compare(x.met, y.met), cmp.Compare(x.ID, y.ID)) })
	return out
}

// within are the ends that were met in a span.
func within(ends []end, s span) []end {
	at := func(met int) int {
		i, _ := slices.BinarySearchFunc(ends, met, func(e end, met int) int { return cmp.Compare(e.met, met) })
		return i
	}
	return ends[at(s.from):at(s.to)]
}
