package loom

import (
	"example.com/loomfolio/layout/loom/plane"
	"example.com/loomfolio/layout/sheet"
)

// shift moves legs and labels.
func (d *Drawing) shift(dx, dy float64) {
	by := func(p plane.Point) plane.Point { return plane.Point{X: p.X + dx, Y: p.Y + dy} }
	d.Move(dx, dy)
	for i := range d.labels {
		l := &d.labels[i]
		l.Area.X, l.Area.Y = l.Area.X+dx, l.Area.Y+dy
		if l.Leader != nil {
			l.Leader = &plane.Segment{A: by(l.Leader.A), B: by(l.Leader.B)}
		}
	}
}

// used is the area that legs, nodes and labels take.
func (d *Drawing) used() sheet.Rect {
	all := []plane.Line{}
	for _, l := range d.Lines {
		r := plane.Bounds([]plane.Line{l}).Inset(-thickest / 2)
		all = append(all, corners(r))
	}
	for _, l := range d.labels {
		all = append(all, corners(l.Area))
	}
	return plane.Bounds(all)
}

func corners(r sheet.Rect) plane.Line {
	return plane.Line{{X: r.X, Y: r.Y}, {X: r.Right(), Y: r.Bottom()}}
}

// above is the height of the rows over a part, below of that under it.
func (d *Drawing) above() float64 {
	high := 0.0
	if d.of > 1 {
		high += headHigh
	}
	if d.Front || d.Rear || d.Right {
		high += edgeHigh
	}
	return high
}

func (d *Drawing) below() float64 {
	if d.Left {
		return edgeHigh
	}
	return 0
}
