package circuit

// islands is a union of nodes into connected groups; a node's entry is never
// greater than its own number.
type islands []int32

func newIslands(nodes int) islands {
	s := make(islands, nodes)
	s.reset()
	return s
}

func (s islands) reset() {
	for i := range s {
		s[i] = int32(i)
	}
}

// root gives the least node of the group that holds n.
func (s islands) root(n int) int {
	r := int32(n)
	for s[r] != r {
		s[r] = s[s[r]]
		r = s[r]
	}
	return int(r)
}

func (s islands) join(a, b int) {
	ra, rb := s.root(a), s.root(b)
	if ra < rb {
		s[rb] = int32(ra)
	} else {
		s[ra] = int32(rb)
	}
}

// flatten makes each node's entry its root.
func (s islands) flatten() {
	for n, up := range s {
		s[n] = s[up]
	}
}
