package misuse

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/harness/kind"
	"example.com/loomfolio/sizing/source"
	"example.com/loomfolio/sizing/unit"
)

// pointsMost is what points and their coil stand with the points closed, A: a 3 ohm coil takes
// 4.7 A at 14.2 V, one of 1.5 ohm without its ballast twice that. Common practice, no source.
const pointsMost = 6.0

// body reports what is wired wrongly at the parts of the body and the engine.
func (f *inspection) body() {
	for i := range f.H.Parts {
		p := &f.H.Parts[i]
		row, _ := kind.Of(p.Kind)
		switch {
		case p.Kind == harness.IgnitionCoil:
			f.unballasted(p)
		case p.Kind == harness.Hall:
			f.unpulled(p)
		case row.Recipe != nil && row.Recipe.EitherWay:
			f.liveAtRest(p)
		case row.Recipe != nil:
			f.crossed(p, row.Recipe)
		}
	}
}

// unballasted reports a coil that takes more than points stand while they are closed, but for
// the moment in which the engine is cranked.
func (f *inspection) unballasted(p *harness.Part) {
	most, at := 0.0, -1
	for _, id := range p.Elements {
		e := &f.H.Elements[id]
		if e.Kind != harness.Load || !f.onPoints(e) {
			continue
		}
		for s := range f.H.States {
			amps := math.Abs(f.Solvings[s].State.Amps[id])
			if f.H.States[s].Engine == harness.EngineRunning && e.Pulse > 0 {
				amps /= float64(e.Pulse)
			}
			if f.H.States[s].Engine != harness.EngineCranking && amps > most {
				most, at = amps, s
			}
		}
	}
	if at < 0 || most <= pointsMost*12/float64(f.H.SystemAt(p.Terminals[0]).Volts) {
		return
	}
	f.add(source.Problem{
		Slug: "coil-without-ballast", Level: source.Warning, Span: p.Span, Subjects: []string{p.Ref, f.H.States[at].Name},
		Summary: fmt.Sprintf("%s takes %s in %s while its points are closed: the points burn, and so does the coil with the key left on", p.Ref, unit.Amps(most), f.H.States[at].Name),
		Detail:  "put its ballast resistor before 15 (or write ballast: 1.5 ohm, if it is in it), or use a coil of 3 ohm",
		Numbers: []source.Number{number("amps", most)},
	})
}

// onPoints tells that a coil's current goes through points.
func (f *inspection) onPoints(e *harness.Element) bool {
	return slices.ContainsFunc(f.H.Parts, func(q harness.Part) bool {
		return q.Kind == harness.Points && slices.ContainsFunc(q.Terminals, func(t harness.TerminalID) bool {
			return f.Net.Tied(t, e.A) || f.Net.Tied(t, e.B)
		})
	})
}

// unpulled reports a Hall sensor whose output lies on nothing that feeds it: it can only pull down.
func (f *inspection) unpulled(p *harness.Part) {
	for _, id := range p.Elements {
		e := &f.H.Elements[id]
		if e.Kind != harness.Contact || !f.wired(e.A) {
			continue
		}
		pulled := slices.ContainsFunc(f.H.Elements, func(x harness.Element) bool {
			draws := f.H.Parts[x.Part].Kind == harness.Module || x.Kind == harness.Load || x.Kind == harness.RelayCoil || f.H.Resists(&x)
			return x.Part != p.ID && draws && (f.Net.Tied(x.A, e.A) || f.Net.Tied(x.B, e.A))
		})
		if pulled {
			continue
		}
		out := f.H.Terminals[e.A].Full
		f.add(source.Problem{
			Slug: "hall-without-pull-up", Level: source.Warning, Span: p.Span, Subjects: []string{p.Ref},
			Summary: fmt.Sprintf("nothing pulls %s up: its open collector only leads to ground, and what reads it sees no change", out),
			Detail:  fmt.Sprintf("put a resistor (1 kohm at 12 V) between %s and its feed; a module has one inside", out),
		})
	}
}

// liveAtRest reports a motor that turns either way and has the feed on both of its leads while
// it stands still.
func (f *inspection) liveAtRest(p *harness.Part) {
	for _, id := range p.Elements {
		e := &f.H.Elements[id]
		told := slices.ContainsFunc(f.out, func(p source.Problem) bool {
			return p.Slug == "motor-turns-one-way" && slices.Contains(p.Subjects, e.Name)
		})
		if e.Kind != harness.Load || told {
			continue
		}
		for s := range f.H.States {
			v := f.Solvings[s].State.Volts
			if a, b := math.Abs(v[e.A]), math.Abs(v[e.B]); math.Min(a, b) > float64(f.H.SystemAt(e.A).Volts)/2 && math.Abs(a-b) < 0.5 {
				f.add(source.Problem{
					Slug: "motor-live-at-rest", Level: source.Warning, Span: p.Span, Subjects: []string{p.Ref, f.H.States[s].Name},
					Summary: fmt.Sprintf("both leads of %s are live in %s, where it stands still: a lead that chafes through on the bodywork makes it turn", p.Ref, f.H.States[s].Name),
					Detail:  "let its switch join both leads to ground at rest, as {rest: [[31, U], [31, D]], up: [[30, U], [31, D]], down: [[30, D], [31, U]]}",
					Numbers: []source.Number{number("volts", math.Min(a, b))},
				})
				return
			}
		}
	}
}

// crossed reports a lamp with two loads that each hang on the circuit of the other, by what
// these circuits are called.
func (f *inspection) crossed(p *harness.Part, r *kind.Recipe) {
	loads := r.Loads()
	if len(loads) != 2 || loads[0].Words == "" {
		return
	}
	first, second := f.called(p, loads[0].From), f.called(p, loads[1].From)
	if !speaks(first, loads[1].Words) || speaks(first, loads[0].Words) || speaks(second, loads[1].Words) || !speaks(second, loads[0].Words) {
		return
	}
	f.add(source.Problem{
		Slug: "filaments-crossed", Level: source.Warning, Span: p.Span, Subjects: []string{p.Ref},
		Summary: fmt.Sprintf("%s.%s hangs on %s, and %s.%s on %s: its two filaments are crossed", p.Ref, loads[0].From, first, p.Ref, loads[1].From, second),
		Detail:  fmt.Sprintf("swap the two wires: %s is the one for %s, %s for %s", loads[0].From, word(loads[0].Words), loads[1].From, word(loads[1].Words)),
	})
}

func word(list string) string { return strings.Fields(list)[0] }

// called names the circuit of the wire at a terminal, and what that wire comes from; "" for none.
func (f *inspection) called(p *harness.Part, terminal string) string {
	for i := range f.H.Wires {
		w := &f.H.Wires[i]
		for _, ends := range [2][2]harness.TerminalID{{w.From, w.To}, {w.To, w.From}} {
			if t := &f.H.Terminals[ends[0]]; t.Part == p.ID && t.Name == terminal {
				name := f.H.Circuits[w.Circuit].Name
				if q := f.H.PartOf(ends[1]); q != nil && len(q.Positions) > 0 {
					name += " (" + q.Name + ")"
				}
				return name
			}
		}
	}
	return ""
}

// speaks tells whether a name holds one of some words.
func speaks(name, words string) bool {
	of := strings.FieldsFunc(strings.ToLower(name), func(r rune) bool { return r < 'a' || r > 'z' })
	return slices.ContainsFunc(strings.Fields(words), func(w string) bool { return slices.Contains(of, w) })
}
