package loom

import (
	"fmt"
	"os"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/layout/frame"
	"example.com/loomfolio/layout/page"
	"example.com/loomfolio/layout/sheet"
	"example.com/loomfolio/layout/typeface"
	"example.com/loomfolio/sizing/harness"
)

var papers = []string{"A4", "letter", "A3"}

func TestMapsOfSamples(t *testing.T) {
	for _, name := range sampleNames() {
		a := sample(t, name)
		for _, paper := range papers {
			a.Paper = paper
			checkMap(t, a, name+" on "+paper)
		}
	}
}

func TestMapsOfGrownLooms(t *testing.T) {
	toScale, sheets := 0, 0
	for seed := range uint64(100) {
		if testing.Short() && seed%10 > 0 {
			continue
		}
		a := grown(seed)
		for i, paper := range papers {
			if uint64(i) != seed%3 && (testing.Short() || os.Getenv("CI") == "") { // each on one paper; with CI set on all
				continue
			}
			a.Paper = paper
			for _, d := range checkMap(t, a, fmt.Sprintf("loom %d on %s", seed, paper)) {
				sheets++
				if d.Scale > 0 {
					toScale++
				}
			}
		}
	}
	t.Logf("%d of %d sheets are to scale", toScale, sheets)
	require.Greater(t, 4*toScale, sheets, "more than a quarter of the sheets are to scale")
}

// checkMap holds what a map must hold, by measuring its marks.
func checkMap(t *testing.T, a page.Ask, what string) []Drawing {
	t.Helper()
	drawings := Lay(a)
	count := make([]int, len(a.H.Runs))
	for _, d := range drawings {
		for _, l := range d.tree.legs {
			count[l.run]++
		}
		checkLegs(t, d, what)
	}
	for r, n := range count {
		require.Equal(t, 1, n, "%s: run %d is drawn once", what, r)
	}
	for i, p := range Map(a, drawings) {
		checkMarks(t, p, fmt.Sprintf("%s, sheet %d", what, i+1))
	}
	return drawings
}

// checkLegs: legs cross nowhere and have the length that the scale asks for.
func checkLegs(t *testing.T, d Drawing, what string) {
	t.Helper()
	for i := range d.lines {
		for j := range i {
			if d.shared(i, j) >= 0 {
				continue
			}
			for _, s := range d.pieces[i] {
				for _, o := range d.pieces[j] {
					require.False(t, s.meet(o), "%s: runs %d and %d cross", what, d.tree.legs[i].run, d.tree.legs[j].run)
				}
			}
		}
		if l := d.tree.legs[i]; d.Scale > 0 && !l.closing {
			require.InDelta(t, l.mm, d.lines[i].length()*d.Scale, 1e-6, what)
		}
	}
}

// checkMarks: no text on another, no line through a text, nothing outside the body.
func checkMarks(t *testing.T, p frame.Page, what string) {
	t.Helper()
	var texts []sheet.Text
	for _, m := range p.Marks {
		if x, ok := m.(sheet.Text); ok {
			texts = append(texts, x)
			require.GreaterOrEqual(t, x.Size, sheet.SizeBody, "%s: %q is small", what, x.S)
		}
		if _, ok := m.(sheet.Anchor); !ok {
			require.True(t, p.Frame.Body.Inset(-2).Holds(typeface.Bounds(m)), "%s: %v leaves the body", what, m) // accents may stand in the clear space round it
		}
	}
	for i, x := range texts {
		box := typeface.TextBounds(x).Inset(0.3)
		for _, y := range texts[:i] {
			require.False(t, box.Meets(typeface.TextBounds(y).Inset(0.3)), "%s: %q lies on %q", what, x.S, y.S)
		}
		for _, m := range p.Marks {
			if path, ok := m.(sheet.Path); ok {
				require.False(t, strikes(path, box), "%s: a line through %q", what, x.S)
			}
		}
	}
}

// strikes tells whether a path's line comes into an area; curves count by their ends.
func strikes(p sheet.Path, r sheet.Rect) bool {
	at := p.Start
	half := 0.0
	if p.Stroke != nil {
		half = p.Stroke.Width / 2
	}
	for _, s := range p.Segs {
		if (segment{at, s.P}).touches(r, half) {
			return true
		}
		at = s.P
	}
	return false
}

// TestARingIsDrawnOnceOpen: the lightest run of a ring is the one that is drawn
// broken, with the place where it arrives as its end.
func TestARingIsDrawnOnceOpen(t *testing.T) {
	a := grown(1)
	a.H.Places, a.H.Runs, a.H.Parts, a.R.Runs = a.H.Places[:0], nil, nil, nil
	for i := range 3 {
		a.H.Places = append(a.H.Places, harness.Place{ID: harness.PlaceID(i), Key: fmt.Sprintf("p%d", i), Name: fmt.Sprintf("Place %d", i)})
	}
	for i := range 3 {
		a.H.Runs = append(a.H.Runs, harness.Run{ID: harness.RunID(i), From: harness.PlaceID(i), To: harness.PlaceID((i + 1) % 3), Length: 400})
		a.R.Runs = append(a.R.Runs, grownRun(harness.RunID(i), 3-i))
	}
	a = page.Of(a.H, a.R, a.Paper, a.For)
	d := Lay(a)
	require.Len(t, d, 1)
	closing := 0
	for _, l := range d[0].tree.legs {
		if l.closing {
			closing++
			require.Equal(t, harness.RunID(2), l.run)
			require.True(t, d[0].tree.nodes[l.to].arrives)
		}
	}
	require.Equal(t, 1, closing)
	checkMap(t, a, "ring")
}

// TestPlacesWithoutARunAreListed with what sits there.
func TestPlacesWithoutARunAreListed(t *testing.T) {
	a := grown(3)
	far := harness.PlaceID(len(a.H.Places))
	a.H.Places = append(a.H.Places, harness.Place{ID: far, Key: "far", Name: "Trailer"})
	a.H.Parts = append(a.H.Parts, harness.Part{ID: harness.PartID(len(a.H.Parts)), Ref: "TL9", Place: far})
	a = page.Of(a.H, a.R, a.Paper, a.For)
	require.Contains(t, drawer{Ask: a}.mapSays(), "No run reaches: Trailer TL9.")
	checkMap(t, a, "with a place apart")
	require.NotContains(t, drawer{Ask: grown(3)}.mapSays(), "No run reaches")
}

// TestLoomsAreDividedAtAPlace a place that both sheets name.
func TestLoomsAreDividedAtAPlace(t *testing.T) {
	a := grown(2)
	for _, tr := range trees(a) {
		halves := tr.halves()
		legs, cut := 0, 0
		for _, half := range halves {
			legs += len(half.legs)
			for _, n := range half.nodes {
				if n.elsewhere {
					cut++
				}
			}
		}
		require.Equal(t, len(tr.legs), legs)
		if len(halves) > 1 {
			require.Equal(t, 2, cut)
		}
	}
}

// TestTheTrunkIsTheLongestWay of a tree, found by trying every pair of ends.
func TestTheTrunkIsTheLongestWay(t *testing.T) {
	for seed := range uint64(30) {
		for _, tr := range trees(grown(seed)) {
			near := tr.near()
			longest := 0.0
			for n := range tr.nodes {
				longest = max(longest, tr.deepest(n, -1, near).mm)
			}
			limbs := tr.limbs()
			require.InDelta(t, longest, limbs[0].mm, 1e-9)
			seen := map[int]bool{}
			for _, b := range limbs {
				for _, l := range b.legs {
					require.False(t, seen[l])
					seen[l] = true
				}
			}
			require.Len(t, seen, len(tr.legs))
		}
	}
}

func BenchmarkLay(b *testing.B) {
	a := sample(b, "kestrel")
	for b.Loop() {
		Lay(a)
	}
}
