// Package board draws the loom at full size, to build it on.
//
// In come the model's places and runs with what was computed for them; out come the sheets
// of the board, to be glued together, or one large page. A board may be folded: the middle
// of long bare stretches is then left out.
//
// It holds that legs do not cross, that every leg has its full length where it is not folded,
// that no text lies on another, on a line or on the edge of a sheet, and that every sheet
// names the runs that it shows.
package board

import (
	"math"
	"slices"
	"strings"

	"example.com/loomfolio/layout/loom/laid"

	"example.com/loomfolio/layout/loom/branch"
	"example.com/loomfolio/layout/loom/placing"
	"example.com/loomfolio/layout/loom/plane"

	"example.com/loomfolio/layout/page"
	"example.com/loomfolio/layout/sheet"
)

// board is the loom at full size, in mm from the corner of the first sheet.
type board struct {
	laid.Words
	trees  []laid.Legs
	apart  float64 // clear space wished between legs, mm
	grid   grid
	fold   bool // long bare stretches are left out
	labels []placing.Placed
	cuts   []cut
	lost   string // what a label names that found no place, "" where all did
}

// boards are the sizes tried, mm: the first is that of a sheet of plywood and a half.
var boards = [][2]float64{{2400, 1200}, {2400, 1600}, {3000, 2000}, {4000, 2500}, {6000, 4000}, {10000, 7000}, {20000, 20000}}

// layBoard lays the board; where a label finds no place, once more with the legs
// further apart.
func layBoard(a page.Ask, fold bool) *board {
	var b *board
	for _, apart := range []float64{70, 110, 170, 260} {
		b = &board{Words: laid.Words{Ask: a}, apart: apart, fold: fold}
		if b.lay(); b.lost == "" {
			break
		}
	}
	return b
}

// lay lays the legs at full size, bent where the board would grow too large, then
// the sheets over them, then the labels so that none lies on an edge.
func (b *board) lay() {
	at := plane.Point{}
	for _, t := range branch.Trees(b.Ask) {
		if b.fold {
			t = b.folded(t)
		}
		d := b.full(t)
		r := plane.Bounds(d.Lines)
		d.Area = sheet.Rect{X: at.X, Y: at.Y, W: r.W, H: r.H}
		d.Centre()
		if b.rolled() {
			at.X += r.W + 2*b.apart // side by side along the roll
		} else {
			at.Y += r.H + 2*b.apart
		}
		b.trees = append(b.trees, d)
	}
	if len(b.trees) > 0 {
		b.cover()
		b.cutMarks()
		b.label()
	}
}

// full lays a tree at full size on the smallest board that takes it.
func (b *board) full(t branch.Tree) laid.Legs {
	k := branch.Task{Tree: t, Limbs: t.Limbs(t.Trunk()), Clear: b.apart, Narrow: 38}
	for _, l := range t.Legs {
		k.Long = append(k.Long, max(l.MM, 1))
	}
	for _, size := range b.sizes() {
		k.W, k.H = size[0], size[1]
		k.May = nil
		for _, l := range k.Limbs {
			k.May = append(k.May, boardShapes(l, k.W))
		}
		if found := k.Settle(); len(found) > 0 {
			best := slices.MinFunc(found, func(x, y branch.Arrangement) int { return int(math.Copysign(1, x.Cost-y.Cost)) })
			return laid.Legs{Arrangement: best, Scale: 1, Thick: 1}
		}
	}
	last := k.Begin(0) // larger than any board: straight, and crossings may be left
	last.Improve()
	return laid.Legs{Arrangement: last, Scale: 1, Thick: 1}
}

// sizes are those of boards to be tried: on a roll first such as it is wide.
func (b *board) sizes() [][2]float64 {
	if !b.rolled() {
		return boards
	}
	high := rollWidth() - 2*glue - onePageFoot - 2*around
	var out [][2]float64
	for _, size := range boards {
		out = append(out, [2]float64{size[0], high})
	}
	return append(out, boards...)
}

// boardShapes are the ways in which a limb may lie on a board of some width.
func boardShapes(l branch.Limb, wide float64) []branch.Shape {
	if l.Parent < 0 {
		return trunkShapes(l.MM, wide)
	}
	var out []branch.Shape
	for _, bent := range bentShapes(l.MM) {
		for _, t := range []struct{ turn, cost float64 }{{90, 0}, {60, 1}, {45, 1}, {120, 3}, {135, 3}} {
			for _, side := range []float64{-1, 1} {
				out = append(out, branch.Shape{Turn: side * t.turn, Bends: bent, Cost: t.cost + 5*float64(len(bent))})
			}
		}
	}
	return out
}

// bentShapes are the bends that a limb of a length may take: none; one corner;
// a turn back.
func bentShapes(mm float64) [][]branch.Bend {
	out := [][]branch.Bend{nil}
	for _, after := range []float64{120, 240, 400} {
		if mm > after+100 {
			out = append(out, []branch.Bend{{After: after, Turn: 90}}, []branch.Bend{{After: after, Turn: -90}})
		}
	}
	if back := 100.0; mm > 4*back {
		half := (mm - back) / 2
		out = append(out, []branch.Bend{{After: half, Turn: 90}, {After: back, Turn: 90}}, []branch.Bend{{After: half, Turn: -90}, {After: back, Turn: -90}})
	}
	return out
}

// trunkShapes lay a trunk straight where the board is wide enough, else to and
// fro, with several widths and several spaces between the rows.
func trunkShapes(mm, wide float64) []branch.Shape {
	if mm <= wide {
		return []branch.Shape{{}}
	}
	var out []branch.Shape
	for _, share := range []float64{1, 0.85, 0.7, 0.55} {
		for _, space := range []float64{240, 350, 500, 700} {
			s := branch.Shape{Cost: 2}
			for turn, left := 90.0, mm; left > 0; turn = -turn {
				s.Bends = append(s.Bends, branch.Bend{After: share * wide, Turn: turn}, branch.Bend{After: space, Turn: turn})
				left -= share*wide + space
			}
			out = append(out, s)
		}
	}
	return out
}

func (b *board) bounds() sheet.Rect {
	var all []plane.Line
	for _, d := range b.trees {
		all = append(all, d.Lines...)
	}
	return plane.Bounds(all)
}

// label places all labels of the board.
func (b *board) label() {
	p := placing.Placer{Room: b.whole(), Reach: []float64{2.5, 5, 9, 14, 20, 28, 38, 50, 65, 85, 110, 150, 200}}
	b.edges(&p)
	var labels []placing.Label
	first := 0 // the number of the tree's first leg and node among all
	for i := range b.trees {
		d := &b.trees[i]
		p.Bands = append(p.Bands, b.bands(d, first)...)
		labels = append(labels, b.boardLabels(d, first)...)
		first += len(d.Tree.Legs) + len(d.Tree.Nodes)
	}
	for _, c := range b.cuts {
		p.Bands = append(p.Bands, placing.Band{Segment: c.Segment, Half: 5, Leg: placing.OnlyText})
	}
	var failed int
	if b.labels, failed = p.All(labels); failed >= 0 {
		b.lost = labels[failed].Of
		return
	}
	b.tag(p)
}

// bands are the legs, breaks and nails of a tree, which no label may touch.
func (b *board) bands(d *laid.Legs, first int) []placing.Band {
	var out []placing.Band
	for j, segs := range d.Pieces {
		for _, s := range segs {
			out = append(out, placing.Band{Segment: s, Half: max(b.Half(d, j), bendNail), Leg: first + j})
		}
		for _, g := range d.Tree.Legs[j].Gaps {
			out = append(out, placing.Band{Segment: b.across(d, j, g), Half: breakWide/2 + 1.6, Leg: first + j})
		}
	}
	for n := range d.Tree.Nodes {
		at := d.Node(n)
		out = append(out, placing.Band{Segment: plane.Segment{A: at, B: at}, Half: nail, Leg: placing.OfNode(first + n)})
	}
	return out
}

// tag names the legs once more on the sheets where their label does not stand.
func (b *board) tag(p placing.Placer) {
	for _, l := range b.labels {
		p.Taken(l)
	}
	p.Reach = []float64{2, 4, 7}
	first := 0
	for i := range b.trees {
		d := &b.trees[i]
		for j := range d.Lines {
			b.tagLeg(&p, d, j, first+j)
		}
		first += len(d.Tree.Legs) + len(d.Tree.Nodes)
	}
}

// tagLeg sets the tags of one leg.
func (b *board) tagLeg(p *placing.Placer, d *laid.Legs, j, own int) {
	const least = 60 // mm of a leg on a sheet that is worth a tag
	for row := range b.grid.rows {
		for col := range b.grid.cols {
			tile := b.grid.tile(row, col)
			for _, s := range d.Pieces[j] {
				in, ok := s.Clip(tile)
				if !ok || in.Length() < least || b.named(d, j, tile) {
					continue
				}
				p.Room = tile
				l := placing.Label{Blocks: []placing.Block{b.tagBlock(d.Tree.Legs[j])}, Own: []int{own}}
				for _, share := range []float64{0.5, 0.35, 0.65} {
					at, deg := plane.Line{in.A, in.B}.At(share * in.Length())
					l.Hooks = append(l.Hooks, placing.Hook{At: at, Radius: b.Half(d, j), Dirs: []float64{deg - 90, deg + 90}})
				}
				if done := p.Best(l, nil); done != nil {
					b.labels = append(b.labels, *done)
					p.Taken(*done)
				}
				break
			}
		}
	}
}

// named tells whether a leg's label stands on a sheet.
func (b *board) named(d *laid.Legs, j int, tile sheet.Rect) bool {
	head := page.Letter(d.Tree.Legs[j].Run) + "  "
	return slices.ContainsFunc(b.labels, func(l placing.Placed) bool {
		return tile.Holds(l.Area) && strings.HasPrefix(l.Block.Rows[0].Text(), head)
	})
}

// edges keeps texts off the edges of the sheets.
func (b *board) edges(p *placing.Placer) {
	r := b.whole()
	for i := range b.grid.cols + 1 {
		x := float64(i) * b.grid.wide()
		p.Bands = append(p.Bands, placing.Band{Segment: plane.Segment{A: plane.Point{X: x}, B: plane.Point{X: x, Y: r.H}}, Half: 2, Leg: placing.OnlyText})
	}
	for i := range b.grid.rows + 1 {
		y := float64(i) * b.grid.high()
		p.Bands = append(p.Bands, placing.Band{Segment: plane.Segment{A: plane.Point{Y: y}, B: plane.Point{X: r.W, Y: y}}, Half: 2, Leg: placing.OnlyText})
	}
}

const (
	nail     = 3   // radius of the mark of a nail at a breakout or end
	bendNail = 2.2 // the same at a bend
)

// boardLabels are the labels of one tree.
func (b *board) boardLabels(d *laid.Legs, first int) []placing.Label {
	var out []placing.Label
	for n, legs := range d.Tree.Near() {
		own := []int{placing.OfNode(first + n)}
		for _, l := range legs {
			own = append(own, first+l)
		}
		out = append(out, placing.Label{Hooks: []placing.Hook{{At: d.Node(n), Radius: nail}}, Blocks: b.nailBlocks(d.Tree, n), Own: own, Of: b.H.Places[d.Tree.Nodes[n].Place].Name})
	}
	for i, l := range d.Tree.Legs {
		out = append(out, placing.Label{Hooks: b.Hooks(d, i), Blocks: b.legBlocks(l), Own: []int{first + i}, Of: "run " + page.Letter(l.Run)})
		for _, g := range l.Gaps {
			at, deg := breakAt(d, i, g)
			out = append(out, placing.Label{Hooks: []placing.Hook{{At: at, Radius: b.Half(d, i) + breakOver, Dirs: aside(deg)}}, Blocks: []placing.Block{b.gapBlock(g)}, Own: []int{first + i}, Of: "a break in run " + page.Letter(l.Run)})
		}
		for _, s := range b.Spots(d, i) {
			out = append(out, placing.Label{Hooks: []placing.Hook{{At: s.At, Radius: max(laid.Dot, b.Half(d, i))}}, Blocks: []placing.Block{b.SpliceBlock(s.Part)}, Own: []int{first + i}, Of: s.Part.Ref})
		}
	}
	return out
}

// aside are directions to the sides of a leg, square ones first.
func aside(deg float64) []float64 {
	var out []float64
	for _, off := range []float64{90, 60, 120, 45, 135, 25, 155} {
		out = append(out, deg-off, deg+off)
	}
	return out
}

// cut is a mark past an end at which wires are cut.
type cut struct {
	plane.Segment // from the nail to the mark
	text          string
}

// cutMarks stand straight on past the ends, as far as the wires hang out, where
// nothing else lies.
func (b *board) cutMarks() {
	for i := range b.trees {
		d := &b.trees[i]
		for n, legs := range d.Tree.Near() {
			if len(legs) > 1 || d.Tree.Nodes[n].Arrives {
				continue
			}
			out := d.Outward(legs[0], n)
			at, back := d.Node(n), plane.Heading(out.B, out.A)
			for _, free := range b.free(d.Tree.Nodes[n].Place) {
				s := plane.Segment{A: at, B: plane.Toward(at, back, float64(free.mm))}
				if b.open(s, d, legs[0]) {
					b.cuts = append(b.cuts, cut{Segment: s, text: b.Length(free.mm)})
				}
			}
		}
	}
}

// open tells whether nothing lies where wires would hang out.
func (b *board) open(s plane.Segment, d *laid.Legs, own int) bool {
	r := b.whole().Inset(8)
	if !r.Holds(sheet.Rect{X: s.B.X, Y: s.B.Y}) {
		return false
	}
	for i := range b.trees {
		o := &b.trees[i]
		for l, segs := range o.Pieces {
			if o == d && l == own {
				continue
			}
			for _, piece := range segs {
				if piece.Apart(s) < b.Half(o, l)+8 {
					return false
				}
			}
		}
	}
	return true
}
