package loom

import (
	"fmt"
	"os"
	"regexp"
	"slices"
	"strings"
	"testing"

	"example.com/loomfolio/layout/loom/rig"

	"example.com/loomfolio/layout/loom/laid"

	"example.com/loomfolio/layout/loom/branch"
	"example.com/loomfolio/layout/loom/plane"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/layout/frame"
	"example.com/loomfolio/layout/page"
	"example.com/loomfolio/layout/sheet"
	"example.com/loomfolio/layout/typeface"
	grownvehicle "example.com/loomfolio/samples/grown"
	"example.com/loomfolio/samples/toy"
	"example.com/loomfolio/sizing"
	"example.com/loomfolio/sizing/harness"
)

func TestMapsOfSamples(t *testing.T) {
	for _, name := range rig.SampleNames() {
		a := rig.Sample(t, name)
		for _, paper := range rig.Papers() {
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
		a := rig.Grown(seed)
		for i, paper := range rig.Papers() {
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

// checkMap holds what the sheets of the loom must hold, by measuring their marks.
func checkMap(t *testing.T, a page.Ask, what string) []Drawing {
	t.Helper()
	drawings := Lay(a)
	count := make([]int, len(a.H.Runs))
	for _, d := range drawings {
		for _, l := range d.Tree.Legs {
			count[l.Run]++
		}
		rig.CheckLegs(t, d.Legs, what)
		checkLabels(t, d, what)
		checkSides(t, &d, what)
	}
	for r, n := range count {
		require.Equal(t, 1, n, "%s: run %d is drawn once", what, r)
	}
	pages := toy.Settled(a, func(a page.Ask) []frame.Page { return Sheets(a, drawings) })
	for i, p := range pages {
		toy.CheckPage(t, p)
		checkMarks(t, p, fmt.Sprintf("%s, sheet %d", what, i+1))
	}
	checkScales(t, drawings, pages, what)
	checkList(t, a, pages, what)
	return drawings
}

// checkLabels: the labels of different things lie at least 4 mm apart.
func checkLabels(t *testing.T, d Drawing, what string) {
	t.Helper()
	for i, x := range d.labels {
		for _, y := range d.labels[:i] {
			dx := max(x.Area.X-y.Area.Right(), y.Area.X-x.Area.Right())
			dy := max(x.Area.Y-y.Area.Bottom(), y.Area.Y-x.Area.Bottom())
			require.GreaterOrEqual(t, max(dx, dy), 4-1e-6, "%s: %q beside %q", what, x.Block.Rows[0].Text(), y.Block.Rows[0].Text())
		}
	}
}

// checkSides: where a side is named at an edge, every place of it lies on that side of
// every place of the opposite one.
func checkSides(t *testing.T, d *Drawing, what string) {
	t.Helper()
	for n, x := range d.Tree.Nodes {
		for m, y := range d.Tree.Nodes {
			p, q := d.Node(n), d.Node(m)
			if d.Front && d.Rear && x.Lies.Is(harness.Front) && y.Lies.Is(harness.Rear) {
				require.Less(t, p.X, q.X, "%s: %d and %d", what, n, m)
			}
			if d.Right && d.Left && x.Lies.Is(harness.Right) && y.Lies.Is(harness.Left) {
				require.Less(t, p.Y, q.Y, "%s: %d and %d", what, n, m)
			}
		}
	}
}

// checkScales: one scale stands on each sheet of the map, or each part names its own.
func checkScales(t *testing.T, drawings []Drawing, pages []frame.Page, what string) {
	t.Helper()
	for _, d := range drawings {
		words := d.scaleWords()
		said := strings.ToLower(toy.Words(pages[d.sheet : d.sheet+1]))
		if len(drawings) > 1 {
			words = fmt.Sprintf("part %d of %d: ", d.part, d.of)
			require.Regexp(t, regexp.QuoteMeta(words)+`[^:]+, `+regexp.QuoteMeta(d.scaleWords()), said, what)
			continue
		}
		require.Contains(t, said, words, what)
	}
}

// checkList: each run has a row with its ends, and all its wires are found in the ranges.
func checkList(t *testing.T, a page.Ask, pages []frame.Page, what string) {
	t.Helper()
	d := drawer{Words: laid.Words{Ask: a}}
	said := toy.Words(pages)
	for _, r := range a.R.Runs {
		require.Contains(t, said, page.Letter(r.Run), what)
		require.Contains(t, said, strings.Fields(a.H.Places[a.H.Runs[r.Run].From].Name)[0], what)
		var got []string
		for _, w := range d.wireRanges(r.Wires) {
			require.Contains(t, said, w.Said, what)
			got = append(got, unrolled(a, strings.TrimSuffix(w.Said, ","))...)
		}
		var want []string
		for _, w := range r.Wires {
			want = append(want, a.H.Wires[w].Name)
		}
		require.Equal(t, want, got, "%s: run %s", what, page.Letter(r.Run))
	}
}

// unrolled gives the wires that a range names.
func unrolled(a page.Ask, text string) []string {
	first, last, ok := strings.Cut(text, "–")
	if !ok {
		return []string{first}
	}
	circuit, letter := named(first)
	var out []string
	for c := letter[0]; c <= last[0]; c++ {
		if c != 'I' && c != 'O' {
			out = append(out, circuit+string(c))
		}
	}
	return out
}

// TestSamplesLieAsTheyAreDescribed: of every sample the front is named at the left edge
// and the rear at the right one, and the sides of the kestrel at the others.
func TestSamplesLieAsTheyAreDescribed(t *testing.T) {
	for _, name := range rig.SampleNames() {
		front, rear := 0, 0
		for _, d := range Lay(rig.Sample(t, name)) {
			if d.Front {
				front++
			}
			if d.Rear {
				rear++
			}
		}
		require.Equal(t, [2]int{1, 1}, [2]int{front, rear}, name)
	}
	d := Lay(rig.Sample(t, "kestrel"))[0]
	require.Equal(t, branch.Claims{Front: true, Rear: true, Left: true, Right: true}, d.Claims)
	words := toy.Words(Sheets(rig.Sample(t, "kestrel"), []Drawing{d}))
	for _, word := range []string{"front", "rear", "left", "right"} {
		require.Contains(t, " "+words+" ", " "+word+" ")
	}
}

// TestNothingIsClaimedThatIsNotDescribed: a loom whose places say nothing names no side.
func TestNothingIsClaimedThatIsNotDescribed(t *testing.T) {
	a := rig.Sample(t, "kestrel")
	h := *a.H
	h.Places = slices.Clone(h.Places)
	for i := range h.Places {
		h.Places[i].Lies = 0
	}
	a = page.Of(&h, a.R, a.Paper, a.For)
	parts := Lay(a)
	for _, d := range parts {
		require.Zero(t, d.Claims)
	}
	words := toy.Words(Sheets(a, parts))
	require.NotContains(t, strings.ToLower(words), "front")
	require.NotContains(t, words, "seen from above")
}

// TestMapsOfGrownVehicles of 20 to 107 wires, with a place in front and one at the rear.
func TestMapsOfGrownVehicles(t *testing.T) {
	claimed := 0
	for seed := range uint64(30) {
		if testing.Short() && seed%6 > 0 {
			continue
		}
		h := grownvehicle.Harness(t, 20+3*int(seed), seed)
		h.Places[0].Lies, h.Places[len(h.Places)-1].Lies = harness.Front, harness.Rear
		r, err := sizing.Size(h, nil)
		require.NoError(t, err)
		for _, d := range checkMap(t, page.Of(h, r, rig.Papers()[seed%3], page.Bench), fmt.Sprintf("vehicle %d", seed)) {
			if d.Front && d.Rear {
				claimed++
			}
		}
	}
	require.Positive(t, claimed)
}

// Water stands in conduit and tube (46 CFR 183.340(b)(6)), not in braid.
func TestWhatIsSaidOfCovers(t *testing.T) {
	says := func(cover string, imperial bool) string {
		a := toy.Fan()
		a.H.Sheet.Imperial = imperial
		for i := range a.R.Runs {
			a.R.Runs[i].CoverName = cover
		}
		return toy.Plain(drawer{Words: laid.Words{Ask: a}}.remarks())
	}
	require.Contains(t, says("Conduit", false), "drain hole of 6 mm at the lowest point")
	require.Contains(t, says("tube", true), "drain hole of 1/4 in at the lowest point")
	require.NotContains(t, says("braid", false), "drain hole")
	require.Contains(t, says("braid", true), "no more than 1/2 in under light hand pressure")
}

// TestWiresFollow by their letters, without I and O.
func TestWiresFollow(t *testing.T) {
	for _, c := range []struct {
		name, next string
		want       bool
	}{{"12A", "12B", true}, {"12H", "12J", true}, {"12N", "12P", true}, {"12A", "12C", false}, {"12A", "13B", false}, {"12A", "12A", false}, {"9AA", "9AB", false}, {"12", "12", false}} {
		require.Equal(t, c.want, follows(c.name, c.next), c.name+" "+c.next)
	}
}

// TestWordsLeadOn: a run's letter on the map leads to its row, the row leads back, and a
// part leads to where it is explained.
func TestWordsLeadOn(t *testing.T) {
	a := rig.Sample(t, "first")
	parts := Lay(a)
	pages := toy.Settled(a, func(a page.Ask) []frame.Page { return Sheets(a, parts) }, func(page.Ask) []frame.Page {
		var c sheet.Canvas
		c.Anchor("part/FAN", 50, 50)
		c.Anchor("splice/S1", 50, 50)
		return []frame.Page{{Frame: a.Upright(), Marks: c.Marks}}
	})
	to := map[string]bool{}
	for _, m := range pages[0].Marks {
		if l, ok := m.(sheet.Link); ok {
			to[l.Target] = true
		}
	}
	for _, want := range []string{"laid/tray-bulkhead", "run/tray-bulkhead", "part/FAN", "splice/S1"} {
		require.True(t, to[want], want)
	}
}

// checkMarks: no text on another, no line through a text, nothing outside the body.
func checkMarks(t *testing.T, p frame.Page, what string) {
	t.Helper()
	var texts []sheet.Text
	for _, m := range p.Marks {
		if x, ok := m.(sheet.Text); ok {
			texts = append(texts, x)
			require.GreaterOrEqual(t, x.Size, sheet.SizeNote, "%s: %q is small", what, x.S)
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
		if (plane.Segment{A: at, B: s.P}).Touches(r, half) {
			return true
		}
		at = s.P
	}
	return false
}

// TestARingIsDrawnOnceOpen: the lightest run of a ring is the one that is drawn
// broken, with the place where it arrives as its end.
func TestARingIsDrawnOnceOpen(t *testing.T) {
	a := rig.Grown(1)
	a.H.Places, a.H.Runs, a.H.Parts, a.R.Runs = a.H.Places[:0], nil, nil, nil
	for i := range 3 {
		a.H.Places = append(a.H.Places, harness.Place{ID: harness.PlaceID(i), Key: fmt.Sprintf("p%d", i), Name: fmt.Sprintf("Place %d", i)})
	}
	for i := range 3 {
		a.H.Runs = append(a.H.Runs, harness.Run{ID: harness.RunID(i), From: harness.PlaceID(i), To: harness.PlaceID((i + 1) % 3), Length: 400})
		a.R.Runs = append(a.R.Runs, rig.GrownRun(harness.RunID(i), 3-i))
	}
	a = page.Of(a.H, a.R, a.Paper, a.For)
	d := Lay(a)
	require.Len(t, d, 1)
	closing := 0
	for _, l := range d[0].Tree.Legs {
		if l.Closing {
			closing++
			require.Equal(t, harness.RunID(2), l.Run)
			require.True(t, d[0].Tree.Nodes[l.To].Arrives)
		}
	}
	require.Equal(t, 1, closing)
	checkMap(t, a, "ring")
}

// TestPlacesWithoutARunAreListed with what sits there.
func TestPlacesWithoutARunAreListed(t *testing.T) {
	a := rig.Grown(3)
	far := harness.PlaceID(len(a.H.Places))
	a.H.Places = append(a.H.Places, harness.Place{ID: far, Key: "far", Name: "Trailer"})
	a.H.Parts = append(a.H.Parts, harness.Part{ID: harness.PartID(len(a.H.Parts)), Ref: "TL9", Place: far})
	a = page.Of(a.H, a.R, a.Paper, a.For)
	require.Contains(t, drawer{Words: laid.Words{Ask: a}}.mapSays(branch.Claims{}), "No run reaches: Trailer TL9.")
	checkMap(t, a, "with a place apart")
	require.NotContains(t, drawer{Words: laid.Words{Ask: rig.Grown(3)}}.mapSays(branch.Claims{}), "No run reaches")
}

func BenchmarkLay(b *testing.B) {
	a := rig.Sample(b, "kestrel")
	for b.Loop() {
		Lay(a)
	}
}
