package loom

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"example.com/loomfolio/layout/loom/rig"

	"example.com/loomfolio/layout/loom/laid"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/layout/frame"
	"example.com/loomfolio/layout/page"
	"example.com/loomfolio/layout/sheet"
	"example.com/loomfolio/samples/toy"
	"example.com/loomfolio/sizing/fit/fitted"
	"example.com/loomfolio/sizing/unit"
)

// TestEveryFactOfARunStandsInItsRow: its ends, length, wires, bundle, cover, bends, hole and
// where it is pulled from, grommet, heat-shrink and supports; of all samples, on every paper.
func TestEveryFactOfARunStandsInItsRow(t *testing.T) {
	for _, name := range rig.SampleNames() {
		a := rig.Sample(t, name)
		for _, a.Paper = range frame.Papers() {
			parts := Lay(a)
			pages := toy.Settled(a, func(a page.Ask) []frame.Page { return Sheets(a, parts) })
			for _, r := range a.R.Runs {
				row := rowOf(t, a, pages, r)
				for _, fact := range factsOf(a, r) {
					require.Contains(t, row, fact, "%s on %s: run %s: %q", name, a.Paper, page.Letter(r.Run), row)
				}
			}
		}
	}
}

// rowOf is all text of a run's row, words of one cell together.
func rowOf(t *testing.T, a page.Ask, pages []frame.Page, r fitted.Run) string {
	t.Helper()
	anchor := drawer{Words: laid.Words{Ask: a}}.rowAnchor(r.Run)
	for _, p := range pages {
		top, next := -1.0, p.Frame.Body.Bottom()
		for _, m := range p.Marks {
			if x, ok := m.(sheet.Anchor); ok && x.Name == anchor {
				top = x.Y
			}
		}
		if top < 0 {
			continue
		}
		for _, m := range p.Marks {
			if x, ok := m.(sheet.Anchor); ok && strings.HasPrefix(x.Name, "laid/") && x.Y > top {
				next = min(next, x.Y)
			}
		}
		return " " + textBetween(p, top, min(next, top+11)) + " "
	}
	require.Fail(t, "no row", anchor)
	return ""
}

// textBetween is the text between two heights of a page, cell by cell.
func textBetween(p frame.Page, top, bottom float64) string {
	var cells []sheet.Text
	for _, m := range p.Marks {
		if x, ok := m.(sheet.Text); ok && x.Y > top && x.Y <= bottom {
			cells = append(cells, x)
		}
	}
	slices.SortStableFunc(cells, func(x, y sheet.Text) int { return int(100 * (x.X - y.X)) })
	var words []string
	for _, c := range cells {
		words = append(words, toy.Plain(c.S))
	}
	return strings.Join(words, " ")
}

// factsOf are the words that a run's row must have.
func factsOf(a page.Ask, r fitted.Run) []string {
	run, imperial := a.H.Runs[r.Run], a.H.Sheet.Imperial
	small := func(mm unit.Millimetre) string { return page.Across(mm, imperial).S }
	arrow := map[bool]string{true: "→", false: "←"}[r.PassFrom == run.From]
	out := []string{
		a.H.Places[run.From].Name, arrow, a.H.Places[run.To].Name, toy.Plain(page.Length(run.Length, imperial)), fmt.Sprintf(" %d ", len(r.Wires)),
		small(r.Diameter), page.OrDash(r.CoverName), small(r.Outside), small(r.BendLeast) + " / " + small(r.BendLong),
		page.Bore(r.Hole, imperial).S, page.Bore(r.Grommet, imperial).S, fmt.Sprintf(" %d ", r.Clamps),
	}
	if r.Cover > 0 {
		out = append(out, r.CoverName+" "+page.Bore(r.Cover, imperial).S)
	}
	if size, _, ok := strings.Cut(r.Boot, ":1"); ok {
		out = append(out, toy.Plain(size)+":1")
	}
	if run.Flexes {
		out = append(out, "flexes in", "use")
	}
	return out
}

// TestHeatShrinkIsWhole: what all have in common stands under the list, the rest in the row.
func TestHeatShrinkIsWhole(t *testing.T) {
	for _, name := range rig.SampleNames() {
		d := drawer{Words: laid.Words{Ask: rig.Sample(t, name)}}
		remarks := toy.Plain(d.remarks())
		for _, r := range d.R.Runs {
			if r.Boot == "" {
				continue
			}
			cell := d.shrink(r)
			whole := strings.TrimSpace(toy.Plain(cell.S) + " " + d.shrinkShared())
			require.Equal(t, toy.Plain(r.Boot), whole, name)
			require.Contains(t, remarks+toy.Plain(cell.Note), toy.Plain(page.Piece(r.BootLen, d.H.Sheet.Imperial))+" long", name)
			require.Contains(t, remarks, d.shrinkShared(), name)
		}
	}
}

// TestListsFitTheirSheets: map and list of small looms share a sheet, of large ones each has its own.
func TestListsFitTheirSheets(t *testing.T) {
	for name, want := range map[string]int{"first": 1, "tender": 1, "camper": 2, "kestrel": 2} {
		a := rig.Sample(t, name)
		require.Len(t, Sheets(a, Lay(a)), want, name)
	}
}
