package spread

import "sort"

// fewestAlike finds options with as little likeness as can be found.
func (f *field) fewestAlike() []int {
	option, _ := f.run(Floors{1, 1, 0}, false)
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
	least, to := f.alike(option, c, option[c]), option[c]
	for _, i := range f.domain[c] {
		if least == 0 {
			break
		}
		if cost := f.alike(option, c, i); cost < least && f.sameFamily(c, option[c], i) {
			least, to = cost, i
		}
	}
	moved := to != option[c]
	option[c] = to
	return moved
}

// alike is the cost of the likeness of a node with an option to its neighbours.
func (f *field) alike(option []int, c, i int) int {
	cost := 0
	for _, list := range [2][]link{f.links[c], f.walls[c]} {
		for k := range list {
			if l := &list[k]; l.rank != Pass && f.Far[i][option[l.to]] == 0 {
				cost += l.cost
			}
		}
	}
	return cost
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
// staying where they are.
func (f *field) raise(r Rank) {
	if !f.asked(r) {
		return
	}
	low := sort.SearchInts(f.steps, f.floors[r]+1) - 1 // steps[low] is kept
	top := len(f.steps)
	for high := top; high-low > 1; {
		if middle := (low + high) / 2; f.try(r, f.steps[middle]) {
			low = middle
		} else {
			high = middle
		}
	}
	for i, failed := low+2, 0; i < top && failed < ahead-1; i++ {
		if f.try(r, f.steps[i]) {
			low, failed = i, 0
		} else {
			failed++
		}
	}
	for i, failed := low+1, 0; i < top && failed < 2; i++ {
		if f.mend(r, f.steps[i]) {
			failed = 0
		} else {
			failed++
		}
	}
}

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
	option, ok := f.run(t, true)
	if !ok {
		option, ok = f.exact(t)
	}
	if ok {
		f.best, f.floors = option, t
	}
	return ok
}

// mend seeks them by exchanging options until nothing is too near.
func (f *field) mend(r Rank, floor int) bool {
	t := f.floors
	t[r] = floor
	start, _ := f.run(t, false)
	option, ok := f.tabu(t, start)
	if ok {
		f.best, f.floors = option, t
	}
	return ok
}
