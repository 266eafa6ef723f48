package diagram

import (
	"cmp"
	"math"
	"math/rand/v2"
	"slices"
)

// order puts the items of each column in order by the middle of what each is joined
// to, then moves items for as long as crossings become fewer. A later try begins
// from a shuffled sequence of its own.
func (b *board) order(try int) {
	if try > 0 {
		b.shuffle(try)
	}
	b.byMiddles()
	b.gather()
	b.untangle()
	b.stack()
}

// shuffle puts each column's items in a sequence of the try's own.
func (b *board) shuffle(try int) {
	rng := rand.New(rand.NewPCG(uint64(try), 7))
	for _, col := range b.columns {
		rng.Shuffle(len(col), func(i, j int) { col[i], col[j] = col[j], col[i] })
	}
}

// middleSweeps is how often the columns are gone through, onward and back.
const middleSweeps = 8

// byMiddles sorts each column by the mean height of the places that its items are
// joined to in the columns before, then behind, and so on.
func (b *board) byMiddles() {
	b.stack()
	for sweep := range middleSweeps {
		for i := range b.columns {
			c := i
			if sweep%2 == 1 {
				c = len(b.columns) - 1 - i
			}
			b.sortByMiddle(b.columns[c], sweep%2 == 0)
		}
	}
}

func (b *board) sortByMiddle(col []int, onward bool) {
	aim := map[int]float64{}
	for _, it := range col {
		sum, n := 0.0, 0.0
		for _, i := range b.byItem[it] {
			own, other := b.segs[i].to, b.segs[i].from
			if own.item != it {
				own, other = other, own
			}
			if before := b.items[other.item].column < b.items[it].column; before == onward && other.item != it {
				sum += b.yOf(other) - own.offset
				n++
			}
		}
		if aim[it] = b.items[it].y; n > 0 {
			aim[it] = sum / n
		}
	}
	slices.SortStableFunc(col, func(a, c int) int { return cmp.Compare(aim[a], aim[c]) })
	next := 0.0
	for _, it := range col {
		b.items[it].y = math.Max(aim[it], next)
		next = b.items[it].y + b.items[it].h + b.gap()
	}
}

// normalise shifts all items so that the topmost begins at 0.
func (b *board) normalise() {
	top := math.Inf(1)
	for _, it := range b.items {
		top = math.Min(top, it.y)
	}
	for i := range b.items {
		b.items[i].y -= top
	}
}

// gather puts entries of one rail next to each other, where the first of them stands.
func (b *board) gather() {
	for _, col := range b.columns {
		first := map[string]int{}
		rank := make(map[int][]int, len(col))
		for i, it := range col {
			key := b.key(it)
			at, seen := first[key]
			if key == "" || !seen {
				at = i
				first[key] = i
			}
			if b.leads(it) {
				i = -1
			}
			rank[it] = []int{at, i}
		}
		slices.SortStableFunc(col, func(a, c int) int { return slices.Compare(rank[a], rank[c]) })
	}
}

func (b *board) key(it int) string {
	if n := b.items[it].node; n >= 0 {
		return b.g.Nodes[n].Key
	}
	return ""
}

func (b *board) leads(it int) bool {
	n := b.items[it].node
	return n >= 0 && b.g.Nodes[n].Lead
}

// untangle swaps neighbours of a column while that takes crossings away.
func (b *board) untangle() {
	for round := 0; round < 40; round++ {
		better := false
		for _, col := range b.columns {
			for i := 0; i+1 < len(col); i++ {
				better = b.trySwap(col, i) || better
			}
		}
		b.permutePins()
		if !better {
			return
		}
	}
}

func (b *board) trySwap(col []int, i int) bool {
	if b.splits(col, i) {
		return false
	}
	c := b.items[col[i]].column
	before := b.crossingsAbout(c)
	col[i], col[i+1] = col[i+1], col[i]
	if b.crossingsAbout(c) < before {
		return true
	}
	col[i], col[i+1] = col[i+1], col[i]
	return false
}

// splits tells whether swapping would part the entries of a rail.
func (b *board) splits(col []int, i int) bool {
	one, two := b.key(col[i]), b.key(col[i+1])
	if one == two {
		return one != ""
	}
	before := i > 0 && one != "" && b.key(col[i-1]) == one
	after := i+2 < len(col) && two != "" && b.key(col[i+2]) == two
	return before || after
}

// rank gives each place a number that grows downwards in its column.
func (b *board) ranks() []float64 {
	rank := make([]float64, len(b.items))
	for _, col := range b.columns {
		for i, it := range col {
			rank[it] = float64(i) * 1000
		}
	}
	return rank
}

// crossingsAbout counts the crossings in the channels on both sides of a column,
// as far as the order of the places decides them.
func (b *board) crossingsAbout(c int) int {
	rank := b.ranks()
	n := 0
	for _, ch := range []int{c - 1, c} {
		n += crossings(b.ends(ch, rank))
	}
	return n
}

// ends gives the left and right rank of each segment of a channel that crosses it.
func (b *board) ends(channel int, rank []float64) [][2]float64 {
	var out [][2]float64
	for _, s := range b.segs {
		if s.channel != channel || s.fromL == s.toL {
			continue
		}
		f, t := rank[s.from.item]+s.from.offset, rank[s.to.item]+s.to.offset
		if !s.fromL {
			f, t = t, f
		}
		out = append(out, [2]float64{f, t})
	}
	return out
}

func crossings(ends [][2]float64) int {
	n := 0
	for i, a := range ends {
		for _, c := range ends[:i] {
			if (a[0]-c[0])*(a[1]-c[1]) < 0 {
				n++
			}
		}
	}
	return n
}
