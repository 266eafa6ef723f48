package diagram

import "math"

// What a bend costs against a mm of height between the ends of a segment.
const (
	bendCost  = 30
	topPull   = 0.02 // per mm: of two equal places take the upper
	laneCost  = 1.5  // per mm between two lanes
	jog       = 4.0  // mm
	sweepMost = 16
)

// tight is the height of the fullest column.
func (b *board) tight() float64 {
	most := 0.0
	for _, col := range b.columns {
		sum := -b.gap()
		for _, it := range col {
			sum += b.items[it].h + b.gap()
		}
		most = math.Max(most, sum)
	}
	return most
}

func (b *board) gap() float64 { return b.ceil(b.r.Below) }

// Stacked is the height that so many like tiles take one above another in a column.
func (r Rules) Stacked(n Node, count int) float64 {
	b := &board{r: r}
	up, down := b.margins(n)
	return float64(count)*(b.ceil(n.H+up+down)+b.gap()) - b.gap()
}

// stack snaps the heights to the grid and pushes items of a column apart.
func (b *board) stack() {
	for _, col := range b.columns {
		next := 0.0
		for _, it := range col {
			y := math.Round(b.items[it].y/b.r.Grid) * b.r.Grid
			b.items[it].y = math.Max(y, next)
			next = b.items[it].y + b.items[it].h + b.gap()
		}
	}
}

// squeeze pushes items up where a column goes below the bound.
func (b *board) squeeze(bound float64) {
	for _, col := range b.columns {
		floor := math.Floor(bound/b.r.Grid+1e-9) * b.r.Grid
		for i := len(col) - 1; i >= 0; i-- {
			it := &b.items[col[i]]
			it.y = math.Min(it.y, floor-it.h)
			floor = it.y - b.gap()
		}
	}
}

// settle moves the items within their order to where most wires run straight
// and none goes below the bound: each column in turn by dynamic programming
// against its neighbours, then whole rows of straight wires together.
func (b *board) settle(bound float64) {
	b.squeeze(bound)
	last := math.Inf(1)
	for sweep := 0; sweep < sweepMost; sweep++ {
		for i := range b.columns {
			c := i
			if sweep%2 == 1 {
				c = len(b.columns) - 1 - i
			}
			b.settleColumn(b.columns[c], bound)
		}
		b.shiftRows(bound)
		b.permuteByHeight()
		cost := b.total()
		if cost > last-1e-6 {
			return
		}
		last = cost
	}
}

func (b *board) permuteByHeight() {
	rank := make([]float64, len(b.items))
	for i, it := range b.items {
		rank[i] = it.y
	}
	b.permuteBy(rank)
}

// scratch is the memory of settleColumn, kept from column to column.
type scratch struct {
	best  [][]float64 // cheapest cost of the items up to i with i at or above step k
	at    [][]int
	costs []float64
	steps []int
}

// rows gives room for a number of items with that many steps each; what stands in it
// is of no meaning.
func (s *scratch) rows(items, steps int) ([][]float64, [][]int) {
	if n := items * steps; n > len(s.costs) {
		s.costs, s.steps = make([]float64, n), make([]int, n)
	}
	s.best, s.at = s.best[:0], s.at[:0]
	for i := range items {
		s.best = append(s.best, s.costs[i*steps:(i+1)*steps])
		s.at = append(s.at, s.steps[i*steps:(i+1)*steps])
	}
	return s.best, s.at
}

// settleColumn finds the best heights of one column, the others held.
func (b *board) settleColumn(col []int, bound float64) {
	steps := int(math.Floor(bound/b.r.Grid+1e-9)) + 1
	best, at := b.scratch.rows(len(col), steps)
	for i, it := range col {
		for k := range steps {
			cost := b.costAt(it, float64(k)*b.r.Grid, bound)
			if i > 0 {
				cost += b.before(best[i-1], col[i-1], k)
			}
			best[i][k], at[i][k] = cost, k
			if k > 0 && best[i][k-1] <= cost {
				best[i][k], at[i][k] = best[i][k-1], at[i][k-1]
			}
		}
	}
	b.takeBack(col, at, steps-1)
}

// before is the cheapest cost of the items above when the next begins at step k.
func (b *board) before(best []float64, above, k int) float64 {
	k -= b.steps(b.items[above].h + b.gap())
	if k < 0 {
		return math.Inf(1)
	}
	return best[k]
}

func (b *board) steps(h float64) int { return int(math.Round(h / b.r.Grid)) }

func (b *board) takeBack(col []int, at [][]int, k int) {
	for i := len(col) - 1; i >= 0; i-- {
		k = at[i][k]
		b.items[col[i]].y = float64(k) * b.r.Grid
		if i > 0 {
			k -= b.steps(b.items[col[i-1]].h + b.gap())
			k = max(k, 0)
		}
	}
}

// costAt is what an item's wires cost with its top at y.
func (b *board) costAt(it int, y, bound float64) float64 {
	if y+b.items[it].h > bound+1e-6 {
		return math.Inf(1)
	}
	cost := topPull * y
	for _, i := range b.byItem[it] {
		s := b.segs[i]
		other, own := s.to, s.from
		if s.from.item != it {
			other, own = s.from, s.to
		}
		cost += b.segCost(s, y+own.offset, b.yOf(other))
	}
	return cost
}

// segCost is what the height between a segment's ends costs.
func (b *board) segCost(s segment, y1, y2 float64) float64 {
	d := math.Abs(y1 - y2)
	if s.fromL == s.toL {
		return d
	}
	if d < 1e-6 {
		return 0
	}
	if s.from.pin < 0 && s.to.pin < 0 {
		return laneCost*d + 2*bendCost
	}
	if d < jog {
		return d + 2*bendCost // a short jog looks like a slip of the pen
	}
	return d + bendCost
}

func (b *board) total() float64 {
	sum := 0.0
	for _, s := range b.segs {
		sum += b.segCost(s, b.yOf(s.from), b.yOf(s.to))
	}
	for _, it := range b.items {
		sum += topPull * it.y
	}
	return sum
}

// shiftRows moves each set of items that hang together by straight wires as one.
func (b *board) shiftRows(bound float64) {
	for round := 0; round < 8; round++ {
		better := false
		for _, row := range b.rows() {
			better = b.shift(row, bound) || better
		}
		if !better {
			return
		}
	}
}

// rows gives the sets of items joined by straight segments, in a fixed order.
func (b *board) rows() [][]int {
	root := make([]int, len(b.items))
	for i := range root {
		root[i] = i
	}
	find := func(i int) int {
		for root[i] != i {
			i = root[i]
		}
		return i
	}
	for _, s := range b.segs {
		if b.straight(s) {
			root[find(s.from.item)] = find(s.to.item)
		}
	}
	byRoot := map[int]int{}
	var rows [][]int
	for i := range b.items {
		r := find(i)
		at, ok := byRoot[r]
		if !ok {
			at = len(rows)
			byRoot[r] = at
			rows = append(rows, nil)
		}
		rows[at] = append(rows[at], i)
	}
	return rows
}

func (b *board) shift(row []int, bound float64) bool {
	lo, hi := b.leeway(row, bound)
	before, best, bestCost := b.total(), 0, math.Inf(1)
	for d := lo; d <= hi; d++ {
		b.move(row, d)
		if cost := b.total(); cost < bestCost-1e-9 {
			best, bestCost = d, cost
		}
		b.move(row, -d)
	}
	if best == 0 || bestCost > before-1e-6 {
		return false
	}
	b.move(row, best)
	return true
}

func (b *board) move(row []int, d int) {
	for _, it := range row {
		b.items[it].y += float64(d) * b.r.Grid
	}
}

// leeway is how many grid steps a row can move up (negative) and down.
func (b *board) leeway(row []int, bound float64) (lo, hi int) {
	in := map[int]bool{}
	for _, it := range row {
		in[it] = true
	}
	up, down := math.Inf(1), math.Inf(1)
	for _, col := range b.columns {
		for i, it := range col {
			if !in[it] {
				continue
			}
			a, d := b.room(col, i, bound, in)
			up, down = math.Min(up, a), math.Min(down, d)
		}
	}
	return -int(math.Floor(up/b.r.Grid + 1e-6)), int(math.Floor(down/b.r.Grid + 1e-6))
}

// room is the free height above and below the item at i of a column.
func (b *board) room(col []int, i int, bound float64, in map[int]bool) (up, down float64) {
	it := b.items[col[i]]
	up, down = it.y, bound-it.y-it.h
	if i > 0 {
		up = math.Inf(1)
		if prev := b.items[col[i-1]]; !in[col[i-1]] {
			up = it.y - prev.y - prev.h - b.gap()
		}
	}
	if i+1 < len(col) {
		down = math.Inf(1)
		if next := b.items[col[i+1]]; !in[col[i+1]] {
			down = next.y - it.y - it.h - b.gap()
		}
	}
	return up, down
}

func heights(items []item) []float64 {
	out := make([]float64, len(items))
	for i, it := range items {
		out[i] = it.y
	}
	return out
}

func (b *board) restore(heights []float64) {
	for i := range b.items {
		b.items[i].y = heights[i]
	}
}
