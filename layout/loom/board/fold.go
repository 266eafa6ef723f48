package board

import (
	"slices"

	"example.com/loomfolio/layout/loom/laid"

	"example.com/loomfolio/layout/loom/branch"
	"example.com/loomfolio/layout/loom/plane"
)

// A folded board leaves out the middle of straight stretches on which nothing lies: at
// each break stands how long the stretch actually is.

// folded is the tree with the long stretches of its legs left out; what is left out is a
// number of whole ticks, so that those on either side still count.
func (b *board) folded(t branch.Tree) branch.Tree {
	legs := slices.Clone(t.Legs)
	for i := range legs {
		if !legs[i].Closing {
			legs[i].Fold(b.stops(legs[i]), b.tick())
		}
	}
	t.Legs = legs
	return t
}

// stops are the places on a leg at which something lies: its ends and the splices along it.
func (b *board) stops(l branch.Leg) []float64 {
	out := []float64{0, l.MM}
	for _, p := range b.Along(l.Run) {
		out = append(out, min(max(float64(p.Along.Distance), 0), l.MM))
	}
	slices.Sort(out)
	return out
}

// breakRoom keeps a break clear of bends, mm along the leg.
const breakRoom = 14

// breakAt is where the break of a gap lies on the sheet, and the direction of the leg there:
// as near as can be to its place, on a straight piece.
func breakAt(d *laid.Legs, i int, g branch.Gap) (plane.Point, float64) {
	l, way := d.Tree.Legs[i], d.Lines[i]
	mm := g.At
	if d.Start[i] != l.From {
		mm = way.Length() - mm
	}
	along := 0.0
	for _, s := range way.Segments() {
		long := s.Length()
		if mm <= along+long && long >= 2*breakRoom {
			mm = min(max(mm, along+breakRoom), along+long-breakRoom)
			break
		}
		along += long
	}
	return way.At(mm)
}
