package branch

import (
	"math"
	"slices"

	"example.com/loomfolio/layout/loom/plane"
)

// Shape says how a limb lies: the angle by which it leaves the way it hangs on,
// and the bends along it.
type Shape struct {
	Turn  float64 // degrees from the direction of what it leaves
	Bends []Bend
	Cost  float64 // how little it is liked
}

// Bend is a turn by so many degrees, so many mm after the one before.
type Bend struct{ After, Turn float64 }

// Path is the line of a limb of some length from a place in a direction.
func (s Shape) Path(from plane.Point, deg, mm float64) plane.Line {
	deg += s.Turn
	out := plane.Line{from}
	for _, b := range s.Bends {
		if b.After >= mm {
			break
		}
		from = plane.Toward(from, deg, b.After)
		out = append(out, from)
		deg += b.Turn
		mm -= b.After
	}
	return append(out, plane.Toward(from, deg, mm))
}

// Task is what is to be laid out: how long each leg is drawn, how each limb may
// lie, and the room there is.
type Task struct {
	Tree   Tree
	Limbs  []Limb
	Long   []float64 // by leg
	May    [][]Shape // by limb, best liked first
	W, H   float64   // the room; the drawing is moved into it afterwards
	Clear  float64   // wished between legs that do not meet
	Narrow float64   // wished angle between legs that meet, degrees
	Turned bool      // front lies left, and the left side below the right
}

// Arrangement is a way to lay the legs.
type Arrangement struct {
	Task
	chosen []int        // shape by limb
	Lines  []plane.Line // by leg, drawn away from the trunk
	Pieces [][]plane.Segment
	Start  []int // by leg: the node where its line begins
	under  [][]int
	Cost   float64
}

// spoiled is the cost of one crossing, or of leaving the room: nothing else adds up to it.
const spoiled = 1e6

// Settle chooses the limbs' shapes, one after the other and again, until none
// would better the whole. It starts from several guesses and gives what came of
// each, leaving out what is spoiled and what came twice.
func (k Task) Settle() []Arrangement {
	var out []Arrangement
	for start := range 4 {
		a := k.Begin(start)
		a.Improve()
		twice := slices.ContainsFunc(out, func(o Arrangement) bool { return slices.Equal(o.chosen, a.chosen) })
		if a.Cost < spoiled && !twice {
			out = append(out, a)
		}
	}
	return out
}

// Begin lays the limbs on alternate sides of what they hang on.
func (k Task) Begin(start int) Arrangement {
	a := Arrangement{Task: k, chosen: make([]int, len(k.Limbs)), Lines: make([]plane.Line, len(k.Tree.Legs)), under: make([][]int, len(k.Limbs)),
		Pieces: make([][]plane.Segment, len(k.Tree.Legs)), Start: make([]int, len(k.Tree.Legs))}
	count := make([]int, len(k.Limbs))
	for i, b := range k.Limbs {
		for j, l := range b.Legs {
			a.Start[l] = b.Nodes[j]
		}
		if b.Parent >= 0 {
			a.chosen[i] = (start*2 + count[b.Parent]%2) % len(k.May[i])
			count[b.Parent]++
		}
		for up := i; up >= 0; up = k.Limbs[up].Parent {
			a.under[up] = append(a.under[up], i)
		}
	}
	a.lay(0)
	a.Cost = a.total()
	return a
}

// lay places a limb and all that hangs on it.
func (a *Arrangement) lay(top int) {
	for _, i := range a.under[top] {
		b := a.Limbs[i]
		from, deg := a.root(i)
		mm := 0.0
		for _, l := range b.Legs {
			mm += a.Long[l]
		}
		way := a.May[i][a.chosen[i]].Path(from, deg, mm)
		along := 0.0
		for _, l := range b.Legs {
			a.Lines[l] = way.Cut(along, along+a.Long[l])
			a.Pieces[l] = a.Lines[l].Segments()
			along += a.Long[l]
		}
	}
}

// root is where a limb leaves, and the direction of what it leaves there.
func (a *Arrangement) root(i int) (plane.Point, float64) {
	b := a.Limbs[i]
	if b.Parent < 0 {
		return plane.Point{}, 0
	}
	p := a.Limbs[b.Parent]
	for j, l := range p.Legs {
		s := a.Pieces[l]
		if last := s[len(s)-1]; p.Nodes[j+1] == b.Nodes[0] {
			return last.B, plane.Heading(last.A, last.B)
		}
	}
	if len(p.Legs) == 0 {
		return plane.Point{}, 0
	}
	first := a.Pieces[p.Legs[0]][0]
	return first.A, plane.Heading(first.A, first.B)
}

const mostRounds = 8

// Improve takes the best shape of each limb, one after the other and again, until none
// would better the whole.
func (a *Arrangement) Improve() {
	for range mostRounds {
		better := false
		for i := range a.Limbs {
			better = a.improveLimb(i) || better
		}
		if !better {
			return
		}
	}
}

// improveLimb takes the best of a limb's shapes, all others staying.
func (a *Arrangement) improveLimb(i int) bool {
	was := a.chosen[i]
	moved := make([]bool, len(a.Lines))
	for _, b := range a.under[i] {
		for _, l := range a.Limbs[b].Legs {
			moved[l] = true
		}
	}
	best, least := was, math.Inf(1)
	for c := range a.May[i] {
		a.chosen[i] = c
		a.lay(i)
		cost := a.part(moved) + a.outside() + a.sided() + a.May[i][c].Cost
		if c == was {
			cost -= 1e-6
		}
		if cost < least {
			best, least = c, cost
		}
	}
	a.chosen[i] = best
	a.lay(i)
	a.Cost = a.total()
	return best != was
}

// total is the cost of everything.
func (a *Arrangement) total() float64 {
	all := make([]bool, len(a.Lines))
	for i := range all {
		all[i] = true
	}
	sum := a.part(all) + a.outside() + a.sided()
	for i, c := range a.chosen {
		sum += a.May[i][c].Cost
	}
	return sum
}

// part is the cost of the pairs of legs of which one is marked.
func (a *Arrangement) part(marked []bool) float64 {
	sum := 0.0
	for i := range a.Lines {
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
func (a *Arrangement) pair(i, j int) float64 {
	if n := a.Shared(i, j); n >= 0 {
		return a.corner(i, j, n)
	}
	sum := 0.0
	for _, s := range a.Pieces[i] {
		for _, o := range a.Pieces[j] {
			sum += a.crowd(s, o)
		}
	}
	return sum
}

func (a *Arrangement) crowd(s, o plane.Segment) float64 {
	if s.Boxed(o) >= a.Clear {
		return 0
	}
	switch gap := s.Apart(o); {
	case gap < 0.15*a.Clear:
		return spoiled
	case gap < a.Clear:
		return 40 * (1 - gap/a.Clear) * (1 - gap/a.Clear)
	}
	return 0
}

// corner is the cost of two legs that share a node.
func (a *Arrangement) corner(i, j, n int) float64 {
	p, q := a.Outward(i, n), a.Outward(j, n)
	angle := plane.Between(plane.Heading(p.A, p.B), plane.Heading(q.A, q.B))
	sum := 0.0
	if angle < a.Narrow {
		sum += 200 * (1 - angle/a.Narrow)
	}
	if angle < 14 {
		sum += spoiled
	}
	for _, s := range a.Pieces[i] {
		for _, o := range a.Pieces[j] {
			if !p.Same(s) || !q.Same(o) {
				sum += a.crowd(s, o)
			}
		}
	}
	return sum
}

// Shared is the node at which two legs meet, or -1.
func (a *Arrangement) Shared(i, j int) int {
	p, q := a.Tree.Legs[i], a.Tree.Legs[j]
	switch {
	case p.From == q.From || p.From == q.To:
		return p.From
	case p.To == q.From || p.To == q.To:
		return p.To
	}
	return -1
}

// Outward is a leg's first piece as it leaves a node.
func (a *Arrangement) Outward(l, n int) plane.Segment {
	s := a.Pieces[l]
	if a.Start[l] == n {
		return s[0]
	}
	last := s[len(s)-1]
	return plane.Segment{A: last.B, B: last.A}
}

// Node is where a node lies.
func (a *Arrangement) Node(n int) plane.Point {
	for i, l := range a.Tree.Legs {
		if l.From == n || l.To == n {
			if a.Start[i] == n {
				return a.Lines[i][0]
			}
			return a.Lines[i][len(a.Lines[i])-1]
		}
	}
	return plane.Point{}
}

// outside is the cost of what reaches out of the room.
func (a *Arrangement) outside() float64 {
	r := plane.Bounds(a.Lines)
	over := math.Max(0, r.W-a.W-1e-6) + math.Max(0, r.H-a.H-1e-6)
	if over > 0 {
		return spoiled * (1 + over/100)
	}
	return 0
}
