package choose

import (
	"math"
	"slices"

	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/rating"
	"example.com/loomfolio/sizing/route"
	"example.com/loomfolio/sizing/unit"
)

// pins are the choices that are held where the record has them.
type pins struct {
	wires []bool // by WireID
	fuses []bool // by ElementID
}

func free(h *harness.Harness) pins {
	return pins{make([]bool, len(h.Wires)), make([]bool, len(h.Elements))}
}

// all pins every kept choice that the description leaves open and that can be
// bought: a gauge of the tables, a rating that its body is made in.
func all(h *harness.Harness) pins {
	p := free(h)
	for i := range h.Wires {
		w := &h.Wires[i]
		_, made := rating.AnyConductor(w.Kept.Gauge)
		p.wires[i] = w.Kept.State != "" && !w.Gauge.Given() && made
	}
	for i := range h.Elements {
		e := &h.Elements[i]
		if e.Kind != harness.FuseLink || e.Kept.State == "" {
			continue
		}
		part := &h.Parts[e.Part]
		given := part.Rating > 0 || part.Panel != nil && part.Panel.Rating[e.Position] > 0
		_, made := rating.FuseOf(e.Kept.Body, e.Kept.Rating)
		if part.Kind == harness.Breaker {
			made = e.Kept.Body == "breaker" && slices.Contains(breakerRatings[:], e.Kept.Rating)
		}
		p.fuses[i] = !given && made && (part.Body == "" || part.Body == e.Kept.Body)
	}
	return p
}

func (p pins) any() bool { return slices.Contains(p.wires, true) || slices.Contains(p.fuses, true) }

// wire gives the wire as it is to be sized: a pinned one with its kept gauge.
func (p pins) wire(w *harness.Wire) *harness.Wire {
	if !p.wires[w.ID] {
		return w
	}
	held := *w
	held.Gauge = w.Kept.Gauge
	return &held
}

// given tells whether the description gives a wire's gauge.
func (s *sizer) given(w harness.WireID) bool { return s.fixed[w] && !s.pins.wires[w] }

// keeping settles the sizes with what the record holds. First all is chosen
// freely: where that gives what is kept, nothing is in the way and the bound on
// copper holds. Otherwise the kept choices are pinned, and let go where they no
// longer serve, planned before built, until those that remain do. Each round lets
// one go at least, so there are no more rounds than pins.
func keeping(h *harness.Harness, ways []route.Way) (*sizer, error) {
	open := newSizer(h, ways)
	if err := open.settle(); err != nil {
		return nil, err
	}
	kept := all(h)
	if !kept.any() || open.agrees(kept) {
		return open, nil
	}
	hopeless := open.over()
	for {
		s := newHeld(h, ways, kept)
		if err := s.settle(); err != nil {
			return nil, err
		}
		if !s.letGo(hopeless) {
			return s, nil
		}
	}
}

// agrees tells whether the sizes and fuses in hand are the kept ones.
func (s *sizer) agrees(kept pins) bool {
	for w, pinned := range kept.wires {
		if pinned && s.size(harness.WireID(w)).conductor.Gauge != s.h.Wires[w].Kept.Gauge {
			return false
		}
	}
	for e, pinned := range kept.fuses {
		if k := s.h.Elements[e].Kept; pinned && (s.fuses[e].rating != k.Rating || s.fuses[e].body != k.Body) {
			return false
		}
	}
	return true
}

// letGo takes out the pins that no longer serve; false where all do. What is
// planned goes first: it may be that what is built serves then.
func (s *sizer) letGo(hopeless map[harness.ElementID]bool) bool {
	for _, state := range []harness.KeptState{harness.Planned, harness.Built} {
		if s.fusesGo(state) || s.thinGo(state) || s.lossyGo(state, hopeless) {
			return true
		}
	}
	return false
}

// fusesGo lets fuses go that open under their load, or that a pinned wire does
// not stand though less would do.
func (s *sizer) fusesGo(state harness.KeptState) bool {
	gone := false
	for i, pinned := range s.pins.fuses {
		if e := &s.h.Elements[i]; pinned && e.Kept.State == state && !s.serves(e) {
			s.pins.fuses[i], gone = false, true
		}
	}
	return gone
}

// serves tells whether a kept rating carries its load and start, fits its holder,
// and is stood by the wires that are kept behind it.
func (s *sizer) serves(e *harness.Element) bool {
	f := &s.fuses[e.ID]
	best := fusing{breaker: f.breaker, amps: f.amps, start: f.start, startOf: f.startOf}
	s.pick(e, &best)
	if best.rating == f.rating && best.body == f.body {
		return true
	}
	if float64(f.rating) < s.need(e, f)*(1-1e-9) || f.rating > s.holderLimit(e, f.body) && !f.breaker {
		return false
	}
	if !f.breaker && !best.tight && !s.holds(e, f.body, f.rating, f) {
		return false
	}
	for w, pinned := range s.pins.wires {
		if x := s.floors[w]; pinned && x.guard == e.ID && s.at[w] < x.protection && best.rating < f.rating {
			return false
		}
	}
	return true
}

// thinGo lets wires go that get too hot, or do not stand their fuse; of the
// planned ones also those that practice no longer allows.
func (s *sizer) thinGo(state harness.KeptState) bool {
	gone := false
	for w, pinned := range s.pins.wires {
		f := s.floors[w]
		least := max(f.heat, f.protection)
		if state == harness.Planned {
			least = max(least, f.handling)
		}
		if pinned && s.h.Wires[w].Kept.State == state && (s.at[w] < least || s.short(harness.WireID(w), least)) {
			s.unpin(harness.WireID(w))
			gone = true
		}
	}
	return gone
}

// unpin lets a wire go, and with it the planned ones in series: these are not cut
// yet and take one gauge, unless practice lets them differ.
func (s *sizer) unpin(w harness.WireID) {
	s.pins.wires[w] = false
	if s.h.Practice.Mixed || s.series[w] == harness.None {
		return
	}
	for o := range s.pins.wires {
		if s.series[o] == s.series[w] && s.h.Wires[o].Kept.State == harness.Planned {
			s.pins.wires[o] = false
		}
	}
}

// short tells of a kept gauge that has a shelf of its own, on which nothing is
// thicker, and that a rule finds too thin.
func (s *sizer) short(w harness.WireID, least int) bool {
	return len(s.shelf[w]) == 1 && least == 0 && (s.floors[w].hot || s.floors[w].weak)
}

// over gives the loads that lose more than their limit.
func (s *sizer) over() map[harness.ElementID]bool {
	out := map[harness.ElementID]bool{}
	for i := range s.draws {
		if d := &s.draws[i]; s.exceeds(d) {
			out[d.load] = true
		}
	}
	return out
}

// lossyGo lets go, for each load that loses too much and need not, the pinned
// wire on its way that loses most.
func (s *sizer) lossyGo(state harness.KeptState, hopeless map[harness.ElementID]bool) bool {
	over := s.over()
	gone := false
	for i := range s.draws {
		d := &s.draws[i]
		if !over[d.load] || hopeless[d.load] || !d.counts {
			continue
		}
		if w, ok := s.lossiest(d, state); ok {
			s.unpin(w)
			gone, over[d.load] = true, false
		}
	}
	return gone
}

// lossiest gives the pinned wire of a state on a draw's way that loses most volts.
func (s *sizer) lossiest(d *draw, state harness.KeptState) (harness.WireID, bool) {
	best, most := harness.WireID(harness.None), unit.Volt(0)
	for _, w := range d.wires() {
		if !s.pins.wires[w] || s.h.Wires[w].Kept.State != state || s.at[w] == len(s.shelf[w])-1 && len(s.shelf[w]) > 1 {
			continue
		}
		loss := unit.Volt(math.Abs(s.states[d.state].WireAmps[w]) * s.ohmsIn(d.state, w))
		if loss > most {
			best, most = w, loss
		}
	}
	return best, best != harness.None
}
