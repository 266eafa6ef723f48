package loom

import (
	"math"
	"slices"
)

// A folded board leaves out the middle of straight stretches on which nothing lies: at
// each break stands how long the stretch actually is.

// gap is what is left out of a leg.
type gap struct {
	at    float64 // where it is in the drawn leg, mm from its start
	out   float64 // mm that are left out
	whole float64 // of the actual stretch, from one thing on the leg to the next, mm
}

const (
	foldFrom = 400 // a stretch from this length on is folded, mm
	foldTo   = 200 // what is drawn of it at least, mm
)

// folded is the tree with the long stretches of its legs left out; what is left out is a
// number of whole ticks, so that those on either side still count.
func (b *board) folded(t tree) tree {
	legs := slices.Clone(t.legs)
	for i := range legs {
		if !legs[i].closing {
			legs[i].fold(b.stops(legs[i]), b.tick())
		}
	}
	t.legs = legs
	return t
}

// stops are the places on a leg at which something lies: its ends and the splices along it.
func (b *board) stops(l leg) []float64 {
	out := []float64{0, l.mm}
	for _, p := range b.along(l.run) {
		out = append(out, min(max(float64(p.Along.Distance), 0), l.mm))
	}
	slices.Sort(out)
	return out
}

// fold takes the middle out of each long stretch between stops.
func (l *leg) fold(stops []float64, tick float64) {
	left := 0.0
	for i, from := range stops[:len(stops)-1] {
		whole := stops[i+1] - from
		if whole < foldFrom {
			continue
		}
		out := math.Floor((whole-foldTo)/tick) * tick
		l.gaps = append(l.gaps, gap{at: from - left + (whole-out)/2, out: out, whole: whole})
		left += out
	}
	l.mm -= left
}

// drawn is where a place on the run lies in the drawn leg, mm from its start.
func (l leg) drawn(mm float64) float64 {
	left := 0.0
	for _, g := range l.gaps {
		if mm > g.at+left {
			left += g.out
		}
	}
	return mm - left
}

// breakRoom keeps a break clear of bends, mm along the leg.
const breakRoom = 14

// breakAt is where the break of a gap lies on the sheet, and the direction of the leg there:
// as near as can be to its place, on a straight piece.
func (d *Drawing) breakAt(i int, g gap) (point, float64) {
	l, way := d.tree.legs[i], d.lines[i]
	mm := g.at
	if d.start[i] != l.from {
		mm = way.length() - mm
	}
	along := 0.0
	for _, s := range way.segments() {
		long := s.length()
		if mm <= along+long && long >= 2*breakRoom {
			mm = min(max(mm, along+breakRoom), along+long-breakRoom)
			break
		}
		along += long
	}
	return way.at(mm)
}
