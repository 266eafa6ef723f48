package colour

import (
	"math/bits"
	"sort"
)

// set is a set of combinations, one bit each.
type set []uint64

func newSet(n int) set       { return make(set, (n+63)/64) }
func (s set) add(i int)      { s[i/64] |= 1 << (i % 64) }
func (s set) drop(i int)     { s[i/64] &^= 1 << (i % 64) }
func (s set) has(i int) bool { return s[i/64]>>(i%64)&1 == 1 }
func (s set) copy() set      { return append(set(nil), s...) }
func (s set) meetCount(o set) int {
	n := 0
	for i := range s {
		n += bits.OnesCount64(s[i] & o[i])
	}
	return n
}

func (s set) keep(o set) {
	for i := range s {
		s[i] &= o[i]
	}
}

func (s set) count() int { return s.meetCount(s) }

// fits gives, by combination, those that are at least the threshold away.
func (t *task) fits(threshold int) []set {
	out := make([]set, len(t.combos))
	for i := range out {
		out[i] = newSet(len(t.combos))
		for j, d := range t.far[i] {
			if d >= threshold {
				out[i].add(j)
			}
		}
	}
	return out
}

// solution is one combination a class.
type solution struct {
	colour    []int
	threshold int // every two neighbours that differ are at least so far apart; 1: merely different
	alike     int // neighbours that could not be kept different
}

// thresholds lists the distances that occur, ascending, each once, above 0.
func (t *task) thresholds() []int {
	var all []int
	for i := range t.far {
		for _, d := range t.far[i][:i] {
			if d > 0 {
				all = append(all, d)
			}
		}
	}
	sort.Ints(all)
	out := all[:0]
	for i, d := range all {
		if i == 0 || d != out[len(out)-1] {
			out = append(out, d)
		}
	}
	return out
}

// solve finds the largest threshold that the greedy choice reaches, never
// above the ceiling, with no more neighbours alike than when they need merely
// differ. Success need not fall off evenly with the threshold, so the next few
// above the best are tried as well.
func (t *task) solve(ceiling int) solution {
	steps := t.thresholds()
	top := sort.SearchInts(steps, ceiling+1) - 1
	best, low := t.greedy(1, false), -1 // steps[low] is reached
	fewest := best.alike
	if top < 0 {
		return best
	}
	try := func(i int) bool {
		s := t.greedy(steps[i], fewest == 0)
		if s.alike > fewest || !t.keeps(s) {
			return false
		}
		best, low = s, i
		return true
	}
	if try(top) {
		return best
	}
	for high := top; high-low > 1; {
		if middle := (low + high) / 2; !try(middle) {
			high = middle
		}
	}
	for i, failed := low+2, 0; i < top && failed < 3; i++ {
		if !try(i) {
			failed++
		}
	}
	return best
}

// keeps tells whether all neighbours that differ stand off by the threshold.
func (t *task) keeps(s solution) bool {
	for c, near := range t.near {
		for _, o := range near {
			if d := t.far[s.colour[c]][s.colour[o]]; d > 0 && d < s.threshold {
				return false
			}
		}
	}
	return true
}

// search is the state of one greedy run.
type search struct {
	*task
	fit    []set
	colour []int // by class, -1 while open
	left   []set // by class: combinations still possible
	bought map[reel]bool
}

// reel is wire of one gauge and combination.
type reel struct{ gauge, combo int }

// greedy colours the classes one by one at a threshold: first the one with the
// fewest combinations left, ties by most neighbours, then by order (after
// Brélaz, "New methods to color the vertices of a graph", CACM 22, 1979). When
// strict, it gives up as soon as a class has none left.
func (t *task) greedy(threshold int, strict bool) solution {
	s := &search{task: t, fit: t.fits(threshold), bought: map[reel]bool{}}
	for _, c := range t.classes {
		left := newSet(len(t.combos))
		for _, i := range c.domain {
			left.add(i)
		}
		s.left = append(s.left, left)
		s.colour = append(s.colour, -1)
	}
	out := solution{threshold: threshold}
	for range t.classes {
		c := s.next()
		i, ok := s.pick(c)
		if !ok && strict {
			return solution{alike: len(t.classes)}
		}
		if !ok {
			i = s.leastBad(c)
		}
		s.settle(c, i)
	}
	out.colour = s.colour
	for c, near := range t.near {
		for _, o := range near {
			if o < c && t.far[s.colour[c]][s.colour[o]] == 0 {
				out.alike++
			}
		}
	}
	return out
}

func (s *search) next() int {
	best, fewest := -1, 0
	for c := range s.classes {
		if s.colour[c] >= 0 {
			continue
		}
		n := s.left[c].count()
		if best < 0 || n < fewest || n == fewest && len(s.near[c]) > len(s.near[best]) {
			best, fewest = c, n
		}
	}
	return best
}

// pick chooses the combination that takes the fewest options from the
// neighbours; ties: no new reel, then the earlier in the list (plain first).
func (s *search) pick(c int) (combo int, ok bool) {
	best, bestLost, bestNew := -1, 0, 0
	for _, i := range s.classes[c].domain {
		if !s.left[c].has(i) {
			continue
		}
		lost, fresh := s.lost(c, i), s.newReels(c, i)
		if best < 0 || lost < bestLost || lost == bestLost && fresh < bestNew {
			best, bestLost, bestNew = i, lost, fresh
		}
	}
	return best, best >= 0
}

func (s *search) lost(c, combo int) int {
	n := 0
	for _, o := range s.near[c] {
		if s.colour[o] < 0 {
			n -= s.left[o].meetCount(s.fit[combo])
		}
	}
	return n
}

func (s *search) newReels(c, combo int) int {
	n := 0
	for _, g := range s.classes[c].gauges {
		if !s.bought[reel{g, combo}] {
			n++
		}
	}
	return n
}

// leastBad serves a class for which nothing is left: the combination that the
// fewest neighbours have, then the one farthest from all of them.
func (s *search) leastBad(c int) int {
	best, bestSame, bestFar := -1, 0, 0
	for _, i := range s.classes[c].domain {
		same, smallest := 0, 1<<30
		for _, o := range s.near[c] {
			if s.colour[o] < 0 {
				continue
			}
			if d := s.far[i][s.colour[o]]; d == 0 {
				same++
			} else {
				smallest = min(smallest, d)
			}
		}
		if best < 0 || same < bestSame || same == bestSame && smallest > bestFar {
			best, bestSame, bestFar = i, same, smallest
		}
	}
	return best
}

func (s *search) settle(c, combo int) {
	s.colour[c] = combo
	for _, g := range s.classes[c].gauges {
		s.bought[reel{g, combo}] = true
	}
	for _, o := range s.near[c] {
		s.left[o].keep(s.fit[combo])
	}
}
