package drawing

import (
	"math"
	"slices"

	"example.com/loomfolio/layout/sheet"
	"example.com/loomfolio/layout/typeface"
)

// noteLeads is the distance of the lines of a note, noteAir the white above the first, mm.
const (
	noteLeads = 3.4
	noteAir   = 1.2
)

// spare is the height that each block of a page has free under it, its rows being set.
func (s *sheets) spare(p leaf) {
	for i, row := range p {
		end := s.body.H
		if i+1 < len(p) {
			end = p[i+1][0].y - blockGap
		}
		for k := range row {
			row[k].spare = math.Max(0, end-row[k].y-row[k].x.h)
		}
	}
}

// notes say what follows if a block's circuits are changed later, each in its lines.
func (s *sheets) notes(b *block, wide float64) [][]string {
	var out [][]string
	for _, c := range s.r.Proof.Changes {
		if b.first && slices.Contains(b.circuits, c.Circuit) {
			out = append(out, typeface.Wrap("If you change this: "+c.If+": "+c.Then, sheet.Regular, sheet.SizeNote, wide))
		}
	}
	return out
}

// drawNotes sets the notes of a block that have room under it; none is parted, and none takes a sheet.
func (s *sheets) drawNotes(c *sheet.Canvas, b setBlock, x, y float64) {
	at := noteAir
	for _, lines := range s.notes(b.b, b.wide) {
		high := noteLeads * float64(len(lines))
		if at+high > b.spare {
			continue
		}
		for i, line := range lines {
			c.Text(x, y+b.x.h+at+noteLeads*float64(i)+sheet.SizeNote*typeface.CapHeight, line, sheet.Plain(sheet.SizeNote).In(sheet.Grey))
		}
		at += high
	}
}
