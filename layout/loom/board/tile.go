package board

import (
	"math"

	"example.com/loomfolio/layout/loom/plane"

	"example.com/loomfolio/layout/sheet"
	"example.com/loomfolio/layout/typeface"
)

// clip gives what an area shows of marks: lines and straight-edged outlines are
// cut at its edges; texts and curves belong to it where their middle lies in it.
// Links and anchors are left out.
func clip(marks []sheet.Mark, r sheet.Rect) []sheet.Mark {
	var out []sheet.Mark
	for _, m := range marks {
		box := typeface.Bounds(m)
		if box.X > r.Right() || box.Right() < r.X || box.Y > r.Bottom() || box.Bottom() < r.Y {
			continue
		}
		switch m := m.(type) {
		case sheet.Text:
			if holds(r, plane.Point{X: box.X + box.W/2, Y: box.Y + box.H/2}) {
				out = append(out, m)
			}
		case sheet.Path:
			out = append(out, clipPath(m, box, r)...)
		}
	}
	return out
}

func holds(r sheet.Rect, p plane.Point) bool {
	return p.X >= r.X && p.X < r.Right() && p.Y >= r.Y && p.Y < r.Bottom()
}

func clipPath(p sheet.Path, box, r sheet.Rect) []sheet.Mark {
	if r.Holds(box) {
		return []sheet.Mark{p}
	}
	for _, s := range p.Segs {
		if s.C1 != nil {
			if holds(r, plane.Point{X: box.X + box.W/2, Y: box.Y + box.H/2}) {
				return []sheet.Mark{p}
			}
			return nil
		}
	}
	points := []plane.Point{p.Start}
	for _, s := range p.Segs {
		points = append(points, s.P)
	}
	var c sheet.Canvas
	if p.Closed {
		c.Polygon(clipArea(points, r), sheet.Paint{Fill: p.Fill})
		points = append(points, p.Start)
	}
	if p.Stroke != nil {
		for _, s := range plane.Line(points).Segments() {
			if in, ok := s.Clip(r); ok && in.Length() > 1e-6 {
				c.Line(in.A.X, in.A.Y, in.B.X, in.B.Y, *p.Stroke)
			}
		}
	}
	return c.Marks
}

// clipArea cuts a closed outline at the four edges of an area (Sutherland and
// Hodgman's method).
func clipArea(points []plane.Point, r sheet.Rect) []plane.Point {
	inside := []func(p plane.Point) float64{ // how far inside an edge
		func(p plane.Point) float64 { return p.X - r.X }, func(p plane.Point) float64 { return r.Right() - p.X },
		func(p plane.Point) float64 { return p.Y - r.Y }, func(p plane.Point) float64 { return r.Bottom() - p.Y },
	}
	for _, in := range inside {
		var kept []plane.Point
		for i, q := range points {
			p := points[(i+len(points)-1)%len(points)]
			dp, dq := in(p), in(q)
			if (dp >= 0) != (dq >= 0) {
				k := dp / (dp - dq)
				kept = append(kept, plane.Point{X: p.X + k*(q.X-p.X), Y: p.Y + k*(q.Y-p.Y)})
			}
			if dq >= 0 {
				kept = append(kept, q)
			}
		}
		points = kept
	}
	return points
}

// disk is a circle as an outline with straight edges, so that it can be cut.
func disk(at plane.Point, radius float64) []plane.Point {
	const corners = 40
	out := make([]plane.Point, corners)
	for i := range out {
		sin, cos := math.Sincos(2 * math.Pi * float64(i) / corners)
		out[i] = plane.Point{X: at.X + radius*cos, Y: at.Y + radius*sin}
	}
	return out
}
