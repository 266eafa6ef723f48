package loom

import (
	"math"
	"slices"
)

// shape says how a limb lies: the angle by which it leaves the way it hangs on,
// and the bends along it.
type shape struct {
	turn  float64 // degrees from the direction of what it leaves
	bends []bend
	cost  float64 // how little it is liked
}

// bend is a turn by so many degrees, so many mm after the one before.
type bend struct{ after, turn float64 }

// path is the line of a limb of some length from a place in a direction.
func (s shape) path(from point, deg, mm float64) line {
	deg += s.turn
	out := line{from}
	for _, b := range s.bends {
		if b.after >= mm {
			break
		}
		from = toward(from, deg, b.after)
		out = append(out, from)
		deg += b.turn
		mm -= b.after
	}
	return append(out, toward(from, deg, mm))
}

// task is what is to be laid out: how long each leg is drawn, how each limb may
// lie, and the room there is.
type task struct {
	tree   tree
	limbs  []limb
	long   []float64 // by leg
	may    [][]shape // by limb, best liked first
	w, h   float64   // the room; the drawing is moved into it afterwards
	clear  float64   // wished between legs that do not meet
	narrow float64   // wished angle between legs that meet, degrees
	turned bool      // front lies left, and the left side below the right
}

// arrangement is a way to lay the legs.
type arrangement struct {
	task
	chosen []int  // shape by limb
	lines  []line // by leg, drawn away from the trunk
	pieces [][]segment
	start  []int // by leg: the node where its line begins
	under  [][]int
	cost   float64
}

// spoiled is the cost of one crossing, or of leaving the room: nothing else adds up to it.
const spoiled = 1e6

// settle chooses the limbs' shapes, one after the other and again, until none
// would better the whole. It starts from several guesses and gives what came of
// each, leaving out what is spoiled and what came twice.
func (k task) settle() []arrangement {
	var out []arrangement
	for start := range 4 {
		a := k.begin(start)
		a.improve()
		twice := slices.ContainsFunc(out, func(o arrangement) bool { return slices.Equal(o.chosen, a.chosen) })
		if a.cost < spoiled && !twice {
			out = append(out, a)
		}
	}
	return out
}

// begin lays the limbs on alternate sides of what they hang on.
func (k task) begin(start int) arrangement {
	a := arrangement{task: k, chosen: make([]int, len(k.limbs)), lines: make([]line, len(k.tree.legs)), under: make([][]int, len(k.limbs)),
		pieces: make([][]segment, len(k.tree.legs)), start: make([]int, len(k.tree.legs))}
	count := make([]int, len(k.limbs))
	for i, b := range k.limbs {
		for j, l := range b.legs {
			a.start[l] = b.nodes[j]
		}
		if b.parent >= 0 {
			a.chosen[i] = (start*2 + count[b.parent]%2) % len(k.may[i])
			count[b.parent]++
		}
		for up := i; up >= 0; up = k.limbs[up].parent {
			a.under[up] = append(a.under[up], i)
		}
	}
	a.lay(0)
	a.cost = a.total()
	return a
}

// lay places a limb and all that hangs on it.
func (a *arrangement) lay(top int) {
	for _, i := range a.under[top] {
		b := a.limbs[i]
		from, deg := a.root(i)
		mm := 0.0
		for _, l := range b.legs {
			mm += a.long[l]
		}
		way := a.may[i][a.chosen[i]].path(from, deg, mm)
		along := 0.0
		for _, l := range b.legs {
			a.lines[l] = way.cut(along, along+a.long[l])
			a.pieces[l] = a.lines[l].segments()
			along += a.long[l]
		}
	}
}

// root is where a limb leaves, and the direction of what it leaves there.
func (a *arrangement) root(i int) (point, float64) {
	b := a.limbs[i]
	if b.parent < 0 {
		return point{}, 0
	}
	p := a.limbs[b.parent]
	for j, l := range p.legs {
		s := a.pieces[l]
		if last := s[len(s)-1]; p.nodes[j+1] == b.nodes[0] {
			return last.b, heading(last.a, last.b)
		}
	}
	if len(p.legs) == 0 {
		return point{}, 0
	}
	first := a.pieces[p.legs[0]][0]
	return first.a, heading(first.a, first.b)
}

const mostRounds = 8

func (a *arrangement) improve() {
	for range mostRounds {
		better := false
		for i := range a.limbs {
			better = a.improveLimb(i) || better
		}
		if !better {
			return
		}
	}
}

// improveLimb takes the best of a limb's shapes, all others staying.
func (a *arrangement) improveLimb(i int) bool {
	was := a.chosen[i]
	moved := make([]bool, len(a.lines))
	for _, b := range a.under[i] {
		for _, l := range a.limbs[b].legs {
			moved[l] = true
		}
	}
	best, least := was, math.Inf(1)
	for c := range a.may[i] {
		a.chosen[i] = c
		a.lay(i)
		cost := a.part(moved) + a.outside() + a.sided() + a.may[i][c].cost
		if c == was {
			cost -= 1e-6
		}
		if cost < least {
			best, least = c, cost
		}
	}
	a.chosen[i] = best
	a.lay(i)
	a.cost = a.total()
	return best != was
}

// total is the cost of everything.
func (a *arrangement) total() float64 {
	all := make([]bool, len(a.lines))
	for i := range all {
		all[i] = true
	}
	sum := a.part(all) + a.outside() + a.sided()
	for i, c := range a.chosen {
		sum += a.may[i][c].cost
	}
	return sum
}

// part is the cost of the pairs of legs of which one is marked.
func (a *arrangement) part(marked []bool) float64 {
	sum := 0.0
	for i := range a.lines {
		for j := range i {
			if marked[i] || marked[j] {
				sum += a.pair(i, j)
			}
		}
	}
	return sum
}

// pair is the cost of two legs: they should not cross, nor come near each
// other, nor leave their node by nearly the same angle.
func (a *arrangement) pair(i, j int) float64 {
	if n := a.shared(i, j); n >= 0 {
		return a.corner(i, j, n)
	}
	sum := 0.0
	for _, s := range a.pieces[i] {
		for _, o := range a.pieces[j] {
			sum += a.crowd(s, o)
		}
	}
	return sum
}

func (a *arrangement) crowd(s, o segment) float64 {
	if s.boxed(o) >= a.clear {
		return 0
	}
	switch gap := s.apart(o); {
	case gap < 0.15*a.clear:
		return spoiled
	case gap < a.clear:
		return 40 * (1 - gap/a.clear) * (1 - gap/a.clear)
	}
	return 0
}

// corner is the cost of two legs that share a node.
func (a *arrangement) corner(i, j, n int) float64 {
	p, q := a.outward(i, n), a.outward(j, n)
	angle := between(heading(p.a, p.b), heading(q.a, q.b))
	sum := 0.0
	if angle < a.narrow {
		sum += 200 * (1 - angle/a.narrow)
	}
	if angle < 14 {
		sum += spoiled
	}
	for _, s := range a.pieces[i] {
		for _, o := range a.pieces[j] {
			if !p.same(s) || !q.same(o) {
				sum += a.crowd(s, o)
			}
		}
	}
	return sum
}

// same tells whether two pieces have the same ends.
func (s segment) same(o segment) bool { return s == o || s == segment{o.b, o.a} }

// shared is the node at which two legs meet, or -1.
func (a *arrangement) shared(i, j int) int {
	p, q := a.tree.legs[i], a.tree.legs[j]
	switch {
	case p.from == q.from || p.from == q.to:
		return p.from
	case p.to == q.from || p.to == q.to:
		return p.to
	}
	return -1
}

// outward is a leg's first piece as it leaves a node.
func (a *arrangement) outward(l, n int) segment {
	s := a.pieces[l]
	if a.start[l] == n {
		return s[0]
	}
	last := s[len(s)-1]
	return segment{last.b, last.a}
}

// node is where a node lies.
func (a *arrangement) node(n int) point {
	for i, l := range a.tree.legs {
		if l.from == n || l.to == n {
			if a.start[i] == n {
				return a.lines[i][0]
			}
			return a.lines[i][len(a.lines[i])-1]
		}
	}
	return point{}
}

// outside is the cost of what reaches out of the room.
func (a *arrangement) outside() float64 {
	r := bounds(a.lines)
	over := math.Max(0, r.W-a.w-1e-6) + math.Max(0, r.H-a.h-1e-6)
	if over > 0 {
		return spoiled * (1 + over/100)
	}
	return 0
}
