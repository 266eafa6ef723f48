package part_test

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/sizing/check/part"
	"example.com/loomfolio/sizing/describe"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/unit"
)

// next are numbers that others have been given before.
var next = part.Next{Terminal: 7, Element: 4}

// made makes the part that is written, which must be right.
func made(t *testing.T, sys harness.System, written string) part.Made {
	t.Helper()
	m := maybe(t, sys, written)
	require.Empty(t, m.Problems)
	return m
}

func maybe(t *testing.T, sys harness.System, written string) part.Made {
	t.Helper()
	d, problems := describe.Parse("test.yaml", []byte("loomfolio: 1\ntitle: One part\nsystem: {volts: 12}\nparts:\n  X: "+written+"\ncircuits: {one: {legs: [[X, X]]}}\n"))
	require.Empty(t, problems)
	w := &d.Parts[0]
	return part.Make(w, harness.Part{ID: 3, Ref: "X", Kind: harness.Kind(w.Kind.Text)}, part.Sides{Main: sys}, next)
}

// volts is a system of so many volts, which charges at 14.2 for 12.
func volts(v unit.Volt) harness.System { return harness.System{Volts: v, Running: v * 14.2 / 12} }

// lines prints what lies in a part: name, ends, figures and what closes it.
func lines(m part.Made) []string {
	full := map[harness.TerminalID]string{harness.Chassis: "chassis"}
	for _, t := range m.Terminals {
		full[t.ID] = t.Full
	}
	var out []string
	for i := range m.Elements {
		e := &m.Elements[i]
		line := fmt.Sprintf("%s %s: %s > %s", kindWords[e.Kind], e.Name, full[e.A], full[e.B])
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
	harness.Contact: "contact", harness.RelayCoil: "coil", harness.Load: "load", harness.Rectifier: "diode", harness.Open: "open", harness.Converter: "converter",
}

// What each kind is made of, with the figures of figures.go: a battery at rest 12.6 V and charging 14.2 V (from memory), 5 milliohm
// for 60 Ah, contacts 2 milliohm, a fuse 5, a bonded strap 0.5 (common practice, no source), a ground 1 milliohm (FAA AC
// 43.13-1B 11-189 allows 3), a coil 150 mA at 12 V (published relay data), pull-in 8 V and drop-out 1.2 V (from memory).
// Terminals by DIN 72552.
func TestWhatAPartIsMadeOf(t *testing.T) {
	for _, c := range []struct {
		name    string
		sys     harness.System
		written string
		want    []string
	}{
		{"a battery", volts(12), "{kind: battery, capacity: 120 Ah}",
			[]string{"emf X: X.+ > X.-, 12.6 V, 0.0025 ohm"}},
		{"a battery that says its own", volts(12), "{kind: battery, emf: 12.9 V, inner: 4 mohm}",
			[]string{"emf X: X.+ > X.-, 12.9 V, 0.004 ohm"}},
		{"a battery of 24 V", volts(24), "{kind: battery}",
			[]string{"emf X: X.+ > X.-, 25.2 V, 0.01 ohm"}},
		{"an alternator", volts(12), "{kind: alternator, output: 45 A}", []string{
			"charger X: X.B+ > X.case, 14.2 V, 45 A, 0.005 ohm, engine [running]",
			"contact X.L-case: X.L > X.case, 1 ohm, engine [off cranking]",
			"contact X.B+-L: X.B+ > X.L, 1 ohm, engine [running]",
		}},
		{"with the earth on plus", harness.System{Volts: 6, Running: 7.1, PositiveEarth: true}, "{kind: alternator, output: 20 A, regulated: 7.2 V}", []string{
			"charger X: X.case > X.B+, 7.2 V, 20 A, 0.005 ohm, engine [running]",
			"contact X.L-case: X.L > X.case, 1 ohm, engine [off cranking]",
			"contact X.B+-L: X.B+ > X.L, 1 ohm, engine [running]",
		}},
		{"a starter", volts(12), "{kind: starter, draws: 150 A}", []string{
			"coil X.solenoid: X.50 > X.case, 1.2 ohm, in at 8, out below 1.2",
			"load X: X.30 > X.case, 150 A, at 14.2 V, motor, floor 3.6, pulled in",
		}},
		{"an inertia starter", volts(12), "{kind: starter, draws: 250 A, terminals: [30, case]}", []string{
			"load X: X.30 > X.case, 250 A, at 14.2 V, motor, floor 3.6",
		}},
		{"one with the earth on plus", harness.System{Volts: 6, Running: 7.1, PositiveEarth: true}, "{kind: starter, draws: 280 A, terminals: [case, 30]}", []string{
			"load X: X.case > X.30, 280 A, at 7.1 V, motor, floor 1.8",
		}},
		{"a fuse", volts(12), "{kind: fuse}", []string{"fuse X: X.1 > X.2, 0.005 ohm"}},
		{"a fuse with terminals of its own", volts(12), "{kind: fuse, terminals: [in, out]}", []string{"fuse X: X.in > X.out, 0.005 ohm"}},
		{"an isolator", volts(12), "{kind: isolator}", []string{"contact X.1-2: X.1 > X.2, 0.002 ohm, in [0]"}},
		{"a relay", volts(12), "{kind: relay, changeover: true, suppression: resistor}", []string{
			"coil X.coil: X.86 > X.85, 80 ohm, in at 8, out below 1.2",
			"ohms X.resistor: X.86 > X.85, 680 ohm",
			"contact X.30-87: X.30 > X.87, 0.002 ohm, pulled in",
			"contact X.30-87a: X.30 > X.87a, 0.002 ohm, released",
		}},
		{"a relay whose coil is given", volts(12), "{kind: relay, coil: 90 ohm, suppression: diode}", []string{
			"coil X.coil: X.86 > X.85, 90 ohm, in at 8, out below 1.2",
			"diode X.diode: X.85 > X.86, 0.7 V, 0.01 ohm",
			"contact X.30-87: X.30 > X.87, 0.002 ohm, pulled in",
		}},
		{"a coil given by its current, of 24 V", volts(24), "{kind: relay, coil: 100 mA}", []string{
			"coil X.coil: X.86 > X.85, 240 ohm, in at 16, out below 2.4",
			"contact X.30-87: X.30 > X.87, 0.002 ohm, pulled in",
		}},
		{"a flasher", volts(12), "{kind: flasher}", []string{
			"contact X.49-49a: X.49 > X.49a, 0.002 ohm",
			"load X: X.49 > X.31, 0.02 A, at 14.2 V, resistance, floor 6",
		}},
		{"a switch", volts(12), "{kind: switch, positions: {off: [], side: [[1, 2]], head: [[1, 2], [3, 1]]}}", []string{
			"contact X.1-2: X.1 > X.2, 0.002 ohm, in [1 2]",
			"contact X.1-3: X.1 > X.3, 0.002 ohm, in [2]",
		}},
		{"an ignition switch", volts(12), "{kind: ignition-switch}", []string{
			"contact X.30-75: X.30 > X.75, 0.002 ohm, in [1 2]",
			"contact X.30-15: X.30 > X.15, 0.002 ohm, in [2 3]",
			"contact X.30-50: X.30 > X.50, 0.002 ohm, in [3]",
		}},
		{"a lamp in watts, at the running voltage", volts(12), "{kind: lamp, draws: 55 W}", []string{"load X: X.+ > X.-, 3.873 A, at 14.2 V, lamp, floor 6"}},
		{"a lamp in watts at 12 V", volts(12), "{kind: lamp, draws: 55 W, at-volts: 12 V}", []string{"load X: X.+ > X.-, 4.583 A, at 12 V, lamp, floor 6"}},
		{"a motor that works above 9 V", volts(12), "{kind: motor, draws: 7 A, works-above: 9 V}", []string{"load X: X.+ > X.-, 7 A, at 14.2 V, motor, floor 9"}},
		{"a horn", volts(12), "{kind: horn, draws: 5 A}", []string{"load X: X.+ > X.-, 5 A, at 14.2 V, current, floor 6"}},
		{"a heater that is said to behave otherwise", volts(12), "{kind: heater, draws: 5 A, behaves: current}", []string{"load X: X.+ > X.-, 5 A, at 14.2 V, current, floor 6"}},
		{"a diode", volts(12), "{kind: diode}", []string{"diode X: X.a > X.k, 0.7 V, 0.01 ohm"}},
		{"a diode of 0.3 V", volts(12), "{kind: diode, drop: 0.3 V}", []string{"diode X: X.a > X.k, 0.3 V, 0.01 ohm"}},
		{"a resistor", volts(12), "{kind: resistor, value: 12 ohm}", []string{"ohms X: X.1 > X.2, 12 ohm"}},
		{"a capacitor", volts(12), "{kind: capacitor}", []string{"open X: X.1 > X.2"}},
		{"a strap", volts(12), "{kind: strap}", []string{"ohms X: X.1 > X.2, 0.0005 ohm"}},
		{"a ground", volts(12), "{kind: ground}", []string{"ohms X: X > chassis, 0.001 ohm"}},
		{"a ground whose joint was measured", volts(12), "{kind: ground, joint: 20 mohm}", []string{"ohms X: X > chassis, 0.02 ohm"}},
		{"a connector", volts(12), "{kind: connector, cavities: 2}",
			[]string{"contact X.1: X.1.in > X.1.out, 0.003 ohm", "contact X.2: X.2.in > X.2.out, 0.003 ohm"}},
		{"a bus with studs of its own", volts(12), "{kind: bus, terminals: [p, q]}", []string{"join X.p-q: X.p > X.q"}},
		{"a fuse panel", volts(12), "{kind: fuse-panel, layout: [[1, 2, 3]], feeds: {main: [1, 2], lights: [3]}}",
			[]string{"fuse X.1: X.main > X.1, 0.005 ohm", "fuse X.2: X.main > X.2, 0.005 ohm", "fuse X.3: X.lights > X.3, 0.005 ohm"}},
		{"a wiper motor, inside written out", volts(12), "{kind: motor, terminals: [53, 53b, 31, c], inside: [{from: 53, to: 31, draws: 4 A}, {from: 53b, to: 31, draws: 6 A, behaves: current}, {join: [31, c]}]}", []string{
			"load X.53-31: X.53 > X.31, 4 A, at 14.2 V, motor, floor 6",
			"load X.53b-31: X.53b > X.31, 6 A, at 14.2 V, current, floor 6",
			"join X.31-c: X.31 > X.c",
		}},
		{"two windings between the same terminals", volts(12), "{kind: lamp, inside: [{from: a, to: b, draws: 1 A}, {from: a, to: b, draws: 2 A}]}", []string{
			"load X.a-b: X.a > X.b, 1 A, at 14.2 V, lamp, floor 6",
			"load X.a-b#2: X.a > X.b, 2 A, at 14.2 V, lamp, floor 6",
		}},
	} {
		t.Run(c.name, func(t *testing.T) {
			require.Equal(t, c.want, lines(made(t, c.sys, c.written)))
		})
	}
}

// What the panel's face shows: the layout's rows, else six abreast; given fuses and spares.
func TestAPanelsFace(t *testing.T) {
	panel := func(text string) *harness.Panel {
		return made(t, volts(12), text).Part.Panel
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

// A part's terminals and elements count on from what others have, and name it as their owner.
func TestNumbersGoOn(t *testing.T) {
	m := made(t, volts(12), "{kind: relay, changeover: true}")
	require.Equal(t, []harness.TerminalID{7, 8, 9, 10, 11}, m.Part.Terminals)
	require.Equal(t, []harness.ElementID{4, 5, 6}, m.Part.Elements)
	for i, x := range m.Terminals {
		require.Equal(t, [2]any{m.Part.Terminals[i], harness.PartID(3)}, [2]any{x.ID, x.Part})
	}
	for i, e := range m.Elements {
		require.Equal(t, [2]any{m.Part.Elements[i], harness.PartID(3)}, [2]any{e.ID, e.Part})
	}
	require.Equal(t, harness.ElementID(4), m.Elements[1].When.Coil, "the contact follows the part's own coil")
}

// Only a bus that names no terminals takes those that stops name.
func TestOpenBus(t *testing.T) {
	require.True(t, made(t, volts(12), "{kind: bus}").Open)
	require.False(t, made(t, volts(12), "{kind: bus, terminals: [p, q]}").Open)
	require.False(t, made(t, volts(12), "{kind: fuse}").Open)
}

// What is written wrongly is a problem, and the rest of the part is made all the same.
func TestWrittenWrongly(t *testing.T) {
	for _, c := range []struct{ written, slug string }{
		{"{kind: motor, draws: 4 A, terminals: [53, 53a, 31]}", "terminals-unclear"},
		{"{kind: relay, terminals: [1, 2, 3, 4]}", "terminals-unclear"},
		{"{kind: motor, terminals: [53, 31], inside: [{from: 53, to: 54, draws: 4 A}]}", "unknown-terminal"},
		{"{kind: fuse-panel, layout: [[1, 15]], feeds: {15: [1, 15]}}", "panel-name-twice"},
		{"{kind: fuse-panel, layout: [[1, 2]], feeds: {main: [1, 2, 3]}}", "position-not-shown"},
		{"{kind: fuse-panel, layout: [[1, 2]], feeds: {main: [1, 2]}, fuses: {9: 10 A}}", "unknown-position"},
		{"{kind: connector, cavities: 2, layout: [[1, 2, 3]]}", "unknown-cavity"},
		{"{kind: connector, cavities: 2, layout: [[1]]}", "cavity-not-shown"},
	} {
		m := maybe(t, volts(12), c.written)
		require.Len(t, m.Problems, 1, c.written)
		require.Equal(t, c.slug, m.Problems[0].Slug)
		require.True(t, m.Problems[0].Span.Known())
		require.NotEmpty(t, m.Terminals)
	}
}

// A cavity has two sides and one name.
func TestNames(t *testing.T) {
	require.Equal(t, []string{"1", "2"}, part.Names(made(t, volts(12), "{kind: connector, cavities: 2}").Terminals))
	require.Equal(t, []string{"30", "85", "86", "87"}, part.Names(made(t, volts(12), "{kind: relay}").Terminals))
	require.Empty(t, part.Names(made(t, volts(12), "{kind: ground}").Terminals))
}

// A tenth winding between the same terminals is numbered like the second.
func TestManyWindingsAreTold(t *testing.T) {
	m := made(t, volts(12), "{kind: lamp, inside: ["+strings.Repeat("{from: a, to: b, draws: 1 A}, ", 10)+"]}")
	require.Equal(t, "X.a-b#2", m.Elements[1].Name)
	require.Equal(t, "X.a-b#10", m.Elements[9].Name)
}
