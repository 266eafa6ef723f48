package tolerance

import (
	"example.com/loomfolio/sizing/circuit"
	"example.com/loomfolio/sizing/forest"
	"example.com/loomfolio/sizing/harness"
)

// sources: each battery's inner resistance alone; the volts of those that metal joins
// together; all charging voltages together, with those up to which a battery rests.
func (m *maker) sources() {
	level, order := m.levels()
	var charging Span
	for k := range m.s.Network.Elements {
		e := &m.s.Network.Elements[k]
		switch {
		case e.Kind == circuit.Limited:
			charging = append(charging, m.setting(k, Volts, "charging volts"))
		case m.s.Elements[k].Note == "battery" && m.charges(e):
			charging = append(charging, m.setting(k, Volts, "charging volts"))
			m.add(m.setting(k, Ohms, "battery ohms"))
		case m.s.Elements[k].Note == "battery":
			m.add(m.setting(k, Ohms, "battery ohms"))
			if e.Idle > 0 {
				charging = append(charging, m.setting(k, Idle, "charging volts"))
			}
		}
	}
	for _, root := range order {
		m.add(level[root]...)
	}
	m.add(charging...)
}

// charges tells a battery that stands for a charging system that is not described.
func (m *maker) charges(e *circuit.Element) bool {
	return e.Idle == 0 && m.s.Index >= 0 && m.h.States[m.s.Index].Engine == harness.EngineRunning
}

// levels are the batteries by the metal that joins their posts.
func (m *maker) levels() (map[int]Span, []int) {
	net := &m.s.Network
	metal := forest.New(net.Nodes)
	for k := range net.Elements {
		e := &net.Elements[k]
		switch m.s.Elements[k].Note {
		case "wire", "fuse", "breaker", "contact":
			if m.s.Solution.Frozen[k].Form == circuit.IsResistance {
				metal.Join(e.A, e.B)
			}
		}
	}
	out, order := map[int]Span{}, []int(nil)
	for k := range net.Elements {
		e := &net.Elements[k]
		if m.s.Elements[k].Note != "battery" || m.charges(e) {
			continue
		}
		root := metal.Root(e.A)
		if out[root] == nil {
			order = append(order, root)
		}
		out[root] = append(out[root], m.setting(k, Volts, "battery volts"))
	}
	return out, order
}
