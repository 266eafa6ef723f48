// Package branch lays the branches of a loom: its places and runs in, a line for each run
// out, in millimetres, y down. Rings are opened, so that what is laid is always a tree.
//
// The longest way is the trunk; of what hangs on it the longest way is again a limb, and so
// on. Each limb leaves by one of a few shapes, chosen in turn, then again, so that legs
// neither cross nor crowd and places lie on the sides that are described.
package branch

import (
	"slices"

	"example.com/loomfolio/layout/page"
	"example.com/loomfolio/sizing/forest"
	"example.com/loomfolio/sizing/harness"
)

// Leg is one run as it is drawn, between two nodes of a tree.
type Leg struct {
	Run      harness.RunID
	From, To int
	MM       float64 // of loom
	Closing  bool    // it closes a ring: its node "to" stands for a place drawn elsewhere
	Gaps     []Gap   // what of it is left out, in order from "from"
}

// Node is a place as it is drawn; the end of a closing leg is a node of its own.
type Node struct {
	Place     harness.PlaceID
	Arrives   bool // the end of a closing leg
	Elsewhere bool // the tree was divided here: the place is on another sheet as well
	Repeated  bool // its parts are listed on that other sheet
	Lies      harness.Side
}

// Tree is what hangs together and is drawn on one sheet.
type Tree struct {
	Nodes []Node
	Legs  []Leg
}

// Trees makes the forest from the runs: those with many wires first, so that a
// ring is closed by a light run. Trees come in the order of their first run.
func Trees(a page.Ask) []Tree {
	sets := forest.New(len(a.H.Places))
	closing := make([]bool, len(a.H.Runs))
	for _, id := range byWires(a) {
		r := a.H.Runs[id]
		closing[id] = sets.Root(int(r.From)) == sets.Root(int(r.To))
		sets.Join(int(r.From), int(r.To))
	}
	var out []Tree
	index := map[int]int{}
	at := map[harness.PlaceID]int{}
	for _, r := range a.H.Runs {
		root := sets.Root(int(r.From))
		if _, ok := index[root]; !ok {
			index[root] = len(out)
			out = append(out, Tree{})
		}
		out[index[root]].add(r, closing[r.ID], at, a.H.Places)
	}
	return out
}

// add puts a run into the tree; at knows the nodes of the places so far.
func (t *Tree) add(r harness.Run, closing bool, at map[harness.PlaceID]int, places []harness.Place) {
	place := func(p harness.PlaceID) int {
		n, ok := at[p]
		if !ok {
			n = len(t.Nodes)
			at[p] = n
			t.Nodes = append(t.Nodes, Node{Place: p, Lies: places[p].Lies})
		}
		return n
	}
	l := Leg{Run: r.ID, From: place(r.From), MM: float64(r.Length), Closing: closing}
	if closing {
		l.To = len(t.Nodes)
		t.Nodes = append(t.Nodes, Node{Place: r.To, Arrives: true})
	} else {
		l.To = place(r.To)
	}
	t.Legs = append(t.Legs, l)
}

// byWires lists the runs, those with most wires first.
func byWires(a page.Ask) []harness.RunID {
	out := make([]harness.RunID, len(a.H.Runs))
	for i := range out {
		out[i] = harness.RunID(i)
	}
	slices.SortStableFunc(out, func(x, y harness.RunID) int { return wires(a, y) - wires(a, x) })
	return out
}

// wires counts the wires in a run.
func wires(a page.Ask, r harness.RunID) int { return len(a.R.Runs[r].Wires) }

// Near lists the legs at each node.
func (t Tree) Near() [][]int {
	out := make([][]int, len(t.Nodes))
	for i, l := range t.Legs {
		out[l.From] = append(out[l.From], i)
		out[l.To] = append(out[l.To], i)
	}
	return out
}

// far is the other end of a leg.
func (l Leg) far(n int) int { return l.From + l.To - n }

// Halves divides a tree at the node that leaves the two parts most alike in
// size; the node stands in both. A tree of one leg stays whole.
func (t Tree) Halves() []Tree {
	if len(t.Legs) < 2 {
		return []Tree{t}
	}
	near := t.Near()
	best, least := []int(nil), len(t.Legs)+1
	at := 0
	for n := range t.Nodes {
		first := t.share(n, near)
		if off := abs(len(t.Legs) - 2*len(first)); len(first) > 0 && off < least {
			best, least, at = first, off, n
		}
	}
	return []Tree{t.part(at, best, false), t.part(at, best, true)}
}

// share gathers branches of a node until half of the legs are taken; nil where
// the node has one branch only.
func (t Tree) share(n int, near [][]int) []int {
	if len(near[n]) < 2 {
		return nil
	}
	var branches [][]int
	for _, l := range near[n] {
		branches = append(branches, t.beyond(n, l, near))
	}
	slices.SortStableFunc(branches, func(x, y []int) int { return len(y) - len(x) })
	taken := branches[0]
	for _, b := range branches[1 : len(branches)-1] {
		if 2*(len(taken)+len(b)) <= len(t.Legs)+1 {
			taken = append(taken, b...)
		}
	}
	return taken
}

// beyond lists a leg at a node and all legs behind it.
func (t Tree) beyond(n, l int, near [][]int) []int {
	out := []int{l}
	far := t.Legs[l].far(n)
	for _, next := range near[far] {
		if next != l {
			out = append(out, t.beyond(far, next, near)...)
		}
	}
	return out
}

// part is the tree of the legs that are in the list, or of those that are not;
// the node at which it was cut is marked, and lists its parts in the first half.
func (t Tree) part(cut int, list []int, not bool) Tree {
	var out Tree
	index := map[int]int{}
	node := func(n int) int {
		i, ok := index[n]
		if !ok {
			i = len(out.Nodes)
			index[n] = i
			copied := t.Nodes[n]
			if n == cut {
				copied.Elsewhere, copied.Repeated = true, copied.Repeated || not
			}
			out.Nodes = append(out.Nodes, copied)
		}
		return i
	}
	for i, l := range t.Legs {
		if slices.Contains(list, i) != not {
			l.From, l.To = node(l.From), node(l.To)
			out.Legs = append(out.Legs, l)
		}
	}
	return out
}

func abs(x int) int { return max(x, -x) }
