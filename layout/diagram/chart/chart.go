// Package chart lays out a whole harness as one graph: tiles in their groups in, places,
// paths of lines and flags out, in millimetres, x to the right, y down.
//
// The graph library ranks the tiles of each group and says which stand higher; groups stand
// in bands side by side, in their order from the left. Heights, lanes and tracks are found
// here, for several numbers of columns, of which the one with the shortest lines is kept.
package chart

import (
	"errors"
	"fmt"
	"math"
	"slices"

	"example.com/loomfolio/layout/sheet"
)

// Graph is a whole harness as one graph: tiles that stand together in groups, the
// groups in their order from the left, and lines from the feeds towards the grounds.
type Graph struct {
	Tiles  []Tile
	Groups []Group
	Lines  []Line
}

// Tile is a part: its width and least height, mm, and the group that it is in.
type Tile struct {
	W, H  float64
	Group int
}

// Group is a place, with the size of its name, which stands over its first column, mm. One
// with a smaller Side stands above one with a larger in the same band of the chart; of
// equals their lines decide.
type Group struct {
	Side int
	W, H float64
}

// Line joins two tiles, or one with itself; its flag, Flag mm wide, lies on it beside
// the tile that has fewer lines. No flag: 0.
type Line struct {
	From, To int
	Flag     float64
}

// Room is what a chart may take, mm; it is spread to W unless that is without end.
// Tight: tiles may stand closer, and lines may cross more often where it would else not fit.
type Room struct {
	W, H  float64
	Tight bool
}

// Layout is a chart laid out, mm. No line passes a tile, no two lines lie on one
// another, and no flag touches a tile, another flag or another's line. Tiles of a column
// have one width.
type Layout struct {
	W, H      float64
	Fits      bool
	Tiles     []sheet.Rect
	Groups    []sheet.Rect
	Names     []sheet.Point   // the top left corners of the groups' names
	Paths     [][]sheet.Point // by line, level and plumb pieces
	Flags     []sheet.Rect
	Crossings int
}

// Distances of a chart, in steps, and the step in mm.
const (
	step       = 0.7
	lineApart  = 2 // two level lines
	flagApart  = 4 // two lines with flags
	tileApart  = 3
	groupApart = 5
	groupFoot  = 3
)

// Most that is laid out as one chart.
const (
	mostTiles   = 400
	mostLines   = 700
	mostColumns = 14
	deepest     = 3 // columns of one band
)

// ErrTooLarge is a chart of more tiles or lines than one sheet could show.
var ErrTooLarge = errors.New("chart: too much for one chart")

// Lay lays a chart out, its tiles ranked, in the number of columns that suits the room best.
// Bands of groups stand side by side; heights, lanes and tracks are found here. Where it fits
// in no number of columns, Fits is false and nothing is placed.
func Lay(c Graph, found Ranks, room Room) *Layout {
	best, after := &Layout{}, 0
	for columns := 1; columns <= min(mostColumns, len(c.Tiles)) && after < 2; columns++ {
		s := newScene(c, room, found, columns)
		if s.leastWidth() > room.W {
			break
		}
		l := s.lay()
		if l.Fits && (!best.Fits || l.cost() < best.cost()) {
			best = l
		}
		if best.Fits || l.W > room.W {
			after++
		}
	}
	return best
}

func (c Graph) verify() error {
	if len(c.Tiles) == 0 || len(c.Groups) == 0 {
		return errors.New("chart: a chart without tiles")
	}
	if len(c.Tiles) > mostTiles || len(c.Lines) > mostLines {
		return fmt.Errorf("%w: %d tiles, %d lines", ErrTooLarge, len(c.Tiles), len(c.Lines))
	}
	for i, t := range c.Tiles {
		if t.Group < 0 || t.Group >= len(c.Groups) {
			return fmt.Errorf("chart: tile %d is in no group", i)
		}
	}
	for i, l := range c.Lines {
		if l.From < 0 || l.To < 0 || max(l.From, l.To) >= len(c.Tiles) {
			return fmt.Errorf("chart: line %d ends nowhere", i)
		}
	}
	return nil
}

// cost ranks charts: by the length of their lines, and by crossings.
func (l *Layout) cost() float64 {
	long := 0.0
	for _, p := range l.Paths {
		for i := 1; i < len(p); i++ {
			long += math.Abs(p[i].X-p[i-1].X) + math.Abs(p[i].Y-p[i-1].Y)
		}
	}
	return long + 12*float64(l.Crossings)
}

// members are the tiles of each group, in order.
func (c Graph) members() [][]int {
	out := make([][]int, len(c.Groups))
	for i, t := range c.Tiles {
		out[t.Group] = append(out[t.Group], i)
	}
	return out
}

func steps(mm float64) int { return int(math.Ceil(mm/step - 1e-9)) }

func middle(of []int) int {
	sorted := slices.Sorted(slices.Values(of))
	return sorted[(len(sorted)-1)/2]
}
