package table

import (
	"math"
	"slices"

	"example.com/loomfolio/layout/sheet"
)

// Settled is a table whose columns have their widths and whose cells are wrapped; it
// is poured as often as it takes to find its places.
type Settled struct {
	t      *Table
	w      []float64 // of the columns
	points []point   // by column: where decimal points stand
	head   float64   // height of the header
	rows   []laid
}

// Settle fits the columns to a width and wraps the cells. The rows must not change afterwards.
func (t *Table) Settle(width float64) *Settled {
	s := &Settled{t: t, w: t.widths(width)}
	for i, c := range t.Columns {
		p := point{}
		if c.Align == Decimal {
			p.before, p.after = t.decimals(i)
		}
		s.points = append(s.points, p)
	}
	s.head = s.headHeight()
	for _, row := range t.Rows {
		s.rows = append(s.rows, s.lay(row))
	}
	return s
}

// Flow settles the table and lays it out; where the areas differ in width it is as
// wide as the narrower.
func (t *Table) Flow(first, rest sheet.Rect) []Part {
	return t.Settle(math.Min(first.W, rest.W)).Flow(first, rest)
}

// Height is how high the table would be in one piece at a width.
func (t *Table) Height(width float64) float64 { return t.Settle(width).Height() }

// Height is how high the table is in one piece.
func (s *Settled) Height() float64 {
	high := s.head
	for _, l := range s.rows {
		high += l.high(s.t.padY())
	}
	return high
}

// Flow lays the table out: what fits goes into the first area, the rest into as
// many areas like rest as it takes. There is always at least one part; the first one is
// empty when the header and a row do not fit the first area but would fit the other.
// Where little would stand on the last sheet, the rows are drawn closer if that saves
// the sheet; if it does not, a lone row or two are given company.
func (s *Settled) Flow(first, rest sheet.Rect) []Part {
	return s.FlowIn(func(i int) sheet.Rect {
		if i == 0 {
			return first
		}
		return rest
	})
}

// FlowIn is Flow for areas of one width that differ otherwise, such as the columns of several sheets.
func (s *Settled) FlowIn(area Areas) []Part {
	pad, breaks := s.closeness(area)
	return s.pour(area, pad, breaks, true)
}

// Measure is FlowIn without the marks: how many parts there are, and where each ends.
func (s *Settled) Measure(area Areas) []Part {
	pad, breaks := s.closeness(area)
	return s.pour(area, pad, breaks, false)
}

// closeness is how close the rows are drawn, and the block that begins a part though there is room for it, 0 for none.
func (s *Settled) closeness(area Areas) (pad float64, breaks int) {
	pad = s.t.padY()
	parts := s.pour(area, pad, 0, false)
	last := parts[len(parts)-1]
	if rest := area(len(parts) - 1); len(parts) == 1 || last.Bottom-rest.Y > rest.H/thin {
		return pad, 0
	}
	for _, tight := range closer {
		if tight < pad && len(s.pour(area, tight, 0, false)) < len(parts) {
			return tight, 0
		}
	}
	if before := parts[len(parts)-2]; last.blocks < company && before.blocks > 2*company {
		return pad, before.from + before.blocks - (company - last.blocks)
	}
	return pad, 0
}

// Areas gives the area that part i of a table fills.
type Areas func(i int) sheet.Rect

// thin is the share of a last sheet, one in so many, below which a table is drawn
// closer to save the sheet; closer are the paddings tried then, mm.
const thin = 4

var closer = [...]float64{1.0, 0.9, 0.8}

// company is how many rows stand at least together on a last sheet.
const company = 3

// pour lays the table out with a padding over and under each row, mm; a block other than 0
// begins a sheet whether there is room for it or not. Where it is not drawn the parts have no marks.
func (s *Settled) pour(areas Areas, pad float64, breaks int, drawn bool) []Part {
	f := &flow{Settled: s, area: areas(0), areas: areas, pad: pad, drawn: drawn}
	f.open(nil)
	blocks := f.blocks()
	for rest := areas(1); len(blocks) > 0 && !f.fits(blocks[0]) && f.head+blocks[0].h < rest.H && rest.H > f.area.H; rest = areas(len(f.parts) + 1) {
		f.parts = append(f.parts, Part{Bottom: f.area.Y})
		f.area, f.marks = rest, sheet.Canvas{}
		f.open(nil)
	}
	for i, b := range blocks {
		if i > 0 && i == breaks {
			f.turn(b)
		}
		f.put(b)
		f.placed++
	}
	f.close()
	return f.parts
}

// flow is the work of pour.
type flow struct {
	*Settled
	area   sheet.Rect // being filled
	areas  Areas
	y      float64
	under  sheet.Canvas // bands of every second row
	marks  sheet.Canvas // all else, over the bands
	parts  []Part
	since  int     // rows on this sheet since the last heading, for the zebra
	group  *Row    // the heading in force
	pad    float64 // over and under the text of a row
	placed int     // blocks that are placed whole
	empty  bool    // nothing but the header on this sheet yet
	drawn  bool    // else it is measured alone
}

// block is rows that stay together: headings with the row after them, a row with its sums.
type block struct {
	rows []laid
	h    float64
}

func (f *flow) blocks() []block {
	var blocks []block
	glued := f.t.glued()
	for i, l := range f.rows {
		l = l.padded(f.pad)
		if n := len(blocks); n > 0 && glued[i] {
			blocks[n-1].rows = append(blocks[n-1].rows, l)
			blocks[n-1].h += l.h
		} else {
			blocks = append(blocks, block{rows: []laid{l}, h: l.h})
		}
	}
	return blocks
}

// glued tells of each row whether it stands on the sheet of the row before it: sums
// do, and what follows a heading; in company also a heading's second row and the last
// row before the next heading.
func (t *Table) glued() []bool {
	n := len(t.Rows)
	kind := func(i int) Kind {
		if i < 0 || i >= n {
			return Group
		}
		return t.Rows[i].Kind
	}
	out := make([]bool, n)
	for i := range out {
		out[i] = kind(i) == Sum || i > 0 && kind(i-1) == Group
		if t.Company && kind(i) != Group {
			last := i + 1
			for kind(last) == Sum {
				last++
			}
			second := kind(i-1) != Group && kind(i-2) == Group && i > 1
			out[i] = out[i] || second || kind(last) == Group
		}
	}
	return out
}

func (f *flow) fits(b block) bool { return f.y+b.h <= f.area.Bottom()+1e-6 }

// put places a block, on the next sheet if it does not fit this one; one that
// fits no sheet is taken apart.
func (f *flow) put(b block) {
	if !f.fits(b) && !f.empty {
		f.turn(b)
	}
	whole := f.fits(b)
	for _, l := range b.rows {
		if whole || f.y+l.h <= f.area.Bottom()+1e-6 {
			f.draw(l)
			continue
		}
		f.split(l)
	}
}

// split places a row that is too high, as many of its lines at a time as fit.
func (f *flow) split(l laid) {
	for {
		piece, left, more := l.part(f.area.Bottom() - f.y)
		if piece.h > 0 {
			f.draw(piece)
		}
		if !more {
			return
		}
		if f.empty && piece.h == 0 { // not even one line fits: let it stand rather than lose it
			f.draw(left)
			return
		}
		f.turn(block{rows: []laid{left}})
		l = left
	}
}

// turn goes to the next sheet; the heading in force is repeated unless another one comes first.
func (f *flow) turn(next block) {
	f.close()
	f.area = f.areas(len(f.parts))
	again := f.group
	if len(next.rows) > 0 && next.rows[0].row.Kind == Group {
		again = nil
	}
	f.open(again)
}

func (f *flow) open(again *Row) {
	f.y, f.since = f.area.Y, 0
	f.drawHead()
	if again != nil {
		f.draw(f.lay(again.continued()).padded(f.pad))
	}
	f.empty = true
}

// continued is the heading for a further sheet, without its drawings and notes; links lead to the first one.
func (r Row) continued() Row {
	if r.again || len(r.Cells) == 0 {
		return r
	}
	r.Cells = slices.Clone(r.Cells)
	r.Cells[0].S += ", continued"
	for i := range r.Cells {
		r.Cells[i].Draw, r.Cells[i].Note = nil, ""
	}
	r.Anchor, r.again = "", true
	return r
}

func (f *flow) close() {
	part := Part{Marks: append(f.under.Marks, f.marks.Marks...), Bottom: f.y, blocks: f.placed}
	if n := len(f.parts); n > 0 {
		part.from = f.parts[n-1].from + f.parts[n-1].blocks
		part.blocks -= part.from
	}
	f.parts = append(f.parts, part)
	f.under, f.marks = sheet.Canvas{}, sheet.Canvas{}
}
