package spread

import "slices"

// The bounds of the exact search: how many open nodes, and how many steps.
const (
	fewNodes   = 12
	exactSteps = 20000
)

// exact settles whether the floors can be kept in a small graph, by trying
// all: always the node with the fewest options left, those of its neighbours
// cut down with each choice. Groups are left to the greedy run.
func (f *field) exact(t Floors) ([]int, bool) {
	if len(f.open) > fewNodes || f.grouped() {
		return nil, false
	}
	b := &branch{greedy: f.begin(t), steps: exactSteps}
	ok := b.grow(len(f.open))
	f.work += exactSteps - b.steps
	return b.option, ok
}

func (f *field) grouped() bool {
	return slices.ContainsFunc(f.open, func(c int) bool { return f.Nodes[c].Group != 0 })
}

type branch struct {
	*greedy
	steps int // left
}

func (b *branch) grow(open int) bool {
	if open == 0 {
		return true
	}
	c := b.next()
	for _, i := range b.domain[c] {
		if !b.left[c].has(i) {
			continue
		}
		if b.steps--; b.steps <= 0 {
			return false
		}
		undo := b.place(c, i)
		if undo.alive && b.grow(open-1) {
			return true
		}
		b.takeBack(c, undo)
	}
	return false
}

// undone is what a choice took from the neighbours.
type undone struct {
	left  []set
	count []int
	alive bool // every neighbour has something left
}

func (b *branch) place(c, option int) undone {
	u := undone{alive: true}
	b.option[c] = option
	for i := range b.links[c] {
		l := &b.links[c][i]
		u.left, u.count = append(u.left, b.left[l.to]), append(u.count, b.count[l.to])
		if asks := l.asks(&b.floors); asks > 0 && b.option[l.to] < 0 {
			b.left[l.to] = b.left[l.to].copy()
			b.left[l.to].keep(b.fits(asks)[option])
			b.count[l.to] = b.left[l.to].count()
			u.alive = u.alive && b.count[l.to] > 0
		}
	}
	return u
}

func (b *branch) takeBack(c int, u undone) {
	b.option[c] = -1
	for i := len(b.links[c]) - 1; i >= 0; i-- {
		to := b.links[c][i].to
		b.left[to], b.count[to] = u.left[i], u.count[i]
	}
}
