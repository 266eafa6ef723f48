package spread

import (
	"slices"
	"sort"
)

// polish betters what was found without breaking its floors.
type polish struct {
	*field
	allow []set
	users map[reel]int // nodes on each reel
}

// rounds is how often each pass goes over all nodes at most.
const rounds = 3

func (f *field) polish() {
	p := &polish{field: f, allow: make([]set, len(f.Nodes)), users: map[reel]int{}}
	f.best = append([]int(nil), f.best...)
	for c := range f.Nodes {
		p.count(c, 1)
		if !f.settled(c) {
			p.allow[c] = f.allowed(c, &f.floors)
		}
	}
	p.repeat(p.fewerAtFloor)
	for range rounds {
		if !p.dissolveAll() {
			break
		}
	}
	p.repeat(p.plainer)
	p.wishes()
	p.lift()
}

// repeat lets every node have its turn until nothing changes.
func (p *polish) repeat(turn func(c int) bool) {
	for again, n := true, 0; again && n < rounds; n++ {
		again = false
		for _, c := range p.open {
			again = turn(c) || again
		}
	}
}

func (p *polish) count(c, by int) {
	for _, g := range p.Nodes[c].Reels {
		p.users[reel{g, p.best[c]}] += by
	}
}

func (p *polish) move(c, option int) {
	p.count(c, -1)
	p.best[c] = option
	p.count(c, 1)
}

// atFloor counts a node's edges that keep just the floor, by rank, if it had
// an option; ok is false when a floor would be broken.
func (p *polish) atFloor(c, option int) (n Floors, ok bool) {
	if !p.allow[c].has(option) || !p.sameFamily(c, p.best[c], option) {
		return n, false
	}
	p.work++
	for k := range p.links[c] {
		l := &p.links[c][k]
		asks := l.asks(&p.floors)
		d := p.Far[option][p.best[l.to]]
		if d < asks || l.aside && d == 0 && p.Far[p.best[c]][p.best[l.to]] > 0 {
			return n, false
		}
		if d == p.floors[l.rank] {
			n[l.rank]++
		}
	}
	for r := range n {
		for _, l := range p.walls[c] {
			if l.rank == Rank(r) && p.Far[option][p.best[l.to]] == p.floors[r] {
				n[r]++
			}
		}
	}
	return n, true
}

func (a Floors) less(b Floors) bool {
	for r := range a {
		if a[r] != b[r] {
			return a[r] < b[r]
		}
	}
	return false
}

// fewerAtFloor moves a node to the option with the fewest edges at the floor.
func (p *polish) fewerAtFloor(c int) bool {
	now, _ := p.atFloor(c, p.best[c])
	if now == (Floors{}) {
		return false
	}
	to := p.best[c]
	for _, i := range p.domain[c] {
		if n, ok := p.atFloor(c, i); ok && n.less(now) {
			now, to = n, i
		}
	}
	moved := to != p.best[c]
	if moved {
		p.move(c, to)
	}
	return moved
}

// may tells whether a node may take an option with no more edges at the floor.
func (p *polish) may(c, option int) bool {
	now, _ := p.atFloor(c, p.best[c])
	n, ok := p.atFloor(c, option)
	return ok && !now.less(n)
}

func (p *polish) dissolveAll() bool {
	again := false
	for _, r := range p.reels() {
		again = p.dissolve(r) || again
	}
	return again
}

// reels lists the reels in use, least used first, then tracers before plain.
func (p *polish) reels() []reel {
	var out []reel
	for r, n := range p.users {
		if n > 0 {
			out = append(out, r)
		}
	}
	sort.Slice(out, func(i, j int) bool {
		a, b := out[i], out[j]
		if p.users[a] != p.users[b] {
			return p.users[a] < p.users[b]
		}
		if a.option != b.option {
			return a.option > b.option
		}
		return a.number < b.number
	})
	return out
}

// dissolve moves every node off a reel, or leaves all as it was.
func (p *polish) dissolve(r reel) bool {
	var moved []int
	for c := range p.Nodes {
		if p.best[c] != r.option || !slices.Contains(p.Nodes[c].Reels, r.number) {
			continue
		}
		to, ok := p.elsewhere(c, r)
		if !ok {
			for k := len(moved) - 1; k >= 0; k-- {
				p.move(moved[k], r.option)
			}
			return false
		}
		p.move(c, to)
		moved = append(moved, c)
	}
	return len(moved) > 0
}

// elsewhere finds an option for a node whose reels are all there, other than
// the given one.
func (p *polish) elsewhere(c int, not reel) (option int, ok bool) {
	if p.settled(c) {
		return 0, false
	}
	for _, i := range p.domain[c] {
		if i != not.option && p.there(c, i) && p.may(c, i) {
			return i, true
		}
	}
	return 0, false
}

// there tells whether a node would find every reel of an option in use.
func (p *polish) there(c, option int) bool {
	for _, g := range p.Nodes[c].Reels {
		if p.users[reel{g, option}] == 0 {
			return false
		}
	}
	return true
}

// plainer takes a plain option for a node on its own reels, or where the plain
// reels are there.
func (p *polish) plainer(c int) bool {
	if tracer(p.Plain, p.best[c]) == 0 {
		return false
	}
	for _, i := range p.domain[c] {
		if tracer(p.Plain, i) == 0 && (p.there(c, i) || p.alone(c)) && p.may(c, i) {
			p.move(c, i)
			return true
		}
	}
	return false
}

// alone tells whether no other node is on any of this one's reels.
func (p *polish) alone(c int) bool {
	for _, g := range p.Nodes[c].Reels {
		if p.users[reel{g, p.best[c]}] > 1 {
			return false
		}
	}
	return true
}
