package check

import (
	"example.com/loomfolio/sizing/describe/read"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/harness/kind"
)

// class resolves a drop class.
func (c *checker) class(w read.Word) string {
	name := w.Or("default")
	if _, ok := c.h.Practice.Drop[name]; !ok {
		c.Unknown("unknown-class", "class of circuits", w, sortedKeys(c.h.Practice.Drop))
	}
	return name
}

// classes gives the circuits that nobody put into a class that of what they serve: a
// starter's is start, an alternator's charge. One that serves a load beside them keeps
// the default, which allows least.
func (c *checker) classes() {
	for i := range c.h.Circuits {
		if c.d.Circuits[i].Class.Given() {
			continue
		}
		if class := c.served(&c.h.Circuits[i]); class != "" {
			c.h.Circuits[i].Class = class
		}
	}
}

// served is the class of the machines whose own current a circuit's wires carry, the
// alternator's before the starter's; "" for none, or where a load is among them.
func (c *checker) served(circuit *harness.Circuit) string {
	class := ""
	for _, id := range circuit.Wires {
		w := &c.h.Wires[id]
		for _, t := range [2]harness.TerminalID{w.From, w.To} {
			p := c.h.PartOf(t)
			switch {
			case p.Kind == harness.Starter && class == "" && c.carries(p, w):
				class = "start"
			case kind.Charges(p.Kind) && c.carries(p, w):
				class = "charge"
			case p.Kind != harness.Starter && kind.RoleOf(p.Kind) == kind.Works:
				return ""
			}
		}
	}
	return class
}

// carries tells a wire that brings a machine's own current or takes it away: not one to
// its 50 or L, nor one that begins on its post to feed something else.
func (c *checker) carries(p *harness.Part, w *harness.Wire) bool {
	for _, id := range p.Elements {
		switch e := &c.h.Elements[id]; {
		case e.Kind == harness.Load && (w.To == e.A || w.From == e.B), e.Kind == harness.Charger && (w.From == e.A || w.To == e.B):
			return true
		}
	}
	return false
}
