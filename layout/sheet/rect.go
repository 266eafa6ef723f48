package sheet

import "math"

// Rect is an area in mm from its top left corner.
type Rect struct{ X, Y, W, H float64 }

// Right is the right edge.
func (r Rect) Right() float64 { return r.X + r.W }

// Bottom is the lower edge.
func (r Rect) Bottom() float64 { return r.Y + r.H }

// Below is what is left of the area under a height y, never negative.
func (r Rect) Below(y float64) Rect {
	return Rect{r.X, y, r.W, math.Max(0, r.Bottom()-y)}
}

// Inset takes d mm away on every side; a negative d adds it.
func (r Rect) Inset(d float64) Rect { return Rect{r.X + d, r.Y + d, r.W - 2*d, r.H - 2*d} }

// Holds tells whether o lies within r, give or take a thousandth of a mm.
func (r Rect) Holds(o Rect) bool {
	const eps = 0.001
	return o.X >= r.X-eps && o.Y >= r.Y-eps && o.Right() <= r.Right()+eps && o.Bottom() <= r.Bottom()+eps
}

// Meets tells whether two areas share more than an edge.
func (r Rect) Meets(o Rect) bool {
	return r.X < o.Right() && o.X < r.Right() && r.Y < o.Bottom() && o.Y < r.Bottom()
}

// Union is the smallest area holding both; an area without width and height counts as none.
func (r Rect) Union(o Rect) Rect {
	if r == (Rect{}) {
		return o
	}
	if o == (Rect{}) {
		return r
	}
	x, y := math.Min(r.X, o.X), math.Min(r.Y, o.Y)
	return Rect{x, y, math.Max(r.Right(), o.Right()) - x, math.Max(r.Bottom(), o.Bottom()) - y}
}

// Bounds is the exact area of a path with half its stroke width all round
// (mitre points beyond that are not counted).
func (p Path) Bounds() Rect {
	lo, hi := p.Start, p.Start
	at := p.Start
	for _, s := range p.Segs {
		for _, q := range reach(at, s) {
			lo = Point{math.Min(lo.X, q.X), math.Min(lo.Y, q.Y)}
			hi = Point{math.Max(hi.X, q.X), math.Max(hi.Y, q.Y)}
		}
		at = s.P
	}
	r := Rect{lo.X, lo.Y, hi.X - lo.X, hi.Y - lo.Y}
	if p.Stroke != nil {
		r = r.Inset(-p.Stroke.Width / 2)
	}
	return r
}

// reach gives the end of a step and, for a curve, where it turns back in x or y.
func reach(from Point, s Seg) []Point {
	points := []Point{s.P}
	if s.C1 == nil || s.C2 == nil {
		return points
	}
	turns := append(turning(from.X, s.C1.X, s.C2.X, s.P.X), turning(from.Y, s.C1.Y, s.C2.Y, s.P.Y)...)
	for _, t := range turns {
		u := 1 - t
		a, b, c, d := u*u*u, 3*u*u*t, 3*u*t*t, t*t*t
		points = append(points, Point{
			a*from.X + b*s.C1.X + c*s.C2.X + d*s.P.X,
			a*from.Y + b*s.C1.Y + c*s.C2.Y + d*s.P.Y,
		})
	}
	return points
}

// turning solves the derivative of a cubic Bézier for parameters inside 0..1.
func turning(p0, p1, p2, p3 float64) []float64 {
	a, b, c := -p0+3*p1-3*p2+p3, 2*(p0-2*p1+p2), p1-p0
	var roots []float64
	if math.Abs(a) < 1e-12 {
		roots = []float64{-c / b}
	} else {
		root := math.Sqrt(b*b - 4*a*c)
		roots = []float64{(-b + root) / (2 * a), (-b - root) / (2 * a)}
	}
	var in []float64
	for _, t := range roots {
		if t > 0 && t < 1 { // also drops NaN
			in = append(in, t)
		}
	}
	return in
}
