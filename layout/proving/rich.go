package proving

import (
	"strings"

	"example.com/loomfolio/layout/page"
	"example.com/loomfolio/layout/sheet"
	"example.com/loomfolio/layout/table"
	"example.com/loomfolio/layout/typeface"
)

// run is a stretch of text of one style.
type run struct {
	s     string
	face  sheet.Face
	size  float64
	leads bool // it begins something: set off from what is before it, and kept with the word behind it
}

func strong(s string) run { return run{s: s, face: sheet.Bold, size: sheet.SizeBody} }
func plain(s string) run  { return run{s: s, face: sheet.Regular, size: sheet.SizeBody} }
func small(s string) run  { return run{s: s, face: sheet.Regular, size: sheet.SizeNote} }

// limit is a bold figure with what it holds for behind it.
func limit(s string) run {
	r := strong(strings.ReplaceAll(s, " ", page.NoBreak))
	r.leads = true
	return r
}

func (r run) wide() float64  { return typeface.Width(r.s, r.face, r.size) }
func (r run) blank() float64 { return typeface.Width(" ", r.face, r.size) }

// leading is base line to base line; mostLines stand in one piece.
const (
	leading   = 1.12
	mostLines = 3   // of a paragraph with a letter, which stands before each piece
	mostBoxed = 8   // of one with a box
	apartBy   = 1.2 // before what begins something, mm
)

// line is one line of runs.
type line []run

func (l line) high() float64 {
	h := 0.0
	for _, r := range l {
		h = max(h, r.size*leading)
	}
	return h
}

// rich breaks runs into lines of a width and gives them in pieces that are not parted; where a piece ends
// before all that a limit holds for is said, the limit stands before the rest again.
func rich(runs []run, width float64, most int) []*table.Drawing {
	lines := broken(runs, width)
	var out []*table.Drawing
	var last []run // the limit in force
	for len(lines) > 0 {
		n := cutAt(lines, most)
		out = append(out, piece(lines[:n], width))
		for _, r := range flat(lines[:n]) {
			if r.leads {
				last = []run{r}
			}
		}
		rest := flat(lines[n:])
		if len(rest) > 0 && !rest[0].leads {
			rest = append(last[:len(last):len(last)], rest...)
		}
		if lines = nil; len(rest) > 0 {
			lines = broken(rest, width)
		}
	}
	return out
}

// flat are the runs of some lines.
func flat(lines []line) []run {
	var out []run
	for _, l := range lines {
		out = append(out, l...)
	}
	return out
}

// cutAt is how many lines stand in a piece: all where they are few, else up to where one begins
// something, where that is near enough.
func cutAt(lines []line, most int) int {
	if len(lines) <= most {
		return len(lines)
	}
	for _, n := range []int{most, most - 1, most + 1} {
		if n < len(lines) && lines[n][0].leads {
			return n
		}
	}
	return most
}

func piece(lines []line, width float64) *table.Drawing {
	high := 0.0
	for _, l := range lines {
		high += l.high()
	}
	return &table.Drawing{W: width, H: high, Draw: func(c *sheet.Canvas, area sheet.Rect) {
		y := area.Y
		for _, l := range lines {
			x, base := area.X, y+l.high()/2+l.high()/leading*typeface.CapHeight/2
			for i, r := range l {
				if i > 0 && r.leads {
					x += apartBy
				}
				c.Text(x, base, r.s, sheet.Style{Size: r.size, Face: r.face, Colour: sheet.Ink})
				x += r.wide() + r.blank()
			}
			y += l.high()
		}
	}}
}

// broken breaks runs between words; neighbours of one style are one run again.
func broken(runs []run, width float64) []line {
	var lines []line
	var now line
	used := 0.0
	all := words(runs, width)
	for i, w := range all {
		wide, gap := w.wide(), 0.0
		if w.leads {
			gap = apartBy
		}
		if w.leads && i+1 < len(all) {
			wide += w.blank() + all[i+1].wide()
		}
		kept := i > 0 && all[i-1].leads
		if used > 0 && !kept && used+gap+wide > width {
			lines, now, used = append(lines, now), nil, 0
		}
		if used > 0 {
			used += gap
		}
		used += w.wide() + w.blank()
		if n := len(now); n > 0 && now[n-1].alike(w) {
			now[n-1].s += " " + w.s
		} else {
			now = append(now, w)
		}
	}
	return append(lines, now)
}

// alike tells whether two words are drawn as one.
func (r run) alike(w run) bool { return r.face == w.face && r.size == w.size && !r.leads && !w.leads }

// words are the pieces between which lines are broken; one that is too wide by itself is cut, and what
// begins something is one word where there is room for it with another.
func words(runs []run, width float64) []run {
	var out []run
	for _, r := range runs {
		if r.leads && r.wide() > width/2 {
			r.leads = false
		}
		for w := range strings.SplitSeq(r.s, " ") {
			if w == "" {
				continue
			}
			for _, piece := range typeface.Wrap(w, r.face, r.size, width) {
				out = append(out, run{piece, r.face, r.size, r.leads})
			}
		}
	}
	return out
}

// list is a table of paragraphs with a narrow lead, in columns of one width.
type list struct {
	table.Table
	wide float64 // of the text
}

// padX is left and right of a cell, padY over and under it, mm.
const (
	padX = 0.9
	padY = 0.1
)

// newList opens a list for columns of a width.
func newList(column, lead float64) *list {
	l := &list{wide: column - lead - 2*padX}
	l.Table = table.Table{Tight: true, Even: true, Pad: padY, NoHead: true, NoZebra: true, Columns: []table.Column{{Min: lead, Max: lead}, {}}}
	return l
}

// add sets a paragraph, in several rows where it is high; a letter before it stands before each.
func (l *list) add(lead table.Cell, runs ...run) {
	most := mostLines
	if lead.Draw != nil {
		most = mostBoxed
	}
	for _, d := range rich(runs, l.wide, most) {
		l.Rows = append(l.Rows, table.Row{Cells: []table.Cell{lead, {Draw: d}}})
		lead.Draw = nil
	}
}

// head is a heading of a part of the work with what to see to under it.
func (l *list) head(text, remark string) {
	l.Rows = append(l.Rows,
		table.Row{Kind: table.Group, Cells: []table.Cell{{S: text, Size: sheet.SizeHead}}},
		table.Row{Cells: []table.Cell{{Note: remark, Span: 2}}})
}

// sub is a heading within it; a remark stands under it.
func (l *list) sub(text, remark string) {
	l.Rows = append(l.Rows, table.Row{Kind: table.Group, Cells: []table.Cell{{S: text, Note: remark}}})
}
