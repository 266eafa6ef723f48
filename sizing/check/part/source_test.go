package part_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/sizing/harness"
)

var earthedPlus = harness.System{Volts: 12, Running: 14, PositiveEarth: true}

// ends gives the plus and minus of the source in a part, "" where it has none.
func ends(of []harness.Terminal, elements []harness.Element) (plus, minus string) {
	full := map[harness.TerminalID]string{}
	for _, t := range of {
		full[t.ID] = t.Name
	}
	for _, e := range elements {
		if e.Kind == harness.Charger || e.Kind == harness.EMF {
			return full[e.A], full[e.B]
		}
	}
	return "", ""
}

// A source keeps its source whatever is written inside it, between the terminals that
// its names say, the right way round.
func TestSourcesStaySources(t *testing.T) {
	for _, c := range []struct {
		says         string
		sys          harness.System
		written      string
		plus, minus  string
		elementCount int
	}{
		{"an alternator as it comes", volts(12), "{kind: alternator, output: 45 A}", "B+", "case", 3},
		{"with its field inside", volts(12), "{kind: alternator, output: 45 A, inside: [{from: DF, to: case, draws: 3 A}]}", "B+", "case", 4},
		{"a dynamo with its field", volts(12), "{kind: alternator, output: 22 A, terminals: [case, D, F], inside: [{from: F, to: case, draws: 2 A}]}", "D", "case", 2},
		{"the same, earthed on plus", earthedPlus, "{kind: alternator, output: 22 A, terminals: [case, D, F], inside: [{from: F, to: case, draws: 2 A}]}", "case", "D", 2},
		{"a dynamo with its body called E", volts(12), "{kind: alternator, output: 22 A, terminals: [D, F, E], inside: [{from: F, to: E, draws: 2 A}]}", "D", "E", 2},
		{"with nothing said of its field", volts(12), "{kind: alternator, output: 22 A, terminals: [case, D, F]}", "D", "case", 1},
		{"by DIN 72552", volts(12), "{kind: alternator, output: 22 A, terminals: [D+, DF, D-], inside: [{from: DF, to: D-, draws: 2 A}]}", "D+", "D-", 2},
		{"armature and field", volts(6), "{kind: alternator, output: 20 A, terminals: [A, F, GND], inside: [{from: F, to: GND, draws: 2 A}]}", "A", "GND", 2},
		{"body first, live second", volts(12), "{kind: alternator, output: 22 A, terminals: [case, D]}", "D", "case", 1},
		{"and earthed on plus", earthedPlus, "{kind: alternator, output: 22 A, terminals: [D, case]}", "case", "D", 1},
		{"a solar regulator", volts(12), "{kind: alternator, output: 20 A, terminals: [B+, B-]}", "B+", "B-", 1},
		{"its marks hold whatever is earthed", earthedPlus, "{kind: alternator, output: 20 A, terminals: [B+, B-]}", "B+", "B-", 1},
		{"with its own draw", volts(12), "{kind: alternator, output: 20 A, terminals: [B+, B-], inside: [{from: B+, to: B-, draws: 10 mA}]}", "B+", "B-", 2},
		{"a converter", volts(12), "{kind: alternator, output: 30 A, terminals: [IN, OUT, GND], inside: [{from: IN, to: GND, draws: 480 W, behaves: power}]}", "OUT", "GND", 2},
		{"a converter with four posts", volts(12), `{kind: alternator, output: 30 A, terminals: ["IN+", "IN-", "OUT+", "OUT-"], inside: [{join: ["IN-", "OUT-"]}, {from: "IN+", to: "IN-", draws: 480 W, behaves: power}]}`, "OUT+", "OUT-", 3},
		{"two names of one's own", volts(12), "{kind: alternator, output: 20 A, terminals: [red, black]}", "red", "black", 1},
		{"the lamp on D+", volts(12), "{kind: alternator, output: 45 A, terminals: [B+, D+, case]}", "B+", "case", 3},
		{"a battery with a tracker in it", volts(12), `{kind: battery, inside: [{from: "+", to: "-", draws: 5 mA}]}`, "+", "-", 2},
		{"a battery with a monitor's lead", volts(12), `{kind: battery, terminals: ["+", "-", mon], inside: [{from: "+", to: mon, draws: 5 mA}]}`, "+", "-", 2},
	} {
		m := made(t, c.sys, c.written)
		plus, minus := ends(m.Terminals, m.Elements)
		require.Equal(t, []string{c.plus, c.minus}, []string{plus, minus}, c.says)
		require.Len(t, m.Elements, c.elementCount, c.says)
	}
}

// Where nothing says between which terminals it gives its current, that is said.
func TestSourcesWhoseSidesAreUnclear(t *testing.T) {
	for _, written := range []string{
		"{kind: alternator, output: 22 A, terminals: [1, 2, 3]}",
		"{kind: alternator, output: 22 A, terminals: [1, 2, 3], inside: [{from: 1, to: 2, draws: 2 A}]}",
		"{kind: alternator, output: 22 A, terminals: [D, F, x]}",
		"{kind: alternator, output: 22 A, terminals: [x, F, case], inside: [{from: F, to: case, draws: 2 A}]}",
		"{kind: alternator, output: 22 A, terminals: [IN, x, GND], inside: [{from: IN, to: GND, draws: 2 A}]}",
		"{kind: alternator, output: 22 A, terminals: [yellow, yellow 2, red, green]}",
		"{kind: alternator, output: 22 A, terminals: [case]}",
		"{kind: battery, terminals: [a, b, c]}",
		`{kind: battery, terminals: ["+", tap, x]}`,
		`{kind: battery, terminals: ["-", tap, x], inside: [{from: tap, to: "-", draws: 1 A}]}`,
	} {
		m := maybe(t, volts(12), written)
		require.Len(t, m.Problems, 1, written)
		require.Equal(t, "terminals-unclear", m.Problems[0].Slug)
		require.Contains(t, m.Problems[0].Summary, "gives its current")
	}
}

// Constant power: its floor is the lowest voltage that it works at, and its most
// current is that there.
func TestConstantPower(t *testing.T) {
	for written, most := range map[string]float64{
		`{kind: module, inside: [{from: "+", to: "-", draws: 1700 W, behaves: power}]}`:                    1700 / 10.5,
		`{kind: module, works-above: 11 V, inside: [{from: "+", to: "-", draws: 1700 W, behaves: power}]}`: 1700.0 / 11,
		`{kind: lamp, draws: 24 W, behaves: power}`:                                                        24 / 10.5,
		`{kind: lamp, draws: 2 A, at-volts: 12 V, behaves: power, works-above: 8 V}`:                       24.0 / 8,
		`{kind: module, at-volts: 12 V, inside: [{from: "+", to: "-", draws: 2 A, behaves: power}]}`:       24 / 10.5,
		`{kind: module, inside: [{from: "+", to: "-", draws: 2 A @ 13 V, behaves: power}]}`:                26 / 10.5,
		`{kind: outlet, draws: 120 W, behaves: power}`:                                                     120 / 10.5,
		`{kind: module, inside: [{from: "+", to: "-", draws: 1700 W}]}`:                                    1700 / 14.2,
		`{kind: outlet, draws: 10 A}`:                                                                      10,
		`{kind: lamp, draws: 24 W, behaves: power, works-above: 20 V}`:                                     24 / 14.2,
	} {
		m := made(t, volts(12), written)
		require.InEpsilon(t, most, float64(m.Elements[0].Most()), 1e-9, written)
	}
	m := made(t, volts(24), `{kind: lamp, draws: 42 W, behaves: power}`)
	require.InDelta(t, 2, float64(m.Elements[0].Most()), 1e-9, "21 V of 24")
}
