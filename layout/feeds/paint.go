package feeds

import (
	"slices"
	"strings"

	"example.com/loomfolio/layout/page"
	"example.com/loomfolio/layout/sheet"
	"example.com/loomfolio/layout/symbol"
	"example.com/loomfolio/layout/typeface"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/harness/kind"
)

// Sizes of rails and rows, mm.
const (
	rowHigh   = 4.2
	lineHigh  = 3.9 // of a further line of a circuit's name
	headPad   = 2.0 // in a heading, above and below its lines
	headLine  = 4.0
	smallLine = 3.4
	headGap   = 1.2 // under a heading
	headIn    = 4.6 // of a heading's width at its edges
	againHigh = headLine + headPad + headGap
	barAt     = 1.8 // the bar's middle from the column's edge
	barWide   = 2.2
	stub      = 3.0 // from the bar to the words
	deeper    = 3.4 // what stands below a circuit is moved in
	refWide   = 8.4 // sheet and zone
	chipHigh  = 3.7
)

var (
	plain  = sheet.Plain(sheet.SizeBody)
	strong = sheet.Strong(sheet.SizeBody)
)

// painter draws rails in columns of a width.
type painter struct {
	t    *tree
	wide float64
}

// blocks measures the rails.
func (p painter) blocks(rails []rail) []block {
	var out []block
	for _, r := range rails {
		b := block{rail: r, head: p.heading(r).high() + headGap}
		b.rows = slices.Clone(r.rows)
		for i := range b.rows {
			x := &b.rows[i]
			x.at = p.wordsAt(r, *x)
			x.words = p.words(r, *x)
			b.highs = append(b.highs, rowHigh+lineHigh*float64(len(x.words)-1))
		}
		out = append(out, b)
	}
	return out
}

// heading is what a rail's box says: its name in lines, and where it is and what feeds it, beside
// the name where there is room, else in lines below.
type heading struct {
	name, below []string
	beside      string
}

func (h heading) high() float64 {
	return headPad + headLine*float64(len(h.name)) + smallLine*float64(len(h.below))
}

func (p painter) heading(r rail) heading {
	if r.part < 0 {
		return heading{name: []string{p.t.ref(r.part)}}
	}
	part := p.t.a.Part(r.part)
	h := heading{name: typeface.Wrap(page.Dotted(part.Ref, page.Called(part)), strong.Face, strong.Size, p.wide-headIn)}
	var fed []string
	for _, c := range r.fedBy {
		fed = append(fed, p.number(c))
	}
	words := p.t.a.At(part)
	if len(fed) > 0 {
		words = page.Dotted(words, "fed by "+page.And(fed))
	}
	if wide := typeface.Width(h.name[0], strong.Face, strong.Size) + typeface.Width(words, sheet.Regular, sheet.SizeNote); len(h.name) == 1 && wide+2 <= p.wide-headIn {
		h.beside = words
	} else if words != "" {
		h.below = typeface.Wrap(words, sheet.Regular, sheet.SizeNote, p.wide-headIn)
	}
	if len(h.below) > 1 && len(fed) > 0 { // where the part sits, its own sheets say
		h.below = typeface.Wrap("fed by "+page.And(fed), sheet.Regular, sheet.SizeNote, p.wide-headIn)
	}
	return h
}

// number is a circuit's number, its name where it has none.
func (p painter) number(c harness.CircuitID) string {
	circuit := p.t.a.H.Circuits[c]
	return page.Firm(page.Or(circuit.Number, circuit.Name))
}

func (p painter) draw(c *sheet.Canvas, b block) {
	p.head(c, b)
	if len(b.rows) == 0 {
		return
	}
	y := b.at.Y + b.head
	bar := sheet.Rect{X: b.at.X + barAt - barWide/2, Y: y - headGap, W: barWide, H: headGap}
	for i, x := range b.rows {
		if x.deep == 0 {
			bar.H = y + rowHigh - 0.8 - bar.Y
		}
		p.row(c, b, x, y)
		y += b.highs[i]
	}
	if b.part < 0 {
		symbol.Chassis(c, bar)
	} else {
		c.RoundRect(bar.X, bar.Y, bar.W, bar.H, 0.8, sheet.Filled(sheet.Ink))
	}
	p.branches(c, b)
}

// head draws the box of a rail's name.
func (p painter) head(c *sheet.Canvas, b block) {
	h := p.heading(b.rail)
	if b.again {
		h = heading{name: []string{typeface.Fit(p.t.ref(b.part)+", continued", strong.Face, strong.Size, p.wide-headIn)}}
	}
	box := sheet.Rect{X: b.at.X, Y: b.at.Y, W: b.at.W, H: b.head - headGap}
	if b.part >= 0 {
		symbol.Edge(c, kind.RoleOf(p.t.a.Part(b.part).Kind), box)
	} else {
		c.RoundRect(box.X, box.Y, box.W, box.H, 0.8, sheet.Both(sheet.Solid(sheet.Medium), sheet.White))
	}
	y := box.Y + headPad/2
	c.Text(box.Right()-headIn/2, y+0.7+strong.Size*typeface.CapHeight, h.beside, page.Quiet().At(sheet.Right))
	for _, s := range h.name {
		c.Text(box.X+3, y+0.7+strong.Size*typeface.CapHeight, s, strong)
		y += headLine
	}
	for _, s := range h.below {
		c.Text(box.X+3, y+0.6+sheet.SizeNote*typeface.CapHeight, s, page.Quiet())
		y += smallLine
	}
}

// ref is a part's reference, or what stands for the circuits that no supply feeds.
func (t *tree) ref(part harness.PartID) string {
	if part < 0 {
		return "Grounds and signals"
	}
	return t.a.H.Parts[part].Ref
}

// left is where a row begins, from the column's edge.
func left(x row) float64 { return barAt + deeper*float64(x.deep) }

// ragged is the width of labels from which on words no longer stand under one another, mm.
const ragged = 8.0

// wordsAt is where a row's words begin: those of a rail under one another, but for those behind
// long labels.
func (p painter) wordsAt(r rail, x row) float64 {
	wide := labelWide(x)
	for _, o := range r.rows {
		if other := labelWide(o); x.deep == 0 && o.deep == 0 && other < ragged {
			wide = max(wide, other)
		}
	}
	at := left(x) + stub + wide
	if x.fuse != "" {
		at += chipWide(x.fuse) + 0.9
	}
	return at
}

func labelWide(x row) float64 {
	if x.label == "" {
		return 0
	}
	return typeface.Width(x.label, strong.Face, strong.Size) + 1.0
}

func chipWide(rating string) float64 {
	return max(6.6, typeface.Width(rating, sheet.Bold, sheet.SizeNote)+1.6)
}

// words is a circuit's number and name in lines, with what it feeds in turn. A name that
// stands on the rail already and needs several lines is not said again.
func (p painter) words(r rail, x row) []string {
	c := p.t.a.H.Circuits[x.circuit]
	onward := ""
	if len(x.feeds) > 0 {
		onward = " →" + page.NoBreak + strings.Join(x.feeds, ", ")
	}
	lines := p.wrap(strings.TrimSpace(c.Number+" "+c.Name)+onward, p.wide-x.at)
	if len(lines) > 1 && c.Number != "" && r.rows[r.firstOf(x.circuit)].tap != x.tap {
		return p.wrap(c.Number+onward, p.wide-x.at)
	}
	return lines
}

// firstOf is the first row of a circuit.
func (r rail) firstOf(c harness.CircuitID) int {
	return slices.IndexFunc(r.rows, func(x row) bool { return x.circuit == c })
}

// wrap breaks a text to a width; the first line leaves room for sheet and zone.
func (p painter) wrap(s string, wide float64) []string {
	first := typeface.Wrap(s, plain.Face, plain.Size, wide-refWide)
	if len(first) < 2 {
		return first
	}
	return append(first[:1:1], typeface.Wrap(strings.Join(first[1:], " "), plain.Face, plain.Size, wide)...)
}

// row draws a circuit: a stub in its wire's colours, terminal, fuse, name, and where it is drawn.
func (p painter) row(c *sheet.Canvas, b block, x row, y float64) {
	mid := y + rowHigh/2
	base := mid + plain.Size*typeface.CapHeight/2
	at := b.at.X + left(x)
	p.stub(c, x, at, mid)
	c.Text(at+stub, base, x.label, strong)
	words := b.at.X + x.at
	if x.fuse != "" {
		chip(c, words-0.9-chipWide(x.fuse), mid, x.fuse)
	}
	for i, s := range x.words {
		c.Text(words, base+lineHigh*float64(i), s, plain)
	}
	anchor := "circuit/" + p.t.a.H.Circuits[x.circuit].Key
	where := strings.Replace(strings.TrimPrefix(p.t.a.Where(anchor), "sheet "), ", ", " ", 1)
	c.Text(b.at.Right(), base, where, page.Quiet().At(sheet.Right))
	if to := p.t.a.Link(anchor); to != "" {
		c.Link(sheet.Rect{X: words, Y: y, W: b.at.Right() - words, H: rowHigh}, to)
	}
}

// stub draws the first of a circuit's wire.
func (p painter) stub(c *sheet.Canvas, x row, at, y float64) {
	w := p.t.first(x.tap)
	if w < 0 {
		c.Line(at+0.4, y, at+stub-0.6, y, sheet.Solid(sheet.Medium))
		return
	}
	c.Line(at+0.2, y, at+stub-0.6, y, sheet.Solid(1.3))
	shade := sheet.Rule
	if pair := p.t.a.Pair(w); pair.Base != "" {
		shade = page.Shade(pair.Base)
	}
	c.Line(at+0.2, y, at+stub-0.6, y, sheet.Solid(0.8).In(shade))
}

// branches draws the upright lines from a circuit to those that it feeds in turn.
func (p painter) branches(c *sheet.Canvas, b block) {
	var from [8]float64
	y := b.at.Y + b.head
	for i, x := range b.rows {
		mid := y + rowHigh/2
		if d := min(x.deep, len(from)-1); d > 0 {
			if from[d] == 0 {
				from[d] = y
			}
			c.Line(b.at.X+left(x), from[d], b.at.X+left(x), mid, sheet.Solid(sheet.Medium))
			from[d] = mid
		}
		for d := x.deep + 1; d < len(from); d++ {
			from[d] = y + b.highs[i] - 0.6
		}
		y += b.highs[i]
	}
}

// chip is a fuse with its rating, centred on a height.
func chip(c *sheet.Canvas, x, y float64, rating string) {
	const cut = 0.9
	w, h := chipWide(rating), chipHigh/2
	c.Polygon([]sheet.Point{
		{X: x + cut, Y: y - h}, {X: x + w - cut, Y: y - h}, {X: x + w, Y: y - h + cut}, {X: x + w, Y: y + h - cut},
		{X: x + w - cut, Y: y + h}, {X: x + cut, Y: y + h}, {X: x, Y: y + h - cut}, {X: x, Y: y - h + cut},
	}, sheet.Both(sheet.Solid(0.25), sheet.White))
	c.Text(x+w/2, y+sheet.SizeNote*typeface.CapHeight/2, rating, sheet.Strong(sheet.SizeNote).At(sheet.Centre))
}
