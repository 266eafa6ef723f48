package loom

import (
	"math"
	"slices"
	"strings"

	"example.com/loomfolio/layout/page"
	"example.com/loomfolio/layout/sheet"
)

// board is the loom at full size, in mm from the corner of the first sheet.
type board struct {
	drawer
	trees  []Drawing
	apart  float64 // clear space wished between legs, mm
	grid   grid
	fold   bool // long bare stretches are left out
	labels []placed
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
		b = &board{drawer: drawer{Ask: a}, apart: apart, fold: fold}
		if b.lay(); b.lost == "" {
			break
		}
	}
	return b
}

// lay lays the legs at full size, bent where the board would grow too large, then
// the sheets over them, then the labels so that none lies on an edge.
func (b *board) lay() {
	at := point{}
	for _, t := range trees(b.Ask) {
		if b.fold {
			t = b.folded(t)
		}
		d := b.full(t)
		r := bounds(d.lines)
		d.area = sheet.Rect{X: at.X, Y: at.Y, W: r.W, H: r.H}
		d.centre()
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
func (b *board) full(t tree) Drawing {
	k := task{tree: t, limbs: t.limbs(t.trunk()), clear: b.apart, narrow: 38}
	for _, l := range t.legs {
		k.long = append(k.long, max(l.mm, 1))
	}
	for _, size := range b.sizes() {
		k.w, k.h = size[0], size[1]
		k.may = nil
		for _, l := range k.limbs {
			k.may = append(k.may, boardShapes(l, k.w))
		}
		if found := k.settle(); len(found) > 0 {
			best := slices.MinFunc(found, func(x, y arrangement) int { return int(math.Copysign(1, x.cost-y.cost)) })
			return Drawing{arrangement: best, Scale: 1, thick: 1}
		}
	}
	last := k.begin(0) // larger than any board: straight, and crossings may be left
	last.improve()
	return Drawing{arrangement: last, Scale: 1, thick: 1}
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
func boardShapes(l limb, wide float64) []shape {
	if l.parent < 0 {
		return trunkShapes(l.mm, wide)
	}
	var out []shape
	for _, bent := range bentShapes(l.mm) {
		for _, t := range []struct{ turn, cost float64 }{{90, 0}, {60, 1}, {45, 1}, {120, 3}, {135, 3}} {
			for _, side := range []float64{-1, 1} {
				out = append(out, shape{turn: side * t.turn, bends: bent, cost: t.cost + 5*float64(len(bent))})
			}
		}
	}
	return out
}

// bentShapes are the bends that a limb of a length may take: none; one corner;
// a turn back.
func bentShapes(mm float64) [][]bend {
	out := [][]bend{nil}
	for _, after := range []float64{120, 240, 400} {
		if mm > after+100 {
			out = append(out, []bend{{after, 90}}, []bend{{after, -90}})
		}
	}
	if back := 100.0; mm > 4*back {
		half := (mm - back) / 2
		out = append(out, []bend{{half, 90}, {back, 90}}, []bend{{half, -90}, {back, -90}})
	}
	return out
}

// trunkShapes lay a trunk straight where the board is wide enough, else to and
// fro, with several widths and several spaces between the rows.
func trunkShapes(mm, wide float64) []shape {
	if mm <= wide {
		return []shape{{}}
	}
	var out []shape
	for _, share := range []float64{1, 0.85, 0.7, 0.55} {
		for _, space := range []float64{240, 350, 500, 700} {
			s := shape{cost: 2}
			for turn, left := 90.0, mm; left > 0; turn = -turn {
				s.bends = append(s.bends, bend{share * wide, turn}, bend{space, turn})
				left -= share*wide + space
			}
			out = append(out, s)
		}
	}
	return out
}

func (b *board) bounds() sheet.Rect {
	var all []line
	for _, d := range b.trees {
		all = append(all, d.lines...)
	}
	return bounds(all)
}

// label places all labels of the board.
func (b *board) label() {
	p := placer{room: b.whole(), reach: []float64{2.5, 5, 9, 14, 20, 28, 38, 50, 65, 85, 110, 150, 200}}
	b.edges(&p)
	var labels []label
	first := 0 // the number of the tree's first leg and node among all
	for i := range b.trees {
		d := &b.trees[i]
		p.bands = append(p.bands, b.bands(d, first)...)
		labels = append(labels, b.boardLabels(d, first)...)
		first += len(d.tree.legs) + len(d.tree.nodes)
	}
	for _, c := range b.cuts {
		p.bands = append(p.bands, band{c.segment, 5, onlyText})
	}
	var failed int
	if b.labels, failed = p.all(labels); failed >= 0 {
		b.lost = labels[failed].of
		return
	}
	b.tag(p)
}

// bands are the legs, breaks and nails of a tree, which no label may touch.
func (b *board) bands(d *Drawing, first int) []band {
	var out []band
	for j, segs := range d.pieces {
		for _, s := range segs {
			out = append(out, band{s, max(b.half(d, j), bendNail), first + j})
		}
		for _, g := range d.tree.legs[j].gaps {
			out = append(out, band{b.across(d, j, g), breakWide/2 + 1.6, first + j})
		}
	}
	for n := range d.tree.nodes {
		at := d.node(n)
		out = append(out, band{segment{at, at}, nail, ofNode(first + n)})
	}
	return out
}

// tag names the legs once more on the sheets where their label does not stand.
func (b *board) tag(p placer) {
	for _, l := range b.labels {
		p.taken(l)
	}
	p.reach = []float64{2, 4, 7}
	first := 0
	for i := range b.trees {
		d := &b.trees[i]
		for j := range d.lines {
			b.tagLeg(&p, d, j, first+j)
		}
		first += len(d.tree.legs) + len(d.tree.nodes)
	}
}

// tagLeg sets the tags of one leg.
func (b *board) tagLeg(p *placer, d *Drawing, j, own int) {
	const least = 60 // mm of a leg on a sheet that is worth a tag
	for row := range b.grid.rows {
		for col := range b.grid.cols {
			tile := b.grid.tile(row, col)
			for _, s := range d.pieces[j] {
				in, ok := s.clip(tile)
				if !ok || in.length() < least || b.named(d, j, tile) {
					continue
				}
				p.room = tile
				l := label{blocks: []block{b.tagBlock(d.tree.legs[j])}, own: []int{own}}
				for _, share := range []float64{0.5, 0.35, 0.65} {
					at, deg := line{in.a, in.b}.at(share * in.length())
					l.hooks = append(l.hooks, hook{at: at, radius: b.half(d, j), dirs: []float64{deg - 90, deg + 90}})
				}
				if done := p.best(l, nil); done != nil {
					b.labels = append(b.labels, *done)
					p.taken(*done)
				}
				break
			}
		}
	}
}

// named tells whether a leg's label stands on a sheet.
func (b *board) named(d *Drawing, j int, tile sheet.Rect) bool {
	head := page.Letter(d.tree.legs[j].run) + "  "
	return slices.ContainsFunc(b.labels, func(l placed) bool {
		return tile.Holds(l.area) && strings.HasPrefix(l.block.rows[0].text(), head)
	})
}

// edges keeps texts off the edges of the sheets.
func (b *board) edges(p *placer) {
	r := b.whole()
	for i := range b.grid.cols + 1 {
		x := float64(i) * b.grid.wide()
		p.bands = append(p.bands, band{segment{point{X: x}, point{X: x, Y: r.H}}, 2, onlyText})
	}
	for i := range b.grid.rows + 1 {
		y := float64(i) * b.grid.high()
		p.bands = append(p.bands, band{segment{point{Y: y}, point{X: r.W, Y: y}}, 2, onlyText})
	}
}

const (
	nail     = 3   // radius of the mark of a nail at a breakout or end
	bendNail = 2.2 // the same at a bend
)

// boardLabels are the labels of one tree.
func (b *board) boardLabels(d *Drawing, first int) []label {
	var out []label
	for n, legs := range d.tree.near() {
		own := []int{ofNode(first + n)}
		for _, l := range legs {
			own = append(own, first+l)
		}
		out = append(out, label{hooks: []hook{{at: d.node(n), radius: nail}}, blocks: b.nailBlocks(d.tree, n), own: own, of: b.H.Places[d.tree.nodes[n].place].Name})
	}
	for i, l := range d.tree.legs {
		out = append(out, label{hooks: b.hooks(d, i), blocks: b.legBlocks(l), own: []int{first + i}, of: "run " + page.Letter(l.run)})
		for _, g := range l.gaps {
			at, deg := d.breakAt(i, g)
			out = append(out, label{hooks: []hook{{at: at, radius: b.half(d, i) + breakOver, dirs: aside(deg)}}, blocks: []block{b.gapBlock(g)}, own: []int{first + i}, of: "a break in run " + page.Letter(l.run)})
		}
		for _, s := range b.spots(d, i) {
			out = append(out, label{hooks: []hook{{at: s.at, radius: max(dot, b.half(d, i))}}, blocks: []block{b.spliceBlock(s.part)}, own: []int{first + i}, of: s.part.Ref})
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
	segment // from the nail to the mark
	text    string
}

// cutMarks stand straight on past the ends, as far as the wires hang out, where
// nothing else lies.
func (b *board) cutMarks() {
	for i := range b.trees {
		d := &b.trees[i]
		for n, legs := range d.tree.near() {
			if len(legs) > 1 || d.tree.nodes[n].arrives {
				continue
			}
			out := d.outward(legs[0], n)
			at, back := d.node(n), heading(out.b, out.a)
			for _, free := range b.free(d.tree.nodes[n].place) {
				s := segment{at, toward(at, back, float64(free.mm))}
				if b.open(s, d, legs[0]) {
					b.cuts = append(b.cuts, cut{segment: s, text: b.length(free.mm)})
				}
			}
		}
	}
}

// open tells whether nothing lies where wires would hang out.
func (b *board) open(s segment, d *Drawing, own int) bool {
	r := b.whole().Inset(8)
	if !r.Holds(sheet.Rect{X: s.b.X, Y: s.b.Y}) {
		return false
	}
	for i := range b.trees {
		o := &b.trees[i]
		for l, segs := range o.pieces {
			if o == d && l == own {
				continue
			}
			for _, piece := range segs {
				if piece.apart(s) < b.half(o, l)+8 {
					return false
				}
			}
		}
	}
	return true
}
