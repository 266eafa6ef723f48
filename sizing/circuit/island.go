package circuit

// islands is a union of nodes into connected groups.
type islands []int

func newIslands(nodes int) islands {
	s := make(islands, nodes)
	s.reset()
	return s
}

func (s islands) reset() {
	for i := range s {
		s[i] = i
	}
}

// root gives the least node of the group that holds n.
func (s islands) root(n int) int {
	for s[n] != n {
		s[n] = s[s[n]]
		n = s[n]
	}
	return n
}

func (s islands) join(a, b int) {
	a, b = s.root(a), s.root(b)
	if a < b {
		s[b] = a
	} else {
		s[a] = b
	}
}
