package outline

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/layout/sheet"
	"example.com/loomfolio/layout/typeface"
	"example.com/loomfolio/samples"
	"example.com/loomfolio/samples/worked"
	"example.com/loomfolio/sizing/fit/fitted"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/unit"
)

// loom makes a model of places and runs between them, each 100 mm times its number long.
func loom(places int, runs ...[2]harness.PlaceID) *harness.Harness {
	h := &harness.Harness{}
	for i := range places {
		h.Places = append(h.Places, harness.Place{ID: harness.PlaceID(i)})
	}
	for i, r := range runs {
		h.Runs = append(h.Runs, harness.Run{ID: harness.RunID(i), From: r[0], To: r[1], Length: unit.Millimetre(100 * (i + 1))})
	}
	return h
}

var area = sheet.Rect{X: 20, Y: 30, W: 70, H: 40}

// TestLoomsOfTheSamples lie within their area, each place once, hairs for all parts.
func TestLoomsOfTheSamples(t *testing.T) {
	for _, s := range samples.List() {
		h, r := worked.Out(t, s)
		var c sheet.Canvas
		Draw(&c, area, h, r.Runs)
		require.NotEmpty(t, c.Marks)
		require.True(t, area.Inset(-0.5).Holds(typeface.BoundsAll(c.Marks)), "%s: %v", s.Name, typeface.BoundsAll(c.Marks))
		require.Len(t, grow(h).nodes, len(h.Places))
	}
}

// TestBranchesDoNotCross: every two ends lie on lines of their own, along the width as far as the runs are long.
func TestBranchesDoNotCross(t *testing.T) {
	h := loom(7, [2]harness.PlaceID{0, 1}, [2]harness.PlaceID{1, 2}, [2]harness.PlaceID{1, 3}, [2]harness.PlaceID{3, 4}, [2]harness.PlaceID{3, 5}, [2]harness.PlaceID{5, 6})
	g := grow(h)
	at := g.place(area)
	ends := map[float64]bool{}
	for _, n := range g.nodes {
		if len(n.children) == 0 {
			ends[at[n.place].Y] = true
		}
		require.InDelta(t, area.X+area.W*n.along/g.nodes[0].reach, at[n.place].X, 1e-9)
	}
	require.Len(t, ends, 3)
	require.Equal(t, 1600.0, g.nodes[0].reach, "from 6 over 5, 3 and 1 to 2: the longest way")
	for _, n := range g.nodes[1:] {
		parent := at[n.parent]
		require.Greater(t, at[n.place].X, parent.X)
		require.True(t, at[n.place].Y == parent.Y || math.Abs(at[n.place].Y-parent.Y) > 1)
	}
}

// TestRingsAndPieces: a ring is closed by a thin line, and of two looms the longer one is drawn.
func TestRingsAndPieces(t *testing.T) {
	ring := grow(loom(3, [2]harness.PlaceID{0, 1}, [2]harness.PlaceID{1, 2}, [2]harness.PlaceID{2, 0}))
	require.Len(t, ring.nodes, 3)
	require.Len(t, ring.rings, 1)
	two := grow(loom(5, [2]harness.PlaceID{0, 1}, [2]harness.PlaceID{2, 3}, [2]harness.PlaceID{3, 4}))
	require.Len(t, two.nodes, 3)
	var c sheet.Canvas
	Draw(&c, area, loom(2), nil)
	require.Empty(t, c.Marks)
}

// TestThickerBundlesAreThicker, and one without a figure is a thin line.
func TestThickerBundlesAreThicker(t *testing.T) {
	h := loom(4, [2]harness.PlaceID{0, 1}, [2]harness.PlaceID{1, 2}, [2]harness.PlaceID{2, 3})
	w := widths(h, []fitted.Run{{Diameter: 20}, {Diameter: 5}})
	require.InDeltaSlice(t, []float64{thickest, thinnest + (thickest-thinnest)/2, thinnest}, w, 1e-9)
}

// TestTheFrontIsAtTheLeft where the description says where it is.
func TestTheFrontIsAtTheLeft(t *testing.T) {
	for _, front := range []harness.PlaceID{0, 2} {
		h := loom(3, [2]harness.PlaceID{0, 1}, [2]harness.PlaceID{1, 2})
		require.False(t, FrontFirst(h))
		h.Places[front].Lies = harness.Front
		require.True(t, FrontFirst(h))
		require.Equal(t, front, grow(h).nodes[0].place)
	}
	h := loom(2, [2]harness.PlaceID{0, 1})
	h.Places[grow(h).furthest()].Lies = harness.Rear
	require.True(t, FrontFirst(h))
}
