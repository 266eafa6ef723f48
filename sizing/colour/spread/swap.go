package spread

// swaps is the length of one search for a clique by exchanges.
const swaps = 1000

// exchange seeks a clique by adding members while that goes, else taking in the
// one that a single member stands against, never one that has just left (after
// Battiti and Protasi, "Reactive local search for the maximum clique problem",
// Algorithmica 29, 2001, with a fixed ban). It proves nothing when it fails.
type exchange struct {
	bars    [][]int // by option: those that it does not fit
	open    []int
	in      []bool
	against []int // by option: members that it does not fit
	until   []int // by option: banned until this step
	size    int
	seed    uint32
}

// cliqueOf gives the largest clique that it finds among the candidates, of
// so many at most.
func cliqueOf(fit []set, candidates set, want int) set {
	n := len(fit)
	x := &exchange{in: make([]bool, n), against: make([]int, n), until: make([]int, n), bars: make([][]int, n), seed: 1}
	candidates.each(func(i int) bool { x.open = append(x.open, i); return true })
	for _, i := range x.open {
		for _, j := range x.open {
			if i != j && !fit[i].has(j) {
				x.bars[i] = append(x.bars[i], j)
			}
		}
	}
	best := newSet(n)
	for step, most := 1, 0; step <= swaps && most < min(want, len(x.open)); step++ {
		if i := x.best(step); i >= 0 {
			x.enter(i, step)
		} else if i = x.oldest(); i >= 0 {
			x.leave(i, step)
		}
		if x.size > most {
			most, best = x.size, x.members()
		}
	}
	return best
}

func (x *exchange) members() set {
	out := newSet(len(x.in))
	for i, is := range x.in {
		if is {
			out.add(i)
		}
	}
	return out
}

// best gives the candidate that fewest members stand against, at most one; among
// several one by lot. -1 when there is none.
func (x *exchange) best(step int) int {
	best, ties := -1, 0
	for _, i := range x.open {
		if x.in[i] || x.until[i] >= step || x.against[i] > 1 {
			continue
		}
		switch {
		case best < 0 || x.against[i] < x.against[best]:
			best, ties = i, 1
		case x.against[i] == x.against[best]:
			if ties++; x.random(ties) == 0 {
				best = i
			}
		}
	}
	return best
}

// oldest gives some member by lot, to be put out.
func (x *exchange) oldest() int {
	out, ties := -1, 0
	for _, i := range x.open {
		if x.in[i] {
			if ties++; x.random(ties) == 0 {
				out = i
			}
		}
	}
	return out
}

func (x *exchange) enter(i, step int) {
	if x.against[i] > 0 {
		for _, j := range x.bars[i] {
			if x.in[j] {
				x.leave(j, step)
				break
			}
		}
	}
	x.in[i] = true
	x.size++
	x.note(i, 1)
}

func (x *exchange) leave(i, step int) {
	x.in[i] = false
	x.size--
	x.until[i] = step + 3 + x.random(5)
	x.note(i, -1)
}

func (x *exchange) note(i, by int) {
	for _, j := range x.bars[i] {
		x.against[j] += by
	}
}

// random gives a number below n from a fixed sequence.
func (x *exchange) random(n int) int {
	x.seed = x.seed*1664525 + 1013904223
	return int(x.seed>>8) % n
}
