package layout

import (
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/layout/frame"
	"example.com/loomfolio/layout/sheet"
)

// leaf is a page that is filled down to a share of its body.
func leaf(t *testing.T, name string, lying bool, filled float64) frame.Page {
	t.Helper()
	f, err := frame.Of("A4", lying)
	require.NoError(t, err)
	var c sheet.Canvas
	c.Anchor("sheet/"+name, f.Body.X, f.Body.Y)
	c.Text(f.Body.X, f.Body.Y+5, name, sheet.Strong(sheet.SizeTitle))
	return frame.Page{Frame: f, Title: name, Groups: []string{name}, Tabs: []string{name}, Bottom: f.Body.Y + filled*f.Body.H, Marks: c.Marks}
}

// TestSmallGroupsShareASheet, in their order and as far as there is room; each keeps its anchor,
// its tab and its bookmark.
func TestSmallGroupsShareASheet(t *testing.T) {
	part := func(name string, filled float64) []frame.Page { return []frame.Page{leaf(t, name, false, filled)} }
	two := []frame.Page{leaf(t, "e", false, 1), leaf(t, "f", false, 0.1)}
	way := stacked([]stack{{pages: part("a", 0.4)}, {pages: part("b", 0.3)}, {pages: part("c", 0.1)}, {pages: part("d", 0.5)}, {pages: two}, {pages: part("g", 0.2)}}, nil)
	pages, starts := way.pages, way.starts
	require.Equal(t, []int{1, 1, 1, 2, 3, 4}, starts)
	require.Len(t, pages, 4)
	require.Equal(t, "a · b · c", pages[0].Title)
	require.Equal(t, []string{"b", "c"}, pages[0].Also)
	require.Equal(t, []string{"a", "b", "c"}, pages[0].Tabs)
	require.Equal(t, []string{"f", "g"}, pages[3].Groups)
	places := frame.Places(pages)
	require.Equal(t, 1, places["sheet/c"].Sheet)
	require.NotEqual(t, places["sheet/a"].Zone, places["sheet/c"].Zone, "c stands further down")
}

// TestWhatDoesNotFitStandsAlone: a lying sheet takes no upright one, and nothing follows where a page
// does not say where it ends.
func TestWhatDoesNotFitStandsAlone(t *testing.T) {
	silent := leaf(t, "silent", false, 0)
	silent.Bottom = 0
	for _, pair := range [][2]frame.Page{
		{leaf(t, "a", false, 0.2), leaf(t, "lying", true, 0.2)},
		{silent, leaf(t, "b", false, 0.2)},
		{leaf(t, "a", false, 0.2), silent},
		{leaf(t, "a", false, 0.5), leaf(t, "b", false, 0.5)},
	} {
		way := stacked([]stack{{pages: pair[:1]}, {pages: pair[1:]}}, nil)
		pages, starts := way.pages, way.starts
		require.Len(t, pages, 2)
		require.Equal(t, []int{1, 2}, starts)
	}
}

// TestALongGroupBeginsWhereItSavesASheet: one of several sheets is laid out anew under the group before it,
// where that makes the whole a sheet shorter, and not otherwise.
func TestALongGroupBeginsWhereItSavesASheet(t *testing.T) {
	first := stack{pages: []frame.Page{leaf(t, "a", false, 0.4)}}
	two := func(shorter bool) stack {
		return stack{pages: []frame.Page{leaf(t, "b", false, 1), leaf(t, "c", false, 0.3)}, again: func(above float64) []frame.Page {
			if shorter {
				return []frame.Page{leaf(t, "b", false, 1), leaf(t, "c", false, 0.7)}
			}
			return []frame.Page{leaf(t, "b", false, 1), leaf(t, "c", false, 1), leaf(t, "d", false, 0.2)}
		}}
	}
	way := stacked([]stack{first, two(true)}, nil)
	pages, starts := way.pages, way.starts
	require.Len(t, pages, 2)
	require.Equal(t, []int{1, 1}, starts)
	way = stacked([]stack{first, two(false)}, nil)
	pages, starts = way.pages, way.starts
	require.Len(t, pages, 3)
	require.Equal(t, []int{1, 2}, starts)
}

// TestWhatWasFoundIsFollowed, as far as it goes.
func TestWhatWasFoundIsFollowed(t *testing.T) {
	groups := []stack{{pages: []frame.Page{leaf(t, "a", false, 0.4)}}, {pages: []frame.Page{leaf(t, "b", false, 0.3)}}, {pages: []frame.Page{leaf(t, "c", false, 0.9)}}}
	require.Equal(t, []int{1, 2, 3}, stacked(groups, []bool{false, false, false}).starts)
	require.Equal(t, []int{1, 1, 2}, stacked(groups, []bool{false, true, true}).starts, "c has no room there")
}

// TestLastSheetOfAGroup: a group that begins under another, and goes on for longer than alone, is
// listed with the sheet that it ends on.
func TestLastSheetOfAGroup(t *testing.T) {
	w := filled{pages: make([]frame.Page, 6), starts: []int{1, 2, 3, 6}, under: []bool{false, false, true, false}}
	var last []int
	for i := range w.starts {
		last = append(last, w.last(i))
	}
	require.Equal(t, []int{1, 3, 5, 6}, last)
}
