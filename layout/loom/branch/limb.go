package branch

// Limb is a way through the tree that is drawn as one line: the trunk, or what
// leaves another limb at a node.
type Limb struct {
	Parent int   // -1: the trunk
	Nodes  []int // from where it leaves to its end
	Legs   []int // one less than nodes
	MM     float64
}

// Trunk is the longest way of the tree; the place named first stands at its start.
func (t Tree) Trunk() Limb {
	near := t.Near()
	start := t.deepest(0, -1, near).End()
	trunk := t.deepest(t.deepest(start, -1, near).End(), -1, near)
	if trunk.End() < trunk.Nodes[0] {
		trunk = trunk.reversed()
	}
	return trunk
}

// Limbs takes the tree apart: the longest way of what is left at a node of the trunk
// is a limb, and so is again the longest way at a node of a limb. Parents stand
// before what leaves them.
func (t Tree) Limbs(trunk Limb) []Limb {
	near := t.Near()
	trunk.Parent = -1
	out := []Limb{trunk}
	taken := make([]bool, len(t.Legs))
	for i := 0; i < len(out); i++ {
		for _, l := range out[i].Legs {
			taken[l] = true
		}
		for _, n := range out[i].Nodes {
			for _, l := range near[n] {
				if taken[l] || (i > 0 && n == out[i].Nodes[0]) {
					continue
				}
				b := t.deepest(t.Legs[l].far(n), l, near).after(n, l, t.Legs[l].MM)
				b.Parent = i
				taken[l] = true
				out = append(out, b)
			}
		}
	}
	return out
}

// End is the node at which the limb ends.
func (b Limb) End() int { return b.Nodes[len(b.Nodes)-1] }

// after puts a leg before a limb.
func (b Limb) after(n, l int, mm float64) Limb {
	return Limb{Nodes: append([]int{n}, b.Nodes...), Legs: append([]int{l}, b.Legs...), MM: b.MM + mm}
}

func (b Limb) reversed() Limb {
	out := Limb{MM: b.MM}
	for i := range b.Nodes {
		out.Nodes = append(out.Nodes, b.Nodes[len(b.Nodes)-1-i])
	}
	for i := range b.Legs {
		out.Legs = append(out.Legs, b.Legs[len(b.Legs)-1-i])
	}
	return out
}

// deepest is the longest way from a node, not back through a leg.
func (t Tree) deepest(n, not int, near [][]int) Limb {
	best := Limb{Nodes: []int{n}}
	for _, l := range near[n] {
		if l == not {
			continue
		}
		if t.Legs[l].Closing { // never part of a longer way
			continue
		}
		far := t.deepest(t.Legs[l].far(n), l, near)
		if mm := far.MM + t.Legs[l].MM; mm > best.MM {
			best = far.after(n, l, t.Legs[l].MM)
		}
	}
	return best
}
