package ampacity

import (
	"math"

	"example.com/loomfolio/sizing/choose/shelf"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/heat"
	"example.com/loomfolio/sizing/unit"
)

// Crowd is wires that lie together in a run or a cable, with the currents of the state in
// which they make most heat.
type Crowd struct {
	Wires []harness.WireID
	Most  float64 // W/m that all of them make together then, as if at 20 C
	amps  []unit.Ampere
	ready *heat.Prepared
	w     *warmth
}

// Crowds lists those in which a current flows, in the order of the runs and then of the cables.
func (a *Ampacity) Crowds() []Crowd {
	var out []Crowd
	for i := range a.warm.spots {
		if at := &a.warm.spots[i]; at.bundle != nil && at.most > 0 {
			out = append(out, Crowd{at.wires, at.most, at.amps, at.bundle.Prepared, a.warm})
		}
	}
	return out
}

// Heated is a crowd whose wires all make more heat.
type Heated struct {
	*Crowd
	bundle *heat.Loaded
}

// Times gives the crowd with so many times the heat.
func (c *Crowd) Times(heat float64) Heated {
	amps := make([]unit.Ampere, len(c.amps))
	for i := range amps {
		amps[i] = c.amps[i] * unit.Ampere(math.Sqrt(heat))
	}
	return Heated{c, c.ready.Carrying(amps)}
}

// Carries tells whether the ith wire, of a size, carries a current up to a limit beside
// the others.
func (h Heated) Carries(i int, z *shelf.Size, amps float64, limit unit.Celsius) bool {
	if h.w.alone(h.Wires[i], z, limit) < amps {
		return false
	}
	yes, known := h.bundle.Carries(i, z.Kind, amps, limit)
	if !known {
		yes = float64(h.bundle.Capacity(i, z.Kind, limit)) >= amps
	}
	return yes
}
