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
	for q.grow(p.copy(), found+1) {
		found++
	}
	if q.steps <= 0 {
		return found, len(fit)
	}
	return found, found
}
