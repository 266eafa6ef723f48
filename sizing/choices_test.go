package sizing_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/sizing/unit"
)

// What a tradesman would not have done: a fuse of 1 A for a relay's coil.
func TestCoilHasAFuseThatShopsStock(t *testing.T) {
	_, r := sized(t, `loomfolio: 1
title: Electric fan
system: {volts: 12}
parts:
  BAT: {kind: battery}
  F1: {kind: fuse}
  F2: {kind: fuse}
  K1: {kind: relay, rating: 40 A}
  FAN: {kind: motor, draws: 18 A}
  TS: {kind: switch, positions: {cold: [], hot: [[1, 2]]}}
  G0: {kind: ground}
  G1: {kind: ground}
circuits:
  earth: {number: 1, legs: [[G0, {to: BAT.-, length: 300 mm}]]}
  fan:
    number: 2
    legs:
      - [BAT.+, {to: F1, length: 150 mm}, {to: K1.30, length: 300 mm}, K1.87, {to: FAN, length: 1 m}, {to: G1, length: 300 mm}]
      - [BAT.+, {to: F2, length: 150 mm}, {to: K1.86, length: 300 mm}, K1.85, {to: TS, length: 1 m}, {to: G1, length: 300 mm}]
`)
	f := fuseCalled(t, r, "F2")
	require.Equal(t, unit.Ampere(3), f.Rating, "the coil's 0.2 A over 75 % is 0.3 A")
	require.Contains(t, f.Reason, "is below 3 A, the smallest that the practice fits")
	require.Equal(t, unit.Ampere(25), fuseCalled(t, r, "F1").Rating, "18 A over 75 % is 24 A")
}

// One card does not say "60 A" and "never above 50 A": an alternator of 55 A gives 66 A at most,
// whatever fuse stands before it, and the wire between is safe with them.
func TestNeverAboveWhatIsFitted(t *testing.T) {
	for _, output := range []string{"30 A", "45 A", "55 A", "65 A"} {
		_, r := sized(t, `loomfolio: 1
title: Charging lead
system: {volts: 12, running: 14.2 V}
parts:
  BAT: {kind: battery, capacity: 60 Ah}
  G0: {kind: ground}
  G1: {kind: ground}
  F1: {kind: fuse, rating: 10 A}
  MF: {kind: fuse, rating: 60 A, body: maxi}
  IGN: {kind: ignition-switch}
  R1: {kind: resistor, value: 150 ohm}
  ALT: {kind: alternator, output: `+output+`}
circuits:
  earth: {number: 1, class: start, legs: [[G0, {to: BAT.-, length: 0.3 m}]]}
  charge: {number: 2, class: charge, legs: [[ALT.B+, {to: MF, length: 1 m}, {to: BAT.+, length: 100 mm}], [ALT.case, {to: G1, length: 0.3 m}]]}
  lamp: {number: 3, class: light, legs: [[BAT.+, {to: F1, length: 100 mm}, {to: IGN.30, length: 1 m}, IGN.15, {to: R1.1, length: 1 m}, R1.2, {to: ALT.L, length: 1 m}]]}
states: {parked: {}, key on: {IGN: run}, driving: {IGN: run, engine: running}}
`)
		for _, f := range r.Fuses {
			require.GreaterOrEqual(t, f.MostAllowed, f.Rating, "%s at %s", f.Name, output)
		}
	}
}
