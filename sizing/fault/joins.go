package fault

import "example.com/loomfolio/sizing/harness"

// joins says how the terminals hang together in a state by wires and closed
// contacts: in islands, and which fuses are the only way between two parts of one.
//
// Method: a depth-first search numbers the terminals as it meets them; an edge is
// such a bridge where nothing met beyond it leads back past it (R. E. Tarjan, "A note
// on finding the bridges of a graph", Information Processing Letters 2, 1974).
type joins struct {
	in      []int                      // by terminal: its island
	met     []int                      // by terminal: when the search met it, from 0
	islands []span                     // when their terminals were met
	bridges map[harness.ElementID]span // when what lies beyond a fuse was met
	posts   []int                      // by number: posts of batteries met before
}

// span is what the search met from one number up to, but without, another.
type span struct{ from, to int }

func (s span) holds(n int) bool { return n >= s.from && n < s.to }

// postsIn counts the posts of batteries met in a span.
func (j joins) postsIn(s span) int { return j.posts[s.to] - j.posts[s.from] }

// joins searches a state.
func (v *vehicle) joins(state int) joins {
	n := len(v.h.Terminals)
	s := search{next: v.conductors(state), low: make([]int, n)}
	s.in, s.met, s.bridges = make([]int, n), make([]int, n), map[harness.ElementID]span{}
	for t := range s.met {
		s.met[t] = unmet
	}
	for t := range s.met {
		if s.met[t] == unmet {
			from := s.count
			s.visit(harness.TerminalID(t), nil)
			s.islands = append(s.islands, span{from, s.count})
		}
	}
	s.posts = make([]int, n+1)
	for _, e := range v.h.Elements {
		if e.Kind == harness.EMF {
			s.posts[s.met[e.A]+1]++
			s.posts[s.met[e.B]+1]++
		}
	}
	for i := range n {
		s.posts[i+1] += s.posts[i]
	}
	return s.joins
}

// unmet marks a terminal that the search has not met yet.
const unmet = -1

// conductor is a wire or a closed contact, seen from one of its ends.
type conductor struct {
	to  harness.TerminalID
	by  harness.ElementID // None for a wire
	key int               // the same from both ends, and no other's
}

// conductors lists what wires and closed contacts connect in a state, by terminal.
func (v *vehicle) conductors(state int) [][]conductor {
	next := make([][]conductor, len(v.h.Terminals))
	key := 0
	join := func(x, y harness.TerminalID, by harness.ElementID) {
		next[x], next[y] = append(next[x], conductor{y, by, key}), append(next[y], conductor{x, by, key})
		key++
	}
	for _, w := range v.h.Wires {
		join(w.From, w.To, harness.None)
	}
	for _, e := range v.h.Elements {
		if conducts(e) && v.closed(state, e.When) {
			join(e.A, e.B, e.ID)
		}
	}
	return next
}

// conducts tells what joins its ends whatever is connected to them.
func conducts(e harness.Element) bool {
	return e.Kind == harness.Join || e.Kind == harness.Contact || e.Kind == harness.FuseLink
}

// search is the work of vehicle.joins.
type search struct {
	joins
	next  [][]conductor
	low   []int // by terminal: the first that it and all beyond it lead back to
	count int
}

// visit meets a terminal over a conductor (nil for the first of an island) and all beyond it.
func (s *search) visit(t harness.TerminalID, over *conductor) {
	s.met[t], s.low[t], s.in[t] = s.count, s.count, len(s.islands)
	s.count++
	for i := range s.next[t] {
		c := &s.next[t][i]
		switch {
		case over != nil && c.key == over.key:
		case s.met[c.to] != unmet:
			s.low[t] = min(s.low[t], s.met[c.to])
		default:
			s.visit(c.to, c)
			s.low[t] = min(s.low[t], s.low[c.to])
			if s.low[c.to] == s.met[c.to] && c.by != harness.None {
				s.bridges[c.by] = span{s.met[c.to], s.count}
			}
		}
	}
}
