package check_test

import (
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/sizing/check"
	"example.com/loomfolio/sizing/describe"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/source"
)

const garage = `loomfolio: 1
title: Turned
system: {volts: 12, earth: POLE}
places: {tray: {}, nose: {}}
runs: [{from: tray, to: nose, length: 1 m}]
parts:
  BAT: {kind: battery}
  ALT: {kind: alternator, output: 40 A}
  F1: {kind: fuse}
  F2: {kind: fuse}
  SW: {kind: switch, positions: {off: [], on: [[1, 2]]}}
  PARK: {kind: switch, positions: {off: [[P, E]], on: [[P, B]]}}
  X1: {kind: connector, cavities: 2}
  K1: {kind: relay}
  L1: {kind: lamp, draws: 20 W}
  M: {kind: motor, draws: 5 A}
  D: {kind: diode}
  S1: {kind: splice}
  G1: {kind: ground}
  G0: {kind: ground}
circuits:
`

// garaged is the garage with some legs, and the alternator only where they name it.
func garaged(pole, legs string) string {
	text := strings.Replace(garage, "POLE", pole, 1) + "  one: {legs: [" + legs + "]}\n"
	if !strings.Contains(legs, "ALT") {
		text = strings.Replace(text, "  ALT: {kind: alternator, output: 40 A}\n", "", 1)
	}
	return text
}

func inGarage(t *testing.T, pole, legs string) []string {
	h, _ := checked(t, garaged(pole, legs))
	var out []string
	for _, w := range h.Wires {
		out = append(out, h.Terminals[w.From].Full+" > "+h.Terminals[w.To].Full)
	}
	return out
}

// A leg runs as the current does, from whichever end it is written; what has a direction
// lies with the current, what has none begins at its 1 as most legs are written.
func TestLegsAreTurned(t *testing.T) {
	for _, c := range []struct {
		name, pole, legs string
		want             []string
	}{
		{"from the live side", "negative", "[BAT.+, F1, SW, L1, G1], [G0, BAT.-]",
			[]string{"BAT.+ > F1.1", "F1.2 > SW.1", "SW.2 > L1.+", "L1.- > G1", "G0 > BAT.-"}},
		{"from the ground", "negative", "[G1, L1, SW, F1, BAT.+], [BAT.-, G0]",
			[]string{"BAT.+ > F1.2", "F1.1 > SW.2", "SW.1 > L1.+", "L1.- > G1", "G0 > BAT.-"}},
		{"positive earth, as a restorer thinks", "positive", "[BAT.-, F1, SW, L1, G1], [BAT.+, G0]",
			[]string{"G1 > L1.+", "L1.- > SW.2", "SW.1 > F1.2", "F1.1 > BAT.-", "BAT.+ > G0"}},
		{"positive earth, from the ground", "positive", "[G1, L1, SW, F1, BAT.-]",
			[]string{"G1 > L1.+", "L1.- > SW.1", "SW.2 > F1.1", "F1.2 > BAT.-"}},
		{"both habits in one file", "positive", "[BAT.-, F1, S1], [G1, L1, SW, S1], [G1, M, S1]",
			[]string{"S1 > F1.1", "F1.2 > BAT.-", "G1 > L1.+", "L1.- > SW.1", "SW.2 > S1", "G1 > M.+", "M.- > S1"}},
		{"a bare fuse at the end of one leg and the beginning of another", "negative", "[G1, L1, F1], [F1, SW, BAT.+]",
			[]string{"F1.1 > L1.+", "L1.- > G1", "BAT.+ > SW.2", "SW.1 > F1.2"}},
		{"a dynamo's lead from the battery", "negative", "[BAT.+, F1, ALT.B+], [ALT.case, G1], [BAT.+, F2, L1, G1]",
			[]string{"ALT.B+ > F1.1", "F1.2 > BAT.+", "ALT.case > G1", "BAT.+ > F2.1", "F2.2 > L1.+", "L1.- > G1"}},
		{"named terminals stay, whatever they say", "negative", "[BAT.+, F1, SW, D.k, D.a, L1, G1]",
			[]string{"BAT.+ > F1.1", "F1.2 > SW.1", "SW.2 > D.k", "D.a > L1.+", "L1.- > G1"}},
		{"a load that is named the wrong way round", "negative", "[BAT.+, F1, M.-, M.+, G1]",
			[]string{"BAT.+ > F1.1", "F1.2 > M.-", "M.+ > G1"}},
		{"a battery put in backwards", "negative", "[BAT.-, F1, SW, L1, G1], [G0, BAT.+]",
			[]string{"BAT.- > F1.1", "F1.2 > SW.1", "SW.2 > L1.+", "L1.- > G1", "G0 > BAT.+"}},
		{"two loads in series, the leg between them alone", "negative", "[L1.-, M.+], [BAT.+, F1, L1.+], [M.-, G1]",
			[]string{"L1.- > M.+", "BAT.+ > F1.1", "F1.2 > L1.+", "M.- > G1"}},
		{"the same from the ground", "negative", "[M.+, L1.-], [L1.+, F1, BAT.+], [G1, M.-]",
			[]string{"L1.- > M.+", "BAT.+ > F1.2", "F1.1 > L1.+", "M.- > G1"}},
		{"a contact that parks a motor on ground", "negative", "[BAT.+, F1, SW, PARK.B], [PARK.P, M, G1], [PARK.E, G1]",
			[]string{"BAT.+ > F1.1", "F1.2 > SW.1", "SW.2 > PARK.B", "PARK.P > M.+", "M.- > G1", "PARK.E > G1"}},
		{"a connector's halves", "positive", "[BAT.-, F1, X1.1, L1, G1], [G1, M, X1.2, F2, BAT.-], [BAT.-, SW, K1.86, K1.85, G1]",
			[]string{"G1 > L1.+", "L1.- > X1.1.in", "X1.1.out > F1.2", "F1.1 > BAT.-", "G1 > M.+", "M.- > X1.2.in", "X1.2.out > F2.2", "F2.1 > BAT.-", "G1 > K1.85", "K1.86 > SW.2", "SW.1 > BAT.-"}},
	} {
		t.Run(c.name, func(t *testing.T) { require.Equal(t, c.want, inGarage(t, c.pole, c.legs)) })
	}
}

// The 15 of an ignition coil is its live side with either pole on the bodywork, from whichever end the leg is written.
func TestAnIgnitionCoilLiesWithItsLiveSide(t *testing.T) {
	for _, c := range []struct{ pole, leg string }{
		{"negative", "[BAT.+, F1, L1, G1]"}, {"negative", "[G1, L1, F1, BAT.+]"},
		{"positive", "[BAT.-, F1, L1, G1]"}, {"positive", "[G1, L1, F1, BAT.-]"},
	} {
		text := garaged(c.pole, c.leg)
		coiled := regexp.MustCompile(`(?m)^  L1: .*$`).ReplaceAllString(text, "  L1: {kind: ignition-coil, at: tray}")
		require.NotEqual(t, text, coiled)
		h, _ := checked(t, coiled)
		for _, w := range h.Wires {
			ends := h.Terminals[w.From].Full + " " + h.Terminals[w.To].Full
			require.Equal(t, strings.Contains(ends, "G1"), strings.Contains(ends, "L1.1 ") || strings.HasSuffix(ends, "L1.1"), "%v: %s", c, ends)
		}
	}
}

// What is said of a wire stays with it when its leg is turned, and its way is read backwards.
func TestATurnedWireKeepsWhatIsSaid(t *testing.T) {
	h, _ := checked(t, garaged("positive", "[BAT.-, {to: F1, length: 150 mm}, {to: L1, gauge: 2.5 mm2, via: [tray, nose]}, {to: G1, colour: GN}], [BAT.+, G0]"))
	require.Equal(t, "GN", h.Wires[0].Base)
	require.Equal(t, "2.5", h.Wires[1].Gauge.Size)
	require.Equal(t, []harness.PlaceID{1, 0}, h.Wires[1].Via)
	require.InDelta(t, 150, float64(h.Wires[2].Length), 1e-9)
}

// A jumper is a wire between two terminals of one part.
func TestJumpers(t *testing.T) {
	require.Equal(t, []string{"BAT.+ > F1.1", "F1.2 > K1.30", "K1.30 > K1.86", "K1.85 > SW.1", "SW.2 > G1", "K1.87 > M.+", "M.- > G1"},
		inGarage(t, "negative", "[BAT.+, F1, K1.30], [K1.30, {to: K1.86, length: 60 mm}], [K1.85, SW, G1], [K1.87, M, G1]"), "as it is written")
	require.Equal(t, []string{"BAT.+ > F1.1", "F1.2 > K1.30", "K1.30 > K1.86", "K1.85 > SW.1", "SW.2 > G1", "K1.87 > M.+", "M.- > G1"},
		inGarage(t, "negative", "[BAT.+, F1, K1.30, K1.86, K1.85, SW, G1], [K1.87, M, G1]"), "with no length, within a leg")
	require.Contains(t, inGarage(t, "negative", "[BAT.+, F1, K1.30], [BAT.+, SW, K1.86, K1.85, G1], [K1.87, {to: K1.86, colour: YE}], [K1.87, M, G1]"), "K1.87 > K1.86", "a relay that holds itself")
	require.Contains(t, inGarage(t, "negative", "[BAT.+, F1, PARK.B, {to: PARK.E, length: 4 cm}], [PARK.P, M, G1]"), "PARK.B > PARK.E", "two terminals of a switch bridged")
	require.NotContains(t, inGarage(t, "negative", "[BAT.+, F1, SW.1, {to: SW.2, was: SW9.2}, L1, G1]"), "SW.1 > SW.2", "a former name says nothing of a wire")
}

// Where no jumper can be meant the program says what would be right.
func TestNoJumper(t *testing.T) {
	for legs, slug := range map[string]string{
		"[BAT.+, F1, K1.86, K1.87, M, G1]":                      "no-way-through",
		"[BAT.+, F1, PARK.B, PARK.E, G1]":                       "",
		"[BAT.+, F1.1, {to: F1.2, length: 60 mm}, M, G1]":       "wire-across-part",
		"[BAT.+, F1, M.+, {to: M.-, length: 2 m}, G1]":          "wire-across-part",
		"[BAT.+, F1, K1.30, {to: K1.87, colour: RD}, M, G1]":    "wire-across-part",
		"[BAT.+, F1, M, G1], [SW.1, SW.2]":                      "leg-without-wire",
		"[BAT.+, F1, K1.86, {to: K1.85, gauge: 1 mm2}, SW, G1]": "wire-across-part",
		"[BAT.+, {to: BAT.-, length: 1 m}], [BAT.+, F1, M, G1]": "wire-across-part",
	} {
		d, problems := describe.Parse("test.yaml", []byte(garaged("negative", legs)))
		require.Empty(t, problems)
		_, found := check.Check(d)
		var errors []string
		for _, p := range found {
			if p.Level == source.Error {
				errors = append(errors, p.Slug)
			}
		}
		if slug == "" {
			require.NotContains(t, errors, "no-way-through", legs)
			continue
		}
		require.Contains(t, errors, slug, legs)
	}
}
