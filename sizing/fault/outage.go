// Package fault takes things out of a sized harness and tells what follows.
//
// In: the model and what was chosen for it, with its states solved. Out, by fuse: the
// loads that lose their supply when it is out, and the relays that drop out then, with
// the loads behind their contacts (outage.Outage).
//
// Method: how the terminals hang together in each state by wires and closed contacts
// (joins), so that nothing is solved again; the solver, with each fuse open in turn, is
// the test. What a relay takes along is followed from coil to coil.
package fault

import (
	"slices"

	"example.com/loomfolio/sizing/choose/chosen"
	"example.com/loomfolio/sizing/fault/outage"
	"example.com/loomfolio/sizing/harness"
)

// vehicle is a model with what was chosen for it.
type vehicle struct {
	h *harness.Harness
	chosen.Chosen
	named map[string]harness.ElementID // the first of a name
}

func vehicleOf(h *harness.Harness, c chosen.Chosen) *vehicle {
	v := &vehicle{h: h, Chosen: c, named: make(map[string]harness.ElementID, len(h.Elements))}
	for _, e := range h.Elements {
		if _, twice := v.named[e.Name]; !twice {
			v.named[e.Name] = e.ID
		}
	}
	return v
}

// Outages takes each fuse out in turn and finds what stops, by place in the fuses.
func Outages(h *harness.Harness, c chosen.Chosen) []outage.Outage {
	v := vehicleOf(h, c)
	var states []joins
	for i := range v.States {
		states = append(states, v.joins(i))
	}
	coils := v.coils()
	out := make([]outage.Outage, len(v.Fuses))
	for i, f := range v.Fuses {
		out[i].Stops, out[i].Shared = v.withoutFuse(states, f)
		v.release(&out[i], f, coils)
	}
	return out
}

// coil is a relay's coil with the loads that follow it.
type coil struct {
	harness.Element
	loads []string
}

// coils are all coils in the order of the elements, and where they are found.
type coils struct {
	all   []coil
	named map[string]int
	at    map[harness.TerminalID][]int // by terminal at which they begin or end
}

// coils finds the coils. A load follows a coil where its feed or return leads over
// a contact that the coil makes, or it works only with the coil itself.
func (v *vehicle) coils() coils {
	follow := make(map[harness.ElementID][]string)
	makes := v.contacts()
	for _, l := range v.Loads {
		for _, c := range v.coilsOver(l, makes) {
			follow[c] = append(follow[c], l.Name)
		}
	}
	out := coils{named: map[string]int{}, at: map[harness.TerminalID][]int{}}
	for _, e := range v.h.Elements {
		if e.Kind == harness.RelayCoil && e.Part >= 0 {
			i := len(out.all)
			out.all = append(out.all, coil{e, follow[e.ID]})
			out.named[e.Name] = i
			out.at[e.A], out.at[e.B] = append(out.at[e.A], i), append(out.at[e.B], i)
		}
	}
	return out
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

// coilsOver are the coils that a load follows, each once.
func (v *vehicle) coilsOver(l chosen.Load, makes [][]harness.Element) []harness.ElementID {
	var out []harness.ElementID
	add := func(c harness.ElementID) {
		if !slices.Contains(out, c) {
			out = append(out, c)
		}
	}
	if when := v.h.Elements[l.Element].When; when.Kind == harness.Energised {
		add(when.Coil)
	}
	on := map[harness.TerminalID]bool{}
	for _, w := range slices.Concat(l.Feed, l.Return) {
		on[v.h.Wires[w].From], on[v.h.Wires[w].To] = true, true
	}
	for t := range on {
		for _, e := range makes[t] {
			if on[e.B] {
				add(e.When.Coil)
			}
		}
	}
	return out
}

// release finds the loads on the contacts of relays whose coil the fuse feeds, from
// relay to relay in the order of the coils; each relay and each load stands once.
func (v *vehicle) release(o *outage.Outage, f chosen.Fuse, coils coils) {
	var due waiting
	gone := map[string]bool{}
	lose := func(names []string) {
		for _, n := range names {
			gone[n] = true
			if i, ok := coils.named[n]; ok {
				due.add(i)
			}
		}
	}
	lose(o.Stops)
	for _, w := range f.Wires {
		due.add(coils.at[v.h.Wires[w].From]...)
		due.add(coils.at[v.h.Wires[w].To]...)
	}
	out := map[harness.PartID]bool{}
	for i, ok := due.next(); ok; i, ok = due.next() {
		c := coils.all[i]
		if out[c.Part] {
			continue
		}
		out[c.Part] = true
		loads := slices.DeleteFunc(slices.Clone(c.loads), func(n string) bool { return gone[n] })
		lose(loads)
		o.Drops = append(o.Drops, outage.Drop{Relay: c.Part, Loads: loads})
	}
}

// waiting is numbers that are taken in rounds, each round in ascending order; what
// was taken, or came too late for a round, is left to the next.
type waiting struct {
	left []int // in ascending order
	from int   // the least that this round may still take
}

func (w *waiting) add(numbers ...int) {
	for _, n := range numbers {
		if at, there := slices.BinarySearch(w.left, n); !there {
			w.left = slices.Insert(w.left, at, n)
		}
	}
}

func (w *waiting) next() (int, bool) {
	if len(w.left) == 0 {
		return 0, false
	}
	at, _ := slices.BinarySearch(w.left, w.from)
	if at == len(w.left) {
		at = 0
	}
	n := w.left[at]
	w.left, w.from = slices.Delete(w.left, at, at+1), n+1
	return n, true
}
