package network_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/network"
	"example.com/loomfolio/sizing/network/spicecheck"
)

// Two batteries of 12.6 V and 10 milliohm joined by 0.03 ohm: full both, they
// exchange nothing; one flat at 11.9 V, the other gives it 0.7 V over 0.05 ohm,
// 14 A. With a charger of 14.2 V behind 1 milliohm at the first, the flat one
// takes 2.3 V over 0.041 ohm, all of it from the charger.
func TestOneOfTwoBatteriesIsFlat(t *testing.T) {
	b := newBench()
	one := b.element("BAT1", "BAT1.+", "BAT1.-", harness.Element{Kind: harness.EMF, Volts: 12.6, Ohms: 0.01})
	two := b.element("BAT2", "BAT2.+", "BAT2.-", harness.Element{Kind: harness.EMF, Volts: 12.6, Ohms: 0.01})
	alt := b.element("ALT", "BAT1.+", "BAT1.-", harness.Element{Kind: harness.Charger, Volts: 14.2, Ohms: 0.001, Amps: 90,
		When: harness.Condition{Kind: harness.EngineIs, Engines: []harness.Engine{harness.EngineRunning}}})
	link := b.wire("1A", "BAT1.+", "BAT2.+", 0.02)
	b.wire("1B", "BAT2.-", "BAT1.-", 0.01)
	b.state("parked", harness.EngineOff, nil)
	b.state("driving", harness.EngineRunning, nil)
	require.InDelta(t, 0, b.solve(t, 0, network.Options{}).WireAmps[link], 1e-9)

	for flat, want := range map[harness.ElementID]float64{one: -14, two: 14} {
		s := b.solve(t, 0, network.Options{Flat: []harness.ElementID{flat}})
		require.InDelta(t, want, s.WireAmps[link], 1e-9)
		spicecheck.Compare(t, b.Harness, s)
	}
	s := b.solve(t, 1, network.Options{Flat: []harness.ElementID{two}})
	require.InDelta(t, 2.3/0.041, s.WireAmps[link], 1e-9)
	require.InDelta(t, -2.3/0.041, s.Amps[alt], 1e-9, "the full one gives nothing")
	require.Zero(t, s.Amps[one])
	spicecheck.Compare(t, b.Harness, s)
	s = b.solve(t, 1, network.Options{Flat: b.batteries()})
	require.InDelta(t, -90, s.Amps[alt], 1e-9, "all flat: its whole output")
}
