package choose

import (
	"example.com/loomfolio/sizing/choose/demand"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/unit"
)

// Groups are the wires that take one gauge.
type Groups struct {
	Wires  [][]harness.WireID // by group
	Of     []int              // by WireID: the group, -1 for a gauge that is held
	series []int              // by WireID: equal for wires in series; None where none is, or where it cranks the engine
	beside []int              // by group: no thinner than the thickest kept wire in series with it, 0 for none
}

// alike is what wires of one group have in common.
type alike struct {
	series int
	shelf  string
	sizes  int  // on the shelf: what is held has all of them where others are bought short
	lifted bool // for the sake of a short: such a wire stands alone
}

// groupsOf puts wires in series into one group, unless practice says mixed or
// their shelves differ; a held gauge stands apart. The cables that crank the
// engine are one group, though thinner wires branch off between them (common
// practice, no source). A wire that a short lifts, as a short tap before its own fuse,
// does not lift those behind the fuse.
func groupsOf(d *demand.Demand, pins Pins, fixed []bool, lifts []Lift) Groups {
	g := Groups{Of: make([]int, len(fixed)), series: d.Net.Series(d.States, d.Owns, d.Net.Parts(&d.Guards))}
	for w, cranks := range d.Cranks {
		if cranks {
			g.series[w] = harness.None
		}
	}
	number, kept := map[alike]int{}, thickestKept(d, pins, g.series)
	for i := range fixed {
		if g.Of[i] = -1; fixed[i] {
			continue
		}
		k := alike{g.series[i], d.Keys[i], len(d.Shelf[i]), lifts[i].Step > 0}
		n, ok := number[k]
		if !ok || d.H.Practice.Mixed || k.lifted {
			n = len(g.Wires)
			number[k] = n
			g.Wires, g.beside = append(g.Wires, nil), append(g.beside, d.Shelf[i].From(kept[alike{series: k.series, shelf: k.shelf}]))
		}
		g.Wires[n], g.Of[i] = append(g.Wires[n], harness.WireID(i)), n
	}
	return g
}

// thickestKept gives the most copper that is kept among wires of one kind.
func thickestKept(d *demand.Demand, pins Pins, series []int) map[alike]unit.SquareMillimetre {
	out := map[alike]unit.SquareMillimetre{}
	for i, pinned := range pins.Wires {
		if k := (alike{series: series[i], shelf: d.Keys[i]}); pinned && !d.H.Practice.Mixed {
			out[k] = max(out[k], d.Size(harness.WireID(i)).Conductor.Area)
		}
	}
	return out
}
