package check_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/sizing/check"
	"example.com/loomfolio/sizing/describe"
	"example.com/loomfolio/sizing/harness"
)

// checked takes a description through, and gives the model and the problems' slugs.
func checked(t *testing.T, text string) (*harness.Harness, []string) {
	t.Helper()
	d, problems := describe.Parse("test.yaml", []byte(text))
	require.Empty(t, problems)
	h, found := check.Check(d)
	require.NotNil(t, h, "%v", found)
	var slugs []string
	for _, p := range found {
		slugs = append(slugs, p.Slug)
	}
	return h, slugs
}

// alone is a system with one part X, and legs that reach its terminals from both ends of a battery.
func alone(system, part string, legs ...string) string {
	return "loomfolio: 1\ntitle: One part\nsystem: " + system + "\nparts:\n" +
		"  BAT: {kind: battery}\n  F1: {kind: fuse}\n  G1: {kind: ground}\n  X: " + part + "\n" +
		"circuits:\n  one: {number: 1, legs: [[G1, BAT.-], " + strings.Join(legs, ", ") + "]}\n"
}

// insides prints what lies in a part: name, ends, figures and what closes it.
func insides(h *harness.Harness, ref string) []string {
	var out []string
	i := slices.IndexFunc(h.Parts, func(p harness.Part) bool { return p.Ref == ref })
	for _, id := range h.Parts[i].Elements {
		e := &h.Elements[id]
		line := fmt.Sprintf("%s %s: %s > %s", kindWords[e.Kind], e.Name, h.Terminals[e.A].Full, h.Terminals[e.B].Full)
		for _, f := range []struct {
			is   bool
			text string
		}{
			{e.Volts != 0, fmt.Sprintf("%.4g V", float64(e.Volts))},
			{e.Amps != 0, fmt.Sprintf("%.4g A", float64(e.Amps))},
			{e.AtVolts != 0, fmt.Sprintf("at %.4g V", float64(e.AtVolts))},
			{e.Behaves != "", string(e.Behaves)},
			{e.Ohms != 0, fmt.Sprintf("%.4g ohm", float64(e.Ohms))},
			{e.PullIn != 0, fmt.Sprintf("in at %.4g, out below %.4g", float64(e.PullIn), float64(e.DropOut))},
			{e.Floor != 0, fmt.Sprintf("floor %.4g", float64(e.Floor))},
			{e.When.Kind == harness.InPosition, fmt.Sprintf("in %v", e.When.Positions)},
			{e.When.Kind == harness.Energised, "pulled in"},
			{e.When.Kind == harness.Released, "released"},
			{e.When.Kind == harness.EngineIs, fmt.Sprintf("engine %v", e.When.Engines)},
		} {
			if f.is {
				line += ", " + f.text
			}
		}
		out = append(out, line)
	}
	return out
}

var kindWords = map[harness.ElementKind]string{
	harness.Join: "join", harness.EMF: "emf", harness.Charger: "charger", harness.Resistance: "ohms", harness.FuseLink: "fuse",
	harness.Contact: "contact", harness.RelayCoil: "coil", harness.Load: "load", harness.Rectifier: "diode", harness.Open: "open",
}

const twelve = "{volts: 12}"

// What each kind is made of, with the figures of defaults.go: a battery at rest 12.6 V and charging 14.2 V (from memory), 5 milliohm
// for 60 Ah, contacts 2 milliohm, a fuse 5, a bonded strap 0.5 (common practice, no source), a ground 1 milliohm (FAA AC
// 43.13-1B 11-189 allows 3), a coil 150 mA at 12 V (published relay data), pull-in 8 V and drop-out 1.2 V (from memory).
// Terminals by DIN 72552.
func TestWhatAPartIsMadeOf(t *testing.T) {
	for _, c := range []struct {
		name, system, part string
		legs               []string
		want               []string
	}{
		{"a battery", twelve, "{kind: battery, capacity: 120 Ah}", []string{"[X.+, F1, G1]", "[X.-, G1]"},
			[]string{"emf X: X.+ > X.-, 12.6 V, 0.0025 ohm"}},
		{"a battery that says its own", twelve, "{kind: battery, emf: 12.9 V, inner: 4 mohm}", []string{"[X.+, F1, G1]", "[X.-, G1]"},
			[]string{"emf X: X.+ > X.-, 12.9 V, 0.004 ohm"}},
		{"a battery of 24 V", "{volts: 24}", "{kind: battery}", []string{"[X.+, F1, G1]", "[X.-, G1]"},
			[]string{"emf X: X.+ > X.-, 25.2 V, 0.01 ohm"}},
		{"an alternator", twelve, "{kind: alternator, output: 45 A}", []string{"[X.B+, F1, BAT.+]", "[X.case, G1]"}, []string{
			"charger X: X.B+ > X.case, 14.2 V, 45 A, 0.005 ohm, engine [running]",
			"contact X.L-case: X.L > X.case, 1 ohm, engine [off cranking]",
			"contact X.B+-L: X.B+ > X.L, 1 ohm, engine [running]",
		}},
		{"with the earth on plus", "{volts: 6, earth: positive}", "{kind: alternator, output: 20 A, regulated: 7.2 V}", []string{"[X.B+, F1, BAT.-]", "[X.case, G1]", "[G1, BAT.+]"}, []string{
			"charger X: X.case > X.B+, 7.2 V, 20 A, 0.005 ohm, engine [running]",
			"contact X.L-case: X.L > X.case, 1 ohm, engine [off cranking]",
			"contact X.B+-L: X.B+ > X.L, 1 ohm, engine [running]",
		}},
		{"a starter", twelve, "{kind: starter, draws: 150 A}", []string{"[BAT.+, X.30]", "[BAT.+, F1, X.50]", "[X.case, G1]"}, []string{
			"coil X.solenoid: X.50 > X.case, 1.2 ohm, in at 8, out below 1.2",
			"load X: X.30 > X.case, 150 A, at 14.2 V, motor, floor 3.6, pulled in",
		}},
		{"a fuse", twelve, "{kind: fuse}", []string{"[BAT.+, X, G1]"}, []string{"fuse X: X.1 > X.2, 0.005 ohm"}},
		{"a fuse with terminals of its own", twelve, "{kind: fuse, terminals: [in, out]}", []string{"[BAT.+, X.in, X.out, G1]"}, []string{"fuse X: X.in > X.out, 0.005 ohm"}},
		{"an isolator", twelve, "{kind: isolator}", []string{"[BAT.+, X, F1, G1]"}, []string{"contact X.1-2: X.1 > X.2, 0.002 ohm, in [0]"}},
		{"a relay", twelve, "{kind: relay, changeover: true, suppression: resistor}", []string{"[BAT.+, F1, X.30]", "[X.87, G1]", "[X.87a, G1]", "[F1.2, X.86]", "[X.85, G1]"}, []string{
			"coil X.coil: X.86 > X.85, 80 ohm, in at 8, out below 1.2",
			"ohms X.resistor: X.86 > X.85, 680 ohm",
			"contact X.30-87: X.30 > X.87, 0.002 ohm, pulled in",
			"contact X.30-87a: X.30 > X.87a, 0.002 ohm, released",
		}},
		{"a relay whose coil is given", twelve, "{kind: relay, coil: 90 ohm, suppression: diode}", []string{"[BAT.+, F1, X.30]", "[X.87, G1]", "[F1.2, X.86]", "[X.85, G1]"}, []string{
			"coil X.coil: X.86 > X.85, 90 ohm, in at 8, out below 1.2",
			"diode X.diode: X.85 > X.86, 0.7 V, 0.01 ohm",
			"contact X.30-87: X.30 > X.87, 0.002 ohm, pulled in",
		}},
		{"a coil given by its current, of 24 V", "{volts: 24}", "{kind: relay, coil: 100 mA}", []string{"[BAT.+, F1, X.30]", "[X.87, G1]", "[F1.2, X.86]", "[X.85, G1]"}, []string{
			"coil X.coil: X.86 > X.85, 240 ohm, in at 16, out below 2.4",
			"contact X.30-87: X.30 > X.87, 0.002 ohm, pulled in",
		}},
		{"a flasher", twelve, "{kind: flasher}", []string{"[BAT.+, F1, X.49]", "[X.49a, G1]", "[X.31, G1]"}, []string{
			"contact X.49-49a: X.49 > X.49a, 0.002 ohm",
			"load X: X.49 > X.31, 0.02 A, at 14.2 V, resistance, floor 6",
		}},
		{"a switch", twelve, "{kind: switch, positions: {off: [], side: [[1, 2]], head: [[1, 2], [3, 1]]}}", []string{"[BAT.+, F1, X.1]", "[X.2, G1]", "[X.3, G1]"}, []string{
			"contact X.1-2: X.1 > X.2, 0.002 ohm, in [1 2]",
			"contact X.1-3: X.1 > X.3, 0.002 ohm, in [2]",
		}},
		{"an ignition switch", twelve, "{kind: ignition-switch}", []string{"[BAT.+, F1, X.30]", "[X.75, G1]", "[X.15, G1]", "[X.50, G1]"}, []string{
			"contact X.30-75: X.30 > X.75, 0.002 ohm, in [1 2]",
			"contact X.30-15: X.30 > X.15, 0.002 ohm, in [2 3]",
			"contact X.30-50: X.30 > X.50, 0.002 ohm, in [3]",
		}},
		{"a lamp in watts, at the running voltage", twelve, "{kind: lamp, draws: 55 W}", []string{"[BAT.+, F1, X, G1]"}, []string{"load X: X.+ > X.-, 3.873 A, at 14.2 V, lamp, floor 6"}},
		{"a lamp in watts at 12 V", twelve, "{kind: lamp, draws: 55 W, at-volts: 12 V}", []string{"[BAT.+, F1, X, G1]"}, []string{"load X: X.+ > X.-, 4.583 A, at 12 V, lamp, floor 6"}},
		{"a motor that works above 9 V", twelve, "{kind: motor, draws: 7 A, works-above: 9 V}", []string{"[BAT.+, F1, X, G1]"}, []string{"load X: X.+ > X.-, 7 A, at 14.2 V, motor, floor 9"}},
		{"a horn", twelve, "{kind: horn, draws: 5 A}", []string{"[BAT.+, F1, X, G1]"}, []string{"load X: X.+ > X.-, 5 A, at 14.2 V, current, floor 6"}},
		{"a heater that is said to behave otherwise", twelve, "{kind: heater, draws: 5 A, behaves: current}", []string{"[BAT.+, F1, X, G1]"}, []string{"load X: X.+ > X.-, 5 A, at 14.2 V, current, floor 6"}},
		{"a diode", twelve, "{kind: diode}", []string{"[BAT.+, F1, X.a]", "[X.k, G1]"}, []string{"diode X: X.a > X.k, 0.7 V, 0.01 ohm"}},
		{"a diode of 0.3 V", twelve, "{kind: diode, drop: 0.3 V}", []string{"[BAT.+, F1, X.a]", "[X.k, G1]"}, []string{"diode X: X.a > X.k, 0.3 V, 0.01 ohm"}},
		{"a resistor", twelve, "{kind: resistor, value: 12 ohm}", []string{"[BAT.+, F1, X, G1]"}, []string{"ohms X: X.1 > X.2, 12 ohm"}},
		{"a capacitor", twelve, "{kind: capacitor}", []string{"[BAT.+, F1, X, G1]"}, []string{"open X: X.1 > X.2"}},
		{"a strap", twelve, "{kind: strap}", []string{"[BAT.+, F1, X, G1]"}, []string{"ohms X: X.1 > X.2, 0.0005 ohm"}},
		{"a ground", twelve, "{kind: ground}", []string{"[BAT.+, F1, X]"}, []string{"ohms X: X > chassis, 0.001 ohm"}},
		{"a ground whose joint was measured", twelve, "{kind: ground, joint: 20 mohm}", []string{"[BAT.+, F1, X]"}, []string{"ohms X: X > chassis, 0.02 ohm"}},
		{"a connector", twelve, "{kind: connector, cavities: 2}", []string{"[BAT.+, F1, X.1, G1]"},
			[]string{"contact X.1: X.1.in > X.1.out, 0.003 ohm", "contact X.2: X.2.in > X.2.out, 0.003 ohm"}},
		{"a bus whose stops name its studs", twelve, "{kind: bus}", []string{"[BAT.+, F1, X.a]", "[X.b, G1]", "[X.c, G1]"},
			[]string{"join X.a-b: X.a > X.b", "join X.a-c: X.a > X.c"}},
		{"a bus with studs of its own", twelve, "{kind: bus, terminals: [p, q]}", []string{"[BAT.+, F1, X.p]", "[X.q, G1]"}, []string{"join X.p-q: X.p > X.q"}},
		{"a bus that is named alone", twelve, "{kind: bus}", []string{"[BAT.+, F1, X]", "[X, G1]"}, nil},
		{"a fuse panel", twelve, "{kind: fuse-panel, layout: [[1, 2, 3]], feeds: {main: [1, 2], lights: [3]}}", []string{"[BAT.+, X.main]", "[BAT.+, X.lights]", "[X.1, G1]"},
			[]string{"fuse X.1: X.main > X.1, 0.005 ohm", "fuse X.2: X.main > X.2, 0.005 ohm", "fuse X.3: X.lights > X.3, 0.005 ohm"}},
		{"a wiper motor, inside written out", twelve, "{kind: motor, terminals: [53, 53b, 31, c], inside: [{from: 53, to: 31, draws: 4 A}, {from: 53b, to: 31, draws: 6 A, behaves: current}, {join: [31, c]}]}",
			[]string{"[BAT.+, F1, X.53]", "[F1.2, X.53b]", "[X.31, G1]"}, []string{
				"load X.53-31: X.53 > X.31, 4 A, at 14.2 V, motor, floor 6",
				"load X.53b-31: X.53b > X.31, 6 A, at 14.2 V, current, floor 6",
				"join X.31-c: X.31 > X.c",
			}},
		{"two windings between the same terminals", twelve, "{kind: lamp, inside: [{from: a, to: b, draws: 1 A}, {from: a, to: b, draws: 2 A}]}",
			[]string{"[BAT.+, F1, X.a]", "[X.b, G1]"}, []string{
				"load X.a-b: X.a > X.b, 1 A, at 14.2 V, lamp, floor 6",
				"load X.a-b#2: X.a > X.b, 2 A, at 14.2 V, lamp, floor 6",
			}},
	} {
		t.Run(c.name, func(t *testing.T) {
			h, _ := checked(t, alone(c.system, c.part, c.legs...))
			require.Equal(t, c.want, insides(h, "X"))
		})
	}
}

// Starter and alternator are bolted to one engine, and one strap serves both.
func TestOneEngineBlock(t *testing.T) {
	h, slugs := checked(t, strings.Replace(alone(twelve, "{kind: alternator, output: 45 A}", "[X.B+, F1, BAT.+]", "[BAT.+, ST.30]", "[BAT.+, ST.50]", "[ST.case, G1]"),
		"parts:\n", "parts:\n  ST: {kind: starter, draws: 150 A}\n", 1))
	require.NotContains(t, slugs, "no-engine-strap")
	require.Contains(t, insides(h, "X"), "join X.engine-block: ST.case > X.case")
}

// What the panel's face shows: the layout's rows, else six abreast; given fuses and spares.
func TestAPanelsFace(t *testing.T) {
	panel := func(text string) *harness.Panel {
		h, _ := checked(t, alone(twelve, text, "[BAT.+, X.main]", "[X.1, G1]"))
		return h.Parts[3].Panel
	}
	p := panel("{kind: fuse-panel, layout: [], feeds: {main: [1, 2, 3, 4, 5, 6, 7]}, fuses: {1: 10 A, 3: 7.5 A}, spare: [15 A, 20 A]}")
	require.Equal(t, [][]string{{"1", "2", "3", "4", "5", "6"}, {"7"}}, p.Layout)
	require.InDelta(t, 10, float64(p.Rating["1"]), 0)
	require.InDelta(t, 7.5, float64(p.Rating["3"]), 0)
	require.Len(t, p.Rating, 2)
	require.Equal(t, []string{"15 A", "20 A"}, p.Spare)
	require.Equal(t, []string{"1", "2", "3", "4", "5", "6", "7"}, p.Feeds[0].Positions)
	require.Equal(t, [][]string{{"2", "1"}}, panel("{kind: fuse-panel, feeds: {main: [1, 2]}, layout: [[2, 1]]}").Layout)
}
