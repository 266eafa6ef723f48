package guide

import (
	"fmt"
	"math"
	"strings"

	"example.com/loomfolio/layout/frame"
	"example.com/loomfolio/layout/page"
	"example.com/loomfolio/layout/sheet"
	"example.com/loomfolio/layout/table"
	"example.com/loomfolio/layout/typeface"
	"example.com/loomfolio/sizing/harness"
)

// ConnectorFaces shows both halves of each connector from the wire side, cavity
// by cavity, and under them a list with where each wire goes.
func ConnectorFaces(a page.Ask) []frame.Page {
	if count(a.H, harness.Connector) == 0 {
		return nil
	}
	s := open(a.Upright(), "Connector faces",
		"Seen from the wire side, so the halves mirror each other. How a family places its cavities differs: go by the numbers moulded into it.", "sheet/connectors")
	for i := range a.H.Parts {
		if p := &a.H.Parts[i]; p.Kind == harness.Connector {
			connector(a, s, p)
		}
	}
	return s.done()
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

// half gives the cavities of one half in the connector's order.
func half(a page.Ask, p *harness.Part, side string) []cavity {
	var all []cavity
	for _, name := range p.Cavities {
		c := cavity{name: name, at: harness.None}
		for _, t := range p.Terminals {
			x := a.H.Terminals[t]
			if x.Cavity == name && strings.HasSuffix(x.Name, side) {
				c.at, c.wires = t, wiresOn(a, t)
			}
		}
		all = append(all, c)
	}
	return all
}

// columns is how many cavities stand side by side: two rows up to ten cavities,
// one row up to three, never more than five; more rows are as even as they can be.
func columns(n int) int {
	switch {
	case n <= 3:
		return max(1, n)
	case n <= 10:
		return (n + 1) / 2
	}
	rows := (n + 4) / 5
	return (n + rows - 1) / rows
}

const (
	halfGap    = 8.0
	cellHigh   = 17.2
	mostCell   = 22.0
	shellPad   = 2.2
	shellTitle = 6.6
)

// connector sets one connector: title, both faces, the list.
func connector(a page.Ask, s *sheaf, p *harness.Part) {
	cols := columns(len(p.Cavities))
	rows := (len(p.Cavities) + cols - 1) / cols
	high := shellTitle + 2*shellPad + cellHigh*float64(rows)
	words := connectorWords(a, p)
	over := titleHigh(p.Ref, words, s.room.W)
	s.need(over + 2 + high + 25)
	c := &s.c
	c.Anchor("connector/"+p.Ref, s.room.X, s.room.Y)
	title(c, sheet.Rect{X: s.room.X, Y: s.room.Y, W: s.room.W}, p.Ref, words)
	s.down(over + 2.5)
	w := (s.room.W - halfGap) / 2
	left := sheet.Rect{X: s.room.X, Y: s.room.Y, W: w, H: high}
	right := sheet.Rect{X: s.room.X + w + halfGap, Y: s.room.Y, W: w, H: high}
	face(a, c, left, half(a, p, inHalf), cols, false)
	face(a, c, right, half(a, p, outHalf), cols, true)
	s.down(high + 3)
	s.table(connectorTable(a, p))
	s.down(4)
}

func connectorWords(a page.Ask, p *harness.Part) string {
	var words []string
	if p.Name != "" && p.Name != p.Ref {
		words = append(words, p.Name)
	}
	if at := a.At(p); at != "" {
		words = append(words, at)
	}
	words = append(words, cavities(len(p.Cavities)))
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

// face draws one half; mirrored when it is the one that the other plugs into.
func face(a page.Ask, c *sheet.Canvas, r sheet.Rect, cells []cavity, cols int, mirrored bool) {
	name := "Half where current arrives"
	if mirrored {
		name = "Half where it goes on"
	}
	c.Text(r.X, r.Y+sheet.SizeBody*typeface.CapHeight+0.6, name, sheet.Strong(sheet.SizeBody))
	w := math.Min(mostCell, (r.W-2*shellPad)/float64(cols))
	rows := (len(cells) + cols - 1) / cols
	shell := sheet.Rect{X: r.X, Y: r.Y + shellTitle, W: w*float64(cols) + 2*shellPad, H: cellHigh*float64(rows) + 2*shellPad}
	c.RoundRect(shell.X, shell.Y, shell.W, shell.H, 2.4, sheet.Outline(sheet.Solid(sheet.Heavy)))
	lug(c, shell, mirrored)
	for i, cell := range cells {
		col, row := i%cols, i/cols
		if mirrored {
			col = cols - 1 - col
		}
		at := sheet.Rect{X: shell.X + shellPad + w*float64(col), Y: shell.Y + shellPad + cellHigh*float64(row), W: w, H: cellHigh}
		drawCavity(a, c, at.Inset(0.7), cell)
	}
}

// lug draws the latch: on top of one half, a bar over the other.
func lug(c *sheet.Canvas, shell sheet.Rect, mirrored bool) {
	x := shell.X + shell.W/2
	if mirrored {
		c.Line(x-4, shell.Y-0.9, x+4, shell.Y-0.9, sheet.Solid(sheet.Medium))
		return
	}
	c.Line(x-3, shell.Y-0.6, x+3, shell.Y-0.6, sheet.Solid(1))
}

// drawCavity draws one cavity with its number, wire, size and colour; an empty one is crossed.
func drawCavity(a page.Ask, c *sheet.Canvas, r sheet.Rect, cell cavity) {
	c.RoundRect(r.X, r.Y, r.W, r.H, 1.2, sheet.Outline(sheet.Solid(sheet.Thin)))
	middle := r.X + r.W/2
	number := sheet.Plain(sheet.SizeNote).In(sheet.Grey)
	number.Size = typeface.Shrink(cell.name, sheet.Regular, sheet.SizeNote, 2.2, r.W*0.6)
	c.Text(r.X+1, r.Y+1.2+sheet.SizeBody*typeface.CapHeight, cell.name, number)
	if len(cell.wires) == 0 {
		c.Line(r.X+r.W*0.3, r.Y+r.H*0.75, r.X+r.W*0.7, r.Y+r.H*0.35, sheet.Solid(sheet.Hair).In(sheet.Grey))
		c.Text(middle, r.Bottom()-1.2, "empty", sheet.Plain(sheet.SizeNote).In(sheet.Grey).At(sheet.Centre))
		return
	}
	w := cell.wires[0]
	name := a.H.Wires[w].Name
	if len(cell.wires) > 1 {
		name += fmt.Sprintf(" +%d", len(cell.wires)-1)
	}
	left := typeface.Width(cell.name, number.Face, number.Size) + 2
	bold := sheet.Strong(typeface.Shrink(name, sheet.Bold, sheet.SizeBody, 2, r.W-left-1))
	c.Text(r.Right()-1, r.Y+1.2+sheet.SizeBody*typeface.CapHeight, name, bold.At(sheet.Right))
	page.Swatch(c, sheet.Rect{X: r.X + 1.4, Y: r.Y + 4.9, W: r.W - 2.8, H: 3}, a.Pair(w))
	for i, text := range []string{a.Pair(w).String(), a.Gauge(w)} {
		st := sheet.Plain(typeface.Shrink(text, sheet.Regular, sheet.SizeNote, 2, r.W-1.2))
		c.Text(middle, r.Y+10.9+3.6*float64(i), text, st.At(sheet.Centre))
	}
	if link := a.Link("wire/" + a.H.Wires[w].Name); link != "" {
		c.Link(r, link)
	}
}

// connectorTable lists each cavity with the wire in either half and its far end.
func connectorTable(a page.Ask, p *harness.Part) *table.Table {
	t := &table.Table{Columns: []table.Column{
		{Title: "Cavity", Align: table.Right}, {Title: "Arrives"}, {Title: "from", Weight: 1}, {Title: "Goes on"}, {Title: "to", Weight: 1},
		{Title: "Colour"}, {Title: "Size"},
	}}
	in, out := half(a, p, inHalf), half(a, p, outHalf)
	for i, c := range in {
		if len(c.wires)+len(out[i].wires) == 0 {
			t.Rows = append(t.Rows, table.Row{Cells: []table.Cell{table.Strong(c.name), {S: emptyWords(p), Span: 6, Colour: &sheet.Grey}}})
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
	full, plain := a.Stop(other(a, w, c.at))
	name := a.H.Wires[w].Name
	return []table.Cell{{S: name, Bold: true, Link: a.Link("wire/" + name)}, {S: strings.TrimSuffix(full+", "+plain, ", ")}}
}
