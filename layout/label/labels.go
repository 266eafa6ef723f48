// Package label lays out every label at its true size: strips to be cut out, and the
// wires' markers on the shop's own label sheets or roll.
//
// In: page.Ask. Out: the pages, none where nothing is marked. A label loses nothing
// unsaid: what has to lose words stands in full behind the last. Anchor set here: sheet/labels.
package label

import (
	"fmt"
	"maps"
	"math"
	"slices"
	"strings"

	"example.com/loomfolio/layout/frame"
	"example.com/loomfolio/layout/page"
	"example.com/loomfolio/layout/sheet"
	"example.com/loomfolio/layout/table"
	"example.com/loomfolio/layout/typeface"
	"example.com/loomfolio/sizing/fit/fitted"
	"example.com/loomfolio/sizing/fit/marker"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/unit"
)

// lap is the blank strip of a wrapped marker that its other edge lies on, mm.
const lap = 3

// Labels is every label that is cut out of paper, at its true size: the wires' in the order
// of the cut list, both ends side by side, then the fuse panels' and those of all other parts
// that one looks for; last the full text of those that had to lose words.
func Labels(a page.Ask) []frame.Page {
	if len(a.R.Labels) == 0 {
		return nil
	}
	least := "2 mm"
	if a.H.Sheet.Imperial {
		least = "0.08 in"
	}
	b := page.OpenLoose(a.Upright(), "Labels", "sheet/labels", "Print at actual size, \"fit to page\" off. In the order of the cut list, both ends of a wire side by side: cut a wire, take its two markers.")
	b.Remark("Print on paper or film, cut along the lines. A marker says the wire's name and this end's terminal, then → the other end's terminal and part, on both faces; " +
		"where one face is too small for that, one has the terminals and the other the part. Capitals are at least " + least + " high. Text is shortened from the end where it does not fit, and stands in full behind the last label.")
	l := &labels{Ask: a, Book: b}
	on, off := l.shared()
	l.onSheets(on)
	l.onShopLabels(len(on), len(off))
	l.bar()
	for _, group := range l.alike(off) {
		l.wires(group)
	}
	l.panels()
	for _, k := range stuck {
		l.flat(k.head, func(x fitted.Label) bool {
			return x.Kind != fitted.WireLabel && x.Position == "" && slices.Contains(k.kinds, l.H.Parts[x.Part].Kind)
		})
	}
	l.inFull()
	return b.Close()
}

// stuck are the parts that are labelled with what is stuck on, in groups.
var stuck = [...]struct {
	head  string
	kinds []harness.Kind
}{
	{"In-line fuses, breakers, isolators", []harness.Kind{harness.Fuse, harness.Breaker, harness.Isolator}},
	{"Fuse panels and buses", []harness.Kind{harness.FusePanel, harness.Bus}},
	{"Relays and flashers", []harness.Kind{harness.Relay, harness.Flasher, harness.ElectronicFlasher, harness.LatchingRelay, harness.Timer, harness.GlowTimer, harness.Stabiliser}},
	{"Connectors", []harness.Kind{harness.Connector}},
	{"Grounds", []harness.Kind{harness.Ground}},
	{"Splices: round the tube, or on the loom above it", []harness.Kind{harness.Splice}},
	{"Diodes, resistors, capacitors", []harness.Kind{harness.Diode, harness.Resistor, harness.Capacitor}},
}

type labels struct {
	page.Ask
	*page.Book
	short []string // the full text of what lost words
}

// inFull lists what lost words, whole.
func (l *labels) inFull() {
	if len(l.short) == 0 {
		return
	}
	t := &table.Table{Size: sheet.SizeNote, Columns: []table.Column{{Title: "Shortened above; in full", Weight: 1}, {Title: "", Weight: 1}}}
	half := (len(l.short) + 1) / 2
	for i := range half {
		row := table.Row{Cells: []table.Cell{table.Text(l.short[i]), table.Text("")}}
		if half+i < len(l.short) {
			row.Cells[1] = table.Text(l.short[half+i])
		}
		t.Rows = append(t.Rows, row)
	}
	l.Table(t)
}

// bar draws what is measured before anything is cut.
func (l *labels) bar() {
	long, text := 50.0, "This bar is 50 mm long."
	if l.H.Sheet.Imperial {
		long, text = 2*page.MillimetresInInch, "This bar is 2 in long."
	}
	c, x, y := &l.C, l.Room.X, l.Room.Y+1.6
	c.Line(x, y, x+long, y, sheet.Solid(sheet.Medium))
	for _, end := range []float64{x, x + long} {
		c.Line(end, y-1.5, end, y+1.5, sheet.Solid(sheet.Thin))
	}
	c.Text(x+long+3, y+sheet.SizeNote*typeface.CapHeight/2, text+" Measure it before you cut.", sheet.Plain(sheet.SizeNote))
	l.Room = l.Room.Below(l.Room.Y + 5)
}

// next goes to a further page, which has the bar too.
func (l *labels) next() {
	l.Turn()
	l.bar()
}

// head sets a line over a group of labels; what follows needs so much height.
func (l *labels) head(text string, need float64) {
	style := sheet.Strong(sheet.SizeNote)
	lines := typeface.Wrap(text, style.Face, style.Size, l.Room.W)
	if float64(len(lines))*style.Size*typeface.Leading+need+1 > l.Room.H {
		l.next()
	}
	l.Room = l.Room.Below(frame.Paragraph(&l.C, l.Room, text, style) + 0.8)
}

// alike parts the wires' labels, in their order, where the gauge or the make changes;
// sleeves by their size, since one size is printed and shrunk at a time.
func (l *labels) alike(all []fitted.Label) [][]fitted.Label {
	var groups [][]fitted.Label
	for _, x := range all {
		n := len(groups) - 1
		if x.As == fitted.Sleeve {
			n = slices.IndexFunc(groups, func(g []fitted.Label) bool { return g[0].As == x.As && g[0].Tube == x.Tube })
		} else if n >= 0 && (groups[n][0].As != x.As || groups[n][0].Round != x.Round || l.Gauge(groups[n][0].Wire) != l.Gauge(x.Wire)) {
			n = -1
		}
		if n < 0 {
			groups = append(groups, []fitted.Label{x})
			continue
		}
		groups[n] = append(groups[n], x)
	}
	return groups
}

// gauges names the gauges of some labels, each once.
func (l *labels) gauges(group []fitted.Label) string {
	var out []string
	for _, x := range group {
		if g := page.Firm(l.Gauge(x.Wire)); !slices.Contains(out, g) {
			out = append(out, g)
		}
	}
	return strings.Join(out, ", ")
}

// wires sets the markers of one gauge, two by two.
func (l *labels) wires(group []fitted.Label) {
	high := pieceHigh(group[0])
	l.head(page.Dotted(l.gauges(group)+": "+page.Counted(len(group), "marker"), l.how(group[0])), high)
	row := l.rows(high)
	for two := range slices.Chunk(group, 2) {
		wide := 0.0
		for _, one := range two {
			wide += l.wide(one)
		}
		row.keep(wide)
		for _, one := range two {
			l.piece(one, row.next(l.wide(one)))
		}
	}
	row.end()
}

// rows sets labels of one height side by side, row under row, page after page.
type rows struct {
	*labels
	high, x float64 // x: where the next begins; the left edge where a row has none yet
}

func (l *labels) rows(high float64) *rows { return &rows{l, high, l.Room.X} }

// keep begins a new row where what comes, in all so wide, does not go on this one.
func (r *rows) keep(wide float64) {
	if r.x > r.Room.X && r.x+wide > r.Room.Right()+0.01 {
		r.Room = r.Room.Below(r.Room.Y + r.high)
		r.x = r.Room.X
	}
}

// next is the place of a label.
func (r *rows) next(wide float64) sheet.Rect {
	r.keep(wide)
	if r.x == r.Room.X && r.Room.H < r.high {
		r.labels.next()
	}
	at := sheet.Rect{X: r.x, Y: r.Room.Y, W: wide, H: r.high}
	r.x += wide
	return at
}

// end leaves what comes some air.
func (r *rows) end() { r.Room = r.Room.Below(r.Room.Y + r.high + page.Gap/2) }

// how says how a marker is made, and what goes over it.
func (l *labels) how(x fitted.Label) string {
	imperial := l.H.Sheet.Imperial
	tube := x.Tube.Bores(imperial)
	switch x.As {
	case fitted.Sleeve:
		return fmt.Sprintf("for %s sleeve, 2:1, which lies flat %s wide", tube, page.Piece(x.Face, imperial))
	case fitted.Flag:
		return "flags: fold over the wire at the grey band, stick the faces together"
	case fitted.Wrap:
		if x.Tube.Inch == "" {
			return "round the wire, the grey strip under the other edge; clear tape over it"
		}
		return "round the wire, the grey strip under the other edge; clear heat-shrink " + tube + ", 2:1, over it"
	}
	return ""
}

// band is what a label has beside its two faces: the lap, or what goes over the wire.
func band(x fitted.Label) float64 {
	switch x.As {
	case fitted.Wrap:
		return lap
	case fitted.Flag:
		return float64(marker.FlagBand(x.Round))
	}
	return 0
}

func pieceHigh(x fitted.Label) float64 { return 2*float64(x.Face) + band(x) }

func (l *labels) wide(x fitted.Label) float64 {
	return math.Max(float64(x.Long), l.marker(x).least(float64(x.Face), air(x)))
}

// air is the least over a label's first line.
func air(x fitted.Label) float64 {
	if x.OnSheet {
		return labelAir
	}
	return cutAir
}

// marker is a label's text.
func (l *labels) marker(x fitted.Label) wording {
	return wording{page.Firm(x.Name), x.Here, x.There, x.Plain}
}

// set finds the faces of a label, and keeps in mind what it loses.
func (l *labels) set(x fitted.Label, wide, high float64) faces {
	m := l.marker(x)
	f, _ := m.on(wide, high, air(x)) // it is made as wide as least
	if f.short {
		l.short = append(l.short, m.says())
	}
	return f
}

// piece draws one marker: its faces, and the grey band between or below them.
func (l *labels) piece(x fitted.Label, r sheet.Rect) {
	c, high := &l.C, float64(x.Face)
	upper := sheet.Rect{X: r.X, Y: r.Y, W: r.W, H: high}
	lower := sheet.Rect{X: r.X, Y: r.Y + high, W: r.W, H: high}
	grey := sheet.Rect{X: r.X, Y: r.Y + 2*high, W: r.W, H: band(x)}
	if x.As == fitted.Flag {
		grey.Y, lower.Y = r.Y+high, r.Y+high+grey.H
	}
	if grey.H > 0 {
		c.Rect(grey.X, grey.Y, grey.W, grey.H, sheet.Filled(sheet.Pale))
	}
	f := l.set(x, r.W, high)
	if x.As == fitted.Flag {
		f.near.turned(c, upper)
	} else {
		f.near.draw(c, upper)
	}
	f.far.draw(c, lower)
	c.Rect(r.X, r.Y, r.W, r.H, sheet.Outline(sheet.Solid(sheet.Hair).In(sheet.Rule)))
}

// flat sets labels that are stuck on, as many abreast as fit.
func (l *labels) flat(head string, of func(fitted.Label) bool) {
	var some []fitted.Label
	for _, x := range l.R.Labels {
		if of(x) {
			some = append(some, x)
		}
	}
	if len(some) == 0 {
		return
	}
	high := float64(some[0].Face)
	l.head(page.Dotted(head, page.Counted(len(some), "label")), high)
	row := l.rows(high)
	for _, one := range some {
		r := row.next(l.wide(one))
		l.set(one, r.W, high).near.draw(&l.C, r)
		l.C.Rect(r.X, r.Y, r.W, r.H, sheet.Outline(sheet.Solid(sheet.Hair).In(sheet.Rule)))
	}
	row.end()
}

// panels sets the strips under the fuses of each panel, row by row as they are seen.
func (l *labels) panels() {
	at := map[harness.PartID]map[string]fitted.Label{}
	for _, x := range l.R.Labels {
		if x.Kind == fitted.FuseLabel && x.Position != "" {
			if at[x.Part] == nil {
				at[x.Part] = map[string]fitted.Label{}
			}
			at[x.Part][x.Position] = x
		}
	}
	for _, id := range slices.Sorted(maps.Keys(at)) {
		l.panel(&l.H.Parts[id], at[id])
	}
}

func (l *labels) panel(p *harness.Part, at map[string]fitted.Label) {
	pitch, high := 0.0, 0.0
	for _, x := range at { // alike in one panel but for the bodies of its fuses: the widest goes
		pitch, high = math.Max(pitch, float64(x.Long)), float64(x.Face)
	}
	l.head(page.Dotted(l.Named(p), page.Counted(len(at), "label"), "each "+page.Piece(unit.Millimetre(pitch), l.H.Sheet.Imperial)+" wide; what the fuse feeds; blank where no fuse is fitted"), high)
	for _, positions := range p.Panel.Layout {
		row := l.rows(high)
		for _, position := range positions {
			r := row.next(pitch)
			if one, ok := at[position]; ok {
				l.fuse(one, r)
			} else {
				l.C.Text(r.X+labelPad, r.Y+1.4+sheet.SizeBody*typeface.CapHeight, position, sheet.Strong(sheet.SizeBody))
			}
			l.C.Rect(r.X, r.Y, r.W, r.H, sheet.Outline(sheet.Solid(sheet.Hair).In(sheet.Rule)))
		}
		l.Room = l.Room.Below(l.Room.Y + high)
	}
	l.Room = l.Room.Below(l.Room.Y + page.Gap/2)
}

// fuse sets position and rating over what the fuse feeds: all loads, else the circuits
// by name, else as many words as fit.
func (l *labels) fuse(x fitted.Label, r sheet.Rect) {
	const size = sheet.SizeNote
	room, name := r.W-2*labelPad, page.Firm(x.Name)
	large := sheet.SizeBody
	if typeface.Width(name, sheet.Bold, large) > room {
		large = size
	}
	l.C.Text(r.X+labelPad, r.Y+1.4+sheet.SizeBody*typeface.CapHeight, name, sheet.Strong(large))
	y := r.Y + 1.4 + sheet.SizeBody*1.15
	lines := int((r.Bottom() - 0.6 - y) / (size * 1.12))
	words := page.List(", ", page.LoadNames(l.Ask, x.Feeds)...)
	fitted, short := within(words, room, lines)
	if by, lost := within(l.circuits(x), room, lines); short && !lost && by != nil {
		fitted = by
	}
	if short {
		l.short = append(l.short, l.H.Parts[x.Part].Ref+"."+x.Name+"  "+words)
	}
	for _, line := range fitted {
		y += size * 1.12
		l.C.Text(r.X+labelPad, y-size*0.15, line, sheet.Plain(size))
	}
}

// circuits names the circuits of the wires that a fuse protects, each once; "" where it
// protects none.
func (l *labels) circuits(x fitted.Label) string {
	var names []string
	for i := range l.R.Fuses {
		f := &l.R.Fuses[i]
		if f.Part != x.Part || f.Position != x.Position {
			continue
		}
		for _, w := range f.Wires {
			if name := l.H.Circuits[l.H.Wires[w].Circuit].Name; !slices.Contains(names, name) {
				names = append(names, name)
			}
		}
	}
	return strings.Join(names, ", ")
}

// within wraps a text into so many lines at most: words are left out from its end,
// with an ellipsis for them, and a word that is too wide alone is cut before a point;
// it tells whether anything is lost.
func within(s string, room float64, most int) (lines []string, short bool) {
	const size = sheet.SizeNote
	for n, texts := 0, fewer(s); n < len(texts); n++ {
		text := texts[n]
		if n > 0 {
			text += " …"
		}
		cut := typeface.Longest(text, sheet.Regular, size) > room
		if cut {
			text = cutWords(text, room)
		}
		if lines := typeface.Wrap(text, sheet.Regular, size, room); len(lines) <= most {
			return lines, n > 0 || cut
		}
	}
	return nil, s != ""
}

// cutWords cuts each piece that is too wide alone: "Instrumentenbeleuchtung" to "Instrumente.".
func cutWords(s string, room float64) string {
	out := ""
	for _, p := range typeface.Pieces(s) {
		word := []rune(p)
		for typeface.Width(string(word)+".", sheet.Regular, sheet.SizeNote) > room && typeface.Width(p, sheet.Regular, sheet.SizeNote) > room && len(word) > 1 {
			word = word[:len(word)-1]
		}
		if len(word) < len([]rune(p)) {
			p = string(word) + ". "
		}
		out += p
	}
	return out
}
