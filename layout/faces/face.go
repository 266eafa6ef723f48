package faces

import (
	"fmt"
	"math"
	"slices"

	"example.com/loomfolio/layout/page"
	"example.com/loomfolio/layout/sheet"
	"example.com/loomfolio/layout/typeface"
	"example.com/loomfolio/sizing/harness"
)

// Sizes of the faces, mm.
const (
	halfGap   = 8.0
	cellHigh  = 10.8
	mostCell  = 22.0
	narrow    = 17.0 // the widest cavity of a face that has its list beside it
	leastCell = 12.6 // narrower cavities are drawn with their numbers alone
	plainHigh = 5.0  // of a cavity with its number alone
	plainWide = 9.0
	leastWide = 5.4 // of a cavity with its number alone
	shellPad  = 2.0
	faceTitle = 5.0
	lineGap   = 2.4
)

// view is one side of one half as one stands before it.
type view struct {
	title string
	rows  [][]cavity // left to right; a cavity without a name is a gap
	plain bool       // numbers alone
	plug  string     // what an empty cavity wants
}

// faces are the views of a connector, in lines of views side by side.
type faces struct {
	lines [][]view
	width float64 // of a line
}

// views gives both halves from the wire side, then both from the mating side; a module has one half.
func views(a page.Ask, p *harness.Part) []view {
	plug := "empty"
	if p.Sealed {
		plug = "plug it"
	}
	wire := func(title, side string, mirror bool) view {
		rows := inPlace(p, half(a, p, side))
		if mirror {
			rows = mirrored(rows)
		}
		return view{title: title, rows: rows, plug: plug}
	}
	mating := func(v view, title string) view {
		return view{title: title, rows: mirrored(v.rows), plain: true}
	}
	if p.Kind != harness.Connector {
		v := wire("Plug, wire side", "", false)
		return []view{v, mating(v, "Mating side")}
	}
	in, out := wire("Feed half, wire side", inHalf, false), wire("Load half, wire side", outHalf, true)
	return []view{in, out, mating(in, "Feed half, mating side"), mating(out, "Load half, mating side")}
}

// facesOf gives both halves from the wire side, side by side where their cavities
// have room, and under them both from the mating side.
func facesOf(a page.Ask, p *harness.Part, room float64) faces {
	v := views(a, p)
	if p.Kind != harness.Connector {
		return faces{[][]view{v}, room}.fitted()
	}
	return faces{[][]view{v[:2], v[2:]}, room}.fitted()
}

// facesBeside gives the halves one under the other, so that a list finds room beside them in
// a room; false where they are too wide for that.
func facesBeside(a page.Ask, p *harness.Part, room float64) (faces, bool) {
	v := views(a, p)
	n := float64(len(v[0].rows[0]))
	title := 0.0
	for _, one := range v {
		title = math.Max(title, typeface.Width(one.title, sheet.Bold, sheet.SizeBody))
	}
	cell := math.Max(leastCell, math.Min(narrow, room*0.45/n))
	f := faces{width: math.Max(n*cell+2*shellPad, title)}
	halves := len(v) / 2
	for _, one := range v[:halves] {
		f.lines = append(f.lines, []view{one})
	}
	mating := v[halves:]
	if f.each(halves)-2*shellPad >= n*leastWide && f.each(halves) >= title*0.75 {
		f.lines = append(f.lines, mating)
	} else {
		for _, one := range mating {
			f.lines = append(f.lines, []view{one})
		}
	}
	return f, f.width+faceGap+leastList <= room
}

// fitted sets the wire sides one under the other where they are too wide to stand
// side by side, and leaves all but the numbers away where not even that gives room.
func (f faces) fitted() faces {
	if f.cell(f.lines[0][0], len(f.lines[0])) >= leastCell {
		return f
	}
	var lines [][]view
	for i := range f.lines[0] {
		for _, line := range f.lines {
			lines = append(lines, []view{line[i]})
		}
	}
	f = faces{lines, f.width}
	if f.cell(f.lines[0][0], len(f.lines[0])) < leastCell {
		for _, line := range f.lines {
			line[0].plain = true
		}
	}
	return f
}

// on cuts the views that are higher than a sheet into several, some rows each.
func (f faces) on(high float64) faces {
	out := faces{width: f.width}
	for _, line := range f.lines {
		one := line[0]
		one.rows = one.rows[:1]
		each := max(1, 1+int((high-one.high())/(line[0].rowHigh())))
		for from := 0; from < len(line[0].rows); from += each {
			var part []view
			for _, v := range line {
				if from > 0 {
					v.title += ", continued"
				}
				v.rows = v.rows[from:min(from+each, len(v.rows))]
				part = append(part, v)
			}
			out.lines = append(out.lines, part)
		}
	}
	return out
}

// inPlace deals cavities into the rows of the description; short rows are filled up
// with gaps.
func inPlace(p *harness.Part, cells []cavity) [][]cavity {
	named := map[string]cavity{}
	for _, c := range cells {
		named[c.name] = c
	}
	var rows [][]cavity
	for _, names := range p.Rows {
		var row []cavity
		for _, n := range names {
			row = append(row, named[n])
		}
		rows = append(rows, row)
	}
	return level(rows)
}

// level makes rows of one length.
func level(rows [][]cavity) [][]cavity {
	most := 0
	for _, r := range rows {
		most = max(most, len(r))
	}
	for i, r := range rows {
		rows[i] = append(slices.Clone(r), make([]cavity, most-len(r))...)
	}
	return rows
}

// mirrored is the same half from its other side.
func mirrored(rows [][]cavity) [][]cavity {
	var out [][]cavity
	for _, r := range rows {
		turned := slices.Clone(r)
		slices.Reverse(turned)
		out = append(out, turned)
	}
	return out
}

// each is the width of a view that stands with others in a line.
func (f faces) each(n int) float64 { return (f.width - halfGap*float64(n-1)) / float64(n) }

// cell is the width of the cavities of a view that stands with others in a line.
func (f faces) cell(v view, n int) float64 {
	most := mostCell
	if v.plain {
		most = plainWide
	}
	return math.Min(most, (f.each(n)-2*shellPad)/float64(len(v.rows[0])))
}

func (v view) high() float64 { return faceTitle + 2*shellPad + v.rowHigh()*float64(len(v.rows)) }

func (v view) rowHigh() float64 {
	if v.plain {
		return plainHigh
	}
	return cellHigh
}

func (f faces) high() float64 {
	high := 0.0
	for _, line := range f.lines {
		high += line[0].high() + lineGap
	}
	return high
}

// draw sets the lines of views one under the other, over as many sheets as it takes.
func (f faces) draw(a page.Ask, s *page.Book) {
	for _, line := range f.lines {
		high := line[0].high() + lineGap
		s.Need(high)
		f.drawLine(a, &s.C, s.Room, line)
		s.Down(high)
	}
}

// drawAt sets all lines from the top left of an area.
func (f faces) drawAt(a page.Ask, c *sheet.Canvas, at sheet.Rect) {
	for _, line := range f.lines {
		f.drawLine(a, c, at, line)
		at = at.Below(at.Y + line[0].high() + lineGap)
	}
}

func (f faces) drawLine(a page.Ask, c *sheet.Canvas, at sheet.Rect, line []view) {
	for i, v := range line {
		each := f.each(len(line))
		v.draw(a, c, sheet.Rect{X: at.X + float64(i)*(each+halfGap), Y: at.Y, W: each}, f.cell(v, len(line)))
	}
}

// draw draws the shell with its cavities, so wide each, under its title. A latch or key is
// not drawn: nobody has said where it is.
func (v view) draw(a page.Ask, c *sheet.Canvas, r sheet.Rect, w float64) {
	st := sheet.Strong(sheet.SizeBody)
	if v.plain {
		st = page.Quiet()
	}
	c.Text(r.X, r.Y+3.6, typeface.Fit(v.title, st.Face, st.Size, r.W+halfGap-1), st)
	h := v.rowHigh()
	shell := sheet.Rect{X: r.X, Y: r.Y + faceTitle, W: w*float64(len(v.rows[0])) + 2*shellPad, H: h*float64(len(v.rows)) + 2*shellPad}
	c.RoundRect(shell.X, shell.Y, shell.W, shell.H, 2.4, sheet.Both(sheet.Solid(sheet.Heavy), sheet.Pale))
	for i, row := range v.rows {
		for k, cell := range row {
			at := sheet.Rect{X: shell.X + shellPad + w*float64(k), Y: shell.Y + shellPad + h*float64(i), W: w, H: h}.Inset(0.5)
			switch {
			case cell.name == "":
			case v.plain:
				number(c, at, cell)
			default:
				drawCavity(a, c, at, cell, v.plug)
			}
		}
	}
}

// number draws a cavity with its number alone; an empty one is crossed.
func number(c *sheet.Canvas, r sheet.Rect, cell cavity) {
	c.RoundRect(r.X, r.Y, r.W, r.H, 1, sheet.Both(sheet.Solid(sheet.Thin), sheet.White))
	if len(cell.wires) == 0 {
		c.Line(r.X+0.6, r.Bottom()-0.6, r.X+1.6, r.Bottom()-1.6, sheet.Solid(sheet.Thin).In(sheet.Grey))
	}
	name, st := page.Narrowed(cell.name, sheet.Plain(sheet.SizeBody), r.W-1)
	c.Text(r.X+r.W/2, r.Y+r.H/2+st.Size*typeface.CapHeight/2, name, st.At(sheet.Centre))
}

// drawCavity draws one cavity with its number, wire and colour; an empty one says what
// to do with it.
func drawCavity(a page.Ask, c *sheet.Canvas, r sheet.Rect, cell cavity, plug string) {
	c.RoundRect(r.X, r.Y, r.W, r.H, 1.2, sheet.Both(sheet.Solid(sheet.Thin), sheet.White))
	middle := r.X + r.W/2
	base := r.Y + 1 + sheet.SizeBody*typeface.CapHeight
	number, st := page.Narrowed(cell.name, sheet.Plain(sheet.SizeNote), r.W*0.5)
	c.Text(r.X+0.8, base, number, st)
	left := typeface.Width(number, st.Face, st.Size) + 1.4
	if len(cell.wires) == 0 {
		c.Circle(middle, r.Y+r.H*0.5, 1.2, sheet.Outline(sheet.Dashed(sheet.Thin, 0.8, 0.6).In(sheet.Grey)))
		c.Text(middle, r.Bottom()-1.4, plug, page.Quiet().At(sheet.Centre))
		return
	}
	w := cell.wires[0]
	name := a.H.Wires[w].Name
	if len(cell.wires) > 1 {
		name += fmt.Sprintf(" +%d", len(cell.wires)-1)
	}
	name, bold := page.Narrowed(name, sheet.Strong(sheet.SizeBody), r.W-left-0.6)
	c.Text(r.Right()-0.6, base, name, bold.At(sheet.Right))
	page.Swatch(c, sheet.Rect{X: r.X + 1.2, Y: r.Y + 4.3, W: r.W - 2.4, H: 2.2}, a.Pair(w))
	letters, st := page.Narrowed(a.Pair(w).String(), sheet.Plain(sheet.SizeNote), r.W-0.8)
	c.Text(middle, r.Y+9.1, letters, st.At(sheet.Centre))
	if link := a.Link("wire/" + a.H.Wires[w].Name); link != "" {
		c.Link(r, link)
	}
}
