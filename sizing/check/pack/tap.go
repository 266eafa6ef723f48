package pack

import (
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/source"
)

// spared is the current, A, of a load between two batteries that nothing is said of: a
// monitor's; common practice, no source.
const spared = 0.05

// taps advises on loads that are fed from between two batteries in series, where no
// charger keeps the two alike: one of them gives their current alone.
func (p *pack) taps() {
	for i := range p.h.Elements {
		e := &p.h.Elements[i]
		if e.Kind != harness.Load || e.Most() < spared {
			continue
		}
		for _, t := range [2]harness.TerminalID{e.A, e.B} {
			net := p.nets.Root(int(t))
			if below, above := p.between(net); below != nil && !p.evened(net) {
				p.tap(e, below, above)
				return
			}
		}
	}
}

// between gives the batteries that a net lies between, if both share a voltage.
func (p *pack) between(net int) (below, above *harness.Element) {
	if net == p.nets.Root(int(harness.Chassis)) || len(p.plusAt[net]) == 0 || len(p.minusAt[net]) == 0 {
		return nil, nil
	}
	below, above = p.plusAt[net][0], p.minusAt[net][0]
	if below.Holds() == 1 || above.Holds() == 1 {
		return nil, nil
	}
	return below, above
}

// evened tells whether a charger ends on the net too.
func (p *pack) evened(net int) bool {
	for i := range p.h.Elements {
		e := &p.h.Elements[i]
		if e.Regulates() && (p.nets.Root(int(e.A)) == net || p.nets.Root(int(e.B)) == net) {
			return true
		}
	}
	return false
}

func (p *pack) tap(e, below, above *harness.Element) {
	one, other := p.h.Parts[below.Part].Ref, p.h.Parts[above.Part].Ref
	p.Say(source.Advice, "load-on-half-the-batteries", p.h.Parts[e.Part].Span,
		"feed it through a converter from the whole voltage, or put an equaliser (kind: converter, its output between the two) on the same point",
		"%s is fed from between %s and %s: one of them gives its current alone, and the other is overcharged", p.h.Parts[e.Part].Ref, one, other)
}
