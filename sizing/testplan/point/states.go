package point

import (
	"math"
	"slices"

	"example.com/loomfolio/sizing/choose/chosen"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/network"
)

// Told are the states in which the volts of some wires are told, given the loads that they
// feed: that in which most of the loads are on, and a second where that turns on loads
// which are off in the first. Wires without loads take the state in which most current
// passes them, and so do those that carry the whole supply, but never while cranking.
func Told(h *harness.Harness, all []chosen.Load, states []network.State, wires []harness.WireID, loads []int, supply bool) []int {
	if len(states) == 0 {
		return nil
	}
	first, on := mostOn(h, all, loads, nil)
	if len(on) == 0 || supply {
		return []int{busiest(h, states, wires, !supply)}
	}
	second, other := mostOn(h, all, loads, on)
	if len(other) == 0 {
		return []int{first}
	}
	return []int{first, second}
}

// mostOn is the state in which most of some loads are on, those in done apart; of several
// one with the engine off, where a meter is safest to hold, then one in which it runs:
// cranking gives the lowest volts and lasts for seconds.
func mostOn(h *harness.Harness, all []chosen.Load, loads, done []int) (state int, on []int) {
	for i, st := range h.States {
		var here []int
		for _, l := range loads {
			if !slices.Contains(done, l) && slices.Contains(all[l].On, st.Name) {
				here = append(here, l)
			}
		}
		if len(here) > len(on) || len(on) > 0 && len(here) == len(on) && rank(st.Engine) > rank(engine(h, state)) {
			state, on = i, here
		}
	}
	return state, on
}

func engine(h *harness.Harness, state int) harness.Engine {
	if state < len(h.States) {
		return h.States[state].Engine
	}
	return harness.EngineOff
}

// busiest is the state in which most current passes some wires; cranked: also while the
// engine is cranked.
func busiest(h *harness.Harness, states []network.State, wires []harness.WireID, cranked bool) int {
	best, most := 0, -1.0
	for i := range states {
		if engine(h, i) == harness.EngineCranking && !cranked {
			continue
		}
		sum := 0.0
		for _, w := range wires {
			if amps := states[i].WireAmps; int(w) < len(amps) && !math.IsNaN(amps[w]) {
				sum += math.Abs(amps[w])
			}
		}
		if sum > most+1e-9 {
			best, most = i, sum
		}
	}
	return best
}

// Asked are by circuit the states in which its points are measured: those of Told, for
// the loads whose last wire of the feed, or first of the return, is one of the circuit's.
// One that feeds no load by itself is measured in the state of most current through it.
func Asked(h *harness.Harness, all []chosen.Load, states []network.State) [][]int {
	loads := make([][]int, len(h.Circuits))
	for i, l := range all {
		if n := len(l.Feed); n > 0 {
			c := h.Wires[l.Feed[n-1]].Circuit
			loads[c] = append(loads[c], i)
		}
	}
	out := make([][]int, len(h.Circuits))
	for c := range h.Circuits {
		out[c] = Told(h, all, states, h.Circuits[c].Wires, loads[c], false)
	}
	return out
}
