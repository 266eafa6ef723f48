package choose

import (
	"math"
	"slices"

	"example.com/loomfolio/sizing/choose/demand"
	"example.com/loomfolio/sizing/choose/protect"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/rating"
	"example.com/loomfolio/sizing/route"
	"example.com/loomfolio/sizing/unit"
)

// Pins are the choices that are held where the record has them.
type Pins struct {
	Wires []bool // by WireID
	Fuses []bool // by ElementID
}

func free(h *harness.Harness) Pins {
	return Pins{make([]bool, len(h.Wires)), make([]bool, len(h.Elements))}
}

// all pins every kept choice that the description leaves open and that can be
// bought: a gauge of the tables, a rating that its body is made in.
func all(h *harness.Harness) Pins {
	p := free(h)
	for i := range h.Wires {
		p.Wires[i] = pinned(&h.Wires[i])
	}
	for i := range h.Elements {
		e := &h.Elements[i]
		if e.Kind != harness.FuseLink || e.Kept.State == "" {
			continue
		}
		part := &h.Parts[e.Part]
		given := part.Rating > 0 || part.Panel != nil && part.Panel.Rating[e.Position] > 0
		made := protect.Made(e.Kept.Body, e.Kept.Rating) && (e.Kept.Body == "breaker") == (part.Kind == harness.Breaker)
		p.Fuses[i] = !given && made && (part.Body == "" || part.Body == e.Kept.Body)
	}
	return p
}

func pinned(w *harness.Wire) bool {
	_, made := rating.AnyConductor(w.Kept.Gauge)
	return w.Kept.State != "" && !w.Gauge.Given() && made
}

func (p Pins) any() bool { return slices.Contains(p.Wires, true) || slices.Contains(p.Fuses, true) }

// gauges gives by WireID the gauge that each wire is to have: the one given, or the
// kept one where it is pinned.
func (p Pins) gauges(h *harness.Harness) []unit.Gauge {
	out := make([]unit.Gauge, len(h.Wires))
	for i := range h.Wires {
		w := &h.Wires[i]
		out[i] = w.Gauge
		if p.Wires[i] {
			out[i] = w.Kept.Gauge
		}
	}
	return out
}

// keeping settles the sizes with what the record holds. First all is chosen
// freely: where that gives what is kept, nothing is in the way and the bound on
// copper holds. Otherwise the kept choices are pinned, and let go where they no
// longer serve, planned before built, until those that remain do. Each round lets
// one go at least, so there are no more rounds than pins.
func keeping(h *harness.Harness, ways []route.Way) (end, error) {
	open, err := newChooser(h, ways, free(h)).settle(nil)
	if err != nil {
		return end{}, err
	}
	kept := all(h)
	if !kept.any() || open.agrees(kept) {
		return open, nil
	}
	hopeless := open.over()
	for {
		now, err := newChooser(h, ways, kept).settle(nil)
		if err != nil {
			return end{}, err
		}
		next, gone := now.letGo(hopeless)
		if !gone {
			return now, nil
		}
		kept = next
	}
}

// agrees tells whether the sizes and fuses in hand are the kept ones.
func (r *Round) agrees(kept Pins) bool {
	for w, pinned := range kept.Wires {
		if pinned && r.Size(harness.WireID(w)).Conductor.Gauge != r.H.Wires[w].Kept.Gauge {
			return false
		}
	}
	for e, pinned := range kept.Fuses {
		if k := r.H.Elements[e].Kept; pinned && (r.Fuses[e].Rating != k.Rating || r.Fuses[e].Body != k.Body) {
			return false
		}
	}
	return true
}

// letting takes pins out of a copy of those that a round held.
type letting struct {
	*Round
	pins Pins
}

// letGo gives the pins without those that no longer serve; false where all do. What is
// planned goes first: it may be that what is built serves then.
func (r *Round) letGo(hopeless map[harness.ElementID]bool) (Pins, bool) {
	l := letting{r, Pins{slices.Clone(r.Pins.Wires), slices.Clone(r.Pins.Fuses)}}
	for _, state := range []harness.KeptState{harness.Planned, harness.Built} {
		if l.fusesGo(state) || l.thinGo(state) || l.lossyGo(state, hopeless) {
			return l.pins, true
		}
	}
	return l.pins, false
}

// fusesGo lets fuses go that open under their load, or that a pinned wire does
// not stand though less would do.
func (l letting) fusesGo(state harness.KeptState) bool {
	gone := false
	for i, pinned := range l.pins.Fuses {
		if e := &l.H.Elements[i]; pinned && e.Kept.State == state && !l.serves(e) {
			l.pins.Fuses[i], gone = false, true
		}
	}
	return gone
}

// serves tells whether a kept rating carries its load and start, fits its holder,
// and is stood by the wires that are kept behind it.
func (l letting) serves(e *harness.Element) bool {
	f, seat := &l.Fuses[e.ID], protect.Seat{H: l.H, E: e}
	best := protect.Fuse{Breaker: f.Breaker, Amps: f.Amps, Start: f.Start, StartFor: f.StartFor}
	seat.Pick(&best, math.Inf(1))
	if best.Rating == f.Rating && best.Body == f.Body {
		return true
	}
	if float64(f.Rating) < seat.Need(f)*(1-1e-9) || f.Rating > seat.HolderLimit(f.Body) && !f.Breaker {
		return false
	}
	if !f.Breaker && !best.Tight && !seat.Holds(f.Body, f.Rating, f) {
		return false
	}
	return best.Rating >= f.Rating || !l.weakBehind(e.ID)
}

// weakBehind tells of a pinned wire that does not stand a fuse.
func (l letting) weakBehind(fuse harness.ElementID) bool {
	for w, pinned := range l.pins.Wires {
		if x := l.Floors[w]; pinned && x.Guard == fuse && l.At[w] < x.Protection {
			return true
		}
	}
	return false
}

// thinGo lets wires go that get too hot, or do not stand their fuse; of the
// planned ones also those that practice no longer allows.
func (l letting) thinGo(state harness.KeptState) bool {
	gone := false
	for w, pinned := range l.pins.Wires {
		f := l.Floors[w]
		least := max(f.Heat, f.Protection)
		if state == harness.Planned {
			least = max(least, f.Handling)
		}
		if pinned && l.H.Wires[w].Kept.State == state && (l.At[w] < least || l.short(harness.WireID(w), least)) {
			l.unpin(harness.WireID(w))
			gone = true
		}
	}
	return gone
}

// unpin lets a wire go, and with it the planned ones in series: these are not cut
// yet and take one gauge, unless practice lets them differ.
func (l letting) unpin(w harness.WireID) {
	l.pins.Wires[w] = false
	if l.H.Practice.Mixed || l.Groups.series[w] == harness.None {
		return
	}
	for o := range l.pins.Wires {
		if l.Groups.series[o] == l.Groups.series[w] && l.H.Wires[o].Kept.State == harness.Planned {
			l.pins.Wires[o] = false
		}
	}
}

// short tells of a kept gauge that has a shelf of its own, on which nothing is
// thicker, and that a rule finds too thin.
func (r *Round) short(w harness.WireID, least int) bool {
	return len(r.Shelf[w]) == 1 && least == 0 && (r.Floors[w].Hot || r.Floors[w].Weak)
}

// over gives the loads that lose more than their limit.
func (r *Round) over() map[harness.ElementID]bool {
	out := map[harness.ElementID]bool{}
	for i := range r.Draws {
		if d := &r.Draws[i]; r.Exceeds(d) {
			out[d.Load] = true
		}
	}
	return out
}

// lossyGo lets go, for each load that loses too much and need not, the pinned
// wire on its way that loses most.
func (l letting) lossyGo(state harness.KeptState, hopeless map[harness.ElementID]bool) bool {
	over := l.over()
	gone := false
	for i := range l.Draws {
		d := &l.Draws[i]
		if !over[d.Load] || hopeless[d.Load] || !d.Counts {
			continue
		}
		if w, ok := l.lossiest(d, state); ok {
			l.unpin(w)
			gone, over[d.Load] = true, false
		}
	}
	return gone
}

// lossiest gives the pinned wire of a state on a draw's way that loses most volts.
func (l letting) lossiest(d *demand.Draw, state harness.KeptState) (harness.WireID, bool) {
	best, most := harness.WireID(harness.None), unit.Volt(0)
	for _, w := range d.Wires() {
		if !l.pins.Wires[w] || l.H.Wires[w].Kept.State != state || l.At[w] == len(l.Shelf[w])-1 && len(l.Shelf[w]) > 1 {
			continue
		}
		loss := unit.Volt(math.Abs(l.Solvings[d.State].State.WireAmps[w]) * l.OhmsIn(d.State, w))
		if loss > most {
			best, most = w, loss
		}
	}
	return best, best != harness.None
}
