package board

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"example.com/loomfolio/layout/loom/rig"

	"example.com/loomfolio/layout/loom/branch"
	"example.com/loomfolio/layout/loom/plane"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/layout/caution"
	"example.com/loomfolio/layout/frame"
	"example.com/loomfolio/layout/meter"
	"example.com/loomfolio/layout/page"
	"example.com/loomfolio/layout/sheet"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/unit"
)

func TestBoardsOfSamples(t *testing.T) {
	for _, name := range rig.SampleNames() {
		a := rig.Sample(t, name)
		for _, paper := range rig.Papers() {
			a.Paper = paper
			b := checkBoard(t, a, name+" on "+paper, false)
			r := b.bounds()
			require.LessOrEqual(t, r.W, boards[0][0], "%s: a board of the first size does", name)
			require.LessOrEqual(t, r.H, boards[0][1], "%s: a board of the first size does", name)
		}
	}
}

func TestBoardsOfGrownLooms(t *testing.T) {
	for seed := range uint64(9) {
		if testing.Short() && seed > 1 {
			continue
		}
		a := rig.Grown(seed)
		a.Paper = rig.Papers()[seed%3]
		checkBoard(t, a, fmt.Sprintf("loom %d", seed), false)
	}
}

// checkBoard holds what a board must hold.
func checkBoard(t *testing.T, a page.Ask, what string, fold bool) *board {
	t.Helper()
	b := layBoard(a, fold)
	require.Empty(t, b.lost, "%s: a label found no place", what)
	for _, d := range b.trees {
		rig.CheckLegs(t, d, what)
		for i, l := range d.Tree.Legs {
			require.InDelta(t, l.MM, d.Lines[i].Length(), 1e-6, "%s: every leg has its full length", what)
		}
	}
	checkEdges(t, b, what)
	sheets, err := Sheets(a, frame.Block{Title: "A loom", Revision: "B", Caution: caution.Short(a.H)}, fold)
	require.NoError(t, err)
	for _, s := range sheets {
		paper := sheet.Rect{W: s.W, H: s.H}
		require.True(t, slices.ContainsFunc(s.Marks, func(m sheet.Mark) bool {
			x, ok := m.(sheet.Text)
			return ok && strings.Contains(x.S, "licensed person")
		}), "%s, %s has no caution", what, s.Title)
		require.Empty(t, meter.Overlaps(s.Marks), "%s, %s", what, s.Title)
		require.Empty(t, meter.Struck(s.Marks), "%s, %s", what, s.Title)
		require.Empty(t, meter.Outside(s.Marks, paper.Inset(4.2)), "%s, %s: printers leave an edge", what, s.Title)
	}
	checkPrinted(t, a, sheets, b.grid.one(), what)
	return b
}

// TestFoldedBoardsSayWhatIsLeftOut: with what is left out every run has its full length;
// each break has the actual length of its stretch beside it, on fewer sheets.
func TestFoldedBoardsSayWhatIsLeftOut(t *testing.T) {
	for i, name := range rig.SampleNames() {
		a := rig.Sample(t, name)
		a.Paper = rig.Papers()[i%3]
		whole := layBoard(a, false)
		b := checkBoard(t, a, name+", folded", true)
		require.Less(t, b.grid.cols*b.grid.rows, whole.grid.cols*whole.grid.rows, name)
		words := map[string]int{}
		for _, l := range b.labels {
			for _, r := range l.Block.Rows {
				words[r.Text()]++
			}
		}
		gaps := 0
		for _, d := range b.trees {
			for i, l := range d.Tree.Legs {
				sum := d.Lines[i].Length()
				for _, g := range l.Gaps {
					sum += g.Out
					require.Positive(t, words[printed(b, g.Whole)+" actual"], "%s: %v", name, g)
					require.Positive(t, words[printed(b, g.Out)+" left out"], "%s: %v", name, g)
					gaps++
				}
				require.InDelta(t, float64(a.H.Runs[l.Run].Length), sum, 1e-6, name)
			}
		}
		require.Positive(t, gaps, name)
	}
}

// printed is a length as the board prints it.
func printed(b *board, mm float64) string { return b.Length(unit.Millimetre(mm)) }

// TestFoldLeavesWholeTicksOut of stretches between what lies on a run, and splices stay
// as far from the nearer end as they were where that stretch is short.
func TestFoldLeavesWholeTicksOut(t *testing.T) {
	l := branch.Leg{MM: 1730}
	l.Fold([]float64{0, 350, 1730}, 100)
	require.Equal(t, []branch.Gap{{At: 350 + 140, Out: 1100, Whole: 1380}}, l.Gaps)
	require.InDelta(t, 630, l.MM, 1e-9)
	require.InDelta(t, 350, l.Drawn(350), 1e-9)
	require.InDelta(t, 630, l.Drawn(1730), 1e-9)
	short := branch.Leg{MM: 390}
	short.Fold([]float64{0, 390}, 100)
	require.Empty(t, short.Gaps)
	require.InDelta(t, 390, short.MM, 1e-9)
}

// TestBoardsOnARollAreOnePage, folded or not.
func TestBoardsOnARollAreOnePage(t *testing.T) {
	for _, name := range rig.SampleNames() {
		a := rig.Sample(t, name)
		a.Big = unit.Roll
		for _, fold := range []bool{false, true} {
			b := checkBoard(t, a, name+" on a roll", fold)
			sheets, err := Sheets(a, frame.Block{}, fold)
			require.NoError(t, err)
			require.Len(t, sheets, 1, name)
			require.InDelta(t, 914.4, sheets[0].H, 1e-9)
			require.Less(t, sheets[0].W, 5080.0, "PDF allows no more")
			require.True(t, b.grid.one())
		}
	}
}

// TestBoardsOnLargePaperTakeFewSheets.
func TestBoardsOnLargePaperTakeFewSheets(t *testing.T) {
	a := rig.Sample(t, "kestrel")
	a.Big = "A0"
	b := checkBoard(t, a, "kestrel on A0", false)
	require.Less(t, b.grid.cols*b.grid.rows, 7)
}

// checkEdges: no label lies on the edge of a sheet.
func checkEdges(t *testing.T, b *board, what string) {
	t.Helper()
	for _, l := range b.labels {
		col, row := int(l.Area.X/b.grid.wide()), int(l.Area.Y/b.grid.high())
		require.True(t, b.grid.tile(row, col).Holds(l.Area), "%s: %q lies on an edge", what, l.Block.Rows[0].Text())
	}
}

// checkPrinted: every place, run, wire and part is named on the sheets, and the
// bar on each of them is as long as it says.
func checkPrinted(t *testing.T, a page.Ask, sheets []sheet.Sheet, one bool, what string) {
	t.Helper()
	said := map[string]bool{}
	for i, s := range sheets {
		for _, m := range s.Marks {
			if x, ok := m.(sheet.Text); ok && (one || i > 0) {
				for _, w := range strings.Fields(x.S) {
					said[strings.TrimSuffix(w, ",")] = true
				}
				said[x.S] = true
			}
		}
		if one || i > 0 {
			require.True(t, hasBar(s, a.H.Sheet.Imperial), "%s: %s has no bar", what, s.Title)
		}
	}
	for _, r := range a.R.Runs {
		require.True(t, said[a.H.Places[a.H.Runs[r.Run].From].Name], what)
		require.True(t, said[page.Letter(r.Run)], "%s: run %s", what, page.Letter(r.Run))
		for _, w := range r.Wires {
			require.True(t, said[a.H.Wires[w].Name], "%s: wire %s", what, a.H.Wires[w].Name)
		}
	}
	runs := map[int]bool{}
	for _, r := range a.H.Runs {
		runs[int(r.From)], runs[int(r.To)] = true, true
	}
	for _, p := range a.H.Parts {
		if p.Along != nil || runs[int(p.Place)] {
			require.True(t, said[p.Ref], "%s: part %s", what, p.Ref)
		}
	}
}

func hasBar(s sheet.Sheet, imperial bool) bool {
	long := map[bool]float64{false: 100, true: 101.6}[imperial]
	return slices.ContainsFunc(s.Marks, func(m sheet.Mark) bool {
		p, ok := m.(sheet.Path)
		return ok && !p.Closed && len(p.Segs) == 1 && p.Start.Y < glue && math.Abs(p.Segs[0].P.X-p.Start.X-long) < 1e-9
	})
}

// TestSheetsShowTheWholeBoard: the lines on all sheets together are as long as
// those of the board, so that nothing is lost at an edge or shown twice.
func TestSheetsShowTheWholeBoard(t *testing.T) {
	b := layBoard(rig.Sample(t, "kestrel"), false)
	marks := b.paintBoard()
	sum := func(marks []sheet.Mark) (texts int, long float64) {
		for _, m := range marks {
			switch m := m.(type) {
			case sheet.Text:
				texts++
			case sheet.Path:
				if m.Stroke != nil && m.Stroke.Dash == nil && len(m.Segs) == 1 {
					long += plane.Dist(m.Start, m.Segs[0].P)
				}
			}
		}
		return texts, long
	}
	var shown []sheet.Mark
	for row := range b.grid.rows {
		for col := range b.grid.cols {
			shown = append(shown, clip(onlyLines(marks), b.grid.tile(row, col))...)
		}
	}
	texts, long := sum(onlyLines(marks))
	gotTexts, gotLong := sum(shown)
	require.Equal(t, texts, gotTexts)
	require.InDelta(t, long, gotLong, 0.01)
}

func onlyLines(marks []sheet.Mark) []sheet.Mark {
	return slices.DeleteFunc(slices.Clone(marks), func(m sheet.Mark) bool {
		p, ok := m.(sheet.Path)
		return ok && len(p.Segs) != 1
	})
}

// TestClipArea by areas that are known: a square, and half of it.
func TestClipArea(t *testing.T) {
	square := []plane.Point{{X: 0, Y: 0}, {X: 10, Y: 0}, {X: 10, Y: 10}, {X: 0, Y: 10}}
	area := func(p []plane.Point) float64 {
		sum := 0.0
		for i := range p {
			q := p[(i+1)%len(p)]
			sum += p[i].X*q.Y - q.X*p[i].Y
		}
		return math.Abs(sum) / 2
	}
	require.InDelta(t, 50, area(clipArea(square, sheet.Rect{X: 5, Y: -5, W: 20, H: 20})), 1e-9)
	require.InDelta(t, 100, area(clipArea(square, sheet.Rect{X: -5, Y: -5, W: 20, H: 20})), 1e-9)
	require.InDelta(t, 25, area(clipArea(square, sheet.Rect{X: 5, Y: 5, W: 20, H: 20})), 1e-9)
	require.Empty(t, clipArea(square, sheet.Rect{X: 20, Y: 0, W: 5, H: 5}))
	diamond := []plane.Point{{X: 5, Y: 0}, {X: 10, Y: 5}, {X: 5, Y: 10}, {X: 0, Y: 5}}
	require.InDelta(t, 25, area(clipArea(diamond, sheet.Rect{X: 5, Y: -5, W: 20, H: 20})), 1e-9)
}

// TestBendsKeepTheLength of a limb, wherever it is bent.
func TestBendsKeepTheLength(t *testing.T) {
	for _, mm := range []float64{90, 130, 400, 1000, 6000} {
		for _, s := range append(trunkShapes(mm, 2400), boardShapes(branch.Limb{Parent: 0, MM: mm}, 2400)...) {
			require.InDelta(t, mm, s.Path(plane.Point{}, 30, mm).Length(), 1e-6)
		}
	}
}

// TestCutMarksStandAsFarAsWiresHangOut past the nail: the tail of a part and the slack.
func TestCutMarksStandAsFarAsWiresHangOut(t *testing.T) {
	b := layBoard(rig.Sample(t, "kestrel"), false)
	require.NotEmpty(t, b.cuts)
	for _, c := range b.cuts {
		require.True(t, slices.ContainsFunc(b.H.Parts, func(p harness.Part) bool {
			return math.Abs(float64(p.Tail+b.H.Practice.EachEnd)-c.Length()) < 1e-6
		}), c.Length())
	}
}
