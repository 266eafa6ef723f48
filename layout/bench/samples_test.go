package bench

import (
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/layout/frame"
	"example.com/loomfolio/layout/page"
	"example.com/loomfolio/layout/sheet"
	"example.com/loomfolio/layout/table"
	"example.com/loomfolio/samples"
	"example.com/loomfolio/samples/worked"
	"example.com/loomfolio/sizing/fit/fitted"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/source"
	"example.com/loomfolio/sizing/unit"
)

// ofSamples takes every sample through to its results.
func ofSamples(t *testing.T) map[string]page.Ask {
	t.Helper()
	out := map[string]page.Ask{}
	for _, s := range samples.List() {
		h, r := worked.Out(t, s)
		out[s.Name] = page.Of(h, r, h.Sheet.Paper, page.Bench)
	}
	return out
}

// TestSamples holds the bench sheets of every sample: one row a wire, one row
// an end, as much bought as cut, and nothing outside the body on A4 and letter.
func TestSamples(t *testing.T) {
	for name, a := range ofSamples(t) {
		t.Run(name, func(t *testing.T) {
			checkRows(t, a)
			checkFittings(t, a)
			checkSplices(t, a)
			for _, paper := range []string{"A4", "letter"} {
				if testing.Short() && paper != "A4" {
					continue
				}
				a.Paper = paper
				laid, heads := settled(a), headings(a)
				for _, k := range kinds {
					for _, p := range laid[k.name] {
						checkPage(t, p)
						if k.name != "labels" { // which ends in labels
							checkFoot(t, p, heads)
						}
					}
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
			case strings.HasPrefix(e.Crimp, "uninsulated"), e.Crimp == "battery lug":
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
	for _, s := range used(a.R.Splices) {
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

// headings are the texts of all headings of the sheets' tables, with their remarks.
func headings(a page.Ask) map[string]bool {
	out := map[string]bool{}
	rows := slices.Concat(cutTable(a).Rows, endTable(a).Rows, reelTable(a).Rows, wireRows(a), itemRows(a), stepTable(a).Rows)
	for _, s := range used(a.R.Splices) {
		rows = append(rows, spliceRows(a, s, pullsOf(a))...)
	}
	for _, row := range rows {
		if row.Kind == table.Group {
			for _, c := range row.Cells {
				out[c.S] = c.S != ""
			}
		}
	}
	return out
}

// checkFoot holds that no heading is the last thing on a page.
func checkFoot(t *testing.T, p frame.Page, headings map[string]bool) {
	t.Helper()
	low, last := 0.0, sheet.Text{}
	for _, m := range p.Marks {
		if x, ok := m.(sheet.Text); ok && x.Y > low {
			low, last = x.Y, x
		}
	}
	require.Less(t, last.Size, sheet.SizeHead, "%s ends in the heading %q", p.Title, last.S)
	require.False(t, headings[strings.TrimSuffix(last.S, ", continued")], "%s ends in the heading %q", p.Title, last.S)
}

// TestInchesAlone: no millimetre stands on the bench sheets of an imperial sample.
func TestInchesAlone(t *testing.T) {
	a := ofSamples(t)["tender"]
	require.True(t, a.H.Sheet.Imperial)
	metric := regexp.MustCompile(`\bmm\b|mm²`)
	for _, k := range kinds {
		for _, p := range k.lay(a) {
			for _, m := range p.Marks {
				if text, ok := m.(sheet.Text); ok {
					require.NotRegexp(t, metric, text.S, k.name)
				}
			}
		}
	}
}

// TestCutFromLeftOvers: of a colour with several lengths every row says which it is
// cut from, the rows of one length stand together, and no length gives more than it has.
func TestCutFromLeftOvers(t *testing.T) {
	a := ofSamples(t)["tender"]
	rings := 0
	for i := range a.R.Reels {
		r := &a.R.Reels[i]
		last := -1
		for _, w := range r.Wires {
			at := r.CutOf(w)
			require.GreaterOrEqual(t, at, last, a.H.Wires[w].Name)
			last = at
			require.Equal(t, len(r.Cuts) > 1 || r.Cuts[0].Shelf, cutFrom(r, w, true) != "", a.H.Wires[w].Name)
		}
		for _, c := range r.Cuts {
			sum := unit.Millimetre(0)
			for _, w := range c.Wires {
				sum += a.R.Ways[w].Length
			}
			require.InDelta(t, float64(c.Whole), float64(sum+c.Over), 0.1*float64(len(c.Wires))+0.01, "planned in tenths, each wire rounded up")
			if c.Shelf {
				rings++
			}
		}
	}
	require.Equal(t, 11, rings, "all eleven on the shelf serve")
}
