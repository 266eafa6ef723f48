package sizing_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/sizing/check"
	"example.com/loomfolio/sizing/describe"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/network"
	"example.com/loomfolio/sizing/network/spicecheck"
)

// bodyWire is the resistance of every wire in these tests, ohm.
const bodyWire = 0.02

// bodyCase is a kind in one state, and the same written by hand for ngspice: every wire 0.02 ohm,
// the battery 12.6 V behind 5 milliohm, a fuse 5, contacts 2, a ground 1 milliohm. Terminals at gives
// the node of each point that is compared. In the netlist 0 is the bodywork, 1 the battery's plus, 2 the
// fuse's far side and 3 a second feed there.
type bodyCase struct {
	name, part, legs, state string
	spice                   string
	at                      map[string]int
}

const bodyHead = `body kinds
V1 9 8 DC 12.6
R1 9 1 0.005
R2 1 10 0.02
R3 10 2 0.005
R4 8 7 0.02
R5 7 0 0.001
`

// motorLaw, lampLaw and so on are the laws by which loads take current, as SPICE sources: a motor
// takes so many amperes from half the nominal voltage up, a lamp's current follows V^0.55.
func motorLaw(name string, a, b int, amps float64) string {
	return fmt.Sprintf("B%s %d %d I = min(%g, max(0,V(%d,%d))*%g)\n", name, a, b, amps, a, b, amps/6)
}

func lampLaw(name string, a, b int, watts, at float64) string {
	return fmt.Sprintf("B%s %d %d I = %.15g*exp(0.55*ln(max(V(%d,%d),0.5)/%g))\n", name, a, b, watts/at, a, b, at)
}

func ohmsLaw(name string, a, b int, ohms float64) string {
	return fmt.Sprintf("R%s %d %d %.15g\n", name, a, b, ohms)
}

var bodyCases = []bodyCase{
	{"a wiper that runs", "{kind: wiper, draws: 4/8 A}", "[F, X.53, X.31, G]", "{X: turning}",
		ohmsLaw("a", 2, 20, bodyWire) + motorLaw("m", 20, 21, 4) + ohmsLaw("b", 21, 22, bodyWire) + ohmsLaw("g", 22, 0, 0.001), map[string]int{"X.53": 20, "X.31": 21}},
	{"a wiper that parks: 53a feeds 53 over the cam", "{kind: wiper, draws: 4/8 A}", "[F, X.53a], [X.53e, {to: X.53, length: 60 mm}], [X.31, G]", "{X: turning}",
		ohmsLaw("a", 2, 20, bodyWire) + ohmsLaw("c", 20, 21, 0.002) + ohmsLaw("j", 21, 22, bodyWire) + motorLaw("m", 22, 23, 4) + ohmsLaw("b", 23, 24, bodyWire) + ohmsLaw("g", 24, 0, 0.001),
		map[string]int{"X.53a": 20, "X.53e": 21, "X.53": 22, "X.31": 23}},
	{"one that parks itself with two wires, its switch open", "{kind: wiper, terminals: [53a, 31b, 31], draws: 3 A}", "[F, X.53a], [X.31, G]", "{X: turning}",
		ohmsLaw("a", 2, 20, bodyWire) + motorLaw("m", 20, 21, 3) + ohmsLaw("c", 21, 22, 0.002) + ohmsLaw("b", 22, 23, bodyWire) + ohmsLaw("g", 23, 0, 0.001),
		map[string]int{"X.53a": 20, "X.31b": 21, "X.31": 22}},
	{"a headlamp with both filaments lit: 75 and 68 W at 13.2 V are printed 60/55", "{kind: headlamp, draws: 60/55 W}", "[F, X.56a], [F, X.56b], [X.31, G]", "{}",
		ohmsLaw("a", 2, 20, bodyWire) + ohmsLaw("b", 2, 21, bodyWire) + lampLaw("m", 20, 22, 75, 13.2) + lampLaw("d", 21, 22, 68, 13.2) + ohmsLaw("e", 22, 23, bodyWire) + ohmsLaw("g", 23, 0, 0.001),
		map[string]int{"X.56a": 20, "X.56b": 21, "X.31": 22}},
	{"a stop and tail lamp, the tail alone", "{kind: stop-tail}", "[F, X.58], [X.31, G]", "{}",
		ohmsLaw("a", 2, 20, bodyWire) + lampLaw("t", 20, 21, 6, 13.5) + ohmsLaw("e", 21, 22, bodyWire) + ohmsLaw("g", 22, 0, 0.001), map[string]int{"X.58": 20, "X.31": 21}},
	{"a semaphore: 2 A at 12 V beside 3.3 W at 13.5 V", "{kind: trafficator}", "[F, X, G]", "{}",
		ohmsLaw("a", 2, 20, bodyWire) + ohmsLaw("c", 20, 21, 6) + lampLaw("l", 20, 21, 3.3, 13.5) + ohmsLaw("e", 21, 22, bodyWire) + ohmsLaw("g", 22, 0, 0.001), map[string]int{"X.+": 20, "X.-": 21}},
	{"a window motor the other way round", "{kind: window-motor, draws: 8 A}", "[F, X.2], [X.1, G]", "{}",
		ohmsLaw("a", 2, 20, bodyWire) + motorLaw("m", 20, 21, 8) + ohmsLaw("e", 21, 22, bodyWire) + ohmsLaw("g", 22, 0, 0.001), map[string]int{"X.2": 20, "X.1": 21}},
	{"a lock motor", "{kind: lock-motor, draws: 4 A}", "[F, X.1], [X.2, G]", "{}",
		ohmsLaw("a", 2, 20, bodyWire) + motorLaw("m", 20, 21, 4) + ohmsLaw("e", 21, 22, bodyWire) + ohmsLaw("g", 22, 0, 0.001), map[string]int{"X.1": 20, "X.2": 21}},
	{"a hot thermostat before 3 ohm", "{kind: thermostat}", "[F, X.1], [X.2, L, G]", "{X: hot}",
		ohmsLaw("a", 2, 20, bodyWire) + ohmsLaw("c", 20, 21, 0.002) + ohmsLaw("b", 21, 22, bodyWire) + ohmsLaw("l", 22, 23, 3) + ohmsLaw("e", 23, 24, bodyWire) + ohmsLaw("g", 24, 0, 0.001),
		map[string]int{"X.1": 20, "X.2": 21, "L.-": 23}},
	{"a pressure switch with its thread in the engine", "{kind: pressure-switch, terminals: [1]}", "[F, L.+], [L.-, X.1]", "{}",
		ohmsLaw("a", 2, 20, bodyWire) + ohmsLaw("l", 20, 21, 3) + ohmsLaw("b", 21, 22, bodyWire) + ohmsLaw("c", 22, 0, 0.002), map[string]int{"L.+": 20, "L.-": 21, "X.1": 22}},
	{"a reed contact near its magnet", "{kind: reed, rating: 5 A}", "[F, X.1], [X.2, L, G]", "{X: near}",
		ohmsLaw("a", 2, 20, bodyWire) + ohmsLaw("c", 20, 21, 0.1) + ohmsLaw("b", 21, 22, bodyWire) + ohmsLaw("l", 22, 23, 3) + ohmsLaw("e", 23, 24, bodyWire) + ohmsLaw("g", 24, 0, 0.001),
		map[string]int{"X.1": 20, "X.2": 21}},
	{"a Hall sensor that pulls 3 ohm down", "{kind: hall-sensor, rating: 5 A}", "[F, X.+], [F, L.+], [L.-, X.out], [X.-, G]", "{X: near}",
		ohmsLaw("a", 2, 20, bodyWire) + motorLaw("s", 20, 21, 0.01) + ohmsLaw("b", 2, 22, bodyWire) + ohmsLaw("l", 22, 23, 3) + ohmsLaw("d", 23, 24, bodyWire) + ohmsLaw("c", 24, 21, 1) +
			ohmsLaw("e", 21, 25, bodyWire) + ohmsLaw("g", 25, 0, 0.001), map[string]int{"X.+": 20, "X.-": 21, "X.out": 24}},
	{"coil and points, the engine still: 4 A at 12 V is 3 ohm", "{kind: ignition-coil}", "[F, X.15], [X.1, P.1], [P.31, G]", "{}",
		ohmsLaw("a", 2, 20, bodyWire) + ohmsLaw("c", 20, 21, 3) + ohmsLaw("b", 21, 22, bodyWire) + ohmsLaw("p", 22, 23, 0.002) + ohmsLaw("e", 23, 24, bodyWire) + ohmsLaw("g", 24, 0, 0.001),
		map[string]int{"X.15": 20, "X.1": 21, "P.1": 22, "P.31": 23}},
	{"glow plugs, four of 1 ohm", "{kind: glow-plugs, plugs: 4}", "[F, X, G]", "{}",
		ohmsLaw("a", 2, 20, bodyWire) + ohmsLaw("c", 20, 21, 0.25) + ohmsLaw("e", 21, 22, bodyWire) + ohmsLaw("g", 22, 0, 0.001), map[string]int{"X.+": 20, "X.-": 21}},
	{"a glow timer that glows, its lamp 3 ohm", "{kind: glow-timer}", "[F, X.30], [F, X.15], [X.31, G], [X.G1, L, G], [F, L2, X.L]", "{X: glowing}",
		ohmsLaw("a", 2, 20, bodyWire) + ohmsLaw("b", 2, 21, bodyWire) + motorLaw("s", 21, 22, 0.15) + ohmsLaw("c", 20, 23, 0.002) + ohmsLaw("d", 23, 24, bodyWire) + ohmsLaw("l", 24, 25, 3) + ohmsLaw("f", 25, 26, bodyWire) +
			ohmsLaw("h", 22, 26, bodyWire) + ohmsLaw("g", 26, 0, 0.001) + ohmsLaw("i", 2, 27, bodyWire) + ohmsLaw("m", 27, 28, 3) + ohmsLaw("j", 28, 29, bodyWire) + ohmsLaw("k", 29, 22, 0.002),
		map[string]int{"X.30": 20, "X.15": 21, "X.31": 22, "X.G1": 23, "X.L": 29}},
	{"an electronic flasher, lit, with a pilot lamp of 3 ohm", "{kind: electronic-flasher}", "[F, X.49], [X.31, G], [X.49a, L, G], [X.C, L2, G]", "{}",
		ohmsLaw("a", 2, 20, bodyWire) + motorLaw("s", 20, 21, 0.02) + ohmsLaw("b", 21, 22, bodyWire) + ohmsLaw("g", 22, 0, 0.001) + ohmsLaw("c", 20, 23, 0.002) + ohmsLaw("d", 23, 24, bodyWire) + ohmsLaw("l", 24, 25, 3) +
			ohmsLaw("e", 25, 22, bodyWire) + ohmsLaw("f", 20, 26, 0.002) + ohmsLaw("h", 26, 27, bodyWire) + ohmsLaw("m", 27, 28, 3) + ohmsLaw("i", 28, 22, bodyWire),
		map[string]int{"X.49": 20, "X.31": 21, "X.49a": 23, "X.C": 26}},
	{"a latching relay, set, with its set coil still pressed: 40 ohm", "{kind: latching-relay}", "[F, X.30], [X.87, L, G], [F, X.S], [F, X.R], [X.31, G]", "{X: set}",
		ohmsLaw("a", 2, 20, bodyWire) + ohmsLaw("c", 20, 21, 0.002) + ohmsLaw("b", 21, 22, bodyWire) + ohmsLaw("l", 22, 23, 3) + ohmsLaw("e", 23, 24, bodyWire) + ohmsLaw("g", 24, 0, 0.001) +
			ohmsLaw("s", 2, 25, bodyWire) + ohmsLaw("t", 25, 26, 40) + ohmsLaw("r", 2, 27, bodyWire) + ohmsLaw("u", 27, 26, 40) + ohmsLaw("h", 26, 24, bodyWire),
		map[string]int{"X.30": 20, "X.87": 21, "X.31": 26}},
	{"a timer that is closed", "{kind: timer}", "[F, X.30], [F, X.15], [X.87, L, G], [X.31, G]", "{X: closed}",
		ohmsLaw("a", 2, 20, bodyWire) + ohmsLaw("c", 20, 21, 0.002) + ohmsLaw("b", 21, 22, bodyWire) + ohmsLaw("l", 22, 23, 3) + ohmsLaw("e", 23, 24, bodyWire) + ohmsLaw("g", 24, 0, 0.001) +
			ohmsLaw("d", 2, 25, bodyWire) + motorLaw("s", 25, 26, 0.15) + ohmsLaw("h", 26, 24, bodyWire), map[string]int{"X.30": 20, "X.87": 21, "X.15": 25, "X.31": 26}},
	{"a stabiliser: a gauge of 3 ohm behind it has 10 V, whatever the feed", "{kind: stabiliser}", "[F, X.B], [X.I, L, G], [X.E, G]", "{}",
		ohmsLaw("a", 2, 20, bodyWire) + "Bd 20 21 V = max(0, V(20,26)-10)\n" + ohmsLaw("c", 21, 22, 0.002) + ohmsLaw("b", 22, 23, bodyWire) + ohmsLaw("l", 23, 24, 3) + ohmsLaw("e", 24, 25, bodyWire) + ohmsLaw("g", 25, 0, 0.001) +
			ohmsLaw("h", 22, 26, 100) + ohmsLaw("i", 26, 25, bodyWire), map[string]int{"X.B": 20, "X.I": 22, "X.E": 26, "L.-": 24}},
	{"a trailer's stop lamps and left tail lamp on a socket", "{kind: trailer-socket, type: iso-1724}", "[F, X.6], [F, X.7], [X.3, G]", "{X: towing}",
		ohmsLaw("a", 2, 20, bodyWire) + ohmsLaw("b", 2, 21, bodyWire) + lampLaw("s", 20, 22, 53, 13.5) + lampLaw("t", 21, 22, 22, 13.5) + ohmsLaw("e", 22, 23, bodyWire) + ohmsLaw("g", 23, 0, 0.001),
		map[string]int{"X.6": 20, "X.7": 21, "X.3": 22}},
	{"a capacitor-discharge ignition of 8 A", "{kind: cdi, draws: 8 A}", "[F, X, G]", "{}",
		ohmsLaw("a", 2, 20, bodyWire) + motorLaw("m", 20, 21, 8) + ohmsLaw("e", 21, 22, bodyWire) + ohmsLaw("g", 22, 0, 0.001), map[string]int{"X.+": 20, "X.-": 21}},
	{"a coil of 1.5 ohm with its ballast, points turning: the mean of a dwell of 65 %", "{kind: ignition-coil, ballast: 1.5 ohm}", "[F, X.15], [X.1, P.1], [P.31, G]", "{engine: running}",
		ohmsLaw("a", 2, 20, bodyWire) + ohmsLaw("c", 20, 27, 1.5/0.65) + ohmsLaw("k", 27, 21, 1.5/0.65) + ohmsLaw("b", 21, 22, bodyWire) + ohmsLaw("p", 22, 23, 0.002) + ohmsLaw("e", 23, 24, bodyWire) + ohmsLaw("g", 24, 0, 0.001),
		map[string]int{"X.15": 20, "X.15a": 27, "X.1": 21, "P.31": 23}},
	{"the same cranked, its ballast bypassed at 15a", "{kind: ignition-coil, ballast: 1.5 ohm}", "[F, X.15], [F, X.15a], [X.1, P.1], [P.31, G]", "{engine: cranking}",
		ohmsLaw("a", 2, 20, bodyWire) + ohmsLaw("d", 2, 27, bodyWire) + ohmsLaw("c", 20, 27, 1.5) + ohmsLaw("k", 27, 21, 1.5) + ohmsLaw("b", 21, 22, bodyWire) + ohmsLaw("p", 22, 23, 0.002) + ohmsLaw("e", 23, 24, bodyWire) + ohmsLaw("g", 24, 0, 0.001),
		map[string]int{"X.15": 20, "X.15a": 27, "X.1": 21, "P.31": 23}},
}

// Every kind that is made by a recipe behaves as the same circuit written by hand of SPICE primitives: ngspice
// and the solver agree on every terminal within 1e-5.
func TestBodyKindsBesideSpice(t *testing.T) {
	spicecheck.Need(t)
	var decks [][]byte
	for _, c := range bodyCases {
		head := bodyHead
		if strings.Contains(c.state, "running") { // the vehicle's charging holds the battery at 14.2 V
			head = strings.Replace(head, "12.6", "14.2", 1)
		}
		decks = append(decks, []byte(head+c.spice+".options reltol=1e-10 abstol=1e-12 vntol=1e-10 gmin=1e-15 itl1=500 noacct\n.end\n"))
	}
	found, err := spicecheck.RunAll(t.TempDir(), decks)
	require.NoError(t, err)
	for i, c := range bodyCases {
		h := bodyHarness(t, c)
		r := network.Resistances{}
		for range h.Wires {
			r.Wires = append(r.Wires, bodyWire)
		}
		s, err := network.Solve(h, 0, r, network.Options{})
		require.NoError(t, err, c.name)
		for terminal, node := range c.at {
			want, is := found[i][node]
			require.True(t, is, "%s: ngspice has no node %d", c.name, node)
			want -= found[i][8] // the solver counts from the battery's minus
			have := math.NaN()
			for _, term := range h.Terminals {
				if term.Full == terminal {
					have = s.Volts[term.ID]
				}
			}
			require.InDelta(t, want, have, 1e-5*math.Max(1, math.Abs(want)), "%s: %s\n%s", c.name, terminal, decks[i])
		}
		spicecheck.Compare(t, h, s)
	}
}

func bodyHarness(t *testing.T, c bodyCase) *harness.Harness {
	t.Helper()
	text := "loomfolio: 1\ntitle: One kind\nsystem: {volts: 12, running: 14.2 V}\nparts:\n  BAT: {kind: battery, capacity: 60 Ah}\n  F: {kind: fuse}\n  G0: {kind: ground}\n  G: {kind: ground}\n  X: " + c.part + "\n"
	for ref, part := range map[string]string{"L": "{kind: heater, draws: 4 A @ 12 V}", "L2": "{kind: heater, draws: 4 A @ 12 V}", "P": "{kind: points}"} {
		if strings.Contains(c.legs, ref+",") || strings.Contains(c.legs, ref+".") {
			text += "  " + ref + ": " + part + "\n"
		}
	}
	text += "circuits:\n  one: {legs: [[BAT.+, F], [BAT.-, G0], " + c.legs + "]}\nstates:\n  now: " + c.state + "\n"
	d, problems := describe.Parse("test.yaml", []byte(text))
	require.Empty(t, problems, c.name)
	h, found := check.Check(d)
	require.NotNil(t, h, "%s: %v", c.name, found)
	return h
}
