// Package kick looks for relay coils that nothing suppresses, with a lamp, a module or a
// gauge on the same two pieces of metal: when the contact before both opens, the coil's
// current goes on backwards through what lies beside it.
//
// In: the model. Out: one sneak path a coil, and a finding where what lies beside it may
// not stand that. Method: wires, fuses and fixed contacts make the metal; the voltage is
// what the resistances there make of the coil's current. A filament stands that; a
// light-emitting diode or a module may not.
package kick

import (
	"fmt"
	"math"

	"example.com/loomfolio/sizing/forest"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/proof"
	"example.com/loomfolio/sizing/source"
)

const (
	// Kind is that of the sneak paths: a coil that lets go sends its energy through a load beside it.
	Kind = "coil kick"

	// burns is the voltage backwards from which what lies beside a coil may not stand its kick,
	// V; judgement, not published. ISO 7637-2 tests modules for 12 V with 75 to 150 V.
	burns = 50

	// metal is the resistance below which what is no load counts as metal, ohm. Common
	// practice, no source.
	metal = 0.2
)

// Search looks at the coils of all relays, in the order of the elements.
func Search(h *harness.Harness) (sneaks []proof.Sneak, found source.Problems) {
	firm := Firm(h)
	for i := range h.Elements {
		e := &h.Elements[i]
		p := &h.Parts[e.Part]
		if e.Kind != harness.RelayCoil || p.Kind != harness.Relay || p.Suppression == "resistor" || p.Suppression == "diode" {
			continue
		}
		if loads, volts := beside(h, &firm, e); len(loads) > 0 {
			sneak, problem := tell(h, e, loads, volts)
			sneaks, found = append(sneaks, sneak), append(found, problem...)
		}
	}
	return sneaks, found
}

// Firm joins what metal joins whatever the switches do: wires, fuses, fixed contacts; by
// TerminalID.
func Firm(h *harness.Harness) forest.Forest {
	f := forest.New(len(h.Terminals))
	for _, w := range h.Wires {
		f.Join(int(w.From), int(w.To))
	}
	for i := range h.Elements {
		if e := &h.Elements[i]; plain(h, e) {
			f.Join(int(e.A), int(e.B))
		}
	}
	return f
}

func plain(h *harness.Harness, e *harness.Element) bool {
	if e.Kind == harness.Contact && h.Parts[e.Part].Kind == harness.Isolator {
		return true
	}
	switch e.Kind {
	case harness.FuseLink, harness.Join, harness.Contact:
		return e.When.Kind == harness.Always
	case harness.Resistance:
		return e.When.Kind == harness.Always && float64(e.Ohms) < metal
	}
	return false
}

// beside lists the lamps, modules and gauges on both pieces of metal of a coil, and the
// voltage that its current makes there, +Inf where nothing takes it; none where a diode, a
// motor, a heater or a source lies there too, which takes the kick.
func beside(h *harness.Harness, firm *forest.Forest, coil *harness.Element) (out []harness.ElementID, volts float64) {
	between := func(e *harness.Element) [2]int {
		a, b := firm.Root(int(e.A)), firm.Root(int(e.B))
		return [2]int{min(a, b), max(a, b)}
	}
	siemens := 0.0
	for i := range h.Elements {
		e := &h.Elements[i]
		if e.ID == coil.ID || e.Kind == harness.Open || between(e) != between(coil) {
			continue
		}
		switch k := h.Parts[e.Part].Kind; {
		case e.Kind == harness.RelayCoil:
		case e.Kind == harness.Load && (k == harness.Lamp || k == harness.Module || k == harness.Gauge):
			out = append(out, e.ID)
			if e.Behaves == harness.AsLamp || e.Behaves == harness.AsResistance {
				siemens += float64(e.Amps) / max(float64(e.AtVolts), float64(h.SystemOf(e).Volts))
			}
		default:
			return nil, 0
		}
	}
	return out, amps(h, coil) / siemens
}

// amps is what a coil takes.
func amps(h *harness.Harness, coil *harness.Element) float64 {
	if coil.Ohms <= 0 {
		return 0
	}
	return float64(h.SystemOf(coil).Volts) / float64(coil.Ohms)
}

// tell gives the sneak path, and the finding where there is one.
func tell(h *harness.Harness, coil *harness.Element, loads []harness.ElementID, volts float64) (proof.Sneak, source.Problems) {
	p := &h.Parts[coil.Part]
	var names []string
	for _, id := range loads {
		names = append(names, h.Elements[id].Name)
	}
	much := fmt.Sprintf("with up to %.0f V", volts)
	if math.IsInf(volts, 1) {
		much = "with some hundred volts"
	}
	out := proof.Sneak{
		Kind: Kind, Path: path(h, coil, &h.Elements[loads[0]]), Loads: loads, Amps: amps(h, coil), Cure: "none: what hangs beside it stands that",
		Says: fmt.Sprintf("when the contact before %s opens, the current of its coil goes on backwards through %s beside it, %s", p.Ref, source.Some(names, ""), much),
	}
	if volts <= burns {
		return out, nil
	}
	out.Slug, out.Cure = "coil-kick", "use a relay with a diode or resistor across its coil (suppression: diode), or feed what hangs beside it by a contact of its own"
	x := source.Problem{Slug: out.Slug, Level: source.Advice, Span: p.Span, Summary: out.Says, Detail: out.Cure, Subjects: append([]string{p.Ref}, names...)}
	if !math.IsInf(volts, 1) {
		x.Numbers = []source.Number{{Name: "volts", Value: volts}}
	}
	return out, source.Problems{x}
}

// path leads through the coil and back through a load.
func path(h *harness.Harness, coil, load *harness.Element) []proof.Stop {
	return []proof.Stop{
		{At: h.Earthed(coil), Wire: harness.None, Element: coil.ID},
		{At: h.Live(load), Wire: harness.None, Element: load.ID},
		{At: h.Earthed(load), Wire: harness.None, Element: harness.None},
	}
}
