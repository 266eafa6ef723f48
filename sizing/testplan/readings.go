package testplan

import (
	"math"

	"example.com/loomfolio/sizing/proof"
	"example.com/loomfolio/sizing/testplan/tolerance"
	"example.com/loomfolio/sizing/unit"
)

// readings gives the volts at every point in every state.
func (m *plan) readings() {
	for s, l := range m.limits {
		if l == nil {
			continue
		}
		known := map[int]tolerance.Range{}
		for i, p := range m.p.Points {
			node := m.r.States[s].Of[p.At]
			if node < 0 {
				continue
			}
			v, done := known[node]
			if !done {
				v = l.Node(node)
				known[node] = v
			}
			m.p.Readings = append(m.p.Readings, reading(i, s, v, m.asked[s][i]))
		}
	}
}

func reading(point, state int, v tolerance.Range, asked bool) proof.Reading {
	if math.IsNaN(v.Is) {
		return proof.Reading{Point: point, State: state, Asked: asked, Floats: true}
	}
	return proof.Reading{
		Point: point, State: state, Asked: asked,
		Volts: unit.Volt(v.Is), Low: unit.Volt(v.Low), High: unit.Volt(v.High),
	}
}
