// Package loom draws the physical loom: the map of its branches on a sheet with the list
// of its runs under it, and the board at full size to build it on.
//
// In come the model's places and runs with what was computed for them; out come
// the pages of the map and the list, and the sheets of the board. Runs that close a ring are
// drawn as a broken leg that names the place where it arrives, so that what is
// drawn is always a forest. A tree that does not fit a sheet is divided at a place. A board
// may be folded: the middle of long bare stretches is then left out.
//
// Method, all of it deterministic: the longest way is the trunk and is drawn
// straight; of what hangs on it the longest way is again a limb, and so on. Each
// limb leaves its breakout by one of a few angles, chosen in turn, then again,
// so that legs neither cross nor crowd. Where the description says on which side of the
// vehicle places lie, the map's trunk runs from front to rear and limbs are turned so that
// front is at the left and the vehicle's left below its right, as seen from above. Labels are
// tried at growing distances round what they name; those that find no place come first in
// the next attempt.
//
// It holds that legs of a tree never cross, that no text lies on another or on a
// line, that labels of two things are 4 mm apart, that lengths are true to the scale that
// the sheet states, and that a side named at an edge is true of every place described.
//
// Anchors set here: sheet/loom, sheet/runs, run/FROM-TO, laid/FROM-TO, place/KEY.
package loom

import (
	"slices"

	"example.com/loomfolio/layout/page"
	"example.com/loomfolio/sizing/forest"
	"example.com/loomfolio/sizing/harness"
)

// leg is one run as it is drawn, between two nodes of a tree.
type leg struct {
	run      harness.RunID
	from, to int
	mm       float64 // of loom
	closing  bool    // it closes a ring: its node "to" stands for a place drawn elsewhere
	gaps     []gap   // what of it is left out, in order from "from"
}

// node is a place as it is drawn; the end of a closing leg is a node of its own.
type node struct {
	place     harness.PlaceID
	arrives   bool // the end of a closing leg
	elsewhere bool // the tree was divided here: the place is on another sheet as well
	repeated  bool // its parts are listed on that other sheet
	lies      harness.Side
}

// tree is what hangs together and is drawn on one sheet.
type tree struct {
	nodes []node
	legs  []leg
}

// trees makes the forest from the runs: those with many wires first, so that a
// ring is closed by a light run. Trees come in the order of their first run.
func trees(a page.Ask) []tree {
	sets := forest.New(len(a.H.Places))
	closing := make([]bool, len(a.H.Runs))
	for _, id := range byWires(a) {
		r := a.H.Runs[id]
		closing[id] = sets.Root(int(r.From)) == sets.Root(int(r.To))
		sets.Join(int(r.From), int(r.To))
	}
	var out []tree
	index := map[int]int{}
	at := map[harness.PlaceID]int{}
	for _, r := range a.H.Runs {
		root := sets.Root(int(r.From))
		if _, ok := index[root]; !ok {
			index[root] = len(out)
			out = append(out, tree{})
		}
		out[index[root]].add(r, closing[r.ID], at, a.H.Places)
	}
	return out
}

// add puts a run into the tree; at knows the nodes of the places so far.
func (t *tree) add(r harness.Run, closing bool, at map[harness.PlaceID]int, places []harness.Place) {
	place := func(p harness.PlaceID) int {
		n, ok := at[p]
		if !ok {
			n = len(t.nodes)
			at[p] = n
			t.nodes = append(t.nodes, node{place: p, lies: places[p].Lies})
		}
		return n
	}
	l := leg{run: r.ID, from: place(r.From), mm: float64(r.Length), closing: closing}
	if closing {
		l.to = len(t.nodes)
		t.nodes = append(t.nodes, node{place: r.To, arrives: true})
	} else {
		l.to = place(r.To)
	}
	t.legs = append(t.legs, l)
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

// near lists the legs at each node.
func (t tree) near() [][]int {
	out := make([][]int, len(t.nodes))
	for i, l := range t.legs {
		out[l.from] = append(out[l.from], i)
		out[l.to] = append(out[l.to], i)
	}
	return out
}

// far is the other end of a leg.
func (l leg) far(n int) int { return l.from + l.to - n }

// halves divides a tree at the node that leaves the two parts most alike in
// size; the node stands in both. A tree of one leg stays whole.
func (t tree) halves() []tree {
	if len(t.legs) < 2 {
		return []tree{t}
	}
	near := t.near()
	best, least := []int(nil), len(t.legs)+1
	at := 0
	for n := range t.nodes {
		first := t.share(n, near)
		if off := abs(len(t.legs) - 2*len(first)); len(first) > 0 && off < least {
			best, least, at = first, off, n
		}
	}
	return []tree{t.part(at, best, false), t.part(at, best, true)}
}

// share gathers branches of a node until half of the legs are taken; nil where
// the node has one branch only.
func (t tree) share(n int, near [][]int) []int {
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
		if 2*(len(taken)+len(b)) <= len(t.legs)+1 {
			taken = append(taken, b...)
		}
	}
	return taken
}

// beyond lists a leg at a node and all legs behind it.
func (t tree) beyond(n, l int, near [][]int) []int {
	out := []int{l}
	far := t.legs[l].far(n)
	for _, next := range near[far] {
		if next != l {
			out = append(out, t.beyond(far, next, near)...)
		}
	}
	return out
}

// part is the tree of the legs that are in the list, or of those that are not;
// the node at which it was cut is marked, and lists its parts in the first half.
func (t tree) part(cut int, list []int, not bool) tree {
	var out tree
	index := map[int]int{}
	node := func(n int) int {
		i, ok := index[n]
		if !ok {
			i = len(out.nodes)
			index[n] = i
			copied := t.nodes[n]
			if n == cut {
				copied.elsewhere, copied.repeated = true, copied.repeated || not
			}
			out.nodes = append(out.nodes, copied)
		}
		return i
	}
	for i, l := range t.legs {
		if slices.Contains(list, i) != not {
			l.from, l.to = node(l.from), node(l.to)
			out.legs = append(out.legs, l)
		}
	}
	return out
}

func abs(x int) int { return max(x, -x) }
