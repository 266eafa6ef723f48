package check

import (
	"slices"

	"example.com/loomfolio/sizing/check/pack"
	"example.com/loomfolio/sizing/check/part"
	"example.com/loomfolio/sizing/check/systems"
	"example.com/loomfolio/sizing/describe"
	"example.com/loomfolio/sizing/harness"
)

// makes is what a part was made from.
type makes struct {
	written *describe.Part
	part    harness.PartID
	next    part.Next
}

// systems finds the voltages on board, and makes the parts that lie on another side than
// the main one again, by its voltage.
func (c *checker) systems() {
	c.Take(systems.Of(c.h, c.sides(), pack.StringsOf(c.h)))
	if c.h.Sides != nil {
		c.again()
	}
	c.remotes()
}

// again makes the parts of other sides anew, and notes the side of each element.
func (c *checker) again() {
	sides := part.Sides{Main: c.h.System, At: c.h.SystemAt}
	for _, m := range c.made {
		p := c.h.Parts[m.part]
		if !slices.ContainsFunc(p.Terminals, func(t harness.TerminalID) bool { return c.h.SideAt(t) > 0 }) {
			continue
		}
		p.Terminals, p.Elements, p.Positions, p.Cavities, p.Rows, p.Panel = nil, nil, nil, nil, nil, nil
		again := part.Make(m.written, p, sides, m.next)
		for _, e := range again.Elements {
			old := &c.h.Elements[e.ID]
			old.Volts, old.Ohms, old.Amps, old.AtVolts = e.Volts, e.Ohms, e.Amps, e.AtVolts
			old.PullIn, old.DropOut, old.Floor, old.Share, old.Standing = e.PullIn, e.DropOut, e.Floor, e.Share, e.Standing
			old.Keeps = e.Keeps
		}
		c.h.Parts[m.part].Starts = again.Part.Starts
	}
	for i := range c.h.Elements {
		e := &c.h.Elements[i]
		e.Side = c.h.SideAt(e.A)
		if e.Side == 0 {
			e.Side = c.h.SideAt(e.B)
		}
	}
}

// remotes lets a converter work always where no wire ends on its terminal D+ or on.
func (c *checker) remotes() {
	for _, m := range c.made {
		p := &c.h.Parts[m.part]
		if p.Kind != harness.DCConverter {
			continue
		}
		for _, id := range p.Elements {
			coil := &c.h.Elements[id]
			if coil.Kind != harness.RelayCoil || len(c.wiresAt[coil.A]) > 0 {
				continue
			}
			coil.Kind = harness.Open
			for _, other := range p.Elements {
				if e := &c.h.Elements[other]; e.When.Kind == harness.Energised && e.When.Coil == id {
					e.When = harness.Condition{}
					if e.Kind == harness.Load {
						e.Floor = part.Unswitched(m.written, c.h.SystemOf(e))
						p.WorksAbove = e.Floor
					}
				}
			}
		}
	}
}

// sides resolves the further voltages as they are described.
func (c *checker) sides() []systems.Described {
	var out []systems.Described
	for i := range c.d.Systems {
		w := &c.d.Systems[i]
		d := systems.Described{System: harness.System{Key: w.Key.Text, Volts: w.Volts.V, Running: w.Running.V, Span: w.Key.Span}}
		for n := range w.From {
			if h, ok := c.halt(&w.From[n]); ok {
				d.From = append(d.From, h.leave)
			}
		}
		if r := w.Running; r.Given() && (r.V < w.Volts.V || float64(r.V) > 1.4*float64(w.Volts.V)) {
			c.Fail("running-voltage", r.Span, "write its voltage while it is fed, for example 13.8 V for a nominal 12 V",
				"running voltage %s does not fit a %s system", r.V, w.Volts.V)
		}
		if len(d.From) > 0 && w.Volts.V > 0 {
			out = append(out, d)
		}
	}
	return out
}
