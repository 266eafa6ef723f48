// Package meter measures on finished marks what no sheet may have: a text on a
// text, a line through a text, anything outside its area, letters too small to
// read, lines that cross, anything on a picture. The tests of all packages that draw use it, so that they
// mean the same, and what leads lines counts with it.
//
// In: marks in the order in which they are painted, mm. Out: the faults in words,
// in the order of the marks; none where all is well. What a later fill covers is
// not seen and counts for nothing. What is measured is what lies inside the frame; of
// a bound sheet the title block's field names are smaller than all else, by the
// custom of such blocks (1.8 mm, the least height of ISO 3098-1), and no fault.
package meter

import (
	"fmt"
	"math"

	"example.com/loomfolio/layout/sheet"
	"example.com/loomfolio/layout/typeface"
)

// Faults gives everything that is wrong with marks within an area, the smallest
// text allowed being of the font size least.
func Faults(marks []sheet.Mark, area sheet.Rect, least float64) []string {
	out := append(append(Overlaps(marks), Pictured(marks)...), Struck(marks)...)
	return append(append(out, Outside(marks, area)...), Small(marks, least)...)
}

// Pictured gives what meets a picture: a text on it or under it, a line through it, what is
// painted over it, another picture. A line along its edge frames it.
func Pictured(marks []sheet.Mark) []string {
	var out []string
	for i, m := range marks {
		p, ok := m.(sheet.Picture)
		if !ok {
			continue
		}
		within := typeface.Bounds(p).Inset(edge)
		for k, other := range marks {
			if what := upon(other, within, k > i); what != "" && k != i {
				out = append(out, fmt.Sprintf("%s meets the picture %q", what, p.Words))
			}
		}
	}
	return out
}

// edge is how far within a picture's edge a line may lie that frames it, mm.
const edge = 0.25

// upon names a mark that meets an area; over tells that it is painted later, so that its fill hides the area.
func upon(m sheet.Mark, area sheet.Rect, over bool) string {
	switch m := m.(type) {
	case sheet.Text:
		if letters(m).Meets(area.Inset(-edge)) {
			return fmt.Sprintf("%q", m.S)
		}
	case sheet.Picture:
		if over && typeface.Bounds(m).Meets(area) {
			return fmt.Sprintf("the picture %q", m.Words)
		}
	case sheet.Path:
		if over && m.Fill != nil && m.Bounds().Meets(area) {
			return "a fill"
		}
		if m.Stroke != nil && m.Bounds().Meets(area) {
			if _, ok := through(m, area); ok {
				return "a line"
			}
		}
	}
	return ""
}

// letters is where a text's ink may be: from the top of its capitals to its base
// line. Tails are left out: they may reach into the air of the line below. A
// turned text's box is taken whole but for that air.
func letters(t sheet.Text) sheet.Rect {
	b := typeface.TextBounds(t)
	high := t.Size * typeface.CapHeight
	if t.Turn == 180 {
		return sheet.Rect{X: b.X + 0.1, Y: t.Y, W: b.W - 0.2, H: high}
	}
	if t.Turn != 0 {
		return b.Inset(0.15)
	}
	return sheet.Rect{X: b.X + 0.1, Y: t.Y - high, W: b.W - 0.2, H: high}
}

func texts(marks []sheet.Mark) (out []sheet.Text, at []int) {
	for i, m := range marks {
		if t, ok := m.(sheet.Text); ok {
			out, at = append(out, t), append(at, i)
		}
	}
	return out, at
}

// Overlaps gives the pairs of texts that lie on one another.
func Overlaps(marks []sheet.Mark) []string {
	var out []string
	all, _ := texts(marks)
	boxes := make([]sheet.Rect, len(all))
	for i, t := range all {
		boxes[i] = letters(t)
		for j, o := range boxes[:i] {
			if boxes[i].Meets(o) {
				out = append(out, fmt.Sprintf("%q lies on %q", t.S, all[j].S))
			}
		}
	}
	return out
}

// Outside gives what lies outside an area, give or take half a mm; anchors and
// links are no ink.
func Outside(marks []sheet.Mark, area sheet.Rect) []string {
	var out []string
	for _, m := range marks {
		switch m.(type) {
		case sheet.Text, sheet.Path, sheet.Picture:
			if r := typeface.Bounds(m); !area.Inset(-0.5).Holds(r) {
				out = append(out, "outside: "+sheet.DumpMarks([]sheet.Mark{m}))
			}
		}
	}
	return out
}

// Small gives the texts below a font size in mm.
func Small(marks []sheet.Mark, least float64) []string {
	var out []string
	all, _ := texts(marks)
	for _, t := range all {
		if t.Size < least-1e-6 {
			out = append(out, fmt.Sprintf("%q is %.2f mm small", t.S, t.Size))
		}
	}
	return out
}

// Struck gives the texts through which a straight line runs, the lines of
// outlines included. Lines that a fill between them and the text hides are not
// seen, nor is white under a text.
func Struck(marks []sheet.Mark) []string {
	var out []string
	all, at := texts(marks)
	boxes := make([]sheet.Rect, len(all))
	for i, t := range all {
		boxes[i] = letters(t)
	}
	for i, m := range marks {
		p, ok := m.(sheet.Path)
		if !ok || p.Stroke == nil {
			continue
		}
		reach := p.Bounds()
		for k, box := range boxes {
			if !reach.Meets(box) {
				continue
			}
			if i < at[k] && p.Stroke.Colour == sheet.White {
				continue
			}
			if cut, ok := through(p, box); ok && !hidden(marks, i, at[k], cut) {
				out = append(out, fmt.Sprintf("a line runs through %q", all[k].S))
			}
		}
	}
	return out
}

// through gives the part of a box that a path's straight pieces cover.
func through(p sheet.Path, box sheet.Rect) (cut sheet.Rect, ok bool) {
	from := p.Start
	pieces := p.Segs
	if p.Closed {
		pieces = append(append([]sheet.Seg{}, pieces...), sheet.Seg{P: p.Start})
	}
	for _, s := range pieces {
		if s.C1 == nil {
			if r := piece(from, s.P, p.Stroke.Width); r.Meets(box) && (upright(from, s.P) || slants(from, s.P, box)) {
				cut, ok = cut.Union(common(r, box)), true
			}
		}
		from = s.P
	}
	return cut, ok
}

func piece(a, b sheet.Point, wide float64) sheet.Rect {
	r := sheet.Rect{X: math.Min(a.X, b.X), Y: math.Min(a.Y, b.Y), W: math.Abs(a.X - b.X), H: math.Abs(a.Y - b.Y)}
	return r.Inset(-wide / 2)
}

// upright tells whether a piece runs level or plumb, so that its box is its area.
func upright(a, b sheet.Point) bool {
	return math.Abs(a.X-b.X) < 1e-6 || math.Abs(a.Y-b.Y) < 1e-6
}

// slants tells whether a slanting piece passes a box, by the places along it.
func slants(a, b sheet.Point, box sheet.Rect) bool {
	const steps = 200
	for i := range steps + 1 {
		k := float64(i) / steps
		x, y := a.X+k*(b.X-a.X), a.Y+k*(b.Y-a.Y)
		if x > box.X && x < box.Right() && y > box.Y && y < box.Bottom() {
			return true
		}
	}
	return false
}

func common(a, b sheet.Rect) sheet.Rect {
	x, y := math.Max(a.X, b.X), math.Max(a.Y, b.Y)
	return sheet.Rect{X: x, Y: y, W: math.Min(a.Right(), b.Right()) - x, H: math.Min(a.Bottom(), b.Bottom()) - y}
}

// hidden tells whether one fill painted after mark i covers what it leaves of a text's
// box; or, where the text is painted first, whether the text lies under a fill itself.
func hidden(marks []sheet.Mark, i, text int, cut sheet.Rect) bool {
	for k := i + 1; k < len(marks); k++ {
		if p, ok := marks[k].(sheet.Path); ok && p.Fill != nil && p.Closed && filled(p).Holds(cut) {
			return k < text || text < i
		}
	}
	return false
}

// filled is the area that a closed path covers for certain: its bounds, without
// its line, less what its corners may leave.
func filled(p sheet.Path) sheet.Rect {
	if p.Stroke != nil {
		bare := p
		bare.Stroke = nil
		return bare.Bounds()
	}
	return p.Bounds()
}
