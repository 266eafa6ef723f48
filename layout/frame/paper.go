// Package frame draws what every sheet has: the frame with its zones, the title
// block and the heading.
//
// In come a paper and the data of the title block; out come marks and the Body
// that is left to draw in. All lengths are mm.
//
// Method and sources: frame line 0.7 mm, a border of 20 mm at the edge that is bound
// and 10 mm elsewhere, fields of about 50 mm in even number, letters downward without
// I and O, numbers across, centring marks: ISO 5457:1999 (from memory; older texts
// give fields of 25 to 75 mm). The fields here divide the frame evenly. An upright
// sheet is bound at its left, a lying one at its upper edge, so that a binder holds
// both. The data fields of the title block are those of ISO 7200:2004; the block is a
// strip along the whole foot, so that a portrait table keeps its corner. The first sheet
// has them all; the others, which run on from it, have what tells them apart.
// At the right border stand thumb tabs, one place a group of sheets.
package frame

import (
	"fmt"
	"math"
	"strings"

	"example.com/loomfolio/layout/sheet"
	"example.com/loomfolio/sizing/unit"
)

// Papers lists the papers on which whole packets are printed.
func Papers() []string { return unit.Papers() }

// Paper gives the width and height of a paper in mm, upright; the name in any case. It knows
// those of large sheets too.
func Paper(name string) (w, h float64, err error) {
	wide, high, ok := unit.Paper(name)
	if !ok {
		return 0, 0, fmt.Errorf("no paper %q: take one of %s", name, strings.Join(append(unit.Papers(), unit.LargePapers()...), ", "))
	}
	return float64(wide), float64(high), nil
}

// Borders outside the frame and heights inside it.
const (
	boundBorder = 20
	otherBorder = 10
	fullHigh    = 17.6 // of the first sheet's title block: two rows of fields
	shortHigh   = 8    // of the title block of the others
	inner       = 4    // clear space inside the frame
)

// Frame is the geometry of one sheet.
type Frame struct {
	W, H  float64    // the paper as it lies
	Line  sheet.Rect // the frame line
	Strip sheet.Rect // the title block
	Body  sheet.Rect // what is left to draw in
	First bool       // the title block has all its fields
	Taken float64    // of the body, from its top: what another group of sheets has of it
}

// New is the frame of a paper as it lies: swap the sides for landscape.
func New(w, h float64) Frame {
	line := sheet.Rect{X: boundBorder, Y: otherBorder, W: w - boundBorder - otherBorder, H: h - 2*otherBorder}
	if w > h {
		line = sheet.Rect{X: otherBorder, Y: boundBorder, W: w - 2*otherBorder, H: h - boundBorder - otherBorder}
	}
	return Frame{W: w, H: h, Line: line}.over(shortHigh)
}

// AsFirst is the frame with the whole title block.
func (f Frame) AsFirst() Frame {
	f.First = true
	return f.over(fullHigh)
}

// over leaves a title block of so much height, and the body above it.
func (f Frame) over(strip float64) Frame {
	f.Strip = sheet.Rect{X: f.Line.X, Y: f.Line.Bottom() - strip, W: f.Line.W, H: strip}
	f.Body = sheet.Rect{X: f.Line.X + inner, Y: f.Line.Y + inner, W: f.Line.W - 2*inner, H: f.Strip.Y - f.Line.Y - 2*inner}
	return f
}

// Lying tells whether the sheet is wider than high, and so bound at its upper edge.
func (f Frame) Lying() bool { return f.W > f.H }

// Of is the frame of a named paper, upright or landscape.
func Of(paper string, landscape bool) (Frame, error) {
	w, h, err := Paper(paper)
	if landscape {
		w, h = h, w
	}
	return New(w, h), err
}

// Columns is the number of fields across, Rows the number of fields down; both even.
func (f Frame) Columns() int { return fields(f.Line.W) }

// Rows is the number of fields down.
func (f Frame) Rows() int { return fields(f.Line.H) }

func fields(length float64) int { return max(2, 2*int(math.Round(length/100))) }

// letters leaves out I and O.
const letters = "ABCDEFGHJKLMNPQRSTUVWXYZ"

// Zone names the field that a place lies in, such as C3; places outside belong to the nearest field.
func (f Frame) Zone(x, y float64) string {
	col := field((x-f.Line.X)/f.Line.W, f.Columns())
	row := field((y-f.Line.Y)/f.Line.H, f.Rows())
	return fmt.Sprintf("%s%d", letter(row), col+1)
}

func letter(row int) string { return letters[row%len(letters) : row%len(letters)+1] }

func field(share float64, n int) int {
	return min(max(int(share*float64(n)), 0), n-1)
}
