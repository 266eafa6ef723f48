package drawing

import (
	"cmp"
	"slices"

	"example.com/loomfolio/layout/sheet"
	"example.com/loomfolio/sizing/harness"
)

// feed is a line of the overview: from a circuit's row to the heading of a rail.
type feed struct {
	circuit  harness.CircuitID
	from     sheet.Point // the row's right end
	column   int
	to       sheet.Point // the heading's left or right edge
	out, in  int         // gutters at both ends; one to the right of each column
	leftward bool        // enters at the right edge
}

// feeds gives the lines between the rails of a sheet.
func (s *sheets) feeds(page []rail) []feed {
	var out []feed
	for _, r := range page {
		if r.continued || r.part < 0 {
			continue
		}
		for _, c := range r.fedBy {
			src, x, ok := source(page, r.part, c)
			if !ok {
				continue
			}
			f := feed{circuit: c, column: src.column, out: src.column, in: r.column, leftward: true}
			f.from = sheet.Point{X: src.at.Right(), Y: x.y}
			f.to = sheet.Point{X: r.at.Right(), Y: r.at.Y + (r.pace.head-1)/2}
			if r.column > src.column {
				f.in, f.leftward, f.to.X = r.column-1, false, r.at.X
			}
			out = append(out, f)
		}
	}
	return out
}

// source is the first row of a circuit on a sheet, not on the rail that it feeds.
func source(page []rail, fed harness.PartID, c harness.CircuitID) (rail, row, bool) {
	for _, r := range page {
		for _, x := range r.rows {
			if x.circuit == c && r.part != fed {
				return r, x, true
			}
		}
	}
	return rail{}, row{}, false
}

// drawnOn tells whether a line on this sheet leads to a rail.
func (s *sheets) drawnOn(page []rail, r rail) bool {
	return slices.ContainsFunc(r.fedBy, func(c harness.CircuitID) bool {
		_, _, ok := source(page, r.part, c)
		return ok
	})
}

// between draws the lines of a sheet.
func (s *sheets) between(c *sheet.Canvas, page []rail, area sheet.Rect, wide float64) {
	g := gutters{feeds: s.feeds(page), area: area, wide: wide}
	for i, line := range g.least() {
		c.Polyline(line, sheet.Solid(1.8).In(sheet.White))
		c.Polyline(line, sheet.Rounded(0.5))
		arrowAt(c, g.feeds[i].to, g.feeds[i].leftward)
	}
}

// gutters leads the lines of a sheet. Each circuit has a track of its own in a
// gutter, and one above the columns where it has to pass some.
type gutters struct {
	feeds []feed
	area  sheet.Rect
	wide  float64
}

// least gives the lines in the order of tracks, of those tried, that crosses least:
// first the lower a row the further to the left, then with two circuits changed
// about for as long as that helps.
func (g gutters) least() [][]sheet.Point {
	var order []harness.CircuitID
	slices.SortStableFunc(g.feeds, func(a, b feed) int { return cmp.Compare(b.from.Y, a.from.Y) })
	for _, f := range g.feeds {
		if !slices.Contains(order, f.circuit) {
			order = append(order, f.circuit)
		}
	}
	best := g.lines(order)
	fewest := sheet.Crossings(best)
	for again := true; again; {
		again = false
		for i := range order {
			for j := range i {
				order[i], order[j] = order[j], order[i]
				lines := g.lines(order)
				if n := sheet.Crossings(lines); n < fewest {
					best, fewest, again = lines, n, true
					continue
				}
				order[i], order[j] = order[j], order[i]
			}
		}
	}
	return best
}

// lines gives the points of each line with the tracks in some order.
func (g gutters) lines(order []harness.CircuitID) [][]sheet.Point {
	track := g.tracks(order)
	at := func(gutterNo int, c harness.CircuitID) float64 {
		t := track[gutterNo]
		step := min(2.0, (gutter-4)/float64(len(t)))
		return g.area.X + float64(gutterNo)*(g.wide+gutter) + g.wide + 2 + step*(float64(slices.Index(t, c))+0.5)
	}
	var out [][]sheet.Point
	for _, f := range g.feeds {
		x := at(f.out, f.circuit)
		line := []sheet.Point{{X: f.from.X + 1, Y: f.from.Y}, {X: x, Y: f.from.Y}}
		if f.out != f.in {
			top := track[-1]
			y := g.area.Y + lanes - 2 - min(1.6, (lanes-2)/float64(len(top)))*float64(slices.Index(top, f.circuit))
			line = append(line, sheet.Point{X: x, Y: y})
			x = at(f.in, f.circuit)
			line = append(line, sheet.Point{X: x, Y: y})
		}
		out = append(out, append(line, sheet.Point{X: x, Y: f.to.Y}, f.to))
	}
	return out
}

// tracks gives the circuits in each gutter, and at -1 those above the columns, in
// their order.
func (g gutters) tracks(order []harness.CircuitID) map[int][]harness.CircuitID {
	out := map[int][]harness.CircuitID{}
	add := func(at int, c harness.CircuitID) {
		if !slices.Contains(out[at], c) {
			out[at] = append(out[at], c)
		}
	}
	for _, c := range order {
		for _, f := range g.feeds {
			if f.circuit != c {
				continue
			}
			add(f.out, c)
			add(f.in, c)
			if f.out != f.in {
				add(-1, c)
			}
		}
	}
	return out
}

// arrowAt is the head of a line that ends at a rail's heading.
func arrowAt(c *sheet.Canvas, p sheet.Point, leftward bool) {
	d := -2.2
	if leftward {
		d = 2.2
	}
	c.Polygon([]sheet.Point{p, {X: p.X + d, Y: p.Y - 1.1}, {X: p.X + d, Y: p.Y + 1.1}}, sheet.Filled(sheet.Ink))
}
