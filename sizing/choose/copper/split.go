package copper

import (
	"math"
	"slices"
)

// split is every post's mass divided among its lines. For each post and rung,
// own and what its lines hold sum to the mass of that rung, always. Then
//
//	least own of every post + least total of every line
//
// is a lower bound on the mass of any set of alive rungs, whatever the division.
type split struct {
	*plan
	alive []bool    // by rung of all posts
	own   []float64 // by rung of all posts
	held  []float64 // by rung of all terms
	floor []float64 // by line: its least total
	bound float64   // of this division
	least float64   // the highest bound so far, of this and of the nodes above
	dead  bool      // no set of alive rungs is lighter than the one in hand
}

// plan says where rungs of posts and of terms lie in the long lists, and keeps
// the room to work in.
type plan struct {
	*part
	rungAt []int   // by post
	termAt [][]int // by line, by term
	fore   []front // of the terms before
	aft    []front // of the terms from here on
	spare  [2]front
	marks  []float64 // marginals of one term
	gives  []bool    // by term: is part of what it has given on?
	low    []float64 // by term: its least drop
	work   int       // spots looked at
	most   int       // work that is allowed
}

// mostSpots bounds a front.
const mostSpots = 400

func (p *part) plan() *plan {
	l := &plan{part: p, rungAt: make([]int, len(p.posts)+1), termAt: make([][]int, len(p.lines))}
	most, widest := 0, 0
	for v := range p.posts {
		l.rungAt[v+1] = l.rungAt[v] + len(p.posts[v].rungs)
		most = max(most, len(p.posts[v].rungs))
	}
	n := 0
	for d := range p.lines {
		l.termAt[d] = make([]int, len(p.lines[d].terms)+1)
		l.termAt[d][0] = n
		for k, x := range p.lines[d].terms {
			n += len(p.posts[x.Group].rungs)
			l.termAt[d][k+1] = n
		}
		widest = max(widest, len(p.lines[d].terms))
	}
	l.fore, l.aft = make([]front, widest+1), make([]front, widest+1)
	l.marks = make([]float64, most)
	return l
}

// root gives the division that leaves each post its own mass.
func (l *plan) root() *split {
	s := &split{plan: l, alive: make([]bool, l.rungAt[len(l.posts)]), own: make([]float64, l.rungAt[len(l.posts)]), floor: make([]float64, len(l.lines))}
	n := 0
	if d := len(l.lines); d > 0 {
		n = l.termAt[d-1][len(l.termAt[d-1])-1]
	}
	s.held = make([]float64, n)
	for v := range l.posts {
		for i, r := range l.posts[v].rungs {
			s.alive[l.rungAt[v]+i], s.own[l.rungAt[v]+i] = true, r.mass
		}
	}
	s.sum()
	return s
}

func (s *split) clone() *split {
	c := *s
	s.work += len(s.own) + len(s.held)
	c.alive, c.own = slices.Clone(s.alive), slices.Clone(s.own)
	c.held, c.floor = slices.Clone(s.held), slices.Clone(s.floor)
	return &c
}

// fewer tells whether three tenths of the rungs are struck out.
func (s *split) fewer() bool {
	n := 0
	for _, a := range s.alive {
		if a {
			n++
		}
	}
	return !s.dead && 10*n < 7*len(s.alive)
}

func (s *split) sum() {
	s.bound = 0
	s.work += len(s.own)
	for v := range s.posts {
		s.bound += s.leastOwn(v)
	}
	for _, f := range s.floor {
		s.bound += f
	}
	s.least = max(s.least, s.bound)
}

func (s *split) leastOwn(v int) float64 {
	best := math.Inf(1)
	for i := s.rungAt[v]; i < s.rungAt[v+1]; i++ {
		if s.alive[i] && s.own[i] < best {
			best = s.own[i]
		}
	}
	return best
}

// choices counts the alive rungs of a post.
func (s *split) choices(v int) int {
	n := 0
	for _, a := range s.alive[s.rungAt[v]:s.rungAt[v+1]] {
		if a {
			n++
		}
	}
	return n
}

// sweep visits all lines once, forth or back, or as many as the work allows.
// Rungs that cannot be part of a set lighter than cut are struck out; those of
// posts in one line alone only when all are to be judged.
func (s *split) sweep(back, all bool, cut float64) {
	for k := range s.lines {
		d := k
		if back {
			d = len(s.lines) - 1 - k
		}
		if s.visit(d, all, cut); s.dead || s.work > s.most {
			break
		}
	}
	s.judge(cut)
}

// judge sums the bound and strikes out the rungs that cannot be part of a set
// lighter than cut.
func (s *split) judge(cut float64) {
	if s.dead {
		return
	}
	s.sum()
	if s.dead = s.least >= cut; s.dead {
		return
	}
	for v := range s.posts {
		most := cut - s.bound + s.leastOwn(v)
		for i := s.rungAt[v]; i < s.rungAt[v+1]; i++ {
			s.alive[i] = s.alive[i] && s.own[i] < most
		}
	}
}

// visit gathers into one line all that its posts have of their own, finds the
// least total for each rung of each post, and gives every open post an equal
// part of that. What remains in the line has a least total of 0, and the sum of
// what was given is the least total that was there: the bound has not fallen
// (but for what coarse fronts lose, which is why the highest is remembered).
func (s *split) visit(d int, all bool, cut float64) {
	terms := s.lines[d].terms
	others := s.bound - s.floor[d]
	s.gives = s.gives[:0]
	open := 0.0
	for k, x := range terms {
		others -= s.leastOwn(x.Group)
		s.gather(d, k)
		gives := s.isOpen(x.Group)
		s.gives = append(s.gives, gives)
		if gives {
			open++
		}
	}
	s.fronts(d, mostSpots)
	s.floor[d] = 0
	for k, x := range terms {
		if !s.gives[k] && open > 0 && !all {
			continue
		}
		least := s.marginals(d, k)
		s.strike(x.Group, cut-others)
		if s.choices(x.Group) == 0 {
			s.dead = true
			return
		}
		if s.gives[k] {
			s.give(d, k, 1/open)
		} else if open == 0 {
			s.floor[d] = max(s.floor[d], least)
		}
	}
	s.bound = others + s.floor[d]
	for _, x := range terms {
		s.bound += s.leastOwn(x.Group)
	}
}

// isOpen tells whether a post has a choice that other lines share.
func (s *split) isOpen(v int) bool { return len(s.posts[v].uses) > 1 && s.choices(v) > 1 }

// gather moves what a post has of its own into one of its lines.
func (s *split) gather(d, k int) {
	v := s.lines[d].terms[k].Group
	own := s.own[s.rungAt[v]:s.rungAt[v+1]]
	held := s.held[s.termAt[d][k]:s.termAt[d][k+1]]
	for i := range own {
		held[i] += own[i]
		own[i] = 0
	}
}

// give moves a share of the marginals back to the post.
func (s *split) give(d, k int, share float64) {
	v := s.lines[d].terms[k].Group
	own := s.own[s.rungAt[v]:s.rungAt[v+1]]
	held := s.held[s.termAt[d][k]:s.termAt[d][k+1]]
	for i := range own {
		if s.alive[s.rungAt[v]+i] {
			own[i] = share * s.marks[i]
			held[i] -= own[i]
		}
	}
}

// strike takes out the rungs whose marginal reaches a cost.
func (s *split) strike(v int, cost float64) {
	at := s.rungAt[v]
	for i := range s.posts[v].rungs {
		if s.alive[at+i] && !(s.marks[i] < cost) {
			s.alive[at+i] = false
		}
	}
}

// marginals finds, for every alive rung of a term, the least total of the line
// with it, and the least of all.
func (s *split) marginals(d, k int) float64 {
	x := s.lines[d].terms[k]
	held := s.held[s.termAt[d][k]:s.termAt[d][k+1]]
	least := math.Inf(1)
	for i, r := range s.posts[x.Group].rungs {
		if !s.alive[s.rungAt[x.Group]+i] {
			continue
		}
		s.marks[i] = held[i] + cheapest(s.fore[k], s.aft[k+1], s.lines[d].limit-x.Amps*r.ohms)
		least = min(least, s.marks[i])
		s.work += len(s.fore[k]) + len(s.aft[k+1])
	}
	return least
}

// fronts makes the fronts of the terms before each term and from each term on.
func (s *split) fronts(d, spots int) {
	terms := s.lines[d].terms
	n := len(terms)
	s.low = s.low[:0]
	whole := 0.0
	for _, x := range terms {
		low := x.Amps * s.leastOhms(x.Group)
		s.low = append(s.low, low)
		whole += low
	}
	s.fore[0] = append(s.fore[0][:0], origin...)
	room := s.lines[d].limit - whole
	for k := range n - 1 {
		room += s.low[k]
		s.fore[k+1] = s.extend(s.fore[k+1], s.fore[k], d, k, room).coarse(spots)
	}
	s.aft[n] = append(s.aft[n][:0], origin...)
	room = s.lines[d].limit - whole
	for k := n - 1; k > 0; k-- {
		room += s.low[k]
		s.aft[k] = s.extend(s.aft[k], s.aft[k+1], d, k, room).coarse(spots)
	}
}

func (s *split) leastOhms(v int) float64 {
	for i := s.rungAt[v+1] - 1; i >= s.rungAt[v]; i-- {
		if s.alive[i] {
			return s.posts[v].rungs[i-s.rungAt[v]].ohms
		}
	}
	return 0
}

// extend adds a term to a front, into out.
func (s *split) extend(out, f front, d, k int, limit float64) front {
	x := s.lines[d].terms[k]
	rungs := s.posts[x.Group].rungs
	held := s.held[s.termAt[d][k]:s.termAt[d][k+1]]
	sum := s.spare[0][:0]
	next := s.spare[1]
	for i := len(rungs) - 1; i >= 0; i-- {
		if !s.alive[s.rungAt[x.Group]+i] {
			continue
		}
		shift := spot{x.Amps * rungs[i].ohms, held[i]}
		if len(f) == 1 {
			sum = sum.push(spot{f[0].drop + shift.drop, f[0].cost + shift.cost}, limit)
			s.work++
			continue
		}
		s.work += len(sum) + len(f)
		next = merge(next, sum, f, shift, limit)
		sum, next = next, sum
	}
	s.spare = [2]front{sum, next}
	return append(out[:0], sum...)
}
