// Package bought says what may be bought in the place of the least sizes. In: a Settled of
// package choose. Out: the wires that take one size with the sizes that would do for them; by
// the number of sizes in all, over all families of wire, those that cost least copper, exactly;
// the gauge of every wire with such a set. Copper is length × area × 8.89 g/cm³, as the reels
// weigh, in g. Method: package ladder over the shelves one behind the other. Heat, drops, fuses
// and shorts are not asked again: choose.Again does that with the set.
package bought

import (
	"slices"

	"example.com/loomfolio/sizing/choose"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/joint"
	"example.com/loomfolio/sizing/rating"
	"example.com/loomfolio/sizing/unit"
)

// Group is the wires that take one size.
type Group struct {
	Wires       []harness.WireID
	Shelf       string      // as trial.Base.Keys names it
	Least, Most int         // steps on the whole shelf: what is settled, and what may be bought
	Copper      []unit.Gram // by step
}

// Groups gives what is to be bought off reels: the wires that settled on one size, each of a
// gauge that is given, or kept and not cut yet, by itself. What is built is not bought, nor
// are the cores of cables.
func Groups(s *choose.Settled) []Group {
	g := grouping{s, own(s)}
	var out []Group
	for _, wires := range s.Groups.Wires {
		if wires = g.reeled(wires); len(wires) > 0 {
			out = append(out, g.group(wires))
		}
	}
	for i, held := range s.Fixed {
		if wires := g.reeled([]harness.WireID{harness.WireID(i)}); held && len(wires) > 0 {
			out = append(out, g.group(wires))
		}
	}
	return out
}

// grouping puts wires into groups.
type grouping struct {
	*choose.Settled
	own map[string][]int // by shelf: the steps that are used anyway, ascending
}

// own gives by shelf the steps of the wires that are bought off reels.
func own(s *choose.Settled) map[string][]int {
	out, g := map[string][]int{}, grouping{Settled: s}
	for i, at := range s.At {
		if wires := g.reeled([]harness.WireID{harness.WireID(i)}); len(wires) > 0 {
			out[s.Keys[i]] = append(out[s.Keys[i]], at)
		}
	}
	for key := range out {
		slices.Sort(out[key])
		out[key] = slices.Compact(out[key])
	}
	return out
}

// reeled leaves those of some wires that are bought off reels.
func (g grouping) reeled(wires []harness.WireID) []harness.WireID {
	var out []harness.WireID
	for _, w := range wires {
		if x := &g.H.Wires[w]; x.Core == harness.None && !g.isBuilt(w) {
			out = append(out, w)
		}
	}
	return out
}

// isBuilt tells a wire that is in the vehicle and has the gauge that it is to have.
func (g grouping) isBuilt(w harness.WireID) bool {
	x := &g.H.Wires[w]
	return x.Kept.State == harness.Built && x.Kept.Gauge == g.Size(w).Conductor.Gauge && x.Kept.Length >= g.Ways[w].Length
}

func (g grouping) group(wires []harness.WireID) Group {
	first, length := wires[0], unit.Millimetre(0)
	out := Group{Wires: wires, Shelf: g.Keys[first], Least: g.At[first]}
	for _, w := range wires {
		out.Least = max(out.Least, g.At[w])
		length += g.Ways[w].Length
	}
	out.Most = out.Least
	if !g.Fixed[first] {
		out.Most = g.most(wires, out.Least)
	}
	for i := range g.Shelf[first] {
		out.Copper = append(out.Copper, rating.CopperMass(g.Shelf[first][i].Conductor.Area, length))
	}
	return out
}

// mostUp is how many of the vehicle's own sizes up a wire may be bought thicker where an end of
// it is crimped to a contact, a tab or the like: barrels are made for a range of sizes. Common
// practice, no source.
const mostUp = 2

// most gives the greatest step that the wires of a group may be bought at.
func (g grouping) most(wires []harness.WireID, least int) int {
	top := len(g.Shelf[wires[0]]) - 1
	for _, w := range wires {
		top = min(top, g.Ceiling(w))
		if !g.bolted(w) {
			top = min(top, g.up(wires[0], least))
		}
	}
	return max(top, least)
}

// up gives the step that lies mostUp of the vehicle's own sizes above one.
func (g grouping) up(w harness.WireID, least int) int {
	steps := g.own[g.Keys[w]]
	i := slices.Index(steps, least)
	return steps[min(i+mostUp, len(steps)-1)]
}

// bolted tells a wire with both ends under a nut, or on leads that take any.
func (g grouping) bolted(w harness.WireID) bool {
	for _, t := range []harness.TerminalID{g.H.Wires[w].From, g.H.Wires[w].To} {
		if j := joint.Of(g.H, t, g.BoltedOn(t)); j.Fitting != joint.Ring {
			return false
		}
	}
	return true
}
