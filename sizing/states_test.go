package sizing_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/sizing/source"
)

// Cases that people who wire cars report, as whole descriptions: what only the
// solved states show. Common practice, no source, unless said.

// A coil of 90 ohm left live takes 140 mA from 12.6 V, 3.4 Ah a day.
func TestFlatBattery(t *testing.T) {
	_, r := sized(t, `loomfolio: 1
title: Flat battery
system: {volts: 12}
parts:
  BAT: {kind: battery, capacity: 60 Ah}
  F1: {kind: fuse}
  F2: {kind: fuse}
  K1: {kind: relay, coil: 90 ohm}
  LAMP: {kind: lamp, draws: 5 A}
  CLOCK: {kind: module, inside: [{from: 30, to: 31, draws: 4 mA}]}
  SW: {kind: switch, positions: {off: [], on: [[1, 2]]}}
  G0: {kind: ground}
  G1: {kind: ground}
circuits:
  earth: {number: 1, legs: [[G0, {to: BAT.-, length: 300 mm}]]}
  lamp:
    number: 2
    legs:
      - [BAT.+, {to: F1, length: 150 mm}, {to: K1.86, length: 300 mm}, K1.85, {to: G1, length: 300 mm}]
      - [F1, {to: SW, length: 300 mm}, {to: K1.30, length: 300 mm}, K1.87, {to: LAMP, length: 1 m}, {to: G1, length: 300 mm}]
  clock: {number: 3, legs: [[BAT.+, {to: F2, length: 150 mm}, {to: CLOCK.30, length: 500 mm}, CLOCK.31, {to: G1, length: 300 mm}]]}
states:
  parked: {}
  lit: {SW: on}
`)
	b := r.Budgets[0]
	require.True(t, b.KeyOff)
	require.Len(t, b.Drains, 2, "the most first")
	require.Equal(t, "F1", b.Drains[0].Name)
	require.Equal(t, []string{"K1.coil"}, b.Drains[0].Loads)
	require.InDelta(t, 0.140, float64(b.Drains[0].Amps), 0.0005)
	require.InDelta(t, 3.4, float64(b.Drains[0].Amps)*24, 0.05, "Ah a day")
	require.Equal(t, "F2", b.Drains[1].Name)
	require.InDelta(t, 1, float64(b.Drains[0].Share+b.Drains[1].Share), 1e-12)
	require.Len(t, b.Batteries, 1)
	require.InDelta(t, 30/(0.144*24), b.Batteries[0].Days, 0.05, "half of 60 Ah")
	p := finding(r, "key-off-drain", "K1.coil")
	require.NotNil(t, p)
	require.Contains(t, p.Summary, "0.14 A through F1 (K1.coil), 0.004 A through F2 (CLOCK.30-31)")
	require.NotNil(t, finding(r, "relay-sides-swapped", "K1"), "and the relay is why")
}

// The third terminal of a switch on the ground side, meant for its lamp, is
// given battery power: in state "on" the battery reaches ground through no load.
func TestLitSwitch(t *testing.T) {
	const text = `loomfolio: 1
title: Lit switch
system: {volts: 12}
parts:
  BAT: {kind: battery}
  F1: {kind: fuse, rating: 10 A}
  F2: {kind: fuse, rating: 10 A}
  LAMP: {kind: lamp, draws: 4 A}
  SW: {kind: switch, positions: {off: [], on: [[1, 2], [1, 3]]}}
  G0: {kind: ground}
  G1: {kind: ground}
circuits:
  earth: {number: 1, legs: [[G0, {to: BAT.-, length: 300 mm}]]}
  lamp: {number: 2, legs: [[BAT.+, {to: F1, length: 150 mm}, {to: LAMP, length: 1 m}, {to: SW.1, length: 1 m}, SW.2, {to: G1, length: 300 mm}]]}
  light: {number: 3, legs: [[BAT.+, {to: F2, length: 150 mm}, {to: SW.3, length: 1 m}]]}
states:
  parked: {}
  lit: {SW: on}
`
	_, r := sized(t, text)
	p := finding(r, "short-circuit", "lit")
	require.NotNil(t, p)
	require.Equal(t, source.Error, p.Level)
	for _, name := range []string{"BAT", "F2", "SW.1-3", "SW.1-2", "G1", "3B", "2N"} {
		require.Contains(t, p.Subjects, name)
	}
	require.Greater(t, p.Numbers[0].Value, 100.0, "amperes")
}

// An isolator in the battery lead alone, the alternator on the bus behind it:
// open with the engine running the ignition stays live. A second pair of
// contacts in the ignition feed kills it.
func TestKillSwitch(t *testing.T) {
	car := func(iso, feed string) string {
		return `loomfolio: 1
title: Kill switch
system: {volts: 12}
parts:
  BAT: {kind: battery, capacity: 60 Ah}
  ISO: {kind: isolator` + iso + `}
  ALT: {kind: alternator, output: 45 A, terminals: [B+, case]}
  B1: {kind: bus}
  MF: {kind: fuse}
  F1: {kind: fuse}
  IGN: {kind: ignition-switch, terminals: [30, 15]}
  COIL: {kind: coil, draws: 4 A}
  G0: {kind: ground}
  G1: {kind: ground}
circuits:
  earth: {number: 1, legs: [[G0, {to: BAT.-, length: 300 mm}], [ALT.case, {to: G1, length: 300 mm}]]}
  main: {number: 2, class: charge, legs: [[BAT.+, {to: ISO.1, length: 150 mm}, ISO.2, {to: B1.in, length: 150 mm}], [ALT.B+, {to: MF, length: 900 mm}, {to: B1.alt, length: 150 mm}]]}
  ignition: {number: 3, legs: [[B1.ign, {to: F1, length: 100 mm}, ` + feed + `{to: IGN.30, length: 500 mm}, IGN.15, {to: COIL, length: 500 mm}, {to: G1, length: 300 mm}]]}
states:
  parked: {}
  driving: {IGN: run, engine: running}
`
	}
	_, r := sized(t, car("", ""))
	p := finding(r, "isolator-does-not-kill", "ISO")
	require.NotNil(t, p)
	require.Contains(t, p.Subjects, "COIL")
	require.InDelta(t, 4, p.Numbers[0].Value, 0.2)
	_, r = sized(t, car(", positions: {on: [[1, 2], [3, 4]], off: []}", "{to: ISO.3, length: 500 mm}, ISO.4, "))
	require.Nil(t, finding(r, "isolator-does-not-kill", "ISO"))
}

// A gauge and 10 A of lamps on one ground with a joint of 0.05 ohm: it lifts by 0.5 V.
func TestGaugeReadsWithTheLights(t *testing.T) {
	car := func(ground string) string {
		return `loomfolio: 1
title: Gauge reads with the lights
system: {volts: 12}
parts:
  BAT: {kind: battery}
  F1: {kind: fuse}
  F2: {kind: fuse}
  SW: {kind: switch, positions: {off: [], on: [[1, 2]]}}
  LAMPS: {kind: lamp, draws: 10 A, behaves: current}
  OIL: {kind: gauge, draws: 0.1 A}
  G0: {kind: ground}
  G1: {kind: ground, joint: 0.05 ohm}
  G2: {kind: ground}
circuits:
  earth: {number: 1, legs: [[G0, {to: BAT.-, length: 300 mm}]]}
  lamps: {number: 2, legs: [[BAT.+, {to: F1, length: 150 mm}, {to: SW, length: 1 m}, {to: LAMPS, length: 1 m}, {to: G1, length: 300 mm}]]}
  oil: {number: 3, legs: [[BAT.+, {to: F2, length: 150 mm}, {to: OIL, length: 1 m}, {to: ` + ground + `, length: 300 mm}]]}
`
	}
	_, r := sized(t, car("G1"))
	p := finding(r, "gauge-on-shared-ground", "OIL")
	require.NotNil(t, p)
	require.InDelta(t, 0.5, p.Numbers[0].Value, 0.001)
	require.Contains(t, p.Summary, "G1")
	_, r = sized(t, car("G2"))
	require.Nil(t, finding(r, "gauge-on-shared-ground", "OIL"))
}

// A changeover relay fed on 30 with nothing on 87a: it is live whenever the coil is off.
func TestChangeoverRelayFedOnThirty(t *testing.T) {
	_, r := sized(t, `loomfolio: 1
title: Changeover relay
system: {volts: 12}
parts:
  BAT: {kind: battery}
  F1: {kind: fuse}
  K1: {kind: relay, changeover: true}
  SW: {kind: switch, positions: {off: [], on: [[1, 2]]}}
  FAN: {kind: motor, draws: 10 A}
  G0: {kind: ground}
  G1: {kind: ground}
circuits:
  earth: {number: 1, legs: [[G0, {to: BAT.-, length: 300 mm}]]}
  fan:
    number: 2
    legs:
      - [BAT.+, {to: F1, length: 150 mm}, {to: K1.30, length: 300 mm}, K1.87, {to: FAN, length: 1 m}, {to: G1, length: 300 mm}]
      - [F1, {to: SW, length: 300 mm}, {to: K1.86, length: 300 mm}, K1.85, {to: G1, length: 300 mm}]
`)
	p := finding(r, "open-contact-live", "K1")
	require.NotNil(t, p)
	require.Equal(t, source.Advice, p.Level)
	require.Contains(t, p.Summary, "K1.87a has no wire and is live in parked")
	require.Nil(t, finding(r, "relay-sides-swapped", "K1"))
}
