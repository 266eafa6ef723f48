package spread

// moves is the length of one tabu search.
const moves = 1000

// tabu is a search that exchanges one option at a time, always the exchange
// that leaves the fewest edges too near, and bars the way back for a while
// (after Hertz and de Werra, "Using tabu search techniques for graph coloring",
// Computing 39, 1987).
type tabu struct {
	*field
	floors Floors
	option []int
	allow  [][]int   // by node: the options that it may take
	bad    [][]int32 // by node and option: neighbours that would be too near
	until  [][]int32 // by node and option: barred until this move
	near   int       // edges too near, each counted at both ends
	seed   uint32
}

// tabu starts from options that may break the floors; it gives up after a
// fixed number of moves.
func (f *field) tabu(t Floors, start []int) ([]int, bool) {
	s := &tabu{field: f, floors: t, option: start, seed: 1}
	s.open = f.open
	s.prepare()
	best := s.near
	for m := int32(1); s.near > 0 && m <= moves; m++ {
		c, i := s.choose(m, best)
		if c < 0 {
			break
		}
		s.until[c][s.option[c]] = m + int32(s.random(10)) + int32(s.near)*3/10 + 1
		s.move(c, i)
		best = min(best, s.near)
		f.work++
	}
	return s.option, s.near == 0
}

func (s *tabu) prepare() {
	n, m := len(s.Nodes), len(s.Far)
	s.allow, s.bad, s.until = make([][]int, n), make([][]int32, n), make([][]int32, n)
	for _, c := range s.open {
		s.allow[c] = s.inFamily(c)
		s.bad[c], s.until[c] = make([]int32, m), make([]int32, m)
	}
	for _, c := range s.open {
		for k := range s.links[c] {
			l := &s.links[c][k]
			s.count(c, l.asks(&s.floors), s.option[l.to], 1)
		}
	}
	for _, c := range s.open {
		s.near += int(s.bad[c][s.option[c]])
	}
}

// inFamily gives the options of a node; one of a group stays in its family.
func (s *tabu) inFamily(c int) []int {
	allowed := s.allowed(c, &s.floors)
	var out []int
	for _, i := range s.domain[c] {
		if allowed.has(i) && s.sameFamily(c, s.option[c], i) {
			out = append(out, i)
		}
	}
	return out
}

// count notes at a node that a neighbour has an option, or no longer has it.
func (s *tabu) count(c, asks, option int, by int32) {
	if asks == 0 {
		return
	}
	bad := s.bad[c]
	for _, i := range s.closer(asks)[option] {
		bad[i] += by
	}
}

// choose finds the best exchange that is not barred; one that leaves fewer
// edges too near than ever is never barred.
func (s *tabu) choose(m int32, best int) (node, option int) {
	node, option = -1, -1
	least, ties := 0, 0
	for _, c := range s.open {
		now := s.bad[c][s.option[c]]
		if now == 0 {
			continue
		}
		bad, has := s.bad[c], s.option[c]
		for _, i := range s.allow[c] {
			gain := int(bad[i] - now)
			if node >= 0 && gain > least || i == has {
				continue
			}
			if s.until[c][i] >= m && s.near+2*gain >= best {
				continue
			}
			if node < 0 || gain < least {
				node, option, least, ties = c, i, gain, 1
			} else if gain == least {
				if ties++; s.random(ties) == 0 {
					node, option = c, i
				}
			}
		}
	}
	return node, option
}

func (s *tabu) move(c, option int) {
	s.near += 2 * int(s.bad[c][option]-s.bad[c][s.option[c]])
	for k := range s.links[c] {
		l := &s.links[c][k]
		asks := l.asks(&s.floors)
		s.count(l.to, asks, s.option[c], -1)
		s.count(l.to, asks, option, 1)
	}
	s.option[c] = option
}

// random gives a number below n from a fixed sequence.
func (s *tabu) random(n int) int {
	s.seed = s.seed*1664525 + 1013904223
	return int(s.seed>>8) % n
}
