package drawing

import (
	"fmt"
	"math"
	"slices"

	"example.com/loomfolio/sizing/harness"
)

// Heights of what stands around the strips, mm.
const (
	headHigh  = 5.7 // a circuit's name with what is said of it
	footRoom  = 10.0
	blockGap  = 2.6
	blockSide = 7.0
)

// block is a job, or the part of one that a sheet holds, as it is put on sheets.
type block struct {
	*job
	strips []*strip
	share  string // " (1 of 2)"
	first  bool   // of its job
	dead   dead
	shapes []shape
	plain  []shape // those without a lower strip than need be
	alone  []shape // with the points tucked in, for a row to itself
}

// shape is one way to draw a block: its strips in rows, with head and foot.
type shape struct {
	arranged
	head []string // lines of what is said of the circuit, the first beside its name
	w, h float64
	foot tucked
}

// blocks makes the blocks of all jobs; a job that fits no sheet is divided.
func (s *sheets) blocks(jobs []*job) []*block {
	var out []*block
	for _, j := range jobs {
		s.states = j.states
		strips := slices.DeleteFunc(slices.Clone(j.strips), func(st *strip) bool { return !st.drawable() })
		if len(strips) == 0 {
			continue
		}
		parts := s.inParts(j, strips)
		for i, b := range parts {
			if len(parts) > 1 {
				b.share = shareOf(i+1, len(parts))
			}
			out = append(out, b)
		}
	}
	return out
}

// inParts gives a job as the fewest blocks that each fit a sheet.
func (s *sheets) inParts(j *job, strips []*strip) []*block {
	whole := s.block(j, strips, true, "")
	if s.lowest(whole) <= s.body.H+1e-6 || len(strips) == 1 {
		return []*block{whole}
	}
	var out []*block
	var here []*strip
	part := func(strips []*strip) *block { return s.block(j, strips, len(out) == 0, shareOf(1, 2)) }
	for _, st := range strips {
		if more := append(slices.Clone(here), st); len(here) > 0 && s.lowest(part(more)) > s.body.H+1e-6 {
			out = append(out, part(here))
			here = nil
		}
		here = append(here, st)
	}
	return append(out, part(here))
}

// shareOf tells which block of a job's it is.
func shareOf(i, n int) string { return fmt.Sprintf(" (%d of %d)", i, n) }

func (s *sheets) lowest(b *block) float64 {
	low := math.Inf(1)
	for _, x := range append(slices.Clone(b.shapes), b.alone...) {
		low = math.Min(low, x.h)
	}
	return low
}

// block gives strips of a job with all shapes that are lower or narrower than others;
// the first of a job's has the points to measure.
func (s *sheets) block(j *job, strips []*strip, first bool, share string) *block {
	b := &block{job: j, strips: strips, first: first, share: share}
	if first {
		b.dead = s.deadOf(j)
	}
	for _, most := range []float64{s.body.W, s.body.W * 0.62, s.body.W * 0.48, s.body.W * 0.36} {
		for _, f := range formsOf(strips) {
			if x := s.shape(b, arrange(strips, f, most)); x.w <= s.body.W+1e-6 {
				b.shapes = append(b.shapes, x)
			}
		}
	}
	b.plain = pareto(slices.DeleteFunc(slices.Clone(b.shapes), shape.low))
	b.shapes = pareto(b.shapes)
	for _, x := range b.shapes {
		if s.tuck(b, &x); x.foot.found {
			b.alone = append(b.alone, x)
		}
	}
	return b
}

// low tells whether a shape has a lower strip with more bends.
func (x shape) low() bool {
	return slices.ContainsFunc(x.rows, func(row []placed) bool {
		return slices.ContainsFunc(row, func(p placed) bool { return p.form.low })
	})
}

// formsOf are the looks of the versions of some strips.
func formsOf(strips []*strip) []look {
	var out []look
	for _, st := range strips {
		for _, v := range st.versions {
			f := v.form
			if f.mixed {
				f = look{mixed: true, low: f.low, stacked: f.stacked}
			}
			if !slices.Contains(out, f) {
				out = append(out, f)
			}
		}
	}
	return out
}

// pareto keeps the shapes to which no other is both narrower and lower.
func pareto(all []shape) []shape {
	var out []shape
	for i, x := range all {
		if !slices.ContainsFunc(all, func(o shape) bool { return o.w <= x.w+1e-6 && o.h <= x.h+1e-6 && (o.w < x.w-1e-6 || o.h < x.h-1e-6) }) &&
			!slices.ContainsFunc(all[:i], func(o shape) bool { return math.Abs(o.w-x.w)+math.Abs(o.h-x.h) < 1e-5 }) {
			out = append(out, x)
		}
	}
	return out
}

// shape adds head and foot to strips in rows.
func (s *sheets) shape(b *block, a arranged) shape {
	x := shape{arranged: a, w: math.Max(math.Max(a.w, s.nameWide(b)+2), footLeast(b.dead))}
	x.head = s.headLines(b, x.w)
	x.h = s.headHigh(b, x.head) + a.h + s.footHigh(b, x.w)
	return x
}

// headHigh is the height of a block's head.
func (s *sheets) headHigh(b *block, lines []string) float64 {
	n := max(len(lines), 1)
	if len(b.back) > 0 && b.first {
		n++
	}
	return headHigh + headLeads*float64(n-1)
}

// setBlock is a block placed in a row of a page.
type setBlock struct {
	b     *block
	x     shape
	at, y float64
	wide  float64
	spare float64 // free under it
}

// leaf is the blocks of a sheet, row by row.
type leaf [][]setBlock

// pack puts blocks on sheets in their order, up to three side by side, such that the
// sheets are fewest and the last of them has most room left.
func (s *sheets) pack(blocks []*block) []leaf {
	best := make([]packed, len(blocks)+1)
	for i := 1; i <= len(blocks); i++ {
		best[i] = packed{pages: 1 << 30}
		for n := 1; n <= 3 && n <= i; n++ {
			row, ok := s.row(blocks[i-n:i], (*block).all)
			if !ok || n > 1 && blocksHigh(row) > s.body.H+1e-6 {
				continue
			}
			if p := best[i-n].with(row, s.body.H); p.before(best[i]) {
				p.from = i - n
				best[i] = p
			}
		}
	}
	var rows [][]setBlock
	for i := len(blocks); i > 0; i = best[i].from {
		rows = append(rows, best[i].row)
	}
	slices.Reverse(rows)
	return s.toPages(rows)
}

// packed is the best way found to put the blocks up to one on sheets.
type packed struct {
	pages int
	used  float64
	from  int
	row   []setBlock
}

func (p packed) before(o packed) bool {
	if p.pages != o.pages {
		return p.pages < o.pages
	}
	return p.used < o.used-1e-9
}

func (p packed) with(row []setBlock, room float64) packed {
	high := blocksHigh(row)
	if p.pages > 0 && p.used+blockGap+high <= room+1e-6 {
		return packed{pages: p.pages, used: p.used + blockGap + high, row: row}
	}
	return packed{pages: p.pages + 1, used: high, row: row}
}

func blocksHigh(row []setBlock) float64 {
	high := 0.0
	for _, b := range row {
		high = math.Max(high, b.x.h)
	}
	return high
}

// all are the shapes of a block in a row of so many.
func (b *block) all(of int) []shape {
	if of == 1 {
		return append(slices.Clone(b.shapes), b.alone...)
	}
	return b.shapes
}

// unbent are the shapes without a lower strip than need be.
func (b *block) unbent(of int) []shape {
	if of > 1 {
		return b.plain
	}
	return append(slices.Clone(b.plain), slices.DeleteFunc(slices.Clone(b.alone), shape.low)...)
}

// row takes for each block the shape with which the row is lowest, out of those asked for.
func (s *sheets) row(blocks []*block, shapesOf func(b *block, of int) []shape) ([]setBlock, bool) {
	var best []setBlock
	low := math.Inf(1)
	var try func(i int, at float64, so []setBlock)
	try = func(i int, at float64, so []setBlock) {
		if i == len(blocks) {
			if h := blocksHigh(so); h < low-1e-9 {
				best, low = slices.Clone(so), h
			}
			return
		}
		for _, x := range shapesOf(blocks[i], len(blocks)) {
			if at+x.w <= s.body.W+1e-6 {
				try(i+1, at+x.w+blockSide, append(so, setBlock{b: blocks[i], x: x}))
			}
		}
	}
	try(0, 0, nil)
	if best == nil && len(blocks) == 1 {
		best = []setBlock{{b: blocks[0], x: blocks[0].shapes[0]}}
	}
	return best, best != nil
}

// toPages puts rows on pages and shares the room that they leave over.
func (s *sheets) toPages(rows [][]setBlock) []leaf {
	var out []leaf
	used := 0.0
	for _, row := range rows {
		s.across(row)
		high := blocksHigh(row)
		if len(out) == 0 || used+blockGap+high > s.body.H+1e-6 {
			out = append(out, nil)
			used = -blockGap
		}
		last := len(out) - 1
		out[last] = append(out[last], row)
		used += blockGap + high
	}
	s.even(out)
	for _, p := range out {
		s.relax(p)
		s.down(p)
		s.spare(p)
	}
	return out
}

// rowsHigh is the height of the rows of a page.
func (p leaf) rowsHigh() float64 {
	high := -blockGap
	for _, row := range p {
		high += blocksHigh(row) + blockGap
	}
	return high
}

// even moves the last row of a page to the next one where that has more room left than
// this one would have.
func (s *sheets) even(pages []leaf) {
	for i := len(pages) - 2; i >= 0; i-- {
		for {
			last := len(pages[i]) - 1
			row := pages[i][last]
			if with := pages[i+1].rowsHigh() + blockGap + blocksHigh(row); last == 0 || with > s.body.H+1e-6 || with >= pages[i].rowsHigh() {
				break
			}
			pages[i], pages[i+1] = pages[i][:last], append(leaf{row}, pages[i+1]...)
		}
	}
}

// relax takes shapes with fewer bends where the page has room for them.
func (s *sheets) relax(p leaf) {
	left := s.body.H - p.rowsHigh()
	for i, row := range p {
		if !slices.ContainsFunc(row, func(b setBlock) bool { return b.x.low() }) {
			continue
		}
		var blocks []*block
		for _, b := range row {
			blocks = append(blocks, b.b)
		}
		plain, ok := s.row(blocks, (*block).unbent)
		if more := blocksHigh(plain) - blocksHigh(row); ok && more <= left+1e-6 {
			left -= more
			s.across(plain)
			p[i] = plain
		}
	}
}

// across shares the width that a row leaves over.
func (s *sheets) across(row []setBlock) {
	left := s.body.W - blockSide*float64(len(row)-1)
	for _, b := range row {
		left -= b.x.w
	}
	x := 0.0
	for i := range row {
		row[i].at, row[i].wide = x, row[i].x.w+math.Max(left, 0)/float64(len(row))
		x += row[i].wide + blockSide
	}
}

// down sets the rows of a page with the height left over between them, 12 mm at most.
func (s *sheets) down(p leaf) {
	left := s.body.H - p.rowsHigh()
	air := math.Min(math.Max(left, 0)/float64(len(p)), 12)
	y := 0.0
	for _, row := range p {
		for i := range row {
			row[i].y = y
		}
		y += blocksHigh(row) + blockGap + air
	}
}

// circuitsOn are the circuits of a page in order.
func (p leaf) circuitsOn() []harness.CircuitID {
	var out []harness.CircuitID
	for _, row := range p {
		for _, b := range row {
			for _, c := range b.b.circuits {
				if !slices.Contains(out, c) {
					out = append(out, c)
				}
			}
		}
	}
	return out
}
