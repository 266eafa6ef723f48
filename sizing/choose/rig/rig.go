// Package rig is for tests: it builds small harnesses by hand, with the length of each wire,
// and chooses everything for them. Ways are in mm, currents in A.
package rig

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/sizing/choose"
	"example.com/loomfolio/sizing/choose/chosen"
	"example.com/loomfolio/sizing/choose/finding"
	"example.com/loomfolio/sizing/choose/reason"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/route"
	"example.com/loomfolio/sizing/source"
	"example.com/loomfolio/sizing/unit"
)

// Rig is a harness that is built by hand: it has parts with their elements, wires with
// their lengths, states.
type Rig struct {
	H     *harness.Harness
	Ways  []route.Way
	terms map[string]harness.TerminalID
	Parts map[string]harness.PartID
	line  int
}

// Foot is a foot in mm.
const Foot = 304.8

// New is an empty harness of 12 V, with the chassis as its only terminal.
func New(system unit.System) *Rig {
	b := &Rig{terms: map[string]harness.TerminalID{}, Parts: map[string]harness.PartID{}}
	b.H = &harness.Harness{
		Sheet:  harness.Sheet{Gauge: system},
		System: harness.System{Volts: 12, Running: 14.2, Span: source.At(1, 1, 1)},
		Practice: harness.Practice{
			Drop:       map[string]unit.DropLimit{"default": {Fraction: 0.03}, "start": {Volts: 0.5}, "charge": {Volts: 0.4}, "light": {Fraction: 0.1}},
			Insulation: "thin-wall-125", FuseLoad: 0.75, Method: "computed", Ampacity: "computed", Pull: "ul-486a",
		},
		Terminals: []harness.Terminal{{Part: harness.None, Name: "chassis", Full: "chassis"}},
		Circuits:  []harness.Circuit{{Key: "main", Class: "default"}},
	}
	return b
}

// Span gives a new line of the description, for a part or wire to stand at.
func (b *Rig) Span() source.Span { b.line++; return source.At(b.line, 1, 4) }

// Part adds a part at no place.
func (b *Rig) Part(ref string, kind harness.Kind) *harness.Part {
	id := harness.PartID(len(b.H.Parts))
	b.H.Parts = append(b.H.Parts, harness.Part{ID: id, Ref: ref, Kind: kind, Name: ref, Place: harness.None, Span: b.Span()})
	b.Parts[ref] = id
	return &b.H.Parts[id]
}

// At gives a terminal, made when it is first named: "FAN.+", "G1".
func (b *Rig) At(full string) harness.TerminalID {
	if full == "chassis" {
		return harness.Chassis
	}
	if t, ok := b.terms[full]; ok {
		return t
	}
	ref, name, _ := strings.Cut(full, ".")
	p := &b.H.Parts[b.Parts[ref]]
	id := harness.TerminalID(len(b.H.Terminals))
	b.H.Terminals = append(b.H.Terminals, harness.Terminal{ID: id, Part: p.ID, Name: name, Full: full})
	p.Terminals = append(p.Terminals, id)
	b.terms[full] = id
	return id
}

// Element adds an element of a part between two terminals.
func (b *Rig) Element(ref, name, from, to string, e harness.Element) harness.ElementID {
	e.ID, e.Name, e.A, e.B = harness.ElementID(len(b.H.Elements)), name, b.At(from), b.At(to)
	e.Part = b.Parts[ref]
	b.H.Elements = append(b.H.Elements, e)
	p := &b.H.Parts[e.Part]
	p.Elements = append(p.Elements, e.ID)
	return e.ID
}

// Battery adds a battery of 60 Ah.
func (b *Rig) Battery(ref string) {
	b.Part(ref, harness.Battery).Capacity = 60
	b.Element(ref, ref, ref+".+", ref+".-", harness.Element{Kind: harness.EMF, Volts: 12.6, Ohms: 0.005})
}

// Fuse adds a fuse with terminals 1 and 2.
func (b *Rig) Fuse(ref string) *harness.Part {
	b.Part(ref, harness.Fuse)
	b.Element(ref, ref, ref+".1", ref+".2", harness.Element{Kind: harness.FuseLink, Ohms: 0.005})
	return &b.H.Parts[b.Parts[ref]]
}

// Ground adds a ground.
func (b *Rig) Ground(ref string) {
	b.Part(ref, harness.Ground)
	b.Element(ref, ref, ref, "chassis", harness.Element{Kind: harness.Resistance, Ohms: 0.001})
}

// Switched makes a switch with two positions, off and on.
func (b *Rig) Switched(ref string) *harness.Part {
	p := b.Part(ref, harness.Switch)
	p.Positions = []string{"off", "on"}
	b.Element(ref, ref+".1-2", ref+".1", ref+".2", harness.Element{Kind: harness.Contact, Ohms: 0.002,
		When: harness.Condition{Kind: harness.InPosition, Switch: b.Parts[ref], Positions: []int{1}}})
	return &b.H.Parts[b.Parts[ref]]
}

// Load adds a load between + and -, its current in A at 14.2 V.
func (b *Rig) Load(ref string, kind harness.Kind, amps unit.Ampere, behaves harness.Behaviour) *harness.Part {
	b.Part(ref, kind)
	b.Element(ref, ref, ref+".+", ref+".-", harness.Element{Kind: harness.Load, Amps: amps, AtVolts: 14.2, Behaves: behaves, Floor: 6})
	return &b.H.Parts[b.Parts[ref]]
}

// Starter adds a starter with terminals 30 and case, its current in A at 12 V.
func (b *Rig) Starter(ref string, amps unit.Ampere) {
	b.Part(ref, harness.Starter)
	b.Element(ref, ref, ref+".30", ref+".case", harness.Element{Kind: harness.Load, Amps: amps, AtVolts: 12, Behaves: harness.AsMotor, Floor: 4,
		When: harness.Condition{Kind: harness.EngineIs, Engines: []harness.Engine{harness.EngineCranking}}})
	b.Element(ref, ref+".block", ref+".case", "chassis", harness.Element{Kind: harness.Join})
}

// Alternator adds an alternator with terminals B+ and case, its output in A.
func (b *Rig) Alternator(ref string, amps unit.Ampere) {
	b.Part(ref, harness.Alternator)
	b.Element(ref, ref, ref+".B+", ref+".case", harness.Element{Kind: harness.Charger, Volts: 14.2, Ohms: 0.005, Amps: amps,
		When: harness.Condition{Kind: harness.EngineIs, Engines: []harness.Engine{harness.EngineRunning}}})
	b.Element(ref, ref+".block", ref+".case", "chassis", harness.Element{Kind: harness.Join})
}

// Wire lays a wire of a length in mm.
func (b *Rig) Wire(name, from, to string, mm unit.Millimetre) *harness.Wire {
	id := harness.WireID(len(b.H.Wires))
	b.H.Wires = append(b.H.Wires, harness.Wire{ID: id, Name: name, From: b.At(from), To: b.At(to), Insulation: b.H.Practice.Insulation, Span: b.Span()})
	b.Ways = append(b.Ways, route.Way{Length: mm})
	return &b.H.Wires[id]
}

// Given fixes a wire's gauge.
func (b *Rig) Given(name string, g unit.Gauge) {
	for i := range b.H.Wires {
		if b.H.Wires[i].Name == name {
			b.H.Wires[i].Gauge, b.H.Wires[i].GaugeSpan = g, b.Span()
		}
	}
}

// State adds a state in which the named switches are on.
func (b *Rig) State(name string, engine harness.Engine, on ...string) {
	s := harness.State{Name: name, Engine: engine, Position: make([]int, len(b.H.Parts)), Span: b.Span()}
	for _, ref := range on {
		s.Position[b.Parts[ref]] = 1
	}
	b.H.States = append(b.H.States, s)
}

// Settled settles on sizes and fuses.
func (b *Rig) Settled(t testing.TB) *choose.Settled {
	t.Helper()
	require.NoError(t, b.H.Verify())
	s, err := choose.Settle(b.H, b.Ways)
	require.NoError(t, err)
	return s
}

// Choose chooses everything, and gives what is found wrong.
func (b *Rig) Choose(t testing.TB) (chosen.Chosen, source.Problems) {
	t.Helper()
	s := b.Settled(t)
	c := reason.Of(s)
	return c, finding.All(s, &c)
}

// WireOf gives what was chosen for a wire.
func (b *Rig) WireOf(t testing.TB, c chosen.Chosen, name string) chosen.Wire {
	t.Helper()
	for i := range b.H.Wires {
		if b.H.Wires[i].Name == name {
			return c.Wires[i]
		}
	}
	t.Fatalf("no wire %s", name)
	return chosen.Wire{}
}

// FuseNamed gives what was chosen for a fuse.
func FuseNamed(t testing.TB, c chosen.Chosen, name string) chosen.Fuse {
	t.Helper()
	for _, f := range c.Fuses {
		if f.Name == name {
			return f
		}
	}
	t.Fatalf("no fuse %s", name)
	return chosen.Fuse{}
}

// Slugs gives level and slug of each problem.
func Slugs(ps source.Problems) []string {
	var out []string
	for _, p := range ps {
		out = append(out, fmt.Sprintf("%s %s", p.Level, p.Slug))
	}
	return out
}

// Find gives the first problem of a slug, nil where there is none.
func Find(ps source.Problems, slug string) *source.Problem {
	for i := range ps {
		if ps[i].Slug == slug {
			return &ps[i]
		}
	}
	return nil
}

// Again makes the states fit parts that were added after them.
func (b *Rig) Again() *Rig {
	for i := range b.H.States {
		for len(b.H.States[i].Position) < len(b.H.Parts) {
			b.H.States[i].Position = append(b.H.States[i].Position, 0)
		}
	}
	return b
}

// Share is a length of a way in a run, mm.
func Share(run harness.RunID, mm unit.Millimetre) route.Share {
	return route.Share{Run: run, Length: mm}
}
