package harness

import (
	"slices"

	"example.com/loomfolio/sizing/unit"
)

// SystemAt is the voltage on board that a terminal belongs to; of a ground, which all
// share, the main one.
func (h *Harness) SystemAt(t TerminalID) System { return h.system(h.SideAt(t)) }

// SystemOf is the voltage on board that an element is made for.
func (h *Harness) SystemOf(e *Element) System { return h.system(e.Side) }

// SideAt is SystemAt as an index into Systems.
func (h *Harness) SideAt(t TerminalID) int {
	if int(t) < len(h.Sides) {
		return h.Sides[t]
	}
	return 0
}

func (h *Harness) system(side int) System {
	if side > 0 && side < len(h.Systems) {
		return h.Systems[side]
	}
	return h.System
}

// BehindOf is the converter behind which an element is fed, None for none.
func (h *Harness) BehindOf(e *Element) ElementID {
	if t := h.Live(e); int(t) < len(h.Behind) {
		return h.Behind[t]
	}
	return None
}

// Nominals lists the nominal voltages on board, the main one first, each once.
func (h *Harness) Nominals() []float64 {
	out := []float64{float64(h.System.Volts)}
	for _, s := range h.Systems {
		if v := float64(s.Volts); !slices.Contains(out, v) {
			out = append(out, v)
		}
	}
	return out
}

// Mixed tells a vehicle with more than one nominal voltage.
func (h *Harness) Mixed() bool { return len(h.Nominals()) > 1 }

// Gives tells the elements that drive current: batteries, chargers, converters' outputs.
func (e *Element) Gives() bool { return e.Kind == EMF || e.Regulates() }

// Regulates tells the elements that give current at a voltage up to a limit, and take
// none: alternators and other chargers, and converters' outputs.
func (e *Element) Regulates() bool { return e.Kind == Charger || e.Kind == Converter }

// ConverterOf is the converter that a load is the input of, nil where it is none.
func (h *Harness) ConverterOf(load ElementID) *Element {
	e := &h.Elements[load]
	if e.Kind != Load || e.Part == None {
		return nil
	}
	for _, id := range h.Parts[e.Part].Elements {
		if c := &h.Elements[id]; c.Kind == Converter && c.Input == load {
			return c
		}
	}
	return nil
}

// NominalsOn lists the nominal voltages on which some wires lie, the main one first: grounds
// are on none, so that it is one of them only where nothing else is, or where a converter
// takes from it.
func (h *Harness) NominalsOn(wires []WireID) []unit.Volt {
	var out []unit.Volt
	main := false
	for _, id := range wires {
		for _, t := range [2]TerminalID{h.Wires[id].From, h.Wires[id].To} {
			s := h.SystemAt(t)
			if s.Volts != h.System.Volts && !slices.Contains(out, s.Volts) {
				out = append(out, s.Volts)
			}
			main = main || s.Volts == h.System.Volts && h.converts(t)
		}
	}
	if main || len(out) == 0 {
		out = append([]unit.Volt{h.System.Volts}, out...)
	}
	return out
}

// converts tells the live terminal of a converter's input.
func (h *Harness) converts(t TerminalID) bool {
	p := h.PartOf(t)
	return p != nil && slices.ContainsFunc(p.Elements, func(id ElementID) bool {
		e := &h.Elements[id]
		return e.Kind == Converter && h.Live(&h.Elements[e.Input]) == t
	})
}

// BatteryBehind is a battery that lies behind a converter, nil for none.
func (h *Harness) BatteryBehind(converter ElementID) *Element {
	for i := range h.Elements {
		if b := &h.Elements[i]; b.Kind == EMF && h.BehindOf(b) == converter {
			return b
		}
	}
	return nil
}

// LimitOf is the most, A, that flows into a short where an element is fed by a converter
// with no battery beside it; 0 where nothing limits it so.
func (h *Harness) LimitOf(e *Element) unit.Ampere {
	by := h.BehindOf(e)
	if by == None || h.BatteryBehind(by) != nil {
		return 0
	}
	return h.Elements[by].Amps
}
