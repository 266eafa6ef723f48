// Package state gives the states in which a harness is solved: those that are declared,
// or else those that its switches ask for.
package state

import (
	"example.com/loomfolio/sizing/check/say"
	"example.com/loomfolio/sizing/describe"
	"example.com/loomfolio/sizing/describe/read"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/source"
)

// Of resolves the declared states of a harness whose parts, elements and wires are
// made. Where none is declared, those that a driver makes are (see made). Parts in bad
// were written wrongly, and raise no second problem.
func Of(written []describe.State, h *harness.Harness, bad map[string]bool) ([]harness.State, source.Problems) {
	c := &reader{h: h, bad: bad, by: map[string]*harness.Part{}}
	for i := range h.Parts {
		c.by[h.Parts[i].Ref] = &h.Parts[i]
	}
	for i := range written {
		c.state(&written[i])
	}
	if len(written) == 0 {
		c.out = made(h)
	}
	follow(h, c.out[:len(written)], func(state int, p harness.PartID) bool { return c.named[state][p] })
	return c.out, c.Problems
}

// reader carries the states while they grow; the harness is for reading.
type reader struct {
	say.Report
	h     *harness.Harness
	bad   map[string]bool
	by    map[string]*harness.Part
	out   []harness.State
	named []map[harness.PartID]bool // by state: the parts that it sets
}

func (c *reader) state(w *describe.State) {
	s := harness.State{
		Name: w.Key.Text, Position: make([]int, len(c.h.Parts)),
		Engine: harness.Engine(w.Engine.Or(string(harness.EngineOff))), Span: w.Key.Span,
	}
	named := map[harness.PartID]bool{}
	for _, set := range w.Settings {
		if p := c.set(set.Key); p != nil {
			named[p.ID] = true
			n := position(p, set.Value.Text)
			if n < 0 {
				c.Unknown("unknown-position", "position of "+p.Ref, set.Value, p.Positions)
				continue
			}
			s.Position[p.ID] = n
		}
	}
	c.out, c.named = append(c.out, s), append(c.named, named)
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
