// Package point says where a probe can be put and with what switched on a load is measured.
//
// In: the model and the solved states. Out: the test points in the order of the
// terminals, and by load the state in which it is asked for.
package point

import (
	"slices"

	"example.com/loomfolio/sizing/choose/chosen"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/proof"
)

// All are the test points: terminals on which a wire ends, or that a part's own body grounds, in the order of the terminals,
// with what a probe and a test lamp can do there. A plug's cavity has two, one on each side.
func All(h *harness.Harness) []proof.Point {
	p := newPlant(h)
	var out []proof.Point
	for t := range h.Terminals {
		x := h.Terminals[t]
		if x.Part == harness.None || !p.arrives[t] && !p.leaves[t] && !p.onBody(x.ID) {
			continue
		}
		one := proof.Point{At: x.ID, Place: h.Parts[x.Part].Place}
		one.Side, one.Reach = p.reach(x.ID)
		one.Lamp, one.NoBut = p.lamp(x.ID)
		out = append(out, one)
	}
	return out
}

// At gives by terminal the index of its point, proof.None where it has none.
func At(h *harness.Harness, points []proof.Point) []int {
	out := slices.Repeat([]int{proof.None}, len(h.Terminals))
	for i, p := range points {
		out[p.At] = i
	}
	return out
}

// StateOf is the state in which a load is measured: one in which it is on, with the
// engine off if there is one, never while cranking unless there is no other; of several
// that in which most loads of its circuit are on, then the first. None where none turns it on.
func StateOf(h *harness.Harness, loads []chosen.Load, load int) int {
	best, most := harness.None, -1
	for i, st := range h.States {
		if !slices.Contains(loads[load].On, st.Name) {
			continue
		}
		if n := 4*rank(st.Engine) + min(3, beside(h, loads, load, st.Name)); n > most {
			best, most = i, n
		}
	}
	return best
}

// rank prefers an engine that is off, then one that runs.
func rank(e harness.Engine) int {
	switch e {
	case harness.EngineOff:
		return 2
	case harness.EngineRunning:
		return 1
	}
	return 0
}

// beside counts the other loads of a load's feed that are on in a state.
func beside(h *harness.Harness, loads []chosen.Load, load int, state string) int {
	n := 0
	for i, l := range loads {
		if i != load && slices.Contains(l.On, state) && sameCircuit(h, l, loads[load]) {
			n++
		}
	}
	return n
}

// sameCircuit tells whether the last wires before two loads belong to one circuit.
func sameCircuit(h *harness.Harness, a, b chosen.Load) bool {
	if len(a.Feed) == 0 || len(b.Feed) == 0 {
		return false
	}
	last := func(l chosen.Load) harness.CircuitID { return h.Wires[l.Feed[len(l.Feed)-1]].Circuit }
	return last(a) == last(b)
}
