package sheet

import "math"

// Canvas gathers marks. Its zero value is ready; later marks lie on top.
type Canvas struct{ Marks []Mark }

// Add puts marks on top.
func (c *Canvas) Add(marks ...Mark) { c.Marks = append(c.Marks, marks...) }

// Text sets one line with its base line at x, y. An empty line adds nothing.
func (c *Canvas) Text(x, y float64, s string, st Style) {
	if s == "" {
		return
	}
	c.Add(Text{X: x, Y: y, Size: st.Size, Face: st.Face, Align: st.Align, Colour: st.Colour, Turn: st.Turn, S: s})
}

// Line draws from one place to another.
func (c *Canvas) Line(x1, y1, x2, y2 float64, s Stroke) {
	c.Polyline([]Point{{x1, y1}, {x2, y2}}, s)
}

// Polyline draws an open line through points; fewer than two add nothing.
func (c *Canvas) Polyline(points []Point, s Stroke) {
	if len(points) > 1 {
		c.Add(through(points, false, Outline(s)))
	}
}

// Polygon draws a closed outline through points; fewer than three add nothing.
func (c *Canvas) Polygon(points []Point, p Paint) {
	if len(points) > 2 {
		c.Add(through(points, true, p))
	}
}

func through(points []Point, closed bool, p Paint) Path {
	path := Path{Start: points[0], Closed: closed, Stroke: p.Stroke, Fill: p.Fill}
	for _, q := range points[1:] {
		path.Segs = append(path.Segs, Seg{P: q})
	}
	return path
}

// Rect draws a rectangle from its top left corner.
func (c *Canvas) Rect(x, y, w, h float64, p Paint) {
	c.Polygon([]Point{{x, y}, {x + w, y}, {x + w, y + h}, {x, y + h}}, p)
}

// RoundRect draws a rectangle with corners of radius r, cut to half the shorter side.
func (c *Canvas) RoundRect(x, y, w, h, r float64, p Paint) {
	r = math.Min(r, math.Min(w, h)/2)
	if r <= 0 {
		c.Rect(x, y, w, h, p)
		return
	}
	path := Path{Start: Point{x + r, y}, Closed: true, Stroke: p.Stroke, Fill: p.Fill}
	side := func(to Point, cx, cy, from float64) {
		if last := path.end(); math.Hypot(to.X-last.X, to.Y-last.Y) > 1e-9 { // a line of no length would spoil the join
			path.Segs = append(path.Segs, Seg{P: to})
		}
		path.Segs = append(path.Segs, arc(cx, cy, r, r, from, from-90)...)
	}
	side(Point{x + w - r, y}, x+w-r, y+r, 90)
	side(Point{x + w, y + h - r}, x+w-r, y+h-r, 0)
	side(Point{x + r, y + h}, x+r, y+h-r, -90)
	side(Point{x, y + r}, x+r, y+r, -180)
	c.Add(path)
}

func (p Path) end() Point {
	if n := len(p.Segs); n > 0 {
		return p.Segs[n-1].P
	}
	return p.Start
}

// Circle draws a circle about cx, cy.
func (c *Canvas) Circle(cx, cy, r float64, p Paint) { c.Ellipse(cx, cy, r, r, p) }

// Ellipse draws an upright ellipse about cx, cy with half axes rx, ry.
func (c *Canvas) Ellipse(cx, cy, rx, ry float64, p Paint) {
	c.Add(Path{Start: Point{cx + rx, cy}, Segs: arc(cx, cy, rx, ry, 0, 360), Closed: true, Stroke: p.Stroke, Fill: p.Fill})
}

// Arc draws part of a circle, in degrees counter-clockwise from the right hand;
// it runs clockwise when to is below from.
func (c *Canvas) Arc(cx, cy, r, from, to float64, s Stroke) {
	c.Add(Path{Start: onCircle(cx, cy, r, r, from), Segs: arc(cx, cy, r, r, from, to), Stroke: &s})
}

// Link makes a rectangle lead to an anchor.
func (c *Canvas) Link(r Rect, target string) { c.Add(Link{r.X, r.Y, r.W, r.H, target}) }

// Anchor marks a place that links lead to.
func (c *Canvas) Anchor(name string, x, y float64) { c.Add(Anchor{name, x, y}) }

func onCircle(cx, cy, rx, ry, deg float64) Point {
	sin, cos := math.Sincos(deg * math.Pi / 180)
	return Point{cx + rx*cos, cy - ry*sin}
}

// arc gives curves of at most a quarter turn; the control points lie on the
// tangents at 4/3·tan(angle/4), which strays from the circle by 0.03 % of the radius.
func arc(cx, cy, rx, ry, from, to float64) []Seg {
	n := int(math.Ceil(math.Abs(to-from)/90 - 1e-9))
	step := (to - from) / float64(max(n, 1))
	k := 4.0 / 3 * math.Tan(step*math.Pi/720)
	var segs []Seg
	for i := range n {
		a, b := from+float64(i)*step, from+float64(i+1)*step
		p, q := onCircle(cx, cy, rx, ry, a), onCircle(cx, cy, rx, ry, b)
		c1 := Point{p.X - k*rx*math.Sin(a*math.Pi/180), p.Y - k*ry*math.Cos(a*math.Pi/180)}
		c2 := Point{q.X + k*rx*math.Sin(b*math.Pi/180), q.Y + k*ry*math.Cos(b*math.Pi/180)}
		segs = append(segs, Seg{P: q, C1: &c1, C2: &c2})
	}
	return segs
}
