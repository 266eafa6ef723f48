package side

import (
	"example.com/loomfolio/sizing/circuit"
	"example.com/loomfolio/sizing/harness"
)

// network is the harness with all contacts closed: first the wires in the order of the
// legs, then the elements. A node is a terminal.
func (f *finder) network() circuit.Network {
	n := circuit.Network{Nodes: len(f.h.Terminals), Reference: int(harness.Chassis)}
	for i := range f.legs {
		for _, j := range f.legs[i].Joins {
			n.Elements = append(n.Elements, circuit.Element{Kind: circuit.Resistor, A: int(j[0]), B: int(j[1]), Ohms: wireOhms})
		}
	}
	grounded := false
	for i := range f.h.Elements {
		e := &f.h.Elements[i]
		if e.Kind == harness.EMF {
			n.Elements = append(n.Elements, f.source(e))
			n.Elements = append(n.Elements, f.earthLead(e)...)
		} else if ohms := ohmsOf(e, f.h.Parts[e.Part].Kind); ohms > 0 {
			n.Elements = append(n.Elements, circuit.Element{Kind: circuit.Resistor, A: int(e.A), B: int(e.B), Ohms: ohms})
		}
		grounded = grounded || e.A == harness.Chassis || e.B == harness.Chassis
	}
	if !grounded {
		n.Reference = f.reference()
	}
	return n
}

// earthLead stands for the lead of a battery whose earthed pole has no wire: the check
// takes the vehicle's own as there.
func (f *finder) earthLead(e *harness.Element) []circuit.Element {
	pole := e.A + e.B - f.live(e)
	if len(f.near[pole]) > 0 || f.h.System.WiredReturn {
		return nil
	}
	return []circuit.Element{{Kind: circuit.Resistor, A: int(pole), B: int(harness.Chassis), Ohms: wireOhms}}
}

// reference is the earthed pole of the first battery, for a vehicle without bodywork.
func (f *finder) reference() int {
	for i := range f.h.Elements {
		if e := &f.h.Elements[i]; e.Kind == harness.EMF {
			return int(e.A + e.B - f.live(e))
		}
	}
	return int(harness.Chassis)
}

// source is a battery with its live side up. The pole from which metal without
// contacts leads to the bodywork is the earthed one, whatever its sign.
func (f *finder) source(e *harness.Element) circuit.Element {
	live := f.live(e)
	earth := e.A + e.B - live
	if f.earthed(live) && !f.earthed(earth) {
		live, earth = earth, live
	}
	return circuit.Element{Kind: circuit.Source, A: int(live), B: int(earth), Ohms: wireOhms, Volts: float64(f.h.System.Volts)}
}

// earthed tells whether wires and joints lead from a terminal to the bodywork.
func (f *finder) earthed(t harness.TerminalID) bool {
	plain := map[[2]harness.TerminalID]bool{}
	for i := range f.h.Elements {
		if e := &f.h.Elements[i]; metal(e) && e.When.Kind == harness.Always {
			plain[[2]harness.TerminalID{e.A, e.B}], plain[[2]harness.TerminalID{e.B, e.A}] = true, true
		}
	}
	seen := map[harness.TerminalID]bool{t: true}
	for queue := []harness.TerminalID{t}; len(queue) > 0; queue = queue[1:] {
		if queue[0] == harness.Chassis {
			return true
		}
		for _, s := range f.near[queue[0]] {
			if (s.leg >= 0 || plain[[2]harness.TerminalID{queue[0], s.to}]) && !seen[s.to] {
				seen[s.to] = true
				queue = append(queue, s.to)
			}
		}
	}
	return false
}

// ohmsOf is the resistance of an element with everything on; 0 for one that is left out:
// an alternator and its contacts, the diode across a relay's coil.
func ohmsOf(e *harness.Element, of harness.Kind) float64 {
	switch {
	case metal(e):
		return max(float64(e.Ohms), contactOhms)
	case e.Kind == harness.Rectifier && of != harness.Relay:
		return 1
	case e.Kind == harness.RelayCoil:
		return max(float64(e.Ohms), contactOhms)
	case e.Kind == harness.Load && e.Amps > 0:
		return min(max(float64(e.AtVolts)/float64(e.Amps), contactOhms), dimOhms)
	case e.Kind == harness.Load:
		return dimOhms
	}
	return 0
}
