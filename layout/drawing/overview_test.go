package drawing

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/layout/meter"
	"example.com/loomfolio/layout/sheet"
	"example.com/loomfolio/samples"
	"example.com/loomfolio/samples/worked"
)

// Every circuit hangs somewhere on the overview, and no line between the rails runs
// through a heading or a rail.
func TestOverviewShowsEveryCircuit(t *testing.T) {
	for _, sample := range samples.List() {
		h, r := worked.Out(t, sample)
		s := newSheets(h, r, body(t, "A4").Body)
		all := s.overview()
		require.NotEmpty(t, all)
		require.LessOrEqual(t, len(all), 2, sample.Name)
		var text strings.Builder
		for _, d := range all {
			clean(t, h, d, body(t, "A4").Body, sample.Name)
			require.LessOrEqual(t, sheet.Crossings(betweenLines(d)), 12, sample.Name)
			for _, m := range d.Marks {
				if x, ok := m.(sheet.Text); ok {
					text.WriteString(x.S + "\n")
				}
			}
		}
		for _, c := range h.Circuits {
			if len(c.Wires) > 0 {
				require.Contains(t, text.String(), s.circuitAnchor(c.ID)+"}", "%s: circuit %s", sample.Name, c.Name)
			}
		}
	}
}

// betweenLines are the lines between rails: the only open ones of their width.
func betweenLines(d Drawing) []meter.Line {
	var out []meter.Line
	for _, m := range d.Marks {
		p, ok := m.(sheet.Path)
		if !ok || p.Closed || p.Stroke == nil || p.Stroke.Width != 0.5 {
			continue
		}
		l := meter.Line{p.Start}
		for _, seg := range p.Segs {
			l = append(l, seg.P)
		}
		out = append(out, l)
	}
	return out
}

// A rail joined to the bodywork is no supply, and the one behind its fuse is.
func TestGroundRailsAreNoSupplies(t *testing.T) {
	for _, sample := range samples.List() {
		if sample.Name != "kestrel" {
			continue
		}
		h, r := worked.Out(t, sample)
		s := newSheets(h, r, body(t, "A4").Body)
		var refs []string
		for _, rail := range s.railsOf(s.feeders()) {
			if rail.part >= 0 {
				refs = append(refs, h.Parts[rail.part].Ref)
			}
		}
		require.Subset(t, refs, []string{"BAT", "ALT", "PP", "FE", "FD", "BG"})
		require.NotContains(t, refs, "GB")
		require.NotContains(t, refs, "ST")
	}
}
