package spread

// Largest gives the size of the largest set of which every two fit each other: one that was found,
// and one that cannot be beaten. They are equal unless so many steps do not suffice.
func Largest(fit [][]bool, steps int) (found, most int) {
	fits, all := make([]set, len(fit)), newSet(len(fit))
	for i := range fit {
		fits[i] = newSet(len(fit))
		all.add(i)
		for j, joined := range fit[i] {
			if joined {
				fits[i].add(j)
			}
		}
	}
	q, p := newClique(fits, all, steps)
	found = q.greedy(p.copy())
	for q.grow(p.copy(), found+1) {
		found++
	}
	if q.steps <= 0 {
		return found, len(fit)
	}
	return found, found
}

// greedy takes candidates in their order as long as they fit all taken, and counts them.
func (q *clique) greedy(p set) int {
	n := 0
	p.each(func(i int) bool {
		if p.has(i) {
			n++
			p.keep(q.fit[i])
		}
		return true
	})
	return n
}
