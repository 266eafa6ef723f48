package demand

import (
	"math"

	"example.com/loomfolio/sizing/harness"
)

// Peak is a wire's worst continuous current and where it comes from.
type Peak struct {
	Amps  float64 // A
	State string
	Ohms  float64 // of the whole wire in that state
	Short bool    // it flows only while cranking
}

// peaks reads the worst currents from the solved states, those with flat batteries too.
func (m *Demand) peaks() []Peak {
	out := make([]Peak, len(m.H.Wires))
	for i := range m.Solvings {
		at := &m.Solvings[i]
		for w := range out {
			a := math.Abs(at.State.WireAmps[w])
			if a > out[w].Amps+1e-9 && !(at.Cranking && m.Cranks[w]) { // false for NaN
				out[w] = Peak{Amps: a, State: at.Name, Ohms: at.Ohms[w]}
			}
		}
	}
	m.shortPeaks(out)
	return out
}

// startingWires marks the way of a starter's motor current. Its seconds do not
// count for heat (33 CFR 183.425(g) sets cranking conductors apart).
func (m *Demand) startingWires() []bool {
	out := make([]bool, len(m.H.Wires))
	for _, d := range m.Draws {
		if m.PartOf(d.Load).Kind != harness.Starter {
			continue
		}
		for _, w := range d.Wires() {
			out[w] = true
		}
		for _, w := range m.Net.Links() { // batteries in series crank together
			out[w] = true
		}
	}
	return out
}

// shortPeaks gives wires that carry current only while cranking that current,
// marked as short.
func (m *Demand) shortPeaks(out []Peak) {
	for i := range m.Solvings {
		at := &m.Solvings[i]
		if !at.Cranking {
			continue
		}
		for w := range out {
			a := math.Abs(at.State.WireAmps[w])
			free := out[w].Short || out[w].Amps < 1e-3
			if m.Cranks[w] && free && a > out[w].Amps {
				out[w] = Peak{a, at.Name, at.Ohms[w], true}
			}
		}
	}
}
