// Package cutting plans which wire is cut from which length, so that as little as
// possible is bought. In: the pieces that are wanted of one kind of wire, the
// left-overs on the shelf, and the lengths in which that wire is sold. Out: the
// cuts of every length that is used, what is bought, and a bound below which
// nothing can be bought. Pure numbers, in whatever unit all lengths are given in.
//
// What holds: every piece is cut from exactly one length, no length gives more
// than it has, and a left-over is used once. Nothing smaller would do where Exact
// is set; else at most Bought - Bound could be saved. The same input gives the
// same plan; work is counted, never timed.
//
// The method: purchases are tried from the bound upwards, each as a question
// whether the pieces fit into the left-overs and that purchase (bin packing with
// bins of several sizes). It is answered by filling each length as well as it can
// be filled (the subset-sum heuristic after Gupta and Ho, 1999), by placing the
// longest first where it fits tightest, and, where both fail, by a search that
// places the longest first and skips what is alike. The bound is the material
// that the left-overs cannot give, rounded up to what can be bought.
package cutting

import (
	"container/heap"
	"sort"
)

// Sold says how a wire is sold: in given lengths (reels), any number of each, or,
// where there are none, in one length cut to a multiple of Step.
type Sold struct {
	Lengths []int
	Step    int // 0: 1
}

// Problem is what is wanted of one kind of wire.
type Problem struct {
	Pieces []int // above 0
	Left   []int // left-overs on the shelf
	Sold   Sold
}

// Length is one length that is cut.
type Length struct {
	Whole int
	Left  bool  // from the shelf
	Cuts  []int // indices of Pieces, the longest first
	Over  int   // is left when all is cut
}

// Plan is the answer.
type Plan struct {
	Lengths []Length // left-overs first
	Bought  int
	Bound   int   // no plan buys less
	Exact   bool  // Bought is the least
	TooLong []int // indices of pieces that no length holds
}

// Work: purchases that are tried, and places that are looked at for each.
const (
	mostPurchases = 400
	mostNodes     = 60_000
)

// Solve finds a plan.
func Solve(p Problem) Plan {
	q := newQuestion(p)
	plan := Plan{TooLong: q.tooLong}
	plan.Bound = q.bound()
	lowest, open := -1, q.purchases(plan.Bound)
	for range mostPurchases {
		bought := open.next()
		bins := append(append([]int(nil), q.left...), bought...)
		into, proved := q.fit(bins)
		if into != nil {
			q.write(&plan, bins, into)
			break
		}
		if !proved && lowest < 0 {
			lowest = sum(bought)
		}
	}
	if plan.Lengths == nil && len(q.pieces) > 0 {
		q.oneEach(&plan)
	}
	plan.Bound = min(plan.Bought, q.least(lowest, plan.Bought))
	plan.Exact = plan.Bound == plan.Bought
	return plan
}

// question is a problem with its pieces sorted, the longest first.
type question struct {
	p       Problem
	order   []int // by place here: index in Pieces
	pieces  []int
	left    []int // shortest first
	sold    []int // longest first
	step    int
	tooLong []int
}

func newQuestion(p Problem) *question {
	q := &question{p: p, step: max(p.Sold.Step, 1)}
	for _, l := range p.Left {
		if l > 0 {
			q.left = append(q.left, l)
		}
	}
	for _, l := range p.Sold.Lengths {
		if l > 0 {
			q.sold = append(q.sold, l)
		}
	}
	sort.Ints(q.left)
	sort.Sort(sort.Reverse(sort.IntSlice(q.sold)))
	for i, length := range p.Pieces {
		switch {
		case length <= 0:
		case q.holds(length):
			q.order = append(q.order, i)
		default:
			q.tooLong = append(q.tooLong, i)
		}
	}
	sort.SliceStable(q.order, func(a, b int) bool { return p.Pieces[q.order[a]] > p.Pieces[q.order[b]] })
	for _, i := range q.order {
		q.pieces = append(q.pieces, p.Pieces[i])
	}
	return q
}

func (q *question) holds(length int) bool {
	return len(q.sold) == 0 || length <= q.sold[0] || len(q.left) > 0 && length <= q.left[len(q.left)-1]
}

func sum(list []int) int {
	s := 0
	for _, v := range list {
		s += v
	}
	return s
}

// bound gives the material that the left-overs cannot give, each filled as well
// as its size allows were it alone.
func (q *question) bound() int {
	lacks := sum(q.pieces)
	for _, l := range q.left {
		lacks -= sum(pick(q.pieces, fullest(q.pieces, l)))
	}
	return max(0, lacks)
}

// least is the bound when all purchases below lowest were proved not to do; a
// negative lowest stands for all below bought.
func (q *question) least(lowest, bought int) int {
	if lowest >= 0 {
		return lowest
	}
	return bought
}

// purchase is lengths to buy.
type purchase struct {
	counts []int // by sold length
	sum    int
	last   int // the sold length added last; only it and shorter ones are added
}

// purchases gives every purchase of at least a sum, the smallest sum first; of
// equal sums that of the fewest lengths.
type purchases struct {
	q     *question
	least int
	open  purchaseHeap
	step  int // how many steps were bought last, where wire is cut to length
}

func (q *question) purchases(least int) *purchases {
	g := &purchases{q: q, least: least, step: -1}
	g.open = purchaseHeap{{counts: make([]int, len(q.sold))}}
	return g
}

// next gives the lengths of the next purchase.
func (g *purchases) next() []int {
	if len(g.q.sold) == 0 {
		if g.step++; g.step == 0 {
			g.step = (g.least + g.q.step - 1) / g.q.step
		}
		if g.step == 0 {
			return nil
		}
		return []int{g.step * g.q.step}
	}
	for {
		p := heap.Pop(&g.open).(purchase)
		for k := p.last; k < len(g.q.sold); k++ {
			more := purchase{append([]int(nil), p.counts...), p.sum + g.q.sold[k], k}
			more.counts[k]++
			heap.Push(&g.open, more)
		}
		if p.sum >= g.least {
			return g.lengths(p)
		}
	}
}

func (g *purchases) lengths(p purchase) []int {
	var out []int
	for k := len(p.counts) - 1; k >= 0; k-- {
		for range p.counts[k] {
			out = append(out, g.q.sold[k])
		}
	}
	return out
}

// purchaseHeap has the smallest sum on top, of equals the fewest lengths.
type purchaseHeap []purchase

func (h purchaseHeap) Len() int { return len(h) }
func (h purchaseHeap) Less(i, j int) bool {
	if h[i].sum != h[j].sum {
		return h[i].sum < h[j].sum
	}
	if a, b := sum(h[i].counts), sum(h[j].counts); a != b {
		return a < b
	}
	for k := range h[i].counts {
		if h[i].counts[k] != h[j].counts[k] {
			return h[i].counts[k] > h[j].counts[k]
		}
	}
	return false
}
func (h purchaseHeap) Swap(i, j int) { h[i], h[j] = h[j], h[i] }
func (h *purchaseHeap) Push(x any)   { *h = append(*h, x.(purchase)) }
func (h *purchaseHeap) Pop() any {
	old := *h
	x := old[len(old)-1]
	*h = old[:len(old)-1]
	return x
}

// write enters which piece is cut from which length.
func (q *question) write(plan *Plan, bins, into []int) {
	lengths := make([]Length, len(bins))
	for i, whole := range bins {
		lengths[i] = Length{Whole: whole, Left: i < len(q.left), Over: whole}
	}
	for i, b := range into {
		lengths[b].Cuts = append(lengths[b].Cuts, q.order[i])
		lengths[b].Over -= q.pieces[i]
	}
	for _, l := range lengths {
		if len(l.Cuts) == 0 {
			continue
		}
		plan.Lengths = append(plan.Lengths, l)
		if !l.Left {
			plan.Bought += l.Whole
		}
	}
}

// oneEach is the plan where no purchase that was tried did: longest first, each
// piece into the tightest length in hand, else a new one of the shortest that
// holds it.
func (q *question) oneEach(plan *Plan) {
	bins := append([]int(nil), q.left...)
	room := append([]int(nil), q.left...)
	into := make([]int, len(q.pieces))
	for i, length := range q.pieces {
		b := tightest(room, length)
		if b < 0 {
			b = len(bins)
			fresh := q.shortest(length)
			bins, room = append(bins, fresh), append(room, fresh)
		}
		into[i] = b
		room[b] -= length
	}
	q.write(plan, bins, into)
}

func (q *question) shortest(length int) int {
	best := 0
	for _, l := range q.sold {
		if l >= length {
			best = l
		}
	}
	return best
}
