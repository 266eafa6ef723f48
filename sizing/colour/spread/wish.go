package spread

// wishes meets wishes where that costs no reel, no tracer and no distance: node
// by node, and by letting two options change places everywhere.
func (p *polish) wishes() {
	if !p.anyWish() {
		return
	}
	for range rounds {
		p.repeat(p.grant)
		if !p.swapAny() {
			return
		}
	}
}

func (p *polish) anyWish() bool {
	for _, c := range p.open {
		if p.Nodes[c].Wish != nil {
			return true
		}
	}
	return false
}

// grant moves a node to the option that it wishes most and may have.
func (p *polish) grant(c int) bool {
	w := p.Nodes[c].Wish
	to := p.best[c]
	for _, i := range p.domain[c] {
		if wish(w, i) > wish(w, to) && tracer(p.Plain, i) <= tracer(p.Plain, p.best[c]) && (p.there(c, i) || p.alone(c)) && p.may(c, i) {
			to = i
		}
	}
	moved := to != p.best[c]
	if moved {
		p.move(c, to)
	}
	return moved
}

// swapAny exchanges two options in the whole graph where that meets more wishes.
func (p *polish) swapAny() bool {
	swapped := false
	for _, c := range p.open {
		w := p.Nodes[c].Wish
		if w == nil {
			continue
		}
		for _, i := range p.domain[c] {
			if w[i] > w[p.best[c]] && tracer(p.Plain, i) <= tracer(p.Plain, p.best[c]) && p.swap(p.best[c], i) {
				swapped = true
			}
		}
	}
	return swapped
}

// swap lets two options change places, and takes it back when that breaks a
// floor, brings more edges to it or meets no more wishes.
func (p *polish) swap(a, b int) bool {
	before, wished := p.atFloors(), p.wished()
	if !p.exchange(a, b) {
		return false
	}
	if after := p.atFloors(); p.kept() && !before.less(after) && p.wished() > wished {
		return true
	}
	p.exchange(a, b)
	return false
}

// exchange does it; it refuses where a node lacks the other option or is settled.
func (p *polish) exchange(a, b int) bool {
	for c := range p.Nodes {
		if p.best[c] != a && p.best[c] != b {
			continue
		}
		if p.settled(c) || !p.allow[c].has(a+b-p.best[c]) || !p.sameFamily(c, a, b) {
			return false
		}
	}
	for _, c := range p.open {
		if p.best[c] == a || p.best[c] == b {
			p.move(c, a+b-p.best[c])
		}
	}
	return true
}

func (p *polish) wished() int {
	n := 0
	for _, c := range p.open {
		n += wish(p.Nodes[c].Wish, p.best[c])
	}
	return n
}

func (p *polish) kept() bool {
	for _, c := range p.open {
		if _, ok := p.atFloor(c, p.best[c]); !ok {
			return false
		}
	}
	return true
}

func (p *polish) atFloors() Floors {
	var out Floors
	for _, c := range p.open {
		n, _ := p.atFloor(c, p.best[c])
		for r := range out {
			out[r] += n[r]
		}
	}
	return out
}
