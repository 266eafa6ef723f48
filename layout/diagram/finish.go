package diagram

import (
	"math"
	"slices"

	"example.com/loomfolio/layout/diagram/track"
	"example.com/loomfolio/layout/sheet"
)

// finish routes the channels and sets all down, at most spread as the rules allow.
func (b *board) finish() *Layout {
	b.normalise()
	b = b.still()
	l := &Layout{Wires: b.wires, Columns: len(b.columns), board: b}
	l.channels = make([]channel, len(b.columns)+1) // channel c is at c+1
	for i := range l.channels {
		l.channels[i] = b.route(i - 1)
	}
	l.Least = b.taken(l.channels)
	l.W = b.across(l.channels, math.Min(l.Least+b.r.Spread*float64(len(b.columns)-1), b.r.W))
	l.setDown()
	for _, path := range l.Paths {
		l.Bends += len(path) - 2
	}
	l.Crossings = sheet.Crossings(l.Paths)
	l.Fits = l.W <= b.r.W+1e-6 && l.H <= b.r.H+1e-6
	return l
}

// still is the board as it stands, whatever is tried on b afterwards.
func (b *board) still() *board {
	s := *b
	s.items, s.segs, s.wires = slices.Clone(b.items), slices.Clone(b.segs), slices.Clone(b.wires)
	return &s
}

// setDown places the tiles, paths and flags in the channels as they lie.
func (l *Layout) setDown() {
	b := l.board
	l.Nodes = make([]Point, len(b.g.Nodes))
	b.placeNodes(l, l.channels)
	l.Paths = make([][]Point, len(b.wires))
	for i := range b.segs {
		b.trace(l, l.channels, i)
	}
	for i := range l.Paths {
		l.Paths[i] = track.Tidy(l.Paths[i])
	}
	b.placeFlags(l, l.channels)
}

// Wide gives the layout spread to a width, at least to Least; what could not be
// laid out stays as it is.
func (l *Layout) Wide(w float64) *Layout {
	if l.board == nil || math.Abs(w-l.W) < 1e-6 {
		return l
	}
	wide := *l
	wide.channels = slices.Clone(l.channels)
	wide.W = l.board.across(wide.channels, w)
	wide.setDown()
	return &wide
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
	for _, w := range b.widths {
		sum += w
	}
	between := make([]float64, len(b.columns)+1)
	for _, s := range b.segs {
		if s.flag != noFlag && s.fromL != s.toL {
			need := b.g.Wires[s.wire].Flag + 2*flagAside - b.nook(s.from) - b.nook(s.to)
			between[s.channel+1] = math.Max(between[s.channel+1], need)
		}
	}
	for i := 1; i < len(b.columns); i++ {
		sum += math.Max(between[i], b.r.Gap)
	}
	return sum
}

// taken is the width of columns and channels; it sets the channels' own widths.
func (b *board) taken(channels []channel) float64 {
	total := 0.0
	for i := range channels {
		ch := &channels[i]
		outer := i == 0 || i == len(channels)-1
		if outer && !b.opens(i-1) {
			*ch = channel{}
		}
		ch.width = math.Max(ch.zoneL+float64(ch.tracks)*b.r.Track+ch.zoneR, ch.least)
		total += ch.width
	}
	for _, w := range b.widths {
		total += w
	}
	return total
}

// across sets the x of every channel and spreads them to a width.
func (b *board) across(channels []channel, width float64) float64 {
	total := b.taken(channels)
	inner := len(channels) - 2
	x := 0.0
	for i := range channels {
		ch := &channels[i]
		if ch.x = x; width > total && inner > 0 && i > 0 && i <= inner {
			ch.width += (width - total) / float64(inner)
		}
		x += ch.width
		if i < len(b.widths) {
			x += b.widths[i]
		}
	}
	return x
}

func (b *board) opens(c int) bool {
	for _, s := range b.segs {
		if s.channel == c {
			return true
		}
	}
	return false
}

func (b *board) placeNodes(l *Layout, channels []channel) {
	for i := range b.g.Nodes {
		it := b.items[b.itemOf[i]]
		before, _ := b.slack(i)
		l.Nodes[i] = Point{X: channels[it.column].x + channels[it.column].width + before, Y: it.y + it.up}
	}
	for _, it := range b.items {
		l.H = math.Max(l.H, it.y+it.h)
	}
}

// over is the width of a channel that its zones and tracks leave over.
func (b *board) over(ch channel) float64 {
	return ch.width - ch.zoneL - float64(ch.tracks)*b.r.Track - ch.zoneR
}

// trackX is the x of a track: half of what is left over lies to the left of the tracks.
func (b *board) trackX(ch channel, n int) float64 {
	return ch.x + ch.zoneL + b.over(ch)/2 + (float64(n)+0.5)*b.r.Track
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
	ends := []Point{{Y: b.yOf(s.from)}, {Y: b.yOf(s.to)}}
	switch {
	case second != nil:
		*path = append(*path, b.detour(ch, s, *first, *second)...)
	case first != nil:
		x := b.trackX(ch, first.Track)
		*path = append(*path, Point{X: x, Y: ends[0].Y}, Point{X: x, Y: ends[1].Y})
	}
	if s.to.pin >= 0 {
		*path = append(*path, b.pinAt(l, s.to))
	}
}

// detour gives the four corners of a wire led in two steps, in its direction.
func (b *board) detour(ch channel, s segment, first, second track.Run) []Point {
	x1, x2 := b.trackX(ch, first.Track), b.trackX(ch, second.Track)
	out := []Point{{X: x1, Y: first.Left[0]}, {X: x1, Y: first.Right[0]}, {X: x2, Y: second.Left[0]}, {X: x2, Y: second.Right[0]}}
	if !s.fromL {
		out[0], out[1], out[2], out[3] = out[3], out[2], out[1], out[0]
	}
	return out
}

func (c channel) find(seg int) (first, second *track.Run) {
	for i := range c.runs {
		switch {
		case c.runs[i].Seg != seg:
		case c.runs[i].Second:
			second = &c.runs[i]
		default:
			first = &c.runs[i]
		}
	}
	return first, second
}

func (b *board) pinAt(l *Layout, p place) Point {
	n := b.items[p.item].node
	return Point{X: l.Nodes[n].X + b.g.Nodes[n].Pins[p.pin].X, Y: b.yOf(p)}
}

// placeFlags lays each flag on a level stretch of its wire.
func (b *board) placeFlags(l *Layout, channels []channel) {
	l.Flags = make([]Rect, len(b.wires))
	for _, s := range b.segs {
		if s.flag != noFlag {
			l.Flags[s.wire] = b.flagOf(l, channels[s.channel+1], s)
		}
	}
}

func (b *board) flagOf(l *Layout, ch channel, s segment) Rect {
	end, left := s.flagged()
	y, w := b.yOf(end), b.g.Wires[s.wire].Flag
	var lo, hi float64
	switch {
	case b.straight(s) && b.quiet(ch, y):
		from, to := s.from, s.to
		if !s.fromL {
			from, to = to, from
		}
		lo, hi = b.openFrom(l, ch, from, true), b.openFrom(l, ch, to, false)
	case left:
		lo, hi = b.openFrom(l, ch, end, true), ch.x+ch.zoneL+b.over(ch)/2
	default:
		lo, hi = ch.x+ch.width-ch.zoneR-b.over(ch)/2, b.openFrom(l, ch, end, false)
	}
	return Rect{(lo + hi - w) / 2, y - b.r.FlagUp, w, b.r.FlagUp + b.r.FlagDown}
}

// openFrom is the x from which a flag may stand at a channel's left or right end.
func (b *board) openFrom(l *Layout, ch channel, p place, left bool) float64 {
	switch {
	case p.pin >= 0:
		n := b.items[p.item].node
		return l.Nodes[n].X + b.clear[n][p.pin]
	case left:
		return ch.x
	}
	return ch.x + ch.width
}

// quiet tells whether nothing in the channel's tracks comes near a flag at y.
func (b *board) quiet(ch channel, y float64) bool {
	for _, r := range ch.runs {
		if r.Lo < y+b.r.FlagDown+1 && r.Hi > y-b.r.FlagUp-1 {
			return false
		}
	}
	return true
}
