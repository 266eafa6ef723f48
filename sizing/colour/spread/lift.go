package spread

// lift raises the smallest distance spot by spot where that is not the
// bottleneck of the whole, on reels that are there, with no tracer more and no
// wish less.
func (p *polish) lift() {
	l := &lift{polish: p, least: make([]int, len(p.Spots)), most: make([]int, len(p.Edges)), times: make([]int, len(p.Edges))}
	for range rounds {
		l.measure()
		moved := false
		for _, c := range p.open {
			moved = l.raise(c) || moved
		}
		if !moved {
			return
		}
	}
}

type lift struct {
	*polish
	least []int // by spot: the smallest distance there
	most  []int // by edge: the greatest of those where its ends meet
	times []int // by edge: at how many of its spots that is
}

func (l *lift) measure() {
	for s := range l.least {
		l.least[s] = never
	}
	for _, e := range l.Edges {
		if l.settled(e.A) && l.settled(e.B) {
			continue
		}
		d := l.Far[l.best[e.A]][l.best[e.B]]
		for _, s := range e.Spots {
			l.least[s] = min(l.least[s], d)
		}
	}
	for e := range l.Edges {
		l.most[e], l.times[e] = 0, 0
		for _, s := range l.Edges[e].Spots {
			switch d := l.least[s]; {
			case d > l.most[e]:
				l.most[e], l.times[e] = d, 1
			case d == l.most[e]:
				l.times[e]++
			}
		}
	}
}

// raise moves a node that makes a bottleneck somewhere, so that fewer edges are
// at the least of their spots and none is below it.
func (l *lift) raise(c int) bool {
	now, _ := l.bottlenecks(c, l.best[c])
	if now == 0 {
		return false
	}
	to, w := l.best[c], l.Nodes[c].Wish
	for _, i := range l.domain[c] {
		if tracer(l.Plain, i) > tracer(l.Plain, l.best[c]) || wish(w, i) < wish(w, l.best[c]) || !l.there(c, i) {
			continue
		}
		if n, ok := l.bottlenecks(c, i); ok && n < now && l.may(c, i) {
			to, now = i, n
		}
	}
	moved := to != l.best[c]
	if moved {
		l.move(c, to)
	}
	return moved
}

// bottlenecks counts the spots' least distances that a node makes with an
// option; ok is false when it would make a smaller one.
func (l *lift) bottlenecks(c, option int) (n int, ok bool) {
	for _, list := range [2][]link{l.links[c], l.walls[c]} {
		for k := range list {
			d, e := l.Far[option][l.best[list[k].to]], list[k].edge
			if d < l.most[e] {
				return 0, false
			}
			if d == l.most[e] {
				n += l.times[e]
			}
		}
	}
	return n, true
}
