package drawing

import (
	"math"
	"strings"

	"example.com/loomfolio/layout/sheet"
	"example.com/loomfolio/layout/typeface"
)

// footLeads is the distance of the lines of points, mm.
const footLeads = 4.1

// pointGap is the white between two points of a foot, mm.
const pointGap = 5.0

// footWord is what is not parted at a foot, with the white before it in its line.
type footWord struct {
	s      string
	face   sheet.Face
	before float64
	tied   bool // never the first of a line
}

func (w footWord) wide() float64 { return typeface.Width(w.s, w.face, sheet.SizeBody) }

// footWords are the words of a foot: the name of a point stands with the first of what follows.
func footWords(d dead) []footWord {
	blank := typeface.Width(" ", sheet.Regular, sheet.SizeBody)
	out := []footWord{{s: d.head, face: sheet.Bold}}
	for _, p := range d.points {
		before := pointGap
		if p.name != "" {
			out, before = append(out, footWord{s: p.name, face: sheet.Bold, before: pointGap}), blank
		}
		for i, w := range strings.Split(p.look, " ") {
			out = append(out, footWord{s: w, before: before, tied: i == 0 && p.name != ""})
			before = blank
		}
	}
	return out
}

// footLines breaks the foot of a block into lines of a width.
func (s *sheets) footLines(b *block, wide float64) [][]footWord {
	if len(b.dead.points) == 0 {
		return nil
	}
	words := footWords(b.dead)
	lines := [][]footWord{nil}
	used := 0.0
	for i, w := range words {
		need := w.before + w.wide()
		if i+1 < len(words) && words[i+1].tied {
			need += words[i+1].before + words[i+1].wide()
		}
		last := len(lines) - 1
		if used+need > wide && len(lines[last]) > 0 && !w.tied {
			lines, used, last = append(lines, nil), 0, last+1
		}
		if len(lines[last]) == 0 {
			w.before = 0
		}
		used += w.before + w.wide()
		lines[last] = append(lines[last], w)
	}
	return lines
}

// footLeast is the width below which the foot of a block cannot be set.
func footLeast(d dead) float64 {
	least := 0.0
	words := footWords(d)
	for i, w := range words {
		wide := w.wide()
		if i+1 < len(words) && words[i+1].tied {
			wide += words[i+1].before + words[i+1].wide()
		}
		if len(d.points) > 0 {
			least = math.Max(least, wide)
		}
	}
	return least
}

func (s *sheets) footHigh(b *block, wide float64) float64 {
	if n := len(s.footLines(b, wide)); n > 0 {
		return footAir + footLeads*float64(n)
	}
	return 0
}

// foot sets the points under a block.
func (s *sheets) foot(c *sheet.Canvas, b *block, x, y, wide float64) {
	for i, line := range s.footLines(b, wide) {
		base := y + footAir + footLeads*float64(i) + sheet.SizeBody*typeface.CapHeight
		setFoot(c, line, x, base)
	}
}

// setFoot sets one line; words of one face that follow one another are one text.
func setFoot(c *sheet.Canvas, line []footWord, x, base float64) {
	for i := 0; i < len(line); {
		x += line[i].before
		run, wide := line[i].s, line[i].wide()
		j := i + 1
		for ; j < len(line) && line[j].face == sheet.Regular && line[i].face == sheet.Regular && line[j].before < pointGap; j++ {
			run += " " + line[j].s
			wide += line[j].before + line[j].wide()
		}
		c.Text(x, base, run, sheet.Style{Size: sheet.SizeBody, Face: line[i].face, Colour: sheet.Ink})
		x += wide
		i = j
	}
}
