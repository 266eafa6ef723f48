package chart

import (
	"cmp"
	"math"
	"slices"
)

// scene is one attempt at a chart: bands side by side, each with groups one above the
// other, each group with its tiles in the band's columns. A line goes from column to column; where
// it passes one it has a lane there, within its own group or between the groups.
type scene struct {
	c     Graph
	room  Room
	ranks Ranks

	bands  [][]int // groups by band, from above
	deep   []int   // by band: its columns
	first  []int   // by band: the first of them
	bandAt []int   // by column
	bandOf []int   // by group
	column []int   // by tile
	stops  []stop  // the tiles first, then the lanes
	ways   []way   // by line
	pins   []pins  // by tile
	lists  [][][]int
	gaps   [][][]int // lanes by band and gap, from above
	tops   []int     // by group
	highs  []int     // by group
	tall   int       // the whole
}

// stop is a tile or a lane, heights in steps.
type stop struct {
	tile   int // -1: a lane
	line   int // of a lane
	lo, hi int // columns that it takes
	y, h   int
}

// way is a line's stops from left to right, and its channels between them.
type way struct {
	stops    []int
	channels []int
	turned   bool   // the line's From is at the last stop
	flagAt   int    // 0 at the first stop, 1 at the last
	pin      [2]int // heights of its ends below the tops of their tiles
}

// tileEnd is an end of a line on a tile: 0 at its first stop, 1 at its last.
type tileEnd struct{ line, end int }

// pins are the ends at a tile's left and right edge, from above.
type pins [2][]tileEnd

func newScene(c Graph, room Room, found Ranks, columns int) *scene {
	s := &scene{c: c, room: room, ranks: found, column: make([]int, len(c.Tiles)), bandOf: make([]int, len(c.Groups))}
	s.deal(columns)
	for b, groups := range s.bands {
		for _, g := range groups {
			s.bandOf[g] = b
			s.split(g)
		}
	}
	for i, t := range c.Tiles {
		s.stops = append(s.stops, stop{tile: i, lo: s.column[i], hi: s.column[i], h: steps(t.H)})
	}
	s.tops, s.highs = make([]int, len(c.Groups)), make([]int, len(c.Groups))
	s.lead()
	s.gather()
	s.landing()
	s.list()
	return s
}

// split gives the tiles of a group to the columns of its band by their ranks: evenly, and
// with few lines that begin and end in one column.
func (s *scene) split(g int) {
	first, deep := s.first[s.bandOf[g]], s.deep[s.bandOf[g]]
	tiles := s.c.members()[g]
	last := 0
	for _, t := range tiles {
		last = max(last, s.ranks.column[t])
	}
	best := math.Inf(1)
	for _, cut := range cuts(last+1, deep) {
		in := func(t int) int {
			at, found := slices.BinarySearch(cut, s.ranks.column[t])
			if found {
				at++
			}
			return at
		}
		if cost := s.uneven(g, tiles, in); cost < best {
			best = cost
			for _, t := range tiles {
				s.column[t] = first + in(t)
			}
		}
	}
	s.even(g, tiles)
}

// cuts are the ways to cut n ranks into at most k columns.
func cuts(n, k int) [][]int {
	out := [][]int{{}}
	for at := 1; at < n && k > 1; at++ {
		out = append(out, []int{at})
		for then := at + 1; then < n && k > 2; then++ {
			out = append(out, []int{at, then})
		}
	}
	return out
}

func (s *scene) uneven(g int, tiles []int, in func(tile int) int) float64 {
	high := make([]float64, s.deep[s.bandOf[g]])
	for _, t := range tiles {
		high[in(t)] += s.c.Tiles[t].H + tileApart*step
	}
	cost := slices.Max(high)
	for _, l := range s.c.Lines {
		if s.c.Tiles[l.From].Group == g && s.c.Tiles[l.To].Group == g && l.From != l.To && in(l.From) == in(l.To) {
			cost += 3
		}
	}
	return cost
}

// even moves tiles without lines in their group to the shortest column.
func (s *scene) even(g int, tiles []int) {
	first := s.first[s.bandOf[g]]
	high := make([]float64, s.deep[s.bandOf[g]])
	var loose []int
	for _, t := range tiles {
		if s.alone(t) {
			loose = append(loose, t)
		} else {
			high[s.column[t]-first] += s.c.Tiles[t].H
		}
	}
	slices.SortStableFunc(loose, func(a, b int) int { return cmp.Compare(s.ranks.down[a], s.ranks.down[b]) })
	for _, t := range loose {
		at := slices.Index(high, slices.Min(high))
		s.column[t] = first + at
		high[at] += s.c.Tiles[t].H
	}
}

func (s *scene) alone(tile int) bool {
	return !slices.ContainsFunc(s.c.Lines, func(l Line) bool {
		return l.From != l.To && (l.From == tile || l.To == tile) && s.c.Tiles[l.From].Group == s.c.Tiles[l.To].Group
	})
}

// lead gives every line its stops and channels; channel c lies to the left of column c.
func (s *scene) lead() {
	s.gaps = make([][][]int, len(s.bands))
	for b, groups := range s.bands {
		s.gaps[b] = make([][]int, len(groups)+1)
	}
	degree := make([]int, len(s.c.Tiles))
	for _, l := range s.c.Lines {
		degree[l.From]++
		degree[l.To]++
	}
	for i, l := range s.c.Lines {
		w := way{turned: s.column[l.From] > s.column[l.To]}
		from, to := l.From, l.To
		if w.turned {
			from, to = to, from
		}
		if degree[to] <= degree[from] {
			w.flagAt = 1
		}
		w.stops = []int{from}
		if s.column[from] == s.column[to] {
			w.channels = []int{s.column[from] + s.sideOf(from, to)}
		} else {
			s.pass(i, &w, from, to)
		}
		w.stops = append(w.stops, to)
		s.ways = append(s.ways, w)
	}
}

// sideOf tells by which edge a line leaves that ends in its own column: 1 the right one.
// In the last column of a band it is the left one, so that it stays within the band.
func (s *scene) sideOf(from, to int) int {
	band := s.bandAt[s.column[from]]
	if deep := s.deep[band]; deep > 1 && s.column[from] == s.first[band]+deep-1 {
		return 0
	}
	return 1
}

// pass adds the lanes of a line and the channels between them.
func (s *scene) pass(line int, w *way, from, to int) {
	a, b := s.bandAt[s.column[from]], s.bandAt[s.column[to]]
	for c := s.column[from] + 1; c < s.column[to]; {
		w.channels = append(w.channels, c)
		lane := stop{tile: -1, line: line, lo: c, hi: c}
		if band := s.bandAt[c]; band != a && band != b {
			lane.hi = c + s.deep[band] - 1
			s.gaps[band][0] = append(s.gaps[band][0], len(s.stops))
		}
		w.stops = append(w.stops, len(s.stops))
		s.stops = append(s.stops, lane)
		c = lane.hi + 1
	}
	w.channels = append(w.channels, s.column[to])
}

// landing gives every tile the ends on its two edges, in no order yet.
func (s *scene) landing() {
	s.pins = make([]pins, len(s.c.Tiles))
	for i, w := range s.ways {
		for end, at := range []int{w.stops[0], w.stops[len(w.stops)-1]} {
			side := 0
			if w.channels[end*(len(w.channels)-1)] > s.column[at] {
				side = 1
			}
			s.pins[at][side] = append(s.pins[at][side], tileEnd{i, end})
		}
	}
}

// groupOf is the group in which a stop stands.
func (s *scene) groupOf(at int) int {
	st := s.stops[at]
	if st.tile >= 0 {
		return s.c.Tiles[st.tile].Group
	}
	l := s.c.Lines[st.line]
	if s.bandOf[s.c.Tiles[l.From].Group] == s.bandAt[st.lo] {
		return s.c.Tiles[l.From].Group
	}
	return s.c.Tiles[l.To].Group
}

// between tells a lane that lies between groups.
func (s *scene) between(at int) bool {
	st := s.stops[at]
	if st.tile >= 0 {
		return false
	}
	band := s.bandAt[st.lo]
	l := s.c.Lines[st.line]
	return s.bandOf[s.c.Tiles[l.From].Group] != band && s.bandOf[s.c.Tiles[l.To].Group] != band
}

// list puts the stops of each group and column in their first order.
func (s *scene) list() {
	s.lists = make([][][]int, len(s.c.Groups))
	for g := range s.lists {
		s.lists[g] = make([][]int, s.deep[s.bandOf[g]])
	}
	for at, st := range s.stops {
		if !s.between(at) {
			g := s.groupOf(at)
			k := st.lo - s.first[s.bandOf[g]]
			s.lists[g][k] = append(s.lists[g][k], at)
		}
	}
	for _, columns := range s.lists {
		for _, l := range columns {
			slices.SortStableFunc(l, func(a, b int) int { return cmp.Compare(s.down(a), s.down(b)) })
		}
	}
	for _, groups := range s.bands {
		slices.SortStableFunc(groups, func(a, b int) int {
			return cmp.Or(cmp.Compare(s.c.Groups[a].Side, s.c.Groups[b].Side), cmp.Compare(s.downOf(a), s.downOf(b)))
		})
	}
}

// down is how far down a stop stands by the library's order, a lane as its line's ends do.
func (s *scene) down(at int) int {
	st := s.stops[at]
	if st.tile >= 0 {
		return 2 * s.ranks.down[st.tile]
	}
	l := s.c.Lines[st.line]
	return s.ranks.down[l.From] + s.ranks.down[l.To]
}

func (s *scene) downOf(group int) int {
	total, n := 0, 0
	for i, t := range s.c.Tiles {
		if t.Group == group {
			total, n = total+s.ranks.down[i], n+1
		}
	}
	return 100 * total / max(n, 1)
}
