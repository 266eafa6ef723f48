package loom

import "example.com/loomfolio/layout/sheet"

// centre moves the legs into the middle of the area.
func (d *Drawing) centre() {
	r := bounds(d.lines)
	d.shift(d.area.X+(d.area.W-r.W)/2-r.X, d.area.Y+(d.area.H-r.H)/2-r.Y)
}

// shift moves legs and labels.
func (d *Drawing) shift(dx, dy float64) {
	by := func(p point) point { return point{X: p.X + dx, Y: p.Y + dy} }
	for i, l := range d.lines {
		for j := range l {
			l[j] = by(l[j])
		}
		d.pieces[i] = l.segments()
	}
	for i := range d.labels {
		l := &d.labels[i]
		l.area.X, l.area.Y = l.area.X+dx, l.area.Y+dy
		if l.leader != nil {
			l.leader = &segment{by(l.leader.a), by(l.leader.b)}
		}
	}
}

// used is the area that legs, nodes and labels take.
func (d *Drawing) used() sheet.Rect {
	all := []line{}
	for _, l := range d.lines {
		r := bounds([]line{l}).Inset(-thickest / 2)
		all = append(all, corners(r))
	}
	for _, l := range d.labels {
		all = append(all, corners(l.area))
	}
	return bounds(all)
}

func corners(r sheet.Rect) line { return line{{X: r.X, Y: r.Y}, {X: r.Right(), Y: r.Bottom()}} }

// above is the height of the rows over a part, below of that under it.
func (d *Drawing) above() float64 {
	high := 0.0
	if d.of > 1 {
		high += headHigh
	}
	if d.front || d.rear || d.right {
		high += edgeHigh
	}
	return high
}

func (d *Drawing) below() float64 {
	if d.left {
		return edgeHigh
	}
	return 0
}
