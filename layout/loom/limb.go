package loom

// limb is a way through the tree that is drawn as one line: the trunk, or what
// leaves another limb at a node.
type limb struct {
	parent int   // -1: the trunk
	nodes  []int // from where it leaves to its end
	legs   []int // one less than nodes
	mm     float64
}

// trunk is the longest way of the tree; the place named first stands at its start.
func (t tree) trunk() limb {
	near := t.near()
	start := t.deepest(0, -1, near).end()
	trunk := t.deepest(t.deepest(start, -1, near).end(), -1, near)
	if trunk.end() < trunk.nodes[0] {
		trunk = trunk.reversed()
	}
	return trunk
}

// limbs takes the tree apart: the longest way of what is left at a node of the trunk
// is a limb, and so is again the longest way at a node of a limb. Parents stand
// before what leaves them.
func (t tree) limbs(trunk limb) []limb {
	near := t.near()
	trunk.parent = -1
	out := []limb{trunk}
	taken := make([]bool, len(t.legs))
	for i := 0; i < len(out); i++ {
		for _, l := range out[i].legs {
			taken[l] = true
		}
		for _, n := range out[i].nodes {
			for _, l := range near[n] {
				if taken[l] || (i > 0 && n == out[i].nodes[0]) {
					continue
				}
				b := t.deepest(t.legs[l].far(n), l, near).after(n, l, t.legs[l].mm)
				b.parent = i
				taken[l] = true
				out = append(out, b)
			}
		}
	}
	return out
}

func (b limb) end() int { return b.nodes[len(b.nodes)-1] }

// after puts a leg before a limb.
func (b limb) after(n, l int, mm float64) limb {
	return limb{nodes: append([]int{n}, b.nodes...), legs: append([]int{l}, b.legs...), mm: b.mm + mm}
}

func (b limb) reversed() limb {
	out := limb{mm: b.mm}
	for i := range b.nodes {
		out.nodes = append(out.nodes, b.nodes[len(b.nodes)-1-i])
	}
	for i := range b.legs {
		out.legs = append(out.legs, b.legs[len(b.legs)-1-i])
	}
	return out
}

// deepest is the longest way from a node, not back through a leg.
func (t tree) deepest(n, not int, near [][]int) limb {
	best := limb{nodes: []int{n}}
	for _, l := range near[n] {
		if l == not {
			continue
		}
		if t.legs[l].closing { // never part of a longer way
			continue
		}
		far := t.deepest(t.legs[l].far(n), l, near)
		if mm := far.mm + t.legs[l].mm; mm > best.mm {
			best = far.after(n, l, t.legs[l].mm)
		}
	}
	return best
}
