package asfound_test

import (
	"os"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/sizing"
	"example.com/loomfolio/sizing/asfound"
	"example.com/loomfolio/sizing/check"
	"example.com/loomfolio/sizing/describe"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/proof"
	"example.com/loomfolio/sizing/result"
	"example.com/loomfolio/sizing/source"
)

// sized reads, checks and sizes a description.
func sized(t *testing.T, text string) (*harness.Harness, *result.Result) {
	d, found := describe.Parse("found.yaml", []byte(text))
	require.False(t, found.HasErrors(), "%v", found)
	h, more := check.Check(d)
	require.NotNil(t, h, "%v", more)
	r, err := sizing.Size(h, append(found, more...))
	require.NoError(t, err)
	require.False(t, r.Unusable, "%v", r.Findings)
	return h, r
}

func merlin(t *testing.T) (*harness.Harness, *result.Result) {
	text, err := os.ReadFile("testdata/merlin.yaml")
	require.NoError(t, err)
	return sized(t, string(text))
}

// TestWhatIsTracedFirst: what is live without a fuse, then by what hangs on it, points by hand.
func TestWhatIsTracedFirst(t *testing.T) {
	h, r := merlin(t)
	var refs []string
	points := map[string]int{}
	for _, o := range r.Proof.Found.Open {
		ref := h.Parts[o.Part].Ref
		refs = append(refs, ref)
		points[ref] = o.Points
	}
	require.Equal(t, []string{"?4", "BOX", "?1", "?tail", "?3", "?2", "?tailb"}, refs)
	require.Equal(t, asfound.LiveUnfused+asfound.EachWire, points["?4"])
	require.Equal(t, asfound.LiveFused+asfound.EachLoad+2*asfound.EachWire+asfound.EachReading+asfound.BlindFuse, points["BOX"])
	require.Equal(t, asfound.LiveFused+asfound.EachWire+asfound.Sought+asfound.BlindFuse, points["?tail"])
	require.Equal(t, asfound.EachLoad+asfound.EachWire+asfound.Sought, points["?tailb"])
	box := r.Proof.Found.Open[1]
	require.Equal(t, []string{"HORN"}, box.Hangs)
	require.Equal(t, "FP.4", box.Fuse)
	require.Equal(t, "driving", box.State)
}

// TestWhatContradicts: 11.7 V at the plug and 10.6 V at the fan are 1.1 V; by hand the wire
// of 630 mm of 2.5 mm² (7.6 mΩ/m, ISO 6722-1) loses 38 mV at 8 A, the cavity's 5 mΩ 40 mV,
// and two readings of one meter are off by 0.11 V: there is more than 0.7 V too much.
func TestWhatContradicts(t *testing.T) {
	h, r := merlin(t)
	f := &r.Proof.Found
	require.Len(t, f.Stretches, 1)
	x := f.Stretches[0]
	require.Equal(t, "X2.4.in", h.Terminals[h.Measured[x.Before].At].Full)
	require.Equal(t, "FAN.+", h.Terminals[h.Measured[x.Reading].At].Full)
	require.InDelta(t, 1.1, float64(x.Lost), 1e-9)
	require.Greater(t, float64(x.Explains), 0.038+0.040+0.11-0.01)
	require.Less(t, float64(x.Explains), 0.35)
	var names []string
	for _, s := range x.Suspects {
		names = append(names, s.Name)
	}
	require.ElementsMatch(t, []string{"2C", "X2.4"}, names)
	require.Equal(t, 6, f.Agree())
	verdict := map[string]proof.Verdict{}
	for i := range f.Measured {
		verdict[h.Terminals[h.Measured[i].At].Full] = f.Measured[i].Verdict
	}
	require.Equal(t, proof.Unsettled, verdict["HORN.+"])
	require.Equal(t, proof.Coarse, verdict["FP.3"])
	require.Equal(t, proof.Low, verdict["FAN.+"])
}

// base is a loom with one fan, to which legs, readings and ratings are put.
const base = `loomfolio: 1
title: Fan as found
system: {volts: 12}
places: {bay: {tail: 150 mm}, nose: {tail: 150 mm}}
runs: [{from: bay, to: nose, length: 1.2 m}]
parts:
  BAT: {kind: battery, at: bay}
  F1: {kind: fuse, at: bay, rating: 15 A}
  SW: {kind: switch, at: bay, rating: 20 A, positions: {off: [], on: [[1, 2]]}}
  X1: {kind: connector, at: nose, cavities: 2}
  FAN: {kind: motor, at: nose, draws: 8 A}
  LAMP: {kind: lamp, at: nose, draws: 5 W}
  BOX: {kind: unknown, at: bay}
  G1: {kind: ground, at: nose}
circuits:
  fan:
    legs:
      - [BAT.+, {to: F1, length: 150 mm}, {to: SW.1, gauge: 2.5 mm2}, SW.2, {to: X1.1, gauge: 2.5 mm2}, {to: FAN.+, gauge: 2.5 mm2}, FAN.-, {to: G1, gauge: 2.5 mm2}]
LEGS
states: {off: {}, on: {SW: on}, run: {SW: on, engine: running}}
`

// found describes the loom with more legs, and with readings.
func found(legs, measured string) string {
	text := strings.Replace(base, "LEGS\n", "      - "+strings.ReplaceAll(legs, "; ", "\n      - ")+"\n", 1)
	if legs == "" {
		text = strings.Replace(base, "LEGS\n", "", 1)
	}
	for part, at := range map[string]string{"LAMP": "  LAMP:", "BOX": "  BOX:"} {
		if !strings.Contains(legs, part) {
			i := strings.Index(text, at)
			text = text[:i] + text[i+strings.Index(text[i:], "\n")+1:]
		}
	}
	if measured != "" {
		text += "measured: {" + measured + "}\n"
	}
	return text
}

func graver(r *result.Result) []string {
	var out []string
	for _, p := range r.Findings {
		if p.Level != source.Advice {
			out = append(out, p.Slug)
		}
	}
	return out
}

// TestFoolings: looms of which a careless reader says "fine", and what burns or misleads in
// them; a finding names it, and where it is said.
func TestFoolings(t *testing.T) {
	for name, c := range map[string]struct{ legs, measured, slug, says string }{
		"a live end behind no fuse":           {"[BAT.+, {to: ?, length: 100 mm, gauge: 1 mm2}]", "", "live-end", "no fuse is known before it"},
		"a long live end behind no fuse":      {"[BAT.+, {to: ?, gauge: 1 mm2}]", "", "unprotected-feed", "no fuse between it and BAT.+"},
		"a box fed past the fuse":             {"[BAT.+, {to: BOX.a, gauge: 2.5 mm2}]", "", "unprotected-feed", "no fuse between it and BAT.+"},
		"a thin wire behind an unknown box":   {"[F1.2, {to: BOX.a, gauge: 2.5 mm2}]; [BOX.b, {to: LAMP.+, gauge: 0.22 mm2}, LAMP.-, G1]", "", "fed-through-unknown", "may feed it through BOX"},
		"a thin wire to an end not traced":    {"[F1.2, {to: ?, gauge: 0.22 mm2}]", "", "fuse-too-big", "F1 (15 A) is too big"},
		"a bad plug":                          {"", "X1.1: 12.2 V @ on, FAN.+: 11.6 V @ on", "reading-off", "between X1.1.in and FAN.+"},
		"a bad ground":                        {"", "FAN.-: 0.9 V @ on", "reading-off", "between FAN.- and the battery"},
		"a bad switch, all within its limits": {"", "SW.1: 12.4 V @ on, SW.2: 11.8 V @ on", "reading-off", "between SW.1 and SW.2"},
		"a feed that stays on":                {"", "FAN.+: 12.2 V @ off", "reading-off-state", "it is what on shows"},
		"a dead feed":                         {"", "FAN.+: 0 V @ on", "reading-off", "more is lost"},
		"a ground by milliohms":               {"", "G1: 60 mohm", "reading-off", "more than metal and meter explain"},
		"two readings of one point":           {"", "FAN.+: [12.1 V @ on, 11.0 V @ on]", "readings-opposed", "was read there as well"},
		"more volts farther on":               {"", "SW.2: 11.9 V @ on, FAN.+: 12.6 V @ on", "readings-opposed", "before it on the way"},
		"a way that is open":                  {"", "F1-SW.1: open", "reading-off", "open, where"},
		"metal where a fuse should part":      {"", "BAT.+-G1: 20 mohm", "reading-off", "less than by what is described"},
	} {
		_, r := sized(t, found(c.legs, c.measured))
		if c.slug == "" {
			continue
		}
		i := slices.IndexFunc(r.Findings, func(p source.Problem) bool {
			return p.Slug == c.slug && p.Level != source.Advice && strings.Contains(p.Summary, c.says)
		})
		require.GreaterOrEqual(t, i, 0, "%s: %v", name, r.Findings)
	}
}

// TestNoWolf: sound looms of which some is not known, and readings within what a sound loom and
// a cheap meter show; nothing graver than advice is said.
func TestNoWolf(t *testing.T) {
	for name, c := range map[string]struct{ legs, measured string }{
		"an end behind a fuse":                  {"[F1.2, {to: ?, gauge: 2.5 mm2}]", ""},
		"a box behind a fuse":                   {"[F1.2, {to: BOX.a, gauge: 2.5 mm2}]", ""},
		"a lamp fed through a box":              {"[F1.2, {to: BOX.a, gauge: 2.5 mm2}]; [BOX.b, {to: LAMP.+, gauge: 2.5 mm2}, LAMP.-, G1]", ""},
		"a lamp grounded through a box":         {"[F1.2, {to: LAMP.+, gauge: 2.5 mm2}, LAMP.-, {to: BOX.a, gauge: 2.5 mm2}]", ""},
		"a lamp on an end not traced":           {"[?, {to: LAMP.+, gauge: 2.5 mm2}, LAMP.-, G1]", ""},
		"two ends that may be one":              {"[SW.2, {to: ?x, gauge: 2.5 mm2}]; [?x, {to: LAMP.+, gauge: 2.5 mm2}, LAMP.-, G1]", ""},
		"a leg through a box":                   {"[F1.2, {to: BOX.a, gauge: 2.5 mm2}, BOX.b, {to: LAMP.+, gauge: 2.5 mm2}, LAMP.-, G1]", ""},
		"a leg through an end":                  {"[F1.2, {to: ?, gauge: 2.5 mm2}, {to: LAMP.+, gauge: 2.5 mm2}, LAMP.-, G1]", ""},
		"what a box draws pulls its feed down":  {"[SW.2, {to: BOX.a, gauge: 2.5 mm2}]", "BOX.a: 11.6 V @ on"},
		"an end on the ground":                  {"[G1, {to: ?, gauge: 2.5 mm2}]", ""},
		"a weak battery read at its posts":      {"", "BAT.+: 12.1 V @ on, FAN.+: 11.8 V @ on"},
		"good readings":                         {"", "BAT.+: 12.5 V @ on, SW.1: 12.4 V @ on, FAN.+: 12.1 V @ on, FAN.-: 0.08 V @ on"},
		"while it charges":                      {"", "BAT.+: 14.3 V @ run, FAN.+: 13.8 V @ run"},
		"ohms of a meter's own leads":           {"", "F1-SW.1: 0.3 ohm, G1: 0.4 ohm"},
		"an open switch":                        {"", "SW.1-SW.2: open"},
		"volts across the load":                 {"", "FAN.+-FAN.-: 12.0 V @ on"},
		"0 V at what is off":                    {"", "FAN.+: 0 V @ off"},
		"volts at what a box feeds":             {"[F1.2, {to: BOX.a, gauge: 2.5 mm2}]; [BOX.b, {to: LAMP.+, gauge: 2.5 mm2}, LAMP.-, G1]", "LAMP.+: 12.2 V @ on"},
		"the current of a box through the feed": {"[X1.1, {to: BOX.a, gauge: 2.5 mm2}]", ""},
	} {
		if strings.Contains(c.legs, "X1.1") {
			continue // one contact takes one wire
		}
		_, r := sized(t, found(c.legs, c.measured))
		require.Empty(t, graver(r), "%s: %v", name, r.Findings)
	}
}

// TestPositiveGround: with plus on the bodywork the same losses are found, whichever way round
// the leads were.
func TestPositiveGround(t *testing.T) {
	text := strings.NewReplacer("volts: 12}", "volts: 12, earth: positive}", "BAT.+", "BAT.-", "FAN.+", "FAN.-", "FAN.-, {", "FAN.+, {", "FAN.-}", "FAN.-}").Replace(base)
	text = strings.Replace(text, "{to: FAN.-, gauge: 2.5 mm2}, FAN.-,", "{to: FAN.-, gauge: 2.5 mm2}, FAN.+,", 1)
	text = strings.Replace(strings.Replace(text, "LEGS\n", "", 1), "  LAMP: {kind: lamp, at: nose, draws: 5 W}\n  BOX: {kind: unknown, at: bay}\n", "", 1)
	for _, sign := range []string{"", "-"} {
		_, r := sized(t, text+"measured: {X1.1: "+sign+"12.2 V @ on, FAN.-: "+sign+"11.5 V @ on, FAN.+: "+sign+"0.9 V @ on}\n")
		require.Len(t, r.Proof.Found.Stretches, 2)
		require.InDelta(t, 0.9, float64(r.Proof.Found.Stretches[0].Lost), 1e-9)
		require.InDelta(t, 0.7, float64(r.Proof.Found.Stretches[1].Lost), 1e-9)
	}
}
