// Package fewest gives every node of a graph one of its options so that little is bought: an
// option costs once for every reel number among its nodes, and joined nodes whose options lie
// near each other cost by their edge. Pure numbers; it knows no wires. Same input, same result:
// the work is counted, never timed.
//
// Method: simulated annealing over single nodes (Kirkpatrick, Gelatt and Vecchi, Science 220
// (1983)), the cost of a move known from counts that are kept: users of an option on a reel, and
// for every node and option the edges that would be near. A move is offered to options that are
// bought anyway half of the time. The best that was seen is walked down to rest at the end.
package fewest

import "math"

// Node is what is to get an option.
type Node struct {
	Options []int     // at least one
	Reels   []int     // an option is bought once for each reel number
	Extra   []float64 // by place in Options: what an option costs besides; nil for nothing
}

// Edge joins two nodes that must not be near. Hard ones count against the first limit.
type Edge struct {
	A, B int
	Rank int // 0: at a part, 1: in a run
	Cost float64
}

// Problem is the question.
type Problem struct {
	Near  [][]bool  // by two options
	Price []float64 // by option, on any reel
	Free  [][]bool  // by reel, by option: on the shelf; nil for none
	Reels int
	Nodes []Node
	Edges []Edge
	Limit [2]int // near edges of each rank that are allowed; below 0 any number
}

// Cost is what an assignment comes to.
type Cost struct {
	Bought float64 // reels with what their options cost
	Reels  int
	Near   [2]int  // edges by rank
	Sum    float64 // all of it, what is over a limit too
}

// over is what one near edge above its limit costs.
const over = 3.0

// Solve finds options, by node, from a start or, where it is nil, from the first ones.
func Solve(p *Problem, start []int, moves int) ([]int, Cost) {
	s := newState(p, start)
	s.anneal(moves)
	return s.best, Measure(p, s.best)
}

// Measure gives what some options cost.
func Measure(p *Problem, option []int) Cost {
	s := newState(p, option)
	return s.cost()
}

type state struct {
	p      *Problem
	at     []int // by node: place in its options
	users  [][]int32
	edges  [][]int32 // by node: numbers of edges
	near   [2]int
	bought float64
	soft   float64
	sum    float64
	best   []int
	bestIs float64
	seed   uint64
}

func newState(p *Problem, start []int) *state {
	s := &state{p: p, at: make([]int, len(p.Nodes)), users: make([][]int32, p.Reels), edges: make([][]int32, len(p.Nodes)), seed: 0x9E3779B97F4A7C15}
	for r := range s.users {
		s.users[r] = make([]int32, len(p.Price))
	}
	for i := range p.Edges {
		e := &p.Edges[i]
		s.edges[e.A], s.edges[e.B] = append(s.edges[e.A], int32(i)), append(s.edges[e.B], int32(i))
	}
	for n := range p.Nodes {
		if start != nil {
			for k, o := range p.Nodes[n].Options {
				if o == start[n] {
					s.at[n] = k
				}
			}
		}
		s.take(n, 1)
	}
	for i := range p.Edges {
		if e := &p.Edges[i]; p.Near[s.option(e.A)][s.option(e.B)] {
			s.near[e.Rank]++
			s.soft += e.Cost
		}
	}
	s.sum = s.total()
	s.keep()
	return s
}

func (s *state) option(n int) int { return s.p.Nodes[n].Options[s.at[n]] }

// price is what an option costs on a reel.
func (s *state) price(reel, option int) float64 {
	if s.p.Free != nil && s.p.Free[reel] != nil && s.p.Free[reel][option] {
		return 0
	}
	return s.p.Price[option]
}

// take counts a node in or out.
func (s *state) take(n int, by int32) {
	x := &s.p.Nodes[n]
	o := x.Options[s.at[n]]
	if x.Extra != nil {
		s.bought += float64(by) * x.Extra[s.at[n]]
	}
	for _, r := range x.Reels {
		was := s.users[r][o]
		s.users[r][o] += by
		if was == 0 {
			s.bought += s.price(r, o)
		} else if was+by == 0 {
			s.bought -= s.price(r, o)
		}
	}
}

func (s *state) penalty(near [2]int) float64 {
	sum := 0.0
	for r, n := range near {
		if limit := s.p.Limit[r]; limit >= 0 && n > limit {
			sum += over * float64(n-limit)
		}
	}
	return sum
}

func (s *state) total() float64 { return s.bought + s.soft + s.penalty(s.near) }

func (s *state) cost() Cost {
	c := Cost{Bought: s.bought, Near: s.near, Sum: s.total()}
	for r := range s.users {
		for o, n := range s.users[r] {
			if n > 0 && s.price(r, o) > 0 {
				c.Reels++
			}
		}
	}
	return c
}

func (s *state) keep() {
	if s.best == nil {
		s.best = make([]int, len(s.at))
	}
	for n := range s.at {
		s.best[n] = s.option(n)
	}
	s.bestIs = s.sum
}

// try moves a node to the kth of its options where the sum rises by no more than given.
func (s *state) try(n, k int, most float64) bool {
	x := &s.p.Nodes[n]
	from, to := x.Options[s.at[n]], x.Options[k]
	delta := 0.0
	if x.Extra != nil {
		delta += x.Extra[k] - x.Extra[s.at[n]]
	}
	for _, r := range x.Reels {
		if s.users[r][from] == 1 {
			delta -= s.price(r, from)
		}
		if s.users[r][to] == 0 {
			delta += s.price(r, to)
		}
	}
	if delta > most+1 && delta > most+float64(len(s.edges[n]))*over {
		return false
	}
	near, soft := s.near, 0.0
	for _, i := range s.edges[n] {
		e := &s.p.Edges[i]
		o := e.A
		if o == n {
			o = e.B
		}
		other := s.option(o)
		if s.p.Near[from][other] {
			near[e.Rank]--
			soft -= e.Cost
		}
		if s.p.Near[to][other] {
			near[e.Rank]++
			soft += e.Cost
		}
	}
	if delta += soft + s.penalty(near) - s.penalty(s.near); delta > most {
		return false
	}
	s.take(n, -1)
	s.at[n] = k
	s.take(n, 1)
	s.near, s.soft = near, s.soft+soft
	s.sum = s.total()
	return true
}

func (s *state) next() uint64 { // xorshift
	s.seed ^= s.seed << 13
	s.seed ^= s.seed >> 7
	s.seed ^= s.seed << 17
	return s.seed
}

func (s *state) below(n int) int { return int(s.next() >> 33 % uint64(n)) }
func (s *state) chance() float64 { return float64(s.next()>>11) / (1 << 53) }

// anneal cools from a temperature at which a reel more is often taken to one at which none is.
func (s *state) anneal(moves int) {
	var free []int
	for n := range s.p.Nodes {
		if len(s.p.Nodes[n].Options) > 1 {
			free = append(free, n)
		}
	}
	if len(free) == 0 {
		return
	}
	const hot, cold = 0.7, 0.03
	for i := range moves {
		t := hot * math.Pow(cold/hot, float64(i)/float64(moves))
		n := free[s.below(len(free))]
		k := s.offer(n)
		if k == s.at[n] {
			continue
		}
		if s.try(n, k, -t*math.Log(s.chance()+1e-300)) && s.sum < s.bestIs-1e-9 {
			s.keep()
		}
	}
	s.descend(free)
}

// offer gives an option to try: half of the time one that is bought anyway on one of the node's reels.
func (s *state) offer(n int) int {
	x := &s.p.Nodes[n]
	k := s.below(len(x.Options))
	if s.next()>>40&1 == 0 || len(x.Reels) == 0 {
		return k
	}
	r := x.Reels[s.below(len(x.Reels))]
	for range x.Options {
		if s.users[r][x.Options[k]] > 0 && k != s.at[n] {
			return k
		}
		if k++; k == len(x.Options) {
			k = 0
		}
	}
	return k
}

// descend walks the best down to rest.
func (s *state) descend(free []int) {
	fresh := newState(s.p, s.best)
	fresh.seed = s.seed
	*s = *fresh
	for again := true; again; {
		again = false
		for _, n := range free {
			for k := range s.p.Nodes[n].Options {
				if k != s.at[n] && s.try(n, k, -1e-9) {
					again = true
				}
			}
		}
	}
	s.keep()
}
