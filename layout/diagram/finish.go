package diagram

import (
	"math"
	"slices"
)

// finish places the columns and channels across and draws the paths.
func (b *board) finish() *Layout {
	l := &Layout{Nodes: make([]Point, len(b.g.Nodes)), Wires: slices.Clone(b.wires), Columns: len(b.columns)}
	channels := make([]channel, len(b.columns)+1) // channel c is at c+1
	for i := range channels {
		channels[i] = b.route(i - 1)
	}
	widths := b.columnWidths()
	l.W = b.across(channels, widths)
	b.placeNodes(l, channels, widths)
	l.Paths = make([][]Point, len(b.wires))
	for i := range b.segs {
		b.trace(l, channels, i)
	}
	for i := range l.Paths {
		l.Paths[i] = tidy(l.Paths[i])
		l.Bends += len(l.Paths[i]) - 2
	}
	b.placeFlags(l, channels)
	l.measure()
	l.Fits = l.W <= b.r.W+1e-6 && l.H <= b.r.H+1e-6
	return l
}

func (b *board) columnWidths() []float64 {
	widths := make([]float64, len(b.columns))
	for _, it := range b.items {
		widths[it.column] = math.Max(widths[it.column], it.w)
	}
	return widths
}

// leastWidth is the width of the columns and of the flags between them.
func (b *board) leastWidth() float64 {
	sum := 0.0
	for _, w := range b.columnWidths() {
		sum += w
	}
	for c := -1; c < len(b.columns); c++ {
		ch := channel{}
		for _, s := range b.segs {
			if s.channel == c {
				ch.zoneL, ch.zoneR = math.Max(ch.zoneL, b.r.Stub), math.Max(ch.zoneR, b.r.Stub)
				b.reserve(&ch, s)
			}
		}
		sum += ch.zoneL + ch.zoneR
	}
	return sum
}

// across sets the x of every channel and spreads what is left of the room.
func (b *board) across(channels []channel, widths []float64) float64 {
	total := 0.0
	wide := 0
	for i := range channels {
		ch := &channels[i]
		outer := i == 0 || i == len(channels)-1
		if outer && !b.opens(i-1) {
			ch.zoneL, ch.zoneR = 0, 0
		} else if !outer {
			wide++
		}
		ch.width = ch.zoneL + float64(ch.tracks)*b.r.Track + ch.zoneR
		total += ch.width
	}
	for _, w := range widths {
		total += w
	}
	if left := b.r.W - total; left > 0 && wide > 0 {
		for i := 1; i < len(channels)-1; i++ {
			channels[i].spread = left / float64(wide)
		}
		total = b.r.W
	}
	x := 0.0
	for i := range channels {
		channels[i].x = x
		x += channels[i].width + channels[i].spread
		if i < len(widths) {
			x += widths[i]
		}
	}
	return total
}

func (b *board) opens(c int) bool {
	for _, s := range b.segs {
		if s.channel == c {
			return true
		}
	}
	return false
}

func (b *board) placeNodes(l *Layout, channels []channel, widths []float64) {
	for i, n := range b.g.Nodes {
		it := b.items[b.itemOf[i]]
		x := channels[it.column].x + channels[it.column].width + channels[it.column].spread
		free := widths[it.column] - n.W
		switch n.Column {
		case Free:
			x += free / 2
		case Last:
			x += free
		}
		l.Nodes[i] = Point{x, it.y + it.up}
	}
	for _, it := range b.items {
		l.H = math.Max(l.H, it.y+it.h)
	}
}

// trackX is the x of a track: half of the spread lies to the left of the tracks.
func (b *board) trackX(ch channel, track int) float64 {
	return ch.x + ch.zoneL + ch.spread/2 + (float64(track)+0.5)*b.r.Track
}

// trace adds a segment's points to its wire's path.
func (b *board) trace(l *Layout, channels []channel, i int) {
	s := b.segs[i]
	ch := channels[s.channel+1]
	path := &l.Paths[s.wire]
	if s.from.pin >= 0 {
		*path = append(*path, b.pinAt(l, s.from))
	}
	first, second := ch.find(i)
	ends := []Point{{0, b.yOf(s.from)}, {0, b.yOf(s.to)}}
	switch {
	case second != nil:
		*path = append(*path, b.detour(ch, s, *first, *second)...)
	case first != nil:
		x := b.trackX(ch, first.track)
		*path = append(*path, Point{x, ends[0].Y}, Point{x, ends[1].Y})
	}
	if s.to.pin >= 0 {
		*path = append(*path, b.pinAt(l, s.to))
	}
}

// detour gives the four corners of a wire led in two steps, in its direction.
func (b *board) detour(ch channel, s segment, first, second run) []Point {
	x1, x2 := b.trackX(ch, first.track), b.trackX(ch, second.track)
	out := []Point{{x1, first.left[0]}, {x1, first.right[0]}, {x2, second.left[0]}, {x2, second.right[0]}}
	if !s.fromL {
		out[0], out[1], out[2], out[3] = out[3], out[2], out[1], out[0]
	}
	return out
}

func (c channel) find(seg int) (first, second *run) {
	for i := range c.runs {
		switch {
		case c.runs[i].seg != seg:
		case c.runs[i].second:
			second = &c.runs[i]
		default:
			first = &c.runs[i]
		}
	}
	return first, second
}

func (b *board) pinAt(l *Layout, p place) Point {
	n := b.items[p.item].node
	return Point{l.Nodes[n].X + b.g.Nodes[n].Pins[p.pin].X, b.yOf(p)}
}

// tidy drops repeated points and those in the middle of a straight piece.
func tidy(path []Point) []Point {
	var out []Point
	for _, p := range path {
		if n := len(out); n > 0 && same(out[n-1], p) {
			continue
		}
		if n := len(out); n > 1 && inLine(out[n-2], out[n-1], p) {
			out[n-1] = p
			continue
		}
		out = append(out, p)
	}
	return out
}

func same(a, b Point) bool { return math.Abs(a.X-b.X) < 1e-6 && math.Abs(a.Y-b.Y) < 1e-6 }

func inLine(a, b, c Point) bool {
	level := math.Abs(a.Y-b.Y) < 1e-6 && math.Abs(b.Y-c.Y) < 1e-6 && (b.X-a.X)*(c.X-b.X) >= 0
	plumb := math.Abs(a.X-b.X) < 1e-6 && math.Abs(b.X-c.X) < 1e-6 && (b.Y-a.Y)*(c.Y-b.Y) >= 0
	return level || plumb
}

// placeFlags lays each flag on the first level stretch of its wire.
func (b *board) placeFlags(l *Layout, channels []channel) {
	l.Flags = make([]Rect, len(b.wires))
	for _, s := range b.segs {
		if s.flag {
			l.Flags[s.wire] = b.flagOf(l, channels[s.channel+1], s)
		}
	}
}

func (b *board) flagOf(l *Layout, ch channel, s segment) Rect {
	start, w := b.pinAt(l, s.from), b.g.Wires[s.wire].Flag
	lo, hi := b.rim(l, s.from, s.fromL), ch.x+ch.zoneL+ch.spread/2
	if !s.fromL {
		lo, hi = ch.x+ch.width+ch.spread/2-ch.zoneR, lo
	}
	if b.straight(s) && b.quiet(ch, start.Y) {
		lo, hi = ch.x, ch.x+ch.width+ch.spread
		lo, hi = b.inset(l, s, lo, hi)
	}
	return Rect{(lo + hi - w) / 2, start.Y - b.r.FlagUp, w, b.r.FlagUp + b.r.FlagDown}
}

// rim is the x at which a wire leaves the footprint of the tile that it begins or ends on.
func (b *board) rim(l *Layout, p place, right bool) float64 {
	n := b.items[p.item].node
	if right {
		return l.Nodes[n].X + b.g.Nodes[n].W
	}
	return l.Nodes[n].X
}

// inset narrows a stretch to between the wire's own tiles where it has them here.
func (b *board) inset(l *Layout, s segment, lo, hi float64) (float64, float64) {
	for _, e := range []struct {
		p    place
		left bool
	}{{s.from, s.fromL}, {s.to, s.toL}} {
		switch {
		case e.p.pin < 0:
		case e.left:
			lo = b.rim(l, e.p, true)
		default:
			hi = b.rim(l, e.p, false)
		}
	}
	return lo, hi
}

// quiet tells whether nothing in the channel's tracks comes near a flag at y.
func (b *board) quiet(ch channel, y float64) bool {
	for _, r := range ch.runs {
		if r.lo < y+b.r.FlagDown+1 && r.hi > y-b.r.FlagUp-1 {
			return false
		}
	}
	return true
}
