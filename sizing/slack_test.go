package sizing_test

import (
	"cmp"
	"maps"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/samples"
	"example.com/loomfolio/samples/worked"
	"example.com/loomfolio/sizing"
	"example.com/loomfolio/sizing/check"
	"example.com/loomfolio/sizing/describe"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/source"
)

var (
	tailSaid = regexp.MustCompile(`: \{tail: ([^}]+)\}`)
	stopSaid = regexp.MustCompile(`\{to: ([^,]+), length: ([^}]+)\} \(([^)]+)\)`)
)

// found reads, checks and sizes a text.
func found(t *testing.T, text string) (*harness.Harness, source.Problems) {
	t.Helper()
	d, ps := describe.Parse("slack.yaml", []byte(text))
	require.False(t, ps.HasErrors(), "%v", ps)
	h, more := check.Check(d)
	require.NotNil(t, h, "%v", more)
	r, err := sizing.Size(worked.Buying(h, "clear"), append(ps, more...))
	require.NoError(t, err)
	return h, r.Findings
}

// edit puts a text in the place of what stands at a span.
type edit struct {
	at   source.Span
	text string
}

// follow does what all advice on slack says: it puts the tails at the places, and the
// lengths at the stops. It gives the text, and how many lengths were named.
func follow(t *testing.T, text string, h *harness.Harness, found source.Problems) (string, int) {
	t.Helper()
	edits, lengths := map[source.Pos]edit{}, 0
	for _, p := range found {
		if p.Slug != "slack-only" {
			continue
		}
		if m := tailSaid.FindStringSubmatch(p.Detail); m != nil {
			at := p.Span
			at.Start.Column += strings.Index(h.File.Line(at.Start.Line)[at.Start.Column-1:], "{")
			at.Width = 1
			edits[at.Start] = edit{at, "{tail: " + m[1] + ", "}
		}
		for _, m := range stopSaid.FindAllStringSubmatch(p.Detail, -1) {
			w := &h.Wires[wire(t, h, m[3])]
			require.Equal(t, m[1], h.File.At(w.Span))
			text := "{to: " + m[1] + ", length: " + m[2] + "}"
			if before := h.File.Line(w.Span.Start.Line)[:w.Span.Start.Column-1]; strings.HasSuffix(strings.TrimRight(before, " "), "to:") {
				text = m[1] + ", length: " + m[2]
			}
			edits[w.Span.Start] = edit{w.Span, text}
			lengths++
		}
	}
	return applied(text, edits), lengths
}

// applied makes the edits from the end of the file on, so that places stay true.
func applied(text string, edits map[source.Pos]edit) string {
	lines := strings.Split(text, "\n")
	places := slices.SortedFunc(maps.Keys(edits), func(a, b source.Pos) int {
		return cmp.Or(cmp.Compare(b.Line, a.Line), cmp.Compare(b.Column, a.Column))
	})
	for _, at := range places {
		line, from := []rune(lines[at.Line-1]), at.Column-1
		lines[at.Line-1] = string(line[:from]) + edits[at].text + string(line[from+edits[at].at.Width:])
	}
	return strings.Join(lines, "\n")
}

const slack = `loomfolio: 1
title: Slack
system: {volts: 12}
places: {tray: {}, bay: {}, nose: {}}
runs: [{from: tray, to: nose, length: 2 m}, {from: tray, to: bay, length: 40 mm}]
parts:
  BAT: {kind: battery, at: tray}
  POST: {kind: bus, at: tray}
  F1: {kind: fuse, at: tray}
  F2: {kind: fuse, at: bay}
  K1: {kind: relay, at: tray}
  SW: {kind: switch, at: tray, positions: {off: [], on: [[1, 2]]}}
  FAN: {kind: motor, at: nose, draws: 12 A}
  HORN: {kind: horn, at: nose, draws: 6 A}
  G0: {kind: ground, at: tray}
  G1: {kind: ground, at: nose}
circuits:
`

// TestAdviceOnSlackMakesNoError: whoever follows it has the advice no more, and no error that was not there before.
func TestAdviceOnSlackMakesNoError(t *testing.T) {
	texts := map[string]string{
		"one fuse":         slack + "  a: {legs: [[BAT.+, F1, K1.30, K1.87, FAN, G1], [F1, SW, K1.86, K1.85, G0], [BAT.-, G0]]}\n",
		"the fuse at last": slack + "  a: {legs: [[BAT.+, F1], [F1, FAN, G1], [BAT.-, G0]]}\n",
		"said at the stop": slack + "  a: {legs: [[BAT.+, {to: F1, colour: RD}, SW, FAN, G1], [BAT.-, G0]]}\n",
		"in another place": slack + "  a: {legs: [[BAT.+, F2, FAN, G1], [BAT.+, F1, SW, HORN, G1], [BAT.-, G0]]}\n",
		"positive earth":   strings.Replace(slack, "volts: 12", "volts: 12, earth: positive", 1) + "  a: {legs: [[BAT.-, F1, SW, FAN.-, FAN.+, G1], [BAT.+, G0]]}\n",
	}
	for _, s := range samples.List() {
		texts[s.Name+" without tails"] = regexp.MustCompile(`,? *tail: [0-9.]+ ?(mm|m|in|"|ft)?`).ReplaceAllString(string(s.Text), "")
	}
	named := 0
	for name, text := range texts {
		t.Run(name, func(t *testing.T) {
			h, was := found(t, text)
			next, lengths := follow(t, text, h, was)
			require.NotEqual(t, text, next)
			named += lengths
			_, now := found(t, next)
			require.NotContains(t, slugs(now), "slack-only")
			for _, p := range now {
				require.False(t, p.Level == source.Error && !said(was, p), "%s: %s", p.Slug, p.Summary)
			}
		})
	}
	require.Greater(t, named, 5)
}

func slugs(ps source.Problems) []string {
	var out []string
	for _, p := range ps {
		out = append(out, p.Slug)
	}
	return out
}

// said tells whether a finding was there before.
func said(ps source.Problems, p source.Problem) bool {
	for _, o := range ps {
		if o.Slug == p.Slug && slices.Equal(o.Subjects, p.Subjects) {
			return true
		}
	}
	return false
}
