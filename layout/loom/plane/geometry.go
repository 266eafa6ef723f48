// Package plane is the geometry that loom sheets are laid out with: segments, and lines of
// several of them, in millimetres, y down; directions are degrees, clockwise from the right.
package plane

import (
	"math"

	"example.com/loomfolio/layout/sheet"
)

// Point is a place, mm.
type Point = sheet.Point

// Segment is a straight piece of a leg.
type Segment struct{ A, B Point }

// Length is that of the segment, mm.
func (s Segment) Length() float64 { return Dist(s.A, s.B) }

// Dist is the distance of two points, mm.
func Dist(p, q Point) float64 { return math.Sqrt((p.X-q.X)*(p.X-q.X) + (p.Y-q.Y)*(p.Y-q.Y)) }

// Toward is the point at a distance from p in a direction: degrees, clockwise
// from the right hand since y runs down.
func Toward(p Point, deg, mm float64) Point {
	sin, cos := math.Sincos(deg * math.Pi / 180)
	return Point{X: p.X + mm*cos, Y: p.Y + mm*sin}
}

// Heading is the direction from p to q in the degrees of Toward.
func Heading(p, q Point) float64 { return math.Atan2(q.Y-p.Y, q.X-p.X) * 180 / math.Pi }

// Between is the angle between two directions, 0 to 180.
func Between(x, y float64) float64 {
	d := math.Mod(math.Abs(x-y), 360)
	return math.Min(d, 360-d)
}

func cross(o, p, q Point) float64 { return (p.X-o.X)*(q.Y-o.Y) - (p.Y-o.Y)*(q.X-o.X) }

// Meet tells whether two segments share a point.
func (s Segment) Meet(o Segment) bool {
	if s.Boxed(o) > 1e-6 { // rounding would let pieces of one line seem to cross
		return false
	}
	d1, d2 := cross(s.A, s.B, o.A), cross(s.A, s.B, o.B)
	d3, d4 := cross(o.A, o.B, s.A), cross(o.A, o.B, s.B)
	return (d1 > 0) != (d2 > 0) && (d3 > 0) != (d4 > 0) || s.gap(o) < 1e-6
}

// Boxed is the least distance of the upright boxes about two segments: never
// more than that of the segments.
func (s Segment) Boxed(o Segment) float64 {
	dx := max(min(s.A.X, s.B.X)-max(o.A.X, o.B.X), min(o.A.X, o.B.X)-max(s.A.X, s.B.X), 0)
	dy := max(min(s.A.Y, s.B.Y)-max(o.A.Y, o.B.Y), min(o.A.Y, o.B.Y)-max(s.A.Y, s.B.Y), 0)
	return max(dx, dy)
}

// gap is the least distance of two segments that do not cross.
func (s Segment) gap(o Segment) float64 {
	return min(s.Off(o.A), s.Off(o.B), o.Off(s.A), o.Off(s.B))
}

// Apart is the distance of two segments, 0 where they cross.
func (s Segment) Apart(o Segment) float64 {
	if s.Meet(o) {
		return 0
	}
	return s.gap(o)
}

// Off is the distance of a point from the segment.
func (s Segment) Off(p Point) float64 {
	t := 0.0
	if l := s.Length(); l > 0 {
		t = ((p.X-s.A.X)*(s.B.X-s.A.X) + (p.Y-s.A.Y)*(s.B.Y-s.A.Y)) / (l * l)
	}
	t = min(max(t, 0), 1)
	return Dist(p, Point{X: s.A.X + t*(s.B.X-s.A.X), Y: s.A.Y + t*(s.B.Y-s.A.Y)})
}

// Clip gives the part of the segment inside an area; false where there is none
// (Liang and Barsky's method).
func (s Segment) Clip(r sheet.Rect) (Segment, bool) {
	dx, dy := s.B.X-s.A.X, s.B.Y-s.A.Y
	t0, t1 := 0.0, 1.0
	for _, e := range [4][2]float64{{-dx, s.A.X - r.X}, {dx, r.Right() - s.A.X}, {-dy, s.A.Y - r.Y}, {dy, r.Bottom() - s.A.Y}} {
		p, q := e[0], e[1]
		switch {
		case p == 0 && q < 0:
			return Segment{}, false
		case p < 0:
			t0 = math.Max(t0, q/p)
		case p > 0:
			t1 = math.Min(t1, q/p)
		}
	}
	if t0 > t1 {
		return Segment{}, false
	}
	at := func(t float64) Point { return Point{X: s.A.X + t*dx, Y: s.A.Y + t*dy} }
	return Segment{at(t0), at(t1)}, true
}

// Touches tells whether the segment comes nearer to an area than a distance.
func (s Segment) Touches(r sheet.Rect, near float64) bool {
	r = r.Inset(-near)
	if max(s.A.X, s.B.X) < r.X || min(s.A.X, s.B.X) > r.Right() || max(s.A.Y, s.B.Y) < r.Y || min(s.A.Y, s.B.Y) > r.Bottom() {
		return false
	}
	_, in := s.Clip(r)
	return in
}

// Line is a way through points.
type Line []Point

// Segments are the straight pieces between its points.
func (l Line) Segments() []Segment {
	var out []Segment
	for i := 1; i < len(l); i++ {
		out = append(out, Segment{l[i-1], l[i]})
	}
	return out
}

// Length is that of all pieces together, mm.
func (l Line) Length() float64 {
	sum := 0.0
	for _, s := range l.Segments() {
		sum += s.Length()
	}
	return sum
}

// At is the point at a distance along the line, and the direction there.
func (l Line) At(mm float64) (Point, float64) {
	segs := l.Segments()
	for i, s := range segs {
		if long := s.Length(); mm <= long+1e-9 || i == len(segs)-1 {
			deg := Heading(s.A, s.B)
			return Toward(s.A, deg, min(mm, long)), deg
		}
		mm -= s.Length()
	}
	return l[0], 0
}

// Cut is the piece of the line between two distances along it.
func (l Line) Cut(from, to float64) Line {
	p, _ := l.At(from)
	out := Line{p}
	along := 0.0
	for _, s := range l.Segments() {
		along += s.Length()
		if along > from+1e-6 && along < to-1e-6 {
			out = append(out, s.B)
		}
	}
	q, _ := l.At(to)
	return append(out, q)
}

// Bounds is the smallest area that holds all lines.
func Bounds(lines []Line) sheet.Rect {
	lo, hi := Point{X: math.Inf(1), Y: math.Inf(1)}, Point{X: math.Inf(-1), Y: math.Inf(-1)}
	for _, l := range lines {
		for _, p := range l {
			lo = Point{X: math.Min(lo.X, p.X), Y: math.Min(lo.Y, p.Y)}
			hi = Point{X: math.Max(hi.X, p.X), Y: math.Max(hi.Y, p.Y)}
		}
	}
	return sheet.Rect{X: lo.X, Y: lo.Y, W: hi.X - lo.X, H: hi.Y - lo.Y}
}

// Strip is the outline of a straight piece with a width on both sides.
func (s Segment) Strip(half float64) []Point {
	deg := Heading(s.A, s.B)
	return []Point{Toward(s.A, deg+90, half), Toward(s.B, deg+90, half), Toward(s.B, deg-90, half), Toward(s.A, deg-90, half)}
}

// Same tells whether two pieces have the same ends.
func (s Segment) Same(o Segment) bool { return s == o || s == Segment{o.B, o.A} }
