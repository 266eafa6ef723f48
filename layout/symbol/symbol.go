// Package symbol is the symbol set of the circuit diagrams: every kind of part
// drawn as a tile of vectors on one grid (2.5 mm) with one line weight.
//
// A tile shows a pictogram of what the part does, its reference in bold, its
// plain name and place, and its terminals as tabs with their numbers, where wires
// land. The edge tells the role, so that a photocopy keeps it: a heavy left edge
// for supplies, cut corners for protection, open sides for contacts (drawn at
// rest), round corners for loads, a hatched foot for grounds, a plain edge for the
// rest. Current comes in at the left and leaves at the right.
//
// In: a part of the model with the terminals that one sheet uses. Out: a Tile,
// marks and pins from its top left corner, mm. All shapes are our own; the ground
// foot, battery plates, lamp cross and motor circle are signs of the whole trade.
package symbol

import (
	"math"
	"slices"
	"strings"

	"example.com/loomfolio/layout/sheet"
	"example.com/loomfolio/layout/typeface"
	"example.com/loomfolio/sizing/harness"
)

// The grid and the sizes that all tiles share, mm.
const (
	Grid   = 2.5
	leads  = 4.1  // height of a line of a caption
	noted  = 3.3  // of a second line
	row    = 6.25 // from a tile's edge to its first row and from its last
	tab    = 5.0  // height of a tab, and its least width
	weight = 0.35
	text   = sheet.SizeBody
)

// Side is the edge on which a wire lands.
type Side int

// The sides.
const (
	West Side = iota
	East
)

// Use is a terminal as one sheet uses it: how many wires arrive at it and how
// many leave it there. A terminal with none is drawn as an empty tab.
type Use struct {
	Terminal harness.TerminalID
	Name     string
	In, Out  int
	Volts    []string // what a meter reads there, line by line, under the tab
	Says     string   // of a panel's position: its fuse
	Body     bool     // the part's own body grounds it: no wire lands there
}

func (u Use) landings() int { return u.In + u.Out }

// Pin is where one wire lands.
type Pin struct {
	Terminal harness.TerminalID
	Side     Side
	X, Y     float64
}

// Tile is a part drawn: its footprint with the caption, its pins and its marks.
type Tile struct {
	W, H  float64
	Pins  []Pin
	Box   sheet.Rect   // the tile without its caption and tabs
	Solid []sheet.Rect // what tile and words cover; flags may stand beside it
	Marks []sheet.Mark
}

// Form says where the caption stands and how far apart the rows of wires are.
type Form struct {
	Beside bool // caption to the right of the pictogram: wide and flat; else below it
	Wide   bool // words beside a tile in longer lines
	Narrow bool // captions broken into shorter lines, and the names of positions upright
	Short  bool // captions broken into somewhat shorter lines
	Pitch  float64
}

// Line is one line of a caption; what follows the lead of a Note is set smaller. Ref is an anchor whose sheet and zone follow
// the text; such a line is not broken, nor is one with Items, which follow the text
// and lead each to a place of its own.
type Line struct {
	Lead  string // bold, before the text
	S     string
	Bold  bool
	Grey  bool
	Note  bool
	Ref   string
	Items []Item
}

// Item is a part of a line that leads to an anchor.
type Item struct{ S, Target string }

// words is the line as it reads behind its lead.
func (l Line) words() string {
	s := l.S
	for i, it := range l.Items {
		if i > 0 {
			s += ", "
		}
		s += it.S
	}
	return s
}

// Put sets a line on a canvas with its links.
func (l Line) Put(c *sheet.Canvas, x, y float64, at sheet.Align) {
	switch wide := l.Width(); at {
	case sheet.Centre:
		x -= wide / 2
	case sheet.Right:
		x -= wide
	}
	if l.Lead != "" {
		c.Text(x, y, l.Lead, sheet.Strong(text))
		x += typeface.Width(l.Lead, sheet.Bold, text) + leadGap
	}
	c.Text(x, y, l.words(), l.style())
	high := l.size() * typeface.CapHeight
	done := l.S
	for i, it := range l.Items {
		if i > 0 {
			done += ", "
		}
		from := typeface.Width(done, l.face(), l.size())
		done += it.S
		c.Link(sheet.Rect{X: x + from, Y: y - high - 0.5, W: typeface.Width(done, l.face(), l.size()) - from, H: high + 1}, it.Target)
	}
}

// widestWhere is the reference for which room is kept.
const widestWhere = "sheet 88, C8"

// Mark stands in a text for the reference to an anchor until sheets are numbered;
// Resolve puts in what is known then.
func Mark(anchor string) string { return "@{" + anchor + "}" }

// Resolve gives a text with its reference put in, and the anchor that it names.
func Resolve(s string, where func(anchor string) string) (text, anchor string) {
	before, rest, ok := strings.Cut(s, "@{")
	if !ok {
		return s, ""
	}
	anchor, after, _ := strings.Cut(rest, "}")
	return strings.TrimSpace(before + where(anchor) + after), anchor
}

// Width is the width of a text with room for the longest reference in it.
func Width(s string, face sheet.Face, size float64) float64 {
	full, _ := Resolve(s, func(string) string { return widestWhere })
	return typeface.Width(full, face, size)
}

// Caption gives a part's reference with its plain name, and its place behind further
// words, joined while they fit.
func Caption(ref, name, place string, more ...string) []Line {
	if name == ref {
		name = ""
	}
	out := []Line{{Lead: ref, S: name}}
	for _, s := range append(more, place) {
		last := len(out) - 1
		switch joint := out[last].S + " · " + s; {
		case s == "":
		case last > 0 && typeface.Width(joint, sheet.Regular, sheet.SizeNote) <= captionWidth:
			out[last] = Line{S: joint, Note: true}
		default:
			out = append(out, Line{S: s, Grey: s == place, Note: true})
		}
	}
	return out
}

// longestWord is how wide a word of a caption may be that is not broken, mm.
const longestWord = 60

// wrap breaks the lines of a caption to a width, or to the widest word's.
func wrap(lines []Line, width float64) []Line {
	var out []Line
	for _, l := range lines {
		for _, word := range strings.Fields(l.S) {
			width = math.Max(width, math.Min(typeface.Width(word, l.face(), l.size()), longestWord))
		}
	}
	for _, l := range joinNotes(lines, width) {
		if l.Ref != "" {
			out = append(out, Line{S: l.S + Mark(l.Ref), Bold: l.Bold, Grey: l.Grey})
			continue
		}
		if l.Lead != "" && (l.S == "" || l.Width() <= width) || len(l.Items) > 0 {
			out = append(out, l)
			continue
		}
		out = append(out, l.broken(width)...)
	}
	return out
}

// joinNotes puts second lines one behind the other where both fit a width.
func joinNotes(lines []Line, width float64) []Line {
	var out []Line
	for _, l := range lines {
		if last := len(out) - 1; last >= 0 {
			if both, ok := out[last].with(l); ok && both.Width() <= width {
				out[last] = both
				continue
			}
		}
		out = append(out, l)
	}
	return out
}

// with is a second line with the next behind it; a list's next items need no dot between.
func (l Line) with(next Line) (Line, bool) {
	switch {
	case !l.Note || !next.Note || l.Lead != "" || next.Lead != "" || l.Ref != "" || next.Ref != "":
		return l, false
	case len(l.Items) > 0 && next.S == "":
		l.Items = append(slices.Clone(l.Items), next.Items...)
		return l, true
	case len(l.Items) > 0:
		return l, false
	}
	next.S, next.Grey = l.S+" · "+next.S, l.Grey && next.Grey
	return next, true
}

// broken is a line broken to a width: behind its lead where that saves a line, else its
// lead stands alone.
func (l Line) broken(width float64) []Line {
	apart := l.in(atBlanks(l.S, l.face(), l.size(), width, 0))
	switch {
	case l.Lead == "":
		return apart
	case l.Note:
		return append([]Line{{Lead: l.Lead}}, apart...)
	}
	indent := typeface.Width(l.Lead, sheet.Bold, text) + leadGap
	joint := l.in(atBlanks(l.S, l.face(), l.size(), width, indent))
	if first := joint[0].S; len(joint) <= len(apart) && indent+typeface.Width(first, l.face(), l.size()) <= width {
		joint[0].Lead = l.Lead
		return joint
	}
	return append([]Line{{Lead: l.Lead}}, apart...)
}

// in are texts in lines like this one.
func (l Line) in(texts []string) []Line {
	var out []Line
	for _, s := range texts {
		out = append(out, Line{S: s, Bold: l.Bold, Grey: l.Grey, Note: l.Note})
	}
	return out
}

// atBlanks breaks a text at its blanks, and inside a word only where that alone is too
// wide; its first line is indented.
func atBlanks(s string, face sheet.Face, size, width, indent float64) []string {
	var out []string
	for _, word := range strings.Fields(s) {
		room := width
		if len(out) == 1 {
			room -= indent
		}
		if last := len(out) - 1; last >= 0 && typeface.Width(out[last]+" "+word, face, size) <= room {
			out[last] += " " + word
			continue
		}
		out = append(out, typeface.Wrap(word, face, size, math.Max(width, math.Min(typeface.Width(word, face, size), longestWord)))...)
	}
	return out
}

// size is that of a line's words behind its lead.
func (l Line) size() float64 {
	if l.Note {
		return sheet.SizeNote
	}
	return text
}

// high is a line's height.
func (l Line) high() float64 {
	if l.Note && l.Lead == "" {
		return noted
	}
	return leads
}

// highOf is the height of some lines.
func highOf(lines []Line) float64 {
	sum := 0.0
	for _, l := range lines {
		sum += l.high()
	}
	return sum
}

// putAll sets lines one under another from a height on.
func (c *canvas) putAll(lines []Line, x, y float64, at sheet.Align) {
	for _, l := range lines {
		l.Put(&c.Canvas, x, y+0.2*l.high()+0.2+capital(l), at)
		y += l.high()
	}
}

// capital is the height of a line's capitals.
func capital(l Line) float64 {
	if l.Lead != "" {
		return text * typeface.CapHeight
	}
	return l.size() * typeface.CapHeight
}

func (l Line) face() sheet.Face {
	if l.Bold {
		return sheet.Bold
	}
	return sheet.Regular
}

func (l Line) style() sheet.Style {
	s := sheet.Style{Size: l.size(), Face: l.face(), Colour: sheet.Ink}
	if l.Grey {
		s.Colour = sheet.Grey
	}
	return s
}

func widest(lines []Line) float64 {
	w := 0.0
	for _, l := range lines {
		w = math.Max(w, l.Width())
	}
	return w
}

// leadGap is the white behind the bold beginning of a line, mm.
const leadGap = 1.2

// Width is the width of a line with room for the longest reference in it.
func (l Line) Width() float64 {
	w := Width(l.words(), l.face(), l.size())
	if l.Lead != "" {
		w += typeface.Width(l.Lead, sheet.Bold, text)
		if l.words() != "" {
			w += leadGap
		}
	}
	return w
}

// ceil rounds up to half the grid.
func ceil(mm float64) float64 { return math.Ceil(2*mm/Grid-1e-9) * Grid / 2 }
