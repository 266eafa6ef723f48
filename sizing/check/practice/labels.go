package practice

import (
	"strings"
	"unicode/utf8"

	"example.com/loomfolio/sizing/describe"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/source"
	"example.com/loomfolio/sizing/unit"
)

// stripLong is the greatest length of roll that is printed at a time, mm; common
// practice, no source.
const stripLong = 1000

// labelSheet takes over the shop's labels; nil where there are none.
func (c *reader) labelSheet(l describe.Labels) *harness.LabelSheet {
	switch {
	case l.Sheet.Span.Known() && l.Roll.Span.Known():
		c.Fail("labels-twice", l.Roll.Span, "keep one of the two, sheet: or roll:", "markers are printed on sheets or on a roll, not on both")
		return nil
	case l.Sheet.Span.Known():
		return c.onSheets(l.Sheet)
	case l.Roll.Span.Known():
		return c.onRoll(l.Roll)
	}
	return nil
}

func (c *reader) onSheets(l describe.LabelSheet) *harness.LabelSheet {
	s := &harness.LabelSheet{
		Paper: l.Paper.Or(c.sheet.Paper), Across: max(l.Across.V, 1), Down: max(l.Down.V, 1), Wide: l.Width.V, High: l.Height.V,
		Left: l.Left.V, Top: l.Top.V, PitchAcross: l.PitchAcross.Or(l.Width.V), PitchDown: l.PitchDown.Or(l.Height.V),
		First: l.First.Or(1), Clear: l.Clear.V, Span: l.Span, WideSpan: l.Width.Span, HighSpan: l.Height.Span,
	}
	s.W, s.H, _ = unit.Paper(s.Paper)
	c.onPaper("across", span(l.PitchAcross.Span, l.Width.Span), s.Left, s.PitchAcross, s.Wide, s.W, s.Across, s.Paper+" is %s wide")
	c.onPaper("down", span(l.PitchDown.Span, l.Height.Span), s.Top, s.PitchDown, s.High, s.H, s.Down, s.Paper+" is %s high")
	if s.First > s.Each() {
		c.Fail("label-not-there", l.First.Span, "write the number of the first label that is still there, counted row by row from the top left",
			"a sheet has %s, and none has the number %d", unit.Counted(s.Each(), "label"), s.First)
	}
	c.labelHeight(s, l.Clear.Span)
	return s
}

// onPaper holds that labels in one direction lie apart and end on the paper.
func (c *reader) onPaper(way string, at source.Span, from, pitch, size, paper unit.Millimetre, n int, limit string) {
	const eps = 0.005
	if n > 1 && pitch < size-eps {
		c.Fail("labels-overlap", at, "measure from the left or upper edge of one label to that of the next: at least "+c.mm(size),
			"labels of %s every %s %s lie on one another", c.mm(size), c.mm(pitch), way)
	}
	if end := from + unit.Millimetre(n-1)*pitch + size; end > paper+eps {
		c.Fail("labels-off-paper", at, "measure the sheet again: first edge, pitch and number of labels must fit it",
			"%d labels %s end %s from the edge; "+limit, n, way, c.mm(end), c.mm(paper))
	}
}

func (c *reader) mm(l unit.Millimetre) string { return unit.CalliperText(l, c.sheet.Imperial) }

func span(first, second source.Span) source.Span {
	if first.Known() {
		return first
	}
	return second
}

func (c *reader) onRoll(l describe.LabelRoll) *harness.LabelSheet {
	n := max(1, int(stripLong/max(float64(l.Pitch.V), 1)))
	s := &harness.LabelSheet{
		Across: n, Down: 1, Wide: l.Label.Or(l.Pitch.V), High: l.Width.V, PitchAcross: l.Pitch.V, PitchDown: l.Width.V,
		W: unit.Millimetre(n) * l.Pitch.V, H: l.Width.V, First: 1, Clear: l.Clear.V, Span: l.Span, WideSpan: span(l.Label.Span, l.Pitch.Span), HighSpan: l.Width.Span,
	}
	s.Left = (s.PitchAcross - s.Wide) / 2
	if s.Wide > s.PitchAcross {
		c.Fail("labels-overlap", l.Label.Span, "pitch: is from the beginning of one label to that of the next", "labels of %s every %s lie on one another", c.mm(s.Wide), c.mm(s.PitchAcross))
	}
	c.labelHeight(s, l.Clear.Span)
	return s
}

// labelHeight holds that a label has room beside its clear tail for a face on either side of
// the wire, or for one where it is a sleeve.
func (c *reader) labelHeight(s *harness.LabelSheet, clear source.Span) {
	least := 2 * (harness.LeastFace + harness.LabelEdge)
	if c.written.Labels.As.Text == "sleeve" {
		least = harness.LeastFace
	}
	if s.Printed() >= least-0.005 {
		return
	}
	at := s.HighSpan
	if s.High >= least && clear.Known() {
		at = clear
	}
	c.Fail("label-too-small", at, "use labels of which at least "+c.mm(least)+" are printed",
		"%s of a label's height can be printed, too little for capitals of %s", c.mm(max(s.Printed(), 0)), c.mm(2))
}

// Width of a label's name for each letter in capitals of 2 mm, bold, and what is clear
// beside it; mm, measured on the embedded face's figures.
const (
	letterWide = 1.7
	besideName = 2.4
)

// LabelRoom holds that the longest name of a wire goes on one label.
func LabelRoom(h *harness.Harness) source.Problems {
	s := h.Practice.Labels.Sheet
	if s == nil {
		return nil
	}
	longest := ""
	for i := range h.Wires {
		if name := strings.TrimSpace(h.Wires[i].Name); utf8.RuneCountInString(name) > utf8.RuneCountInString(longest) {
			longest = name
		}
	}
	need := unit.Millimetre(besideName + letterWide*float64(utf8.RuneCountInString(longest)))
	if s.Wide >= need {
		return nil
	}
	c := &reader{sheet: h.Sheet}
	c.Fail("label-too-small", s.WideSpan, "use labels that are at least "+c.mm(need)+" wide, or give the wire a shorter name",
		"%s is too narrow for the name %s in capitals of %s", c.mm(s.Wide), longest, c.mm(2))
	return c.Problems
}
