package render_test

import (
	"fmt"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/layout/frame"
	"example.com/loomfolio/layout/sheet"
	"example.com/loomfolio/layout/table"
)

var issued = time.Date(2026, 11, 2, 9, 30, 0, 0, time.UTC)

const described = "vehicle: Kestrel GT\nnote: ä ☑ 漢\n"

// swatch is a wire colour with a tracer.
func swatch(ground sheet.Colour, tracer *sheet.Colour) *table.Drawing {
	return &table.Drawing{W: 14, H: 3, Draw: func(c *sheet.Canvas, a sheet.Rect) {
		c.RoundRect(a.X, a.Y, a.W, a.H, 1.5, sheet.Both(sheet.Solid(sheet.Medium), ground))
		if tracer != nil {
			c.Line(a.X+1.5, a.Y+a.H/2, a.Right()-1.5, a.Y+a.H/2, sheet.Stroke{Width: 1, Colour: *tracer, Dash: []float64{2, 1.5}})
		}
	}}
}

// cutList is a table of n wires in two groups.
func cutList(n int) table.Table {
	red, white := sheet.Colour{R: 0xc0, G: 0x10, B: 0x1a}, sheet.White
	t := table.Table{Columns: []table.Column{
		{Title: "cut"}, {Title: "wire"}, {Title: "colour"}, {Title: "length", Unit: "mm", Align: table.Decimal},
		{Title: "strip A", Unit: "mm", Align: table.Decimal}, {Title: "end A", Weight: 1},
		{Title: "strip B", Unit: "mm", Align: table.Decimal}, {Title: "end B", Weight: 1}, {Title: "drop", Unit: "V", Align: table.Decimal},
	}}
	for i := range n {
		if i == 0 || i == n/2 {
			t.Rows = append(t.Rows, table.Heading([]string{"2.5 mm² thin wall", "1.0 mm² thin wall"}[min(i, 1)], fmt.Sprintf("%d wires · reel R%d", n/2, 1+min(i, 1))))
		}
		tracer := &white
		letters, words := "RD/WH", "red, white tracer"
		if i%3 == 0 {
			tracer, letters, words = nil, "RD", "red"
		}
		name := fmt.Sprintf("%dA", 10+i)
		t.Rows = append(t.Rows, table.Row{Anchor: "wire " + name, Cells: []table.Cell{
			{Draw: table.TickBox()}, {S: name, Bold: true, Link: "cover"}, {S: letters, Bold: true, Note: words, Draw: swatch(red, tracer)},
			{S: fmt.Sprintf("%d", 415+173*i), Bold: true}, table.Text("7"), table.Text("MF1.1 · ring M8, blue"),
			table.Text("6.5"), table.Text([]string{"K1.30 · receptacle 6.3", "FAN.− · butt splice, blue, behind the radiator support"}[i%2]),
			table.Text(fmt.Sprintf("%.2f", 0.07*float64(i))),
		}})
	}
	t.Rows = append(t.Rows, table.Row{Kind: table.Sum, Cells: []table.Cell{{S: "all wires", Span: 3}, table.Text("11420"), {}, {S: "buy 12 m", Span: 4}}})
	return t
}

// pages lays out a cover with links, a cut list and a drawing on other papers.
func pages(t testing.TB, paper string, wires int) []frame.Page {
	f, err := frame.Of(paper, false)
	require.NoError(t, err)
	var cover sheet.Canvas
	body := f.Heading(&cover, "Kestrel GT · wiring", "left-hand drive, negative earth, 14 V; the sheets below belong together")
	cover.Anchor("cover", f.Body.X, f.Body.Y)
	y := frame.Paragraph(&cover, body, "☐ ☑ ✓ ⚠ ⌀ 6.3 → M8 · 2.5 mm² · ½ × ≤ ≥ − ‑ Ω µ ° é ő ł Ж λ", sheet.Plain(sheet.SizeBody))
	cover.Text(body.X, y+6, "Radiator fan", sheet.Plain(sheet.SizeBody))
	cover.Link(sheet.Rect{X: body.X, Y: y + 1, W: 30, H: 7}, "fan")
	all := []frame.Page{{Frame: f, Title: "Cover", Marks: cover.Marks}}
	list := cutList(wires)
	var c sheet.Canvas
	body = f.Heading(&c, "Cut list · reel by reel", "tick each wire when both ends have passed the pull test")
	for i, part := range list.Flow(body, f.Body) {
		if i > 0 {
			c = sheet.Canvas{}
		}
		c.Add(part.Marks...)
		all = append(all, frame.Page{Frame: f, Title: fmt.Sprintf("Cut list %d", i+1), Group: "Cut list", Marks: c.Marks})
	}
	return append(all, drawing(t, "A3"), drawing(t, "tabloid"))
}

func drawing(t testing.TB, paper string) frame.Page {
	f, err := frame.Of(paper, true)
	require.NoError(t, err)
	var c sheet.Canvas
	body := f.Heading(&c, "Circuit 12 · Radiator fan", "fed whenever the key is at run and the coolant switch is closed; fan 20 A, starts at 55 A")
	if paper == "A3" {
		c.Anchor("fan", body.X+200, body.Y+100)
		c.Text(body.X+200, body.Y+100, "FAN", sheet.Strong(sheet.SizeHead))
	}
	c.RoundRect(body.X+5, body.Y+5, 40, 25, 4, sheet.Both(sheet.Solid(sheet.Medium), sheet.Pale))
	c.Circle(body.X+25, body.Y+17, 8, sheet.Outline(sheet.Rounded(sheet.Thick)))
	c.Arc(body.X+25, body.Y+17, 5, 30, 150, sheet.Solid(sheet.Thick))
	c.Line(body.X+45, body.Y+17, body.Right(), body.Y+17, sheet.Dashed(sheet.Heavy, 3, 2))
	c.Text(body.X+80, body.Y+80, "turned → ½ up ☑ it goes", sheet.Style{Size: sheet.SizeHead, Colour: sheet.Ink, Turn: 90})
	c.Text(body.X+90, body.Y+80, "and straight again", sheet.Plain(sheet.SizeHead))
	c.Link(sheet.Rect{X: body.X + 90, Y: body.Y + 75, W: 40, H: 6}, "wire 10A")
	return frame.Page{Frame: f, Title: "Radiator fan on " + paper, Group: "Circuit diagrams", Marks: c.Marks}
}

func demo(t testing.TB, paper string, wires int) sheet.Packet {
	block := frame.Block{Owner: "A. Example", Title: "Kestrel GT wiring", Ident: "KG-014", Revision: "B", Date: "2026-11-02",
		Creator: "M. Example", Digest: "9f3c61a08d21c07e55aa"}
	return sheet.Packet{Title: "Kestrel GT · wiring <B>", Author: "M. Example", Subject: "wiring & fuses", Keywords: "wiring, Ω", Date: issued,
		Sheets: frame.Bind(pages(t, paper, wires), block),
		Attached: []sheet.Attachment{
			{Name: "kestrel-ü.yaml", MIME: "application/yaml", Description: "the description", Data: []byte(described)},
			{Name: "a (1).txt", MIME: "text/plain", Data: nil},
		}}
}
