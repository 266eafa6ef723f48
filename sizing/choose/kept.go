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
		w := &h.Wires[i]
		_, made := rating.AnyConductor(w.Kept.Gauge)
		p.Wires[i] = w.Kept.State != "" && !w.Gauge.Given() && made
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
			made = e.Kept.Body == "breaker" && slices.Contains(BreakerRatings[:], e.Kept.Rating)
		}
		p.Fuses[i] = !given && made && (part.Body == "" || part.Body == e.Kept.Body)
	}
	return p
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

// given tells whether the description gives a wire's gauge.
func (s *sizer) Given(w harness.WireID) bool { return s.Fixed[w] && !s.Pins.Wires[w] }

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
func (s *sizer) agrees(kept Pins) bool {
	for w, pinned := range kept.Wires {
		if pinned && s.Size(harness.WireID(w)).Conductor.Gauge != s.H.Wires[w].Kept.Gauge {
			return false
		}
	}
	for e, pinned := range kept.Fuses {
		if k := s.H.Elements[e].Kept; pinned && (s.Fuses[e].Rating != k.Rating || s.Fuses[e].Body != k.Body) {
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
	for i, pinned := range s.Pins.Fuses {
		if e := &s.H.Elements[i]; pinned && e.Kept.State == state && !s.serves(e) {
			s.Pins.Fuses[i], gone = false, true
		}
	}
	return gone
}

// serves tells whether a kept rating carries its load and start, fits its holder,
// and is stood by the wires that are kept behind it.
func (s *sizer) serves(e *harness.Element) bool {
	f := &s.Fuses[e.ID]
	best := Fuse{Breaker: f.Breaker, Amps: f.Amps, Start: f.Start, StartFor: f.StartFor}
	s.pick(e, &best)
	if best.Rating == f.Rating && best.Body == f.Body {
		return true
	}
	if float64(f.Rating) < s.need(e, f)*(1-1e-9) || f.Rating > s.holderLimit(e, f.Body) && !f.Breaker {
		return false
	}
	if !f.Breaker && !best.Tight && !s.holds(e, f.Body, f.Rating, f) {
		return false
	}
	for w, pinned := range s.Pins.Wires {
		if x := s.Floors[w]; pinned && x.Guard == e.ID && s.At[w] < x.Protection && best.Rating < f.Rating {
			return false
		}
	}
	return true
}

// thinGo lets wires go that get too hot, or do not stand their fuse; of the
// planned ones also those that practice no longer allows.
func (s *sizer) thinGo(state harness.KeptState) bool {
	gone := false
	for w, pinned := range s.Pins.Wires {
		f := s.Floors[w]
		least := max(f.Heat, f.Protection)
		if state == harness.Planned {
			least = max(least, f.Handling)
		}
		if pinned && s.H.Wires[w].Kept.State == state && (s.At[w] < least || s.short(harness.WireID(w), least)) {
			s.unpin(harness.WireID(w))
			gone = true
		}
	}
	return gone
}

// unpin lets a wire go, and with it the planned ones in series: these are not cut
// yet and take one gauge, unless practice lets them differ.
func (s *sizer) unpin(w harness.WireID) {
	s.Pins.Wires[w] = false
	if s.H.Practice.Mixed || s.series[w] == harness.None {
		return
	}
	for o := range s.Pins.Wires {
		if s.series[o] == s.series[w] && s.H.Wires[o].Kept.State == harness.Planned {
			s.Pins.Wires[o] = false
		}
	}
}

// short tells of a kept gauge that has a shelf of its own, on which nothing is
// thicker, and that a rule finds too thin.
func (s *sizer) short(w harness.WireID, least int) bool {
	return len(s.Of[w]) == 1 && least == 0 && (s.Floors[w].Hot || s.Floors[w].Weak)
}

// over gives the loads that lose more than their limit.
func (s *sizer) over() map[harness.ElementID]bool {
	out := map[harness.ElementID]bool{}
	for i := range s.Draws {
		if d := &s.Draws[i]; s.Exceeds(d) {
			out[d.Load] = true
		}
	}
	return out
}

// lossyGo lets go, for each load that loses too much and need not, the pinned
// wire on its way that loses most.
func (s *sizer) lossyGo(state harness.KeptState, hopeless map[harness.ElementID]bool) bool {
	over := s.over()
	gone := false
	for i := range s.Draws {
		d := &s.Draws[i]
		if !over[d.Load] || hopeless[d.Load] || !d.Counts {
			continue
		}
		if w, ok := s.lossiest(d, state); ok {
			s.unpin(w)
			gone, over[d.Load] = true, false
		}
	}
	return gone
}

// lossiest gives the pinned wire of a state on a draw's way that loses most volts.
func (s *sizer) lossiest(d *Draw, state harness.KeptState) (harness.WireID, bool) {
	best, most := harness.WireID(harness.None), unit.Volt(0)
	for _, w := range d.Wires() {
		if !s.Pins.Wires[w] || s.H.Wires[w].Kept.State != state || s.At[w] == len(s.Of[w])-1 && len(s.Of[w]) > 1 {
			continue
		}
		loss := unit.Volt(math.Abs(s.States[d.State].WireAmps[w]) * s.OhmsIn(d.State, w))
		if loss > most {
			best, most = w, loss
		}
	}
	return best, best != harness.None
}
