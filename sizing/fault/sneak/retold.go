package sneak

import (
	"math"
	"slices"

	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/proof"
	"example.com/loomfolio/sizing/source"
)

// retold are the findings of other packages that are sneak paths too: with their kind.
var retold = map[string]string{
	"isolator-does-not-kill": RunsOn,
	"isolator-bypassed":      "isolator bypassed",
	"gauge-on-shared-ground": "shared ground",
	"relay-sides-swapped":    "coil and contacts swapped",
	"changeover-common":      "common on the wrong terminal",
	"loads-in-series":        "loads in series",
	"common-without-wire":    "braking link open",
	"park-contact-swapped":   "braking link open",
	"motor-turns-one-way":    "braking link open",
	"coil-between-feeds":     "coil between two feeds",
	"stop-releases-nothing":  Held,
}

// retell gives what was found before as sneak paths, each with the way of what it names in
// the state in which that takes most.
func (s *search) retell() {
	for _, p := range s.said {
		kind, ok := retold[p.Slug]
		if !ok {
			continue
		}
		x := proof.Sneak{Kind: kind, Says: p.Summary, Cure: p.Detail, Slug: p.Slug}
		id := s.meantBy(&p)
		best := s.mostIn(id)
		var v view
		switch c := s.isolated(&p); {
		case c != nil:
			x.State = c.name
			v, _ = s.from(c, nil)
		case best >= 0:
			x.State, v = s.h.States[best].Name, solved{&s.states[best]}
		}
		if v != nil && id != harness.None {
			x.Path, x.Amps, x.Loads = s.way(v, id).stops(), math.Abs(v.Amps(id)), []harness.ElementID{id}
		}
		s.Sneaks = append(s.Sneaks, x)
	}
}

// isolated is the scene of an isolator that is open while the engine turns, nil where the
// finding is about something else.
func (s *search) isolated(p *source.Problem) *scene {
	if retold[p.Slug] != RunsOn {
		return nil
	}
	for i := range s.h.States {
		if st := &s.h.States[i]; slices.Contains(p.Subjects, st.Name) {
			for k := range s.h.Parts {
				if q := &s.h.Parts[k]; q.Kind == harness.Isolator && slices.Contains(p.Subjects, q.Ref) {
					c := s.with(&scene{name: st.Name, like: i, position: st.Position, engine: st.Engine}, q.ID, s.h.Opened(q))
					return &c
				}
			}
		}
	}
	return nil
}

// meantBy gives the first load or coil that a finding names; of a part that is named the
// load behind its contacts, else its coil; None for none.
func (s *search) meantBy(p *source.Problem) harness.ElementID {
	for _, is := range []func(name string, e *harness.Element) bool{
		func(name string, e *harness.Element) bool { return e.Name == name },
		func(name string, e *harness.Element) bool { return e.Kind == harness.Load && s.passesPart(e.ID, name) },
		func(name string, e *harness.Element) bool { return s.h.Parts[e.Part].Ref == name },
	} {
		for _, name := range p.Subjects {
			for _, id := range s.draws {
				if is(name, &s.h.Elements[id]) {
					return id
				}
			}
		}
	}
	return harness.None
}

// passesPart tells that a load's way leads through a part in the state in which it takes most.
func (s *search) passesPart(id harness.ElementID, name string) bool {
	best := s.mostIn(id)
	return best >= 0 && slices.ContainsFunc(s.way(solved{&s.states[best]}, id), func(x step) bool {
		return x.element != harness.None && x.element != id && s.h.Parts[s.h.Elements[x.element].Part].Ref == name
	})
}

// mostIn gives the state in which a load or coil takes most, -1 for none.
func (s *search) mostIn(id harness.ElementID) int {
	if id == harness.None {
		return -1
	}
	best, most := -1, 1e-6
	for i := range s.states {
		if a := math.Abs(s.states[i].Amps[id]); a > most {
			best, most = i, a
		}
	}
	return best
}

// first gives the first of some scenes with everything at rest, nil for none.
func (s *search) first(bases []scene) *scene {
	i := slices.IndexFunc(bases, func(c scene) bool { return c.engine == harness.EngineOff && s.atRest(c.position) })
	if i < 0 {
		return nil
	}
	return &bases[i]
}
