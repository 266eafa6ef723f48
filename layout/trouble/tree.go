package trouble

import (
	"cmp"
	"math"
	"slices"

	"example.com/loomfolio/layout/cause"
	"example.com/loomfolio/layout/page"
	"example.com/loomfolio/layout/sheet"
	"example.com/loomfolio/layout/typeface"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/proof"
)

// Sizes of a tree, mm.
const (
	treeLine  = 4.6  // a line of it
	boxHigh   = 3.9  // a point
	boxPad    = 1.2  // beside its name
	twig      = 3.0  // of line before and behind a reading
	leafLeast = 24.0 // width of what is left at the end, where it is not shorter
	treeGap   = 2.0  // under a tree
)

// leastProbes is from how many readings on a tree is worth its paper: fewer stand with the circuit.
const leastProbes = 3

// setTrees draws the trees that ask most, as many as have room on the sheet that is begun: two
// abreast, a wide one over the whole width.
func (t teller) setTrees(s *page.Book) {
	head := sheet.SizeHead*typeface.Leading + page.TextHeight(treeKey, page.Quiet(), s.Room.W) + 5
	cards := t.treeCards(s.Room.W, s.Room.H-head)
	if len(cards) == 0 {
		return
	}
	s.Head2("Next reading", treeKey, 0)
	s.Cards(treesAbreast, page.ColumnGap, treeGap, cards)
}

// treesAbreast is how many trees stand side by side.
const treesAbreast = 2

// treeCards are the trees that have room in a height, the hardest first.
func (t teller) treeCards(room, high float64) []page.Card {
	wide := page.ColumnWide(room, treesAbreast, page.ColumnGap)
	var cards []page.Card
	for _, tree := range t.worthy() {
		b := t.branch(tree.Root, wide)
		if b.least() > wide {
			continue
		}
		title := typeface.Wrap(t.called([]harness.ElementID{tree.Load}, 1), strong.Face, strong.Size, wide)
		under := strong.Size * leading * float64(len(title))
		c := page.Card{High: under + b.high(), Draw: func(c *sheet.Canvas, r sheet.Rect) {
			for i, line := range title {
				c.Text(r.X, base(r.Y+strong.Size*leading*float64(i), strong.Size), line, strong)
			}
			b.draw(c, r.X, r.Y+under)
		}}
		if more := append(slices.Clip(cards), c); page.Even(more, treesAbreast, treeGap) <= high {
			cards = more
		}
	}
	return cards
}

// treeKey says how a tree is read.
const treeKey = "Load connected and on. Read at the box, follow the line of what the meter shows; at its end stands what is left, the likeliest first."

// worthy are the trees of most readings, the hardest first.
func (t teller) worthy() []proof.Tree {
	out := slices.DeleteFunc(slices.Clone(t.R.Proof.Trees), func(x proof.Tree) bool { return x.Root == nil || x.Most < leastProbes })
	slices.SortStableFunc(out, func(a, b proof.Tree) int {
		return cmp.Or(cmp.Compare(b.Most, a.Most), cmp.Compare(b.Entropy, a.Entropy))
	})
	return out
}

// branch is a probe as it is drawn, its answers one under the other; or what is left at an end.
type branch struct {
	name    string  // of the point
	wide    float64 // of the box, or of what is left
	answers []string
	label   float64 // the widest answer
	next    []branch
	leaf    []string
}

// branch lays out a probe in a width; where no room is left for a further reading, what remains
// of the suspects stands there.
func (t teller) branch(p *proof.Probe, room float64) branch {
	b := branch{name: t.say.Probe(p)}
	b.wide = typeface.Width(b.name, brief.Face, brief.Size) + 2*boxPad
	for _, a := range p.Answers {
		s := cause.Band(a.Low, a.High)
		b.answers = append(b.answers, s)
		b.label = math.Max(b.label, typeface.Width(s, note.Face, note.Size))
	}
	room -= b.wide + b.label + 2*twig
	for _, a := range p.Answers {
		if a.Next != nil {
			if next := t.branch(a.Next, room); next.least() <= room {
				b.next = append(b.next, next)
				continue
			}
		}
		b.next = append(b.next, t.leaf(a.Left, room))
	}
	return b
}

// leaf is what is left at an end, in a width.
func (t teller) leaf(faults []int, room float64) branch {
	b := branch{leaf: typeface.Wrap(t.found(faults), note.Face, note.Size, math.Max(room, leafLeast))}
	for _, s := range b.leaf {
		b.wide = math.Max(b.wide, typeface.Width(s, note.Face, note.Size))
	}
	return b
}

// least is the width that a branch needs.
func (b branch) least() float64 {
	if b.leaf != nil {
		return b.wide
	}
	wide := 0.0
	for _, n := range b.next {
		wide = math.Max(wide, n.least())
	}
	return wide + b.wide + b.label + 2*twig
}

func (b branch) high() float64 {
	if b.leaf != nil {
		return treeLine + note.Size*leading*float64(len(b.leaf)-1)
	}
	h := 0.0
	for _, n := range b.next {
		h += n.high()
	}
	return math.Max(h, treeLine)
}

// draw sets a branch with its top left corner at a place.
func (b branch) draw(c *sheet.Canvas, x, y float64) {
	if b.leaf != nil {
		for i, s := range b.leaf {
			c.Text(x, base(y+(treeLine-note.Size*leading)/2, note.Size)+note.Size*leading*float64(i), s, note)
		}
		return
	}
	middle := y + treeLine/2
	c.RoundRect(x, middle-boxHigh/2, b.wide, boxHigh, 1, sheet.Both(sheet.Solid(sheet.Medium), sheet.White))
	c.Text(x+b.wide/2, base(middle-brief.Size*leading/2, brief.Size), b.name, brief.At(sheet.Centre))
	stem := x + b.wide + twig/2
	last := middle
	for i, n := range b.next {
		at := y + treeLine/2
		c.Line(stem, at, stem+twig/2, at, sheet.Solid(sheet.Thin))
		c.Text(stem+twig/2+0.5, base(at-note.Size*leading/2, note.Size), b.answers[i], note)
		if n.leaf == nil {
			c.Line(stem+twig/2+1+typeface.Width(b.answers[i], note.Face, note.Size)+0.5, at, x+b.wide+b.label+2*twig, at, sheet.Solid(sheet.Thin))
		}
		n.draw(c, x+b.wide+b.label+2*twig, y)
		last = at
		y += n.high()
	}
	c.Line(x+b.wide, middle, stem, middle, sheet.Solid(sheet.Thin))
	c.Line(stem, middle, stem, last, sheet.Solid(sheet.Thin))
}
