package chart

import (
	"math"
	"slices"

	"example.com/loomfolio/layout/diagram/track"
	"example.com/loomfolio/layout/sheet"
)

// Widths in the channels of a chart, mm.
const (
	stub      = 2.4 // level at a tile
	flagHigh  = 2.6 // height of a flag
	aside     = 0.5 // clear before and behind a flag
	flagClear = 0.5 // clear above and below it
	groupSide = 3.0 // least from a tile to the side of its group
	outerSide = 4.0 // least of the outer channels
)

// crossing is a line's piece in one channel: from its stop i to the next.
type crossing struct{ line, i int }

// gutter is a channel of a chart with its upright pieces in order from left to right.
type gutter struct {
	pieces []crossing
	runs   []track.Run
	flags  [2][]flagSpot // at its left and right edge
	x      float64
	width  float64
	tracks []float64 // of the runs, from the left edge
}

// flagSpot is a flag's height and how far it reaches into a channel.
type flagSpot struct{ y, reach float64 }

// leastWidth is the width of the columns and the least between them, flags counted.
func (s *scene) leastWidth() float64 {
	between := make([]float64, len(s.bandAt)+1)
	for c := range between {
		between[c] = 2*groupSide + 1
	}
	between[0], between[len(between)-1] = outerSide, outerSide
	for i, l := range s.c.Lines {
		if l.Flag > 0 {
			c := s.flagged(i, s.ways[i].flagAt).channel
			between[c] = math.Max(between[c], l.Flag+2*aside+1)
		}
	}
	return sum(between) + sum(s.widths())
}

func sum(of []float64) (s float64) {
	for _, x := range of {
		s += x
	}
	return s
}

// lay settles the heights, routes the channels and sets all down; what is too high or too wide
// is left as it is.
func (s *scene) lay() *Layout {
	l := &Layout{}
	if !s.settle() {
		return l
	}
	l.H = float64(s.tall) * step
	gutters := s.gutters()
	l.W = s.across(gutters, 0)
	if s.room.Tight {
		l.W = s.squeeze(gutters, s.room.W)
	}
	if l.Fits = l.W <= s.room.W+1e-6; !l.Fits {
		return l
	}
	if !math.IsInf(s.room.W, 0) {
		l.W = s.across(gutters, s.room.W-l.W)
	}
	for i := range gutters {
		gutters[i].set(i == 0, i == len(gutters)-1)
	}
	s.setDown(l, gutters)
	for i := range s.ways {
		l.Paths = append(l.Paths, s.trace(i, gutters))
		l.Flags = append(l.Flags, s.flag(i, gutters))
	}
	l.Crossings = sheet.Crossings(l.Paths)
	return l
}

// gutters are the channels, each with its upright pieces in order.
func (s *scene) gutters() []gutter {
	out := make([]gutter, len(s.bandAt)+1)
	for i, w := range s.ways {
		for k, c := range w.channels {
			out[c].pieces = append(out[c].pieces, crossing{i, k})
		}
		if s.c.Lines[i].Flag > 0 {
			b := s.flagged(i, w.flagAt)
			spot := flagSpot{s.height(i, w.flagAt*(len(w.stops)-1)), s.c.Lines[i].Flag + 2*aside}
			out[b.channel].flags[b.side] = append(out[b.channel].flags[b.side], spot)
		}
	}
	for c := range out {
		out[c].runs = s.route(out[c].pieces, c)
		out[c].shorten(math.Inf(1))
	}
	return out
}

// route puts the upright pieces of a channel in order from left to right.
func (s *scene) route(all []crossing, c int) []track.Run {
	var runs []track.Run
	var level []float64
	for k, x := range all {
		y1, y2 := s.height(x.line, x.i), s.height(x.line, x.i+1)
		level = append(level, y1, y2)
		left, right := []float64{y1}, []float64{y2}
		w := s.ways[x.line]
		switch {
		case s.bends(w) && c > s.column[w.stops[0]]:
			left, right = []float64{y1, y2}, nil
		case s.bends(w):
			left, right = nil, []float64{y1, y2}
		case y1 == y2:
			continue
		}
		runs = append(runs, track.New(k, left, right))
	}
	return track.Arrange(track.Untie(runs, level, Pitch, near), near)
}

// bends tells a line that begins and ends in one column.
func (s *scene) bends(w way) bool {
	return s.column[w.stops[0]] == s.column[w.stops[len(w.stops)-1]]
}

// height is at in mm.
func (s *scene) height(line, i int) float64 { return float64(s.at(line, i)) * step }

// least are the tracks as far to the left as flags and their order allow, so far apart.
func (g *gutter) least(pitch float64) []float64 {
	out := make([]float64, len(g.runs))
	for i, r := range g.runs {
		out[i] = clearOf(r, g.flags[0])
		for j, o := range g.runs[:i] {
			if bars(o, r) {
				out[i] = math.Max(out[i], out[j]+pitch)
			}
		}
	}
	return out
}

// most are the tracks' distances from the right edge, as near to it as may be.
func (g *gutter) most(pitch float64) []float64 {
	out := make([]float64, len(g.runs))
	for i := len(g.runs) - 1; i >= 0; i-- {
		r := g.runs[i]
		out[i] = clearOf(r, g.flags[1])
		for j := i + 1; j < len(g.runs); j++ {
			if bars(r, g.runs[j]) {
				out[i] = math.Max(out[i], out[j]+pitch)
			}
		}
	}
	return out
}

// clearOf is how far a run has to keep from an edge for the flags there.
func clearOf(r track.Run, flags []flagSpot) float64 {
	const half = flagHigh/2 + flagClear
	d := stub
	for _, f := range flags {
		if f.y > r.Lo-half && f.y < r.Hi+half {
			d = math.Max(d, f.reach+aside)
		}
	}
	return d
}

// bars tells whether a run has to lie to the left of a later one.
func bars(r, o track.Run) bool {
	return precedes(r, o) || overlaps(r, o)
}

// narrow is the least width of a channel.
func (g *gutter) narrow(pitch float64) float64 {
	w := 0.0
	left, right := g.least(pitch), g.most(pitch)
	for i := range g.runs {
		w = math.Max(w, left[i]+right[i])
	}
	for side, flags := range g.flags {
		for _, f := range flags {
			w = math.Max(w, f.reach+stub)
			for _, o := range g.flags[1-side] {
				if math.Abs(f.y-o.y) < flagHigh+flagClear {
					w = math.Max(w, f.reach+o.reach)
				}
			}
		}
	}
	return w
}

// set puts the tracks in the middle of what they may take, as far apart as the width allows; in
// the outer channels as near to the tiles as may be.
func (g *gutter) set(first, last bool) {
	const pitch = lineApart * step
	for _, wide := range []float64{2, 1.75, 1.5, 1.25, 1} {
		if wide > 1 && g.narrow(wide*pitch) > g.width+1e-9 {
			continue
		}
		left, right := g.least(wide*pitch), g.most(wide*pitch)
		for i := range left {
			switch {
			case first:
				left[i] = g.width - right[i]
			case !last:
				left[i] = (left[i] + g.width - right[i]) / 2
			}
		}
		g.tracks = left
		return
	}
}

func (s *scene) widths() []float64 {
	out := make([]float64, len(s.bandAt))
	for i, t := range s.c.Tiles {
		out[s.column[i]] = math.Max(out[s.column[i]], t.W)
	}
	for g, name := range s.c.Groups {
		c := s.first[s.bandOf[g]]
		out[c] = math.Max(out[c], name.W)
	}
	return out
}

// across sets the x and the width of each channel, with spare width shared out, and gives the whole.
func (s *scene) across(gutters []gutter, spare float64) float64 {
	widths := s.widths()
	x := 0.0
	inner := float64(max(len(gutters)-2, 1))
	for i := range gutters {
		g := &gutters[i]
		g.x = x
		g.width = math.Max(g.narrow(Pitch), 2*groupSide+1)
		if i == 0 || i == len(gutters)-1 {
			g.width = math.Max(g.narrow(Pitch)-stub+1, outerSide)
		} else {
			g.width += spare / inner
		}
		x += g.width
		if i < len(widths) {
			x += widths[i]
		}
	}
	return x
}

// setDown places tiles and groups.
func (s *scene) setDown(l *Layout, gutters []gutter) {
	widths := s.widths()
	left := func(c int) float64 { return gutters[c].x + gutters[c].width }
	for i := range s.c.Tiles {
		c := s.column[i]
		l.Tiles = append(l.Tiles, sheet.Rect{X: left(c), Y: float64(s.stops[i].y) * step, W: widths[c], H: float64(s.stops[i].h) * step})
	}
	for g := range s.c.Groups {
		first := s.first[s.bandOf[g]]
		last := first + s.deep[s.bandOf[g]] - 1
		from := left(first) - gutters[first].margin(1)
		to := left(last) + widths[last] + gutters[last+1].margin(0)
		l.Groups = append(l.Groups, sheet.Rect{X: from, Y: float64(s.tops[g]) * step, W: to - from, H: float64(s.highs[g]) * step})
		l.Names = append(l.Names, sheet.Point{X: left(first), Y: float64(s.tops[g]) * step})
	}
}

// margin is how far a group reaches into a channel: over its flags, as far as the group at
// the other edge lets it.
func (g *gutter) margin(side int) float64 {
	want := [2]float64{groupSide, groupSide}
	for i, flags := range g.flags {
		for _, f := range flags {
			want[i] = math.Max(want[i], f.reach+1)
		}
	}
	if over := want[0] + want[1] + 2 - g.width; over > 0 {
		if want[0] > want[1] {
			want[0] = math.Max(groupSide, want[0]-over)
		} else {
			want[1] = math.Max(groupSide, want[1]-over)
		}
	}
	return math.Min(want[side], math.Max(g.width-groupSide-1, groupSide))
}

// trace gives the points of a line from its From to its To.
func (s *scene) trace(line int, gutters []gutter) []sheet.Point {
	w := s.ways[line]
	var out []sheet.Point
	for i, c := range w.channels {
		out = append(out, s.piece(crossing{line, i}, c, gutters[c])...)
	}
	if w.turned {
		slices.Reverse(out)
	}
	return track.Tidy(out)
}

// piece gives a line's points in one channel, from the left.
func (s *scene) piece(p crossing, c int, g gutter) []sheet.Point {
	w := s.ways[p.line]
	y1, y2 := s.height(p.line, p.i), s.height(p.line, p.i+1)
	x1, x2 := g.x, g.x+g.width
	switch {
	case s.bends(w) && c > s.column[w.stops[0]]:
		x2 = x1
	case s.bends(w):
		x1 = x2
	}
	out := []sheet.Point{{X: x1, Y: y1}}
	k, y := slices.Index(g.pieces, p), y1
	for _, second := range []bool{false, true} {
		at := slices.IndexFunc(g.runs, func(r track.Run) bool { return r.Seg == k && r.Second == second })
		if at < 0 {
			continue
		}
		x, to := g.x+g.tracks[at], y2
		if g.runs[at].Half {
			to = g.runs[at].Right[0]
		}
		out = append(out, sheet.Point{X: x, Y: y}, sheet.Point{X: x, Y: to})
		y = to
	}
	return append(out, sheet.Point{X: x2, Y: y2})
}

// flag is where a line's flag lies, beside the tile at one of its ends.
func (s *scene) flag(line int, gutters []gutter) sheet.Rect {
	w := s.ways[line]
	wide := s.c.Lines[line].Flag
	if wide == 0 {
		return sheet.Rect{}
	}
	b := s.flagged(line, w.flagAt)
	g := gutters[b.channel]
	r := sheet.Rect{X: g.x + aside, Y: s.height(line, w.flagAt*(len(w.stops)-1)) - flagHigh/2, W: wide, H: flagHigh}
	if b.side == 1 {
		r.X = g.x + g.width - aside - wide
	}
	return r
}
