package tidy

import (
	"strings"
)

// fills tells of a list that it is written in brackets and wrapped where it is too
// long for a line: a leg, or a list of words.
func (b *box) fills(s section) bool {
	if s.inLines(b) {
		return false
	}
	words := s.path == "circuits.legs"
	for _, e := range b.entries {
		plain := entry{value: e.value, in: e.in}
		if !bareable(&plain) {
			return false
		}
		words = words || e.in == nil
	}
	return words
}

// bareable tells whether a value can stand in one line once the comments in it have
// gone to lines of their own.
func bareable(e *entry) bool {
	if e.in == nil {
		_, ok := flat(e, true)
		return ok
	}
	for _, x := range e.in.entries {
		if !bareable(&entry{value: x.value, in: x.in}) {
			return false
		}
	}
	return true
}

// fill writes a list in brackets, as many items a line as go on it. A comment ends
// its line.
func (p *printer) fill(e *entry, lead string, in int) {
	f := filler{p: p, in: in + 3, line: lead + " " + strings.TrimLeft(e.value.Marks+" [", " ")}
	if e.key != nil {
		f.in = in + 4
	}
	f.fresh = true
	for i, x := range e.in.entries {
		before, side := x.lines(), x.side
		x.before, x.side = nil, nil
		if inner := x.comments(); len(inner) > 0 {
			side = append(side, inner...)
		}
		if n := len(side); n > 1 {
			before, side = append(before, side[:n-1]...), side[n-1:]
		}
		out, _ := flat(x, true)
		if i+1 < len(e.in.entries) {
			out += ","
		}
		f.item(before, out, side)
	}
	for _, l := range e.in.tail {
		if l != "" {
			f.remark(l)
		}
	}
	f.shut()
	p.beside(e)
}

// filler fills lines with items.
type filler struct {
	p     *printer
	in    int
	line  string
	fresh bool // nothing stands behind the bracket or indent yet
}

// end ends the line, with a comment behind it where there is one.
func (f *filler) end(side string) {
	if strings.TrimSpace(f.line) == "" {
		return
	}
	f.p.lines = append(f.p.lines, line{strings.TrimRight(f.line, " "), side})
	f.line, f.fresh = pad(f.in), true
}

func (f *filler) remark(text string) {
	f.end("")
	f.p.say(pad(f.in) + text)
}

func (f *filler) item(before []string, out string, side []string) {
	for _, l := range before {
		f.remark(l)
	}
	comment := 0
	if len(side) > 0 {
		comment = apart + width(side[0])
	}
	if full := width(f.line) + 1 + width(out); !f.fresh && (full > wide || comment > 0 && full+comment > widest) {
		f.end("")
	}
	if comment > 0 && f.in+width(out)+comment > widest {
		f.remark(side[0])
		side = nil
	}
	if !f.fresh {
		f.line += " "
	}
	f.line, f.fresh = f.line+out, false
	if len(side) > 0 {
		f.end(side[0])
	}
}

// shut closes the bracket.
func (f *filler) shut() {
	f.p.lines = append(f.p.lines, line{text: f.line + "]"})
}
