package part_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/harness/kind"
	"example.com/loomfolio/sizing/rating"
)

// What kinds with a recipe are made of. Figures: Directive 97/24/EC sheet P21/5W/1 (25/6 W at 13.5 V, 28/10 W at 28 V), UN R37 (75/68 W at
// 13.2 V for what is printed 60/55 W, from memory), a coil of 3 ohm by Ohm's law, the rest of rating/parts.csv.
func TestWhatARecipeMakes(t *testing.T) {
	for _, c := range []struct {
		name    string
		sys     harness.System
		written string
		want    []string
	}{
		{"a wiper", volts(12), "{kind: wiper}", []string{
			"load X.53-31: X.53 > X.31, 4 A, at 13.5 V, motor, floor 6", "load X.53b-31: X.53b > X.31, 8 A, at 13.5 V, motor, floor 6",
			"contact X.53e-31: X.53e > X.31, 0.002 ohm, in [0]", "contact X.53e-53a: X.53e > X.53a, 0.002 ohm, in [1]"}},
		{"a wiper of which the slow speed alone is given: the fast one in proportion", volts(12), "{kind: wiper, draws: 3 A, terminals: [53, 53b, 31]}", []string{
			"load X.53-31: X.53 > X.31, 3 A, at 14.2 V, motor, floor 6", "load X.53b-31: X.53b > X.31, 6 A, at 13.5 V, motor, floor 6"}},
		{"a wiper with two wires", volts(12), "{kind: wiper, terminals: [53a, 31b, 31], draws: 3 A}", []string{
			"load X: X.53a > X.31b, 3 A, at 14.2 V, motor, floor 6", "contact X.31b-31: X.31b > X.31, 0.002 ohm, in [1]"}},
		{"a headlamp as printed", volts(12), "{kind: headlamp, draws: 60/55 W}", []string{
			"load X.56a-31: X.56a > X.31, 5.682 A, at 13.2 V, lamp, floor 6", "load X.56b-31: X.56b > X.31, 5.152 A, at 13.2 V, lamp, floor 6"}},
		{"a headlamp at a voltage of its own: as written", volts(12), "{kind: headlamp, draws: 60/55 W @ 12 V}", []string{
			"load X.56a-31: X.56a > X.31, 5 A, at 12 V, lamp, floor 6", "load X.56b-31: X.56b > X.31, 4.583 A, at 12 V, lamp, floor 6"}},
		{"watts that no bulb is printed with", volts(12), "{kind: headlamp, draws: 71/35.5 W}", []string{
			"load X.56a-31: X.56a > X.31, 5 A, at 14.2 V, lamp, floor 6", "load X.56b-31: X.56b > X.31, 2.5 A, at 14.2 V, lamp, floor 6"}},
		{"a stop and tail lamp of 24 V", volts(24), "{kind: stop-tail}", []string{
			"load X.54-31: X.54 > X.31, 1 A, at 28 V, lamp, floor 12", "load X.58-31: X.58 > X.31, 0.3571 A, at 28 V, lamp, floor 12"}},
		{"the same with plus on the bodywork", earthedPlus, "{kind: stop-tail}", []string{
			"load X.54-31: X.31 > X.54, 1.852 A, at 13.5 V, lamp, floor 6", "load X.58-31: X.31 > X.58, 0.4444 A, at 13.5 V, lamp, floor 6"}},
		{"a window motor of 24 V: the same watts", volts(24), "{kind: window-motor}", []string{"load X: X.1 > X.2, 4 A, at 28.4 V, motor, floor 12"}},
		{"a thermostat", volts(12), "{kind: thermostat}", []string{"contact X.1-2: X.1 > X.2, 0.002 ohm, in [1]"}},
		{"one that is closed when cold", volts(12), "{kind: thermostat, closes: cold}", []string{"contact X.1-2: X.1 > X.2, 0.002 ohm, in [0]"}},
		{"one with names of its own", volts(12), "{kind: thermostat, terminals: [A, B]}", []string{"contact X.A-B: X.A > X.B, 0.002 ohm, in [1]"}},
		{"an oil pressure switch in its block", volts(12), "{kind: pressure-switch, terminals: [1]}", []string{"contact X.1-body: X.1 > chassis, 0.002 ohm, in [0]"}},
		{"a coil", volts(12), "{kind: ignition-coil}", []string{"load X: X.15 > X.1, 4 A, at 12 V, resistance, floor 6"}},
		{"a coil of 6 V: as many watts", volts(6), "{kind: ignition-coil}", []string{"load X: X.15 > X.1, 8 A, at 6 V, resistance, floor 3"}},
		{"a coil with ballast", volts(12), "{kind: ignition-coil, ballast: 1.4 ohm}", []string{"load X: X.15a > X.1, 8 A, at 12 V, resistance, floor 6", "ohms X.15-15a: X.15 > X.15a, 1.4 ohm"}},
		{"points", volts(12), "{kind: points}", []string{"contact X.1-31: X.1 > X.31, 0.002 ohm, in [0]", "open X.condenser: X.1 > X.31"}},
		{"four glow plugs", volts(12), "{kind: glow-plugs, plugs: 4, draws: 10 A @ 11 V}", []string{"load X: X.+ > X.-, 40 A, at 11 V, resistance, floor 6"}},
		{"a semaphore", volts(12), "{kind: trafficator}", []string{"load X.arm: X.+ > X.-, 2 A, at 12 V, resistance, floor 6", "load X.lamp: X.+ > X.-, 0.2444 A, at 13.5 V, lamp, floor 6"}},
		{"a latching relay with both throws", volts(12), "{kind: latching-relay, changeover: true, coil: 300 mA}", []string{
			"contact X.30-87: X.30 > X.87, 0.002 ohm, in [1]", "contact X.30-87a: X.30 > X.87a, 0.002 ohm, in [0]",
			"coil X.S-31: X.S > X.31, 40 ohm, in at 8, out below 1.2", "coil X.R-31: X.R > X.31, 40 ohm, in at 8, out below 1.2"}},
		{"one that each pulse toggles", volts(12), "{kind: latching-relay, terminals: [30, 87, T, 31]}", []string{
			"contact X.30-87: X.30 > X.87, 0.002 ohm, in [1]", "coil X.T-31: X.T > X.31, 40 ohm, in at 8, out below 1.2"}},
		{"a recipe gives way to inside", volts(12), "{kind: wiper, inside: [{from: 53, to: 31, draws: 2 A}]}", []string{"load X.53-31: X.53 > X.31, 2 A, at 14.2 V, motor, floor 6"}},
		{"a trailer socket with three of its contacts", volts(12), "{kind: trailer-socket, type: iso-1724, terminals: [6, 7, 3]}", nil},
	} {
		m := made(t, c.sys, c.written)
		if c.want != nil {
			require.Equal(t, c.want, lines(m), c.name)
		}
	}
}

// A kind that is started says so: in proportion to what it draws, each of several plugs.
func TestWhatARecipeStartsWith(t *testing.T) {
	for written, want := range map[string]float64{
		"{kind: window-motor}":                                     28,
		"{kind: window-motor, draws: 4 A}":                         14,
		"{kind: window-motor, draws: 4 A, starts: 20 A for 0.5 s}": 20,
		"{kind: glow-plugs, plugs: 4}":                             80,
		"{kind: glow-plugs, plugs: 4, starts: 15 A for 4 s}":       60,
		"{kind: wiper}":                                            20,
		"{kind: headlamp}":                                         0,
	} {
		require.InDelta(t, want, float64(made(t, volts(12), written).Part.Starts.Amps), 1e-9, written)
	}
	coil := made(t, volts(12), "{kind: ignition-coil}")
	require.InDelta(t, 0.65, float64(coil.Elements[0].Pulse), 1e-9, "the dwell")
	coil = made(t, volts(12), "{kind: ignition-coil, duty: 58 %}")
	require.InDelta(t, 0.58, float64(coil.Elements[0].Pulse), 1e-9)
	reed := made(t, volts(12), "{kind: reed}")
	require.InDelta(t, 0.5, float64(reed.Part.Rating), 1e-9)
	kept := made(t, volts(12), "{kind: stabiliser}")
	require.InDelta(t, 10, float64(kept.Elements[0].Keeps), 1e-9)
}

// A terminal that a socket's standard has joins each lamp to its own return: 9 and 10 of the
// 13-pole socket have their own (ISO 11446, as a socket maker's page has it).
func TestTrailerSockets(t *testing.T) {
	returns := map[string]map[string]string{}
	for _, name := range rating.SocketTypes() {
		returns[name] = map[string]string{}
		m := made(t, volts(12), "{kind: trailer-socket, type: "+name+"}")
		full := map[harness.TerminalID]string{}
		for _, x := range m.Terminals {
			full[x.ID] = x.Name
		}
		for _, e := range m.Elements {
			require.Equal(t, []int{1}, e.When.Positions, "only while towing")
			returns[name][full[e.A]] = full[e.B]
		}
	}
	require.Equal(t, map[string]string{"1": "3", "2": "3", "4": "3", "5": "3", "6": "3", "7": "3"}, returns["iso-1724"])
	require.Equal(t, map[string]string{"1": "3", "2": "3", "4": "3", "5": "3", "6": "3", "7": "3", "8": "3", "9": "13", "10": "11"}, returns["iso-11446"])
	require.Equal(t, "1", returns["iso-1185"]["3"], "24N: 1 is the return, not the left indicator")
	require.Equal(t, "1", returns["sae-j560"]["4"])
}

// Every load and coil of a recipe has a figure.
func TestEveryPieceHasAFigure(t *testing.T) {
	for _, row := range kind.All() {
		if row.Recipe == nil {
			continue
		}
		for _, p := range row.Recipe.Pieces {
			f, ok := rating.PartFigureOf(string(row.Kind), p.Take, 12)
			switch p.Is {
			case harness.Load:
				require.True(t, ok && f.Draws.Given(), "%s %s", row.Kind, p.Take)
			case harness.RelayCoil, harness.Resistance:
				require.True(t, ok && f.Ohms > 0, "%s %s", row.Kind, p.Take)
			}
		}
	}
}
