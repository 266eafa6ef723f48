package check

import (
	"slices"

	"example.com/loomfolio/sizing/check/part"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/harness/kind"
	"example.com/loomfolio/sizing/source"
)

// engineBlock joins the cases of starters and alternators: they are bolted to
// one engine.
func (c *checker) engineBlock() {
	var cases []harness.TerminalID
	for _, p := range c.h.Parts {
		if !harness.EngineMachine(p.Kind) {
			continue
		}
		if t, ok := c.termBy[p.Ref+".case"]; ok {
			cases = append(cases, t)
		}
	}
	for i := 1; i < len(cases); i++ {
		owner := c.h.PartOf(cases[i])
		c.element(owner, harness.Element{Kind: harness.Join, Name: owner.Ref + ".engine-block", A: cases[0], B: cases[i]})
	}
}

// earth looks after the ways back to the battery: an earth lead that is not
// drawn is taken as there, an engine without a strap is an error.
func (c *checker) earth() {
	for i := range c.h.Parts {
		p := &c.h.Parts[i]
		switch p.Kind {
		case harness.Battery:
			c.batteryEarth(p)
		case harness.Ground:
			if c.h.System.WiredReturn {
				c.Say(source.Warning, "ground-in-wired-system", p.Span, "bring the return to the battery by wire, or write return: chassis",
					"every return is a wire in this system, and %s goes to the bodywork", p.Ref)
			}
		}
	}
	c.engineStrap()
}

func (c *checker) batteryEarth(p *harness.Part) {
	t, ok := c.termBy[p.Ref+"."+c.earthed()]
	if !ok || len(c.wiresAt[t]) > 0 || c.h.System.WiredReturn || !c.chassisUsed() {
		return
	}
	if other := c.earthedBattery(); other != nil {
		c.Fail("no-return-to-source", p.Span, "write the leg that joins it to the ground or bar on which its loads end, for example ["+p.Ref+"."+c.earthed()+", G1]",
			"%s.%s has no wire, while %s is grounded by one: the current of %s has no return", p.Ref, c.earthed(), other.Ref, p.Ref)
		return
	}
	c.element(p, harness.Element{Kind: harness.Resistance, Name: p.Ref + ".ground-lead", A: t, B: harness.Chassis, Ohms: part.GoodGround})
	advice := "to have it sized as well, add a leg between the battery and a ground, for example [G0, " + p.Ref + "." + c.earthed() + "]"
	if !c.starterUsed() {
		advice += "; no starter is described, so the current of one would not be in that size: a lead that carries it stays as thick as it is"
	}
	c.Say(source.Advice, "earth-lead-assumed", p.Span, advice,
		"%s.%s has no wire: the vehicle's own ground lead is taken as there and good (%s)", p.Ref, c.earthed(), part.GoodGround)
}

// earthedBattery gives a battery with a wire on its earthed terminal, or nil.
func (c *checker) earthedBattery() *harness.Part {
	for i := range c.h.Parts {
		p := &c.h.Parts[i]
		if t, ok := c.termBy[p.Ref+"."+c.earthed()]; ok && p.Kind == harness.Battery && len(c.wiresAt[t]) > 0 {
			return p
		}
	}
	return nil
}

func (c *checker) starterUsed() bool {
	return slices.ContainsFunc(c.h.Parts, func(p harness.Part) bool { return p.Kind == harness.Starter })
}

func (c *checker) chassisUsed() bool {
	for _, p := range c.h.Parts {
		if p.Kind == harness.Ground || p.BodyGround {
			return true
		}
	}
	return false
}

// engineStrap demands a drawn way from the engine back to the battery.
func (c *checker) engineStrap() {
	var engine *harness.Part
	for i := range c.h.Parts {
		p := &c.h.Parts[i]
		t, ok := c.termBy[p.Ref+".case"]
		if !ok || !harness.EngineMachine(p.Kind) {
			continue
		}
		if len(c.wiresAt[t]) > 0 {
			return
		}
		if engine == nil {
			engine = p
		}
	}
	if engine != nil && !c.engineOnBody() {
		c.Fail("no-engine-strap", engine.Span, "add a leg for the strap, for example ["+engine.Ref+".case, G1] or ["+engine.Ref+".case, BAT.-]",
			"no return from the engine to the battery is described: the current of %s would return through a control cable", engine.Ref)
	}
}

// ends demands a wire on both sides of every load and coil that is used, and
// names parts that nothing reaches.
func (c *checker) ends() {
	for i := range c.h.Parts {
		p := &c.h.Parts[i]
		if c.unread[p.ID] {
			continue
		}
		if !c.used(p) {
			c.Say(source.Warning, "part-unused", p.Span, "add it to a leg, or take it out", "no wire reaches %s", p.Ref)
			continue
		}
		for _, id := range p.Elements {
			c.bothEnds(p, c.h.Elements[id])
		}
	}
}

func (c *checker) used(p *harness.Part) bool {
	for _, t := range p.Terminals {
		if len(c.wiresAt[t]) > 0 {
			return true
		}
	}
	return false
}

func (c *checker) bothEnds(p *harness.Part, e harness.Element) {
	if e.Kind != harness.Load && e.Kind != harness.RelayCoil && e.Kind != harness.Rectifier && e.Kind != harness.FuseLink {
		return
	}
	if e.Kind == harness.FuseLink && p.Kind == harness.FusePanel {
		return // a free position is a spare
	}
	if c.spare(p, &e) {
		c.h.Elements[e.ID].Kind = harness.Open
		return
	}
	for _, t := range []harness.TerminalID{e.A, e.B} {
		if !c.reached(p, t) {
			full := c.h.Terminals[t].Full
			c.Fail("terminal-without-wire", p.Span, "end or begin a leg at "+full+c.returnHint(t, e)+c.cure(p, t),
				"%s has no wire, so no current can pass %s", full, e.Name)
		}
	}
}

// spare tells a load that need not be wired, as one of two filaments, and is not.
func (c *checker) spare(p *harness.Part, e *harness.Element) bool {
	if p.Kind == harness.TrailerSocket {
		return e.Kind == harness.Load && len(c.wiresAt[c.h.Live(e)]) == 0
	}
	row, _ := kind.Of(p.Kind)
	for _, l := range row.Recipe.Loads() {
		for _, t := range [2]harness.TerminalID{e.A, e.B} {
			if l.Spare && e.Kind == harness.Load && c.h.Terminals[t].Name == l.From && len(c.wiresAt[t]) == 0 {
				return true
			}
		}
	}
	return false
}

// cure is what a kind says of a terminal of its that has no wire.
func (c *checker) cure(p *harness.Part, t harness.TerminalID) string {
	row, _ := kind.Of(p.Kind)
	if says := row.Cure(c.h.Terminals[t].Name); says != "" {
		return ": " + says
	}
	return ""
}

// returnHint says how a return is usually written.
func (c *checker) returnHint(t harness.TerminalID, e harness.Element) string {
	if e.Kind == harness.Load && t == e.B && !c.h.System.WiredReturn {
		return ", for example … " + c.h.Terminals[t].Full + ", G1]"
	}
	return ""
}

// reached tells whether a wire ends at a terminal, or at one that the part joins to it.
func (c *checker) reached(p *harness.Part, t harness.TerminalID) bool {
	if len(c.wiresAt[t]) > 0 {
		return true
	}
	for _, id := range p.Elements {
		e := c.h.Elements[id]
		if e.Kind != harness.Join && e.Kind != harness.Contact && e.Kind != harness.Resistance {
			continue
		}
		if (e.A == t && len(c.wiresAt[e.B]) > 0) || (e.B == t && len(c.wiresAt[e.A]) > 0) {
			return true
		}
	}
	return t == harness.Chassis || p.BodyGround && t == p.BodyAt || c.onEngine(p)
}

// onEngine tells a starter's and alternator's case, which the engine earths.
func (c *checker) onEngine(p *harness.Part) bool {
	return harness.EngineMachine(p.Kind)
}
