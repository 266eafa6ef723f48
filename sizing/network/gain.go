package network

import "example.com/loomfolio/sizing/circuit"

// Gains answers how the voltages of a solved state follow small currents; see
// circuit.Gains. Nodes and elements are those of State.Network.
func (p *Prepared) Gains(s State) (*circuit.Gains, error) {
	g, err := p.circuit.Gains(s.Solution)
	if err != nil {
		return nil, p.b.named(err)
	}
	return g, nil
}
