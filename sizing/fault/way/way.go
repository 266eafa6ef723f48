// Package way finds the own way of every load and coil in the state in which it is
// measured, stop by stop.
//
// In: the model, its test points and solved states. Out: the ways of what some state turns
// on, in the order of the elements, and by wire and element the way that counts for it.
//
// Method: the way that is meant, as package flow reads it from the writing of the legs
// (flow.Owner); of several ways over one wire that of the load with the most current
// counts, a coil's only where no load has one there.
package way

import (
	"math"
	"slices"

	"example.com/loomfolio/sizing/choose/chosen"
	"example.com/loomfolio/sizing/flow"
	"example.com/loomfolio/sizing/forest"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/network"
	"example.com/loomfolio/sizing/testplan/point"
)

// Way is the way of one load or coil.
type Way struct {
	Draw  harness.ElementID
	Load  bool // no coil
	State int
	Amps  float64 // through it in that state
	Volts float64 // across it, without sign
	Own   flow.Own
}

// Ways are all of them.
type Ways struct {
	List    []Way
	Of      []int // by ElementID: index into List, harness.None where no state turns it on
	Wire    []int // by WireID: the way that counts, harness.None where it is on none
	Element []int // by ElementID: the same
	Joined  []int // by TerminalID: the first terminal that is the same piece of metal inside a part
}

// All finds the ways.
func All(h *harness.Harness, loads []chosen.Load, states []network.State) *Ways {
	w := &Ways{Of: none(len(h.Elements)), Wire: none(len(h.Wires)), Element: none(len(h.Elements)), Joined: joined(h)}
	owner := flow.NewNet(h).Owner()
	measured := measuredIn(h, loads, states)
	for i := range h.Elements {
		if e := &h.Elements[i]; flow.Draws(e) && measured[i] != harness.None {
			st := &states[measured[i]]
			w.add(Way{
				Draw: e.ID, Load: e.Kind == harness.Load, State: measured[i], Amps: math.Abs(st.Amps[i]),
				Volts: math.Abs(st.Volts[e.A] - st.Volts[e.B]), Own: owner.Of(e.ID, st),
			})
		}
	}
	return w
}

// joined finds what is always one piece of metal inside a part.
func joined(h *harness.Harness) []int {
	f := forest.New(len(h.Terminals))
	for i := range h.Elements {
		if e := &h.Elements[i]; e.Kind == harness.Join && e.When.Kind == harness.Always {
			f.Join(int(e.A), int(e.B))
		}
	}
	out := make([]int, len(f))
	for t := range out {
		out[t] = f.Root(t)
	}
	return out
}

func none(n int) []int { return slices.Repeat([]int{harness.None}, n) }

// measuredIn gives by element the state in which a load or coil is measured.
func measuredIn(h *harness.Harness, loads []chosen.Load, states []network.State) []int {
	out := none(len(h.Elements))
	for i := range loads {
		out[loads[i].Element] = point.StateOf(h, loads, i)
	}
	for i := range h.Elements {
		if h.Elements[i].Kind == harness.RelayCoil {
			out[i] = heldIn(h, states, h.Elements[i].ID)
		}
	}
	return out
}

// heldIn is the state in which a coil is measured: one in which it holds, with the engine
// off rather than running, and running rather than cranking; then the first.
func heldIn(h *harness.Harness, states []network.State, coil harness.ElementID) int {
	best := harness.None
	for i := range states {
		if states[i].Energised[coil] && (best == harness.None || Rank(h, i) > Rank(h, best)) {
			best = i
		}
	}
	return best
}

// Rank says how well a state suits measuring: 2 with the engine off, 1 while it runs, 0
// while cranking.
func Rank(h *harness.Harness, state int) int {
	switch h.States[state].Engine {
	case harness.EngineOff:
		return 2
	case harness.EngineRunning:
		return 1
	}
	return 0
}

// add enters a way, and where it counts.
func (w *Ways) add(x Way) {
	n := len(w.List)
	w.List = append(w.List, x)
	w.Of[x.Draw] = n
	for _, id := range x.Own.All.Wires {
		w.count(&w.Wire[id], n)
	}
	for _, id := range x.Own.All.Elements {
		w.count(&w.Element[id], n)
	}
	w.count(&w.Element[x.Draw], n)
}

func (w *Ways) count(at *int, n int) {
	if *at == harness.None || w.more(n, *at) {
		*at = n
	}
}

// more tells whether one way counts before another.
func (w *Ways) more(a, b int) bool {
	x, y := &w.List[a], &w.List[b]
	if x.Load != y.Load {
		return x.Load
	}
	return x.Amps > y.Amps
}

// Behind lists the way of a load or coil, and those of the coils that switch it, each once.
func (w *Ways) Behind(h *harness.Harness, draw harness.ElementID) []int {
	var out []int
	due := []harness.ElementID{draw}
	for ; len(due) > 0; due = due[1:] {
		n := w.Of[due[0]]
		if n == harness.None || slices.Contains(out, n) {
			continue
		}
		out = append(out, n)
		for _, id := range append([]harness.ElementID{due[0]}, w.List[n].Own.All.Elements...) {
			if when := h.Elements[id].When; when.Kind == harness.Energised || when.Kind == harness.Released {
				due = append(due, when.Coil)
			}
		}
	}
	return out
}
