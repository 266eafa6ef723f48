package sizing_test

import (
	"os"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/samples/worked"
	"example.com/loomfolio/sizing"
	"example.com/loomfolio/sizing/check"
	"example.com/loomfolio/sizing/describe"
	"example.com/loomfolio/sizing/source"
)

// wrongToday lists the cases that are judged wrongly as yet: each is to come off.
var wrongToday = []string{
	"winch-solenoid", "winch-no-stud-said",
}

// judged is a short description with the findings of which one must be the first that is
// said of it; "-" for none above advice.
type judged struct {
	name, text string
	expect     []string
}

// judgedIn reads sections "== name | slug, slug", each followed by a description without
// its first two lines.
func judgedIn(t *testing.T, file string) []judged {
	data, err := os.ReadFile(file)
	require.NoError(t, err)
	var out []judged
	for _, section := range strings.Split("\n"+string(data), "\n== ")[1:] {
		head, body, _ := strings.Cut(section, "\n")
		name, expect, ok := strings.Cut(head, " | ")
		require.True(t, ok, head)
		out = append(out, judged{name, "loomfolio: 1\ntitle: " + strings.ReplaceAll(name, "-", " ") + "\n" + body, strings.Split(expect, ", ")})
	}
	return out
}

// saidOf gives all findings of a description that is bought so, in their order.
func saidOf(t *testing.T, text, as string) source.Problems {
	d, problems := describe.Parse("test.yaml", []byte(text))
	if problems.HasErrors() {
		return problems
	}
	h, found := check.Check(d)
	if h == nil {
		return found
	}
	r, err := sizing.Size(worked.Buying(h, as), found)
	require.NoError(t, err)
	return r.Findings
}

// right tells that what is said begins with what was expected.
func (j *judged) right(said source.Problems) bool {
	grave := slices.ContainsFunc(said, func(p source.Problem) bool { return p.Level != source.Advice })
	if j.expect[0] == "-" {
		return !grave
	}
	return len(said) > 0 && slices.Contains(j.expect, said[0].Slug)
}

// Descriptions that are wrong, of which the cause must be said first, and sound ones as
// people write them, of which nothing may be said but advice; judged as a practitioner
// would (common practice, no source).
func TestFooled(t *testing.T) {
	for _, file := range []string{"testdata/wrong.txt", "testdata/sound.txt"} {
		for _, j := range judgedIn(t, file) {
			for _, as := range worked.Bought() {
				said := saidOf(t, j.text, as)
				var slugs []string
				for _, p := range grave(said) {
					slugs = append(slugs, p.Slug)
				}
				require.Equal(t, !slices.Contains(wrongToday, j.name), j.right(said), "%s, %s: %v, expected %v", j.name, as, slugs, j.expect)
			}
		}
	}
}

// A list that is cut says what it counts: loads are no wires.
func TestCutListsOfLoads(t *testing.T) {
	text := "loomfolio: 1\ntitle: Lamps\nsystem: {volts: 12}\nparts:\n  BAT: {kind: battery, capacity: 60 Ah}\n  G0: {kind: ground}\n  F1: {kind: fuse}\n" +
		"  SW: {kind: switch, positions: {off: [], on: [[1, 2]]}}\n  S1: {kind: splice}\n  S2: {kind: splice}\n"
	legs := "[BAT.+, {to: F1, length: 150 mm}, {to: SW, length: 1 m}, {to: S1, length: 1 m}]"
	for _, lamp := range []string{"L1", "L2", "L3", "L4", "L5", "L6"} {
		text += "  " + lamp + ": {kind: lamp, draws: 5 W}\n"
		legs += ", [S1, {to: " + lamp + ", length: 1 m}, {to: S2, length: 1 m}]"
	}
	said := saidOf(t, text+"circuits:\n  earth: {number: 1, legs: [[G0, {to: BAT.-, length: 300 mm}]]}\n  l: {number: 2, legs: ["+legs+"]}\n", "clear")
	i := slices.IndexFunc(said, func(p source.Problem) bool { return p.Slug == "no-return-to-source" })
	require.GreaterOrEqual(t, i, 0, said)
	require.Contains(t, said[i].Summary, "L4 and 2 more have no return")
}

// A body that was chosen is not blamed on the rating that was written, nor a rating of
// nothing on the holder.
func TestHoldersBlameNoChoice(t *testing.T) {
	for _, c := range []struct{ fuse, slug, summary string }{
		{"holder: 3 A, rating: 15 A", "holder-too-small", "F1 is rated 15 A; its blade holder carries 3 A"},
		{"holder: 3 A", "fuse-too-small", "F1 is rated 3 A and carries 6.4 A in on"},
		{"holder: 5 A, body: maxi", "fuse-too-small", "F1 carries 6.5 A in on, and no maxi fuse is as small as its holder carries (5 A)"},
		{"body: bolt, rating: 10 A", "fuse-not-made", "F1 is given as 10 A, in which no bolt fuse is made"},
	} {
		said := saidOf(t, `loomfolio: 1
title: Holder
system: {volts: 12}
parts:
  BAT: {kind: battery, capacity: 60 Ah}
  G0: {kind: ground}
  F1: {kind: fuse, `+c.fuse+`}
  SW: {kind: switch, positions: {off: [], on: [[1, 2]]}, rating: 40 A}
  L1: {kind: lamp, draws: 100 W}
circuits:
  earth: {number: 1, legs: [[G0, {to: BAT.-, length: 300 mm}]]}
  l: {number: 2, legs: [[BAT.+, {to: F1, length: 150 mm}, {to: SW, length: 1 m}, {to: L1, length: 1 m}, {to: G0, length: 1 m}]]}
states: {on: {SW: on}}
`, "clear")
		require.NotEmpty(t, said, c.fuse)
		require.Equal(t, c.slug, said[0].Slug, said)
		require.Equal(t, c.summary, said[0].Summary)
		require.NotContains(t, said[0].Detail, "0 A or")
		require.True(t, len(said) < 2 || said[1].Level > source.Error, "%s: %v", c.fuse, said)
	}
}
