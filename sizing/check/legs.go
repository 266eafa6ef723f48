package check

import (
	"fmt"

	"example.com/loomfolio/sizing/check/practice"
	"example.com/loomfolio/sizing/describe"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/source"
)

// circuits turns legs into wires.
func (c *checker) circuits() {
	numbers := map[string]bool{}
	for i := range c.d.Circuits {
		w := &c.d.Circuits[i]
		id := harness.CircuitID(len(c.h.Circuits))
		c.h.Circuits = append(c.h.Circuits, harness.Circuit{
			ID: id, Key: w.Key.Text, Number: w.Number.Text, Name: w.Name.Or(w.Key.Text),
			Class: c.class(w.Class), Task: practice.Function(&c.Report, &c.h.Practice, w.Task), Notes: w.Notes.Text, Span: w.Key.Span,
		})
		numbers[w.Number.Text] = true
		for n := range w.Legs {
			c.leg(id, n, &w.Legs[n])
		}
	}
	c.missingNumbers(numbers)
	c.classes()
}

// missingNumbers counts circuits without a number on from the first free one.
func (c *checker) missingNumbers(taken map[string]bool) {
	next := 1
	for i := range c.h.Circuits {
		circuit := &c.h.Circuits[i]
		for circuit.Number == "" {
			n := fmt.Sprint(next)
			next++
			if !taken[n] {
				circuit.Number = n
			}
		}
	}
}

// leg walks the stops: neighbours on one part pass through it, neighbours on
// two parts are joined by a wire.
func (c *checker) leg(circuit harness.CircuitID, n int, w *describe.Leg) {
	halts, ok := c.halts(w)
	if !ok {
		return
	}
	leg := harness.Leg{Span: w.Span, Stops: []harness.TerminalID{halts[0].leave}}
	for i := 1; i < len(halts); i++ {
		from, to := halts[i-1], halts[i]
		if from.part == to.part {
			c.pass(from, to)
		} else if wire, ok := c.wire(circuit, n, from, to); ok {
			leg.Wires = append(leg.Wires, wire)
		}
		leg.Stops = append(leg.Stops, to.arrive)
		if to.leave != to.arrive && i < len(halts)-1 {
			leg.Stops = append(leg.Stops, to.leave)
		}
	}
	if len(leg.Wires) == 0 {
		c.Fail("leg-without-wire", w.Span, "a wire runs between two neighbouring stops on different parts", "this leg makes no wire")
	}
	c.h.Circuits[circuit].Legs = append(c.h.Circuits[circuit].Legs, leg)
	c.h.Circuits[circuit].Wires = append(c.h.Circuits[circuit].Wires, leg.Wires...)
}

func (c *checker) halts(w *describe.Leg) ([]halt, bool) {
	var out []halt
	good := true
	for i := range w.Stops {
		h, ok := c.halt(&w.Stops[i])
		if ok {
			c.formerly(h)
		}
		good = good && ok
		out = append(out, h)
	}
	return out, good
}

// pass checks that current can go through the part between the two stops.
func (c *checker) pass(from, to halt) {
	p := &c.h.Parts[from.part]
	a, z := from.leave, to.arrive
	if from.bare || to.bare {
		c.Fail("stop-twice", to.stop.To.Span, "name the part once, or name both of its terminals", "%s is named twice in a row", p.Ref)
		return
	}
	if a == z {
		c.Fail("stop-twice", to.stop.To.Span, "leave one of them out", "%s stands twice in a row", to.stop.To.Text)
		return
	}
	if !c.joined(p, a, z) {
		c.Fail("no-way-through", to.stop.To.Span, "name two terminals that a contact, winding or load of the part lies between",
			"nothing in %s (%s) lets current pass from %s to %s", p.Ref, p.Kind, c.h.Terminals[a].Name, c.h.Terminals[z].Name)
	}
}

// wire makes a wire from where one stop leaves to where the next is reached.
func (c *checker) wire(circuit harness.CircuitID, leg int, from, to halt) (harness.WireID, bool) {
	s := to.stop
	id := harness.WireID(len(c.h.Wires))
	w := harness.Wire{
		ID: id, Circuit: circuit, Leg: leg, From: from.leave, To: to.arrive,
		Length: s.Length.V, Gauge: s.Gauge.V, GaugeSpan: s.Gauge.Span,
		Insulation: practice.Insulation(&c.Report, &c.h.Practice, s.Insulation), Twist: s.Twist.Text, Screen: s.Screen.Text,
		Core: harness.None, Span: s.To.Span, ColourSpan: s.Colour.Span, InsulationSpan: s.Insulation.Span,
	}
	w.Base, w.Tracer = practice.Colour(&c.Report, s.Colour)
	w.Found.Base, w.Found.Tracer = practice.Colour(&c.Report, s.Found)
	w.FoundSpan = s.Found.Span
	w.Beside = s.Beside
	for _, v := range s.Via {
		if place := c.place(v); place != harness.None {
			w.Via = append(w.Via, place)
		}
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
	return id, true
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
