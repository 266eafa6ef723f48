package network_test

import (
	"fmt"
	"math"
	"math/rand"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/network"
	"example.com/loomfolio/sizing/network/spicecheck"
	"example.com/loomfolio/sizing/unit"
)

// vehicle makes a harness of about so many wires: a fuse box, relays, diode
// feeds, switches, lamps, motors, modules, grounds.
func vehicle(r *rand.Rand, wires int) *bench {
	b := newBench()
	b.element("BAT", "BAT.+", "BAT.-", harness.Element{Kind: harness.EMF, Volts: 12.6, Ohms: 0.008})
	b.element("ALT", "ALT.B+", "ALT.case", harness.Element{Kind: harness.Charger, Volts: 14.2, Amps: unit.Ampere(30 + r.Intn(60)),
		When: harness.Condition{Kind: harness.EngineIs, Engines: []harness.Engine{harness.EngineRunning}}})
	b.element("ALT.block", "ALT.case", "chassis", harness.Element{Kind: harness.Join})
	b.element("EARTH", "EARTH", "chassis", harness.Element{Kind: harness.Resistance, Ohms: 0.0005})
	number := 0
	wire := func(from, to string) {
		number++
		b.wire(fmt.Sprint(number, "A"), from, to, 0.0005+0.03*r.Float64()*r.Float64())
	}
	wire("BAT.-", "EARTH")
	wire("ALT.B+", "BAT.+")
	for n := 0; len(b.Wires) < wires; n++ {
		b.branch(r, n, wire)
	}
	b.state("off", harness.EngineOff, nil)
	on := map[string]int{}
	for i := range b.Parts {
		on[b.Parts[i].Ref] = 1
	}
	b.state("all on", harness.EngineRunning, on)
	b.state("some on", harness.EngineOff, map[string]int{"SW0": 1, "SW2": 1, "SW5": 1})
	return b
}

// branch adds a fuse, a switch, perhaps a relay or a diode, and a load with its ground.
func (b *bench) branch(r *rand.Rand, n int, wire func(from, to string)) {
	name := func(part string) string { return fmt.Sprint(part, n) }
	b.element(name("F"), name("F")+".1", name("F")+".2", harness.Element{Kind: harness.FuseLink})
	b.element(name("G"), name("G"), "chassis", harness.Element{Kind: harness.Resistance, Ohms: 0.001})
	sw := b.part(name("SW")).ID
	b.element(name("SW")+".1-2", name("SW")+".1", name("SW")+".2", harness.Element{Kind: harness.Contact, When: on(sw, 1)})
	wire("BAT.+", name("F")+".1")
	wire(name("F")+".2", name("SW")+".1")
	feed := name("SW") + ".2"
	switch r.Intn(4) {
	case 0:
		k := name("K")
		coil := b.element(k+".coil", k+".86", k+".85", harness.Element{Kind: harness.RelayCoil, Ohms: 80, PullIn: 8, DropOut: 1.2})
		b.element(k+".diode", k+".85", k+".86", harness.Element{Kind: harness.Rectifier, Volts: 0.7})
		b.element(k+".30-87", k+".30", k+".87", harness.Element{Kind: harness.Contact, When: harness.Condition{Kind: harness.Energised, Coil: coil}})
		wire(feed, k+".86")
		wire(k+".85", name("G"))
		wire("BAT.+", k+".30")
		feed = k + ".87"
	case 1:
		d := name("D")
		b.element(d, d+".a", d+".k", harness.Element{Kind: harness.Rectifier, Volts: 0.7})
		wire(feed, d+".a")
		feed = d + ".k"
		if n > 0 && r.Intn(2) == 0 {
			wire(feed, fmt.Sprint("L", r.Intn(n), ".+"))
		}
	}
	l := name("L")
	behaves := []harness.Behaviour{harness.AsResistance, harness.AsCurrent, harness.AsLamp, harness.AsMotor, harness.AsPower}[r.Intn(5)]
	b.element(l, l+".+", l+".-", harness.Element{Kind: harness.Load, Behaves: behaves, Amps: unit.Ampere(0.1 + 8*r.Float64()*r.Float64()), AtVolts: 13.5})
	wire(feed, l+".+")
	wire(l+".-", name("G"))
}

// Lamps, diodes and relays stand frozen as they were found.
func TestVehiclesBySpice(t *testing.T) {
	spicecheck.Need(t)
	var cases []spicecheck.Case
	for seed := range 200 {
		b := vehicle(rand.New(rand.NewSource(int64(seed))), 10+seed/2)
		s := b.solve(t, 1+seed%2, b.flatWhere(seed%5 == 0))
		cases = append(cases, spicecheck.Case{Name: fmt.Sprint("seed ", seed), Harness: b.Harness, State: s})
	}
	spicecheck.CompareAll(t, cases)
}

// other makes other resistances for a harness; one wire in ten is cut.
func (b *bench) other(r *rand.Rand) network.Resistances {
	n := network.Resistances{Wires: slices.Clone(b.ohms), Links: make([]float64, len(b.Elements))}
	for i := range n.Wires {
		n.Wires[i] *= math.Pow(10, 2*r.Float64()-1)
		if r.Intn(10) == 0 {
			n.Wires[i] = math.Inf(1)
		}
	}
	for i := range n.Links {
		if b.Elements[i].Kind == harness.FuseLink && r.Intn(2) == 0 {
			n.Links[i] = 0.02 * (0.1 + r.Float64())
		}
	}
	return n
}

// requireSame compares two solvings of a state, within what rounding does.
func requireSame(t *testing.T, want, got network.State, says string) {
	t.Helper()
	require.Less(t, got.Residual, 1e-9, says)
	require.Equal(t, want.Energised, got.Energised, says)
	require.Equal(t, want.Chatter, got.Chatter, says)
	require.InDeltaSlice(t, want.WireAmps, got.WireAmps, 1e-7, says)
	require.InDeltaSlice(t, want.Amps, got.Amps, 1e-7, says)
	for i, v := range want.Volts {
		require.Equal(t, math.IsNaN(v), math.IsNaN(got.Volts[i]), says)
	}
	require.InDeltaSlice(t, want.Volts, got.Volts, 1e-9, says)
	require.Equal(t, len(want.Elements), len(got.Elements), says)
	for i, e := range want.Elements {
		require.Equal(t, e.Kind, got.Elements[i].Kind, says+" "+e.Name)
		require.InEpsilon(t, e.Value+1, got.Elements[i].Value+1, 1e-8, says+" "+e.Name)
	}
}

// What is prepared once gives with other resistances what a new start gives.
func TestWith(t *testing.T) {
	for seed := range 40 {
		r := rand.New(rand.NewSource(int64(seed)))
		b := vehicle(r, 10+3*seed)
		for state := range b.States {
			o := b.flatWhere(seed%3 == 0)
			p, err := network.Prepare(b.Harness, state, network.Resistances{Wires: b.ohms}, o)
			require.NoError(t, err)
			for range 3 {
				ohms := b.other(r)
				want, err := network.Solve(b.Harness, state, ohms, o)
				require.NoError(t, err)
				again, err := p.With(ohms)
				require.NoError(t, err)
				got, err := again.Solve()
				require.NoError(t, err)
				requireSame(t, want, got, fmt.Sprint("seed ", seed, " state ", state))
				require.Equal(t, ohms.Wires[0], got.Network.Elements[got.WireAt[0]].Ohms)
			}
		}
	}
}

// faultList is each wire open and each with a bad contact, then each fuse open.
func (b *bench) faultList() []network.Fault {
	var list []network.Fault
	for i := range b.Wires {
		list = append(list, network.Fault{Wire: harness.WireID(i), Ohms: math.Inf(1)}, network.Fault{Wire: harness.WireID(i), Ohms: 1})
	}
	for i := range b.Elements {
		if b.Elements[i].Kind == harness.FuseLink {
			list = append(list, network.Fault{Wire: harness.None, Element: harness.ElementID(i), Ohms: math.Inf(1)})
		}
	}
	return list
}

// with gives the resistances of a harness with faults.
func (b *bench) with(faults ...network.Fault) network.Resistances {
	n := network.Resistances{Wires: slices.Clone(b.ohms), Links: make([]float64, len(b.Elements))}
	for _, f := range faults {
		if f.Wire != harness.None {
			n.Wires[f.Wire] = f.Ohms
		} else {
			n.Links[f.Element] = f.Ohms
		}
	}
	return n
}

func (b *bench) requireReading(t *testing.T, want network.State, got network.Reading, says string) {
	t.Helper()
	require.Less(t, got.Residual, 1e-9, says)
	for i, v := range want.Volts {
		volts := got.Volts(harness.TerminalID(i))
		require.Equal(t, math.IsNaN(v), math.IsNaN(volts), "%s, %s", says, b.Terminals[i].Full)
		require.False(t, math.Abs(v-volts) > 1e-9, "%s, %s: %g V, not %g", says, b.Terminals[i].Full, volts, v)
	}
	for i, amps := range want.WireAmps {
		require.InDelta(t, amps, got.WireAmps(harness.WireID(i)), 1e-7, says)
	}
	for i, at := range want.ElementAt {
		require.Equal(t, want.Energised[i], got.Energised(harness.ElementID(i)), says)
		if at >= 0 {
			require.InDelta(t, want.Amps[i], got.Amps(harness.ElementID(i)), 1e-7, says)
		}
	}
	require.Equal(t, len(want.Chatter) > 0, got.Chatters(), says)
}

// A fault tried by changing the factor gives what the faulty harness gives from nothing.
func TestFaults(t *testing.T) {
	for seed := range 12 {
		b := vehicle(rand.New(rand.NewSource(int64(seed))), 15+5*seed)
		for state := range b.States {
			p, err := network.Prepare(b.Harness, state, network.Resistances{Wires: b.ohms}, network.Options{})
			require.NoError(t, err)
			faults, err := p.Faults()
			require.NoError(t, err)
			list, n := b.faultList(), 0
			for got, err := range faults.Each(list) {
				require.NoError(t, err)
				want, err := network.Solve(b.Harness, state, b.with(list[n]), network.Options{})
				require.NoError(t, err)
				b.requireReading(t, want, got, fmt.Sprint("seed ", seed, " state ", state, " fault ", list[n]))
				n++
			}
			require.Equal(t, len(list), n)
		}
	}
}

// Several faults at once, and none, which is the sound harness.
func TestManyFaults(t *testing.T) {
	r := rand.New(rand.NewSource(7))
	b := vehicle(r, 60)
	p, err := network.Prepare(b.Harness, 1, network.Resistances{Wires: b.ohms}, network.Options{})
	require.NoError(t, err)
	faults, err := p.Faults()
	require.NoError(t, err)
	list := b.faultList()
	for n := range 60 {
		var some []network.Fault
		for range n % 7 {
			some = append(some, list[r.Intn(len(list))])
		}
		got, err := faults.Try(some...)
		require.NoError(t, err)
		want, err := network.Solve(b.Harness, 1, b.with(some...), network.Options{})
		require.NoError(t, err)
		b.requireReading(t, want, got, fmt.Sprint(some))
	}
}

func TestFaultRefused(t *testing.T) {
	b := fan()
	p, err := network.Prepare(b.Harness, 0, network.Resistances{Wires: b.ohms}, network.Options{})
	require.NoError(t, err)
	faults, err := p.Faults()
	require.NoError(t, err)
	for _, c := range []struct {
		fault network.Fault
		says  string
	}{
		{network.Fault{Wire: 99, Ohms: 1}, "network: there is no wire 99"},
		{network.Fault{Wire: harness.None, Element: 99, Ohms: 1}, "network: there is no element 99"},
		{network.Fault{Wire: harness.None, Element: 2, Ohms: 1}, "network: ALT is no element of the network in state parked"},
		{network.Fault{Wire: 0}, "state parked: circuit: element 12A needs a resistance above 0 ohm"},
	} {
		_, err := faults.Try(c.fault)
		require.EqualError(t, err, c.says)
	}
	r, err := faults.Try()
	require.NoError(t, err)
	require.InDelta(t, 12.6, r.Volts(b.at("K1.30")), 1e-9, "a refused fault leaves nothing behind")
}

// The residual stays small at a battery with hundreds of wires.
func TestLarge(t *testing.T) {
	b := vehicle(rand.New(rand.NewSource(1)), 1500)
	for state := range b.States {
		s, err := network.Solve(b.Harness, state, network.Resistances{Wires: b.ohms}, network.Options{})
		require.NoError(t, err)
		require.Less(t, s.Residual, 1e-11)
	}
}
