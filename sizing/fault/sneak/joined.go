package sneak

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"example.com/loomfolio/sizing/fault/sneak/kick"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/proof"
	"example.com/loomfolio/sizing/source"
)

// apart lists the pairs of batteries that something keeps apart: their live sides are
// joined by no metal that stays, isolators closed, and their earth sides are one.
func (s *search) apart() [][2]harness.ElementID {
	f := kick.Firm(s.h)
	for i := range s.h.Elements {
		if e := &s.h.Elements[i]; e.Kind != harness.Open && s.h.Parts[e.Part].Kind == harness.Isolator {
			f.Join(int(e.A), int(e.B))
		}
	}
	var batteries []*harness.Element
	for i := range s.h.Elements {
		if e := &s.h.Elements[i]; e.Kind == harness.EMF {
			batteries = append(batteries, e)
		}
	}
	root := func(t harness.TerminalID) int { return f.Root(int(t)) }
	var out [][2]harness.ElementID
	for i, b := range batteries {
		for _, a := range batteries[:i] {
			if root(s.h.Live(a)) != root(s.h.Live(b)) && root(s.h.Earthed(a)) == root(s.h.Earthed(b)) {
				out = append(out, [2]harness.ElementID{a.ID, b.ID})
			}
		}
	}
	return out
}

// joins notes batteries that are joined in a scene with everything at rest, or by a switch
// that feeds something from both.
func (s *search) joins(c *scene, shut func(*harness.Element) bool) {
	for _, two := range s.kept {
		if slices.ContainsFunc(s.joint, func(l *link) bool { return l.loads[0] == two[0] && l.loads[1] == two[1] }) {
			continue
		}
		w := s.over(s.live(&s.h.Elements[two[0]]), s.live(&s.h.Elements[two[1]]), shut)
		if len(w) == 0 || !s.wrongly(c, w) {
			continue
		}
		s.joint = append(s.joint, &link{way: w, loads: two[:], scenes: []scene{*c}})
	}
}

// wrongly tells that batteries should not be joined by a way in a scene: everything being at
// rest, or where a plain switch with two feeds joins them.
func (s *search) wrongly(c *scene, w way) bool {
	if c.engine == harness.EngineOff && s.atRest(c.position) && !s.byIsolator(w) {
		return true
	}
	feeds := map[harness.PartID]int{}
	for _, x := range w {
		if x.element == harness.None {
			continue
		}
		if e := &s.h.Elements[x.element]; e.When.Kind == harness.InPosition && s.h.Parts[e.Part].Kind == harness.Switch {
			feeds[e.Part]++
		}
	}
	for _, n := range feeds {
		if n > 1 {
			return true
		}
	}
	return false
}

func (s *search) byIsolator(w way) bool {
	return slices.ContainsFunc(w, func(x step) bool {
		return x.element != harness.None && s.h.Elements[x.element].When.Kind == harness.InPosition && s.h.Parts[s.h.Elements[x.element].Part].Kind == harness.Isolator
	})
}

// over gives the shortest way over closed metal from a vertex to another, the earth apart.
func (s *search) over(from, to int, shut func(*harness.Element) bool) way {
	by := map[int]int{from: -1}
	for queue := []int{from}; len(queue) > 0; queue = queue[1:] {
		v := queue[0]
		if v == to {
			return s.backOver(by, to)
		}
		for _, i := range s.at[v] {
			e := &s.edges[i]
			next := e.other(v)
			if _, old := by[next]; old || next == s.vertex[harness.Chassis] || !s.joinsMetal(e, shut) {
				continue
			}
			by[next] = i
			queue = append(queue, next)
		}
	}
	return nil
}

func (s *search) joinsMetal(e *edge, shut func(*harness.Element) bool) bool {
	if e.wire != harness.None {
		return true
	}
	switch x := &s.h.Elements[e.element]; x.Kind {
	case harness.Join, harness.Contact, harness.FuseLink, harness.Resistance:
		return float64(x.Ohms) < metal && !s.beside[e.element] && shut(x)
	}
	return false
}

// backOver gives the steps that a search took to a vertex.
func (s *search) backOver(by map[int]int, to int) way {
	var out way
	for v := to; by[v] >= 0; {
		e := &s.edges[by[v]]
		at := e.other(v)
		out = append(out, s.step(nothing{}, e, at))
		v = at
	}
	slices.Reverse(out)
	return out
}

// nothing is a view without currents.
type nothing struct{}

func (nothing) Amps(harness.ElementID) float64   { return 0 }
func (nothing) WireAmps(harness.WireID) float64  { return 0 }
func (nothing) Volts(harness.TerminalID) float64 { return math.NaN() }
func (nothing) Energised(harness.ElementID) bool { return false }

// tellJoint tells batteries that are joined.
func (s *search) tellJoint(l *link) {
	names := s.elements(l.loads)
	state := l.scenes[0].name
	by := s.elements(s.movers(l.way))
	says := fmt.Sprintf("in %s %s and %s are joined by %s: the fuller one empties into the other, and both are flat together: %s", state, names[0], names[1], source.Some(by, ""), strings.Join(s.named(l.way), " – "))
	cure := "feed the relay's coil from what is live with the engine running alone; where a load takes from both batteries, put a diode into each feed, or a changeover contact that opens one before it closes the other"
	movers := s.movers(l.way)
	span := s.h.Parts[s.h.Elements[l.loads[1]].Part].Span
	if len(movers) > 0 {
		span = s.h.Parts[s.h.Elements[movers[0]].Part].Span
	}
	s.Problems = append(s.Problems, source.Problem{
		Slug: "batteries-joined", Level: source.Warning, Span: span, Summary: says, Detail: cure, Subjects: append(append(names, by...), state),
	})
	s.Sneaks = append(s.Sneaks, proof.Sneak{Kind: Joined, State: state, Path: l.way.stops(), Loads: l.loads, Says: says, Cure: cure, Slug: "batteries-joined"})
}
