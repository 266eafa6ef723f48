package main

import (
	"encoding/json"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/samples"
	"example.com/loomfolio/sizing/source"
)

// written puts a description into a folder of its own and gives its path.
func written(t *testing.T, text string) string {
	path := filepath.Join(t.TempDir(), "own.yaml")
	require.NoError(t, os.WriteFile(path, []byte(text), 0o600))
	return path
}

// fan is small and has nothing to complain of.
const fan = `loomfolio: 1
title: Fan
system: {volts: 12}
places: {tray: {tail: 200 mm}, radiator: {tail: 200 mm}}
runs: [{from: tray, to: radiator, length: 1.5 m}]
parts:
  BAT: {kind: battery, at: tray}
  F1: {kind: fuse, at: tray}
  SW: {kind: switch, at: tray, positions: {off: [], on: [[1, 2]]}}
  FAN: {kind: motor, at: radiator, draws: 8 A}
  G1: {kind: ground, at: radiator}
  G2: {kind: ground, at: tray}
circuits:
  fan: {legs: [[BAT.+, {to: F1, length: 100 mm}, SW, FAN, G1], [BAT.-, G2]]}
`

// asJSON runs check --json and reads what it prints.
func asJSON(t *testing.T, args ...string) (int, source.List) {
	code, out, errs := do(append([]string{"check", "--json"}, args...)...)
	require.Empty(t, errs)
	var l source.List
	dec := json.NewDecoder(strings.NewReader(out))
	dec.DisallowUnknownFields()
	require.NoError(t, dec.Decode(&l), out)
	require.False(t, dec.More(), "one object and nothing else")
	return code, l
}

func TestACleanCheckSaysSo(t *testing.T) {
	code, out, errs := do("check", written(t, fan))
	require.Zero(t, code, errs)
	require.Empty(t, errs)
	require.Regexp(t, `^no findings\nFan: 1 circuit, \d+ wires, .* 1 fuse, 1 load, \d+ states\n$`, out)

	code, l := asJSON(t, written(t, fan))
	require.Zero(t, code)
	require.Empty(t, l.Findings)
	require.NotNil(t, l.Findings)
}

// TestFindingsForScriptsFollowThoseForPeople: same findings, same order, same exit code.
func TestFindingsForScriptsFollowThoseForPeople(t *testing.T) {
	broken := strings.Replace(fan, "FAN: {kind: motor", "FAN: {kind: [motor", 1)
	faulty := strings.Replace(fan, "{to: F1, length: 100 mm}", "{to: F1, length: 3 m}", 1)
	unknown := strings.Replace(fan, "G1], [BAT.-", "G7], [BAT.-", 1)
	for name, c := range map[string]struct {
		text string
		code int
	}{"broken YAML": {broken, 2}, "an error": {faulty, 1}, "a name that nothing has": {unknown, 2}, "first": {string(samples.List()[0].Text), 0}} {
		path := written(t, c.text)
		code, _, errs := do("check", path)
		require.Equal(t, c.code, code, "%s: %s", name, errs)
		code, l := asJSON(t, path)
		require.Equal(t, c.code, code, name)
		require.Equal(t, c.code > 0, l.Counts["error"] > 0, name)
		require.Equal(t, path, l.File)
		at := 0
		for _, f := range l.Findings {
			next := strings.Index(errs[at:], f.Message+" ["+f.Slug+"]")
			require.GreaterOrEqual(t, next, 0, "%s: %s after %d in %s", name, f.Message, at, errs)
			at += next
			require.Equal(t, f.Line > 0, f.EndColumn > f.Column)
		}
		require.Equal(t, strings.Count(errs, "]\n"), len(l.Findings), errs)
		levels := func(a, b source.Listed) int {
			order := []string{"error", "warning", "advice"}
			return slices.Index(order, a.Level) - slices.Index(order, b.Level)
		}
		require.True(t, slices.IsSortedFunc(l.Findings, levels), name)
	}
}

// TestACallThatCannotBeUsedGivesNoObject: there is no description to speak of.
func TestACallThatCannotBeUsedGivesNoObject(t *testing.T) {
	code, out, errs := do("check", "--json", filepath.Join(t.TempDir(), "none.yaml"))
	require.Equal(t, 2, code)
	require.Empty(t, out)
	require.Contains(t, errs, "there is no file")
}

// TestAnAcceptedAdviceIsCounted: off the list, never forgotten.
func TestAnAcceptedAdviceIsCounted(t *testing.T) {
	text := strings.Replace(fan, "places: {tray: {tail: 200 mm}", "places: {tray: {}", 1)
	_, out, errs := do("check", written(t, text))
	require.Contains(t, errs, "[slack-only]")
	require.NotContains(t, out+errs, "accepted")

	text += "accept: [{finding: slack-only, at: tray, because: measured on the car}]\n"
	code, out, errs := do("check", written(t, text))
	require.Zero(t, code)
	require.Empty(t, errs)
	require.True(t, strings.HasPrefix(out, "no findings, 1 accepted\n"), out)

	_, l := asJSON(t, written(t, text))
	require.Empty(t, l.Findings)
	require.Len(t, l.Accepted, 1)
	require.Equal(t, "measured on the car", l.Accepted[0].Because)
	require.Equal(t, 1, l.Counts["accepted"])

	text = strings.Replace(text, "because: measured on the car", `because: " "`, 1)
	code, _, errs = do("check", written(t, text))
	require.Equal(t, 2, code)
	require.Contains(t, errs, "[empty-value]")
}

// TestAllListsAgree: check, its JSON and that of figures have the same findings in the same order.
func TestAllListsAgree(t *testing.T) {
	text := strings.Replace(fan, "places: {tray: {tail: 200 mm}", "places: {tray: {}", 1)
	text = strings.Replace(text, "G1], [BAT.-, G2]]}", "{to: G1, gauge: 28/0.30}], [BAT.-, G2]]}", 1)
	text += "  horn: {legs: [[F1, {to: G1, length: 300 mm, gauge: 0.22 mm2}]]}\n"
	path := written(t, text)
	_, l := asJSON(t, path)
	require.Greater(t, len(l.Findings), 2)
	_, out, _ := do("figures", path, "--json")
	var doc struct {
		Findings, Accepted []struct{ Slug, Level, Message string }
	}
	require.NoError(t, json.Unmarshal([]byte(out), &doc))
	require.Len(t, doc.Findings, len(l.Findings))
	for i, f := range l.Findings {
		require.Equal(t, f.Slug+f.Level+f.Message, doc.Findings[i].Slug+doc.Findings[i].Level+doc.Findings[i].Message)
	}
}
