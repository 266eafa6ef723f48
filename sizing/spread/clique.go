package spread

import (
	"fmt"
	"slices"
	"sort"
)

// Ceilings tells how far apart the options of nodes can be at best that are all
// joined to each other. It keeps what it has worked out.
type Ceilings struct {
	far   [][]int
	steps []int
	fit   map[int][]set
	known map[string]Ceiling
	limit int
}

// Ceiling is a distance that cannot be beaten. Exact tells that it was proved
// that it can be reached, the other neighbours apart.
type Ceiling struct {
	Distance int
	Exact    bool
}

// cliqueSteps is the number of steps after which one search for a clique gives up.
const cliqueSteps = 4000

// NewCeilings takes the distances of the options (see Problem).
func NewCeilings(far [][]int) *Ceilings {
	f := &field{Problem: &Problem{Far: far}}
	return &Ceilings{far: far, steps: f.thresholds(), fit: map[int][]set{}, known: map[string]Ceiling{}, limit: cliqueSteps}
}

// Of gives the largest distance at which so many of the candidates are apart
// from each other and from the settled options.
func (c *Ceilings) Of(want int, settled, candidates []int) Ceiling {
	if want < 1 || want == 1 && len(settled) == 0 || len(c.steps) == 0 {
		return Ceiling{never, true}
	}
	settled, candidates = slices.Sorted(slices.Values(settled)), slices.Sorted(slices.Values(candidates))
	key := fmt.Sprint(want, settled, candidates)
	out, ok := c.known[key]
	if !ok {
		out = c.search(want, settled, candidates)
		c.known[key] = out
	}
	return out
}

// search narrows the threshold down: each is reached, refuted or undecided.
func (c *Ceilings) search(want int, settled, candidates []int) Ceiling {
	out := Ceiling{0, true}
	found := -1
	i := sort.Search(len(c.steps), func(i int) bool {
		reached, refuted := c.decide(c.steps[i], want, settled, candidates)
		if reached {
			found = max(found, i)
		}
		return refuted
	})
	if i > 0 {
		out = Ceiling{c.steps[i-1], found == i-1}
	}
	return out
}

func (c *Ceilings) decide(floor, want int, settled, candidates []int) (reached, refuted bool) {
	fit, ok := c.fit[floor]
	if !ok {
		fit = fits(c.far, floor)
		c.fit[floor] = fit
	}
	p := newSet(len(c.far))
	for _, i := range candidates {
		p.add(i)
	}
	for _, i := range settled {
		p.keep(fit[i])
	}
	q := &clique{fit: fit, want: want, steps: c.limit}
	reached = q.grow(p, 0)
	return reached, !reached && q.steps > 0
}

// clique is a search for a set of options that all fit each other, by branch
// and bound with a colouring bound (after Tomita and Seki, 2003).
type clique struct {
	fit   []set
	want  int
	steps int // left
	found set // the clique
}

// grow tells whether `have` members can be brought to the wanted number from
// the candidates. It gives up (false) when no steps are left.
func (q *clique) grow(p set, have int) bool {
	if have >= q.want {
		q.found = newSet(len(q.fit))
		return true
	}
	order, bound := q.colour(p)
	for i := len(order) - 1; i >= 0; i-- {
		if have+bound[i] < q.want {
			return false
		}
		if q.steps--; q.steps <= 0 {
			return false
		}
		next := p.copy()
		next.keep(q.fit[order[i]])
		if q.grow(next, have+1) {
			q.found.add(order[i])
			return true
		}
		p.drop(order[i])
	}
	return false
}

// colour orders the candidates by groups of which a clique can hold one each;
// bound[i] is the number of groups up to order[i].
func (q *clique) colour(p set) (order, bound []int) {
	n := p.count()
	order, bound = make([]int, 0, n), make([]int, 0, n)
	rest, open := p.copy(), p.copy()
	for group := 1; len(order) < n; group++ {
		copy(open, rest)
		open.each(func(v int) bool {
			if open.has(v) {
				order, bound = append(order, v), append(bound, group)
				rest.drop(v)
				open.drop(v)
				for i := range open {
					open[i] &^= q.fit[v][i]
				}
			}
			return true
		})
	}
	return order, bound
}
