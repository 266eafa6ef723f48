package tradeoff

import (
	"fmt"
	"math"
	"slices"

	"example.com/loomfolio/layout/page"
	"example.com/loomfolio/layout/sheet"
	"example.com/loomfolio/layout/typeface"
)

// Sizes of the picture, mm.
const (
	leastHigh  = 42.0 // of the picture
	mostHigh   = 60.0
	axisAir    = 0.06 // clear at the ends of an axis, as a share of its range
	axisLeft   = 9.0  // figures of the upright axis
	axisFoot   = 13.0 // figures and name of the other, and the key of signs
	axisHead   = 5.0  // name of the upright axis
	axisRight  = 3.0
	tickLong   = 1.0
	pointApart = 0.5 // clear round a label
)

// chart is the picture being drawn: reels upward, copper to the right.
type chart struct {
	Sheet
	c     *sheet.Canvas
	plot  sheet.Rect
	x, y  scale
	taken []sheet.Rect // by signs and labels
}

// scale is an axis: the range that it shows and where its figures stand.
type scale struct {
	low, high float64
	ticks     []float64
}

// ChartHigh is the height in mm of the picture beside rows that are so high, 0 where it would have too few points.
func (s Sheet) ChartHigh(rows float64) float64 {
	if len(s.points()) < leastPoints {
		return 0
	}
	return math.Max(leastHigh, math.Min(rows, mostHigh))
}

// Chart draws the choices, each with its number of sizes, in an area of ChartHigh.
func (s Sheet) Chart(c *sheet.Canvas, r sheet.Rect) {
	points := s.points()
	d := &chart{Sheet: s, c: c, plot: sheet.Rect{X: r.X + axisLeft, Y: r.Y + axisHead, W: r.W - axisLeft - axisRight, H: r.H - axisHead - axisFoot}}
	d.scaled(points)
	d.axes(r)
	d.least()
	slices.SortStableFunc(points, func(a, b point) int { return a.rank() - b.rank() })
	for _, p := range points {
		d.sign(p)
	}
	for _, p := range points {
		d.label(p)
	}
	key(c, r, points)
}

// The ranks of points.
const (
	rankTaken = iota
	rankWeighed
	rankRefused
)

// rank orders points by how much their labels matter.
func (p point) rank() int {
	switch {
	case p.taken:
		return rankTaken
	case p.refused():
		return rankRefused
	}
	return rankWeighed
}

// scaled sets the axes such that all points lie within: reels from none on.
func (d *chart) scaled(points []point) {
	low, high, most := math.Inf(1), 0.0, 0.0
	for _, p := range points {
		low, high = math.Min(low, d.mass(p.Copper)), math.Max(high, d.mass(p.Copper))
		most = math.Max(most, float64(p.Reels))
	}
	if least := d.mass(d.P.Least); least > 0 {
		low = math.Min(low, least)
	}
	air := (high - low) * axisAir
	d.x, d.y = scaleOf(math.Max(0, low-air), high+air, 6), scaleOf(0, most*(1+axisAir), 5)
}

// scaleOf is an axis over a range, with figures at about so many even steps within it.
func scaleOf(low, high float64, steps int) scale {
	if high-low < high*1e-3 || high <= low {
		low, high = low*0.95, math.Max(high*1.05, 1)
	}
	s, step := scale{low: low, high: high}, stepOf((high-low)/float64(steps))
	for i := math.Max(0, math.Ceil(low/step-1e-9)); i*step <= high*(1+1e-9); i++ {
		s.ticks = append(s.ticks, i*step)
	}
	return s
}

// stepOf is the least of 1, 2 and 5 times a power of ten that is no less than a step.
func stepOf(step float64) float64 {
	ten := math.Pow(10, math.Floor(math.Log10(step)))
	for _, n := range []float64{1, 2, 5} {
		if n*ten >= step*(1-1e-9) {
			return n * ten
		}
	}
	return 10 * ten
}

func (s scale) at(v float64) float64 { return (v - s.low) / (s.high - s.low) }

// figure prints a tick with as many places as the steps need.
func (s scale) figure(v float64) string { return page.Trimmed(math.Round(v*1e6)/1e6, 3) }

func (d *chart) spot(copper, reels float64) sheet.Point {
	return sheet.Point{X: d.plot.X + d.plot.W*d.x.at(copper), Y: d.plot.Bottom() - d.plot.H*d.y.at(reels)}
}

func (d *chart) spotOf(p point) sheet.Point { return d.spot(d.mass(p.Copper), float64(p.Reels)) }

// axes draws both with their figures and names.
func (d *chart) axes(r sheet.Rect) {
	small := page.Quiet()
	for _, v := range d.y.ticks {
		at := d.spot(d.x.low, v)
		d.c.Line(at.X-tickLong, at.Y, at.X, at.Y, sheet.Solid(sheet.Thin))
		d.c.Text(at.X-tickLong-0.6, at.Y+sheet.SizeNote*typeface.CapHeight/2, d.y.figure(v), small.At(sheet.Right))
	}
	for _, v := range d.x.ticks {
		at := d.spot(v, d.y.low)
		d.c.Line(at.X, at.Y, at.X, at.Y+tickLong, sheet.Solid(sheet.Thin))
		d.c.Text(at.X, at.Y+tickLong+0.8+sheet.SizeNote*typeface.CapHeight, d.x.figure(v), small.At(sheet.Centre))
	}
	d.c.Line(d.plot.X, d.plot.Y, d.plot.X, d.plot.Bottom(), sheet.Solid(sheet.Thin))
	d.c.Line(d.plot.X, d.plot.Bottom(), d.plot.Right(), d.plot.Bottom(), sheet.Solid(sheet.Thin))
	d.c.Text(r.X, r.Y+sheet.SizeNote*typeface.CapHeight, "Reels", sheet.Strong(sheet.SizeNote))
	d.c.Text(d.plot.Right(), r.Y+sheet.SizeNote*typeface.CapHeight, "figures at the points: sizes", small.At(sheet.Right))
	d.c.Text(d.plot.Right(), d.plot.Bottom()+7.2, "Copper, "+d.massUnit(), sheet.Strong(sheet.SizeNote).At(sheet.Right))
}

// least marks the copper of the loom with each wire in its own least size.
func (d *chart) least() {
	copper := d.mass(d.P.Least)
	if copper <= 0 {
		return
	}
	foot := d.spot(copper, d.y.low)
	d.c.Line(foot.X, foot.Y, foot.X, d.plot.Y, sheet.Dashed(sheet.Thin, 1.2, 0.9))
	d.taken = append(d.taken, sheet.Rect{X: foot.X, Y: d.plot.Y, H: d.plot.H}.Inset(-sheet.Thin))
	d.c.Text(d.plot.X, foot.Y+7.2, "broken line: least copper", page.Quiet())
}

func (d *chart) sign(p point) {
	at := d.spotOf(p)
	p.draw(d.c, at)
	d.taken = append(d.taken, sheet.Rect{X: at.X, Y: at.Y}.Inset(-signTaken))
}

// label sets the number of sizes beside a point, where nothing else stands; where there is no such place the
// row alone tells it.
func (d *chart) label(p point) {
	text, style := fmt.Sprint(len(p.Sizes)), sheet.Plain(sheet.SizeNote)
	if p.taken {
		style = sheet.Strong(sheet.SizeBody)
	}
	w, h := typeface.Width(text, style.Face, style.Size), style.Size*typeface.CapHeight
	at := d.spotOf(p)
	const off = signTaken + pointApart
	for _, by := range [][2]float64{{1, -1}, {-1, -1}, {1, 1}, {-1, 1}, {0, -1}, {0, 1}, {1, 0}, {-1, 0}} {
		box := sheet.Rect{X: at.X + by[0]*(off+w/2) - w/2, Y: at.Y + by[1]*(off+h/2) - h/2, W: w, H: h}
		if d.labelled().Holds(box) && d.free(box.Inset(-pointApart/2)) {
			d.c.Text(box.X, box.Bottom(), text, style)
			d.taken = append(d.taken, box)
			return
		}
	}
}

// labelled is where labels may stand: clear of the axes.
func (d *chart) labelled() sheet.Rect {
	r := d.plot
	return sheet.Rect{X: r.X + pointApart, Y: r.Y - 1, W: r.W - pointApart + axisRight, H: r.H + 1 - pointApart}
}

func (d *chart) free(box sheet.Rect) bool {
	return !slices.ContainsFunc(d.taken, box.Meets)
}

// key tells the signs that there are apart, at the foot of the picture.
func key(c *sheet.Canvas, r sheet.Rect, points []point) {
	x, y := r.X+axisLeft, r.Bottom()-1.2
	for _, k := range []struct {
		rank int
		text string
	}{{rankTaken, "taken"}, {rankWeighed, "weighed"}, {rankRefused, "refused"}} {
		i := slices.IndexFunc(points, func(p point) bool { return p.rank() == k.rank })
		if i < 0 {
			continue
		}
		points[i].draw(c, sheet.Point{X: x + signTaken, Y: y - sheet.SizeNote*typeface.CapHeight/2})
		c.Text(x+2*signTaken+1, y, k.text, page.Quiet())
		x += 2*signTaken + 1 + typeface.Width(k.text, sheet.Regular, sheet.SizeNote) + 4
	}
}
