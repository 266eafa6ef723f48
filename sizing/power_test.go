package sizing_test

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/sizing/network/spicecheck"
)

// inverter is a battery, a fuse and an inverter; extra goes into its part.
func inverter(inside, extra string, metres float64) string {
	return fmt.Sprintf(`loomfolio: 1
title: Inverter
system: {volts: 12, running: 14.4 V, return: wired}
parts:
  BAT: {kind: battery, capacity: 200 Ah}
  F1: {kind: fuse, body: bolt}
  INV: {kind: module, stud: M8%s, inside: [{from: "+", to: "-", %s}]}
circuits:
  inverter: {number: 1, legs: [[BAT.+, {to: F1, length: 100 mm}, {to: INV.+, length: %g m}, INV.-, {to: BAT.-, length: %g m}]]}
states:
  on: {}
`, extra, inside, metres, metres)
}

// 1700 W are 118 A at 14.4 V, and 162 A at 10.5 V, where an inverter stops; the
// handbook's rule for fuse and cable is watts over the cut-off voltage (common practice).
func TestPowerIsSizedForItsLowestVoltage(t *testing.T) {
	for _, c := range []struct {
		inside, extra string
		amps          float64
	}{
		{"draws: 1700 W, behaves: power", "", 1700 / 10.5},
		{"draws: 1700 W, behaves: power", ", works-above: 11 V", 1700.0 / 11},
		{"draws: 1700 W, behaves: power", ", works-above: 9 V", 1700.0 / 9},
		{"draws: 142 A @ 12 V, behaves: power", "", 142 * 12 / 10.5},
		{"draws: 142 A, behaves: power", ", at-volts: 12 V", 142 * 12 / 10.5},
		{"draws: 20 W, behaves: power", "", 20 / 10.5},
		{"draws: 400 W, behaves: power", "", 400 / 10.5},
		{"draws: 1000 W, behaves: power", "", 1000 / 10.5},
		{"draws: 2500 W, behaves: power", "", 2500 / 10.5},
		{"draws: 1700 W, behaves: current", "", 1700 / 14.4},
	} {
		h, r := sized(t, inverter(c.inside, c.extra, 1))
		feed := r.Wires[wire(t, h, "1B")]
		require.InEpsilon(t, c.amps, float64(feed.Amps), 1e-3, c)
		require.GreaterOrEqual(t, float64(feed.Ampacity), c.amps, c)
		require.GreaterOrEqual(t, float64(r.Wires[wire(t, h, "1N")].Ampacity), c.amps, c)
		require.GreaterOrEqual(t, float64(r.Fuses[0].Rating)*0.75, c.amps*0.999, "fuse-load 75 %: %v", c)
		require.Nil(t, finding(r, "drop-over-limit", "INV.+--"), c)
		require.Nil(t, finding(r, "feed-too-weak", "INV.+--"), c)
	}
}

// What no state turns on is sized as if it were on, at its lowest voltage too.
func TestPowerThatNoStateTurnsOn(t *testing.T) {
	for name, states := range map[string]string{"off": "  off: {}\n", "other": "  cold: {engine: running}\n"} {
		h, r := sized(t, `loomfolio: 1
title: Inverter behind a switch
system: {volts: 12, running: 14.4 V, return: wired}
parts:
  BAT: {kind: battery, capacity: 200 Ah}
  F1: {kind: fuse, body: bolt}
  SW: {kind: switch, positions: {off: [], on: [[1, 2]]}, rating: 300 A, stud: M8}
  INV: {kind: module, stud: M8, inside: [{from: "+", to: "-", draws: 1700 W, behaves: power}]}
circuits:
  inverter: {number: 1, legs: [[BAT.+, {to: F1, length: 100 mm}, {to: SW, length: 1 m}, {to: INV.+, length: 1 m}, INV.-, {to: BAT.-, length: 1 m}]]}
states:
`+states)
		const amps = 1700 / 10.5
		require.NotNil(t, finding(r, "load-never-on", "INV.+--"), name)
		for i := range h.Wires {
			require.GreaterOrEqual(t, float64(r.Wires[i].Ampacity), amps, "%s: %s", name, h.Wires[i].Name)
		}
		require.GreaterOrEqual(t, float64(r.Fuses[0].Rating)*0.75, amps*0.999, name)
	}
}

// The drop that is held counts the current of the lowest voltage: 2 m out and 2 m
// back at 162 A within 0.36 V need 4 · 162 / 0.36 · 0.01724 = 31 mm² cold.
func TestPowerDropsAtItsLowestVoltage(t *testing.T) {
	h, r := sized(t, inverter("draws: 1700 W, behaves: power", "", 2))
	for _, w := range []string{"1B", "1N"} {
		require.GreaterOrEqual(t, float64(r.Wires[wire(t, h, w)].Area), 31.0, w)
	}
}

// What is found of constant power, of batteries in series and of islands is what
// ngspice finds, which solves watts over volts itself.
func TestPowerAndSeriesBySpice(t *testing.T) {
	spicecheck.Need(t)
	var cases []spicecheck.Case
	for name, text := range map[string]string{
		"inverter":   inverter("draws: 1700 W, behaves: power", "", 2),
		"two of it":  inverter(`draws: 900 W, behaves: power}, {from: "+", to: "-", draws: 400 W, behaves: power`, "", 3),
		"lorry":      lorry("", "", "  on: {SW: on, engine: running}\n  still: {SW: on}"),
		"changeover": seriesOrParallel(12.6, "series"),
	} {
		h, r := sized(t, text)
		for _, s := range r.States {
			cases = append(cases, spicecheck.Case{Name: name + ", " + s.Name, Harness: h, State: s})
		}
	}
	spicecheck.CompareAll(t, cases)
}
