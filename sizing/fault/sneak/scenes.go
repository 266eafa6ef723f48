package sneak

import (
	"fmt"
	"slices"
	"strings"

	"example.com/loomfolio/sizing/harness"
)

// budget is how many solvings a search may take, as elements and wires times solvings: what
// does not fit is left out and said.
const budget = 2_500_000

func (s *search) most() int { return max(200, budget/(len(s.h.Elements)+len(s.h.Wires)+1)) }

// scenes goes through the states, the changes from each, and the pairs.
func (s *search) scenes() error {
	bases := s.bases()
	for i := range bases {
		if err := s.base(&bases[i]); err != nil {
			return err
		}
	}
	left := 0
	for i := range bases {
		n, err := s.single(&bases[i])
		if err != nil {
			return err
		}
		left += n
	}
	pairs, err := s.pairs(bases)
	if err != nil {
		return err
	}
	if err := s.latches(); err != nil {
		return err
	}
	s.left(left, pairs)
	if rest := s.first(bases); rest != nil {
		return s.turned(rest)
	}
	return nil
}

// left says what the budget did not reach.
func (s *search) left(singles, pairs int) {
	var out []string
	if singles > 0 {
		out = append(out, fmt.Sprintf("%d single changes", singles))
	}
	if pairs > 0 {
		out = append(out, fmt.Sprintf("%d pairs of changes", pairs))
	}
	if s.unheld > 0 {
		out = append(out, fmt.Sprintf("%d changes after which a relay might hold, beyond the first %d of each relay", s.unheld, s.patience()))
	}
	s.Looked.Left = strings.Join(out, "; ")
}

// bases are the declared states, and everything at rest where none is that.
func (s *search) bases() []scene {
	var out []scene
	rest := false
	for i := range s.h.States {
		st := &s.h.States[i]
		out = append(out, scene{name: st.Name, like: i, position: st.Position, engine: st.Engine})
		rest = rest || st.Engine == harness.EngineOff && s.atRest(st.Position)
	}
	if !rest && len(out) > 0 {
		out = append(out, scene{name: "everything at rest", position: s.restLike(s.h.States[0].Position), engine: harness.EngineOff})
	}
	return out
}

// atRest tells that every part but isolators is at rest.
func (s *search) atRest(position []int) bool {
	for p, n := range position {
		if n != 0 && s.h.Parts[p].Kind != harness.Isolator {
			return false
		}
	}
	return true
}

// restLike puts everything at rest but the isolators.
func (s *search) restLike(position []int) []int {
	out := make([]int, len(position))
	for p, n := range position {
		if s.h.Parts[p].Kind == harness.Isolator {
			out[p] = n
		}
	}
	return out
}

// base judges a base alone.
func (s *search) base(c *scene) error {
	st, err := s.prepare(*c, nil, nil)
	if err != nil {
		return err
	}
	s.Looked.States++
	return s.look(st, c)
}

// look solves and judges a scene, unless it was.
func (s *search) look(st *stand, c *scene) error {
	key := c.key()
	if s.seen[key] {
		return nil
	}
	s.seen[key] = true
	v, full, err := s.solve(st, c)
	if err != nil {
		return nil // relays without rest are told as that; the scene stays unjudged
	}
	return s.judge(c, v, full)
}

// single judges each change of one switch from a base, and tells how many were left out.
// While the engine is cranked nobody reaches for switches.
func (s *search) single(base *scene) (left int, err error) {
	if base.engine == harness.EngineCranking || s.shorted[base.key()] {
		return 0, nil
	}
	st, err := s.prepare(*base, nil, nil)
	if err != nil {
		return 0, err
	}
	for p := range s.h.Parts {
		for n := range s.h.Parts[p].Positions {
			if n == base.position[p] {
				continue
			}
			if s.Looked.Solved >= s.most() {
				left++
				continue
			}
			c := s.with(base, harness.PartID(p), n)
			s.Looked.Changes++
			if err := s.look(st, &c); err != nil {
				return left, err
			}
		}
	}
	return left, nil
}

// with is a scene with one more switch in another position.
func (s *search) with(base *scene, p harness.PartID, n int) scene {
	c := *base
	c.position = slices.Clone(base.position)
	c.position[p] = n
	c.changed = append(slices.Clone(base.changed), p)
	joint := ", then "
	if len(base.changed) > 0 {
		joint = " and "
	} else {
		c.from = base.name
	}
	c.name = base.name + joint + s.h.Parts[p].Ref + " " + s.h.Parts[p].Positions[n]
	return c
}

// pairs judges the changes of two related switches from rest and from driving, and tells how
// many were left out.
func (s *search) pairs(bases []scene) (left int, err error) {
	related := s.related()
	for _, base := range s.pairBases(bases) {
		st, err := s.prepare(*base, nil, nil)
		if err != nil {
			return left, err
		}
		for _, two := range related {
			n, err := s.pair(st, base, two)
			if err != nil {
				return left, err
			}
			left += n
		}
	}
	return left, nil
}

// pair judges each change of two switches from a base.
func (s *search) pair(st *stand, base *scene, two [2]harness.PartID) (left int, err error) {
	for n := range s.h.Parts[two[0]].Positions {
		for m := range s.h.Parts[two[1]].Positions {
			if n == base.position[two[0]] || m == base.position[two[1]] {
				continue
			}
			if s.Looked.Solved >= s.most() {
				left++
				continue
			}
			one := s.with(base, two[0], n)
			c := s.with(&one, two[1], m)
			other := s.with(base, two[1], m)
			s.Looked.Pairs++
			if s.shorted[one.key()] || s.shorted[other.key()] {
				continue
			}
			if err := s.look(st, &c); err != nil {
				return left, err
			}
		}
	}
	return left, nil
}

// pairBases are everything at rest, and the running state with the fewest switches on.
func (s *search) pairBases(bases []scene) []*scene {
	var out []*scene
	var run *scene
	for i := range bases {
		b := &bases[i]
		switch {
		case s.shorted[b.key()]:
		case b.engine == harness.EngineOff && s.atRest(b.position) && len(out) == 0:
			out = append(out, b)
		case b.engine == harness.EngineRunning && (run == nil || s.notAtRest(b) < s.notAtRest(run)):
			run = b
		}
	}
	if run != nil {
		out = append(out, run)
	}
	return out
}

// notAtRest counts the switches that are not at rest.
func (s *search) notAtRest(c *scene) int {
	n := 0
	for _, at := range c.position {
		if at != 0 {
			n++
		}
	}
	return n
}
