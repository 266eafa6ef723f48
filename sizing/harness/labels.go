package harness

import (
	"example.com/loomfolio/sizing/source"
	"example.com/loomfolio/sizing/unit"
)

// Labels says how markers are made.
type Labels struct {
	As     string          // wrap, flag, sleeve
	Length unit.Millimetre // along the wire, of what is cut out of paper
	Pitch  unit.Millimetre // from fuse to fuse in a panel; 0: by the fuses' body
	Sheet  *LabelSheet     // the shop's labels; nil: strips are cut out of paper
}

// LeastFace is the least height of what one look shows of a marker, in mm: capitals of
// 2 mm with their tails and air; common practice, no source.
const LeastFace unit.Millimetre = 3.2

// LabelEdge is what stays clear at the upper and lower edge of a label that is cut
// already, in mm: no printer feeds a sheet more exactly; common practice, no source.
const LabelEdge unit.Millimetre = 0.8

// LabelSheet is where labels lie on a sheet, or on a length of a roll: in rows, mm from
// the top left corner.
type LabelSheet struct {
	Paper                  string // A4 …; "" for a roll
	W, H                   unit.Millimetre
	Across, Down           int
	Wide, High             unit.Millimetre // of one label
	Left, Top              unit.Millimetre // of the first
	PitchAcross, PitchDown unit.Millimetre // from one label to the next
	First                  int             // the first that is still there, counted from 1 row by row
	Clear                  unit.Millimetre // of a label's height: the clear tail below, which is not printed
	Span                   source.Span
	WideSpan, HighSpan     source.Span // what to point at when texts do not fit
}

// Each is the number of labels on a sheet.
func (s *LabelSheet) Each() int { return s.Across * s.Down }

// Count is the number of sheets that n labels take.
func (s *LabelSheet) Count(n int) int {
	if n == 0 {
		return 0
	}
	return (s.First - 1 + n + s.Each() - 1) / s.Each()
}

// Printed is what of a label's height is printed.
func (s *LabelSheet) Printed() unit.Millimetre { return s.High - s.Clear }

// At gives the sheet, from 0, and the top left corner of the i-th label, from 0.
func (s *LabelSheet) At(i int) (sheet int, x, y unit.Millimetre) {
	slot := s.First - 1 + i
	x, y = s.Place(slot % s.Each())
	return slot / s.Each(), x, y
}

// Place is the top left corner of a position on a sheet, from 0 row by row.
func (s *LabelSheet) Place(slot int) (x, y unit.Millimetre) {
	return s.Left + unit.Millimetre(slot%s.Across)*s.PitchAcross, s.Top + unit.Millimetre(slot/s.Across)*s.PitchDown
}
