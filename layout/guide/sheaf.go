// Package guide lays out the sheets that explain and map a harness: the cover,
// the reading guide, the load budget, the fuse map, the connector faces and the
// grounds. (What is worked through at the bench is package bench.)
//
// In: page.Ask, which is the model, the results, the paper and the reader. Out:
// the pages of one kind of sheet, none when the sheet has nothing to say. It
// holds that no text is cut off or lies on another: what does not fit goes on the
// next sheet, drawings take the height that their words need, and colour is
// always accompanied by its name. All lengths are mm.
package guide

import (
	"fmt"

	"example.com/loomfolio/layout/frame"
	"example.com/loomfolio/layout/sheet"
	"example.com/loomfolio/layout/table"
	"example.com/loomfolio/layout/typeface"
)

// sheaf is the sheets of one kind while they are filled from the top.
type sheaf struct {
	frame    frame.Frame
	name     string
	subtitle string // on the first sheet
	pages    []frame.Page
	c        sheet.Canvas
	top      float64    // where the body begins under the heading
	room     sheet.Rect // what is left of the sheet being filled
}

// open starts the first sheet; the anchor stands at its head.
func open(f frame.Frame, name, subtitle, anchor string) *sheaf {
	s := &sheaf{frame: f, name: name, subtitle: subtitle}
	s.c.Anchor(anchor, f.Body.X, f.Body.Y)
	s.room = f.Heading(&s.c, name, subtitle)
	s.top = s.room.Y
	return s
}

// turn ends the sheet being filled and starts the next.
func (s *sheaf) turn() {
	s.pages = append(s.pages, frame.Page{Frame: s.frame, Title: s.name, Marks: s.c.Marks})
	s.c = sheet.Canvas{}
	s.room = s.frame.Heading(&s.c, s.name+", continued", "")
	s.top = s.room.Y
}

// need turns to the next sheet unless so much height is left, or the sheet is fresh.
func (s *sheaf) need(h float64) {
	if h > s.room.H && s.room.Y > s.top {
		s.turn()
	}
}

// down moves on by so much.
func (s *sheaf) down(h float64) { s.room = s.room.Below(s.room.Y + h) }

// head sets a section's heading and keeps it with what follows: so much height.
func (s *sheaf) head(text string, follows float64) {
	s.head2(text, "", follows)
}

// head2 is head with a remark in smaller type under it.
func (s *sheaf) head2(text, remark string, follows float64) {
	high := textHeight(text, sheet.Strong(sheet.SizeHead), s.room.W) + 1
	if remark != "" {
		high += textHeight(remark, sheet.Plain(sheet.SizeNote), s.room.W) + 0.6
	}
	if s.room.Y > s.top {
		s.need(3 + high + follows)
	}
	if s.room.Y > s.top {
		s.down(3)
	}
	s.say(text, sheet.Strong(sheet.SizeHead))
	if remark != "" {
		s.say(remark, sheet.Plain(sheet.SizeNote).In(sheet.Grey))
	}
	s.down(1)
}

// say sets a paragraph; it goes on on the next sheet where it must.
func (s *sheaf) say(text string, style sheet.Style) {
	for _, line := range typeface.Wrap(text, style.Face, style.Size, s.room.W) {
		s.need(style.Size * typeface.Leading)
		s.room = s.room.Below(frame.Paragraph(&s.c, s.room, line, style))
	}
}

// table sets a table over as many sheets as it takes.
func (s *sheaf) table(t *table.Table) { s.flow(t.Settle(s.room.W)) }

func (s *sheaf) flow(t *table.Settled) {
	for i, part := range t.Flow(s.room, s.next()) {
		if i > 0 {
			s.turn()
		}
		s.c.Add(part.Marks...)
		s.room = s.room.Below(part.Bottom)
	}
	s.down(2)
}

// whole sets a table that should stay on one sheet, under its heading: both go to
// the next sheet where the rest of this one is too low and the next is not.
func (s *sheaf) whole(text, remark string, t *table.Table) {
	set := t.Settle(s.room.W)
	high := set.Height()
	if high > s.next().H-20 {
		high = 25
	}
	s.head2(text, remark, high)
	s.flow(set)
}

// next is the body of a further sheet under its heading.
func (s *sheaf) next() sheet.Rect {
	var unseen sheet.Canvas
	return s.frame.Heading(&unseen, s.name+", continued", "")
}

// done gives the sheets; several are numbered and stand under one bookmark.
func (s *sheaf) done() []frame.Page {
	pages := append(s.pages, frame.Page{Frame: s.frame, Title: s.name, Marks: s.c.Marks})
	if len(pages) > 1 {
		for i := range pages {
			pages[i].Title = fmt.Sprintf("%s, %d of %d", s.name, i+1, len(pages))
			pages[i].Group = s.name
		}
	}
	return pages
}

// textHeight is how high a paragraph becomes at a width.
func textHeight(text string, style sheet.Style, width float64) float64 {
	if text == "" {
		return 0
	}
	return float64(len(typeface.Wrap(text, style.Face, style.Size, width))) * style.Size * typeface.Leading
}

// centred sets a paragraph line by line about the middle of an area and gives
// the height where it ends.
func centred(c *sheet.Canvas, r sheet.Rect, text string, style sheet.Style) float64 {
	if text == "" {
		return r.Y
	}
	y := r.Y
	for _, line := range typeface.Wrap(text, style.Face, style.Size, r.W) {
		c.Text(r.X+r.W/2, y+style.Size*(typeface.CapHeight+0.12), line, style.At(sheet.Centre))
		y += style.Size * typeface.Leading
	}
	return y
}
