// Package placing finds places for labels: what is to be named and what is drawn in, each
// label beside what it names out, clear of lines and of one another; millimetres, y down.
//
// A label is tried in several shapes at growing distances round its hooks; those that find
// no place come first in the next attempt.
package placing

import (
	"math"
	"slices"

	"example.com/loomfolio/layout/loom/plane"

	"example.com/loomfolio/layout/sheet"
)

// Hook is a place at which a label may hang.
type Hook struct {
	At     plane.Point
	Radius float64   // what is drawn about it
	Dirs   []float64 // directions in which the label may stand; nil: all round
}

// Label is what is to be placed: one of its blocks at one of its hooks.
type Label struct {
	Hooks  []Hook
	Blocks []Block // best liked first
	Own    []int   // bands that its leader may start on
	Of     string  // what it names, in words
}

// Placed is a label in its place.
type Placed struct {
	Area   sheet.Rect
	Block  Block
	Leader *plane.Segment // nil: it stands beside what it names
	Right  bool           // its rows end at the side of its hook
	Cost   float64
}

// Band is a line as thick as it is drawn, which no text may touch.
type Band struct {
	plane.Segment
	Half float64
	Leg  int // below 0: a node, see OfNode
}

// OnlyText marks a band that leaders may cross, such as the edge of a sheet.
const OnlyText = -1 << 30

// Placer finds places for labels inside a room, clear of bands and of each other.
type Placer struct {
	Room  sheet.Rect
	Bands []Band
	Reach []float64 // distances to try, mm
}

const (
	clearText  = 0.9 // between a text and a line
	clearTexts = 4.0 // between the labels of two things
	beside     = 4.0 // up to here a label needs no leader
)

// All places the labels; those that find no place come first in the next
// attempt. Where some never do, failed is one of them, else -1.
func (p Placer) All(labels []Label) (out []Placed, failed int) {
	order := make([]int, len(labels))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(i, j int) int {
		return int(math.Round(100 * (labels[j].Blocks[0].Area() - labels[i].Blocks[0].Area())))
	})
	const attempts = 7
	for range attempts {
		done := make([]*Placed, len(labels))
		failed = -1
		for _, i := range order {
			if done[i] = p.Best(labels[i], done); done[i] == nil {
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

// Area is what the block takes, mm².
func (b Block) Area() float64 { return b.w * b.H }

// polished takes every label up again and puts it where it is best now.
func (p Placer) polished(labels []Label, done []*Placed) []Placed {
	for range 2 {
		for i := range labels {
			was := done[i]
			done[i] = nil
			if done[i] = p.Best(labels[i], done); done[i] == nil {
				done[i] = was
			}
		}
	}
	out := make([]Placed, len(done))
	for i, d := range done {
		out[i] = *d
	}
	return out
}

// Best is the cheapest free place for a label, or nil.
func (p Placer) Best(l Label, done []*Placed) *Placed {
	var best *Placed
	for _, b := range l.Blocks {
		for h, hook := range l.Hooks {
			for _, far := range p.Reach {
				base := far + b.Less + 0.8*float64(h)
				if best != nil && base >= best.Cost {
					break
				}
				for _, deg := range hook.directions() {
					if c := p.try(l, b, hook, far, deg, done); c != nil {
						if c.Cost += base; best == nil || c.Cost < best.Cost-1e-9 {
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

func (h Hook) directions() []float64 {
	if h.Dirs != nil {
		return h.Dirs
	}
	return round
}

// try stands a block at a distance from its hook in a direction; nil where it
// is not free. The cost tells how likely it is taken for another leg's.
func (p Placer) try(l Label, b Block, h Hook, far, deg float64, done []*Placed) *Placed {
	sin, cos := math.Sincos(deg * math.Pi / 180)
	d, square := far+h.Radius, max(math.Abs(cos), math.Abs(sin)) // a corner comes next to the hook on the diagonals
	cx, cy := h.At.X+cos*d+cos/square*b.w/2, h.At.Y+sin*d+sin/square*b.H/2
	area := sheet.Rect{X: cx - b.w/2, Y: cy - b.H/2, W: b.w, H: b.H}
	if !p.free(area, done) {
		return nil
	}
	c := &Placed{Area: area, Block: b, Right: area.Right() <= h.At.X}
	if gap := h.gap(c.Area); gap > beside+h.Radius {
		s := h.leader(c.Area)
		if !p.clear(s, l.Own, done) {
			return nil
		}
		c.Leader = &s
		c.Cost += 3
	}
	c.Cost += p.mistaken(c.Area, h, l.Own)
	return c
}

// gap is the distance of the hook from an area.
func (h Hook) gap(r sheet.Rect) float64 { return plane.Dist(h.At, nearest(h.At, r)) }

// nearest is the point of an area next to a point.
func nearest(p plane.Point, r sheet.Rect) plane.Point {
	return plane.Point{X: min(max(p.X, r.X), r.Right()), Y: min(max(p.Y, r.Y), r.Bottom())}
}

// leader runs from the edge of what is drawn at the hook to just before the area.
func (h Hook) leader(r sheet.Rect) plane.Segment {
	to := nearest(h.At, r)
	deg := plane.Heading(h.At, to)
	return plane.Segment{A: plane.Toward(h.At, deg, h.Radius), B: plane.Toward(to, deg, -clearText)}
}

// Taken keeps further labels off one that is placed.
func (p *Placer) Taken(l Placed) {
	y := l.Area.Y + l.Area.H/2
	p.Bands = append(p.Bands, Band{plane.Segment{A: plane.Point{X: l.Area.X, Y: y}, B: plane.Point{X: l.Area.Right(), Y: y}}, l.Area.H / 2, OnlyText})
	if l.Leader != nil {
		p.Bands = append(p.Bands, Band{*l.Leader, 0, OnlyText})
	}
}

func (p Placer) free(r sheet.Rect, done []*Placed) bool {
	if !p.Room.Holds(r) {
		return false
	}
	for _, d := range done {
		if d == nil {
			continue
		}
		if d.Area.Inset(-clearTexts).Meets(r) || d.Leader != nil && d.Leader.Touches(r, clearText*0.7) {
			return false
		}
	}
	for _, b := range p.Bands {
		if b.Touches(r, b.Half+clearText) {
			return false
		}
	}
	return true
}

// clear tells whether a leader meets nothing; it may leave the legs it starts on,
// unless it runs along one of them.
func (p Placer) clear(s plane.Segment, own []int, done []*Placed) bool {
	for _, d := range done {
		if d != nil && (s.Touches(d.Area, clearText*0.7) || d.Leader != nil && d.Leader.Apart(s) < 1) {
			return false
		}
	}
	for _, b := range p.Bands {
		if b.Leg == OnlyText {
			continue
		}
		if !slices.Contains(own, b.Leg) {
			if s.Boxed(b.Segment) < b.Half+0.4 && b.Apart(s) < b.Half+0.4 {
				return false
			}
			continue
		}
		if b.Leg < 0 {
			continue
		}
		if along := b.Off(plane.Toward(s.A, plane.Heading(s.A, s.B), min(s.Length(), 2*b.Half+2))); along < b.Half+0.2 {
			return false
		}
	}
	return true
}

// mistaken is the cost of standing nearer to another leg than to the own one.
func (p Placer) mistaken(r sheet.Rect, h Hook, own []int) float64 {
	mine := h.gap(r) - h.Radius
	sum := 0.0
	for _, b := range p.Bands {
		if b.Leg < 0 || slices.Contains(own, b.Leg) {
			continue
		}
		if b.Touches(r, b.Half+mine) {
			sum += 4
		}
	}
	return sum
}

// OfNode marks the band of a node among those of the legs.
func OfNode(n int) int { return -1 - n }
