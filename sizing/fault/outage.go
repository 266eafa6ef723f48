// Package fault takes things out of a sized harness and tells what follows.
//
// In: the model and what was chosen for it, with its states solved. Out, by fuse: the
// loads that lose their supply when it is out, and the relays that drop out then, with
// the loads behind their contacts (outage.Outage).
//
// Beside that the fault dictionary: Book.
//
// Method of the outages: how the terminals hang together in each state by wires and closed contacts
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

	diodes []harness.ElementID
}

func vehicleOf(h *harness.Harness, c chosen.Chosen) *vehicle {
	v := &vehicle{h: h, Chosen: c, named: make(map[string]harness.ElementID, len(h.Elements))}
	for _, e := range h.Elements {
		if _, twice := v.named[e.Name]; !twice {
			v.named[e.Name] = e.ID
		}
		if e.Kind == harness.Rectifier {
			v.diodes = append(v.diodes, e.ID)
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
	coils := v.coils(states)
	out := make([]outage.Outage, len(v.Fuses))
	for i, f := range v.Fuses {
		out[i].Stops, out[i].Shared = v.withoutFuse(states, f)
		v.release(&out[i], coils)
	}
	return out
}

// release finds the loads on the contacts of relays whose coil has no supply, from
// relay to relay in the order of the coils; each relay and each load stands once.
func (v *vehicle) release(o *outage.Outage, c coils) {
	var due waiting
	gone, out := map[harness.ElementID]bool{}, map[harness.PartID]bool{}
	for _, n := range o.Stops {
		id := v.named[n]
		gone[id] = true
		if i, ok := c.of[id]; ok {
			due.add(i)
		}
	}
	for i, ok := due.next(); ok; i, ok = due.next() {
		if k := c.all[i]; !out[k.Part] {
			out[k.Part] = true
			o.Drops = append(o.Drops, outage.Drop{Relay: k.Part, Loads: v.lost(k, c, gone, &due)})
		}
	}
}

// lost names the loads that a coil takes along and that were not gone; coils among
// what it takes along are due themselves.
func (v *vehicle) lost(k coil, c coils, gone map[harness.ElementID]bool, due *waiting) []string {
	var loads []string
	for _, id := range k.follow {
		if i, ok := c.of[id]; ok {
			due.add(i)
		} else if !gone[id] {
			gone[id] = true
			loads = append(loads, v.h.Elements[id].Name)
		}
	}
	return loads
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
