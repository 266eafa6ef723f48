package spread

// atMost is a bound on the size of a clique: options that are alike (a pair and
// its reverse) are taken to fit each other, which only makes cliques larger. The
// options then fall into parts that fit each other throughout, and the largest
// clique is the sum of theirs.
func (c *Ceilings) atMost(p set, floor int) int {
	fit := fits(c.far, floor)
	for i := range fit {
		for j, d := range c.far[i] {
			if d == 0 && i != j {
				fit[i].add(j)
			}
		}
	}
	sum := 0
	for _, part := range parts(fit, p) {
		sum += largest(fit, part, c.limit)
	}
	return sum
}

// parts divides options so that any two of different parts fit each other.
func parts(fit []set, p set) []set {
	rest := p.copy()
	var out []set
	for rest.meets(rest) {
		part := newSet(len(fit))
		var queue []int
		rest.each(func(i int) bool { queue = append(queue, i); return false })
		rest.drop(queue[0])
		for len(queue) > 0 {
			v := queue[len(queue)-1]
			queue = queue[:len(queue)-1]
			part.add(v)
			rest.each(func(i int) bool {
				if !fit[v].has(i) {
					rest.drop(i)
					queue = append(queue, i)
				}
				return true
			})
		}
		out = append(out, part)
	}
	return out
}

// largest bounds the size of the largest clique among some options from above;
// it is exact unless the search gives up.
func largest(fit []set, p set, steps int) int {
	q, all := newClique(fit, p, steps)
	for size := 0; ; size++ {
		q.steps = steps
		if !q.grow(all.copy(), size+1) {
			if q.steps > 0 {
				return size
			}
			return all.count()
		}
	}
}
