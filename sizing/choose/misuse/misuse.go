// Package misuse reports what is wired otherwise than it is meant, and parts beyond what
// they are made for. In: a Settled of package choose and the results that were written
// down of it, both for reading only. Out: problems with slug, level, span, what is wrong
// in numbers, the way of the current stop by stop where there is one, and the cure.
// Always holds: a cause is told once, with its places; what the program chose itself is
// not blamed. Sources stand at the rules.
package misuse

import (
	"fmt"
	"slices"
	"strings"

	"example.com/loomfolio/sizing/choose"
	"example.com/loomfolio/sizing/choose/chosen"
	"example.com/loomfolio/sizing/flow"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/source"
)

// inspection gathers the findings on what was chosen.
type inspection struct {
	*choose.Settled
	c   *chosen.Chosen
	out source.Problems
}

// All gathers the findings, in a fixed order.
func All(s *choose.Settled, c *chosen.Chosen) source.Problems {
	f := &inspection{Settled: s, c: c}
	f.sneaks()
	f.inSeries()
	f.behindModules()
	f.bypasses()
	f.switches()
	f.engaged()
	f.latches()
	f.returns()
	f.volts()
	f.working()
	f.flashers()
	f.unrated()
	f.fuses()
	f.starved()
	return f.out.Sorted()
}

func (f *inspection) add(p source.Problem) { f.out = append(f.out, p) }

func number(name string, v float64) source.Number { return source.Number{Name: name, Value: v} }

func (f *inspection) elements(list []harness.ElementID) []string {
	var out []string
	for _, id := range list {
		out = append(out, f.H.Elements[id].Name)
	}
	return out
}

// sneak is one cause of currents that nobody meant.
type sneak struct {
	wire    harness.WireID // the first against whose writing the current flows
	against bool           // there is one
	loads   []harness.ElementID
	states  []string
	way     []flow.Step
}

// sneaks reports loads that are fed in a state in which their own way is open, one
// finding for each wire by which the current comes to them backwards. States in which
// current returns through no load are told as that.
func (f *inspection) sneaks() {
	var all []*sneak
	for i := range f.States {
		if len(f.Stray[i]) == 0 {
			continue
		}
		c := flow.In(f.H, &f.States[i])
		if _, short := c.NoLoad(shortOhms); short != harness.None {
			continue
		}
		for _, id := range f.Stray[i] {
			feed, back := c.Feed(id), c.Return(id)
			if f.adriftOn(feed) || f.adriftOn(back) || f.adriftAt(id) {
				continue
			}
			way := append(c.Steps(feed), c.Steps(back)...)
			all = f.noted(all, id, f.H.States[i].Name, way)
		}
	}
	for _, s := range all {
		f.sneak(s)
	}
}

// adriftOn tells a way through a load that has no way back: that is told of the load.
func (f *inspection) adriftOn(way flow.Path) bool {
	return slices.ContainsFunc(way.Elements, f.adriftAt)
}

func (f *inspection) adriftAt(id harness.ElementID) bool {
	return flow.Draws(&f.H.Elements[id]) && !f.Owns[id].Earthed
}

// noted adds a load to the sneak of the same cause.
func (f *inspection) noted(all []*sneak, load harness.ElementID, state string, way []flow.Step) []*sneak {
	if len(way) == 0 {
		return all
	}
	cause, against := way[len(way)-1].Wire, false
	if i := slices.IndexFunc(way, func(s flow.Step) bool { return s.Against && !f.Owner.EitherWay(s.Wire) }); i >= 0 {
		cause, against = way[i].Wire, true
	}
	i := slices.IndexFunc(all, func(s *sneak) bool { return s.wire == cause })
	if i < 0 {
		i = len(all)
		all = append(all, &sneak{wire: cause, against: against, way: way})
	}
	s := all[i]
	if !slices.Contains(s.loads, load) {
		s.loads = append(s.loads, load)
	}
	if !slices.Contains(s.states, state) {
		s.states = append(s.states, state)
	}
	return all
}

func (f *inspection) sneak(s *sneak) {
	w := &f.H.Wires[s.wire]
	names := f.elements(s.loads)
	runs := "current comes through"
	if s.against {
		runs = "current runs backwards through"
	}
	f.add(source.Problem{
		Slug: "sneak-path", Level: source.Warning, Span: w.Span,
		Summary: fmt.Sprintf("in %s %s %s and feeds %s, whose own feed is open: %s",
			source.Some(s.states, ""), runs, w.Name, source.Some(names, ""), f.stopByStop(s.way)),
		Detail:   fmt.Sprintf("put a diode into %s with its anode at %s, give the switch a second pole so that the two feeds never meet, or feed the load from another stud", w.Name, f.H.Terminals[w.From].Full),
		Subjects: append(append([]string{w.Name}, names...), s.states...),
	})
}

// stopByStop tells a way by its stops.
func (f *inspection) stopByStop(way []flow.Step) string {
	var stops []string
	add := func(t harness.TerminalID) {
		if name := f.H.Terminals[t].Full; len(stops) == 0 || stops[len(stops)-1] != name {
			stops = append(stops, name)
		}
	}
	for _, s := range way {
		if f.H.System.PositiveEarth { // told from the live side, as it is written
			s.From, s.To = s.To, s.From
		}
		add(s.From)
		add(s.To)
	}
	return strings.Join(stops, " – ")
}
