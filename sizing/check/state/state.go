// Package state gives the states in which a harness is solved: those that are declared,
// or else those that its switches ask for.
package state

import (
	"maps"

	"example.com/loomfolio/sizing/check/say"
	"example.com/loomfolio/sizing/describe"
	"example.com/loomfolio/sizing/describe/read"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/source"
)

// Of resolves the declared states of a harness whose parts, elements and wires are
// made. Where none is declared, sensible ones are: parked, each switch alone in each
// position with the engine running, everything on, and cranking where there is a
// starter. Parts in bad were written wrongly, and raise no second problem.
func Of(written []describe.State, h *harness.Harness, bad map[string]bool) ([]harness.State, source.Problems) {
	c := &reader{h: h, bad: bad, by: map[string]*harness.Part{}}
	for i := range h.Parts {
		c.by[h.Parts[i].Ref] = &h.Parts[i]
	}
	for i := range written {
		c.state(&written[i])
	}
	if len(written) == 0 {
		c.made()
	}
	return c.out, c.Problems
}

// reader carries the states while they grow; the harness is for reading.
type reader struct {
	say.Report
	h   *harness.Harness
	bad map[string]bool
	by  map[string]*harness.Part
	out []harness.State
}

func (c *reader) state(w *describe.State) {
	s := harness.State{
		Name: w.Key.Text, Position: make([]int, len(c.h.Parts)),
		Engine: harness.Engine(w.Engine.Or(string(harness.EngineOff))), Span: w.Key.Span,
	}
	for _, set := range w.Settings {
		if p := c.set(set.Key); p != nil {
			n := position(p, set.Value.Text)
			if n < 0 {
				c.Unknown("unknown-position", "position of "+p.Ref, set.Value, p.Positions)
				continue
			}
			s.Position[p.ID] = n
		}
	}
	c.out = append(c.out, s)
}

// set gives the part of that name, which has positions; nil where it is none.
func (c *reader) set(name read.Word) *harness.Part {
	p := c.by[name.Text]
	switch {
	case p == nil && !c.bad[name.Text]:
		c.Unknown("unknown-switch", "switch", name, c.switches())
	case p != nil && len(p.Positions) == 0:
		c.Fail("no-positions", name.Span, "parts with positions: "+say.Listed(c.switches()),
			"%s (%s) has no positions to be set to", p.Ref, p.Kind)
		return nil
	}
	return p
}

func position(p *harness.Part, name string) int {
	for i, n := range p.Positions {
		if n == name {
			return i
		}
	}
	return -1
}

func (c *reader) switches() []string {
	var names []string
	for _, p := range c.h.Parts {
		if len(p.Positions) > 0 {
			names = append(names, p.Ref)
		}
	}
	return names
}

// made makes the states of a description that declares none. A part is in
// one position at a time, so what excludes each other (a changeover switch, left
// and right) never meets; relays follow their coils as always.
func (c *reader) made() {
	c.add("parked", harness.EngineOff, nil)
	var switches []harness.PartID
	starter := false
	m := metalOf(c.h)
	closed := c.isolatorsClosed(m)
	for i := range c.h.Parts {
		p := &c.h.Parts[i]
		starter = starter || p.Kind == harness.Starter
		if p.Kind == harness.Switch && len(p.Positions) > 1 {
			switches = append(switches, p.ID)
		}
	}
	all := maps.Clone(closed)
	for _, id := range switches {
		p := &c.h.Parts[id]
		for n := 1; n < len(p.Positions); n++ {
			alone := maps.Clone(closed)
			alone[id] = n
			c.add(p.Ref+" "+p.Positions[n], harness.EngineRunning, alone)
		}
		all[id] = m.fullest(p)
	}
	c.add("everything on", harness.EngineRunning, all)
	if starter {
		c.add("cranking", harness.EngineCranking, closed)
	}
}

// isolatorsClosed sets the isolators whose rest position is open.
func (c *reader) isolatorsClosed(m metal) map[harness.PartID]int {
	out := map[harness.PartID]int{}
	for i := range c.h.Parts {
		p := &c.h.Parts[i]
		if p.Kind == harness.Isolator && len(p.Positions) > 0 {
			if n := m.fullest(p); len(m.contactsIn(p, n)) > len(m.contactsIn(p, 0)) {
				out[p.ID] = n
			}
		}
	}
	return out
}

// add adds a made state; the ignition switches stand at run with the engine
// running, at start while cranking, at rest otherwise.
func (c *reader) add(name string, engine harness.Engine, set map[harness.PartID]int) {
	s := harness.State{Name: name, Position: make([]int, len(c.h.Parts)), Engine: engine, Made: true}
	for i, p := range c.h.Parts {
		if p.Kind == harness.IgnitionSwitch {
			s.Position[i] = ignitionAt(&p, engine)
		}
		if n, ok := set[p.ID]; ok {
			s.Position[i] = n
		}
	}
	for _, old := range c.out {
		if old.Name == name {
			return
		}
	}
	c.out = append(c.out, s)
}

func ignitionAt(p *harness.Part, engine harness.Engine) int {
	want := map[harness.Engine]string{harness.EngineRunning: "run", harness.EngineCranking: "start"}[engine]
	if n := position(p, want); n >= 0 {
		return n
	}
	return 0
}
