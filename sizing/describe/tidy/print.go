package tidy

import (
	"slices"
	"strings"
	"unicode/utf8"

	"example.com/loomfolio/sizing/describe/read"
)

// Widths of the sheet, in characters.
const (
	wide    = 140 // a part, a leg or a list in one line
	widest  = 160 // with the comment behind it
	aligned = 14  // names up to here are followed by blanks up to the longest of them
	apart   = 3   // blanks before a comment behind a line
)

// line is a line of the tidied text.
type line struct {
	text string
	side string // the comment behind it
}

// printer writes a description line by line.
type printer struct{ lines []line }

func width(s string) int { return utf8.RuneCountInString(s) }

func pad(n int) string { return strings.Repeat(" ", n) }

// say adds a line.
func (p *printer) say(text string) { p.lines = append(p.lines, line{text: text}) }

// remarks adds comments with lines of their own.
func (p *printer) remarks(in int, lines []string) {
	for _, l := range lines {
		if l == "" {
			p.gap()
		} else {
			p.say(pad(in) + l)
		}
	}
}

// gap adds an empty line where none is.
func (p *printer) gap() {
	if n := len(p.lines); n > 0 && p.lines[n-1].text != "" {
		p.say("")
	}
}

// box writes the entries of a mapping or list, a line each at least.
func (p *printer) box(b *box, in int, s section) {
	var columns []int
	if s.named {
		columns = b.columns(s)
	}
	multi := false
	for i, e := range b.entries {
		mine := printer{}
		lead := pad(in) + "-"
		if e.key != nil {
			lead = pad(in) + keyText(e.key, false)
			if columns != nil {
				lead += pad(columns[i] - width(keyText(e.key, false)))
			}
		}
		mine.entry(e, lead, in, s.under(e))
		more := len(mine.lines) > 1
		if i > 0 && (e.above() || s.depth == 0 && (more || multi)) {
			p.gap()
		}
		p.remarks(in, e.before)
		if e.gap && len(e.before) > 0 {
			p.gap()
		}
		p.lines = append(p.lines, mine.lines...)
		p.remarks(in, e.after)
		if len(e.after) > 0 && i+1 < len(b.entries) {
			p.gap()
		}
		multi = more
	}
	p.remarks(in, b.tail)
}

// above tells whether an empty line stands above an entry and its comments.
func (e *entry) above() bool {
	return len(e.before) > 0 && e.before[0] == "" || len(e.before) == 0 && e.gap
}

// columns gives for each entry how wide its key and the blanks behind it are: what is
// in brackets begins in one column as far as the next empty line or comment.
func (b *box) columns(s section) []int {
	out := make([]int, len(b.entries))
	from, most := 0, 0
	for i, e := range b.entries {
		if i > 0 && (e.gap || len(e.before) > 0) {
			from, most = i, 0
		}
		out[i] = width(keyText(e.key, false))
		if !bracketed(e, s) || out[i] > aligned {
			continue
		}
		most = max(most, out[i])
		for j := from; j <= i; j++ {
			if bracketed(b.entries[j], s) && out[j] <= aligned {
				out[j] = most
			}
		}
	}
	return out
}

// bracketed tells whether an entry is a mapping or list that stands in the line of its key.
func bracketed(e *entry, s section) bool {
	if e.value.Shape != read.Pairs && e.value.Shape != read.Series {
		return false
	}
	_, ok := short(e, s.under(e), aligned)
	return ok
}

// short gives a value in one line, where it may and can stand in one.
func short(e *entry, s section, lead int) (string, bool) {
	if e.in != nil && s.inLines(e.in) {
		return "", false
	}
	out, ok := flat(e, false)
	if ok && e.in != nil && lead+1+width(out) > wide {
		return "", false
	}
	return out, ok
}

// entry writes an entry behind its key or dash.
func (p *printer) entry(e *entry, lead string, in int, s section) {
	bare := width(strings.TrimRight(lead, " "))
	if out, ok := short(e, s, bare); ok {
		p.say(strings.TrimRight(lead+" "+out, " "))
		p.beside(e)
		return
	}
	lead = strings.TrimRight(lead, " ")
	switch {
	case e.in == nil:
		p.lengthy(e, lead, in)
	case e.value.Shape == read.Series && e.in.fills(s):
		p.fill(e, lead, in)
	case e.key == nil && e.value.Shape == read.Pairs && e.value.Marks == "":
		p.dashed(e, in, s)
	default:
		p.say(strings.TrimRight(lead+" "+e.value.Marks, " "))
		p.beside(e)
		p.box(e.in, in+2, s)
	}
}

// beside puts the comments behind a value's last line there, above it where there are
// several or where they would stand too far out.
func (p *printer) beside(e *entry) {
	if len(e.side) == 0 {
		return
	}
	last := &p.lines[len(p.lines)-1]
	side := e.side[len(e.side)-1]
	e.lift(e.side[:len(e.side)-1])
	e.side = nil
	if width(last.text)+apart+width(side) > widest {
		e.lift([]string{side})
		return
	}
	last.side = side
}

// lift puts comments in lines of their own above an entry.
func (e *entry) lift(comments []string) {
	if len(comments) > 0 && len(e.before) == 0 && e.gap {
		e.before, e.gap = []string{""}, false
	}
	e.before = append(e.before, comments...)
}

// dashed writes a mapping that is a list's item, its first key behind the dash.
func (p *printer) dashed(e *entry, in int, s section) {
	first := e.in.entries[0]
	e.lift(append(first.lines(), e.side...))
	first.before, first.gap, e.side = nil, false, nil
	mine := printer{}
	mine.box(e.in, in+2, s)
	for comment := strings.TrimSpace(mine.lines[0].text); strings.HasPrefix(comment, "#"); comment = strings.TrimSpace(mine.lines[0].text) {
		e.lift([]string{comment})
		mine.lines = mine.lines[1:]
	}
	mine.lines[0].text = pad(in) + "-" + mine.lines[0].text[in+1:]
	p.lines = append(p.lines, mine.lines...)
}

// lines gives the comments above an entry without empty lines.
func (e *entry) lines() []string {
	return slices.DeleteFunc(slices.Clone(e.before), func(l string) bool { return l == "" })
}

// lengthy writes a single value over more than one line.
func (p *printer) lengthy(e *entry, lead string, in int) {
	w := e.value
	head := strings.TrimRight(lead+" "+w.Marks, " ") + " "
	if w.Text[0] == '|' || w.Text[0] == '>' {
		p.say(head + headOf(w.Text))
		p.beside(e)
		for _, l := range strings.Split(strings.TrimSuffix(w.Body, "\n"), "\n") {
			if l != "" {
				l = pad(in+2) + l
			}
			if w.Body != "" {
				p.lines = append(p.lines, line{text: l})
			}
		}
		return
	}
	for i, l := range strings.Split(w.Text, "\n") {
		switch {
		case i == 0:
			p.say(head + l)
		case l == "":
			p.lines = append(p.lines, line{})
		default:
			p.say(pad(in+2) + l)
		}
	}
	p.beside(e)
}

// headOf gives the head of a text written with | or >; where it tells its own indent,
// that of the tidied text.
func headOf(head string) string {
	return strings.Map(func(c rune) rune {
		if c >= '0' && c <= '9' {
			return '2'
		}
		return c
	}, head)
}
