package chart

import (
	"cmp"
	"math"
	"slices"
)

// settle finds the heights: groups one above the other, lanes between them, and in each
// group and column the stops in the order and at the heights at which many lines run straight.
// It is given up where the chart becomes too high.
func (s *scene) settle() (fits bool) {
	s.stack()
	for round := range 3 {
		if float64(s.tall)*step > s.room.H+1e-6 {
			return false
		}
		s.chooseGaps()
		if round < 2 {
			s.orderGroups()
		}
		s.stack()
		for sweep := range 5 {
			s.sweep(round < 2 || sweep < 3)
		}
	}
	return float64(s.tall)*step <= s.room.H+1e-6
}

// high is the height of a chart in steps: the room's, or what it needs.
func (s *scene) high() int {
	most := int(s.room.H / step)
	for b := range s.bands {
		most = max(most, s.need(b))
	}
	return most
}

// need is the least height of a band.
func (s *scene) need(band int) int {
	need := s.gap(band, 0)
	for i, g := range s.bands[band] {
		need += s.content(g) + s.gap(band, i+1)
	}
	return need
}

// gap is the height between two groups, or above the first and below the last.
func (s *scene) gap(band, i int) int {
	n := len(s.gaps[band][i])
	switch {
	case n > 0:
		return (n + 1) * lineApart
	case i == 0 || i == len(s.bands[band]):
		return 0
	}
	return groupApart
}

// content is the least height of a group.
func (s *scene) content(g int) int {
	most := 0
	for _, l := range s.lists[g] {
		most = max(most, s.extent(l))
	}
	return steps(s.c.Groups[g].H) + most + groupFoot
}

// extent is the height of stops one below the other.
func (s *scene) extent(list []int) int {
	off := s.offsets(list)
	if len(list) == 0 {
		return 0
	}
	last := list[len(list)-1]
	return off[len(off)-1] + s.stops[last].h + edge(s.stops[last])
}

// offsets are the least tops of stops below the top of the first one's room.
func (s *scene) offsets(list []int) []int {
	out := make([]int, len(list))
	y := 0
	for i, at := range list {
		if i == 0 {
			y = edge(s.stops[at])
		} else {
			before := s.stops[list[i-1]]
			y += before.h + s.apart(before, s.stops[at])
		}
		out[i] = y
	}
	return out
}

// edge is what a stop keeps from the edge of its group.
func edge(s stop) int {
	if s.tile < 0 {
		return lineApart
	}
	return 0
}

func (s *scene) apart(a, b stop) int {
	if a.tile >= 0 && b.tile >= 0 && !s.room.Tight {
		return tileApart
	}
	return lineApart
}

// stack sizes the tiles and sets groups and lanes one above the other; what is left of the
// height goes to groups and gaps.
func (s *scene) stack() {
	for t := range s.c.Tiles {
		s.stops[t].h = max(steps(s.c.Tiles[t].H), s.pinned(t, 0), s.pinned(t, 1))
		s.setPins(t)
	}
	s.tall = s.high()
	for b, groups := range s.bands {
		spare := s.tall - s.need(b)
		inside := spare * 3 / 5
		total := 0
		for _, g := range groups {
			total += s.content(g)
		}
		between := (spare - inside) / (len(groups) + 1)
		y := s.gap(b, 0) + between
		for i, g := range groups {
			s.tops[g] = y
			s.highs[g] = s.content(g) + inside*s.content(g)/total
			y += s.highs[g] + s.gap(b, i+1) + between
			for _, list := range s.lists[g] {
				s.fill(list, g)
			}
		}
		for i, lanes := range s.gaps[b] {
			lo, _ := s.span(b, i)
			for k, at := range lanes {
				s.stops[at].y = lo + (k+1)*lineApart
			}
		}
	}
}

// fill sets stops at their least heights within their group.
func (s *scene) fill(list []int, g int) {
	lo, _ := s.inside(g)
	for i, off := range s.offsets(list) {
		s.stops[list[i]].y = lo + off
	}
}

// inside is from where to where the stops of a group may stand.
func (s *scene) inside(g int) (lo, hi int) {
	return s.tops[g] + steps(s.c.Groups[g].H), s.tops[g] + s.highs[g] - groupFoot
}

// span is from where to where lanes may run between groups.
func (s *scene) span(band, i int) (lo, hi int) {
	groups := s.bands[band]
	hi = s.tall
	if i > 0 {
		g := groups[i-1]
		lo = s.tops[g] + s.highs[g]
	}
	if i < len(groups) {
		hi = s.tops[groups[i]]
	}
	return lo, hi
}

// pinned is the height that the ends on an edge of a tile need.
func (s *scene) pinned(tile, side int) int {
	high := 0
	for _, e := range s.pins[tile][side] {
		high += s.pitch(e)
	}
	return high
}

func (s *scene) pitch(e tileEnd) int {
	if s.c.Lines[e.line].Flag > 0 && s.ways[e.line].flagAt == e.end {
		return flagApart
	}
	return lineApart
}

// setPins gives the ends of a tile their heights below its top.
func (s *scene) setPins(tile int) {
	for side, ends := range s.pins[tile] {
		y := (s.stops[tile].h - s.pinned(tile, side)) / 2
		for _, e := range ends {
			s.ways[e.line].pin[e.end] = y + s.pitch(e)/2
			y += s.pitch(e)
		}
	}
}

// at is the height of a line at one of its stops.
func (s *scene) at(line, i int) int {
	w := s.ways[line]
	st := s.stops[w.stops[i]]
	switch {
	case st.tile < 0:
		return st.y
	case i == 0:
		return st.y + w.pin[0]
	}
	return st.y + w.pin[1]
}

// next is the height of a line at the stop beside one of its ends; ok is false for a line
// that stays in one column.
func (s *scene) next(e tileEnd) (y int, ok bool) {
	w := s.ways[e.line]
	last := len(w.stops) - 1
	if s.stops[w.stops[0]].hi == s.stops[w.stops[last]].lo {
		return s.at(e.line, (1-e.end)*last), false
	}
	if e.end == 0 {
		return s.at(e.line, 1), true
	}
	return s.at(e.line, last-1), true
}

// orderPins puts the ends on a tile's edges in the order of where their lines go on; lines
// to tiles above in the same column leave at the top, the nearest first.
func (s *scene) orderPins(tile int) {
	own := s.stops[tile].y
	key := func(e tileEnd) (class, y int) {
		y, crosses := s.next(e)
		w := s.ways[e.line]
		switch {
		case crosses || w.stops[0] == w.stops[len(w.stops)-1]:
			return 1, y
		case y < own:
			return 0, -y
		}
		return 2, -y
	}
	for side := range s.pins[tile] {
		slices.SortStableFunc(s.pins[tile][side], func(a, b tileEnd) int {
			ca, ya := key(a)
			cb, yb := key(b)
			return cmp.Or(cmp.Compare(ca, cb), cmp.Compare(ya, yb))
		})
	}
	s.setPins(tile)
}

// sweep moves all stops once from left to right and back; where it may it puts them in a
// new order too.
func (s *scene) sweep(order bool) {
	n := len(s.bandAt)
	for i := range 2 * n {
		c := i
		if i >= n {
			c = 2*n - 1 - i
		}
		s.column1(c, order)
	}
}

func (s *scene) column1(c int, order bool) {
	band := s.bandAt[c]
	for _, g := range s.bands[band] {
		list := s.lists[g][c-s.first[band]]
		if order {
			s.order(list)
		}
		lo, hi := s.inside(g)
		s.place(list, lo, hi)
		for _, at := range list {
			if s.stops[at].tile >= 0 {
				s.orderPins(at)
			}
		}
	}
	for i, lanes := range s.gaps[band] {
		s.order(lanes)
		lo, hi := s.span(band, i)
		s.place(lanes, lo, hi)
	}
}

// wishes are the heights at which a stop's lines would run straight.
func (s *scene) wishes(at int) []int {
	st := s.stops[at]
	if st.tile < 0 {
		i := slices.Index(s.ways[st.line].stops, at)
		return []int{s.at(st.line, i-1), s.at(st.line, i+1)}
	}
	var out []int
	for _, ends := range s.pins[st.tile] {
		for _, e := range ends {
			if y, ok := s.next(e); ok {
				out = append(out, y-s.ways[e.line].pin[e.end])
			}
		}
	}
	return out
}

// order sorts stops by the middle of what they are joined to.
func (s *scene) order(list []int) {
	key := map[int]float64{}
	for _, at := range list {
		w := s.wishes(at)
		key[at] = float64(s.stops[at].y) + float64(s.stops[at].h)/2
		if len(w) > 0 {
			total := 0
			for _, y := range w {
				total += y
			}
			key[at] = float64(total)/float64(len(w)) + float64(s.stops[at].h)/2
		}
	}
	slices.SortStableFunc(list, func(a, b int) int { return cmp.Compare(key[a], key[b]) })
}

// pool is stops that touch, with what they wish for the first of them.
type pool struct {
	n      int
	wishes []int
	y      int
}

// place sets stops in their order nearest to their wishes, by pooling neighbours that are
// in each other's way (isotonic regression for least distances).
func (s *scene) place(list []int, lo, hi int) {
	off := s.offsets(list)
	var pools []pool
	for i, at := range list {
		p := pool{n: 1}
		for _, y := range s.wishes(at) {
			p.wishes = append(p.wishes, y-off[i])
		}
		if len(p.wishes) == 0 {
			p.wishes = []int{s.stops[at].y - off[i]}
		}
		p.y = middle(p.wishes)
		pools = append(pools, p)
		for k := len(pools) - 1; k > 0 && pools[k].y < pools[k-1].y; k-- {
			both := pool{n: pools[k-1].n + pools[k].n, wishes: append(pools[k-1].wishes, pools[k].wishes...)}
			both.y = middle(both.wishes)
			pools = append(pools[:k-1], both)
		}
	}
	most := hi - s.extent(list)
	i := 0
	for _, p := range pools {
		for range p.n {
			s.stops[list[i]].y = max(min(p.y, most), lo) + off[i]
			i++
		}
	}
}

// chooseGaps leads every lane that passes a band between those of its groups where it
// strays least.
func (s *scene) chooseGaps() {
	for b := range s.gaps {
		var lanes []int
		for i := range s.gaps[b] {
			lanes = append(lanes, s.gaps[b][i]...)
			s.gaps[b][i] = nil
		}
		slices.Sort(lanes)
		for _, at := range lanes {
			i := s.nearestGap(b, at)
			s.gaps[b][i] = append(s.gaps[b][i], at)
		}
	}
}

func (s *scene) nearestGap(band, at int) int {
	line := s.stops[at].line
	last := len(s.ways[line].stops) - 1
	want := (s.at(line, 0) + s.at(line, last)) / 2
	best, least := 0, math.MaxInt
	for i := range s.gaps[band] {
		lo, hi := s.span(band, i)
		if d := max(lo-want, want-hi, 0); d < least {
			best, least = i, d
		}
	}
	return best
}

// orderGroups sorts the groups of each band by what they are joined to, within their sides.
func (s *scene) orderGroups() {
	for b, groups := range s.bands {
		key := map[int]float64{}
		for _, g := range groups {
			key[g] = s.pull(b, g)
		}
		slices.SortStableFunc(groups, func(a, c int) int {
			return cmp.Or(cmp.Compare(s.c.Groups[a].Side, s.c.Groups[c].Side), cmp.Compare(key[a], key[c]))
		})
	}
}

// pull is the mean height of what a group's lines lead to in other bands.
func (s *scene) pull(band, group int) float64 {
	total, n := 0, 0
	for i, l := range s.c.Lines {
		from, to := s.c.Tiles[l.From].Group, s.c.Tiles[l.To].Group
		if (from == group) == (to == group) || s.bandOf[from] == s.bandOf[to] {
			continue
		}
		end := len(s.ways[i].stops) - 1
		if (from == group) != s.ways[i].turned {
			total += s.at(i, end)
		} else {
			total += s.at(i, 0)
		}
		n++
	}
	if n == 0 {
		return float64(s.tops[group])
	}
	return float64(total) / float64(n)
}
