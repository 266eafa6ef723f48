package bench

import (
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/layout/page"
	"example.com/loomfolio/samples/toy"
	"example.com/loomfolio/sizing/fit/fitted"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/source"
	"example.com/loomfolio/sizing/unit"
)

// TestSamples holds the sheets of every sample: a fitting for each end, and no heading at the foot of a page on A4 and letter.
func TestSamples(t *testing.T) {
	for name, a := range toy.Samples(t) {
		t.Run(name, func(t *testing.T) {
			checkFittings(t, a)
			checkSplices(t, a)
			for _, a.Paper = range []string{"A4", "letter"} {
				for _, p := range toy.Settled(a, Splices, BuildOrder) {
					toy.CheckFoot(t, p, stepTable(a).Rows)
				}
			}
		})
	}
}

// checkFittings holds trade facts against every end: the sleeve's colour stays
// within its range (two terminal lists: red 22-16, blue 16-14, yellow 12-10),
// a bare barrel has its tube, and the strip is never nothing.
func checkFittings(t *testing.T, a page.Ask) {
	t.Helper()
	for id, two := range a.R.Ends {
		for _, e := range two {
			area := a.R.Wires[id].Area
			for _, w := range e.With {
				area += a.R.Wires[w].Area
			}
			at := a.H.Wires[id].Name + " at " + a.H.Terminals[e.Terminal].Full + ": " + e.Crimp
			switch {
			case e.Crimp == fitted.NoneFits:
				require.True(t, reported(a, "terminal-does-not-fit"), at)
				continue
			case strings.HasPrefix(e.Crimp, "red"):
				require.LessOrEqual(t, area, unit.SquareMillimetre(1.5), at)
			case strings.HasPrefix(e.Crimp, "yellow"):
				require.Greater(t, area, unit.SquareMillimetre(2.6), at)
				require.LessOrEqual(t, area, unit.SquareMillimetre(6.2), at)
			case strings.HasPrefix(e.Crimp, "uninsulated") && e.Crimp != fitted.Barrel, e.Crimp == "battery lug":
				require.NotEmpty(t, e.Shrink, at)
			}
			require.Greater(t, e.Strip, unit.Millimetre(0), at)
			require.Greater(t, e.Pull, 0.0, at)
		}
	}
}

// checkSplices holds that every splice has a barrel in the sheet's gauge and a tube.
func checkSplices(t *testing.T, a page.Ask) {
	t.Helper()
	for _, s := range used(a) {
		ref := a.H.Parts[s.Part].Ref
		require.NotEmpty(t, s.Shrink, ref)
		first, _, _ := strings.Cut(s.Size, " (")
		require.Equal(t, a.H.Sheet.Gauge == unit.Metric, strings.HasSuffix(first, "mm²"), "%s: %s", ref, s.Size)
		here := 0
		for _, w := range s.Wires {
			for _, end := range []harness.TerminalID{a.H.Wires[w].From, a.H.Wires[w].To} {
				if a.H.Terminals[end].Part == s.Part {
					here++
				}
			}
		}
		require.Equal(t, len(s.Wires), here, ref)
	}
}

func reported(a page.Ask, slug string) bool {
	return slices.ContainsFunc(a.R.Findings, func(p source.Problem) bool { return p.Slug == slug })
}
