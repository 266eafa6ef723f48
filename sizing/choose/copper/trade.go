package copper

import (
	"cmp"
	"math"
	"slices"
)

// part is posts and lines that hang together.
type part struct {
	posts []post
	lines []line
}

func (p *part) add(l line, at []int) {
	terms := make([]Term, len(l.terms))
	for k, x := range l.terms {
		terms[k] = Term{at[x.Group], x.Amps}
		q := &p.posts[at[x.Group]]
		q.uses = append(q.uses, use{len(p.lines), x.Amps})
	}
	p.lines = append(p.lines, line{l.limit, l.slack, terms})
}

func (p *part) mass(at []int) float64 {
	sum := 0.0
	for v, i := range at {
		sum += p.posts[v].rungs[i].mass
	}
	return sum
}

// stand is a rung for every post, with the room left in every line.
type stand struct {
	*part
	at   []int
	room []float64 // limit less drop; below 0 the line is not met
	past []step    // what was moved, for going back
	mark []int     // scratch: which posts are gathered
	tick int
	work int // uses and terms looked at
}

type step struct{ post, rung int }

func (p *part) stand(at []int) *stand {
	s := &stand{part: p, at: slices.Clone(at), room: make([]float64, len(p.lines)), mark: make([]int, len(p.posts))}
	for i, l := range p.lines {
		s.room[i] = l.limit
		for _, x := range l.terms {
			s.room[i] -= x.Amps * p.posts[x.Group].rungs[at[x.Group]].ohms
		}
	}
	return s
}

func (s *stand) move(v, to int) {
	s.past = append(s.past, step{v, s.at[v]})
	s.shift(v, to)
}

func (s *stand) shift(v, to int) {
	p := &s.posts[v]
	less := p.rungs[s.at[v]].ohms - p.rungs[to].ohms
	for _, u := range p.uses {
		s.room[u.demand] += u.amps * less
	}
	s.at[v] = to
	s.work += len(p.uses)
}

// back undoes all moves since a length of the past.
func (s *stand) back(to int) {
	for len(s.past) > to {
		last := s.past[len(s.past)-1]
		s.shift(last.post, last.rung)
		s.past = s.past[:len(s.past)-1]
	}
}

// short tells whether a line is over its limit by more than rounding.
func (s *stand) short(line int) bool { return s.room[line] < -s.lines[line].slack }

// lowest gives the lowest rung of a post that keeps its lines met.
func (s *stand) lowest(v int) int {
	p := &s.posts[v]
	most := math.Inf(1)
	s.work += len(p.uses)
	for _, u := range p.uses {
		most = min(most, (s.room[u.demand]+s.lines[u.demand].slack/2)/u.amps)
	}
	i := s.at[v]
	for i > 0 && p.rungs[i-1].ohms-p.rungs[s.at[v]].ohms <= most {
		i--
	}
	return i
}

// fall lets posts down as far as they can, the one that saves most first.
func (s *stand) fall(posts []int, but int) {
	type saving struct {
		post  int
		grams float64
	}
	var can []saving
	for _, v := range posts {
		if i := s.lowest(v); v != but && i < s.at[v] {
			can = append(can, saving{v, s.posts[v].rungs[s.at[v]].mass - s.posts[v].rungs[i].mass})
		}
	}
	slices.SortFunc(can, func(a, b saving) int {
		return cmp.Or(cmp.Compare(b.grams, a.grams), cmp.Compare(a.post, b.post))
	})
	for _, c := range can {
		if i := s.lowest(c.post); i < s.at[c.post] {
			s.move(c.post, i)
		}
	}
}

// climb brings some lines within their limits: each takes the rises that give
// most room per gram, counted over all lines that are short, until it is met.
func (s *stand) climb(lines []int, but int) bool {
	for _, i := range lines {
		for s.short(i) {
			best, to, most := -1, 0, 0.0
			for _, x := range s.lines[i].terms {
				if x.Group == but {
					continue
				}
				if j, gain := s.rise(x.Group); gain > most {
					best, to, most = x.Group, j, gain
				}
			}
			if best < 0 {
				return false
			}
			s.move(best, to)
		}
	}
	return true
}

// rise finds the higher rung that gives most room per gram.
func (s *stand) rise(v int) (int, float64) {
	p := &s.posts[v]
	to, most := -1, 0.0
	s.work += 12 * len(p.uses)
	now := p.rungs[s.at[v]]
	for i := s.at[v] + 1; i < min(len(p.rungs), s.at[v]+12); i++ {
		less, grams, gain := now.ohms-p.rungs[i].ohms, p.rungs[i].mass-now.mass, 0.0
		for _, u := range p.uses {
			if s.short(u.demand) {
				gain += min(-s.room[u.demand], u.amps*less) / max(s.lines[u.demand].limit, 1e-9)
			}
		}
		if gain /= max(grams, 1e-12); gain > most {
			to, most = i, gain
		}
	}
	return to, most
}

// trade tries every post a few rungs up, letting its neighbours down, and a few
// rungs down, lifting its neighbours; it keeps what is lighter.
func (s *stand) trade(rounds int) {
	for range rounds {
		lighter := false
		for v := range s.posts {
			around, lines := s.around(v)
			for _, by := range [...]int{1, 2, 3, -1, -2, 5, -4} {
				lighter = s.try(v, by, around, lines) || lighter
			}
		}
		if !lighter {
			return
		}
	}
}

func (s *stand) try(v, by int, around, lines []int) bool {
	to := s.at[v] + by
	if to < 0 || to >= len(s.posts[v].rungs) {
		return false
	}
	s.past = s.past[:0]
	s.move(v, to)
	if by < 0 && !s.climb(lines, v) {
		s.back(0)
		return false
	}
	s.fall(around, v)
	if s.change() < -1e-9 {
		return true
	}
	s.back(0)
	return false
}

// change is the mass gained since the past was emptied: of every post moved,
// its first rung counts.
func (s *stand) change() float64 {
	s.tick++
	sum := 0.0
	for _, x := range s.past {
		if s.mark[x.post] != s.tick {
			s.mark[x.post] = s.tick
			sum += s.posts[x.post].rungs[s.at[x.post]].mass - s.posts[x.post].rungs[x.rung].mass
		}
	}
	return sum
}

// around lists the posts that share a line with one, and its lines.
func (s *stand) around(v int) (posts, lines []int) {
	s.tick++
	s.mark[v] = s.tick
	for _, u := range s.posts[v].uses {
		lines = append(lines, u.demand)
		s.work += len(s.lines[u.demand].terms)
		for _, x := range s.lines[u.demand].terms {
			if s.mark[x.Group] != s.tick {
				s.mark[x.Group] = s.tick
				posts = append(posts, x.Group)
			}
		}
	}
	return posts, lines
}
