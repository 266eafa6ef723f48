// Package faces lays out the connectors as one stands before them: both halves from the
// wire side and the mating side, cavity by cavity, beside a list of where each wire goes.
// Where nobody said how the cavities lie, nothing is drawn: there is the list alone.
//
// In: page.Ask. Out: the pages, none where nothing has a plug. Anchors set here:
// sheet/connectors, connector/REF. All lengths are mm.
package faces

import (
	"fmt"
	"strings"

	"example.com/loomfolio/layout/frame"
	"example.com/loomfolio/layout/page"
	"example.com/loomfolio/layout/sheet"
	"example.com/loomfolio/layout/table"
	"example.com/loomfolio/sizing/harness"
)

// ConnectorFaces shows both halves of each connector as one stands before them,
// from the wire side and from the mating side, cavity by cavity, and beside them a
// list with where each wire goes; then the plugs of modules.
func ConnectorFaces(a page.Ask) []frame.Page {
	plugs := plugged(a)
	if len(plugs) == 0 {
		return nil
	}
	s := page.Open(a.Upright(), "Connectors", "sheet/connectors", subtitle(plugs))
	for len(plugs) > 0 {
		n := 1
		for n < len(plugs) && listed(plugs[0]) && listed(plugs[n]) && plugs[0].Kind == plugs[n].Kind && !plugs[n].Picture.There() {
			n++
		}
		switch {
		case !listed(plugs[0]):
			connector(a, s, plugs[0])
		case plugs[0].Kind == harness.Connector && plugs[0].Picture.There():
			n = 1
			pictured(a, s, plugs[0])
		case plugs[0].Kind == harness.Connector:
			s.Table(listTable(a, plugs[:n]))
		default:
			modules(a, s, plugs[:n])
		}
		plugs = plugs[n:]
	}
	return s.Close()
}

// listed tells whether there is a list alone, since nobody said how the cavities lie.
func listed(p *harness.Part) bool { return len(p.Rows) == 0 }

// subtitle says what is shown: from which side faces are seen, whose numbers stand in lists.
func subtitle(plugs []*harness.Part) string {
	drawn, all := false, true
	for _, p := range plugs {
		drawn, all = drawn || !listed(p), all && !listed(p)
	}
	words := "Current arrives in the feed half and goes on in the load half."
	if drawn {
		words += " Wire side: the wires come towards you. Mating side: you look into the half when it is unplugged."
	}
	if !all {
		words += " A list alone: find the cavities by the numbers on the housing."
	}
	return words
}

// leastPlug is from how many wired terminals on a module has a plug worth drawing.
const leastPlug = 3

// plugged are the connectors, then the modules with a plug.
func plugged(a page.Ask) []*harness.Part {
	var connectors, modules []*harness.Part
	for i := range a.H.Parts {
		p := &a.H.Parts[i]
		switch {
		case p.Kind == harness.Connector:
			connectors = append(connectors, p)
		case p.Kind == harness.Module && (len(p.Rows) > 0 || filled(half(a, p, "")) >= leastPlug):
			modules = append(modules, p)
		}
	}
	return append(connectors, modules...)
}

// The halves of a mated connector; current is meant to arrive in the first.
const (
	inHalf  = ".in"
	outHalf = ".out"
)

// cavity is one cavity of one half: the wires in it, usually one.
type cavity struct {
	name  string
	wires []harness.WireID
	at    harness.TerminalID
}

// half gives the cavities of one half in the connector's order; of a module, which
// has one half, its terminals.
func half(a page.Ask, p *harness.Part, side string) []cavity {
	var all []cavity
	for _, name := range places(a, p) {
		c := cavity{name: name, at: harness.None}
		for _, t := range p.Terminals {
			x := a.H.Terminals[t]
			if p.Kind != harness.Connector && x.Name == name || x.Cavity == name && strings.HasSuffix(x.Name, side) && p.Kind == harness.Connector {
				c.at, c.wires = t, a.WiresOn(t)
			}
		}
		all = append(all, c)
	}
	return all
}

func places(a page.Ask, p *harness.Part) []string {
	if p.Kind == harness.Connector {
		return p.Cavities
	}
	var names []string
	for _, t := range p.Terminals {
		names = append(names, a.H.Terminals[t].Name)
	}
	return names
}

// filled counts the cavities with a wire.
func filled(cells []cavity) int {
	n := 0
	for _, c := range cells {
		if len(c.wires) > 0 {
			n++
		}
	}
	return n
}

// Sizes of a connector with its list, mm.
const (
	leastList   = 78.0  // room of a list beside a face
	leastBeside = 110.0 // of a list alone beside a photograph
	faceGap     = 5.0
	colourRoom  = 22.0 // of a short swatch with two colours
	under       = 4.0
)

// connector sets one connector whose cavities are known to lie so: title, its faces, and the
// list beside them, or under them where that is lower.
func connector(a page.Ask, s *page.Book, p *harness.Part) {
	plain, title := titleOf(a, p), titleOf(a, p).with(a.PhotoOf(p))
	f := facesOf(a, p, s.Room.W).on(s.Rest().H - 25)
	list := faceTable(a, p).Settle(s.Room.W)
	over := title.high(s.Room.W)
	if b, ok := besideOf(a, p, s.Room.W); ok && plain.high(s.Room.W)+b.high <= min(over+f.high()+list.Height(), room(s)) {
		s.Need(plain.high(s.Room.W) + b.high)
		plain.set(s)
		b.draw(a, &s.C, s.Room)
		s.Down(b.high + under)
		return
	}
	s.Need(over + f.high() + max(8, min(list.Height(), s.Rest().H/4))) // a short list stays with its face
	title.set(s)
	f.draw(a, s)
	s.Flow(list)
	s.Down(under)
}

// room is the height that is left for a block which is not parted: on the sheet being filled where nothing
// stands on it yet, though it may begin under other sheets' content, else on a further one.
func room(s *page.Book) float64 {
	if s.Fresh() {
		return s.Room.H
	}
	return s.Rest().H
}

// pictured sets one connector that is a list alone, with its photograph beside the list, or
// beside the title where that is lower.
func pictured(a page.Ask, s *page.Book, p *harness.Part) {
	t := cavityTable(true)
	t.Rows = cavityRows(a, p, true)
	photo, plain := a.PhotoOf(p), titleOf(a, p)
	title := plain.with(photo)
	whole := t.Settle(s.Room.W)
	left := sheet.Rect{W: s.Room.W - photo.W - faceGap}
	narrow := t.Settle(left.W)
	high := max(narrow.Height(), photo.H)
	if over := plain.high(s.Room.W); left.W < leastBeside || over+high > min(title.high(s.Room.W)+whole.Height(), room(s)) {
		s.Need(title.high(s.Room.W) + min(whole.Height(), s.Rest().H/4))
		title.set(s)
		s.Flow(whole)
		s.Down(under)
		return
	}
	s.Need(plain.high(s.Room.W) + high)
	plain.set(s)
	photo.Draw(&s.C, s.Room.Right()-photo.W, s.Room.Y)
	left.X, left.Y, left.H = s.Room.X, s.Room.Y, high+1 // rounding
	s.C.Add(narrow.Flow(left, left)[0].Marks...)
	s.Down(high + under)
}

// beside is a connector's faces with its list at their right, and its photograph under the lower of both.
type beside struct {
	faces   faces
	list    *table.Settled
	wide    float64 // of the list
	high    float64
	photo   page.Photo
	photoAt sheet.Point // from the upper left corner of both
}

// besideOf sets a connector's list beside its faces in a room; false where it finds none.
func besideOf(a page.Ask, p *harness.Part, room float64) (beside, bool) {
	f, ok := facesBeside(a, p, room)
	if !ok {
		return beside{}, false
	}
	b := beside{faces: f, wide: room - f.width - faceGap, photo: a.PhotoOf(p)}
	b.list = faceTable(a, p).Settle(b.wide)
	left, right := f.high(), b.list.Height()
	if left < right {
		b.photo = b.photo.Within(f.width, b.photo.H)
		left += b.photo.More()
		b.photoAt = sheet.Point{Y: left - b.photo.H}
	} else {
		right += b.photo.More()
		b.photoAt = sheet.Point{X: f.width + faceGap, Y: right - b.photo.H}
	}
	b.high = max(left, right)
	return b, true
}

func (b beside) draw(a page.Ask, c *sheet.Canvas, at sheet.Rect) {
	b.faces.drawAt(a, c, at)
	right := sheet.Rect{X: at.Right() - b.wide, Y: at.Y, W: b.wide, H: at.H}
	c.Add(b.list.Flow(right, right)[0].Marks...)
	b.photo.Draw(c, at.X+b.photoAt.X, at.Y+b.photoAt.Y)
}

// title is a connector's reference and words, with its photograph at their right where it has no other place.
type title struct {
	ref, words string
	photo      page.Photo
}

func titleOf(a page.Ask, p *harness.Part) title {
	return title{ref: p.Ref, words: connectorWords(a, p)}
}

func (t title) with(photo page.Photo) title {
	t.photo = photo
	return t
}

// left is the width of the words.
func (t title) left(wide float64) float64 {
	if t.photo.There() {
		return wide - t.photo.W - faceGap
	}
	return wide
}

func (t title) high(wide float64) float64 {
	return max(page.TitleHigh(t.ref, t.words, t.left(wide)), t.photo.H) + 1.5
}

// draw sets the title and the connector's anchor.
func (t title) draw(c *sheet.Canvas, r sheet.Rect) {
	c.Anchor("connector/"+t.ref, r.X, r.Y)
	page.Title(c, sheet.Rect{X: r.X, Y: r.Y, W: t.left(r.W), H: r.H}, t.ref, t.words)
	t.photo.Draw(c, r.Right()-t.photo.W, r.Y)
}

// set is draw in a book.
func (t title) set(s *page.Book) {
	t.draw(&s.C, s.Room)
	s.Down(t.high(s.Room.W))
}

// modules sets the lists of modules' plugs side by side; one that is higher than a sheet
// goes on over several.
func modules(a page.Ask, s *page.Book, plugs []*harness.Part) {
	n := page.Abreast(s.Room.W, leastList, faceGap)
	wide := (s.Room.W - faceGap*float64(n-1)) / float64(n)
	var cards []page.Card
	for _, p := range plugs {
		t := titleOf(a, p).with(a.PhotoOf(p))
		over := t.high(wide)
		list := plugTable(a, p).Settle(wide)
		if over+list.Height() > s.Rest().H {
			s.Cards(n, faceGap, faceGap, cards)
			cards = nil
			s.Need(over + s.Rest().H/4)
			t.set(s)
			s.Table(plugTable(a, p))
			continue
		}
		cards = append(cards, page.Card{High: over + list.Height(), Draw: func(c *sheet.Canvas, r sheet.Rect) {
			t.draw(c, r)
			at := r.Below(r.Y + over)
			at.H += 1 // rounding
			c.Add(list.Flow(at, at)[0].Marks...)
		}})
	}
	s.Cards(n, faceGap, faceGap, cards)
}

func connectorWords(a page.Ask, p *harness.Part) string {
	var words []string
	if p.Name != "" && p.Name != p.Ref {
		words = append(words, p.Name)
	}
	if at := a.At(p); at != "" {
		words = append(words, at)
	}
	n := page.Counted(len(places(a, p)), "terminal")
	if p.Kind == harness.Connector {
		n = cavities(len(p.Cavities))
	}
	words = append(words, n)
	if p.Family != "" {
		words = append(words, p.Family)
	}
	if p.Sealed {
		words = append(words, "sealed")
	}
	return strings.Join(words, " · ")
}

func cavities(n int) string {
	if n == 1 {
		return "1 cavity"
	}
	return fmt.Sprintf("%d cavities", n)
}

// listTable lists the cavities of connectors, one group each.
func listTable(a page.Ask, plugs []*harness.Part) *table.Table {
	t := cavityTable(true)
	for _, p := range plugs {
		head := table.Heading(p.Ref, connectorWords(a, p))
		head.Anchor = "connector/" + p.Ref
		t.Rows = append(append(t.Rows, head), cavityRows(a, p, true)...)
	}
	return t
}

// faceTable is the list beside a face, which shows the colour of the one wire in a cavity.
func faceTable(a page.Ask, p *harness.Part) *table.Table {
	if p.Kind != harness.Connector {
		return plugTable(a, p)
	}
	coloured := crowded(a, p)
	t := cavityTable(coloured)
	t.Rows = cavityRows(a, p, coloured)
	return t
}

// crowded tells whether a face cannot show every wire's colour: some cavity has several, or the rows are too long.
func crowded(a page.Ask, p *harness.Part) bool {
	for _, side := range []string{inHalf, outHalf} {
		for _, c := range half(a, p, side) {
			if len(c.wires) > 1 {
				return true
			}
		}
	}
	return facesOf(a, p, a.Upright().Body.W).lines[0][0].plain
}

// cavityTable has a row a cavity: the wire in either half with its far end.
func cavityTable(coloured bool) *table.Table {
	t := &table.Table{Tight: true, Company: true, Columns: []table.Column{
		{Title: "Cavity", Align: table.Right}, {Title: "Feed half"}, {Title: "from", Weight: 1}, {Title: "Load half"}, {Title: "to", Weight: 1},
	}}
	if coloured {
		t.Columns = append(t.Columns, table.Column{Title: "Colour", Min: colourRoom})
	}
	t.Columns = append(t.Columns, table.Column{Title: "Size"})
	return t
}

// cavityRows are the rows of a connector's cavities.
func cavityRows(a page.Ask, p *harness.Part, coloured bool) []table.Row {
	var rows []table.Row
	in, out := half(a, p, inHalf), half(a, p, outHalf)
	for i, c := range in {
		if len(c.wires)+len(out[i].wires) == 0 {
			rows = append(rows, emptyRow(c.name, emptyWords(p), 5))
			continue
		}
		for k := range max(len(c.wires), len(out[i].wires)) {
			row := table.Row{Cells: []table.Cell{table.Strong(c.name)}}
			row.Cells = append(row.Cells, halfCells(a, c, k)...)
			row.Cells = append(row.Cells, halfCells(a, out[i], k)...)
			kind := kindCells(a, c, out[i], k)
			if !coloured {
				kind = kind[1:]
			}
			rows = append(rows, table.Row{Cells: append(row.Cells, kind...)})
		}
	}
	return rows
}

// plugTable lists a module's terminals with the wire on each and its far end.
func plugTable(a page.Ask, p *harness.Part) *table.Table {
	t := &table.Table{Tight: true, Columns: []table.Column{{Title: "Pin"}, {Title: "Wire"}, {Title: "Colour", Min: colourRoom}, {Title: "Size"}, {Title: "from or to", Weight: 1}}}
	for _, c := range half(a, p, "") {
		if len(c.wires) == 0 {
			t.Rows = append(t.Rows, emptyRow(c.name, "no wire", 4))
			continue
		}
		for k := range c.wires {
			where := halfCells(a, c, k)
			cells := append([]table.Cell{table.Strong(c.name), where[0]}, kindCells(a, c, cavity{}, k)...)
			t.Rows = append(t.Rows, table.Row{Cells: append(cells, where[1])})
		}
	}
	return t
}

func emptyRow(name, words string, span int) table.Row {
	return table.Row{Cells: []table.Cell{table.Strong(name), {S: words, Span: span, Colour: &sheet.Grey}}}
}

// kindCells are the colour and size of a cavity's k-th wires: once where both
// halves have the same, else the second under the first.
func kindCells(a page.Ask, in, out cavity, k int) []table.Cell {
	wires := []harness.WireID{}
	for _, c := range []cavity{in, out} {
		if k < len(c.wires) {
			wires = append(wires, c.wires[k])
		}
	}
	shade := table.Cell{S: a.Pair(wires[0]).String(), Bold: true, Draw: page.ShortSwatch(a.Pair(wires[0]))}
	size := table.Text(page.Firm(a.Gauge(wires[0])))
	if len(wires) > 1 {
		if on := a.Pair(wires[1]); on != a.Pair(wires[0]) {
			shade.Note = "goes on " + on.String()
		}
		if on := page.Firm(a.Gauge(wires[1])); on != size.S {
			size.Note = page.Firm("on " + on)
		}
	}
	return []table.Cell{shade, size}
}

func emptyWords(p *harness.Part) string {
	if p.Sealed {
		return "empty: fit a blanking plug in both halves"
	}
	return "empty"
}

// halfCells are the k-th wire of a cavity: its name and where it goes.
func halfCells(a page.Ask, c cavity, k int) []table.Cell {
	if k >= len(c.wires) {
		return []table.Cell{table.Text("–"), {}}
	}
	w := c.wires[k]
	far := page.Opposite(a, w, c.at)
	_, plain := a.Stop(far)
	name := a.H.Wires[w].Name
	return []table.Cell{{S: name, Bold: true, Link: a.Link("wire/" + name)}, {S: strings.TrimSuffix(page.FarStop(a, far)+", "+plain, ", ")}}
}
