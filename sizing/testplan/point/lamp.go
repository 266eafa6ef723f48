package point

import (
	"slices"

	"example.com/loomfolio/sizing/forest"
	"example.com/loomfolio/sizing/harness"
)

// sturdy is the least current of an electronic part's pin at which a test lamp of 0.25 A
// beside it changes nothing; outboard makers' manuals allow lamps under 0.3 A in sensor
// circuits.
const sturdy = 0.3

// electronic are the kinds at whose terminals a test lamp is never put.
var electronic = map[harness.Kind]string{
	harness.Module: "module", harness.Sender: "sensor", harness.Gauge: "gauge",
}

// plant is the metal that no switch parts, and what hangs on it.
type plant struct {
	h               *harness.Harness
	metal           forest.Forest
	arrives, leaves []bool         // by terminal: a wire does
	strong          []bool         // by root: a source, fuse, ground or a pin of real current is on it
	worked          forest.Forest  // metal that contacts join as well
	fed             []bool         // by root of worked: a source or fuse is on it
	barred          map[int]string // by root: whose signal it is
}

func newPlant(h *harness.Harness) *plant {
	n := len(h.Terminals)
	p := &plant{h: h, metal: forest.New(n), worked: forest.New(n), fed: make([]bool, n), arrives: make([]bool, n), leaves: make([]bool, n), strong: make([]bool, n), barred: map[int]string{}}
	for _, w := range h.Wires {
		p.leaves[w.From], p.arrives[w.To] = true, true
		p.metal.Join(int(w.From), int(w.To))
		p.worked.Join(int(w.From), int(w.To))
	}
	for i := range h.Elements {
		e := &h.Elements[i]
		if firm(h, e) {
			p.metal.Join(int(e.A), int(e.B))
		}
		if e.Kind == harness.Join || e.Kind == harness.Contact {
			p.worked.Join(int(e.A), int(e.B))
		}
	}
	p.hang()
	return p
}

// firm tells what joins its ends whatever is switched: a join or a plug's contact.
func firm(h *harness.Harness, e *harness.Element) bool {
	return e.When.Kind == harness.Always && (e.Kind == harness.Join || e.Kind == harness.Contact && h.Parts[e.Part].Kind == harness.Connector)
}

// hang notes what is on each piece of metal.
func (p *plant) hang() {
	p.strong[p.metal.Root(int(harness.Chassis))] = true
	for i := range p.h.Elements {
		e := &p.h.Elements[i]
		for _, t := range []harness.TerminalID{e.A, e.B} {
			root := p.metal.Root(int(t))
			switch {
			case e.Gives(), e.Kind == harness.FuseLink:
				p.strong[root] = true
				if !p.grounded(t) {
					p.fed[p.worked.Root(int(t))] = true
				}
			case p.h.Grounds(e), e.Kind == harness.Load && e.Amps >= sturdy:
				p.strong[root] = true
			}
			if name := electronic[p.h.Parts[e.Part].Kind]; name != "" && p.barred[root] == "" {
				p.barred[root] = name
			}
		}
	}
}

// grounded tells the earthed post of a source.
func (p *plant) grounded(t harness.TerminalID) bool {
	return slices.ContainsFunc(p.h.Elements, func(e harness.Element) bool {
		return e.Gives() && p.h.Earthed(&e) == t
	})
}

// lamp tells whether a test lamp serves at a terminal, and if not why.
func (p *plant) lamp(t harness.TerminalID) (serves bool, why string) {
	if name := electronic[p.h.Parts[p.h.Terminals[t].Part].Kind]; name != "" {
		return false, name + ": meter only"
	}
	if root := p.metal.Root(int(t)); !p.strong[root] && !p.fed[p.worked.Root(int(t))] && p.barred[root] != "" {
		return false, "leads to a " + p.barred[root] + ": meter only"
	}
	return true, ""
}
