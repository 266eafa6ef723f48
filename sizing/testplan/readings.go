package testplan

import (
	"math"

	"example.com/loomfolio/sizing/proof"
	"example.com/loomfolio/sizing/testplan/tolerance"
	"example.com/loomfolio/sizing/unit"
)

// readings gives the volts at every point in the states in which it is asked for.
func (m *plan) readings() {
	for s, l := range m.limits {
		if l == nil {
			continue
		}
		known := map[int]tolerance.Range{}
		for i, p := range m.p.Points {
			node := m.r.States[s].Of[p.At]
			if node < 0 || !m.asked[s][i] || m.p.Found.At(s, p.At) {
				continue
			}
			v, done := known[node]
			if !done {
				v = l.Node(node)
				known[node] = v
			}
			m.p.Readings = append(m.p.Readings, reading(i, s, v))
		}
	}
}

func reading(point, state int, v tolerance.Range) proof.Reading {
	if math.IsNaN(v.Is) {
		return proof.Reading{Point: point, State: state, Asked: true, Floats: true}
	}
	return proof.Reading{
		Point: point, State: state, Asked: true,
		Volts: unit.Volt(v.Is), Low: unit.Volt(v.Low), High: unit.Volt(v.High),
	}
}
