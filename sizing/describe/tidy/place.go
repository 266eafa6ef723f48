package tidy

import (
	"example.com/loomfolio/sizing/describe/read"
)

// entry is one key with its value, or one item of a list, with what is said beside it.
type entry struct {
	key    *read.Written // nil of a list's item
	value  *read.Written
	in     *box     // the entries of the value
	before []string // comments above it; "" is an empty line
	side   []string // comments behind it
	after  []string // comments right below it, with an empty line under them
	gap    bool     // an empty line stands above it
}

// box is a mapping or a list.
type box struct {
	of      *read.Written
	entries []*entry
	tail    []string // comments below the last entry
}

// boxed makes the boxes of a value; nil for one that has no entries.
func boxed(w *read.Written) *box {
	if len(w.Items) == 0 {
		return nil
	}
	b := &box{of: w}
	for i, x := range w.Items {
		e := &entry{value: x, in: boxed(x)}
		if w.Shape == read.Pairs {
			e.key = w.Keys[i]
		}
		b.entries = append(b.entries, e)
	}
	return b
}

// start is where an entry begins.
func (e *entry) start() read.Point {
	if e.key != nil {
		return e.key.Start
	}
	return e.value.Start
}

// open tells of a value that its entries stand in lines of their own.
func (e *entry) open() bool { return e.in != nil && !e.value.Flow }

// placer gives every comment to the entry that it stands beside.
type placer struct {
	lines []string
	own   map[int]read.Comment // those with a line of their own, by line
	below map[int]*entry       // of the last line of comments right below an entry
}

func place(s *read.Sheet, root *box) {
	p := &placer{lines: s.Lines, own: map[int]read.Comment{}, below: map[int]*entry{}}
	for _, c := range s.Comments {
		if c.Own {
			p.own[c.At.Line] = c
		}
	}
	p.gaps(root)
	for _, c := range s.Comments {
		p.put(c, root)
	}
}

// gaps notes the empty lines above entries.
func (p *placer) gaps(b *box) {
	for _, e := range b.entries {
		e.gap = !b.of.Flow && p.empty(e.start().Line-1)
		if e.in != nil {
			p.gaps(e.in)
		}
	}
}

// empty tells of a line, from 1, that nothing stands in it.
func (p *placer) empty(line int) bool {
	return line >= 1 && line <= len(p.lines) && blank(p.lines[line-1])
}

func blank(line string) bool {
	for _, c := range line {
		if c != ' ' && c != '\t' {
			return false
		}
	}
	return true
}

// put gives a comment to an entry of a box.
func (p *placer) put(c read.Comment, b *box) {
	i := -1
	for j, e := range b.entries {
		if !c.At.Before(e.start()) {
			i = j
		}
	}
	if i < 0 {
		p.above(c, b.entries[0])
		return
	}
	e := b.entries[i]
	switch {
	case c.At.Before(e.value.Start) || c.At.Before(e.value.End):
		p.within(c, e)
	case e.open() && (c.Own && c.At.Column > b.of.Indent+1 || !c.Own && c.At.Line == e.value.End.Line):
		p.put(c, e.in)
	case c.Own:
		p.between(c, b, i)
	case c.At.Line != e.value.End.Line && i+1 < len(b.entries):
		p.above(c, b.entries[i+1])
	default:
		e.side = append(e.side, c.Text)
	}
}

// above gives an entry a comment that stands before it.
func (p *placer) above(c read.Comment, e *entry) {
	if !c.Own {
		e.side = append(e.side, c.Text)
		return
	}
	if p.empty(c.At.Line - 1) {
		if len(e.before) == 0 {
			e.before = nil
		}
		e.before = append(e.before, "")
	}
	e.before = append(e.before, c.Text)
}

// within gives a comment to an entry that begins before it and ends behind it.
func (p *placer) within(c read.Comment, e *entry) {
	switch {
	case e.in != nil && (c.Own || !c.At.Before(e.value.Start)):
		p.put(c, e.in)
	case c.Own:
		p.above(c, e)
	default:
		e.side = append(e.side, c.Text)
	}
}

// between gives a comment with a line of its own to the entry below it; to the one
// above it where it stands right under that and apart from what follows.
func (p *placer) between(c read.Comment, b *box, i int) {
	if i+1 == len(b.entries) {
		if p.empty(c.At.Line - 1) {
			b.tail = append(b.tail, "")
		}
		b.tail = append(b.tail, c.Text)
		return
	}
	e := b.entries[i]
	if p.below[c.At.Line-1] == e && e != nil || c.At.Line == e.value.End.Line+1 && p.apart(c.At.Line) {
		e.after = append(e.after, c.Text)
		p.below[c.At.Line] = e
		return
	}
	p.above(c, b.entries[i+1])
}

// apart tells of the comments from a line on that an empty line follows them.
func (p *placer) apart(line int) bool {
	for p.own[line].Text != "" {
		line++
	}
	return p.empty(line)
}
