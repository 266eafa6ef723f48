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

// between draws the lines of a sheet. Each circuit has a track of its own in a
// gutter, and one above the columns where it has to pass some: the lower its row
// the further to the left, so that few cross.
func (s *sheets) between(c *sheet.Canvas, page []rail, area sheet.Rect, wide float64) {
	all := s.feeds(page)
	slices.SortStableFunc(all, func(a, b feed) int { return cmp.Compare(b.from.Y, a.from.Y) })
	track := s.tracks(all)
	edge := func(g int) float64 { return area.X + float64(g)*(wide+gutter) + wide }
	for _, f := range all {
		at := func(g int) float64 {
			t := track[g]
			step := min(2.0, (gutter-4)/float64(len(t)))
			return edge(g) + 2 + step*(float64(slices.Index(t, f.circuit))+0.5)
		}
		points := []sheet.Point{{X: f.from.X + 1, Y: f.from.Y}, {X: at(f.out), Y: f.from.Y}}
		if f.out != f.in {
			top := track[-1]
			y := area.Y + lanes - 2 - min(1.6, (lanes-2)/float64(len(top)))*float64(slices.Index(top, f.circuit))
			points = append(points, sheet.Point{X: at(f.out), Y: y}, sheet.Point{X: at(f.in), Y: y})
		}
		points = append(points, sheet.Point{X: at(f.in), Y: f.to.Y}, f.to)
		c.Polyline(points, sheet.Solid(1.8).In(sheet.White))
		c.Polyline(points, sheet.Rounded(0.5))
		arrowAt(c, f.to, f.leftward)
	}
}

// tracks gives the circuits in each gutter, and at -1 those above the columns, in
// the order of their tracks.
func (s *sheets) tracks(all []feed) map[int][]harness.CircuitID {
	out := map[int][]harness.CircuitID{}
	add := func(g int, c harness.CircuitID) {
		if !slices.Contains(out[g], c) {
			out[g] = append(out[g], c)
		}
	}
	for _, f := range all {
		add(f.out, f.circuit)
		add(f.in, f.circuit)
		if f.out != f.in {
			add(-1, f.circuit)
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
