package sizing_test

import (
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/sizing/source"
)

const sprint = `loomfolio: 1
title: Kestrel Sprint loom
revision: A
vehicle: {name: Kestrel Sprint, identity: KS-77}
system: {volts: 12, running: 14.2 V, earth: negative, return: chassis}
places:
  boot:     {name: Boot floor, zone: boot, tail: 150 mm}
  scuttle:  {name: Scuttle (isolator), zone: cabin, tail: 100 mm}
  dash:     {name: Dash panel, zone: cabin, tail: 150 mm}
  bulkhead: {name: Bulkhead, zone: engine, tail: 150 mm}
  engine:   {name: Engine, zone: engine, ambient: 90 C, tail: 200 mm}
  rad:      {name: Radiator, zone: engine, tail: 200 mm}
  tank:     {name: Fuel tank, zone: boot, tail: 200 mm}
runs:
  - {from: boot, to: scuttle, length: 2.8 m}
  - {from: boot, to: tank, length: 500 mm}
  - {from: scuttle, to: dash, length: 500 mm}
  - {from: scuttle, to: bulkhead, length: 400 mm}
  - {from: bulkhead, to: engine, length: 900 mm}
  - {from: engine, to: rad, length: 800 mm}
parts:
  BAT:  {kind: battery, at: boot, name: Race battery, capacity: 30 Ah}
  ISO:  {kind: isolator, at: scuttle, name: Master switch, rating: 250 A, positions: {on: [[1, 2], [3, 4]], off: []}}
  STR:  {kind: starter, at: engine, name: Starter, draws: 180 A, solenoid: 12 A}
  ALT:  {kind: alternator, at: engine, name: Alternator, output: 50 A}
  MEGA: {kind: fuse, at: engine, name: Alternator fuse, body: bolt}
  MF:   {kind: fuse, at: scuttle, name: Main fuse, body: bolt}
  SPL:  {kind: splice, at: dash, name: Main relay splice}
  FP:   {kind: fuse-panel, at: dash, name: Fuse panel, feeds: {IN: [1, 2, 3, 4, 5, 6, 7]}, body: blade, layout: [[1, 2, 3, 4, 5, 6, 7]]}
  IGN:  {kind: switch, at: dash, name: Ignition toggle, positions: {off: [], on: [[1, 2]]}, rating: 20 A}
  SB:   {kind: switch, at: dash, name: Start button, positions: {off: [], pressed: [[1, 2]]}, momentary: true, rating: 15 A}
  KM:   {kind: relay, at: dash, name: Main relay, rating: 40 A}
  KP:   {kind: relay, at: dash, name: Pump relay, rating: 30 A}
  KS:   {kind: relay, at: dash, name: Starter relay, rating: 40 A}
  KF:   {kind: relay, at: dash, name: Fan relay, rating: 40 A}
  INRT: {kind: switch, at: tank, name: Inertia switch, positions: {ok: [[1, 2]], tripped: []}, rating: 20 A}
  PUMP: {kind: motor, at: tank, name: Injection pump, draws: 8 A, starts: 20 A for 0.2 s}
  FAN:  {kind: motor, at: rad, name: Fan, draws: 15 A}
  ECU:
    kind: module
    at: dash
    name: Engine ECU
    inside:
      - {from: B+, to: GND, draws: 2 A}
      - {join: [PUMP, GND]}
      - {join: [FAN, GND]}
  COIL: {kind: coil, at: engine, name: Coil pack, draws: 8 A}
  INJ:  {kind: solenoid, at: engine, name: Injectors, draws: 4 A}
  WL:   {kind: lamp, at: dash, name: Charge lamp, draws: 2 W}
  G0: {kind: ground, at: boot, name: Battery ground}
  G1: {kind: ground, at: engine, name: Engine earth}
  G2: {kind: ground, at: dash, name: Dash ground}
  G3: {kind: ground, at: tank, name: Tank earth}
  G4: {kind: ground, at: rad, name: Rad earth}
circuits:
  earth: {number: 1, name: Battery and engine earth, legs: [[G0, BAT.-], [STR.case, G1]]}
  start:
    number: 2
    name: Starting
    class: start
    legs:
      - [BAT.+, ISO.1, ISO.2, STR.30]
      - [IGN.2, SB, KS.86, KS.85, G2]
      - [FP.7, KS.30, KS.87, STR.50]
  charge:
    number: 3
    name: Charging
    class: charge
    legs:
      - [ALT.B+, MEGA, {to: STR.30, length: 150 mm}]
      - [IGN.2, WL, ALT.L]
  supply:
    number: 4
    name: Supply
    legs:
      - [ISO.2, {to: MF, length: 150 mm}, FP.IN]
  ecu:
    number: 5
    name: Engine management
    legs:
      - [FP.3, ISO.3, ISO.4, IGN, KM.86, KM.85, G2]
      - [FP.4, KM.30, KM.87, SPL, ECU.B+, ECU.GND, G2]
      - [SPL, COIL, G1]
      - [SPL, INJ, G1]
  pump:
    number: 6
    name: Fuel pump
    legs:
      - [FP.5, KP.30, KP.87, INRT, PUMP, G3]
      - [SPL, KP.86, KP.85, ECU.PUMP]
  fan:
    number: 7
    name: Fan
    legs:
      - [FP.6, KF.30, KF.87, FAN, G4]
      - [SPL, KF.86, KF.85, ECU.FAN]
`

const sprintStates = `states:
  parked: {ISO: off}
  ready: {ISO: on}
  ignition: {ISO: on, IGN: on}
  crank: {ISO: on, IGN: on, SB: pressed, engine: cranking}
  racing: {ISO: on, IGN: on, engine: running}
  crashed: {ISO: on, IGN: on, INRT: tripped}
  killed: {ISO: off, IGN: on, engine: running}
`

// A car with a start button, a start relay and a master switch gets the same gauges and
// fuses from the states that a driver makes as from those that are declared, and no error or
// warning; cranking asks no load but the starter for its limit.
func TestStatesThatADriverMakes(t *testing.T) {
	h, declared := sized(t, sprint+sprintStates)
	sizes, found := chosenIn(h, declared)
	require.Empty(t, found)
	h, made := sized(t, sprint)
	got, found := chosenIn(h, made)
	require.Empty(t, found, "%v", made.Findings)
	require.Equal(t, sizes, got)
	for _, l := range made.Loads {
		if l.Name != "STR" && l.Name != "WL" { // the charge lamp is lit then alone, and held to nothing
			require.NotEqual(t, "cranking", l.State, l.Name)
		}
	}
}

const changeover = `loomfolio: 1
title: Hazard switch between two fuses
system: {volts: 12}
parts:
  BAT: {kind: battery, capacity: 45 Ah}
  F1: {kind: fuse}
  F2: {kind: fuse}
  HAZ: {kind: switch, positions: {off: [[15, 49]], on: [[30, 49]]}}
  L: {kind: lamp, draws: 42 W}
  G: {kind: ground}
  G1: {kind: ground}
circuits:
  c:
    number: 1
    legs:
      - [G, {to: BAT.-, length: 200 mm}]
      - [BAT.+, {to: F1, length: 150 mm}, {to: HAZ.15, length: 800 mm}, HAZ.49, {to: L.+, length: 900 mm}, L.-, {to: G1, length: 300 mm}]
      - [BAT.+, {to: F2, length: 150 mm}, {to: HAZ.30, length: 800 mm}]
`

// A changeover switch joins its two fuses in no position, so they do not lie side by side;
// with a wire across the two they do.
func TestChangeoverBetweenTwoFuses(t *testing.T) {
	_, r := sized(t, changeover)
	require.False(t, slices.ContainsFunc(r.Findings, func(p source.Problem) bool { return p.Slug == "parallel-fuses" }), "%v", r.Findings)
	_, r = sized(t, changeover+"      - [HAZ.15, {to: HAZ.30, length: 50 mm}]\n")
	require.NotNil(t, finding(r, "parallel-fuses", "F2"))
	_, r = sized(t, strings.Replace(changeover, "on: [[30, 49]]", "on: [[30, 49], [15, 49]]", 1))
	require.NotNil(t, finding(r, "parallel-fuses", "F2"), "one position that joins them is enough")
}

// The alternator need not carry a button's load for the seconds of a press; what stays on it must.
func TestAButtonDoesNotOverloadTheAlternator(t *testing.T) {
	text := func(momentary string) string {
		return `loomfolio: 1
title: Winch button
system: {volts: 12}
parts:
  BAT: {kind: battery}
  ALT: {kind: alternator, output: 20 A}
  F1: {kind: fuse}
  F2: {kind: fuse}
  SW: {kind: switch, rating: 90 A, positions: {off: [], on: [[1, 2]]}, momentary: ` + momentary + `}
  M: {kind: motor, draws: 30 A}
  G: {kind: ground}
  G1: {kind: ground}
circuits:
  one: {number: 1, legs: [[G, {to: BAT.-, length: 1 m}], [ALT.B+, {to: F2, length: 150 mm}, {to: BAT.+, length: 150 mm}], [ALT.case, {to: G1, length: 1 m}]]}
  two: {number: 2, legs: [[BAT.+, {to: F1, length: 150 mm}, {to: SW, length: 1 m}, {to: M, length: 1 m}, {to: G1, length: 1 m}]]}
`
	}
	_, r := sized(t, text("true"))
	require.Nil(t, finding(r, "alternator-overloaded", "SW on"))
	_, r = sized(t, text("false"))
	require.NotNil(t, finding(r, "alternator-overloaded", "SW on"))
}
