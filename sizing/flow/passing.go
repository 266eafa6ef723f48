package flow

import (
	"math"

	"example.com/loomfolio/sizing/forest"
	"example.com/loomfolio/sizing/harness"
)

// overOutput is what an alternator delivers into a short over its rated
// output; it limits itself. Common practice, no source.
const overOutput = 1.2

// Passing says how much current the fuses let through: no more than their
// rating, and no more than all that feeds their other side lets through
// itself. A fuse of 200 A behind an alternator of 90 A passes 108 A.
type Passing struct {
	n      *Net
	region forest.Forest
	sides  [][2]int       // by ElementID, of fuses: the metal at A and at B
	into   [][2]float64   // by ElementID, of fuses: A, into the metal at A and at B
	on     map[int][]side // by metal: the sides of fuses on it, in the order of the fuses
}

// side is one side of a fuse: 0 at A, 1 at B.
type side struct {
	fuse harness.ElementID
	end  int
}

// Passing works it out for the fuses' ratings, in A by element. It begins with
// every fuse passing its rating and lowers that until nothing changes; each
// figure only falls and none below 0, so it ends.
func (n *Net) Passing(rating func(harness.ElementID) float64) *Passing {
	p := &Passing{n: n, region: n.regions(), sides: make([][2]int, len(n.h.Elements)), into: make([][2]float64, len(n.h.Elements)), on: map[int][]side{}}
	var fuses []harness.ElementID
	for _, e := range n.h.Elements {
		if e.Kind == harness.FuseLink {
			fuses = append(fuses, e.ID)
			p.sides[e.ID] = [2]int{p.region.Root(n.vertex[e.A]), p.region.Root(n.vertex[e.B])}
			p.into[e.ID] = [2]float64{rating(e.ID), rating(e.ID)}
			for end, metal := range p.sides[e.ID] {
				p.on[metal] = append(p.on[metal], side{e.ID, end})
			}
		}
	}
	sources := p.sources()
	for range len(fuses) + 1 {
		settled := true
		for _, f := range fuses {
			was, sides := p.into[f], p.sides[f]
			now := [2]float64{
				math.Min(rating(f), p.supply(sources, sides[1], f)),
				math.Min(rating(f), p.supply(sources, sides[0], f)),
			}
			p.into[f] = now
			settled = settled && now == was
		}
		if settled {
			break
		}
	}
	return p
}

// sources gives what the sources alone can deliver into each metal.
func (p *Passing) sources() map[int]float64 {
	out := map[int]float64{}
	for i := range p.n.h.Elements {
		switch e := &p.n.h.Elements[i]; e.Kind {
		case harness.EMF:
			out[p.region.Root(p.n.output(e))] = math.Inf(1)
		case harness.Charger, harness.Converter:
			out[p.region.Root(p.n.output(e))] += overOutput * float64(e.Amps)
		}
	}
	return out
}

// supply is what sources and the other fuses let into a metal.
func (p *Passing) supply(sources map[int]float64, metal int, but harness.ElementID) float64 {
	sum := sources[metal]
	for _, s := range p.on[metal] {
		if s.fuse != but {
			sum += p.into[s.fuse][s.end]
		}
	}
	return sum
}

// Into gives what a fuse lets into the metal that a wire belongs to; for a wire
// elsewhere (a return), the most that it lets through at all.
func (p *Passing) Into(fuse harness.ElementID, w harness.WireID) float64 {
	v := p.n.vertex[p.n.h.Wires[w].From]
	if v == p.n.chassis {
		v = p.n.vertex[p.n.h.Wires[w].To]
	}
	metal, into := p.region.Root(v), p.into[fuse]
	for end, m := range p.sides[fuse] {
		if m == metal {
			return into[end]
		}
	}
	return math.Max(into[0], into[1])
}

// Most gives the most that a fuse lets through in either direction.
func (p *Passing) Most(fuse harness.ElementID) float64 {
	return math.Max(p.into[fuse][0], p.into[fuse][1])
}

// Taps gives, for a wire that ends on a fuse, the fuses at its ends: those at the end away
// from the source, by the writing, and those at the other.
func (n *Net) Taps(w harness.WireID) (far, near []harness.ElementID) {
	to, from := n.vertex[n.h.Wires[w].To], n.vertex[n.h.Wires[w].From]
	if n.h.System.PositiveEarth {
		to, from = from, to
	}
	for _, e := range n.h.Elements {
		switch a, b := n.vertex[e.A], n.vertex[e.B]; {
		case e.Kind != harness.FuseLink:
		case a == to || b == to:
			far = append(far, e.ID)
		case a == from || b == from:
			near = append(near, e.ID)
		}
	}
	return far, near
}
