package check

import (
	"example.com/loomfolio/sizing/check/part"
	"example.com/loomfolio/sizing/describe"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/source"
)

// bodyEnds refuses a leg that goes on from the bare name of a part that its body grounds:
// whoever wrote it means a way through the part, and none of its wires would be that.
func (c *checker) bodyEnds(leg *describe.Leg, i int, h halt) {
	p := &c.h.Parts[h.part]
	if !p.BodyGround || leg.Stops[i].Terminal.Given() || i == 0 && !c.groundStop(leg, 1) || i == len(leg.Stops)-1 && !c.groundStop(leg, i-1) {
		return
	}
	live := c.h.Terminals[h.arrive].Full
	c.Fail("body-and-wire", h.stop.To.Span,
		"end the leg at "+p.Ref+", or take out grounds: body where the return is a wire; a wire that goes on from its live side to another part is written from "+live,
		"%s is grounded by its body, and this leg goes on from it", p.Ref)
}

// groundStop tells whether a stop of a leg is a ground or the earthed side of a battery.
func (c *checker) groundStop(leg *describe.Leg, i int) bool {
	if i < 0 || i >= len(leg.Stops) {
		return false
	}
	s := &leg.Stops[i]
	id, ok := c.partBy[s.Part.Text]
	if !ok {
		return false
	}
	p := &c.h.Parts[id]
	return p.Kind == harness.Ground || p.Kind == harness.Battery && s.Terminal.Text == c.earthed()
}

// bodies sees to the parts that are grounded by their bodies, once the wires are there.
func (c *checker) bodies() {
	grounds := c.groundNets(false)
	for i := range c.d.Parts {
		w := &c.d.Parts[i]
		id, ok := c.partBy[w.Key.Text]
		if !ok || !c.h.Parts[id].BodyGround {
			continue
		}
		p := &c.h.Parts[id]
		switch {
		case c.h.System.WiredReturn:
			c.Fail("body-in-wired-system", w.Grounds.Span, "write its return as a wire and take grounds: body out, or write return: chassis under system:",
				"every return is a wire in this system, and %s is said to be grounded by its body", p.Ref)
		case c.onEngine(p):
			c.engineBody(w, p)
		case grounds[p.BodyAt]:
			found := c.Fail("body-and-wire", w.Grounds.Span, "leave out the wire, or take out grounds: body: the wire then carries all of its current",
				"%s is grounded by its body and by a wire at %s", p.Ref, c.h.Terminals[p.BodyAt].Full)
			for _, wire := range c.wiresAt[p.BodyAt][:min(1, len(c.wiresAt[p.BodyAt]))] {
				found.Others = []source.Note{{Span: c.h.Wires[wire].Span, Text: "the wire"}}
			}
		}
	}
}

// engineBody joins the engine to the bodywork where a starter or alternator says so and
// nothing else does: a strap carries the current wherever there is one.
func (c *checker) engineBody(w *describe.Part, p *harness.Part) {
	if p.BodyJoint != harness.None || c.engineBonded() {
		return
	}
	c.element(p, part.BodyJoint(p, p.BodyAt, w.Grounds.Joint.Or(part.GoodGround)))
	p.BodyJoint = p.Elements[len(p.Elements)-1]
	if !c.engineWired() {
		c.Say(source.Warning, "engine-on-its-mounts", w.Grounds.Span,
			"describe the strap, for example ["+p.Ref+".case, G1]; on rubber mounts without one the starter's current returns through a control cable, a bearing or a fuel pipe",
			"no strap leads from the engine to the bodywork: %s is grounded by what the engine stands on", p.Ref)
	}
}

// engineOnBody tells whether a starter or alternator says that its body is grounded.
func (c *checker) engineOnBody() bool {
	for i := range c.h.Parts {
		if p := &c.h.Parts[i]; p.BodyGround && c.onEngine(p) {
			return true
		}
	}
	return false
}

// engineCases are the bodies of what is bolted to the engine.
func (c *checker) engineCases() []harness.TerminalID {
	var out []harness.TerminalID
	for i := range c.h.Parts {
		if p := &c.h.Parts[i]; c.onEngine(p) {
			if t, ok := c.termBy[p.Ref+".case"]; ok {
				out = append(out, t)
			}
		}
	}
	return out
}

// engineWired tells whether a wire ends on the engine.
func (c *checker) engineWired() bool {
	for _, t := range c.engineCases() {
		if len(c.wiresAt[t]) > 0 {
			return true
		}
	}
	return false
}

// bonds tells what joins metal to metal for good.
func (c *checker) bonds(e *harness.Element) bool {
	return e.Kind == harness.Join || e.Kind == harness.Resistance && (e.B == harness.Chassis || c.h.Parts[e.Part].Kind == harness.Strap)
}

// engineBonded tells whether wires, straps and joints lead from the engine to the bodywork,
// or a body joint of the engine does already.
func (c *checker) engineBonded() bool {
	seen := map[harness.TerminalID]bool{}
	queue := c.engineCases()
	for len(queue) > 0 {
		t := queue[0]
		queue = queue[1:]
		if t == harness.Chassis {
			return true
		}
		if seen[t] {
			continue
		}
		seen[t] = true
		for _, id := range c.wiresAt[t] {
			queue = append(queue, c.h.Wires[id].From, c.h.Wires[id].To)
		}
		if p := c.h.PartOf(t); p != nil {
			for _, id := range p.Elements {
				if e := &c.h.Elements[id]; (e.A == t || e.B == t) && c.bonds(e) {
					queue = append(queue, e.A, e.B)
				}
			}
		}
	}
	return false
}
