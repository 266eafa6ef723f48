package board

import (
	"errors"
	"fmt"
	"math"
	"strings"

	"example.com/loomfolio/layout/loom/plane"

	"example.com/loomfolio/layout/frame"
	"example.com/loomfolio/layout/page"
	"example.com/loomfolio/layout/sheet"
	"example.com/loomfolio/layout/typeface"
	"example.com/loomfolio/sizing/harness"
)

const boardTitle = "Loom board"

// Sheets are the loom at full size: a sheet that shows how the others lie, then
// these, row by row; sheets on which nothing lies are left out. On a large paper that
// takes it all it is one page. With fold the middle of long bare stretches is left out.
// It fails where the description has no runs, and where a label finds no place: the error names it.
func Sheets(a page.Ask, block frame.Block, fold bool) ([]sheet.Sheet, error) {
	b := layBoard(a, fold)
	if len(b.trees) == 0 {
		return nil, errors.New("no board without a loom: the description has no runs")
	}
	if b.lost != "" {
		return nil, fmt.Errorf("no board of this loom: so much hangs together that the label of %s finds no place beside it; make several places, or runs, of it", b.lost)
	}
	tiles, used := b.tiles(block)
	if b.grid.one() {
		return tiles, nil
	}
	return append([]sheet.Sheet{b.index(used, len(tiles), block)}, tiles...), nil
}

// tiles are the sheets on which something lies, and their names.
func (b *board) tiles(block frame.Block) (tiles []sheet.Sheet, used map[string]bool) {
	marks := b.paintBoard()
	used = map[string]bool{}
	shown := map[string][]sheet.Mark{}
	for row := range b.grid.rows {
		for col := range b.grid.cols {
			if cut := clip(marks, b.grid.tile(row, col)); len(cut) > 0 {
				used[tileName(row, col)], shown[tileName(row, col)] = true, cut
			}
		}
	}
	for row := range b.grid.rows {
		for col := range b.grid.cols {
			if name := tileName(row, col); used[name] {
				tiles = append(tiles, b.tileSheet(row, col, shown[name], used, block))
			}
		}
	}
	return tiles, used
}

// tileName is the letter of a row and the number of a column: "B3".
func tileName(row, col int) string {
	return fmt.Sprintf("%s%d", page.Letter(harness.RunID(row)), col+1)
}

// tileSheet draws one sheet of the board with its margins.
func (b *board) tileSheet(row, col int, marks []sheet.Mark, used map[string]bool, block frame.Block) sheet.Sheet {
	g := b.grid
	t := g.tile(row, col)
	var c sheet.Canvas
	c.Add(sheet.Move(marks, glue-t.X, glue-t.Y)...)
	edge := sheet.Rect{X: glue, Y: glue, W: g.wide(), H: g.high()}
	name := tileName(row, col)
	warn(&c, edge, block.Caution)
	if g.one() {
		b.margins(&c, boardTitle, edge, block)
		b.explain(&c, sheet.Rect{X: edge.X, Y: edge.Bottom() + 3, W: min(edge.W, widestWords), H: g.foot - 3}, block)
		return sheet.Sheet{W: g.paperW, H: g.paperH, Title: boardTitle, Marks: c.Marks}
	}
	b.margins(&c, name, edge, block)
	gluing(&c, edge)
	quiet := sheet.Plain(sheet.SizeBody).In(sheet.Grey).At(sheet.Centre)
	if next := tileName(row, col+1); used[next] {
		quiet.Turn = 90
		c.Text(edge.Right()+4.2, edge.Y+edge.H/2, "glue "+next+" over here", quiet)
		quiet.Turn = 0
	}
	if next := tileName(row+1, col); used[next] {
		c.Text(edge.X+edge.W/2, edge.Bottom()+4.6, "glue "+next+" over here", quiet)
	}
	return sheet.Sheet{W: g.paperW, H: g.paperH, Title: boardTitle + " " + name, Group: boardTitle + ", sheets", Marks: c.Marks}
}

// gluing draws where a sheet is cut, and the crosses by which it is laid on its neighbours.
func gluing(c *sheet.Canvas, edge sheet.Rect) {
	c.Rect(edge.X, edge.Y, edge.W, edge.H, sheet.Outline(sheet.Dashed(sheet.Thin, 2, 2).In(sheet.Grey)))
	for _, x := range []float64{edge.X, edge.Right()} {
		for _, y := range []float64{edge.Y, edge.Bottom()} {
			c.Line(x-5, y, x+5, y, sheet.Solid(sheet.Medium))
			c.Line(x, y-5, x, y+5, sheet.Solid(sheet.Medium))
		}
	}
}

// widestWords is how wide a paragraph may be on a large page, mm.
const widestWords = 700

// explain sets the words at the foot of a board that is one page.
func (b *board) explain(c *sheet.Canvas, r sheet.Rect, block frame.Block) {
	said := frame.Paragraph(c, r, b.howTo(), sheet.Plain(sheet.SizeHead))
	if len(block.Caution) > 0 {
		frame.Paragraph(c, r.Below(said+1), block.Caution[0], sheet.Strong(sheet.SizeHead))
	}
}

// warn sets the caution in the left margin, clear of the crosses at the corners.
func warn(c *sheet.Canvas, edge sheet.Rect, texts []string) {
	style := sheet.Plain(sheet.SizeNote).At(sheet.Centre)
	style.Turn = 90
	c.Text(edge.X-1.6, edge.Y+edge.H/2, frame.Fitting(texts, sheet.SizeNote, edge.H-14), style)
}

// margins says over the sheet which one it is, and has the bar to check the print with.
func (b *board) margins(c *sheet.Canvas, name string, edge sheet.Rect, block frame.Block) {
	base := edge.Y - 1.8
	bold := sheet.Strong(sheet.SizeBody)
	right := edge.Right() - 8
	long := b.tick()
	c.Line(right-long, base-1, right, base-1, sheet.Solid(sheet.Medium))
	for i := range 5 {
		x := right - long + long*float64(i)/4
		c.Line(x, base-2.2, x, base+0.2, sheet.Solid(sheet.Medium))
	}
	says := "100 mm, printed at actual size"
	if b.H.Sheet.Imperial {
		says = "4 in, printed at actual size"
	}
	c.Text(right-long-2, base, says, sheet.Plain(sheet.SizeBody).At(sheet.Right))
	room := edge.W - 16 - long - typeface.Width(says, sheet.Regular, sheet.SizeBody) - 6
	title := strings.TrimSpace(name + "  " + block.Title + " " + block.Revision)
	c.Text(edge.X+8, base, typeface.Fit(title, bold.Face, bold.Size, room), bold)
}

// index is the first sheet: the board small, with the sheets as they lie.
func (b *board) index(used map[string]bool, tiles int, block frame.Block) sheet.Sheet {
	f := b.Landscape()
	var c sheet.Canvas
	r := b.bounds()
	area := f.Heading(&c, boardTitle, fmt.Sprintf("The loom at full size%s: %s × %s, on %s. Print at actual size, \"fit to page\" off; measure the bar on each sheet.",
		map[bool]string{true: ", long bare stretches left out"}[b.fold], b.metres(r.W), b.metres(r.H), page.Counted(tiles, "sheet")))
	area.H -= 40
	whole := b.whole()
	k := math.Min((area.W-16)/whole.W, (area.H-4)/whole.H) // room for names at the edge
	x, y := area.X+(area.W-k*whole.W)/2, area.Y
	for row := range b.grid.rows {
		for col := range b.grid.cols {
			if t := b.grid.tile(row, col); used[tileName(row, col)] {
				c.Rect(x+k*t.X, y+k*t.Y, k*t.W, k*t.H, sheet.Both(sheet.Solid(sheet.Thin).In(sheet.Rule), sheet.Pale))
			}
		}
	}
	b.small(&c, k, x, y)
	b.cellNames(&c, used, k, x, y)
	said := frame.Paragraph(&c, area.Below(area.Bottom()+3), b.howTo(), sheet.Plain(sheet.SizeBody))
	if len(block.Caution) > 0 {
		frame.Paragraph(&c, area.Below(said+1.5), block.Caution[0], sheet.Strong(sheet.SizeBody))
	}
	block.Sheet, block.Of, block.Type = 1, tiles+1, boardTitle
	f.Draw(&c, block)
	return sheet.Sheet{W: f.W, H: f.H, Title: boardTitle, Marks: c.Marks}
}

// cellNames sets the sheets' names on the small board where no leg runs; cells
// that are too small for that have none, and the rows and columns are named at the edge.
func (b *board) cellNames(c *sheet.Canvas, used map[string]bool, k, x, y float64) {
	widest := typeface.Width(tileName(b.grid.rows-1, b.grid.cols-1), sheet.Regular, sheet.SizeBody)
	if k*b.grid.wide() < widest+2 || k*b.grid.high() < sheet.SizeBody+1 {
		b.edgeNames(c, k, x, y)
		return
	}
	for row := range b.grid.rows {
		for col := range b.grid.cols {
			if name := tileName(row, col); used[name] {
				t := b.grid.tile(row, col)
				b.cellName(c, name, sheet.Rect{X: x + k*t.X, Y: y + k*t.Y, W: k * t.W, H: k * t.H}.Inset(1), k, x, y)
			}
		}
	}
}

// cellName sets one name at the first of nine spots of its cell that is free.
func (b *board) cellName(c *sheet.Canvas, name string, cell sheet.Rect, k, x, y float64) {
	style := sheet.Plain(sheet.SizeBody).In(sheet.Grey)
	wide, high := typeface.Width(name, style.Face, style.Size), style.Size*typeface.CapHeight
	for _, spot := range [][2]float64{{0, 0}, {1, 0}, {0, 1}, {1, 1}, {0.5, 0}, {0.5, 1}, {0, 0.5}, {1, 0.5}, {0.5, 0.5}} {
		r := sheet.Rect{X: cell.X + spot[0]*(cell.W-wide), Y: cell.Y + spot[1]*(cell.H-high), W: wide, H: high}
		if b.bare(r, k, x, y) {
			c.Text(r.X, r.Bottom(), name, style)
			return
		}
	}
}

// edgeNames names rows at the left and columns below, as many as there is room for.
func (b *board) edgeNames(c *sheet.Canvas, k, x, y float64) {
	style := sheet.Plain(sheet.SizeBody).In(sheet.Grey).At(sheet.Centre)
	high := style.Size * typeface.CapHeight
	whole := b.whole()
	every := func(step float64, need float64) int { return int(math.Ceil(need / step)) }
	for row := 0; row < b.grid.rows; row += every(k*b.grid.high(), high+1) {
		t := b.grid.tile(row, 0)
		c.Text(x-4, y+k*(t.Y+t.H/2)+high/2, page.Letter(harness.RunID(row)), style)
	}
	for col := 0; col < b.grid.cols; col += every(k*b.grid.wide(), 8) {
		t := b.grid.tile(0, col)
		c.Text(x+k*(t.X+t.W/2), y+k*whole.H+1+high, fmt.Sprint(col+1), style)
	}
}

// bare tells whether no leg of the small board runs through an area.
func (b *board) bare(r sheet.Rect, k, x, y float64) bool {
	full := sheet.Rect{X: (r.X - x) / k, Y: (r.Y - y) / k, W: r.W / k, H: r.H / k}
	for i := range b.trees {
		d := &b.trees[i]
		for j, segs := range d.Pieces {
			for _, s := range segs {
				if s.Touches(full, b.Half(d, j)+1.2/k) {
					return false
				}
			}
		}
	}
	return true
}

// small draws legs, nails and splices on the small board.
func (b *board) small(c *sheet.Canvas, k, x, y float64) {
	at := func(p plane.Point) plane.Point { return plane.Point{X: x + k*p.X, Y: y + k*p.Y} }
	for i := range b.trees {
		d := &b.trees[i]
		for j, l := range d.Lines {
			small := make(plane.Line, len(l))
			for n, p := range l {
				small[n] = at(p)
			}
			pen := sheet.Rounded(max(2*k*b.Half(d, j), sheet.Heavy))
			if d.Tree.Legs[j].Closing {
				pen = sheet.Dashed(sheet.Thick, 1.5, 1)
			}
			c.Polyline(small, pen)
		}
		for n := range d.Tree.Nodes {
			p := at(d.Node(n))
			c.Circle(p.X, p.Y, 1, sheet.Both(sheet.Solid(sheet.Medium), sheet.White))
		}
	}
}

// howTo says how the sheets become a board, and what the marks on them mean.
func (b *board) howTo() string {
	out := "Cut each sheet along the broken line at its left and upper edge, and glue it over the margin of its neighbour so that the crosses lie on each other. "
	if b.grid.one() {
		out = "Print at actual size, \"fit to page\" off, and measure the bar. "
	}
	out += "Circle with a cross: nail at a breakout or an end. Small circle with a dot: nail at a bend, which is there only for the board. Full dot: splice. " +
		"Short bar past an end: cut the wires there. Each wire is cut to its length in the list of wires and their ends; what hangs out past the nail is the part's tail and the slack. " +
		"Ticks across the branches stand every " + b.tickText() + "."
	if b.fold {
		out += " Two jagged lines across a branch: a stretch is left out there; beside it stand its actual length and how much is left out. Cut wires by the list, never by the board."
	}
	return out
}

func (b *board) tickText() string {
	if b.H.Sheet.Imperial {
		return "4 in"
	}
	return "100 mm"
}

// metres is a size of the board.
func (b *board) metres(mm float64) string {
	if b.H.Sheet.Imperial {
		return fmt.Sprintf("%.1f ft", mm/304.8)
	}
	return fmt.Sprintf("%.2f m", mm/1000)
}
