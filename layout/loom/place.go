package loom

import (
	"math"
	"slices"

	"example.com/loomfolio/layout/sheet"
)

// hook is a place at which a label may hang.
type hook struct {
	at     point
	radius float64   // what is drawn about it
	dirs   []float64 // directions in which the label may stand; nil: all round
}

// label is what is to be placed: one of its blocks at one of its hooks.
type label struct {
	hooks  []hook
	blocks []block // best liked first
	own    []int   // bands that its leader may start on
	of     string  // what it names, in words
}

// placed is a label in its place.
type placed struct {
	area   sheet.Rect
	block  block
	leader *segment // nil: it stands beside what it names
	right  bool     // its rows end at the side of its hook
	cost   float64
}

// band is a line as thick as it is drawn, which no text may touch.
type band struct {
	segment
	half float64
	leg  int // below 0: a node, see ofNode
}

// onlyText marks a band that leaders may cross, such as the edge of a sheet.
const onlyText = -1 << 30

// placer finds places for labels inside a room, clear of bands and of each other.
type placer struct {
	room  sheet.Rect
	bands []band
	reach []float64 // distances to try, mm
}

const (
	clearText  = 0.9 // between a text and a line
	clearTexts = 4.0 // between the labels of two things
	beside     = 4.0 // up to here a label needs no leader
)

// all places the labels; those that find no place come first in the next
// attempt. Where some never do, failed is one of them, else -1.
func (p placer) all(labels []label) (out []placed, failed int) {
	order := make([]int, len(labels))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(i, j int) int {
		return int(math.Round(100 * (labels[j].blocks[0].area() - labels[i].blocks[0].area())))
	})
	const attempts = 7
	for range attempts {
		done := make([]*placed, len(labels))
		failed = -1
		for _, i := range order {
			if done[i] = p.best(labels[i], done); done[i] == nil {
				failed = i
				break
			}
		}
		if failed < 0 {
			return p.polished(labels, done), -1
		}
		at := slices.Index(order, failed)
		if at == 0 {
			break // not even with all the room to itself
		}
		order = append([]int{failed}, slices.Delete(order, at, at+1)...)
	}
	return nil, failed
}

func (b block) area() float64 { return b.w * b.h }

// polished takes every label up again and puts it where it is best now.
func (p placer) polished(labels []label, done []*placed) []placed {
	for range 2 {
		for i := range labels {
			was := done[i]
			done[i] = nil
			if done[i] = p.best(labels[i], done); done[i] == nil {
				done[i] = was
			}
		}
	}
	out := make([]placed, len(done))
	for i, d := range done {
		out[i] = *d
	}
	return out
}

// best is the cheapest free place for a label, or nil.
func (p placer) best(l label, done []*placed) *placed {
	var best *placed
	for _, b := range l.blocks {
		for h, hook := range l.hooks {
			for _, far := range p.reach {
				base := far + b.less + 0.8*float64(h)
				if best != nil && base >= best.cost {
					break
				}
				for _, deg := range hook.directions() {
					if c := p.try(l, b, hook, far, deg, done); c != nil {
						if c.cost += base; best == nil || c.cost < best.cost-1e-9 {
							best = c
						}
					}
				}
			}
		}
	}
	return best
}

var round = []float64{0, 180, 90, 270, 45, 135, 225, 315, 22.5, 157.5, 202.5, 337.5, 67.5, 112.5, 247.5, 292.5}

func (h hook) directions() []float64 {
	if h.dirs != nil {
		return h.dirs
	}
	return round
}

// try stands a block at a distance from its hook in a direction; nil where it
// is not free. The cost tells how likely it is taken for another leg's.
func (p placer) try(l label, b block, h hook, far, deg float64, done []*placed) *placed {
	sin, cos := math.Sincos(deg * math.Pi / 180)
	d, square := far+h.radius, max(math.Abs(cos), math.Abs(sin)) // a corner comes next to the hook on the diagonals
	cx, cy := h.at.X+cos*d+cos/square*b.w/2, h.at.Y+sin*d+sin/square*b.h/2
	area := sheet.Rect{X: cx - b.w/2, Y: cy - b.h/2, W: b.w, H: b.h}
	if !p.free(area, done) {
		return nil
	}
	c := &placed{area: area, block: b, right: area.Right() <= h.at.X}
	if gap := h.gap(c.area); gap > beside+h.radius {
		s := h.leader(c.area)
		if !p.clear(s, l.own, done) {
			return nil
		}
		c.leader = &s
		c.cost += 3
	}
	c.cost += p.mistaken(c.area, h, l.own)
	return c
}

// gap is the distance of the hook from an area.
func (h hook) gap(r sheet.Rect) float64 { return dist(h.at, nearest(h.at, r)) }

// nearest is the point of an area next to a point.
func nearest(p point, r sheet.Rect) point {
	return point{X: min(max(p.X, r.X), r.Right()), Y: min(max(p.Y, r.Y), r.Bottom())}
}

// leader runs from the edge of what is drawn at the hook to just before the area.
func (h hook) leader(r sheet.Rect) segment {
	to := nearest(h.at, r)
	deg := heading(h.at, to)
	return segment{toward(h.at, deg, h.radius), toward(to, deg, -clearText)}
}

// taken keeps further labels off one that is placed.
func (p *placer) taken(l placed) {
	y := l.area.Y + l.area.H/2
	p.bands = append(p.bands, band{segment{point{X: l.area.X, Y: y}, point{X: l.area.Right(), Y: y}}, l.area.H / 2, onlyText})
	if l.leader != nil {
		p.bands = append(p.bands, band{*l.leader, 0, onlyText})
	}
}

func (p placer) free(r sheet.Rect, done []*placed) bool {
	if !p.room.Holds(r) {
		return false
	}
	for _, d := range done {
		if d == nil {
			continue
		}
		if d.area.Inset(-clearTexts).Meets(r) || d.leader != nil && d.leader.touches(r, clearText*0.7) {
			return false
		}
	}
	for _, b := range p.bands {
		if b.touches(r, b.half+clearText) {
			return false
		}
	}
	return true
}

// clear tells whether a leader meets nothing; it may leave the legs it starts on,
// unless it runs along one of them.
func (p placer) clear(s segment, own []int, done []*placed) bool {
	for _, d := range done {
		if d != nil && (s.touches(d.area, clearText*0.7) || d.leader != nil && d.leader.apart(s) < 1) {
			return false
		}
	}
	for _, b := range p.bands {
		if b.leg == onlyText {
			continue
		}
		if !slices.Contains(own, b.leg) {
			if s.boxed(b.segment) < b.half+0.4 && b.apart(s) < b.half+0.4 {
				return false
			}
			continue
		}
		if b.leg < 0 {
			continue
		}
		if along := b.off(toward(s.a, heading(s.a, s.b), min(s.length(), 2*b.half+2))); along < b.half+0.2 {
			return false
		}
	}
	return true
}

// mistaken is the cost of standing nearer to another leg than to the own one.
func (p placer) mistaken(r sheet.Rect, h hook, own []int) float64 {
	mine := h.gap(r) - h.radius
	sum := 0.0
	for _, b := range p.bands {
		if b.leg < 0 || slices.Contains(own, b.leg) {
			continue
		}
		if b.touches(r, b.half+mine) {
			sum += 4
		}
	}
	return sum
}
