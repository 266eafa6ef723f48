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
	c := chosen.Chosen{States: s.States}
	s.Drawn = s.ByWire()
	wants := s.wantedForDrop()
	for w := range s.H.Wires {
		c.Wires = append(c.Wires, s.wire(harness.WireID(w), wants[w]))
	}
	s.findShorts()
	for i := range s.H.Elements {
		e := &s.H.Elements[i]
		switch e.Kind {
		case harness.Load:
			c.Loads = append(c.Loads, s.loadOf(e))
		case harness.FuseLink:
			if !s.Spare(e) {
				c.Fuses = append(c.Fuses, s.fuse(e))
			}
		}
	}
	c.Relays = s.relays()
	c.Contacts = s.Contacts()
	c.Budgets = s.Budgets()
	c.SourceKeys = sourceKeys(&c)
	return c
}

// drawsByWire gives, by WireID, the numbers of the draws whose way leads over it.
func (s *sizer) ByWire() [][]int {
	out := make([][]int, len(s.H.Wires))
	for i := range s.Draws {
		for _, w := range s.Draws[i].Wires() {
			if n := len(out[w]); n == 0 || out[w][n-1] != i {
				out[w] = append(out[w], i)
			}
		}
	}
	return out
}

// spare tells a panel position that no wire leaves and no rating is given for.
func (s *sizer) Spare(e *harness.Element) bool {
	p := &s.H.Parts[e.Part]
	if e.Position == "" || p.Panel != nil && p.Panel.Rating[e.Position] > 0 {
		return false
	}
	for i := range s.H.Wires {
		if w := &s.H.Wires[i]; w.From == e.B || w.To == e.B {
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
	return rating.Distinct(keys...)
}

// wantedForDrop gives the size that the drop rule alone would ask of each wire,
// given gauges set free.
func (s *sizer) wantedForDrop() []int {
	at, fixed := s.At, s.Fixed
	s.Fixed = make([]bool, len(fixed))
	s.findGroups()
	defer func() {
		s.At, s.Fixed = at, fixed
		s.findGroups()
	}()
	if m := s.H.Practice.Method; s.ByRule() {
		kept := s.Floors
		s.Floors = make([]Floors, len(kept))
		next := s.published(m)
		s.Floors = kept
		return next
	}
	return s.computed(func(w harness.WireID) int { return s.Floors[w].Handling })
}

func (s *sizer) wire(w harness.WireID, wanted int) chosen.Wire {
	z, f, p := s.Size(w), s.Floors[w], s.Peaks[w]
	gauge := func(i int) unit.Gauge { return s.Of[w][i].Conductor.Gauge }
	out := chosen.Wire{
		Gauge: z.Conductor.Gauge, Area: z.Conductor.Area, Diameter: z.Over,
		Insulation: s.H.Wires[w].Insulation, Class: z.Class, Resistance: unit.Ohm(s.Ohms(w)),
		Amps: unit.Ampere(p.Amps), State: p.State, Drop: unit.Volt(p.Amps * p.Ohms), Cold: unit.Volt(p.Amps * s.Ohms(w)),
		Ambient: s.Places[w].Celsius, Bundle: s.Bundles[w],
		Ampacity: unit.Ampere(s.Carries(w, z)),
		Wants:    chosen.Wants{Drop: gauge(wanted), Heat: gauge(f.Heat), Handling: gauge(f.Handling)},
		Given:    s.Given(w),
	}
	out.Temperature, out.HottestIn = s.HottestState(w)
	if f.Guard != harness.None {
		out.Wants.Protection = gauge(f.Protection)
	}
	if g := s.Strongest(w, s.protectorsOf(w)); g != harness.None {
		out.ProtectedBy = s.H.Elements[g].Name
	}
	var more []string
	out.Reason, more = s.reason(w)
	out.Below = s.below(w)
	out.Sources = rating.Distinct(append(append([]string(nil), z.Sources...), more...)...)
	return out
}

// protectorsOf gives the fuses that would open for a short on the wire: those
// that feed it, or on a return those that feed its loads. A wire that a source
// feeds with no fuse between has none, whatever hangs on it.
func (s *sizer) protectorsOf(w harness.WireID) []harness.ElementID {
	for _, b := range s.Guards.Bare {
		if b.Wire == w {
			return nil
		}
	}
	return s.Stand[w]
}

// loadOf writes down one load's worst case: the state with its lowest voltage
// among those that count.
func (s *sizer) loadOf(e *harness.Element) chosen.Load {
	out := chosen.Load{Element: e.ID, Name: e.Name, Amps: e.Amps}
	var worst *Draw
	amps := 0.0
	for i := range s.Draws {
		d := &s.Draws[i]
		if d.Load != e.ID {
			continue
		}
		out.On = append(out.On, s.H.States[d.State].Name)
		if d.Counts {
			amps = math.Max(amps, d.Amps)
			if worst == nil || d.Volts < worst.Volts-1e-9 {
				worst = d
			}
		}
	}
	limitOf := &Draw{}
	if worst != nil {
		limitOf = worst
		out.Amps = unit.Ampere(amps)
		s.fillLoad(&out, worst)
	}
	out.Limit, out.LimitText = s.LimitOf(limitOf)
	out.Class = s.ClassOf(limitOf)
	return out
}

func (s *sizer) fillLoad(out *chosen.Load, d *Draw) {
	st := &s.States[d.State]
	start := s.StartOf(d)
	out.StartAmps, out.StartFor = start.Amps, start.For
	out.State, out.Volts = st.Name, unit.Volt(d.Volts)
	out.FeedDrop, out.ReturnDrop = unit.Volt(s.DropIn(d.State, d.Feed.Wires)), unit.Volt(s.DropIn(d.State, d.Back.Wires))
	out.Cold = unit.Volt(s.ColdDrop(d))
	out.Feed, out.Return = d.Feed.Wires, d.Back.Wires
	if d.Feed.Source != harness.None {
		src := &s.H.Elements[d.Feed.Source]
		whole := math.Abs(st.Volts[src.A] - st.Volts[src.B])
		out.OtherDrop = unit.Volt(math.Max(0, whole-d.Volts)) - out.FeedDrop - out.ReturnDrop
		out.OtherDrop = max(out.OtherDrop, 0)
	}
	if fuses := d.Feed.Fuses(s.H); len(fuses) > 0 {
		out.ProtectedBy = s.H.Elements[fuses[len(fuses)-1]].Name
	}
}

func (s *sizer) fuse(e *harness.Element) chosen.Fuse {
	f := &s.Fuses[e.ID]
	out := chosen.Fuse{
		Element: e.ID, Name: e.Name, Part: e.Part, Position: e.Position, Body: f.Body, Rating: f.Rating,
		Breaker: f.Breaker, Given: f.Given, Amps: unit.Ampere(f.Amps), State: f.State,
		Wires: s.Guards.Wires[e.ID], Smallest: harness.None,
		Reason: s.fuseReason(e, f), Sources: s.fuseSources(e, f),
	}
	out.Reason += s.feederReason(e, f)
	if f.Breaker {
		out.Type = s.H.Parts[e.Part].BreakerType
		out.Reason += breakerReason(out.Type)
	}
	if row, ok := rating.FuseOf(f.Body, f.Rating); ok {
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
	behind := make([]bool, len(s.H.Elements))
	for _, list := range [][]Draw{s.Draws, s.Coils} {
		for i := range list {
			if slices.Contains(list[i].Feed.Elements, fuse) {
				behind[list[i].Load] = true
			}
		}
	}
	var out []string
	for i, yes := range behind {
		if yes {
			out = append(out, s.H.Elements[i].Name)
		}
	}
	return out
}

// standing finds the wire that stands least of those that a fuse guards, and
// the largest rating that all of them stand.
func (s *sizer) standing(e *harness.Element, out *chosen.Fuse) {
	weakest := math.Inf(1)
	var stand []harness.WireID
	for w, guards := range s.Stand {
		if !slices.Contains(guards, e.ID) {
			continue
		}
		id := harness.WireID(w)
		stand = append(stand, id)
		if s.LetThrough(e.ID, id) >= float64(out.Rating)*(1-1e-9) { // else its supply limits what passes
			weakest = math.Min(weakest, s.MostRating(id, s.Size(id), e.ID))
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
		for _, r := range BreakerRatings {
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
		if a := s.Carries(w, s.Size(w)); a < least {
			best, least = w, a
		}
	}
	return best
}

func (s *sizer) relays() []chosen.Relay {
	var out []chosen.Relay
	for i := range s.H.Parts {
		p := &s.H.Parts[i]
		if p.Kind != harness.Relay {
			continue
		}
		r := chosen.Relay{Part: p.ID, Rating: p.Rating}
		for _, id := range p.Elements {
			amps, _ := s.Through(id)
			switch s.H.Elements[id].Kind {
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
