// Package shed is for tests: it builds a harness whose wires are chosen already, wire by
// wire, for the packages that say what is fitted to them, bought and labelled.
package shed

import (
	"fmt"

	"example.com/loomfolio/sizing/choose/chosen"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/rating"
	"example.com/loomfolio/sizing/route"
	"example.com/loomfolio/sizing/source"
	"example.com/loomfolio/sizing/unit"
)

// Shed builds a harness whose wires are chosen already.
type Shed struct {
	H     *harness.Harness
	Ways  []route.Way
	C     chosen.Chosen
	terms map[string]harness.TerminalID
	Parts map[string]harness.PartID
}

// New is an empty one with the chassis as its only terminal.
func New() *Shed {
	s := &Shed{terms: map[string]harness.TerminalID{}, Parts: map[string]harness.PartID{}}
	s.H = &harness.Harness{
		System:    harness.System{Volts: 12},
		Practice:  harness.Practice{Pull: "ul-486a", Spare: 0.1},
		Terminals: []harness.Terminal{{Part: harness.None, Name: "chassis", Full: "chassis"}},
		Circuits:  []harness.Circuit{{Key: "main"}},
	}
	return s
}

// Part adds a part.
func (s *Shed) Part(ref string, kind harness.Kind) *harness.Part {
	id := harness.PartID(len(s.H.Parts))
	s.H.Parts = append(s.H.Parts, harness.Part{ID: id, Ref: ref, Kind: kind, Place: harness.None, Span: source.At(10+int(id), 1, 3)})
	s.Parts[ref] = id
	return &s.H.Parts[id]
}

// At gives a part's terminal, made where it is not there yet; "" is a part with one alone.
func (s *Shed) At(ref, name string) harness.TerminalID {
	full := ref
	if name != "" {
		full += "." + name
	}
	if t, ok := s.terms[full]; ok {
		return t
	}
	id := harness.TerminalID(len(s.H.Terminals))
	s.H.Terminals = append(s.H.Terminals, harness.Terminal{ID: id, Part: s.Parts[ref], Name: name, Full: full})
	s.terms[full] = id
	return id
}

// Wire lays a chosen wire; its size is of ISO 6722 thin wall, or of a numbered gauge.
func (s *Shed) Wire(from, to harness.TerminalID, g unit.Gauge, mm unit.Millimetre) harness.WireID {
	id := harness.WireID(len(s.H.Wires))
	c, ok := rating.ConductorOf(g)
	if !ok {
		panic("no such gauge in the test")
	}
	over, _ := rating.Diameter("thin-wall-125", c)
	s.H.Wires = append(s.H.Wires, harness.Wire{ID: id, Name: fmt.Sprintf("1%c", 'A'+int(id)), From: from, To: to, Span: source.At(50+int(id), 1, 3)})
	s.C.Wires = append(s.C.Wires, chosen.Wire{Gauge: g, Area: c.Area, Diameter: over, Insulation: "thin-wall-125"})
	s.Ways = append(s.Ways, route.Way{Length: mm})
	return id
}

// MM2, SAE and AWG are gauges.
func MM2(size string) unit.Gauge { return unit.Gauge{System: unit.Metric, Size: size} }
func SAE(size string) unit.Gauge { return unit.Gauge{System: unit.SAE, Size: size} }
func AWG(size string) unit.Gauge { return unit.Gauge{System: unit.AWG, Size: size} }
