// Package alteration says, by circuit, what follows if the vehicle is altered later: a
// larger load, more lamps, LED lamps behind a flasher or for the charge lamp, a battery in
// another place, a second one, a larger alternator. In: the model and the finished results,
// for reading only. Out: plain notes, by circuit, each with the figures that it rests on.
// Always holds: two notes a circuit at most; nothing is said to be good that a finding says
// is not; where nothing can be computed nothing is said.
package alteration

import (
	"cmp"
	"slices"

	"example.com/loomfolio/sizing/choose/chosen"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/proof"
	"example.com/loomfolio/sizing/result"
	"example.com/loomfolio/sizing/source"
)

// most is how many notes a circuit has.
const most = 2

// Notes gives what follows from changes, in the order of the circuits, the most telling of
// each circuit first.
func Notes(h *harness.Harness, r *result.Result) []proof.Change {
	n := newNotes(h, r)
	for _, make := range []func() []proof.Change{n.flashers, n.chargeLamps, n.batteryMoved, n.secondBattery, n.charging, n.larger} {
		n.out = append(n.out, make()...)
	}
	slices.SortStableFunc(n.out, func(a, b proof.Change) int { return cmp.Compare(a.Circuit, b.Circuit) })
	kept := n.out[:0]
	for _, c := range n.out {
		if i := len(kept) - most; i < 0 || kept[i].Circuit != c.Circuit {
			kept = append(kept, c)
		}
	}
	return kept
}

// notes gathers them.
type notes struct {
	h      *harness.Harness
	r      *result.Result
	loads  map[harness.ElementID]*chosen.Load
	blamed map[string]bool // what an error or a warning speaks of
	out    []proof.Change
}

// mechanical are errors and warnings that say nothing of what a wire, fuse or contact
// carries.
var mechanical = map[string]bool{
	"too-many-rings": true, "splice-in-flex": true, "splices-together": true, "splice-over-filled": true, "battery-cable-spliced": true,
	"look-alike": true, "live-in-ground-colour": true, "lock-broken": true, "built-too-short": true,
}

func newNotes(h *harness.Harness, r *result.Result) *notes {
	n := &notes{h: h, r: r, loads: map[harness.ElementID]*chosen.Load{}, blamed: map[string]bool{}}
	for i := range r.Loads {
		n.loads[r.Loads[i].Element] = &r.Loads[i]
	}
	for i := range r.Findings {
		if p := &r.Findings[i]; p.Level != source.Advice && !mechanical[p.Slug] {
			for _, s := range p.Subjects {
				n.blamed[s] = true
			}
		}
	}
	return n
}

// circuitOf gives the circuit in which the feed of a load arrives, None where it has none.
func (n *notes) circuitOf(l *chosen.Load) harness.CircuitID {
	if l == nil || len(l.Feed) == 0 {
		return harness.None
	}
	return n.h.Wires[l.Feed[len(l.Feed)-1]].Circuit
}

// doubted tells that an error or a warning speaks of a load, its part, or what lies on its
// way.
func (n *notes) doubted(l *chosen.Load) bool {
	if n.blamed[l.Name] || n.blamed[n.h.Parts[n.h.Elements[l.Element].Part].Ref] || n.blamed[l.ProtectedBy] {
		return true
	}
	for _, list := range [][]harness.WireID{l.Feed, l.Return} {
		for _, w := range list {
			if n.blamed[n.h.Wires[w].Name] {
				return true
			}
		}
	}
	return false
}

func number(name string, v float64) proof.Number { return proof.Number{Name: name, Value: v} }
