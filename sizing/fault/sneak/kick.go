package sneak

import (
	"fmt"
	"math"

	"example.com/loomfolio/sizing/forest"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/proof"
	"example.com/loomfolio/sizing/source"
)

// burns is the voltage backwards from which what lies beside a coil may not stand its kick,
// V; judgement, not published. ISO 7637-2 tests modules for 12 V with 75 to 150 V.
const burns = 50

// kicks looks for coils that nothing suppresses, with a lamp or a module on the same two
// pieces of metal: when the contact before both opens, the coil's current goes on backwards
// through what lies beside it, and its voltage is what the resistances there make of it. A
// filament stands that; a light-emitting diode or a module may not.
func (s *search) kicks() {
	metal := s.firm()
	for _, id := range s.coils {
		e := &s.h.Elements[id]
		p := &s.h.Parts[e.Part]
		if p.Kind != harness.Relay || p.Suppression == "resistor" || p.Suppression == "diode" {
			continue
		}
		if beside, volts := s.besideCoil(&metal, e); len(beside) > 0 {
			s.kick(e, p, beside, volts)
		}
	}
}

// firm joins what metal joins whatever the switches do: wires, fuses, fixed contacts.
func (s *search) firm() forest.Forest {
	f := forest.New(len(s.at))
	for i := range s.edges {
		e := &s.edges[i]
		if e.wire != harness.None || s.plain(&s.h.Elements[e.element]) {
			f.Join(e.a, e.b)
		}
	}
	return f
}

func (s *search) plain(e *harness.Element) bool {
	return s.h.Parts[e.Part].Kind == harness.Isolator && e.Kind == harness.Contact || e.When.Kind == harness.Always && (e.Kind == harness.FuseLink || e.Kind == harness.Join || e.Kind == harness.Contact || e.Kind == harness.Resistance && float64(e.Ohms) < metal)
}

// besideCoil lists the lamps, modules and gauges on both pieces of metal of a coil, and the
// voltage that its current makes there, +Inf where nothing takes it; none where a diode, a
// motor, a heater or a source lies there too, which takes the kick.
func (s *search) besideCoil(metal *forest.Forest, coil *harness.Element) (out []harness.ElementID, volts float64) {
	live, dead := metal.Root(s.live(coil)), metal.Root(s.dead(coil))
	siemens := 0.0
	for i := range s.h.Elements {
		e := &s.h.Elements[i]
		if a, b := metal.Root(s.live(e)), metal.Root(s.dead(e)); e.ID == coil.ID || e.Kind == harness.Open || min(a, b) != min(live, dead) || max(a, b) != max(live, dead) {
			continue
		}
		switch k := s.h.Parts[e.Part].Kind; {
		case e.Kind == harness.RelayCoil:
		case e.Kind == harness.Load && (k == harness.Lamp || k == harness.Module || k == harness.Gauge):
			out = append(out, e.ID)
			if e.Behaves == harness.AsLamp || e.Behaves == harness.AsResistance {
				siemens += float64(e.Amps) / max(float64(e.AtVolts), s.nominal())
			}
		default:
			return nil, 0
		}
	}
	return out, s.described(coil) / siemens
}

func (s *search) kick(e *harness.Element, p *harness.Part, beside []harness.ElementID, volts float64) {
	names := s.elements(beside)
	much := fmt.Sprintf("with up to %.0f V", volts)
	if math.IsInf(volts, 1) {
		much = "with some hundred volts"
	}
	says := fmt.Sprintf("when the contact before %s opens, the current of its coil goes on backwards through %s beside it, %s", p.Ref, source.Some(names, ""), much)
	slug, cure := "", "none: what hangs beside it stands that"
	if volts > burns {
		slug, cure = "coil-kick", "use a relay with a diode or resistor across its coil (suppression: diode), or feed what hangs beside it by a contact of its own"
		x := source.Problem{Slug: slug, Level: source.Advice, Span: p.Span, Summary: says, Detail: cure, Subjects: append([]string{p.Ref}, names...)}
		if !math.IsInf(volts, 1) {
			x.Numbers = []source.Number{{Name: "volts", Value: volts}}
		}
		s.Problems = append(s.Problems, x)
	}
	coil := step{harness.None, e.ID, s.h.Earthed(e), s.h.Live(e), false}
	load := &s.h.Elements[beside[0]]
	w := way{coil, step{harness.None, load.ID, s.h.Live(load), s.h.Earthed(load), false}}
	s.Sneaks = append(s.Sneaks, proof.Sneak{Kind: Kick, Path: w.stops(), Loads: beside, Amps: s.described(e), Says: says, Cure: cure, Slug: slug})
}
