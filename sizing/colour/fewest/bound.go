package fewest

import "example.com/loomfolio/sizing/colour/spread"

// Bound is how many reels of a size no solution goes below that has no two alike which have a choice.
type Bound struct {
	Least int
	Exact bool // colouring the size alone takes just so many
}

// point is what needs a reel of its own beside those that it is joined to: a settled option, or a
// node that has a choice.
type point struct {
	node   int // -1 of a settled option
	option int
}

// Bounds gives the bound of every size: the largest set of which every two must differ, and where
// steps are given, the fewest colours of the whole size. Reels that are there cost nothing.
func Bounds(p *Problem, steps int) []Bound {
	joined := p.joined()
	out := make([]Bound, len(p.Price))
	for z := range p.Price {
		out[z] = p.bound(z, joined, steps)
	}
	return out
}

// joined tells for every node the others that it must not look like.
func (p *Problem) joined() []map[int]bool {
	out := make([]map[int]bool, len(p.Nodes))
	for i := range out {
		out[i] = map[int]bool{}
	}
	for _, e := range p.Edges {
		if e.Rank != Kin && p.Pair[e.Rank] > 0 {
			out[e.A][e.B], out[e.B][e.A] = true, true
		}
	}
	return out
}

func (p *Problem) bound(z int, joined []map[int]bool, steps int) Bound {
	points := p.points(z)
	fit := make([][]bool, len(points))
	for i := range fit {
		fit[i] = make([]bool, len(points))
		for j := range i {
			fit[i][j] = p.differ(points[i], points[j], joined)
			fit[j][i] = fit[i][j]
		}
	}
	least, _ := spread.Largest(fit, 200+steps)
	exact := false
	if steps > 0 {
		least, exact = colours(fit, least, steps)
	}
	for _, price := range p.Price[z] {
		if price == 0 {
			least--
		}
	}
	return Bound{max(0, least), exact}
}

func (p *Problem) points(z int) []point {
	var out []point
	seen := map[int]bool{}
	for i := range p.Nodes {
		n := &p.Nodes[i]
		if !in(n.Sizes, z) {
			continue
		}
		if !n.fixed() {
			out = append(out, point{node: i})
		} else if o := n.Options[0]; !seen[o] {
			seen[o] = true
			out = append(out, point{-1, o})
		}
	}
	return out
}

// differ tells whether two points cannot share a reel.
func (p *Problem) differ(a, b point, joined []map[int]bool) bool {
	switch {
	case a.node < 0 && b.node < 0:
		return true
	case a.node >= 0 && b.node >= 0:
		return joined[a.node][b.node]
	case a.node < 0:
		a, b = b, a
	}
	if !in(p.Nodes[a.node].Options, b.option) {
		return true
	}
	for o := range joined[a.node] {
		if n := &p.Nodes[o]; n.fixed() && p.Alike[n.Options[0]][b.option] {
			return true
		}
	}
	return false
}

func in(list []int, x int) bool {
	for _, y := range list {
		if x == y {
			return true
		}
	}
	return false
}

// dyeing is an exact search for the fewest colours of a graph: branch and bound, the vertex first
// that sees most colours already (Brélaz, "New methods to color the vertices of a graph",
// Communications of the ACM 22, 1979).
type dyeing struct {
	fit   [][]bool
	hue   []int // by vertex; -1 none yet
	steps int
	best  int
}

// colours gives what a graph takes at least, and whether that was proved to be enough.
func colours(fit [][]bool, least, steps int) (int, bool) {
	for k := least; k <= len(fit); k++ {
		d := &dyeing{fit: fit, hue: make([]int, len(fit)), steps: steps, best: k}
		for i := range d.hue {
			d.hue[i] = -1
		}
		if d.paint(0) {
			return k, true
		}
		if d.steps <= 0 {
			return k, false
		}
	}
	return least, true
}

// paint tells whether the vertices that have no colour yet can do with those up to the limit.
func (d *dyeing) paint(used int) bool {
	if d.steps--; d.steps <= 0 {
		return false
	}
	v := d.narrowest()
	if v < 0 {
		return true
	}
	for h := 0; h < min(used+1, d.best); h++ {
		if d.stands(v, h) {
			continue
		}
		d.hue[v] = h
		if d.paint(max(used, h+1)) {
			return true
		}
		d.hue[v] = -1
	}
	return false
}

func (d *dyeing) stands(v, h int) bool {
	for u, joined := range d.fit[v] {
		if joined && d.hue[u] == h {
			return true
		}
	}
	return false
}

// narrowest gives the vertex without a colour that sees most colours, then most others; -1 for none.
func (d *dyeing) narrowest() int {
	out, most, wide := -1, -1, -1
	for v := range d.fit {
		if d.hue[v] >= 0 {
			continue
		}
		seen, degree := d.seen(v)
		if seen > most || seen == most && degree > wide {
			out, most, wide = v, seen, degree
		}
	}
	return out
}

func (d *dyeing) seen(v int) (hues, degree int) {
	var at [4]uint64
	for u, joined := range d.fit[v] {
		if !joined {
			continue
		}
		degree++
		if h := d.hue[u]; h >= 0 && at[h/64%4]>>(h%64)&1 == 0 {
			at[h/64%4] |= 1 << (h % 64)
			hues++
		}
	}
	return hues, degree
}
