package sizing_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/sizing/source"
)

// A winch with a battery of its own, which no metal joins to the rest: its voltages
// are counted from that battery's minus, and its wires are sized like any.
func TestTwoBatteriesApart(t *testing.T) {
	h, r := sized(t, `loomfolio: 1
title: Two batteries apart
system: {volts: 12, return: wired}
parts:
  BAT: {kind: battery}
  B2: {kind: battery}
  F1: {kind: fuse}
  F2: {kind: fuse}
  L1: {kind: lamp, draws: 5 W}
  L2: {kind: motor, name: Winch, draws: 80 A, stud: M8}
  S1: {kind: switch, positions: {off: [], on: [[1, 2]]}}
  S2: {kind: switch, stud: M8, positions: {off: [], on: [[1, 2]]}}
circuits:
  a: {number: 1, legs: [[BAT.+, {to: F1, length: 100 mm}, {to: S1, length: 1 m}, {to: L1, length: 1 m}, {to: BAT.-, length: 1 m}]]}
  b: {number: 2, legs: [[B2.+, {to: F2, length: 100 mm}, {to: S2, length: 3 m}, {to: L2, length: 3 m}, {to: B2.-, length: 3 m}]]}
states:
  parked: {}
  both: {S1: on, S2: on}
`)
	require.Zero(t, r.Findings.Count(source.Error)+r.Findings.Count(source.Warning), "%v", r.Findings)
	for _, state := range []string{"parked", "both"} {
		require.InDelta(t, 0, volts(t, h, r, state, "B2.-"), 1e-12)
		require.InDelta(t, 12.4, volts(t, h, r, state, "B2.+"), 0.21)
	}
	require.InDelta(t, 80, float64(r.Wires[wire(t, h, "2C")].Amps), 1e-6)
	require.InDelta(t, 12.6-0.005*80, volts(t, h, r, "both", "B2.+"), 1e-6, "60 Ah have 5 milliohm")
}

// A dynamo with its field winding inside gives its current all the same, with plus or
// minus earthed: 8 A to the heater and 2 A to its own field, at 14 V both.
func TestADynamoWithItsFieldGivesCurrent(t *testing.T) {
	for earth, legs := range map[string]string{
		"negative": "[BAT.-, {to: G0, length: 200 mm}], [REG.A, {to: F1, length: 100 mm}, {to: BAT.+, length: 100 mm}], [BAT.+, {to: F2, length: 100 mm}, {to: SW, length: 1 m}, {to: L, length: 1 m}, {to: G1, length: 200 mm}]",
		"positive": "[BAT.+, {to: G0, length: 200 mm}], [REG.A, {to: F1, length: 100 mm}, {to: BAT.-, length: 100 mm}], [G1, {to: L, length: 1 m}, {to: SW, length: 1 m}, {to: F2, length: 200 mm}, {to: BAT.-, length: 100 mm}]",
	} {
		_, r := sized(t, `loomfolio: 1
title: Dynamo
system: {volts: 12, running: 14 V, earth: `+earth+`}
parts:
  BAT: {kind: battery, capacity: 55 Ah}
  DYN: {kind: alternator, name: Dynamo, output: 22 A, regulated: 14 V, terminals: [case, D, F], inside: [{from: F, to: case, draws: 2 A, behaves: resistance}]}
  REG: {kind: module, name: Control box, stud: M5, inside: [{join: [A, D, F]}]}
  F1: {kind: fuse, body: bolt}
  F2: {kind: fuse}
  L: {kind: heater, draws: 8 A}
  SW: {kind: switch, positions: {off: [], on: [[1, 2]]}}
  G0: {kind: ground, stud: M8}
  G1: {kind: ground}
circuits:
  field: {number: 1, legs: [[DYN.case, {to: G0, length: 500 mm}], [DYN.D, {to: REG.D, length: 500 mm}], [REG.F, {to: DYN.F, length: 500 mm}]]}
  all: {number: 2, legs: [`+legs+`]}
states:
  day: {SW: on, engine: running}
`)
		require.InDelta(t, 10, float64(r.Budgets[0].Sources["DYN"]), 0.4, earth)
		require.InDelta(t, 22, float64(r.Budgets[0].Alternator), 1e-9)
		require.InDelta(t, 0, float64(r.Budgets[0].Sources["BAT"]), 1e-6, "it is charged")
	}
}
