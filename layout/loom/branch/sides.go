package branch

import (
	"math"

	"example.com/loomfolio/sizing/harness"
)

// A map is turned so that front lies at the left, and drawn as seen from above: what
// lies left on the vehicle is then lower than what lies right.

// misturned is the cost of each place that lies on the wrong side of another.
const misturned = 3000

// Claims are the sides that a map may name at its edges: those of which a place is
// described, where all such places lie on their side.
type Claims struct{ Front, Rear, Left, Right bool }

// axis sorts the places of one pair of sides by their coordinates.
type axis struct{ low, high, rest []float64 }

func (x *axis) add(at float64, lies, low, high harness.Side) {
	switch {
	case lies.Is(low):
		x.low = append(x.low, at)
	case lies.Is(high):
		x.high = append(x.high, at)
	default:
		x.rest = append(x.rest, at)
	}
}

// sideRoom is how far apart on the map places of opposite sides lie at least, mm.
const sideRoom = 2

// wrong counts the places that lie on the wrong side of an opposite one; where only
// one side is described, of the middle of all others.
func (x axis) wrong() int {
	low, high := x.low, x.high
	switch {
	case len(low) == 0 && len(high) == 0:
		return 0
	case len(high) == 0 && len(x.rest) > 0:
		high = []float64{mean(x.rest)}
	case len(low) == 0 && len(x.rest) > 0:
		low = []float64{mean(x.rest)}
	}
	n := 0
	for _, l := range low {
		for _, h := range high {
			if l > h-sideRoom {
				n++
			}
		}
	}
	return n
}

// claims tells which of its two sides may be named.
func (x axis) claims() (low, high bool) {
	sure := x.wrong() == 0 && len(x.low)+len(x.high)+len(x.rest) > 1
	return sure && len(x.low) > 0, sure && len(x.high) > 0
}

func mean(all []float64) float64 {
	sum := 0.0
	for _, x := range all {
		sum += x
	}
	return sum / float64(len(all))
}

// axes are those of a map as it lies: along the vehicle, and across it.
func (a *Arrangement) axes() (along, across axis) {
	for n, node := range a.Tree.Nodes {
		if node.Arrives {
			continue
		}
		at := a.Node(n)
		along.add(at.X, node.Lies, harness.Front, harness.Rear)
		across.add(at.Y, node.Lies, harness.Right, harness.Left)
	}
	return along, across
}

// sided is the cost of the places on a wrong side; none where no side is described.
func (a *Arrangement) sided() float64 {
	if !a.Turned {
		return 0
	}
	along, across := a.axes()
	return misturned * float64(along.wrong()+across.wrong())
}

// Claimed are those of a map as it lies.
func (a *Arrangement) Claimed() (c Claims) {
	along, across := a.axes()
	c.Front, c.Rear = along.claims()
	c.Right, c.Left = across.claims()
	return c
}

// Sides tells whether the description says of any place where it lies.
func (t Tree) Sides() bool {
	for _, n := range t.Nodes {
		if n.Lies != 0 {
			return true
		}
	}
	return false
}

// MapTrunk is the way that a map draws straight: the longest from a place in front
// to one at the rear, where these are described, else the longest of all.
func (t Tree) MapTrunk() Limb {
	front, rear := t.facing(harness.Front), t.facing(harness.Rear)
	if front == nil && rear == nil {
		return t.Trunk()
	}
	near := t.Near()
	best := Limb{}
	for n := range t.Nodes {
		if front != nil && !front[n] || front == nil && rear[n] {
			continue
		}
		way, ok := t.longest(n, -1, near, func(to int) bool { return rear != nil && rear[to] || rear == nil && !front[to] })
		if ok && way.MM > best.MM {
			best = way
		}
	}
	if best.MM == 0 {
		return t.Trunk()
	}
	return best
}

// facing marks the nodes on a side; nil where there are none.
func (t Tree) facing(side harness.Side) []bool {
	var out []bool
	for n, node := range t.Nodes {
		if node.Lies.Is(side) && !node.Arrives {
			if out == nil {
				out = make([]bool, len(t.Nodes))
			}
			out[n] = true
		}
	}
	return out
}

// longest is the longest way from a node to one that may be its end, not back through a leg.
func (t Tree) longest(n, not int, near [][]int, end func(n int) bool) (Limb, bool) {
	best, found := Limb{Nodes: []int{n}, MM: math.Inf(-1)}, false
	if end(n) {
		best.MM, found = 0, true
	}
	for _, l := range near[n] {
		if l == not || t.Legs[l].Closing {
			continue
		}
		far, ok := t.longest(t.Legs[l].far(n), l, near, end)
		if mm := far.MM + t.Legs[l].MM; ok && mm > best.MM {
			best, found = far.after(n, l, t.Legs[l].MM), true
		}
	}
	return best, found
}
