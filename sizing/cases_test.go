package sizing_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/sizing/choose/chosen"
	"example.com/loomfolio/sizing/result"
	"example.com/loomfolio/sizing/source"
)

// finding gives the first finding of a slug that speaks of a subject.
func finding(r *result.Result, slug, subject string) *source.Problem {
	for i, p := range r.Findings {
		for _, s := range p.Subjects {
			if p.Slug == slug && s == subject {
				return &r.Findings[i]
			}
		}
	}
	return nil
}

func load(t *testing.T, r *result.Result, name string) chosen.Load {
	for _, l := range r.Loads {
		if l.Name == name {
			return l
		}
	}
	t.Fatalf("no load %s", name)
	return chosen.Load{}
}

// Cases that people who wire cars report; resistances of bare AWG by
// ASTM B258 at 20 C with 2 % for the lay of the strands, the figures beside each computed from them.

// 2 × 55 W at 12 V on 18 AWG over 18 ft: 9.17 A · 18 ft · 6.51 ohm/1000 ft = 1.07 V.
func TestHeadlampsOnOldWire(t *testing.T) {
	h, r := sized(t, `loomfolio: 1
title: Headlamps on old wire
sheet: {gauge: awg, units: imperial, paper: letter}
system: {volts: 12}
parts:
  BAT: {kind: battery}
  F1: {kind: fuse}
  SW: {kind: switch, positions: {off: [], on: [[1, 2]]}}
  HL: {kind: lamp, draws: 110 W, at-volts: 12 V, behaves: current}
  G0: {kind: ground}
  G1: {kind: ground}
circuits:
  earth: {number: 1, legs: [[G0, {to: BAT.-, length: 1 ft}]]}
  old: {number: 2, legs: [[BAT.+, {to: F1, length: 6 in}, {to: SW, length: 6 in}, {to: HL, length: 18 ft, gauge: 18 awg}, {to: G1, length: 6 in}]]}
`)
	old := r.Wires[wire(t, h, "2C")]
	require.InDelta(t, 9.17, float64(old.Amps), 0.01)
	require.InDelta(t, 1.07, float64(old.Cold), 0.01)
	require.NotNil(t, finding(r, "gauge-given-too-thin", "2C"))
	require.Equal(t, "12", old.Wants.Drop.Size, "3 % of 12 V over 18 ft: 0.27 V in them at 20 °C")
	require.LessOrEqual(t, float64(r.Wires[wire(t, h, "2N")].Area), 6.0, "a given thin wire makes no other one absurd")
}

// 15 A over 15 ft, feed alone: 18 AWG 1.46 V, 12 AWG 0.36 V, 10 AWG 0.23 V.
func TestPumpStarves(t *testing.T) {
	for _, c := range []struct {
		gauge string
		drop  float64
	}{{"18", 1.465}, {"12", 0.364}, {"10", 0.229}} {
		h, r := sized(t, `loomfolio: 1
title: Pump starves
sheet: {gauge: awg, units: imperial}
system: {volts: 12}
parts:
  BAT: {kind: battery}
  F1: {kind: fuse}
  SW: {kind: switch, positions: {off: [], on: [[1, 2]]}}
  PUMP: {kind: motor, draws: 15 A}
  G0: {kind: ground}
  G1: {kind: ground}
circuits:
  earth: {number: 1, legs: [[G0, {to: BAT.-, length: 1 ft}]]}
  pump: {number: 2, legs: [[BAT.+, {to: F1, length: 6 in}, {to: SW, length: 6 in}, {to: PUMP, length: 15 ft, gauge: `+c.gauge+` awg}, {to: G1, length: 6 in}]]}
`)
		require.InDelta(t, c.drop, float64(r.Wires[wire(t, h, "2C")].Cold), 0.006, c.gauge)
	}
}

// 21.66 A over 6 ft each way on 18 AWG: 12 ft · 6.51 · 21.66 / 1000 = 1.69 V at 20 C, about 2.3 V hot, and too thin.
func TestTwoAnswersForOneWire(t *testing.T) {
	h, r := sized(t, `loomfolio: 1
title: Two answers for one wire
sheet: {gauge: awg, units: imperial}
system: {volts: 12, return: wired}
parts:
  BAT: {kind: battery}
  F1: {kind: fuse}
  H: {kind: heater, draws: 21.66 A, behaves: current}
  SW: {kind: switch, positions: {off: [], on: [[1, 2]]}}
circuits:
  heat: {number: 1, legs: [[BAT.+, {to: F1, length: 6 in}, {to: SW, length: 6 in}, {to: H, length: 6 ft, gauge: 18 awg}, {to: BAT.-, length: 6 ft, gauge: 18 awg}]]}
`)
	cold := r.Wires[wire(t, h, "1C")].Cold + r.Wires[wire(t, h, "1N")].Cold
	require.InDelta(t, 1.69, float64(cold), 0.01)
	warm := r.Wires[wire(t, h, "1C")].Drop + r.Wires[wire(t, h, "1N")].Drop
	require.InDelta(t, 2.3, float64(warm), 0.15, "the wire at some 110 °C")
	require.NotNil(t, finding(r, "gauge-given-too-thin", "1C"))
}

// 50 W at 6 V is 8.3 A; the same percentage of the voltage needs four times the copper of 12 V, by Ohm's law:
// twice the current, half the volts to lose.
func TestSixVoltsWantFourTimesTheCopper(t *testing.T) {
	area := func(volts, limit string) float64 {
		h, r := sized(t, `loomfolio: 1
title: A lamp of 50 W
system: {volts: `+volts+`}
practice: {drop: {default: `+limit+`}}
parts:
  BAT: {kind: battery}
  F1: {kind: fuse}
  SW: {kind: switch, positions: {off: [], on: [[1, 2]]}}
  L: {kind: lamp, draws: 50 W, at-volts: `+volts+` V, behaves: current}
  G0: {kind: ground}
  G1: {kind: ground}
circuits:
  earth: {number: 1, legs: [[G0, {to: BAT.-, length: 1 m}]]}
  lamp: {number: 2, legs: [[BAT.+, {to: F1, length: 100 mm}, {to: SW, length: 100 mm}, {to: L, length: 6 m}, {to: G1, length: 100 mm}]]}
`)
		if volts == "6" {
			require.InDelta(t, 8.33, float64(load(t, r, "L").Amps), 0.01)
		}
		return float64(r.Wires[wire(t, h, "2C")].Area)
	}
	ratio := area("6", "3 %") / area("12", "3 %")
	require.Greater(t, ratio, 2.6, "whole sizes come in steps")
	require.Less(t, ratio, 6.0)
}

// 16 AWG in plain PVC behind 30 A: the fuse is too big for the wire (FAA AC 43.13-1B table 11-3: 10 A;
// 33 CFR 183.425 table 5 allows 80 C wire of that size 20 A at 30 C).
func TestThinWireByTheTank(t *testing.T) {
	_, r := sized(t, `loomfolio: 1
title: Thin wire by the tank
sheet: {gauge: awg}
system: {volts: 12}
parts:
  BAT: {kind: battery}
  F1: {kind: fuse, body: blade, rating: 30 A}
  SW: {kind: switch, positions: {off: [], on: [[1, 2]]}}
  PUMP: {kind: motor, draws: 7 A}
  G0: {kind: ground}
  G1: {kind: ground}
circuits:
  earth: {number: 1, legs: [[G0, {to: BAT.-, length: 300 mm}]]}
  pump: {number: 2, legs: [[BAT.+, {to: F1, length: 150 mm}, {to: SW, length: 150 mm}, {to: PUMP, length: 3 m, gauge: 16 awg, insulation: gpt}, {to: G1, length: 300 mm}]]}
`)
	p := finding(r, "fuse-too-big", "F1")
	require.NotNil(t, p)
	require.Equal(t, source.Error, p.Level)
}

// One feed through two 50 A fuses: when one opens the other carries all.
func TestTwoFusesSideBySide(t *testing.T) {
	_, r := sized(t, `loomfolio: 1
title: Two fuses side by side
sheet: {gauge: awg}
system: {volts: 12}
parts:
  BAT: {kind: battery}
  B1: {kind: bus}
  B2: {kind: bus}
  SW: {kind: switch, positions: {off: [], on: [[1, 2]]}}
  F1: {kind: fuse, rating: 50 A, body: maxi}
  F2: {kind: fuse, rating: 50 A, body: maxi}
  H: {kind: heater, draws: 60 A, stud: M6}
  G0: {kind: ground}
  G1: {kind: ground}
circuits:
  earth: {number: 1, legs: [[G0, {to: BAT.-, length: 300 mm}]]}
  heat:
    number: 2
    legs:
      - [BAT.+, {to: B1.in, length: 100 mm}]
      - [B1.a, {to: F1, length: 50 mm}, {to: B2.a, length: 50 mm}]
      - [B1.b, {to: F2, length: 50 mm}, {to: B2.b, length: 50 mm}]
      - [B2.out, {to: SW, length: 100 mm}, {to: H, length: 2 m}, {to: G1, length: 300 mm}]
`)
	require.NotNil(t, finding(r, "parallel-fuses", "F2"))
}

// A 12 gauge feed joined to a thinner pump lead with no new fuse.
func TestSpliceOfThickAndThin(t *testing.T) {
	_, r := sized(t, `loomfolio: 1
title: Splice of thick and thin
sheet: {gauge: awg}
system: {volts: 12}
parts:
  BAT: {kind: battery}
  F1: {kind: fuse, rating: 30 A, body: blade}
  SW: {kind: switch, positions: {off: [], on: [[1, 2]]}}
  S1: {kind: splice}
  PUMP: {kind: motor, draws: 5 A}
  FAN: {kind: motor, draws: 15 A}
  G0: {kind: ground}
  G1: {kind: ground}
circuits:
  earth: {number: 1, legs: [[G0, {to: BAT.-, length: 300 mm}]]}
  both:
    number: 2
    legs:
      - [BAT.+, {to: F1, length: 150 mm}, {to: SW, length: 150 mm}, {to: S1, length: 1 m, gauge: 12 awg}, {to: PUMP, length: 1 m, gauge: 18 awg}, {to: G1, length: 300 mm}]
      - [S1, {to: FAN, length: 1 m}, {to: G1, length: 300 mm}]
`)
	p := finding(r, "fuse-too-big", "2D")
	require.NotNil(t, p, "the thin lead behind the 30 A fuse")
}

// A starter feed from a battery in the boot: about 1 gauge (common practice, no source).
func TestBatteryToTheBoot(t *testing.T) {
	h, r := sized(t, `loomfolio: 1
title: Battery to the boot
sheet: {gauge: awg, units: imperial}
system: {volts: 12}
parts:
  BAT: {kind: battery, capacity: 70 Ah}
  ST: {kind: starter, draws: 200 A}
  SS: {kind: switch, momentary: true, positions: {off: [], start: [[1, 2]]}}
  F1: {kind: fuse}
  G0: {kind: ground, stud: M8}
  G1: {kind: ground, stud: M8}
circuits:
  earth: {number: 1, class: start, legs: [[G0, {to: BAT.-, length: 1 ft, insulation: battery-cable}]]}
  start:
    number: 2
    class: start
    legs:
      - [BAT.+, {to: ST.30, length: 15 ft, insulation: battery-cable}]
      - [ST.case, {to: G1, length: 1 ft, insulation: battery-cable}]
      - [BAT.+, {to: F1, length: 6 in}, {to: SS, length: 15 ft}, {to: ST.50, length: 3 ft}]
states:
  parked: {}
  cranking: {SS: start, engine: cranking}
`)
	require.Contains(t, []string{"2", "1", "1/0"}, r.Wires[wire(t, h, "2A")].Gauge.Size)
	require.NotNil(t, finding(r, "unfused-cranking-cable", "2A"))
}

// A fan that runs at 7 A and starts at 18.9 A (measured stall in a published
// record) is inside the opening band of a 10 A blade fuse; left free, the fuse is
// larger and the wire stands it.
func TestFanBlowsItsFuse(t *testing.T) {
	fan := func(fuse string) *result.Result {
		_, r := sized(t, `loomfolio: 1
title: Fan blows its fuse
sheet: {gauge: awg}
system: {volts: 12}
parts:
  BAT: {kind: battery}
  F1: {kind: fuse, body: blade`+fuse+`}
  SW: {kind: switch, positions: {off: [], on: [[1, 2]]}}
  FAN: {kind: motor, draws: 7 A, starts: 18.9 A for 0.5 s}
  G0: {kind: ground}
  G1: {kind: ground}
circuits:
  earth: {number: 1, legs: [[G0, {to: BAT.-, length: 300 mm}]]}
  fan: {number: 2, legs: [[BAT.+, {to: F1, length: 150 mm}, {to: SW, length: 300 mm}, {to: FAN, length: 2 m}, {to: G1, length: 300 mm}]]}
`)
		return r
	}
	require.NotNil(t, finding(fan(", rating: 10 A"), "fuse-too-small", "F1"))
	free := fan("")
	require.Nil(t, finding(free, "fuse-too-small", "F1"))
	require.GreaterOrEqual(t, float64(free.Fuses[0].Rating), 15.0)
	for _, w := range free.Wires {
		require.GreaterOrEqual(t, float64(w.Ampacity), float64(free.Fuses[0].Rating))
	}
}

// 1,000 W of inverter behind 175 A in 105 C wire: the fuse decides, 2 AWG (33 CFR 183.425 table 5: 4 AWG 160 A, 2 AWG 210 A).
func TestInverterIsSizedByItsFuse(t *testing.T) {
	h, r := sized(t, `loomfolio: 1
title: Inverter
sheet: {gauge: awg}
system: {volts: 12}
practice: {insulation: thin-wall-105}
parts:
  BAT: {kind: battery, capacity: 200 Ah}
  F1: {kind: fuse, body: bolt, rating: 175 A}
  ISO: {kind: isolator}
  INV: {kind: outlet, draws: 1000 W, at-volts: 10.5 V, stud: M8}
  G0: {kind: ground, stud: M8}
  G1: {kind: ground, stud: M8}
circuits:
  earth: {number: 1, legs: [[G0, {to: BAT.-, length: 300 mm}]]}
  inverter: {number: 2, legs: [[BAT.+, {to: F1, length: 150 mm}, {to: ISO, length: 200 mm}, {to: INV, length: 2 m}, {to: G1, length: 1 m}]]}
`)
	w := r.Wires[wire(t, h, "2C")]
	require.Equal(t, "2", w.Gauge.Size, w.Reason)
	require.Equal(t, "2", w.Wants.Protection.Size)
	require.Equal(t, "4", w.Wants.Drop.Size)
}
