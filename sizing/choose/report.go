package choose

import (
	"math"
	"slices"

	"example.com/loomfolio/sizing/choose/chosen"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/rating"
	"example.com/loomfolio/sizing/unit"
)

// chosen writes down what was settled.
func (s *sizer) chosen() chosen.Chosen {
	c := chosen.Chosen{States: s.states}
	s.drawn = s.drawsByWire()
	wants := s.wantedForDrop()
	for w := range s.h.Wires {
		c.Wires = append(c.Wires, s.wire(harness.WireID(w), wants[w]))
	}
	s.findShorts()
	for i := range s.h.Elements {
		e := &s.h.Elements[i]
		switch e.Kind {
		case harness.Load:
			c.Loads = append(c.Loads, s.loadOf(e))
		case harness.FuseLink:
			if !s.spare(e) {
				c.Fuses = append(c.Fuses, s.fuse(e))
			}
		}
	}
	c.Relays = s.relays()
	c.Contacts = s.contactsOf()
	c.Budgets = s.budgets()
	c.SourceKeys = sourceKeys(&c)
	return c
}

// drawsByWire gives, by WireID, the numbers of the draws whose way leads over it.
func (s *sizer) drawsByWire() [][]int {
	out := make([][]int, len(s.h.Wires))
	for i := range s.draws {
		for _, w := range s.draws[i].wires() {
			if n := len(out[w]); n == 0 || out[w][n-1] != i {
				out[w] = append(out[w], i)
			}
		}
	}
	return out
}

// spare tells a panel position that no wire leaves and no rating is given for.
func (s *sizer) spare(e *harness.Element) bool {
	p := &s.h.Parts[e.Part]
	if e.Position == "" || p.Panel != nil && p.Panel.Rating[e.Position] > 0 {
		return false
	}
	for i := range s.h.Wires {
		if w := &s.h.Wires[i]; w.From == e.B || w.To == e.B {
			return false
		}
	}
	return true
}

func sourceKeys(c *chosen.Chosen) []string {
	var keys []string
	for _, w := range c.Wires {
		keys = append(keys, w.Sources...)
	}
	for _, f := range c.Fuses {
		keys = append(keys, f.Sources...)
	}
	return distinct(keys)
}

// wantedForDrop gives the size that the drop rule alone would ask of each wire,
// given gauges set free.
func (s *sizer) wantedForDrop() []int {
	at, fixed := s.at, s.fixed
	s.fixed = make([]bool, len(fixed))
	s.findGroups()
	defer func() {
		s.at, s.fixed = at, fixed
		s.findGroups()
	}()
	if m := s.h.Practice.Method; s.byRule() {
		kept := s.floors
		s.floors = make([]floors, len(kept))
		next := s.published(m)
		s.floors = kept
		return next
	}
	return s.computed(func(w harness.WireID) int { return s.floors[w].handling })
}

func (s *sizer) wire(w harness.WireID, wanted int) chosen.Wire {
	z, f, p := s.size(w), s.floors[w], s.peak[w]
	gauge := func(i int) unit.Gauge { return s.shelf[w][i].conductor.Gauge }
	out := chosen.Wire{
		Gauge: z.conductor.Gauge, Area: z.conductor.Area, Diameter: z.over,
		Insulation: s.h.Wires[w].Insulation, Class: z.class, Resistance: unit.Ohm(s.ohms(w)),
		Amps: unit.Ampere(p.amps), State: p.state, Drop: unit.Volt(p.amps * p.ohms), Cold: unit.Volt(p.amps * s.ohms(w)),
		Ambient: s.places[w].celsius, Bundle: s.bundle[w],
		Ampacity: unit.Ampere(s.carries(w, z)),
		Wants:    chosen.Wants{Drop: gauge(wanted), Heat: gauge(f.heat), Handling: gauge(f.handling)},
		Given:    s.given(w),
	}
	out.Temperature, out.HottestIn = s.hottestState(w)
	if f.guard != harness.None {
		out.Wants.Protection = gauge(f.protection)
	}
	if g := s.strongest(w, s.protectorsOf(w)); g != harness.None {
		out.ProtectedBy = s.h.Elements[g].Name
	}
	var more []string
	out.Reason, more = s.reason(w)
	out.Below = s.below(w)
	out.Sources = distinct(append(append([]string(nil), z.sources...), more...))
	return out
}

// protectorsOf gives the fuses that would open for a short on the wire: those
// that feed it, or on a return those that feed its loads. A wire that a source
// feeds with no fuse between has none, whatever hangs on it.
func (s *sizer) protectorsOf(w harness.WireID) []harness.ElementID {
	for _, b := range s.guards.Bare {
		if b.Wire == w {
			return nil
		}
	}
	return s.stand[w]
}

// loadOf writes down one load's worst case: the state with its lowest voltage
// among those that count.
func (s *sizer) loadOf(e *harness.Element) chosen.Load {
	out := chosen.Load{Element: e.ID, Name: e.Name, Amps: e.Amps}
	var worst *draw
	amps := 0.0
	for i := range s.draws {
		d := &s.draws[i]
		if d.load != e.ID {
			continue
		}
		out.On = append(out.On, s.h.States[d.state].Name)
		if d.counts {
			amps = math.Max(amps, d.amps)
			if worst == nil || d.volts < worst.volts-1e-9 {
				worst = d
			}
		}
	}
	limitOf := &draw{}
	if worst != nil {
		limitOf = worst
		out.Amps = unit.Ampere(amps)
		s.fillLoad(&out, worst)
	}
	out.Limit, out.LimitText = s.limitOf(limitOf)
	out.Class = s.classOf(limitOf)
	return out
}

func (s *sizer) fillLoad(out *chosen.Load, d *draw) {
	st := &s.states[d.state]
	start := s.startOf(d)
	out.StartAmps, out.StartFor = start.Amps, start.For
	out.State, out.Volts = st.Name, unit.Volt(d.volts)
	out.FeedDrop, out.ReturnDrop = unit.Volt(s.dropIn(d.state, d.feed.Wires)), unit.Volt(s.dropIn(d.state, d.back.Wires))
	out.Cold = unit.Volt(s.coldDrop(d))
	out.Feed, out.Return = d.feed.Wires, d.back.Wires
	if d.feed.Source != harness.None {
		src := &s.h.Elements[d.feed.Source]
		whole := math.Abs(st.Volts[src.A] - st.Volts[src.B])
		out.OtherDrop = unit.Volt(math.Max(0, whole-d.volts)) - out.FeedDrop - out.ReturnDrop
		out.OtherDrop = max(out.OtherDrop, 0)
	}
	if fuses := d.feed.Fuses(s.h); len(fuses) > 0 {
		out.ProtectedBy = s.h.Elements[fuses[len(fuses)-1]].Name
	}
}

func (s *sizer) fuse(e *harness.Element) chosen.Fuse {
	f := &s.fuses[e.ID]
	out := chosen.Fuse{
		Element: e.ID, Name: e.Name, Part: e.Part, Position: e.Position, Body: f.body, Rating: f.rating,
		Breaker: f.breaker, Given: f.given, Amps: unit.Ampere(f.amps), State: f.state,
		Wires: s.guards.Wires[e.ID], Smallest: harness.None,
		Reason: s.fuseReason(e, f), Sources: s.fuseSources(e, f),
	}
	out.Reason += s.feederReason(e, f)
	if f.breaker {
		out.Type = s.h.Parts[e.Part].BreakerType
		out.Reason += breakerReason(out.Type)
	}
	if row, ok := rating.FuseOf(f.body, f.rating); ok {
		out.BodyColour = row.Colour
	}
	out.Feeds = s.feeds(e.ID)
	s.standing(e, &out)
	s.shorted(e, &out)
	out.Below, out.Above = s.beside(e)
	return out
}

// feeds lists the loads and coils behind a fuse, in the order of the elements.
func (s *sizer) feeds(fuse harness.ElementID) []string {
	behind := make([]bool, len(s.h.Elements))
	for _, list := range [][]draw{s.draws, s.coils} {
		for i := range list {
			if slices.Contains(list[i].feed.Elements, fuse) {
				behind[list[i].load] = true
			}
		}
	}
	var out []string
	for i, yes := range behind {
		if yes {
			out = append(out, s.h.Elements[i].Name)
		}
	}
	return out
}

// standing finds the wire that stands least of those that a fuse guards, and
// the largest rating that all of them stand.
func (s *sizer) standing(e *harness.Element, out *chosen.Fuse) {
	weakest := math.Inf(1)
	var stand []harness.WireID
	for w, guards := range s.stand {
		if !slices.Contains(guards, e.ID) {
			continue
		}
		id := harness.WireID(w)
		stand = append(stand, id)
		if s.letThrough(e.ID, id) >= float64(out.Rating)*(1-1e-9) { // else its supply limits what passes
			weakest = math.Min(weakest, s.mostRating(id, s.size(id), e.ID))
		}
	}
	out.Smallest = s.weakestOf(stand)
	if math.IsInf(weakest, 1) {
		// No wire limits the rating: a short feed of a panel, say, is sized by the
		// panel's fuses. It is the wire behind this one all the same.
		if w := s.weakestOf(out.Wires); w != harness.None {
			out.Smallest = w
		}
		out.MostAllowed = out.Rating
		return
	}
	if out.Breaker {
		for _, r := range breakerRatings {
			if float64(r) <= weakest*(1+1e-9) {
				out.MostAllowed = r
			}
		}
		return
	}
	for _, r := range rating.FuseSeries(out.Body) {
		if float64(r.Rating) <= weakest*(1+1e-9) {
			out.MostAllowed = r.Rating
		}
	}
}

// weakestOf gives the wire that carries least, the first of equals; None of none.
func (s *sizer) weakestOf(wires []harness.WireID) harness.WireID {
	best, least := harness.WireID(harness.None), math.Inf(1)
	for _, w := range wires {
		if a := s.carries(w, s.size(w)); a < least {
			best, least = w, a
		}
	}
	return best
}

func (s *sizer) relays() []chosen.Relay {
	var out []chosen.Relay
	for i := range s.h.Parts {
		p := &s.h.Parts[i]
		if p.Kind != harness.Relay {
			continue
		}
		r := chosen.Relay{Part: p.ID, Rating: p.Rating}
		for _, id := range p.Elements {
			amps, _ := s.through(id)
			switch s.h.Elements[id].Kind {
			case harness.RelayCoil:
				r.Coil = max(r.Coil, unit.Ampere(amps))
			case harness.Contact:
				r.Contact = max(r.Contact, unit.Ampere(amps))
			}
		}
		out = append(out, r)
	}
	return out
}
