package bench

import (
	"fmt"
	"math"

	"example.com/loomfolio/sizing/fault/cause"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/network"
	"example.com/loomfolio/sizing/unit"
)

// Broken gives the whole state with a cause, as Try solves it: the fuses that it opens are
// open. The error says that it changes nothing in this state, or is one of the solver.
func (b *Bench) Broken(c *cause.Cause, ohms unit.Ohm) (network.State, error) {
	at, does := b.Replaced(c, ohms)
	if !does {
		return network.State{}, fmt.Errorf("%s changes nothing in state %s", c.ID, b.h.States[b.state].Name)
	}
	for _, f := range b.Try(c, ohms).Blown {
		at = append(at, network.Fault{Wire: harness.None, Element: f, Ohms: math.Inf(1)})
	}
	o := network.Options{Sources: c.Sources}
	if c.Touch != harness.None {
		o.Bridges = b.touches[c.Touch : c.Touch+1]
		for i := range at {
			at[i].Bridge = 0
		}
	}
	p, err := network.Prepare(b.h, b.state, b.ohms, o)
	if err != nil {
		return network.State{}, err
	}
	return p.Broken(at...)
}
