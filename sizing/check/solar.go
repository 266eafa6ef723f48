package check

import (
	"fmt"

	"example.com/loomfolio/sizing/check/pack"
	"example.com/loomfolio/sizing/check/part"
	"example.com/loomfolio/sizing/forest"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/source"
	"example.com/loomfolio/sizing/unit"
)

// solar joins panels to the regulator on which they hang: it gives no more than they do,
// their wires carry their current while it works, and a string of them stays below the
// voltage that is refused.
func (c *checker) solar() {
	var metal forest.Forest
	for i := range c.h.Parts {
		p := &c.h.Parts[i]
		if p.Kind != harness.SolarRegulator {
			continue
		}
		if metal == nil {
			metal = c.metal()
		}
		if plus, ok := c.termOf(p, "PV+", "P+"); ok {
			c.panels(p, metal, plus)
		}
	}
}

// termOf gives the terminal of a part that has one of some names.
func (c *checker) termOf(p *harness.Part, names ...string) (harness.TerminalID, bool) {
	for _, name := range names {
		if t, ok := c.termBy[p.Ref+"."+name]; ok {
			return t, true
		}
	}
	return 0, false
}

// metal joins terminals over wires, and over whatever is no load, source or coil.
func (c *checker) metal() forest.Forest {
	f := forest.New(len(c.h.Terminals))
	for _, w := range c.h.Wires {
		f.Join(int(w.From), int(w.To))
	}
	for _, e := range c.h.Elements {
		switch e.Kind {
		case harness.Join, harness.Contact, harness.FuseLink, harness.Resistance, harness.Rectifier:
			f.Join(int(e.A), int(e.B))
		}
	}
	return f
}

// panels follows the strings of panels from the plus of a regulator's panel side.
func (c *checker) panels(regulator *harness.Part, metal forest.Forest, plus harness.TerminalID) {
	var watts unit.Watt
	var best unit.Ampere
	var tallest unit.Volt
	met := map[harness.PartID]bool{}
	for _, p := range c.panelsAt(metal, plus) {
		best += p.Charge.Best
		volts := unit.Volt(0)
		for at := p; at != nil && !met[at.ID]; at = c.nextPanel(metal, at) {
			met[at.ID] = true
			watts += at.Charge.Power
			volts += at.Charge.OpenVolts
			c.panelWorks(at, regulator)
		}
		tallest = max(tallest, volts)
	}
	if len(met) == 0 {
		c.reversed(regulator, metal, plus)
		return
	}
	if tallest >= pack.Dangerous {
		c.Fail("voltage-out-of-scope", regulator.Span,
			fmt.Sprintf("Nothing here covers %s and above: put panels side by side, plus to plus and minus to minus. A panel that says no voc: is taken to have %s with nothing on it.", pack.Dangerous, part.PanelOpen),
			"the panels in series on %s give %s with nothing on them", regulator.Ref, tallest)
	}
	c.limitByPanels(regulator, watts, best)
}

// reversed reports a panel whose minus is where its plus belongs.
func (c *checker) reversed(regulator *harness.Part, metal forest.Forest, plus harness.TerminalID) {
	for i := range c.h.Parts {
		p := &c.h.Parts[i]
		if p.Kind == harness.SolarPanel && len(p.Terminals) == 2 && metal.Root(int(p.Terminals[1])) == metal.Root(int(plus)) {
			c.panelWorks(p, regulator)
			c.Fail("panel-reversed", p.Span, "swap its two leads: many regulators do not live through a reversed panel",
				"%s is the wrong way round: %s is on %s", p.Ref, c.h.Terminals[p.Terminals[1]].Full, c.h.Terminals[plus].Full)
		}
	}
}

// panelsAt gives the panels whose plus lies on the metal of a terminal.
func (c *checker) panelsAt(metal forest.Forest, t harness.TerminalID) []*harness.Part {
	var out []*harness.Part
	for i := range c.h.Parts {
		p := &c.h.Parts[i]
		if p.Kind == harness.SolarPanel && len(p.Terminals) == 2 && metal.Root(int(p.Terminals[0])) == metal.Root(int(t)) {
			out = append(out, p)
		}
	}
	return out
}

// nextPanel gives the panel that follows on a panel's minus, nil where none does.
func (c *checker) nextPanel(metal forest.Forest, p *harness.Part) *harness.Part {
	if next := c.panelsAt(metal, p.Terminals[1]); len(next) > 0 {
		return next[0]
	}
	return nil
}

// panelWorks lets a panel's wires carry its current while its regulator works.
func (c *checker) panelWorks(p, regulator *harness.Part) {
	for _, id := range p.Elements {
		c.h.Elements[id].When = harness.Condition{Kind: harness.InPosition, Switch: regulator.ID, Positions: []int{part.Sun}}
	}
}

// limitByPanels takes what panels give where it is less than the regulator passes on: by
// their power where it tracks, else by their current.
func (c *checker) limitByPanels(p *harness.Part, watts unit.Watt, best unit.Ampere) {
	for _, id := range p.Elements {
		e := &c.h.Elements[id]
		if e.Kind != harness.Charger {
			continue
		}
		gives := best
		if p.Charge.Tracking {
			gives = unit.Ampere(float64(watts) * float64(p.Charge.Efficiency) / float64(e.Volts))
		}
		e.Amps = min(e.Amps, gives)
	}
}

// unwiredPanels names solar panels that hang on no regulator.
func (c *checker) unwiredPanels() {
	for i := range c.h.Parts {
		p := &c.h.Parts[i]
		if p.Kind != harness.SolarPanel || len(p.Elements) == 0 || c.h.Elements[p.Elements[0]].When.Kind == harness.InPosition || !c.used(p) {
			continue
		}
		c.Say(source.Warning, "panel-without-regulator", p.Span,
			"lead its + to PV+ of a solar-regulator and its - to PV-; straight on a battery it boils it dry in summer and takes current back at night",
			"%s leads to no solar regulator", p.Ref)
	}
}
