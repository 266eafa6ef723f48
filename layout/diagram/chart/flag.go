package chart

import (
	"cmp"
	"slices"
)

// brink is an edge of a channel: 0 its left one, 1 its right one.
type brink struct{ channel, side int }

// flagged is the edge of a channel at which a line's flag would lie, at one of its ends.
func (s *scene) flagged(line, end int) brink {
	w := s.ways[line]
	at, c := w.stops[end*(len(w.stops)-1)], w.channels[end*(len(w.channels)-1)]
	if s.column[at] < c {
		return brink{c, 0}
	}
	return brink{c, 1}
}

// mostMoved is how many flags may be moved to the other ends of their lines to free an
// edge: more would make the tiles there too high.
const mostMoved = 14

// gather moves the flags of edges that have few to the other ends of their lines, where
// edges have flags anyway: each edge with flags makes its channel wider.
func (s *scene) gather() {
	at := map[brink][]int{}
	for i := range s.ways {
		if s.c.Lines[i].Flag > 0 {
			b := s.flagged(i, s.ways[i].flagAt)
			at[b] = append(at[b], i)
		}
	}
	var all []brink
	for b := range at {
		all = append(all, b)
	}
	slices.SortFunc(all, func(a, b brink) int {
		return cmp.Or(cmp.Compare(len(at[a]), len(at[b])), cmp.Compare(a.channel, b.channel), cmp.Compare(a.side, b.side))
	})
	for _, b := range all {
		if len(at[b]) <= mostMoved && s.movable(at, b) {
			s.move(at, b)
		}
	}
}

// movable tells whether all flags of an edge can go to other edges that have some.
func (s *scene) movable(at map[brink][]int, b brink) bool {
	return !slices.ContainsFunc(at[b], func(line int) bool {
		to := s.flagged(line, 1-s.ways[line].flagAt)
		return to == b || len(at[to]) == 0
	})
}

func (s *scene) move(at map[brink][]int, b brink) {
	for _, line := range at[b] {
		w := &s.ways[line]
		w.flagAt = 1 - w.flagAt
		to := s.flagged(line, w.flagAt)
		at[to] = append(at[to], line)
	}
	at[b] = nil
}
