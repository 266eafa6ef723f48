package network_test

import (
	"fmt"
	"math"
	"math/rand"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/network"
	"example.com/loomfolio/sizing/network/spicecheck"
)

// apart adds a battery with a lamp of 12 ohm behind a switch, which no metal joins to the rest.
func (b *bench) apart(name string) {
	sw := b.part("SW" + name).ID
	b.element(name, name+".+", name+".-", harness.Element{Kind: harness.EMF, Volts: 12.6, Ohms: 0.01})
	b.element("SW"+name, "SW"+name+".1", "SW"+name+".2", harness.Element{Kind: harness.Contact, When: on(sw, 1)})
	b.element("L"+name, "L"+name+".+", "L"+name+".-", harness.Element{Kind: harness.Load, Behaves: harness.AsResistance, Amps: 1, AtVolts: 12})
	b.wire(name+"1", name+".+", "SW"+name+".1", 0.01)
	b.wire(name+"2", "SW"+name+".2", "L"+name+".+", 0.01)
	b.wire(name+"3", "L"+name+".-", name+".-", 0.02)
}

// A battery of its own is counted from its own minus, its plus in a positive-earth vehicle.
func TestIslandsHaveVoltages(t *testing.T) {
	for _, positive := range []bool{false, true} {
		b := newBench()
		b.System.PositiveEarth = positive
		b.apart("A")
		b.apart("B")
		b.state("both", harness.EngineOff, map[string]int{"SWA": 1, "SWB": 1})
		b.state("none", harness.EngineOff, nil)
		s := b.solve(t, 0, network.Options{})
		amps := 12.6 / (12 + 0.01 + 0.01 + 0.02 + 0.01 + 0.002)
		earth, live := "-", "+"
		if positive {
			earth, live = live, earth
		}
		for _, name := range []string{"A", "B"} {
			require.Zero(t, b.volts(s, name+"."+earth))
			require.InDelta(t, 12.6-0.01*amps, math.Abs(b.volts(s, name+"."+live)), 1e-9)
			require.InDelta(t, amps, s.Amps[b.elementOf(t, "L"+name)], 1e-9)
			require.Zero(t, s.Volts[b.at(name+"."+earth)])
		}
		spicecheck.Compare(t, b.Harness, s)
		s = b.solve(t, 1, network.Options{})
		for i, v := range s.Volts[1:] {
			require.False(t, math.IsNaN(v), b.Terminals[i+1].Full)
		}
		require.InDelta(t, 12.6, math.Abs(b.volts(s, "B."+live)), 1e-9)
	}
}

func (b *bench) elementOf(t *testing.T, name string) harness.ElementID {
	for _, e := range b.Elements {
		if e.Name == name {
			return e.ID
		}
	}
	t.Fatal("no element ", name)
	return harness.None
}

// One wire between two batteries makes one island of them: the second is counted
// from the first. A lamp that hangs on nothing floats.
func TestOneWireJoinsIslands(t *testing.T) {
	b := newBench()
	b.apart("A")
	b.apart("B")
	b.wire("link", "A.+", "B.+", 0.01)
	b.element("L", "L.+", "L.-", harness.Element{Kind: harness.Load, Behaves: harness.AsLamp, Amps: 1, AtVolts: 12})
	b.state("on", harness.EngineOff, map[string]int{"SWA": 1})
	s := b.solve(t, 0, network.Options{})
	require.InDelta(t, b.volts(s, "A.+"), b.volts(s, "B.+"), 1e-9)
	require.InDelta(t, b.volts(s, "A.+")-12.6, b.volts(s, "B.-"), 1e-9)
	require.True(t, math.IsNaN(b.volts(s, "L.+")))
	spicecheck.Compare(t, b.Harness, s)
}

// Where the battery of an island is a charger alone, its minus is 0 V; the
// reading of a fault counts as the state does.
func TestIslandOfACharger(t *testing.T) {
	b := newBench()
	b.apart("A")
	b.element("C", "C.B+", "C.case", harness.Element{Kind: harness.Charger, Volts: 14.2, Ohms: 0.01, Amps: 20})
	b.element("H", "H.+", "H.-", harness.Element{Kind: harness.Load, Behaves: harness.AsPower, Amps: 5, AtVolts: 14.2, Floor: 10})
	b.wire("1", "C.B+", "H.+", 0.05)
	back := b.wire("2", "H.-", "C.case", 0.05)
	b.state("on", harness.EngineOff, map[string]int{"SWA": 1})
	s := b.solve(t, 0, network.Options{})
	require.Zero(t, b.volts(s, "C.case"))
	require.InDelta(t, 71, (b.volts(s, "H.+")-b.volts(s, "H.-"))*s.WireAmps[back], 1e-8, "5 A at 14.2 V")
	spicecheck.Compare(t, b.Harness, s)

	p, err := network.Prepare(b.Harness, 0, network.Resistances{Wires: b.ohms}, network.Options{})
	require.NoError(t, err)
	faults, err := p.Faults()
	require.NoError(t, err)
	r, err := faults.Try(network.Fault{Wire: back, Ohms: 1e6})
	require.NoError(t, err)
	require.InDelta(t, 14.2, r.Volts(b.at("H.-")), 0.01)
}

// Random vehicles with a second one beside each, which nothing joins.
func TestIslandsBySpice(t *testing.T) {
	spicecheck.Need(t)
	var cases []spicecheck.Case
	for seed := range 40 {
		b := vehicle(rand.New(rand.NewSource(int64(seed))), 10+seed)
		b.apart("X")
		b.apart("Y")
		for i := range b.States {
			b.States[i].Position = append(b.States[i].Position, make([]int, len(b.Parts)-len(b.States[i].Position))...)
		}
		b.States[1].Position[b.part("SWX").ID] = 1
		s := b.solve(t, 1+seed%2, network.Options{})
		require.InDelta(t, 12.6, b.volts(s, "Y.+"), 1e-9)
		cases = append(cases, spicecheck.Case{Name: fmt.Sprint("seed ", seed), Harness: b.Harness, State: s})
	}
	spicecheck.CompareAll(t, cases)
}
