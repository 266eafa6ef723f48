package network

import (
	"math"
	"slices"

	"example.com/loomfolio/sizing/circuit"
)

// A stabiliser's drop is found in turns: how many at most, and when it rests, V.
const (
	mostTurns = 60
	restsAt   = 1e-11
)

// settled finds the mean drop of every stabiliser, so that what it feeds has its voltage, or
// all of the feed's where that is less. It is held while faults are tried.
func (b *builder) settled(p *Prepared) (*Prepared, error) {
	kept := b.keepers()
	for turn := 0; len(kept) > 0 && turn < mostTurns; turn++ {
		s, err := p.circuit.Solve()
		if err != nil {
			return nil, b.named(err)
		}
		n := p.network
		n.Elements = slices.Clone(n.Elements)
		moved := false
		for _, id := range kept {
			e, law := &b.h.Elements[id], &n.Elements[b.elementAt[id]]
			drop := 0.0
			if above := b.of[e.Above]; above >= 0 {
				drop = math.Max(0, s.Volts[law.A]-s.Volts[above]-float64(e.Keeps))
			}
			if math.IsNaN(drop) {
				drop = 0
			}
			moved = moved || math.Abs(drop-law.Volts) > restsAt
			law.Volts = drop
		}
		if !moved {
			break
		}
		c, err := circuit.Prepare(n)
		if err != nil {
			return nil, b.named(err)
		}
		p.b.elements = n.Elements
		p = &Prepared{b: p.b, network: n, circuit: c}
	}
	return p, nil
}

// keepers lists the stabilisers that are part of the network.
func (b *builder) keepers() []int {
	var out []int
	for i := range b.h.Elements {
		if b.h.Elements[i].Keeps > 0 && b.elementAt[i] >= 0 {
			out = append(out, i)
		}
	}
	return out
}
