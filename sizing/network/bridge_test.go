package network_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/network"
	"example.com/loomfolio/sizing/network/spicecheck"
)

// latch is a relay that holds itself through its own contact, once S has fed its coil,
// with a lamp on the contact.
func latch() (*bench, harness.ElementID) {
	b := newBench()
	sw := b.part("S").ID
	b.element("BAT", "BAT.+", "BAT.-", harness.Element{Kind: harness.EMF, Volts: 12.6, Ohms: 0.01})
	b.element("S", "S.1", "S.2", harness.Element{Kind: harness.Contact, When: on(sw, 1)})
	coil := b.element("K.coil", "K.86", "K.85", harness.Element{Kind: harness.RelayCoil, Ohms: 90})
	b.element("K.30-87", "K.30", "K.87", harness.Element{Kind: harness.Contact, When: harness.Condition{Kind: harness.Energised, Coil: coil}})
	b.element("L", "L.+", "L.-", harness.Element{Kind: harness.Load, Behaves: harness.AsResistance, Amps: 5, AtVolts: 12})
	b.wire("1", "BAT.+", "S.1", 0.01)
	b.wire("2", "S.2", "K.86", 0.01)
	b.wire("3", "K.85", "BAT.-", 0.01)
	b.wire("4", "BAT.+", "K.30", 0.01)
	b.wire("5", "K.87", "K.86", 0.01)
	b.wire("6", "K.87", "L.+", 0.02)
	b.wire("7", "L.-", "BAT.-", 0.02)
	b.state("off", harness.EngineOff, nil)
	return b, coil
}

func TestALatchHoldsFromTheStateBefore(t *testing.T) {
	b, coil := latch()
	require.False(t, b.solve(t, 0, network.Options{}).Energised[coil])
	s := b.solve(t, 0, network.Options{Held: []harness.ElementID{coil}})
	require.True(t, s.Energised[coil])
	require.InDelta(t, 12.5, s.Volts[b.at("K.86")], 0.2)
	spicecheck.Compare(t, b.Harness, s)
}

func TestBridgesAreOpenUntilTried(t *testing.T) {
	b, coil := latch()
	o := network.Options{Bridges: []network.Bridge{{A: b.at("L.+"), B: b.at("BAT.+")}, {A: b.at("S.2"), B: b.at("S.2")}}}
	p, err := network.Prepare(b.Harness, 0, network.Resistances{Wires: b.ohms}, o)
	require.NoError(t, err)
	faults, err := p.Faults()
	require.NoError(t, err)
	across := network.Fault{Wire: harness.None, Element: harness.None, Ohms: 0.02}
	for range 2 {
		sound, err := faults.Try()
		require.NoError(t, err)
		require.False(t, sound.Energised(coil))
		require.InDelta(t, 0, sound.Volts(b.at("L.+")), 1e-9)
		r, err := faults.Try(across)
		require.NoError(t, err)
		require.True(t, r.Energised(coil), "fed backwards through its own contact")
		whole, err := p.Broken(across)
		require.NoError(t, err)
		for i := range b.Terminals[1:] {
			require.InDelta(t, whole.Volts[i+1], r.Volts(harness.TerminalID(i+1)), 1e-9)
		}
		spicecheck.Compare(t, b.Harness, whole)
	}
	across.Bridge = 1
	_, err = faults.Try(across)
	require.ErrorContains(t, err, "one node")
	across.Bridge = 2
	_, err = faults.Try(across)
	require.ErrorContains(t, err, "no bridge")
}

// A coil that is broken whole moves nothing, in the whole state as in the reading.
func TestBrokenIsTheReading(t *testing.T) {
	b, coil := latch()
	p, err := network.Prepare(b.Harness, 0, network.Resistances{Wires: b.ohms}, network.Options{Held: []harness.ElementID{coil}})
	require.NoError(t, err)
	faults, err := p.Faults()
	require.NoError(t, err)
	for _, f := range []network.Fault{{Wire: harness.None, Element: coil, Ohms: math.Inf(1)}, {Wire: harness.None, Element: coil, Ohms: 90}, {Wire: 4, Ohms: math.Inf(1)}, {Wire: 5, Ohms: 1}} {
		r, err := faults.Try(f)
		require.NoError(t, err)
		s, err := p.Broken(f)
		require.NoError(t, err)
		for i := range b.Terminals[1:] {
			require.InDelta(t, s.Volts[i+1], r.Volts(harness.TerminalID(i+1)), 1e-9)
		}
		require.Equal(t, s.Energised[coil], r.Energised(coil))
		spicecheck.Compare(t, b.Harness, s)
	}
}

// A battery that is flat and weak, and a load that is turned from outside: the reading is
// that of two sources on one resistance, worked by hand.
func TestOtherSources(t *testing.T) {
	b := newBench()
	bat := b.element("BAT", "BAT.+", "BAT.-", harness.Element{Kind: harness.EMF, Volts: 12.6, Ohms: 0.01})
	fan := b.element("FAN", "FAN.+", "FAN.-", harness.Element{Kind: harness.Load, Behaves: harness.AsMotor, Amps: 10, AtVolts: 12})
	b.element("L", "L.+", "L.-", harness.Element{Kind: harness.Load, Behaves: harness.AsResistance, Amps: 1, AtVolts: 12})
	b.wire("1", "BAT.+", "FAN.+", 0.1)
	b.wire("2", "FAN.-", "BAT.-", 0.1)
	b.wire("3", "FAN.+", "L.+", 0.05)
	b.wire("4", "L.-", "BAT.-", 0.05)
	b.state("off", harness.EngineOff, nil)
	s := b.solve(t, 0, network.Options{
		Sources: []network.Source{{Element: bat, Volts: 8, Ohms: 0.5}},
		Turning: []network.Source{{Element: fan, Volts: 6, Ohms: 1.1}},
	})
	at := (8/0.6 + 6/1.2) / (1/0.6 + 1/1.2 + 1/12.1)
	require.InDelta(t, at, s.Volts[b.at("FAN.+")], 1e-9)
	require.InDelta(t, (8-at)/0.6, -s.Amps[bat], 1e-9)
	spicecheck.Compare(t, b.Harness, s)
	again := s.Resistances()
	require.Equal(t, b.ohms, again.Wires)
	require.Equal(t, 0.5, again.Links[bat])
}
