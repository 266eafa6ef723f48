package colour

import "sort"

// limit is the number of steps after which a search for a clique gives up.
const limit = 4000

// ceiling gives a distance that no assignment can beat, in 1/100: at the spot
// where most nets meet, their colours must all be so far apart from each
// other. A threshold is refuted when no clique of that many combinations at
// that distance exists; where the search gives up, the threshold stands.
func (t *task) ceiling() int {
	want, fixed, candidates := t.crowd()
	steps := t.thresholds()
	if len(steps) == 0 {
		return 0
	}
	i := sort.Search(len(steps), func(i int) bool { return t.refuted(steps[i], want, fixed, candidates) })
	return steps[max(0, i-1)]
}

// crowd gives the spot with most rivals: how many free nets meet there, the
// colours that are settled there, and the combinations open to the free ones.
func (t *task) crowd() (want int, fixed []int, candidates set) {
	for _, here := range t.bySpot() {
		settled, open := t.present(here)
		if open > 0 && len(settled)+open > want+len(fixed) {
			want, fixed, candidates = open, settled, t.options(here)
		}
	}
	return want, fixed, candidates
}

// present counts the nets at a spot that have a choice, and lists the colours
// of those that have none.
func (t *task) present(here []int) (settled []int, open int) {
	choosing := map[int]bool{}
	for _, c := range here {
		if class := &t.classes[c]; !class.fixed() {
			choosing[class.net] = true
		}
	}
	for _, c := range here {
		if class := &t.classes[c]; class.fixed() && !choosing[class.net] {
			settled = withNumber(settled, class.domain[0])
		}
	}
	return settled, len(choosing)
}

// options joins the domains of the classes that are free.
func (t *task) options(here []int) set {
	out := newSet(len(t.combos))
	for _, c := range here {
		if class := &t.classes[c]; !class.fixed() {
			for _, i := range class.domain {
				out.add(i)
			}
		}
	}
	return out
}

// refuted tells whether it is proved that no such clique exists.
func (t *task) refuted(threshold, want int, fixed []int, candidates set) bool {
	if want == 0 || want == 1 && len(fixed) == 0 {
		return false
	}
	fit := t.fits(threshold)
	p := candidates.copy()
	for _, i := range fixed {
		p.keep(fit[i])
	}
	q := &clique{fit: fit, want: want, steps: limit}
	return !q.grow(p, 0) && q.steps > 0
}

// clique is a search for a set of combinations that all fit each other, by
// branch and bound with a colouring bound (after Tomita and Seki, 2003).
type clique struct {
	fit   []set
	want  int
	steps int // left
}

// grow tells whether `have` members can be brought to the wanted number from
// the candidates. It gives up (false) when no steps are left.
func (q *clique) grow(p set, have int) bool {
	if have >= q.want {
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
			return true
		}
		p.drop(order[i])
	}
	return false
}

// colour orders the candidates by groups of which a clique can hold one each;
// bound[i] is the number of groups up to order[i].
func (q *clique) colour(p set) (order, bound []int) {
	rest := p.copy()
	for group := 1; rest.count() > 0; group++ {
		open := rest.copy()
		for v := range q.fit {
			if !open.has(v) {
				continue
			}
			order, bound = append(order, v), append(bound, group)
			rest.drop(v)
			open.drop(v)
			for i := range open {
				open[i] &^= q.fit[v][i]
			}
		}
	}
	return order, bound
}
