package frame

import (
	"fmt"
	"regexp"
	"strings"

	"example.com/loomfolio/layout/sheet"
	"example.com/loomfolio/layout/typeface"
)

// Shares of the short title block's width: what the packet is, what the sheet is, its number.
const (
	shortPacket = .42
	shortNumber = .14
)

// drawShort draws the title block of a sheet that runs on from the first: the packet in two
// lines, the sheet's own name, and its number at the outer corner.
func (f Frame) drawShort(c *sheet.Canvas, b Block) {
	r := f.Strip
	c.Line(r.X, r.Y, r.Right(), r.Y, sheet.Solid(sheet.Medium))
	name, number := r.X+r.W*shortPacket, r.Right()-r.W*shortNumber
	for _, x := range []float64{name, number} {
		c.Line(x, r.Y, x, r.Bottom(), sheet.Solid(sheet.Thin))
	}
	for i, line := range []string{b.Title, b.issue()} {
		style := sheet.Plain(sheet.SizeNote)
		c.Text(r.X+pad, r.Y+3.2+leading*float64(i), typeface.Fit(line, style.Face, style.Size, name-r.X-2*pad), style)
	}
	f.drawName(c, b.Type, sheet.Rect{X: name, Y: r.Y, W: number - name, H: r.H})
	if b.Sheet > 0 {
		style := big.At(sheet.Right)
		c.Text(r.Right()-pad, r.Y+r.H/2+big.Size*typeface.CapHeight/2, fmt.Sprintf("%d of %d", b.Sheet, b.Of), style)
	}
}

// counted is which sheet of several it is; no line ends within.
var counted = regexp.MustCompile(`(\d+) of (\d+)`)

// issue is what tells one issue of the packet from another.
func (b Block) issue() string {
	words := []string{b.Ident}
	if b.Revision != "" {
		words = append(words, "rev. "+b.Revision)
	}
	words = append(words, b.Date)
	if len(b.Digest) >= 8 {
		words = append(words, b.Digest[:8])
	}
	var said []string
	for _, w := range words {
		if w != "" {
			said = append(said, w)
		}
	}
	return strings.Join(said, " · ")
}

// drawName sets the sheet's name on one line, or on two in the size of notes.
func (f Frame) drawName(c *sheet.Canvas, name string, r sheet.Rect) {
	name = counted.ReplaceAllString(name, "$1\u00a0of\u00a0$2")
	if typeface.Width(name, bold.Face, bold.Size) <= r.W-2*pad {
		c.Text(r.X+pad, r.Y+r.H/2+bold.Size*typeface.CapHeight/2, typeface.Clean(name, bold.Face), bold)
		return
	}
	lines, style := cell{rows: 1, text: name, style: sheet.Strong(sheet.SizeNote)}.lines(r.W - 2*pad)
	y := r.Y + r.H/2 + style.Size*typeface.CapHeight/2 - leading/2*float64(len(lines)-1)
	for i, line := range lines {
		c.Text(r.X+pad, y+leading*float64(i), line, style)
	}
}
