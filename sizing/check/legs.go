package check

import (
	"cmp"
	"fmt"
	"slices"

	"example.com/loomfolio/sizing/check/practice"
	"example.com/loomfolio/sizing/describe"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/source"
)

// circuits turns legs into wires.
func (c *checker) circuits() {
	var legs []walked
	for i := range c.d.Circuits {
		w := &c.d.Circuits[i]
		id := harness.CircuitID(len(c.h.Circuits))
		c.h.Circuits = append(c.h.Circuits, harness.Circuit{
			ID: id, Key: w.Key.Text, Number: w.Number.Text, Name: w.Name.Or(w.Key.Text),
			Class: c.class(w.Class), Task: practice.Function(&c.Report, &c.h.Practice, w.Task), Notes: w.Notes.Text, Span: w.Key.Span,
		})
		for n := range w.Legs {
			if halts, ok := c.halts(&w.Legs[n]); ok {
				legs = append(legs, walked{circuit: id, n: n, span: w.Legs[n].Span, halts: halts})
			}
		}
	}
	c.turn(legs)
	for i := range legs {
		c.leg(&legs[i])
	}
	c.missingNumbers()
	c.classes()
}

// missingNumbers gives circuits without a number one.
func (c *checker) missingNumbers() {
	var written []string
	for i := range c.h.Circuits {
		written = append(written, c.h.Circuits[i].Number)
	}
	for i, n := range Numbered(written) {
		c.h.Circuits[i].Number = n
	}
}

// Numbered gives circuits their numbers: those without one, "", count on from the first free one.
func Numbered(written []string) []string {
	taken, next, out := map[string]bool{}, 1, slices.Clone(written)
	for _, n := range written {
		taken[n] = true
	}
	for i := range out {
		for out[i] == "" {
			n := fmt.Sprint(next)
			next++
			if !taken[n] {
				out[i] = n
			}
		}
	}
	return out
}

// leg walks the stops: neighbours on one part pass through it, neighbours on
// two parts are joined by a wire, and so are those of a jumper.
func (c *checker) leg(w *walked) {
	leg := harness.Leg{Span: w.span}
	for i := range w.halts {
		if h := w.halt(i); i > 0 {
			leg.Wires = append(leg.Wires, c.onward(w, i)...)
			leg.Stops = append(leg.Stops, h.arrive)
			if h.leave != h.arrive && i < len(w.halts)-1 {
				leg.Stops = append(leg.Stops, h.leave)
			}
		} else {
			leg.Stops = append(leg.Stops, h.leave)
		}
	}
	if len(leg.Wires) == 0 {
		c.Fail("leg-without-wire", w.span, "a wire runs between two neighbouring stops on different parts; a jumper within one part says its length, for example {to: K1.86, length: "+c.short()+"}", "this leg makes no wire")
	}
	circuit := &c.h.Circuits[w.circuit]
	circuit.Legs = append(circuit.Legs, leg)
	circuit.Wires = append(circuit.Wires, leg.Wires...)
}

// onward goes from the stop before one to it: over a wire, or through the part.
func (c *checker) onward(w *walked, i int) []harness.WireID {
	from, to, said := w.halt(i-1), w.halt(i), w.between(i)
	switch {
	case from.part != to.part:
	case c.jumps(from, to, said):
		c.across(from, to, said)
	default:
		c.pass(from, to, said)
		return nil
	}
	return []harness.WireID{c.wire(w, from, to, said)}
}

func (c *checker) halts(w *describe.Leg) ([]halt, bool) {
	var out []halt
	good := true
	for i := range w.Stops {
		h, ok := c.halt(&w.Stops[i])
		if ok && i > 0 && i < len(w.Stops)-1 {
			c.partsHere(&h)
		}
		if ok {
			c.formerly(h)
			c.bodyEnds(w, i, h)
		}
		good = good && ok
		out = append(out, h)
	}
	if !good {
		c.leaveOut(w)
	}
	return out, good
}

// leaveOut notes the parts of a leg that could not be read, also those that its misspelt
// stops may mean: nothing is said to be missing at them.
func (c *checker) leaveOut(w *describe.Leg) {
	for i := range w.Stops {
		name := w.Stops[i].Part.Text
		if _, known := c.partBy[name]; !known {
			twin, _ := source.Twin(name, c.partNames())
			name = cmp.Or(twin, source.Nearest(name, c.partNames()))
		}
		if id, known := c.partBy[name]; known {
			c.unread[id] = true
		}
	}
}

// pass checks that current can go through the part between the two stops; said is the
// stop that was written second.
func (c *checker) pass(from, to halt, said *describe.Stop) {
	p := &c.h.Parts[from.part]
	if p.Kind == harness.Unknown {
		return // what it does with the current is not known
	}
	a, z := from.leave, to.arrive
	if from.bare || to.bare {
		c.Fail("stop-twice", said.To.Span, "name the part once, or name both of its terminals", "%s is named twice in a row", p.Ref)
		return
	}
	if a == z {
		c.Fail("stop-twice", said.To.Span, "leave one of them out", "%s stands twice in a row", said.To.Text)
		return
	}
	if !c.joined(p, a, z) {
		c.Fail("no-way-through", said.To.Span, c.wayInstead(p, a, z, said),
			"nothing in %s (%s) lets current pass from %s to %s", p.Ref, p.Kind, c.h.Terminals[a].Name, c.h.Terminals[z].Name)
	}
}

// wire makes a wire from where one stop leaves to where the next is reached.
func (c *checker) wire(leg *walked, from, to halt, s *describe.Stop) harness.WireID {
	id := harness.WireID(len(c.h.Wires))
	w := harness.Wire{
		ID: id, Circuit: leg.circuit, Leg: leg.n, From: from.leave, To: to.arrive,
		Length: s.Length.V, Gauge: s.Gauge.V, GaugeSpan: s.Gauge.Span,
		Insulation: practice.Insulation(&c.Report, &c.h.Practice, s.Insulation), Twist: s.Twist.Text, Screen: s.Screen.Text,
		Core: harness.None, Span: s.To.Span, ColourSpan: s.Colour.Span, InsulationSpan: s.Insulation.Span,
	}
	w.Base, w.Tracer = practice.Colour(&c.Report, s.Colour)
	w.Found.Base, w.Found.Tracer = practice.Colour(&c.Report, s.Found)
	w.FoundSpan = s.Found.Span
	w.Beside = s.Beside
	c.own(&w, s)
	for _, v := range s.Via {
		if place := c.place(v); place != harness.None {
			w.Via = append(w.Via, place)
		}
	}
	if leg.turned {
		slices.Reverse(w.Via)
	}
	c.doubled(w)
	c.cavity(w)
	c.h.Wires = append(c.h.Wires, w)
	c.stops = append(c.stops, s)
	c.wiresAt[w.From] = append(c.wiresAt[w.From], id)
	c.wiresAt[w.To] = append(c.wiresAt[w.To], id)
	if s.Name.Given() {
		c.wireNamed[id] = s.Name
	}
	return id
}

// doubled warns of a second wire between the same two terminals.
func (c *checker) doubled(w harness.Wire) {
	for _, other := range c.wiresAt[w.From] {
		o := c.h.Wires[other]
		if (o.From == w.From && o.To == w.To) || (o.From == w.To && o.To == w.From) {
			p := c.Say(source.Warning, "doubled-wire", w.Span,
				"if one wire is meant, begin this leg at a later stop; two in parallel share the current only as long as both are whole",
				"a second wire joins %s and %s", c.h.Terminals[w.From].Full, c.h.Terminals[w.To].Full)
			p.Others = []source.Note{{Span: o.Span, Text: "the first one"}}
		}
	}
}

// cavity refuses two wires in one side of a connector's cavity.
func (c *checker) cavity(w harness.Wire) {
	for _, t := range []harness.TerminalID{w.From, w.To} {
		if c.h.Terminals[t].Cavity == "" || len(c.wiresAt[t]) == 0 {
			continue
		}
		part := c.h.PartOf(t)
		p := c.Fail("cavity-used-twice", w.Span, "one contact takes one wire: use another cavity, or join the wires at a splice before the connector",
			"two wires would share cavity %s of %s on the same side", c.h.Terminals[t].Cavity, part.Ref)
		p.Others = []source.Note{{Span: c.h.Wires[c.wiresAt[t][0]].Span, Text: "the wire that is there already"}}
	}
}
