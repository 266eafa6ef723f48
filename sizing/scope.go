package sizing

import (
	"fmt"
	"math"

	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/network"
	"example.com/loomfolio/sizing/source"
	"example.com/loomfolio/sizing/unit"
)

// dangerous is where direct current begins to kill: IEC 61140 and UN Regulation 100
// draw the line for DC at 60 V.
const dangerous unit.Volt = 60

// outOfScope refuses a vehicle in which two points of one piece of metal are 60 V or
// more apart in any state, whatever is said of its voltages: the first such state, and
// the points that are farthest apart there. Nothing is printed of it.
func outOfScope(h *harness.Harness, states []network.State) source.Problems {
	for i := range states {
		st := &states[i]
		low, high := apart(st)
		v := unit.Volt(st.Volts[high] - st.Volts[low])
		if v < dangerous {
			continue
		}
		at := h.System.Span
		if p := ownerOf(h, high, low); p != nil {
			at = p.Span
		}
		return source.Problems{{
			Slug: "voltage-out-of-scope", Level: source.Error, Span: at,
			Summary:  fmt.Sprintf("%s is %s above %s in %s", h.Terminals[high].Full, v, h.Terminals[low].Full, st.Name),
			Detail:   "Nothing here covers 60 V and above: that belongs to a qualified person and to other rules. See which sources add up there; batteries in parallel have plus at plus and minus at minus.",
			Subjects: []string{h.Terminals[high].Full, h.Terminals[low].Full, st.Name}, Numbers: []source.Number{{Name: "volts", Value: float64(v)}},
		}}
	}
	return nil
}

// apart gives the two terminals of one island that are farthest apart in a state, the
// lower one first.
func apart(st *network.State) (low, high harness.TerminalID) {
	least, most := map[int]harness.TerminalID{}, map[int]harness.TerminalID{}
	widest := 0.0
	for t, v := range st.Volts {
		if math.IsNaN(v) {
			continue
		}
		id, zero := harness.TerminalID(t), st.Solution.Zero[st.Of[t]]
		if at, ok := least[zero]; !ok || v < st.Volts[at] {
			least[zero] = id
		}
		if at, ok := most[zero]; !ok || v > st.Volts[at] {
			most[zero] = id
		}
		if w := st.Volts[most[zero]] - st.Volts[least[zero]]; w > widest {
			low, high, widest = least[zero], most[zero], w
		}
	}
	return low, high
}

// ownerOf gives the first part that one of some terminals belongs to.
func ownerOf(h *harness.Harness, terminals ...harness.TerminalID) *harness.Part {
	for _, t := range terminals {
		if p := h.PartOf(t); p != nil {
			return p
		}
	}
	return nil
}
