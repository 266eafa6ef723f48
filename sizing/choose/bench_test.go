package choose

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/sizing/choose/chosen"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/route"
	"example.com/loomfolio/sizing/source"
	"example.com/loomfolio/sizing/unit"
)

// bench builds small harnesses by hand: parts with their elements, wires with
// their lengths, states.
type bench struct {
	h     *harness.Harness
	ways  []route.Way
	terms map[string]harness.TerminalID
	parts map[string]harness.PartID
	line  int
}

func newBench(system unit.System) *bench {
	b := &bench{terms: map[string]harness.TerminalID{}, parts: map[string]harness.PartID{}}
	b.h = &harness.Harness{
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

func (b *bench) span() source.Span { b.line++; return source.At(b.line, 1, 4) }

func (b *bench) part(ref string, kind harness.Kind) *harness.Part {
	id := harness.PartID(len(b.h.Parts))
	b.h.Parts = append(b.h.Parts, harness.Part{ID: id, Ref: ref, Kind: kind, Name: ref, Place: harness.None, Span: b.span()})
	b.parts[ref] = id
	return &b.h.Parts[id]
}

// at gives a terminal, made when it is first named: "FAN.+", "G1".
func (b *bench) at(full string) harness.TerminalID {
	if full == "chassis" {
		return harness.Chassis
	}
	if t, ok := b.terms[full]; ok {
		return t
	}
	ref, name, _ := strings.Cut(full, ".")
	p := &b.h.Parts[b.parts[ref]]
	id := harness.TerminalID(len(b.h.Terminals))
	b.h.Terminals = append(b.h.Terminals, harness.Terminal{ID: id, Part: p.ID, Name: name, Full: full})
	p.Terminals = append(p.Terminals, id)
	b.terms[full] = id
	return id
}

func (b *bench) element(ref, name, from, to string, e harness.Element) harness.ElementID {
	e.ID, e.Name, e.A, e.B = harness.ElementID(len(b.h.Elements)), name, b.at(from), b.at(to)
	e.Part = b.parts[ref]
	b.h.Elements = append(b.h.Elements, e)
	p := &b.h.Parts[e.Part]
	p.Elements = append(p.Elements, e.ID)
	return e.ID
}

func (b *bench) battery(ref string) {
	b.part(ref, harness.Battery).Capacity = 60
	b.element(ref, ref, ref+".+", ref+".-", harness.Element{Kind: harness.EMF, Volts: 12.6, Ohms: 0.005})
}

func (b *bench) fuse(ref string) *harness.Part {
	b.part(ref, harness.Fuse)
	b.element(ref, ref, ref+".1", ref+".2", harness.Element{Kind: harness.FuseLink, Ohms: 0.005})
	return &b.h.Parts[b.parts[ref]]
}

func (b *bench) ground(ref string) {
	b.part(ref, harness.Ground)
	b.element(ref, ref, ref, "chassis", harness.Element{Kind: harness.Resistance, Ohms: 0.001})
}

// switched makes a switch with two positions, off and on.
func (b *bench) switched(ref string) *harness.Part {
	p := b.part(ref, harness.Switch)
	p.Positions = []string{"off", "on"}
	b.element(ref, ref+".1-2", ref+".1", ref+".2", harness.Element{Kind: harness.Contact, Ohms: 0.002,
		When: harness.Condition{Kind: harness.InPosition, Switch: b.parts[ref], Positions: []int{1}}})
	return &b.h.Parts[b.parts[ref]]
}

func (b *bench) load(ref string, kind harness.Kind, amps unit.Ampere, behaves harness.Behaviour) *harness.Part {
	b.part(ref, kind)
	b.element(ref, ref, ref+".+", ref+".-", harness.Element{Kind: harness.Load, Amps: amps, AtVolts: 14.2, Behaves: behaves, Floor: 6})
	return &b.h.Parts[b.parts[ref]]
}

func (b *bench) starter(ref string, amps unit.Ampere) {
	b.part(ref, harness.Starter)
	b.element(ref, ref, ref+".30", ref+".case", harness.Element{Kind: harness.Load, Amps: amps, AtVolts: 12, Behaves: harness.AsMotor, Floor: 4,
		When: harness.Condition{Kind: harness.EngineIs, Engines: []harness.Engine{harness.EngineCranking}}})
	b.element(ref, ref+".block", ref+".case", "chassis", harness.Element{Kind: harness.Join})
}

func (b *bench) alternator(ref string, amps unit.Ampere) {
	b.part(ref, harness.Alternator)
	b.element(ref, ref, ref+".B+", ref+".case", harness.Element{Kind: harness.Charger, Volts: 14.2, Ohms: 0.005, Amps: amps,
		When: harness.Condition{Kind: harness.EngineIs, Engines: []harness.Engine{harness.EngineRunning}}})
	b.element(ref, ref+".block", ref+".case", "chassis", harness.Element{Kind: harness.Join})
}

// wire lays a wire of a length in mm.
func (b *bench) wire(name, from, to string, mm unit.Millimetre) *harness.Wire {
	id := harness.WireID(len(b.h.Wires))
	b.h.Wires = append(b.h.Wires, harness.Wire{ID: id, Name: name, From: b.at(from), To: b.at(to), Insulation: b.h.Practice.Insulation, Span: b.span()})
	b.ways = append(b.ways, route.Way{Length: mm})
	return &b.h.Wires[id]
}

// given fixes a wire's gauge.
func (b *bench) given(name string, g unit.Gauge) {
	for i := range b.h.Wires {
		if b.h.Wires[i].Name == name {
			b.h.Wires[i].Gauge, b.h.Wires[i].GaugeSpan = g, b.span()
		}
	}
}

func (b *bench) state(name string, engine harness.Engine, on ...string) {
	s := harness.State{Name: name, Engine: engine, Position: make([]int, len(b.h.Parts)), Span: b.span()}
	for _, ref := range on {
		s.Position[b.parts[ref]] = 1
	}
	b.h.States = append(b.h.States, s)
}

func (b *bench) choose(t testing.TB) (chosen.Chosen, source.Problems) {
	t.Helper()
	require.NoError(t, b.h.Verify())
	c, ps, err := All(b.h, b.ways)
	require.NoError(t, err)
	return c, ps
}

func (b *bench) wireOf(t testing.TB, c chosen.Chosen, name string) chosen.Wire {
	t.Helper()
	for i := range b.h.Wires {
		if b.h.Wires[i].Name == name {
			return c.Wires[i]
		}
	}
	t.Fatalf("no wire %s", name)
	return chosen.Wire{}
}

func fuseNamed(t testing.TB, c chosen.Chosen, name string) chosen.Fuse {
	t.Helper()
	for _, f := range c.Fuses {
		if f.Name == name {
			return f
		}
	}
	t.Fatalf("no fuse %s", name)
	return chosen.Fuse{}
}

func slugsOf(ps source.Problems) []string {
	var out []string
	for _, p := range ps {
		out = append(out, fmt.Sprintf("%s %s", p.Level, p.Slug))
	}
	return out
}

func find(ps source.Problems, slug string) *source.Problem {
	for i := range ps {
		if ps[i].Slug == slug {
			return &ps[i]
		}
	}
	return nil
}

// fan is a battery, a fuse close to it, a switch, a fan and a ground.
func fan(system unit.System, amps unit.Ampere, feed unit.Millimetre) *bench {
	b := newBench(system)
	b.battery("BAT")
	b.fuse("F1")
	b.switched("SW")
	b.load("FAN", harness.Motor, amps, harness.AsMotor)
	b.ground("G1")
	b.ground("G2")
	b.wire("1A", "BAT.+", "F1.1", 100)
	b.wire("1B", "F1.2", "SW.1", feed/2-100)
	b.wire("1C", "SW.2", "FAN.+", feed/2)
	b.wire("1D", "FAN.-", "G1", 1)
	b.wire("1E", "BAT.-", "G2", 1)
	b.state("parked", harness.EngineOff)
	b.state("running fan", harness.EngineOff, "SW")
	return b
}

// besideAlternator is a heater that a battery feeds through MF, and an alternator
// of 45 A through CF of a rating.
func besideAlternator(rating unit.Ampere) *bench {
	b := newBench(unit.Metric)
	b.battery("BAT")
	b.alternator("ALT", 45)
	b.fuse("CF").Rating = rating
	b.fuse("MF").Rating = 60
	b.load("HEATER", harness.Heater, 20, harness.AsCurrent)
	b.ground("G1")
	b.wire("1A", "BAT.+", "MF.1", 100)
	b.wire("1B", "MF.2", "HEATER.+", 100)
	b.wire("2A", "ALT.B+", "CF.1", 100)
	b.wire("2B", "CF.2", "HEATER.+", 900)
	b.wire("3A", "HEATER.-", "G1", 100)
	b.wire("3B", "BAT.-", "G1", 100)
	b.state("driving", harness.EngineRunning)
	return b
}
