package loom

import (
	"math"

	"example.com/loomfolio/layout/sheet"
)

type point = sheet.Point

// segment is a straight piece of a leg.
type segment struct{ a, b point }

func (s segment) length() float64 { return dist(s.a, s.b) }

func dist(p, q point) float64 { return math.Sqrt((p.X-q.X)*(p.X-q.X) + (p.Y-q.Y)*(p.Y-q.Y)) }

// toward is the point at a distance from p in a direction: degrees, clockwise
// from the right hand since y runs down.
func toward(p point, deg, mm float64) point {
	sin, cos := math.Sincos(deg * math.Pi / 180)
	return point{X: p.X + mm*cos, Y: p.Y + mm*sin}
}

// heading is the direction from p to q in the degrees of toward.
func heading(p, q point) float64 { return math.Atan2(q.Y-p.Y, q.X-p.X) * 180 / math.Pi }

// between is the angle between two directions, 0 to 180.
func between(x, y float64) float64 {
	d := math.Mod(math.Abs(x-y), 360)
	return math.Min(d, 360-d)
}

func cross(o, p, q point) float64 { return (p.X-o.X)*(q.Y-o.Y) - (p.Y-o.Y)*(q.X-o.X) }

// meet tells whether two segments share a point.
func (s segment) meet(o segment) bool {
	if s.boxed(o) > 1e-6 { // rounding would let pieces of one line seem to cross
		return false
	}
	d1, d2 := cross(s.a, s.b, o.a), cross(s.a, s.b, o.b)
	d3, d4 := cross(o.a, o.b, s.a), cross(o.a, o.b, s.b)
	return (d1 > 0) != (d2 > 0) && (d3 > 0) != (d4 > 0) || s.gap(o) < 1e-6
}

// boxed is the least distance of the upright boxes about two segments: never
// more than that of the segments.
func (s segment) boxed(o segment) float64 {
	dx := max(min(s.a.X, s.b.X)-max(o.a.X, o.b.X), min(o.a.X, o.b.X)-max(s.a.X, s.b.X), 0)
	dy := max(min(s.a.Y, s.b.Y)-max(o.a.Y, o.b.Y), min(o.a.Y, o.b.Y)-max(s.a.Y, s.b.Y), 0)
	return max(dx, dy)
}

// gap is the least distance of two segments that do not cross.
func (s segment) gap(o segment) float64 {
	return min(s.off(o.a), s.off(o.b), o.off(s.a), o.off(s.b))
}

// apart is the distance of two segments, 0 where they cross.
func (s segment) apart(o segment) float64 {
	if s.meet(o) {
		return 0
	}
	return s.gap(o)
}

// off is the distance of a point from the segment.
func (s segment) off(p point) float64 {
	t := 0.0
	if l := s.length(); l > 0 {
		t = ((p.X-s.a.X)*(s.b.X-s.a.X) + (p.Y-s.a.Y)*(s.b.Y-s.a.Y)) / (l * l)
	}
	t = min(max(t, 0), 1)
	return dist(p, point{X: s.a.X + t*(s.b.X-s.a.X), Y: s.a.Y + t*(s.b.Y-s.a.Y)})
}

// clip gives the part of the segment inside an area; false where there is none
// (Liang and Barsky's method).
func (s segment) clip(r sheet.Rect) (segment, bool) {
	dx, dy := s.b.X-s.a.X, s.b.Y-s.a.Y
	t0, t1 := 0.0, 1.0
	for _, e := range [4][2]float64{{-dx, s.a.X - r.X}, {dx, r.Right() - s.a.X}, {-dy, s.a.Y - r.Y}, {dy, r.Bottom() - s.a.Y}} {
		p, q := e[0], e[1]
		switch {
		case p == 0 && q < 0:
			return segment{}, false
		case p < 0:
			t0 = math.Max(t0, q/p)
		case p > 0:
			t1 = math.Min(t1, q/p)
		}
	}
	if t0 > t1 {
		return segment{}, false
	}
	at := func(t float64) point { return point{X: s.a.X + t*dx, Y: s.a.Y + t*dy} }
	return segment{at(t0), at(t1)}, true
}

// touches tells whether the segment comes nearer to an area than a distance.
func (s segment) touches(r sheet.Rect, near float64) bool {
	r = r.Inset(-near)
	if max(s.a.X, s.b.X) < r.X || min(s.a.X, s.b.X) > r.Right() || max(s.a.Y, s.b.Y) < r.Y || min(s.a.Y, s.b.Y) > r.Bottom() {
		return false
	}
	_, in := s.clip(r)
	return in
}

// line is a way through points.
type line []point

func (l line) segments() []segment {
	var out []segment
	for i := 1; i < len(l); i++ {
		out = append(out, segment{l[i-1], l[i]})
	}
	return out
}

func (l line) length() float64 {
	sum := 0.0
	for _, s := range l.segments() {
		sum += s.length()
	}
	return sum
}

// at is the point at a distance along the line, and the direction there.
func (l line) at(mm float64) (point, float64) {
	segs := l.segments()
	for i, s := range segs {
		if long := s.length(); mm <= long+1e-9 || i == len(segs)-1 {
			deg := heading(s.a, s.b)
			return toward(s.a, deg, min(mm, long)), deg
		}
		mm -= s.length()
	}
	return l[0], 0
}

// cut is the piece of the line between two distances along it.
func (l line) cut(from, to float64) line {
	p, _ := l.at(from)
	out := line{p}
	along := 0.0
	for _, s := range l.segments() {
		along += s.length()
		if along > from+1e-6 && along < to-1e-6 {
			out = append(out, s.b)
		}
	}
	q, _ := l.at(to)
	return append(out, q)
}

// bounds is the smallest area that holds all lines.
func bounds(lines []line) sheet.Rect {
	lo, hi := point{X: math.Inf(1), Y: math.Inf(1)}, point{X: math.Inf(-1), Y: math.Inf(-1)}
	for _, l := range lines {
		for _, p := range l {
			lo = point{X: math.Min(lo.X, p.X), Y: math.Min(lo.Y, p.Y)}
			hi = point{X: math.Max(hi.X, p.X), Y: math.Max(hi.Y, p.Y)}
		}
	}
	return sheet.Rect{X: lo.X, Y: lo.Y, W: hi.X - lo.X, H: hi.Y - lo.Y}
}
