package sneak

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"example.com/loomfolio/sizing/flow"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/network"
	"example.com/loomfolio/sizing/proof"
	"example.com/loomfolio/sizing/source"
)

// short tells whether a scene's sources give clearly more than its loads take, and a way
// with no load explains it.
func (s *search) short(c *scene, v view, full whole) (bool, error) {
	if out, takes := s.balance(v); out <= 1.1*takes+1 {
		return false, nil
	}
	st, err := full()
	if err != nil {
		return false, nil
	}
	path, src := flow.In(s.h, &st).NoLoad(metal)
	if src == harness.None {
		return false, nil
	}
	s.shorted[c.key()] = true
	s.shortened(c, &st, path, src)
	return true, nil
}

// balance gives what the sources give, and what loads and resistors take and batteries are
// charged with, A.
func (s *search) balance(v view) (out, takes float64) {
	for i := range s.h.Elements {
		e := &s.h.Elements[i]
		a := v.Amps(e.ID)
		switch {
		case math.IsNaN(a):
		case isSource(e) && a < 0:
			out -= a
		case isSource(e), flow.Draws(e), e.Kind == harness.Resistance && float64(e.Ohms) >= metal:
			takes += math.Abs(a)
		}
	}
	return out, takes
}

// shortened notes a short, once for the switches that close it.
func (s *search) shortened(c *scene, st *network.State, path flow.Path, src harness.ElementID) {
	w := s.plainWay(st, path, src)
	by := s.movers(w)
	if slices.ContainsFunc(s.shorts, func(l *link) bool { return slices.Equal(l.loads, by) }) {
		return
	}
	l := &link{way: w, loads: by, amps: math.Abs(st.Amps[src]), scenes: []scene{*c}, through: src}
	s.shorts = append(s.shorts, l)
}

// movers gives the contacts on a way that something opens and closes.
func (s *search) movers(w way) []harness.ElementID {
	var out []harness.ElementID
	for _, x := range w {
		if x.element != harness.None && s.h.Elements[x.element].When.Kind != harness.Always && !isSource(&s.h.Elements[x.element]) {
			out = append(out, x.element)
		}
	}
	slices.Sort(out)
	return out
}

// plainWay puts the wires and elements of a way over metal in the order of the current.
func (s *search) plainWay(st *network.State, path flow.Path, src harness.ElementID) way {
	left := map[edge]bool{}
	on := func(e *edge) bool {
		return e.wire != harness.None && slices.Contains(path.Wires, e.wire) || e.wire == harness.None && slices.Contains(path.Elements, e.element)
	}
	v := solved{st}
	var out way
	for at, found := s.vertex[s.h.Elements[src].A], true; found; {
		found = false
		for _, i := range s.at[at] {
			e := &s.edges[i]
			if !left[*e] && on(e) {
				left[*e], found = true, true
				out = append(out, s.step(v, e, at))
				at = e.other(at)
				break
			}
		}
	}
	return out
}

// solved is a solved state as a view.
type solved struct{ st *network.State }

func (v solved) Amps(id harness.ElementID) float64   { return v.st.Amps[id] }
func (v solved) WireAmps(w harness.WireID) float64   { return v.st.WireAmps[w] }
func (v solved) Volts(t harness.TerminalID) float64  { return v.st.Volts[t] }
func (v solved) Energised(id harness.ElementID) bool { return v.st.Energised[id] }

// tellShort tells a short that changes of switches close. One that a state shows is told by
// what looks at states.
func (s *search) tellShort(l *link) {
	c := &l.scenes[0]
	src := &s.h.Elements[l.through]
	says := fmt.Sprintf("in %s the current of %s comes back through no load: %s", c.name, src.Name, strings.Join(s.named(l.way), " – "))
	cure := "only fuses and wires limit it: give the two contacts that meet there a common changeover, so that one opens before the other closes, or remove the leg that bypasses the load"
	slug := "short-circuit"
	if len(c.changed) > 0 {
		slug = "short-when-switched"
		s.Problems = append(s.Problems, source.Problem{
			Slug: slug, Level: s.level(c), Span: s.shortSpan(l), Summary: says, Detail: cure,
			Subjects: append([]string{src.Name, c.name}, s.elements(l.loads)...), Numbers: []source.Number{{Name: "amps", Value: l.amps}},
		})
	}
	s.Sneaks = append(s.Sneaks, proof.Sneak{Kind: Short, State: c.name, Path: l.way.stops(), Amps: l.amps, Says: says, Cure: cure, Slug: slug})
}

// shortSpan points at the last part on the way that was moved, else at the source.
func (s *search) shortSpan(l *link) source.Span {
	for _, id := range slices.Backward(l.loads) {
		if e := &s.h.Elements[id]; slices.Contains(l.scenes[0].changed, e.Part) {
			return s.h.Parts[e.Part].Span
		}
	}
	if len(l.loads) > 0 {
		return s.h.Parts[s.h.Elements[l.loads[len(l.loads)-1]].Part].Span
	}
	return s.h.Parts[s.h.Elements[l.through].Part].Span
}
