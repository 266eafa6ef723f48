package spread

import (
	"slices"
	"sort"
)

// fewestAlike finds options with as little likeness as can be found.
func (f *field) fewestAlike() []int {
	option, _ := f.run(Floors{1, 1, 0}, false, nil)
	for range 3 {
		better := false
		for _, c := range f.open {
			better = f.lessAlike(option, c) || better
		}
		if !better {
			break
		}
	}
	return option
}

// lessAlike moves one node to the option that costs least, if that helps.
func (f *field) lessAlike(option []int, c int) bool {
	cost := f.alike(option, c)
	least, to := cost[option[c]], option[c]
	for _, i := range f.domain[c] {
		if cost[i] < least && f.sameFamily(c, option[c], i) {
			least, to = cost[i], i
		}
	}
	moved := to != option[c]
	option[c] = to
	return moved
}

// alike is, by option, the cost of the likeness of a node to its neighbours that
// have one (-1: none yet). The list holds until the next call.
func (f *field) alike(option []int, c int) []int {
	if f.costs == nil {
		f.costs = make([]int, len(f.Far))
	}
	clear(f.costs)
	same := f.closer(1)
	for _, list := range [2][]link{f.links[c], f.walls[c]} {
		for k := range list {
			l := &list[k]
			if l.rank == Pass || option[l.to] < 0 {
				continue
			}
			for _, i := range same[option[l.to]] {
				f.costs[i] += l.cost
			}
		}
	}
	return f.costs
}

func (f *field) sameFamily(c, a, b int) bool {
	return f.Nodes[c].Group == 0 || f.Family[a] == f.Family[b]
}

// setAside asks nothing more of the edges whose ends are alike all the same.
func (f *field) setAside(option []int) {
	for _, c := range f.open {
		for k := range f.links[c] {
			if l := &f.links[c][k]; f.Far[option[c]][option[l.to]] == 0 {
				l.aside = l.rank != Pass
			}
		}
	}
}

// narrow is the most options that a node with a short shelf has.
const narrow = 8

// holdNarrow lets the edges between nodes of a short shelf stay where they are,
// so that the rest can be raised on; once.
func (f *field) holdNarrow() bool {
	held := false
	for _, c := range f.open {
		for k := range f.links[c] {
			l := &f.links[c][k]
			if len(f.domain[c]) > narrow || len(f.domain[l.to]) > narrow || l.hold != never || l.aside {
				continue
			}
			l.hold, held = f.floors[l.rank], true
		}
	}
	return held
}

// ahead is how many thresholds above the best are tried when one fails, since
// success need not fall off evenly with the threshold.
const ahead = 3

// raise brings the floor of one rank as high as the searches reach, the others
// staying where they are, to below a limit (a number of a threshold): first by
// greedy runs alone, then with exchanges.
func (f *field) raise(r Rank, limit int) {
	if f.stuck[r] || f.level(r) >= limit-1 || !f.asked(r) {
		return
	}
	if limit < len(f.steps) && f.try(r, f.steps[limit-1]) {
		return
	}
	f.stuck[r] = true
	f.climb(limit, r, f.try)
	for i, failed := f.level(r)+2, 0; i < limit && failed < ahead-1; i++ {
		if !f.try(r, f.steps[i]) {
			failed++
		}
	}
	if len(f.open) <= fewNodes && !f.grouped() {
		return
	}
	c := f.crowd(r)
	mend := func(r Rank, floor int) bool { return f.mend(r, floor, c) }
	f.climb(min(limit, c.top(r, f.level(r))), r, mend)
	f.stuck[r] = f.level(r) < limit-1
}

// reach is how many thresholds above what the greedy runs give are tried with
// exchanges where no spot is crowded.
const reach = 32

// climb narrows the greatest threshold below high down that a search reaches.
func (f *field) climb(high int, r Rank, search func(Rank, int) bool) {
	for low := f.level(r); high-low > 1; {
		if middle := (low + high) / 2; search(r, f.steps[middle]) {
			low = middle
		} else {
			high = middle
		}
	}
}

// level is the number of the threshold that a rank keeps, -1 below all.
func (f *field) level(r Rank) int { return sort.SearchInts(f.steps, f.floors[r]+1) - 1 }

// asked tells whether any edge of the rank joins two nodes with a choice, or
// one of them to a settled node.
func (f *field) asked(r Rank) bool {
	for _, c := range f.open {
		for _, list := range [2][]link{f.links[c], f.walls[c]} {
			for k := range list {
				if list[k].rank == r && !list[k].aside {
					return true
				}
			}
		}
	}
	return false
}

// try seeks options at a higher floor by the greedy run, and keeps them.
func (f *field) try(r Rank, floor int) bool {
	t := f.floors
	t[r] = floor
	option, ok := f.run(t, true, nil)
	if !ok {
		option, ok = f.exact(t)
	}
	return f.take(option, t, ok)
}

// mend seeks them by a greedy run that serves the fattest spot from a clique,
// and where that leaves edges too near, by exchanges.
func (f *field) mend(r Rank, floor int, c *crowd) bool {
	t := f.floors
	t[r] = floor
	start := f.best
	if s := c.at(t, floor); s != nil {
		start, _ = f.run(t, false, s)
	}
	option, ok := f.tabu(t, slices.Clone(start))
	return f.take(option, t, ok)
}

func (f *field) take(option []int, t Floors, ok bool) bool {
	if ok {
		f.best, f.floors = option, t
	}
	return ok
}
