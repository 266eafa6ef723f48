// Package faces lays out the connectors as one stands before them: both halves from the
// wire side and the mating side, cavity by cavity, with a list of where each wire goes.
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
// from the wire side and from the mating side, cavity by cavity, and under them a
// list with where each wire goes; then the plugs of modules.
func ConnectorFaces(a page.Ask) []frame.Page {
	plugs := plugged(a)
	if len(plugs) == 0 {
		return nil
	}
	s := page.Open(a.Upright(), "Connector faces", "sheet/connectors",
		"Wire side: the wires come towards you. Mating side: you look into the half when it is unplugged.")
	for _, p := range plugs {
		connector(a, s, p)
	}
	return s.Close()
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

// connector sets one connector: title, its faces, the list.
func connector(a page.Ask, s *page.Book, p *harness.Part) {
	f := facesOf(a, p, s.Room.W).on(s.Rest().H - 25)
	words := connectorWords(a, p)
	over := page.TitleHigh(p.Ref, words, s.Room.W)
	list := connectorTable(a, p).Settle(s.Room.W)
	s.Need(over + 1.5 + f.high() + max(8, min(list.Height(), s.Rest().H/4))) // a short list stays with its face
	page.Title(&s.C, s.Room, p.Ref, words)
	s.C.Anchor("connector/"+p.Ref, s.Room.X, s.Room.Y)
	s.Down(over + 1.5)
	f.draw(a, s)
	s.Flow(list)
	s.Down(4)
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
	if len(p.Rows) == 0 {
		n += ", places as numbered on the housing"
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

// connectorTable lists each cavity with the wire in either half and its far end.
func connectorTable(a page.Ask, p *harness.Part) *table.Table {
	if p.Kind != harness.Connector {
		return plugTable(a, p)
	}
	t := &table.Table{Columns: []table.Column{
		{Title: "Cavity", Align: table.Right}, {Title: "Arrives"}, {Title: "from", Weight: 1}, {Title: "Goes on"}, {Title: "to", Weight: 1},
		{Title: "Colour"}, {Title: "Size"},
	}}
	in, out := half(a, p, inHalf), half(a, p, outHalf)
	for i, c := range in {
		if len(c.wires)+len(out[i].wires) == 0 {
			t.Rows = append(t.Rows, emptyRow(c.name, emptyWords(p), 6))
			continue
		}
		for k := range max(len(c.wires), len(out[i].wires)) {
			row := table.Row{Cells: []table.Cell{table.Strong(c.name)}}
			row.Cells = append(row.Cells, halfCells(a, c, k)...)
			row.Cells = append(row.Cells, halfCells(a, out[i], k)...)
			t.Rows = append(t.Rows, table.Row{Cells: append(row.Cells, kindCells(a, c, out[i], k)...)})
		}
	}
	return t
}

// plugTable lists a module's terminals with the wire on each and its far end.
func plugTable(a page.Ask, p *harness.Part) *table.Table {
	t := &table.Table{Columns: []table.Column{{Title: "Terminal"}, {Title: "Wire"}, {Title: "from or to", Weight: 1}, {Title: "Colour"}, {Title: "Size"}}}
	for _, c := range half(a, p, "") {
		if len(c.wires) == 0 {
			t.Rows = append(t.Rows, emptyRow(c.name, "no wire", 4))
			continue
		}
		for k := range c.wires {
			cells := append([]table.Cell{table.Strong(c.name)}, halfCells(a, c, k)...)
			t.Rows = append(t.Rows, table.Row{Cells: append(cells, kindCells(a, c, cavity{}, k)...)})
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
	size := table.Text(a.Gauge(wires[0]))
	if len(wires) > 1 {
		if on := a.Pair(wires[1]); on != a.Pair(wires[0]) {
			shade.Note = "goes on " + on.String()
		}
		if on := a.Gauge(wires[1]); on != size.S {
			size.Note = "on " + on
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
