package diagram

import (
	"fmt"
	"math"

	"example.com/loomfolio/layout/diagram/track"
)

// Check says what is wrong with a layout of a graph: tiles on one another, a wire
// that runs through a tile, on another wire or through a flag, a flag that touches
// something, or anything that is askew or outside the layout's own size.
func (l *Layout) Check(g Graph) []string {
	var faults []string
	say := func(format string, args ...any) { faults = append(faults, fmt.Sprintf(format, args...)) }
	tiles := l.tiles(g)
	l.checkTiles(tiles, say)
	for i, path := range l.Paths {
		l.checkPath(g, i, path, tiles, say)
		for j, other := range l.Paths[:i] {
			if overlap(path, other) {
				say("wires %d and %d lie on one another", j, i)
			}
		}
	}
	for i, f := range l.Flags {
		l.checkFlag(g, i, f, tiles, say)
	}
	return faults
}

func (l *Layout) tiles(g Graph) []Rect {
	var out []Rect
	for i, n := range g.Nodes {
		out = append(out, Rect{l.Nodes[i].X, l.Nodes[i].Y, n.W, n.H})
	}
	return out
}

type sayer func(format string, args ...any)

func (l *Layout) checkTiles(tiles []Rect, say sayer) {
	for i, t := range tiles {
		if t.X < -1e-6 || t.Y < -1e-6 || t.X+t.W > l.W+1e-6 || t.Y+t.H > l.H+1e-6 {
			say("tile %d is outside", i)
		}
		for j, o := range tiles[:i] {
			if t.meets(o) {
				say("tiles %d and %d overlap", j, i)
			}
		}
	}
}

func (r Rect) meets(o Rect) bool {
	const eps = 1e-6
	return r.X+eps < o.X+o.W && o.X+eps < r.X+r.W && r.Y+eps < o.Y+o.H && o.Y+eps < r.Y+r.H
}

func (l *Layout) checkPath(g Graph, wire int, path []Point, tiles []Rect, say sayer) {
	w := l.Wires[wire]
	for k, e := range []End{w.From, w.To} {
		p := g.pin(e)
		want := Point{X: l.Nodes[e.Node].X + p.X, Y: l.Nodes[e.Node].Y + p.Y}
		if len(path) < 2 || !track.Same(path[k*(len(path)-1)], want) {
			say("wire %d does not reach its pin", wire)
			return
		}
	}
	for i := 1; i < len(path); i++ {
		a, b := path[i-1], path[i]
		if math.Abs(a.X-b.X) > 1e-6 && math.Abs(a.Y-b.Y) > 1e-6 {
			say("wire %d runs askew", wire)
		}
		for t, tile := range tiles {
			own := (i == 1 && t == w.From.Node) || (i == len(path)-1 && t == w.To.Node)
			if !own && box(a, b).meets(tile) {
				say("wire %d runs through tile %d", wire, t)
			}
		}
	}
}

// box is the area of a piece of wire, a little thick.
func box(a, b Point) Rect {
	const half = 0.4
	x, y := math.Min(a.X, b.X), math.Min(a.Y, b.Y)
	return Rect{x - half, y - half, math.Abs(a.X-b.X) + 2*half, math.Abs(a.Y-b.Y) + 2*half}
}

// overlap tells whether two wires run along one another closer than a mm.
func overlap(a, b []Point) bool {
	for i := 1; i < len(a); i++ {
		for j := 1; j < len(b); j++ {
			p, q := box(a[i-1], a[i]), box(b[j-1], b[j])
			if alike := (p.W > p.H) == (q.W > q.H); alike && p.meets(q) {
				return true
			}
		}
	}
	return false
}

// solids is what a tile covers where it stands.
func solids(n Node, tile Rect) []Rect {
	if len(n.Solid) == 0 {
		return []Rect{tile}
	}
	var out []Rect
	for _, s := range n.Solid {
		out = append(out, Rect{tile.X + s.X, tile.Y + s.Y, s.W, s.H})
	}
	return out
}

func (l *Layout) checkFlag(g Graph, wire int, f Rect, tiles []Rect, say sayer) {
	for t, tile := range tiles {
		for _, s := range solids(g.Nodes[t], tile) {
			if f.meets(s) {
				say("flag %d lies on tile %d", wire, t)
			}
		}
	}
	for j, o := range l.Flags[:wire] {
		if f.meets(o) {
			say("flags %d and %d overlap", j, wire)
		}
	}
	for j, path := range l.Paths {
		for i := 1; i < len(path); i++ {
			if j != wire && box(path[i-1], path[i]).meets(f) {
				say("wire %d runs through flag %d", j, wire)
			}
		}
	}
	if !l.onWire(wire, f) {
		say("flag %d is not on its wire", wire)
	}
}

// onWire tells whether a flag lies along a level stretch of its wire.
func (l *Layout) onWire(wire int, f Rect) bool {
	path := l.Paths[wire]
	for i := 1; i < len(path); i++ {
		a, b := path[i-1], path[i]
		inside := math.Min(a.X, b.X) <= f.X+1e-6 && math.Max(a.X, b.X) >= f.X+f.W-1e-6
		if math.Abs(a.Y-b.Y) < 1e-6 && inside && a.Y >= f.Y-1e-6 && a.Y <= f.Y+f.H+1e-6 {
			return true
		}
	}
	return false
}
