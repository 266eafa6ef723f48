package spread

import (
	"fmt"
	"math/bits"
	"slices"
	"sort"
)

// Ceilings tells how far apart the options of nodes can be at best that are all
// joined to each other. It keeps what it has worked out.
type Ceilings struct {
	far   [][]int
	steps []int
	cast  map[string]*cast
	limit int
}

// Ceiling is a distance that cannot be beaten. Exact tells that it can be
// reached, the other neighbours apart.
type Ceiling struct {
	Distance int
	Exact    bool
}

// cliqueSteps is the number of steps after which one search for a clique gives up.
const cliqueSteps = 2000

// NewCeilings takes the distances of the options (see Problem).
func NewCeilings(far [][]int) *Ceilings {
	f := &field{Problem: &Problem{Far: far}}
	return &Ceilings{far: far, steps: f.thresholds(), cast: map[string]*cast{}, limit: cliqueSteps}
}

// Of gives the largest distance at which so many of the candidates are apart
// from each other and from the settled options.
func (c *Ceilings) Of(want int, settled, candidates []int) Ceiling {
	if want < 1 || want == 1 && len(settled) == 0 || len(c.steps) == 0 {
		return Ceiling{never, true}
	}
	settled, candidates = slices.Sorted(slices.Values(settled)), slices.Sorted(slices.Values(candidates))
	key := fmt.Sprint(settled, candidates)
	x, ok := c.cast[key]
	if !ok {
		x = &cast{Ceilings: c, settled: settled, candidates: candidates, size: map[int]*size{}}
		c.cast[key] = x
	}
	return x.ceiling(want)
}

// cast is some candidates beside some settled options.
type cast struct {
	*Ceilings
	settled, candidates []int
	size                map[int]*size // by number of the threshold
}

// size bounds the largest clique at a threshold.
type size struct {
	fit         []set
	p           set
	least, most int
	sought      bool // by exchanges
}

// ceiling narrows the threshold down: each is reached, refuted or undecided.
func (x *cast) ceiling(want int) Ceiling {
	i := sort.Search(len(x.steps), func(i int) bool { return x.refuted(i, want) })
	if i == 0 {
		return Ceiling{0, true}
	}
	return Ceiling{x.steps[i-1], x.at(i-1).least >= want}
}

// refuted tells whether it is proved that a threshold has no such clique.
func (x *cast) refuted(step, want int) bool {
	s := x.at(step)
	if want > s.least && want <= s.most && !s.sought {
		s.least, s.sought = cliqueOf(s.fit, s.p, s.most).count(), true
	}
	if want > s.least && want <= s.most {
		q, all := newClique(s.fit, s.p, x.limit)
		if q.grow(all, want) {
			s.least = want
		} else if q.steps > 0 {
			s.most = want - 1
		}
	}
	return want > s.most
}

// at bounds the largest clique at a threshold from above, by parts.
func (x *cast) at(step int) *size {
	if s, ok := x.size[step]; ok {
		return s
	}
	s := &size{fit: fits(x.far, x.steps[step]), p: newSet(len(x.far))}
	for _, i := range x.candidates {
		s.p.add(i)
	}
	for _, i := range x.settled {
		s.p.keep(s.fit[i])
	}
	s.most = x.atMost(s.p, x.steps[step])
	x.size[step] = s
	return s
}

// clique is a search for a set of options that all fit each other, by branch
// and bound with a colouring bound and one exchange of colours (after Tomita and
// others, "A simple and faster branch-and-bound algorithm for finding a maximum
// clique", WALCOM 2010). Options are numbered anew, the most fitting first.
type clique struct {
	fit   []set
	steps int // left
}

func newClique(fit []set, p set, steps int) (q *clique, all set) {
	var order []int
	p.each(func(i int) bool { order = append(order, i); return true })
	degree := func(i int) int { return p.count() - p.without(fit[i]) }
	sort.SliceStable(order, func(a, b int) bool { return degree(order[a]) > degree(order[b]) })
	q = &clique{fit: make([]set, len(order)), steps: steps}
	all = newSet(len(order))
	for a, i := range order {
		all.add(a)
		q.fit[a] = newSet(len(order))
		for b, j := range order {
			if i != j && fit[i].has(j) {
				q.fit[a].add(b)
			}
		}
	}
	return q, all
}

// grow tells whether the candidates hold a clique of the wanted size. It gives
// up (false) when no steps are left.
func (q *clique) grow(p set, want int) bool {
	if want <= 0 {
		return true
	}
	must := q.outside(p, want-1)
	for i := len(must) - 1; i >= 0; i-- {
		if q.steps--; q.steps <= 0 {
			return false
		}
		next := p.copy()
		next.keep(q.fit[must[i]])
		if q.grow(next, want-1) {
			return true
		}
		p.drop(must[i])
	}
	return false
}

// outside sorts candidates into so many groups of which a clique can hold one
// each, and gives those that found no place: a greater clique holds one of them.
func (q *clique) outside(p set, groups int) []int {
	rest, open := p.copy(), p.copy()
	in := make([]set, 0, groups)
	for len(in) < groups && rest.meets(rest) {
		copy(open, rest)
		group := newSet(len(q.fit))
		open.each(func(v int) bool {
			if open.has(v) {
				group.add(v)
				rest.drop(v)
				for i := range open {
					open[i] &^= q.fit[v][i]
				}
			}
			return true
		})
		in = append(in, group)
	}
	var out []int
	rest.each(func(v int) bool {
		if !q.placed(v, in) {
			out = append(out, v)
		}
		return true
	})
	return out
}

// placed finds a place for a candidate in a group where one member stands in
// the way that can go to another group.
func (q *clique) placed(v int, in []set) bool {
	for a, group := range in {
		w, n := q.single(group, v)
		if n > 1 {
			continue
		}
		if n == 0 {
			group.add(v)
			return true
		}
		for b, other := range in {
			if a != b && !other.meets(q.fit[w]) {
				group.drop(w)
				group.add(v)
				other.add(w)
				return true
			}
		}
	}
	return false
}

// single counts the members of a group that fit a candidate, up to two, and
// gives the last of them.
func (q *clique) single(group set, v int) (w, n int) {
	for i := range group {
		both := group[i] & q.fit[v][i]
		if n += bits.OnesCount64(both); n > 1 {
			return 0, n
		}
		if both != 0 {
			w = i*64 + bits.TrailingZeros64(both)
		}
	}
	return w, n
}
