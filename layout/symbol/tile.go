package symbol

import (
	"math"
	"slices"

	"example.com/loomfolio/layout/sheet"
	"example.com/loomfolio/layout/typeface"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/harness/kind"
)

// New draws a part with the terminals that a sheet uses, in that order, and its
// caption. The tile's shape follows from the kind and from how many terminals there are.
func New(h *harness.Harness, part *harness.Part, uses []Use, caption []Line, form Form) Tile {
	west, east := split(part, uses)
	switch {
	case part.Kind == harness.Relay:
		return relay(part, uses, caption, form)
	case part.Kind == harness.Connector:
		return connector(west, east, caption, form)
	case part.Kind == harness.Splice:
		return splice(uses, caption, form)
	case part.Kind == harness.OpenEnd:
		return openEnd(west, east, caption, form)
	case ladderWanted(h, part, uses):
		return ladder(h, part, uses, caption, form)
	case len(west) == 1 && len(east) == 1 && onePath(part.Kind):
		return through(kind.RoleOf(part.Kind), VariantOf(h, part), west, east, caption, form)
	case part.Kind == harness.FusePanel:
		return block(kind.Protects, panelOne, west, east, caption, form)
	}
	return block(kind.RoleOf(part.Kind), VariantOf(h, part), west, east, caption, form)
}

// onePath tells whether a part with two terminals is drawn with leads through it.
func onePath(k harness.Kind) bool {
	return !slices.Contains([]harness.Kind{harness.Battery, harness.Alternator, harness.DCConverter, harness.Starter, harness.Flasher, harness.Module, harness.Bus, harness.Unknown}, k) && !kind.Charges(k) &&
		!slices.Contains([]harness.Kind{harness.ControlBox, harness.Stator, harness.SolarPanel, harness.BatteryMonitor, harness.SplitCharge}, k)
}

// split divides the terminals between the left edge (current arrives) and the
// right edge (current leaves); a part with two terminals has one on each.
func split(part *harness.Part, uses []Use) (west, east []Use) {
	for _, u := range uses {
		if sideOf(part, u) == West {
			west = append(west, u)
		} else {
			east = append(east, u)
		}
	}
	if len(uses) == 2 && len(west) != 1 && onePath(part.Kind) {
		first := uses[0]
		if uses[1].In-uses[1].Out > first.In-first.Out {
			return []Use{uses[1]}, []Use{first}
		}
		return []Use{first}, []Use{uses[1]}
	}
	return west, east
}

func sideOf(part *harness.Part, u Use) Side {
	switch {
	case u.In > u.Out:
		return West
	case u.Out > u.In:
		return East
	case part.Kind == harness.Battery || kind.Charges(part.Kind):
		return East
	case slices.Contains([]string{"+", "1", "30", "86", "a", "49", "50", "in", "in+", "on"}, u.Name):
		return West
	}
	return East
}

// landed is a terminal with the rows of its wires.
type landed struct {
	use  Use
	rows []float64
}

func (l landed) middle() float64 { return (l.rows[0] + l.rows[len(l.rows)-1]) / 2 }

// stack gives each terminal its rows from a first row down, and the last row.
func stack(uses []Use, first, pitch float64) (out []landed, last float64) {
	y := first
	for _, u := range uses {
		l := landed{use: u}
		for range max(1, u.landings()) {
			l.rows = append(l.rows, y)
			y += pitch
		}
		out = append(out, l)
	}
	return out, y - pitch
}

// canvas is a tile being drawn: its box stands at x, 0.
type canvas struct {
	pen
	x, w, h float64
	pins    []Pin
	out     float64 // how far the widest tab reaches beyond the box
	grip    float64 // of a relay: where the dashed line takes hold of the contact
}

// tabs draws the tabs of an edge and sets the pins.
func (c *canvas) tabs(rows []landed, side Side) {
	for _, l := range rows {
		x, out := c.x, -1.0
		if side == East {
			x, out = c.x+c.w, 1.0
		}
		c.out = math.Max(c.out, tabWidth(l.use.Name)/2)
		if l.use.Body {
			c.body(x, l.middle(), out, tabWidth(l.use.Name)/2)
		}
		c.tab(x, l.middle(), tab+l.rows[len(l.rows)-1]-l.rows[0], l.use.Name, l.use.landings() > 0 || l.use.Body)
		c.volts(x, l.rows[len(l.rows)-1]+tab/2, l.use.Volts)
		for i := range l.use.landings() {
			c.pins = append(c.pins, Pin{l.use.Terminal, side, x + out*tabWidth(l.use.Name)/2, l.rows[i]})
		}
	}
}

// Of the bodywork beside a terminal that a part's own body grounds: how far from its tab,
// how wide and how high, mm.
const (
	bodyLead = 1.2
	bodyWide = 2.0
	bodyHigh = 6.5
)

// body draws the bodywork beside a tab so wide to one side of an edge at x: the part
// stands on it, and no wire lies between.
func (c *canvas) body(x, y, side, half float64) {
	c.Line(x, y, x+side*(half+bodyLead), y, sheet.Solid(bold))
	r := sheet.Rect{X: x + half + bodyLead, Y: y - bodyHigh/2, W: bodyWide, H: bodyHigh}
	if side < 0 {
		r.X = x - half - bodyLead - bodyWide
	}
	Chassis(&c.Canvas, r)
	c.out = math.Max(c.out, half+bodyLead+bodyWide)
}

// voltsLeads is the height of a line of volts under a tab, mm.
const voltsLeads = 3.4

// volts sets what a meter reads under a tab that ends at y, over the tile's edge.
func (c *canvas) volts(x, y float64, lines []string) {
	for i, v := range lines {
		w := typeface.Width(v, sheet.Bold, text)
		top := y + 0.5 + float64(i)*voltsLeads
		c.Rect(x-w/2-0.3, top-0.2, w+0.6, text*typeface.CapHeight+0.5, sheet.Filled(sheet.White))
		c.Text(x, top+text*typeface.CapHeight, v, sheet.Strong(text).At(sheet.Centre))
		c.out = math.Max(c.out, w/2+0.3)
	}
}

// under is how far the volts of some terminals reach below their lowest row beyond the
// room of one line.
func under(uses ...[]Use) float64 {
	most := 0
	for _, us := range uses {
		for _, u := range us {
			most = max(most, len(u.Volts)-1)
		}
	}
	return ceil(voltsLeads * float64(most))
}

// widestTab is the widest tab of an edge.
func widestTab(uses []Use) float64 {
	w := 0.0
	for _, u := range uses {
		w = math.Max(w, tabWidth(u.Name))
	}
	return w
}

// done closes the tile: the caption below the box, everything moved so that the
// footprint begins at 0.
func (c *canvas) done(caption []Line, least float64) Tile {
	tile := c.w + 2*c.out
	lines := wrap(caption, math.Max(tile, least))
	words := widest(lines)
	w := math.Max(tile, words)
	middle := c.x + c.w/2
	c.putAll(lines, middle, c.h, sheet.Centre)
	dx := w/2 - middle
	t := Tile{W: w, H: c.h, Marks: sheet.Move(c.Marks, dx, 0), Box: sheet.Rect{X: c.x + dx, Y: 0, W: c.w, H: c.h}}
	t.Solid = []sheet.Rect{{X: (w - tile) / 2, W: tile, H: c.h}}
	if len(lines) > 0 {
		t.H += highOf(lines) + 0.6
		t.Solid = append(t.Solid, sheet.Rect{X: (w - words) / 2, Y: c.h, W: words, H: t.H - c.h})
	}
	for _, p := range c.pins {
		p.X += dx
		t.Pins = append(t.Pins, p)
	}
	return t
}

// captionWidth is how wide a caption may be below a narrow tile.
const captionWidth = 32

// Words is how wide a caption may be below a tile, or in it.
func (f Form) Words() float64 {
	switch {
	case f.Narrow:
		return 23
	case f.Short:
		return 28
	}
	return captionWidth
}

// Caption is how wide the words of a tile may be, wherever they stand.
func (f Form) Caption() float64 {
	if f.Beside {
		return f.besideWords()
	}
	return f.Words()
}

// besideWords is how wide the words beside a tile may be.
func (f Form) besideWords() float64 {
	switch {
	case f.Wide:
		return 44
	case f.Narrow:
		return 23
	}
	return captionWidth
}

// jointWords is how wide a caption may be below a splice or a connector.
func (f Form) jointWords() float64 {
	switch {
	case f.Narrow:
		return 16
	case f.Short:
		return 26
	}
	return captionWidth
}

// through is a part with one way through: lead, pictogram, lead.
func through(role kind.Role, v Variant, west, east []Use, caption []Line, form Form) Tile {
	l, endL := stack(west, row, form.Pitch)
	r, endR := stack(east, row, form.Pitch)
	if form.Beside {
		return beside(role, v, l, r, math.Max(endL, endR)+row+under(west, east), caption, form.besideWords())
	}
	c := &canvas{w: 2*half + 4 + (widestTab(west)+widestTab(east))/2, h: math.Max(endL, endR) + row + under(west, east)}
	c.edge(role, 0, 0, c.w, c.h)
	cx, cy := c.w/2+(widestTab(west)-widestTab(east))/4, row
	c.line(0, cy, cx-half, cy)
	c.line(cx+half, cy, c.w, cy)
	c.glyph(v, cx, cy)
	c.tabs(l, West)
	c.tabs(r, East)
	return c.done(caption, form.besideWords())
}

// beside is a part as a card: pictogram at the left, words at the right.
func beside(role kind.Role, v Variant, l, r []landed, rowsEnd float64, caption []Line, words float64) Tile {
	lines := wrap(caption, words)
	tw := widestTab(usesOf(l)) / 2
	textX := tw + 2*half + 5
	c := &canvas{w: textX + widest(lines) + widestTab(usesOf(r))/2 + 1.5}
	c.h = math.Max(rowsEnd, highOf(lines)+1.8)
	c.edge(role, 0, 0, c.w, c.h)
	cx, cy := tw+half+2.5, row
	if len(l) == 1 && len(r) == 1 {
		c.line(0, cy, cx-half, cy)
	} else {
		cy = c.h / 2
	}
	c.glyph(v, cx, cy)
	c.line(textX-1.4, 2.5, textX-1.4, c.h-2.5)
	c.putAll(lines, textX, (c.h-highOf(lines))/2-0.3, sheet.Left)
	c.tabs(l, West)
	c.tabs(r, East)
	return c.done(nil, 0)
}

// block is a part with any number of terminals round its pictogram.
func block(role kind.Role, v Variant, west, east []Use, caption []Line, form Form) Tile {
	l, endL := stack(west, row, form.Pitch)
	r, endR := stack(east, row, form.Pitch)
	if form.Beside {
		return beside(role, v, l, r, math.Max(row, math.Max(endL, endR))+row+under(west, east), caption, form.besideWords())
	}
	c := &canvas{h: math.Max(2*row, math.Max(endL, endR)+row+under(west, east))}
	c.w = 14 + 4 + (widestTab(west)+widestTab(east))/2
	c.edge(role, 0, 0, c.w, c.h)
	c.glyph(v, c.w/2+(widestTab(west)-widestTab(east))/4, c.h/2)
	c.tabs(l, West)
	c.tabs(r, East)
	return c.done(caption, form.besideWords())
}

// connector is one cavity of a mated pair: two brackets that face each other.
func connector(west, east []Use, caption []Line, form Form) Tile {
	l, endL := stack(west, 5, form.Pitch)
	r, endR := stack(east, 5, form.Pitch)
	c := &canvas{w: 8, h: math.Max(endL, endR) + 3.75}
	low := c.h - 0.75
	c.path(0.4, 2, 3, 2, 3, low, 0.4, low)
	c.path(7.6, 2, 5, 2, 5, low, 7.6, low)
	c.Line(0, 5, 8, 5, sheet.Solid(0.7))
	c.Rect(1.4, 4, 5.2, 2, sheet.Filled(sheet.Ink))
	c.lands(l, West)
	c.lands(r, East)
	return c.done(caption, form.jointWords())
}

// lands sets pins on the box's edge without tabs; several rows are joined.
func (c *canvas) lands(rows []landed, side Side) {
	x := c.x
	if side == East {
		x = c.x + c.w
	}
	for _, l := range rows {
		if n := len(l.rows); n > 1 {
			c.Line(x, l.rows[0], x, l.rows[n-1], sheet.Rounded(0.7))
		}
	}
	c.pinsAt(rows, side)
}

// pinsAt sets the pins of rows on an edge.
func (c *canvas) pinsAt(rows []landed, side Side) {
	x := c.x
	if side == East {
		x = c.x + c.w
	}
	for _, l := range rows {
		for i := range l.use.landings() {
			c.pins = append(c.pins, Pin{l.use.Terminal, side, x, l.rows[i]})
		}
	}
}

// splice is a filled dot; where more than two wires meet, a bar joins their rows.
func splice(uses []Use, caption []Line, form Form) Tile {
	c := &canvas{w: 8}
	end := 0.0
	for _, u := range uses {
		in, endIn := stack([]Use{{Terminal: u.Terminal, In: u.In}}, 5, form.Pitch)
		out, endOut := stack([]Use{{Terminal: u.Terminal, Out: u.Out}}, 5, form.Pitch)
		end = math.Max(endIn, endOut)
		rows := max(u.In, u.Out)
		last := 5 + float64(max(rows-1, 0))*form.Pitch
		c.Line(4, 5, 4, last, sheet.Rounded(1))
		for _, y := range in[0].rows[:u.In] {
			c.Line(0, y, 4, y, sheet.Rounded(0.7))
		}
		for _, y := range out[0].rows[:u.Out] {
			c.Line(4, y, 8, y, sheet.Rounded(0.7))
		}
		for i := range rows {
			c.dot(4, 5+float64(i)*form.Pitch, 1.4)
		}
		c.pinsAt(in, West)
		c.pinsAt(out, East)
	}
	c.h = end + 3
	return c.done(caption, form.jointWords())
}

// Tag is an arrow that stands for a terminal drawn on another sheet: its name, and the
// circuit that it belongs to with the place of the anchor ref.
func Tag(u Use, side Side, title, circuit, ref string, form Form) Tile {
	line := Line{S: circuit + " · ", Ref: ref, Grey: true}
	if circuit == "" {
		line.S = ""
	}
	where := wrap([]Line{line}, 60)[0]
	w := math.Max(typeface.Width(title, sheet.Bold, text), Width(where.S, sheet.Regular, text)) + 3.4
	rows, end := stack([]Use{u}, 5, form.Pitch)
	c := &canvas{w: w + 2.5, h: end + 5}
	c.tagShape()
	c.Text(2.4, 4.3, title, sheet.Strong(text))
	c.Text(2.4, 4.3+leads-0.4, where.S, sheet.Plain(text).In(sheet.Grey))
	if len(rows[0].rows) > 1 && side == East {
		x := c.w
		c.Line(x, rows[0].rows[0], x, rows[0].rows[len(rows[0].rows)-1], sheet.Rounded(0.7))
	}
	c.lands(rows, side)
	return c.done(nil, 0)
}

// tagShape is the arrow of a reference, with a heavy tail.
func (c *canvas) tagShape() {
	c.shape(0, 0, c.w-2.5, 0, c.w, c.h/2, c.w-2.5, c.h, 0, c.h)
	c.Rect(0, 0, 1.2, c.h, sheet.Filled(sheet.Ink))
}

// Chassis draws the hatched bar that stands for the bodywork.
func Chassis(c *sheet.Canvas, r sheet.Rect) {
	c.Rect(r.X, r.Y, r.W, r.H, sheet.Both(sheet.Solid(0.35), sheet.White))
	for y := r.Y + r.W; y <= r.Bottom(); y += 2 {
		c.Line(r.X, y, r.Right(), y-r.W, sheet.Solid(0.25))
	}
}

// Rail is one wire's place on a supply bar at the left; the label stands below
// the wire, to the right of the bar, which whoever places the tiles draws at x 0
// to RailWide.
func Rail(t harness.TerminalID, label []Line) Tile {
	return entry(t, East, wrap(label, railWords))
}

// railWords is how wide the words beside a supply bar may be, mm.
const railWords = 32

// RailWide is the width of a supply bar and of the chassis rail.
const RailWide = 3.0

// GroundEntry is one wire's place on the chassis rail, which stands at the far
// edge of the tile; the words stand below the wire.
func GroundEntry(t harness.TerminalID, side Side, label []Line, form Form) Tile {
	return entry(t, side, wrap(label, form.jointWords()))
}

// EndRail is one wire's place on a bar at the right, which whoever places the tiles
// draws at the far edge; the words stand below the wire.
func EndRail(t harness.TerminalID, label []Line, form Form) Tile {
	return entry(t, West, wrap(label, form.jointWords()))
}

// entry is a wire's place on a rail: the rail at the edge away from the wire, the
// words below the wire.
func entry(t harness.TerminalID, side Side, lines []Line) Tile {
	words := widest(lines)
	c := &canvas{w: RailWide, h: entryRow + highOf(lines) + 1.6}
	if len(lines) > 0 {
		c.w += words + 2
	}
	tile := Tile{W: c.w, H: c.h}
	bar, text, x := sheet.Rect{W: RailWide, H: c.h}, sheet.Rect{X: RailWide + 1.5, Y: entryRow + 1, W: words, H: c.h - entryRow - 1}, RailWide
	if side == West {
		bar.X, text.X, x = c.w-RailWide, c.w-RailWide-1.5-words, c.w-RailWide
	}
	if side == West {
		c.putAll(lines, text.Right(), entryRow+0.6, sheet.Right)
	} else {
		c.putAll(lines, text.X, entryRow+0.6, sheet.Left)
	}
	tile.Pins, tile.Marks, tile.Solid = []Pin{{t, side, x, entryRow}}, c.Marks, []sheet.Rect{bar}
	if len(lines) > 0 {
		tile.Solid = append(tile.Solid, text)
	}
	return tile
}

// entryRow is the height of an entry's wire below its top.
const entryRow = 2.5
