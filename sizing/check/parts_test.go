package check_test

import (
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
func alone(part string, legs ...string) string {
	return "loomfolio: 1\ntitle: One part\nsystem: {volts: 12}\nparts:\n" +
		"  BAT: {kind: battery}\n  F1: {kind: fuse}\n  G1: {kind: ground}\n  X: " + part + "\n" +
		"circuits:\n  one: {number: 1, legs: [[G1, BAT.-], " + strings.Join(legs, ", ") + "]}\n"
}

// joins prints what is joined in a part, or by it.
func joins(h *harness.Harness, ref string) []string {
	var out []string
	for _, e := range h.Elements {
		if e.Kind == harness.Join && h.Parts[e.Part].Ref == ref {
			out = append(out, e.Name+": "+h.Terminals[e.A].Full+" > "+h.Terminals[e.B].Full)
		}
	}
	return out
}

// A bus that names no studs has those that stops name, all joined; named alone it is one stud.
func TestStopsNameTheStudsOfABus(t *testing.T) {
	h, _ := checked(t, alone("{kind: bus}", "[BAT.+, F1, X.a]", "[X.b, G1]", "[X.c, G1]"))
	require.Equal(t, []string{"X.a-b: X.a > X.b", "X.a-c: X.a > X.c"}, joins(h, "X"))
	h, _ = checked(t, alone("{kind: bus}", "[BAT.+, F1, X]", "[X, G1]"))
	require.Empty(t, joins(h, "X"))
}

// Starter and alternator are bolted to one engine, and one strap serves both.
func TestOneEngineBlock(t *testing.T) {
	h, slugs := checked(t, strings.Replace(alone("{kind: alternator, output: 45 A}", "[X.B+, F1, BAT.+]", "[BAT.+, ST.30]", "[BAT.+, ST.50]", "[ST.case, G1]"),
		"parts:\n", "parts:\n  ST: {kind: starter, draws: 150 A}\n", 1))
	require.NotContains(t, slugs, "no-engine-strap")
	require.Contains(t, joins(h, "X"), "X.engine-block: ST.case > X.case")
}
