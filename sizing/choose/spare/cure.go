package spare

import (
	"math"
	"slices"

	"example.com/loomfolio/sizing/choose/chosen"
	"example.com/loomfolio/sizing/choose/protect"
	"example.com/loomfolio/sizing/harness"
)

// cure says of what gives out first what has to be fitted then.
func (l *load) cure(at *chosen.Limit) {
	switch at.Rule {
	case chosen.ByContinuous, chosen.ByStart:
		l.larger(at)
	case chosen.ByHeat, chosen.ByBeside:
		l.thicken(at, at.Wire)
	case chosen.ByDrop:
		l.thicken(at, l.lossy(at.Element))
	}
}

// larger finds the next rating that its holder carries, one that shops have before a rarer
// one, and the wires that are not safe behind it.
func (l *load) larger(at *chosen.Limit) {
	f := at.Element
	x, seat := &l.Fuses[f], protect.Seat{H: l.H, E: &l.H.Elements[f]}
	for _, stocked := range []bool{true, false} {
		for _, r := range protect.Ratings(x) {
			if at.Rating == 0 && r > x.Rating && (x.Breaker || r <= seat.HolderLimit(x.Body)) && (!stocked || seat.Stocks(x.Body, r)) {
				at.Rating = r
			}
		}
	}
	for w := range l.H.Wires {
		if at.Rating > 0 && slices.Contains(l.Stand[w], f) {
			l.behind(at, harness.WireID(w))
		}
	}
}

// behind notes a wire that is not safe behind the larger fuse, with the size that is.
func (l *load) behind(at *chosen.Limit, w harness.WireID) {
	for i := l.At[w]; i < len(l.Shelf[w]); i++ {
		z := &l.Shelf[w][i]
		if l.MostRating(w, z, at.Element) >= float64(at.Rating)*(1-1e-9) {
			if i > l.At[w] {
				at.Thicker = append(at.Thicker, chosen.Thicker{Wire: w, Gauge: z.Conductor.Gauge})
			}
			return
		}
	}
	at.Thicker = append(at.Thicker, chosen.Thicker{Wire: w})
}

// thicken notes the next size of a wire.
func (l *load) thicken(at *chosen.Limit, w harness.WireID) {
	if w != harness.None {
		at.Thicker = append(at.Thicker, l.next(w))
	}
}

// next gives a wire's next size, none where it has the largest.
func (l *load) next(w harness.WireID) chosen.Thicker {
	t := chosen.Thicker{Wire: w}
	if next := l.At[w] + 1; next < len(l.Shelf[w]) {
		t.Gauge = l.Shelf[w][next].Conductor.Gauge
	}
	return t
}

// lossy gives the wire in which a load loses most, of those that this one shares.
func (l *load) lossy(load harness.ElementID) harness.WireID {
	best, most := harness.WireID(harness.None), 0.0
	for _, d := range l.draws[load] {
		for _, w := range d.Wires() {
			if lost := l.flow(d.State, w) * l.OhmsIn(d.State, w); l.on(w) && lost > most && !math.IsNaN(lost) {
				best, most = w, lost
			}
		}
	}
	return best
}
