package sneak

import (
	"math"
	"slices"

	"example.com/loomfolio/sizing/flow"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/network"
)

// real is the share of its described current from which a load counts as fed; as in
// choose/trial. Common practice, no source.
const real = 0.1

// metal is the resistance below which an element that is no load counts as a plain way, ohm;
// as in choose/trial. Common practice, no source.
const metal = 0.2

// whole gives the solved state of a scene with all its currents.
type whole func() (network.State, error)

// judge says what is wrong with a scene.
func (s *search) judge(c *scene, v view, full whole) error {
	s.remember(c, v)
	shut := s.shutIn(c, v)
	s.joins(c, shut)
	if short, err := s.short(c, v, full); short || err != nil {
		return err
	}
	lives, deads := s.rails(c.engine)
	fed, back := &s.sets[0], &s.sets[1]
	s.reach(fed, lives, walk{with: s.sign, shut: shut})
	s.reach(back, deads, walk{with: !s.sign, shut: shut})
	var odd []harness.ElementID
	for _, id := range s.draws {
		if e := &s.h.Elements[id]; s.on(e, v) && !s.onOwnWay(e, fed, back) {
			odd = append(odd, id)
		}
	}
	if c.engine == harness.EngineOff && len(c.changed) == 0 && s.atRest(c.position) {
		s.rests(v)
	}
	if len(odd) > 0 {
		if err := s.strays(c, v, full, odd, shut); err != nil {
			return err
		}
	}
	return s.behindBackfed(c, v, full, lives, shut)
}

// shutIn tells which elements join their ends in a scene.
func (s *search) shutIn(c *scene, v view) func(*harness.Element) bool {
	return func(e *harness.Element) bool {
		switch e.When.Kind {
		case harness.InPosition:
			return slices.Contains(e.When.Positions, c.position[e.When.Switch])
		case harness.Energised:
			return v.Energised(e.When.Coil)
		case harness.Released:
			return !v.Energised(e.When.Coil)
		}
		return there(e, c.engine)
	}
}

// described is what a load or coil is described to take, A.
func (s *search) described(e *harness.Element) float64 {
	if e.Kind == harness.RelayCoil {
		if e.Ohms <= 0 {
			return 0
		}
		return s.nominal(e) / float64(e.Ohms)
	}
	return float64(e.Amps)
}

func (s *search) nominal(e *harness.Element) float64 {
	if v := float64(s.h.SystemOf(e).Volts); v > 0 {
		return v
	}
	return 12
}

// on tells that a draw has a real current; a coil, that it holds.
func (s *search) on(e *harness.Element, v view) bool {
	if e.Kind == harness.RelayCoil {
		return v.Energised(e.ID)
	}
	return math.Abs(v.Amps(e.ID)) >= real*s.described(e) // false for NaN
}

// rests notes what has a real current with everything at rest.
func (s *search) rests(v view) {
	for _, id := range s.draws {
		s.resting[id] = s.resting[id] || s.on(&s.h.Elements[id], v)
	}
}

// onOwnWay tells that the writing leads to a draw and back as the contacts stand, past no
// other load; of a motor that switches turn round, from its other side.
func (s *search) onOwnWay(e *harness.Element, fed, back *marks) bool {
	live, dead := s.live(e), s.dead(e)
	return fed.has(live) && back.has(dead) || e.Behaves == harness.AsMotor && fed.has(dead) && back.has(live)
}

// strays notes the draws that came to a real current by a way that is not theirs.
func (s *search) strays(c *scene, v view, full whole, odd []harness.ElementID, shut func(*harness.Element) bool) error {
	lives, deads := s.rails(c.engine)
	fed, back := &s.sets[2], &s.sets[3]
	s.reach(fed, lives, walk{with: s.sign, loads: true, shut: shut})
	s.reach(back, deads, walk{with: !s.sign, loads: true, shut: shut})
	var st *network.State
	for _, id := range odd {
		own := s.own(id)
		if own.Series && s.onOwnWay(&s.h.Elements[id], fed, back) || !own.Earthed || s.h.OnRegulator(own.All.Elements) {
			continue
		}
		w := s.way(v, id)
		if len(w) == 0 || s.adrift(w) || s.dim(v, id, w) || s.meant[w.key(id)] || s.noted(c, id, w) {
			continue
		}
		if st == nil {
			solved, err := full()
			if err != nil {
				return nil
			}
			st = &solved
		}
		through, stray := s.confirmed(id, st)
		if !stray {
			s.meant[w.key(id)] = true
			continue
		}
		s.note(c, id, w, through, math.Abs(v.Amps(id)))
	}
	return nil
}

// works is the share of its described current from which a load that gets it through a charge
// lamp works: with the key off the lamp lets a little through as long as the engine turns, as
// every one does. Common practice, no source.
const works = 0.5

// dim tells a load that gets too little through a charge lamp to work.
func (s *search) dim(v view, id harness.ElementID, w way) bool {
	e := &s.h.Elements[id]
	return e.Kind == harness.Load && math.Abs(v.Amps(id)) < works*s.described(e) && slices.ContainsFunc(w, func(x step) bool {
		return x.element != harness.None && x.element != id && flow.Draws(&s.h.Elements[x.element]) && s.h.OnRegulator(s.own(x.element).All.Elements)
	})
}

// adrift tells a way through a load that has no way back: that is told of the load.
func (s *search) adrift(w way) bool {
	return slices.ContainsFunc(w, func(x step) bool {
		return x.element != harness.None && flow.Draws(&s.h.Elements[x.element]) && !s.own(x.element).Earthed
	})
}

// confirmed asks the owner of ways: a draw is astray where its own way is open, or where
// only another load, in series, closes it, which its own way does not need. That load is
// given, None without one.
func (s *search) confirmed(id harness.ElementID, st *network.State) (through harness.ElementID, stray bool) {
	own := s.owner.Of(id, st)
	if !own.Whole {
		return harness.None, true
	}
	if !own.Series || s.own(id).Series {
		return harness.None, false
	}
	e := &s.h.Elements[id]
	for _, x := range slices.Concat(own.Feed.Elements, own.Back.Elements) {
		if y := &s.h.Elements[x]; flow.Draws(y) && y.Part != e.Part && !s.shares(e, y) {
			return x, true
		}
	}
	return harness.None, false
}

// shares tells two loads that are made to run in series, as two motors at half speed: of
// the kinds that work with less voltage, the one at least half as large as the other.
func (s *search) shares(e, y *harness.Element) bool {
	return s.slows(e) && s.slows(y) && 2*y.Amps >= e.Amps
}

func (s *search) slows(e *harness.Element) bool {
	k := s.h.Parts[e.Part].Kind
	return e.Kind == harness.Load && (k == harness.Motor || k == harness.Heater)
}

// behindBackfed closes the switches behind metal that is live against its writing: what
// they feed would come on, though in this scene nothing shows it.
func (s *search) behindBackfed(c *scene, v view, full whole, lives []int, shut func(*harness.Element) bool) error {
	if len(c.changed) == 0 || len(c.changed) > 2 {
		return nil
	}
	fed, any := &s.sets[0], &s.sets[2]
	s.reach(any, lives, walk{with: s.sign, any: true, shut: shut})
	var next []scene
	for i := range s.edges {
		e := &s.edges[i]
		if e.element == harness.None || s.h.Elements[e.element].When.Kind != harness.InPosition {
			continue
		}
		for _, at := range [2]int{e.a, e.b} {
			if any.has(at) && !fed.has(at) && !any.has(e.other(at)) {
				next = s.closing(next, c, at, &s.h.Elements[e.element])
			}
		}
	}
	for i := range next {
		if s.Looked.Solved >= s.most() {
			return nil
		}
		s.Looked.Pairs++
		st, err := s.prepare(next[i], nil, nil)
		if err != nil {
			return err
		}
		if err := s.look(st, &next[i]); err != nil {
			return err
		}
	}
	return nil
}

// closing adds the scene in which a contact at back-fed metal is closed, once a vertex.
func (s *search) closing(out []scene, c *scene, at int, e *harness.Element) []scene {
	n := e.When.Positions[0]
	key := [3]int{at, int(e.When.Switch), n}
	if s.tried[key] || slices.Contains(c.changed, e.When.Switch) {
		return out
	}
	s.tried[key] = true
	return append(out, s.with(c, e.When.Switch, n))
}
