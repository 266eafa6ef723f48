package drawing

import (
	"math"

	"example.com/loomfolio/layout/sheet"
	"example.com/loomfolio/layout/typeface"
)

// spot is a strip's place in a sheet's area, from its top left corner.
type spot struct {
	st      *strip
	x, y, w float64
	head    bool    // the circuit's name stands above it
	name    float64 // width of that name
}

// sideGap is the white between strips side by side, mm.
const sideGap = 12.0

// arrange puts strips in rows, several in one where their least widths allow, and
// gives the height that they take with the air between rows.
func (s *sheets) arrange(group []*strip, air float64) (spots []spot, height float64) {
	heads := len(circuitsOf(group)) > 1
	y := 0.0
	for _, row := range s.rows(group) {
		head, high := 0.0, 0.0
		for _, sp := range row {
			if sp.head && heads {
				head = stripHead
			}
			high = math.Max(high, sp.st.layout.H)
		}
		for _, sp := range row {
			sp.y = y + head
			spots = append(spots, *sp)
		}
		y += head + high + stripGap + air
	}
	return spots, y - stripGap - air
}

// rows breaks strips into rows with their places across.
func (s *sheets) rows(group []*strip) [][]*spot {
	var out [][]*spot
	used := 0.0
	for i, st := range group {
		sp := &spot{st: st, w: st.layout.Least, head: i == 0 || group[i-1].circuits[0] != st.circuits[0]}
		if sp.head {
			sp.name = typeface.Width(circuitName(s.h.Circuits[st.circuits[0]])+s.share[st.circuits[0]], sheet.Bold, sheet.SizeHead)
		}
		if len(out) == 0 || used+sideGap+sp.room() > s.body.W+1e-6 {
			out = append(out, nil)
			used = -sideGap
		}
		last := len(out) - 1
		out[last] = append(out[last], sp)
		used += sideGap + sp.room()
	}
	for _, row := range out {
		s.across(row)
	}
	flush(out)
	return out
}

// room is the width of a strip and its name.
func (sp *spot) room() float64 { return math.Max(sp.w, sp.name) }

// across shares the width that a row leaves over.
func (s *sheets) across(row []*spot) {
	left := s.body.W - sideGap*float64(len(row)-1)
	for _, sp := range row {
		left -= sp.room()
	}
	x := 0.0
	for _, sp := range row {
		sp.x = x
		sp.w += math.Min(sp.st.layout.W-sp.w, math.Max(left, 0)/float64(len(row)))
		x += sp.room() + sideGap
	}
}

// flush ends strips that stand alone in their rows at one line, if that stretches
// none by more than a third.
func flush(rows [][]*spot) {
	most := 0.0
	for _, row := range rows {
		if len(row) == 1 {
			most = math.Max(most, row[0].w)
		}
	}
	for _, row := range rows {
		if len(row) == 1 && row[0].w > 0.75*most {
			row[0].w = most
		}
	}
}
