package board

import (
	"math"
	"strings"

	"example.com/loomfolio/layout/loom/plane"

	"example.com/loomfolio/layout/frame"
	"example.com/loomfolio/layout/sheet"
	"example.com/loomfolio/sizing/unit"
)

// grid is how sheets lie on a board.
type grid struct {
	paperW, paperH float64
	foot           float64 // height under what a sheet shows, for words
	cols, rows     int
}

const (
	glue        = 10   // margin round what a sheet shows, over which its neighbours are glued
	onePageFoot = 38   // height of the words at the foot of a board that is one page
	longestRoll = 5000 // of one page; PDF allows 200 in (5080 mm)
)

func (g grid) wide() float64 { return g.paperW - 2*glue }
func (g grid) high() float64 { return g.paperH - 2*glue - g.foot }

// one tells whether the board is one page.
func (g grid) one() bool { return g.foot > 0 }

// tile is what the sheet in a row and column shows of the board.
func (g grid) tile(row, col int) sheet.Rect {
	return sheet.Rect{X: float64(col) * g.wide(), Y: float64(row) * g.high(), W: g.wide(), H: g.high()}
}

// over lays so many sheets of a paper over an area.
func over(w, h float64, r sheet.Rect) grid {
	g := grid{paperW: w, paperH: h}
	g.cols, g.rows = int(math.Ceil(r.W/g.wide())), int(math.Ceil(r.H/g.high()))
	return g
}

// onePage is one sheet of a paper over an area; false where it is too large for that.
func onePage(w, h float64, r sheet.Rect) (grid, bool) {
	g := grid{paperW: w, paperH: h, foot: onePageFoot, cols: 1, rows: 1}
	return g, r.W <= g.wide()+1e-6 && r.H <= g.high()+1e-6
}

// around is the space from the legs to the edge of the board, mm.
const around = 70

// rolled tells whether the board is printed on a roll.
func (b *board) rolled() bool { return strings.EqualFold(b.Big, unit.Roll) }

// rollWidth is the width of a roll, mm.
func rollWidth() float64 {
	w, _, _ := unit.Paper(unit.Roll)
	return float64(w)
}

// papers are the ways in which the board's paper may lie, mm; a roll is cut off behind the loom.
func (b *board) papers(r sheet.Rect) [][2]float64 {
	if b.rolled() {
		return [][2]float64{{min(math.Ceil(r.W+2*glue), longestRoll), rollWidth()}}
	}
	f := b.Upright()
	if b.Big != "" {
		if large, err := frame.Of(b.Big, false); err == nil {
			f = large
		}
	}
	return [][2]float64{{f.W, f.H}, {f.H, f.W}}
}

// cover lays sheets over the legs, upright or lying, whichever needs fewer, and
// moves the legs into the middle of them. A board that fits one large page is that page.
func (b *board) cover() {
	r := b.bounds().Inset(-around)
	for _, paper := range b.papers(r) {
		if g, ok := onePage(paper[0], paper[1], r); ok && b.Big != "" {
			b.grid = g
			break
		}
		if g := over(paper[0], paper[1], r); b.grid.cols == 0 || g.cols*g.rows < b.grid.cols*b.grid.rows {
			b.grid = g
		}
	}
	g := b.grid
	dx := (float64(g.cols)*g.wide()-r.W)/2 - r.X
	dy := (float64(g.rows)*g.high()-r.H)/2 - r.Y
	for i := range b.trees {
		d := &b.trees[i]
		d.Area = plane.Bounds(d.Lines)
		d.Area.X, d.Area.Y = d.Area.X+dx, d.Area.Y+dy
		d.Centre()
	}
}

// whole is the area of all sheets together.
func (b *board) whole() sheet.Rect {
	return sheet.Rect{W: float64(b.grid.cols) * b.grid.wide(), H: float64(b.grid.rows) * b.grid.high()}
}
