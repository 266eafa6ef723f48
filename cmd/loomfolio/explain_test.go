package main

import (
	"bytes"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/cmd/loomfolio/explain"
)

// described writes a description into a folder of its own and gives its path.
func described(t *testing.T, text string) string {
	path := filepath.Join(t.TempDir(), "my.yaml")
	require.NoError(t, os.WriteFile(path, []byte(text), 0o600))
	return path
}

const fanAndLamps = `loomfolio: 1
title: Fan and lamps
sheet: {gauge: awg, units: imperial, paper: letter}
system: {volts: 12}
places:
  dash: {name: Dash}
  nose: {name: Nose, zone: engine}
runs:
  - {from: dash, to: nose, length: 8 ft}
parts:
  BAT: {kind: battery, at: nose}
  F1: {kind: fuse, body: blade, at: nose}
  F2: {kind: fuse, body: blade, at: nose}
  SW: {kind: switch, at: dash, rating: 20 A, positions: {off: [], on: [[1, 2]]}}
  K1: {kind: relay, at: nose, rating: 30 A, suppression: diode}
  KSW: {kind: switch, at: dash, positions: {off: [], on: [[1, 2]]}}
  FAN: {kind: motor, at: nose, draws: 7 A, starts: 18.9 A for 0.5 s}
  L: {kind: lamp, at: nose, draws: 5 A, behaves: current}
  X1: {kind: connector, at: nose, cavities: 2}
  G0: {kind: ground, at: nose}
  G1: {kind: ground, at: nose}
circuits:
  earth: {number: 1, legs: [[G0, BAT.-]]}
  fan: {number: 2, legs: [[BAT.+, F1, K1.30, K1.87, X1.1, FAN, G1], [F1, KSW, K1.86, K1.85, G1]]}
  lamp: {number: 3, legs: [[BAT.+, F2, SW, L, G1]]}
`

func explained(t *testing.T, file string, name ...string) string {
	code, out, errs := do(append([]string{"explain", file}, name...)...)
	require.Contains(t, []int{exitGood, exitFinding}, code, errs)
	return out
}

// flat takes the line breaks of the terminal out of a text.
func flat(text string) string { return strings.Join(strings.Fields(text), " ") }

func TestExplainAFuse(t *testing.T) {
	out := flat(explained(t, described(t, fanAndLamps), "F1"))
	for _, says := range []string{
		"fuse F1 15 A blade, blue",
		"next down 10 A fails: – continuous: carries 6.9 A continuously (75 % of it, and 92 % of that at the ambient temperature there)",
		"– start: may open", "which lasts 0.5 s",
		"next up 20 A", "feeds K1.coil, FAN", "sources fuse: ISO 8820-3",
	} {
		require.Contains(t, out, says)
	}
}

func TestExplainALoad(t *testing.T) {
	out := flat(explained(t, described(t, fanAndLamps), "FAN"))
	for _, says := range []string{
		"load FAN draws 7 A", "start 18.9 A for 0.5 s", "in the feed", "in the return",
		"limit 0.36 V in the wires, feed and return together (3 % of 12 V; class default, built-in practice)",
		"fuse F1, 15 A blade", "draws in state current across it drop in feed in return", "drop limit: ABYC E-11",
	} {
		require.Contains(t, out, says)
	}
	own := strings.Replace(fanAndLamps, "parts:", "practice: {drop: {default: 4 %}}\nparts:", 1)
	require.Contains(t, flat(explained(t, described(t, own), "FAN")), "practice: drop: default: in the description")
}

func TestExplainARelayAndASwitch(t *testing.T) {
	file := described(t, fanAndLamps)
	out := flat(explained(t, file, "K1"))
	for _, says := range []string{
		"plus is on 86; the diode across it needs plus on 86", "contact 30-87 7 A at most", "rated 30 A",
		"switches FAN 7 A (motor ×2)", "needs a rating of 14 A", ": met", "in state K1.coil K1.diode K1.30-87",
	} {
		require.Contains(t, out, says)
	}
	out = flat(explained(t, file, "SW")) // a lamp of 5 A needs 25 A, FAA AC 43.13-1B table 11-4
	for _, says := range []string{"rated 20 A", "L 5 A (lamp ×5)", "needs a rating of 25 A", ": not met", "AC 43.13-1B table 11-4", "advice"} {
		require.Contains(t, out, says)
	}
}

func TestExplainAConnectorAndAGround(t *testing.T) {
	file := described(t, fanAndLamps)
	out := flat(explained(t, file, "X1"))
	require.Contains(t, out, "cavity 1 2C (")
	require.Contains(t, out, "7 A at most")
	require.Contains(t, out, "cavity 2 empty")
	out = flat(explained(t, file, "G1"))
	require.Contains(t, out, "rings from the bottom:")
	require.Contains(t, out, "from the battery's post")
}

// On an imperial sheet no length is told in metres, and temperatures in both scales.
func TestExplainSpeaksTheSheetsUnits(t *testing.T) {
	out := flat(explained(t, described(t, fanAndLamps), "2D"))
	require.Contains(t, out, "122 °F (50 °C)")
	require.Regexp(t, ` in of tails`, out)
	require.NotRegexp(t, regexp.MustCompile(`\d (mm|m)[ ,;.)]`), out)
}

func TestExplainListsEveryName(t *testing.T) {
	file := described(t, fanAndLamps)
	out := explained(t, file)
	for _, word := range []string{"wires", "fuses", "relays", "switches", "grounds", "connectors", "loads", " 2A ", " FAN", " K1", " SW"} {
		require.Contains(t, out, word)
	}
	code, _, errs := do("explain", file, "FAM")
	require.Equal(t, exitUnusable, code)
	require.Contains(t, errs, "did you mean FAN?")
	code, _, errs = do("explain", file, "K1.coli")
	require.Equal(t, exitUnusable, code)
	require.Contains(t, errs, "did you mean K1.coil?")
}

// Everything that can be asked for fits a terminal and says nothing odd. Wires
// of the whole car are left out: each is sized three times for its methods.
func TestExplainFitsATerminal(t *testing.T) {
	odd := regexp.MustCompile(`%!|NaN|Inf|-0\.00 V|\(\)`)
	for _, name := range []string{"first", "tender", "kestrel"} {
		h, r := kept(t, name)
		names := explain.Names(h)
		if name != "first" {
			names = names[len(h.Wires):]
		}
		for _, n := range names {
			var out bytes.Buffer
			require.NoError(t, explain.Explain(&out, h, r, n))
			for _, line := range strings.Split(out.String(), "\n") {
				if utf8.RuneCountInString(line) > 100 || odd.MatchString(line) {
					t.Fatalf("%s %s: %s", name, n, line)
				}
			}
		}
	}
}
