// Package frame draws what every sheet has: the frame with its zones, the title
// block and the heading.
//
// In come a paper and the data of the title block; out come marks and the Body
// that is left to draw in. All lengths are mm.
//
// Method and sources: frame line 0.7 mm, borders 20 mm at the left (for filing) and
// 10 mm elsewhere, fields of about 50 mm in even number, letters downward without
// I and O, numbers across, centring marks: ISO 5457:1999 (from memory; older texts
// give fields of 25 to 75 mm). The fields here divide the frame evenly. The data
// fields of the title block are those of ISO 7200:2004; the block is a strip along
// the whole foot, so that a portrait table keeps its corner.
package frame

import (
	"fmt"
	"math"
	"strings"

	"example.com/loomfolio/layout/sheet"
	"example.com/loomfolio/sizing/unit"
)

// Papers lists the names that Paper knows.
func Papers() []string { return unit.Papers() }

// Paper gives the width and height of a paper in mm, upright; the name in any case.
func Paper(name string) (w, h float64, err error) {
	wide, high, ok := unit.Paper(name)
	if !ok {
		return 0, 0, fmt.Errorf("no paper %q: take one of %s", name, strings.Join(unit.Papers(), ", "))
	}
	return float64(wide), float64(high), nil
}

// Borders outside the frame and heights inside it.
const (
	leftBorder  = 20
	otherBorder = 10
	stripHigh   = 17.6 // two rows of fields
	inner       = 4    // clear space inside the frame
)

// Frame is the geometry of one sheet.
type Frame struct {
	W, H  float64    // the paper as it lies
	Line  sheet.Rect // the frame line
	Strip sheet.Rect // the title block
	Body  sheet.Rect // what is left to draw in
}

// New is the frame of a paper as it lies: swap the sides for landscape.
func New(w, h float64) Frame {
	line := sheet.Rect{X: leftBorder, Y: otherBorder, W: w - leftBorder - otherBorder, H: h - 2*otherBorder}
	strip := sheet.Rect{X: line.X, Y: line.Bottom() - stripHigh, W: line.W, H: stripHigh}
	body := sheet.Rect{X: line.X + inner, Y: line.Y + inner, W: line.W - 2*inner, H: strip.Y - line.Y - 2*inner}
	return Frame{W: w, H: h, Line: line, Strip: strip, Body: body}
}

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
