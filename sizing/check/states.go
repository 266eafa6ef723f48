package check

import (
	"maps"

	"example.com/loomfolio/sizing/check/say"
	"example.com/loomfolio/sizing/describe"
	"example.com/loomfolio/sizing/harness"
)

// states resolves the declared states; where none is declared, sensible ones
// are made: parked, each switch alone in each position with the engine running,
// everything on, and cranking where there is a starter.
func (c *checker) states() {
	for i := range c.d.States {
		c.state(&c.d.States[i])
	}
	if len(c.d.States) == 0 {
		c.makeStates()
	}
}

func (c *checker) state(w *describe.State) {
	s := harness.State{
		Name: w.Key.Text, Position: make([]int, len(c.h.Parts)),
		Engine: harness.Engine(w.Engine.Or(string(harness.EngineOff))), Span: w.Key.Span,
	}
	for _, set := range w.Settings {
		id, ok := c.partBy[set.Key.Text]
		if !ok {
			if !c.badPart[set.Key.Text] {
				c.Unknown("unknown-switch", "switch", set.Key, c.switchNames())
			}
			continue
		}
		p := &c.h.Parts[id]
		if len(p.Positions) == 0 {
			c.Fail("no-positions", set.Key.Span, "parts with positions: "+say.Listed(c.switchNames()), "%s (%s) has no positions to be set to", p.Ref, p.Kind)
			continue
		}
		n := position(p, set.Value.Text)
		if n < 0 {
			c.Unknown("unknown-position", "position of "+p.Ref, set.Value, p.Positions)
			continue
		}
		s.Position[id] = n
	}
	c.h.States = append(c.h.States, s)
}

func position(p *harness.Part, name string) int {
	for i, n := range p.Positions {
		if n == name {
			return i
		}
	}
	return -1
}

func (c *checker) switchNames() []string {
	var names []string
	for _, p := range c.h.Parts {
		if len(p.Positions) > 0 {
			names = append(names, p.Ref)
		}
	}
	return names
}

// makeStates makes the states of a description that declares none. A part is in
// one position at a time, so what excludes each other (a changeover switch, left
// and right) never meets; relays follow their coils as always.
func (c *checker) makeStates() {
	c.made("parked", harness.EngineOff, nil)
	var switches []harness.PartID
	starter := false
	closed := c.isolatorsClosed()
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
			c.made(p.Ref+" "+p.Positions[n], harness.EngineRunning, alone)
		}
		all[id] = c.fullest(p)
	}
	c.made("everything on", harness.EngineRunning, all)
	if starter {
		c.made("cranking", harness.EngineCranking, closed)
	}
}

// isolatorsClosed sets the isolators whose rest position is open.
func (c *checker) isolatorsClosed() map[harness.PartID]int {
	out := map[harness.PartID]int{}
	for i := range c.h.Parts {
		p := &c.h.Parts[i]
		if p.Kind == harness.Isolator && len(p.Positions) > 0 {
			if n := c.fullest(p); len(c.contactsIn(p, n)) > len(c.contactsIn(p, 0)) {
				out[p.ID] = n
			}
		}
	}
	return out
}

// fullest is the position that turns on most current; of equal ones that which
// closes more contacts, then the later one.
func (c *checker) fullest(p *harness.Part) int {
	best, most, contacts := 0, -1.0, 0
	for n := range p.Positions {
		closed := c.contactsIn(p, n)
		a := c.behind(closed)
		if a > most+1e-9 || a > most-1e-9 && len(closed) >= contacts {
			best, most, contacts = n, max(a, most), len(closed)
		}
	}
	return best
}

// made adds a state; the ignition switches stand at run with the engine
// running, at start while cranking, at rest otherwise.
func (c *checker) made(name string, engine harness.Engine, set map[harness.PartID]int) {
	s := harness.State{Name: name, Position: make([]int, len(c.h.Parts)), Engine: engine, Made: true}
	for i, p := range c.h.Parts {
		if p.Kind == harness.IgnitionSwitch {
			s.Position[i] = ignitionAt(&p, engine)
		}
		if n, ok := set[p.ID]; ok {
			s.Position[i] = n
		}
	}
	for _, old := range c.h.States {
		if old.Name == name {
			return
		}
	}
	c.h.States = append(c.h.States, s)
}

func ignitionAt(p *harness.Part, engine harness.Engine) int {
	want := map[harness.Engine]string{harness.EngineRunning: "run", harness.EngineCranking: "start"}[engine]
	if n := position(p, want); n >= 0 {
		return n
	}
	return 0
}
