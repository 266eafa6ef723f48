package chart

import (
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/layout/meter"
	"example.com/loomfolio/layout/sheet"
)

// someGraph is a made-up harness: tiles in groups, lines mostly within a group or to a hub.
func someGraph(seed uint64, tiles, lines int) Graph {
	r := rand.New(rand.NewPCG(seed, 1))
	c := Graph{}
	for range max(2, tiles/8) {
		c.Groups = append(c.Groups, Group{Side: r.IntN(3) - 1, W: 10 + 15*r.Float64(), H: 6})
	}
	for i := range tiles {
		c.Tiles = append(c.Tiles, Tile{W: 14 + 12*r.Float64(), H: 7 + 6*r.Float64(), Group: (i + r.IntN(3)) % len(c.Groups)})
	}
	for range lines {
		l := Line{From: r.IntN(tiles), To: r.IntN(tiles), Flag: 8 + 9*r.Float64()}
		if r.IntN(3) == 0 {
			l.To = r.IntN(max(1, tiles/10))
		}
		if r.IntN(9) == 0 {
			l.Flag = 0
		}
		c.Lines = append(c.Lines, l)
	}
	return c
}

func laid(t *testing.T, c Graph, room Room) *Layout {
	t.Helper()
	found, err := c.Rank()
	require.NoError(t, err)
	return Lay(c, found, room)
}

// TestChartsAreClean: of made-up harnesses of many sizes nothing lies on anything, with and without
// lines that had to be squeezed.
func TestChartsAreClean(t *testing.T) {
	fitted := 0
	for seed := range uint64(40) {
		tiles := 2 + int(seed*7%60)
		c := someGraph(seed, tiles, tiles+int(seed%5)*tiles/4)
		for _, room := range []Room{{W: 560, H: 360, Tight: true}, {W: 392, H: 236, Tight: true}, {W: math.Inf(1), H: 600}} {
			if l := laid(t, c, room); l.Fits {
				fitted++
				checkChart(t, fmt.Sprintf("seed %d, %.0f wide", seed, room.W), c, l, room)
			}
		}
	}
	require.Greater(t, fitted, 80)
}

func checkChart(t *testing.T, name string, c Graph, l *Layout, room Room) {
	t.Helper()
	all := sheet.Rect{W: l.W, H: l.H}
	require.LessOrEqual(t, l.W, room.W+0.01, name)
	require.LessOrEqual(t, l.H, room.H+0.01, name)
	for i, r := range l.Tiles {
		require.True(t, l.Groups[c.Tiles[i].Group].Holds(r), "%s: tile %d leaves its group", name, i)
		require.GreaterOrEqual(t, r.W, c.Tiles[i].W-0.01, name)
		require.GreaterOrEqual(t, r.H, c.Tiles[i].H-0.01, name)
		for k, o := range l.Tiles[:i] {
			require.False(t, r.Meets(o), "%s: tiles %d and %d", name, i, k)
		}
	}
	for i, g := range l.Groups {
		require.True(t, all.Holds(g), "%s: group %d", name, i)
		for k, o := range l.Groups[:i] {
			require.False(t, g.Meets(o), "%s: groups %d and %d", name, i, k)
		}
	}
	checkLines(t, name, c, l)
	checkFlags(t, name, c, l)
}

// checkLines: every line leads from tile to tile, past all tiles and along no other line.
func checkLines(t *testing.T, name string, c Graph, l *Layout) {
	t.Helper()
	for i, path := range l.Paths {
		ends := []sheet.Point{path[0], path[len(path)-1]}
		for k, tile := range []int{c.Lines[i].From, c.Lines[i].To} {
			r := l.Tiles[tile]
			onEdge := math.Abs(ends[k].X-r.X) < 0.01 || math.Abs(ends[k].X-r.Right()) < 0.01
			require.True(t, onEdge && ends[k].Y > r.Y && ends[k].Y < r.Bottom(), "%s: line %d does not end on tile %d", name, i, tile)
		}
		for k, r := range l.Tiles {
			require.False(t, meter.Line(path).Passes(r.Inset(0.1), 0.05), "%s: line %d through tile %d", name, i, k)
		}
		for k := range i {
			require.False(t, along(path, l.Paths[k]), "%s: lines %d and %d lie on one another", name, i, k)
		}
	}
}

// along tells whether two lines share more than a point.
func along(a, b []sheet.Point) bool {
	for i := 1; i < len(a); i++ {
		for j := 1; j < len(b); j++ {
			if shares(a[i-1], a[i], b[j-1], b[j]) {
				return true
			}
		}
	}
	return false
}

func shares(a1, a2, b1, b2 sheet.Point) bool {
	const near = 0.9 // lines are drawn up to 1.4 mm apart
	level := a1.Y == a2.Y && b1.Y == b2.Y && math.Abs(a1.Y-b1.Y) < near
	plumb := a1.X == a2.X && b1.X == b2.X && math.Abs(a1.X-b1.X) < near
	over := func(a, b, c, d float64) bool {
		return math.Min(math.Max(a, b), math.Max(c, d))-math.Max(math.Min(a, b), math.Min(c, d)) > 0.01
	}
	return level && over(a1.X, a2.X, b1.X, b2.X) || plumb && over(a1.Y, a2.Y, b1.Y, b2.Y)
}

// checkFlags: a flag lies on its own line and on nothing else.
func checkFlags(t *testing.T, name string, c Graph, l *Layout) {
	t.Helper()
	for i, f := range l.Flags {
		if c.Lines[i].Flag == 0 {
			require.Zero(t, f.W, name)
			continue
		}
		require.InDelta(t, c.Lines[i].Flag, f.W, 1e-9, name)
		require.True(t, meter.Line(l.Paths[i]).Passes(f, 0), "%s: flag %d off its line", name, i)
		for k, r := range l.Tiles {
			require.False(t, f.Meets(r), "%s: flag %d on tile %d", name, i, k)
		}
		for k, path := range l.Paths {
			if k != i {
				require.False(t, meter.Line(path).Passes(f.Inset(0.05), 0.4), "%s: line %d through flag %d", name, k, i)
				require.False(t, c.Lines[k].Flag > 0 && f.Meets(l.Flags[k]), "%s: flags %d and %d", name, i, k)
			}
		}
	}
}

// TestChartsStandStill: the same chart is laid out in the same way.
func TestChartsStandStill(t *testing.T) {
	c := someGraph(5, 40, 60)
	room := Room{W: 560, H: 360, Tight: true}
	first := laid(t, c, room)
	require.True(t, first.Fits)
	require.Equal(t, first, laid(t, c, room))
}

// TestSidesAndOrder: groups stand in their order from the left, and of those in one band one with
// a smaller side above one with a larger.
func TestSidesAndOrder(t *testing.T) {
	for seed := range uint64(10) {
		c := someGraph(seed, 30, 40)
		l := laid(t, c, Room{W: 560, H: 360})
		require.True(t, l.Fits, seed)
		for g := 1; g < len(l.Groups); g++ {
			for o := range g {
				a, b := l.Groups[o], l.Groups[g]
				require.LessOrEqual(t, a.X, b.X+0.01, "seed %d: groups %d, %d", seed, o, g)
				if math.Abs(a.X-b.X) < 0.01 && c.Groups[o].Side != c.Groups[g].Side {
					require.Equal(t, c.Groups[o].Side < c.Groups[g].Side, a.Y < b.Y, "seed %d: groups %d, %d", seed, o, g)
				}
			}
		}
	}
}

// TestFeedsStandLeft: within a group a line leads to the right wherever its ranks differ in the chart.
func TestFeedsStandLeft(t *testing.T) {
	c := Graph{Groups: []Group{{W: 10, H: 5}}}
	for range 6 {
		c.Tiles = append(c.Tiles, Tile{W: 20, H: 8})
	}
	for _, l := range [][2]int{{0, 1}, {1, 2}, {3, 4}, {4, 5}} {
		c.Lines = append(c.Lines, Line{From: l[0], To: l[1], Flag: 10})
	}
	found, err := c.Rank()
	require.NoError(t, err)
	require.Equal(t, []int{0, 1, 2, 0, 1, 2}, found.column)
	l := Lay(c, found, Room{W: 200, H: 40})
	require.True(t, l.Fits)
	for i, line := range c.Lines {
		require.LessOrEqual(t, l.Tiles[line.From].X, l.Tiles[line.To].X, "line %d", i)
	}
	require.Less(t, l.Tiles[0].X, l.Tiles[2].X)
}

// TestChartsThatDoNotFit are not placed, and what is malformed or too large is refused.
func TestChartsThatDoNotFit(t *testing.T) {
	l := laid(t, someGraph(1, 50, 90), Room{W: 100, H: 60, Tight: true})
	require.False(t, l.Fits)
	require.Empty(t, l.Tiles)
	for _, c := range []Graph{
		{},
		{Groups: []Group{{}}, Tiles: []Tile{{Group: 1}}},
		{Groups: []Group{{}}, Tiles: []Tile{{}}, Lines: []Line{{From: 0, To: 1}}},
	} {
		_, err := c.Rank()
		require.Error(t, err)
		require.NotErrorIs(t, err, ErrTooLarge)
	}
	_, err := Graph{Groups: []Group{{}}, Tiles: slices.Repeat([]Tile{{W: 1, H: 1}}, mostTiles+1)}.Rank()
	require.ErrorIs(t, err, ErrTooLarge)
}

func BenchmarkChart(b *testing.B) {
	for _, n := range []int{10, 40, 100} {
		c := someGraph(3, n, n*2)
		found, err := c.Rank()
		require.NoError(b, err)
		b.Run(fmt.Sprint(n), func(b *testing.B) {
			for b.Loop() {
				Lay(c, found, Room{W: 1140, H: 800, Tight: true})
			}
		})
	}
}
