package diagram

import (
	"cmp"
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"sort"
	"strings"
)

// order puts the items of each column in order, then swaps neighbours for as long
// as crossings become fewer. The first try's order is by the middle of what each
// item is joined to; the later ones are the library's for the graph written down
// in the try's own sequence.
func (b *board) order(try int) {
	if try == 0 {
		b.byMiddles()
	} else {
		b.byLibrary(try - 1)
	}
	b.gather()
	b.untangle()
	b.stack()
}

func (b *board) byLibrary(try int) {
	spots, err := runDot(b.dot(try), len(b.items))
	if err != nil {
		spots = nil // all stand at 0: the order in which they were given
	}
	for c := range b.columns {
		col := b.columns[c]
		y := func(it int) float64 { return -spots[fmt.Sprintf("i%d", it)].Y }
		sort.SliceStable(col, func(i, j int) bool { return y(col[i]) < y(col[j]) })
		for _, it := range col {
			b.items[it].y = y(it)/perMM - b.items[it].h/2
		}
	}
	b.normalise()
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

// dot writes the graph with its lanes; a chain of bare nodes holds the columns.
func (b *board) dot(try int) string {
	rng := rand.New(rand.NewPCG(uint64(try), 7))
	var s strings.Builder
	fmt.Fprintf(&s, "digraph g {rankdir=LR;splines=line;ranksep=0.5;nodesep=%s;node [shape=plain];\n", inches(b.r.Gap))
	s.WriteString("edge [weight=1];\n")
	for c := range b.columns {
		fmt.Fprintf(&s, "c%d [shape=box fixedsize=true label=\"\" width=0.1 height=0.01];\n", c)
		if c > 0 {
			fmt.Fprintf(&s, "c%d -> c%d [weight=0];\n", c-1, c)
		}
	}
	for _, i := range sequence(len(b.items), try, rng) {
		fmt.Fprintf(&s, "i%d [label=<%s>];\n", i, b.table(i))
	}
	for c, col := range b.columns {
		fmt.Fprintf(&s, "{rank=same; c%d", c)
		for _, it := range col {
			fmt.Fprintf(&s, "; i%d", it)
		}
		s.WriteString("}\n")
	}
	for _, i := range sequence(len(b.segs), try, rng) {
		s.WriteString(b.dotEdge(i))
	}
	s.WriteString("}\n")
	return s.String()
}

// sequence is the numbers below n in their order, or shuffled by a later try.
func sequence(n, try int, rng *rand.Rand) []int {
	out := make([]int, n)
	for i := range out {
		out[i] = i
	}
	if try > 0 {
		rng.Shuffle(n, func(i, j int) { out[i], out[j] = out[j], out[i] })
	}
	return out
}

func (b *board) dotEdge(i int) string {
	s := b.segs[i]
	if s.fromL == s.toL {
		return "" // turns back within its channel: no order follows from it
	}
	left, right := s.from, s.to
	if !s.fromL {
		left, right = right, left
	}
	weight := 1
	if left.pin < 0 && right.pin < 0 {
		weight = 4
	}
	return fmt.Sprintf("i%d:%s:e -> i%d:%s:w [weight=%d];\n", left.item, b.port(left), right.item, b.port(right), weight)
}

func (b *board) port(p place) string { return fmt.Sprintf("p%d", points(p.offset)) }

func points(mm float64) int { return int(math.Round(mm * perMM)) }

// table is a node without text, with a port at the height of each pin.
func (b *board) table(i int) string {
	it := b.items[i]
	heights := []int{points(b.r.Grid)}
	if it.node >= 0 {
		heights = nil
		for _, p := range b.g.Nodes[it.node].Pins {
			heights = append(heights, points(it.up+p.Y))
		}
		slices.Sort(heights)
		heights = slices.Compact(heights)
	}
	var s strings.Builder
	s.WriteString(`<TABLE BORDER="0" CELLBORDER="0" CELLSPACING="0" CELLPADDING="0">`)
	row := func(h int, port string) {
		if h > 0 {
			fmt.Fprintf(&s, `<TR><TD%s FIXEDSIZE="TRUE" WIDTH="8" HEIGHT="%d"></TD></TR>`, port, h)
		}
	}
	at := 0
	for _, h := range heights {
		row(h-1-at, "")
		row(2, fmt.Sprintf(` PORT="p%d"`, h))
		at = h + 1
	}
	row(points(it.h)-at, "")
	s.WriteString("</TABLE>")
	return s.String()
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
