package spread

// crowd is the nodes of the fattest spot of a rank.
type crowd struct {
	*field
	nodes []int
}

// seed is the options from which some nodes are to be served: a clique, so that
// any two of them are far enough apart.
type seed struct {
	nodes   []int
	options set
}

// crowd finds the fattest spot among the nodes with a wide choice.
func (f *field) crowd(r Rank) *crowd {
	at := make([]set, len(f.Spots))
	best := -1
	for _, e := range f.Edges {
		for _, s := range e.Spots {
			if f.Spots[s] != r {
				continue
			}
			if at[s] == nil {
				at[s] = newSet(len(f.Nodes))
			}
			at[s].add(e.A)
			at[s].add(e.B)
		}
	}
	fat := func(s int) int {
		n := 0
		for _, c := range f.open {
			if at[s] != nil && at[s].has(c) && len(f.domain[c]) > narrow {
				n++
			}
		}
		return n
	}
	most := 0
	for s := range at {
		if n := fat(s); n > most {
			best, most = s, n
		}
	}
	out := &crowd{field: f}
	for _, c := range f.open {
		if best >= 0 && at[best].has(c) && len(f.domain[c]) > narrow {
			out.nodes = append(out.nodes, c)
		}
	}
	return out
}

// top gives the number of the first threshold, from a level up, at which the
// crowd has no clique that could be found.
func (c *crowd) top(r Rank, level int) int {
	if len(c.nodes) < 3 {
		return min(len(c.steps), level+reach)
	}
	low, high := level, len(c.steps)
	for high-low > 1 {
		middle := (low + high) / 2
		t := c.floors
		t[r] = c.steps[middle]
		if c.at(t, t[r]) != nil {
			low = middle
		} else {
			high = middle
		}
	}
	return high
}

// at seeks a clique for the crowd at a distance; nil when there is none or the
// search gives up.
func (c *crowd) at(t Floors, floor int) *seed {
	if len(c.nodes) < 3 {
		return nil
	}
	p := c.allowed(c.nodes[0], &t)
	for _, n := range c.nodes[1:] {
		p.keep(c.allowed(n, &t))
	}
	c.work += swaps
	if found := cliqueOf(c.fits(floor), p, len(c.nodes)); found.count() == len(c.nodes) {
		return &seed{c.nodes, found}
	}
	return nil
}
