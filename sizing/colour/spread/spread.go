// Package spread gives every node of a graph one of its options so that joined
// nodes get options far apart. It knows no wires: distances are whole numbers,
// an option is a number, and the result hangs on nothing but the Problem.
//
// In: the Problem. Out: one option a node. What is better, in this order: as few
// edges as possible whose ends are alike; the smallest distance over the edges of
// rank Touch as large as can be found, then Along, then Pass, band by band; few edges at that
// smallest distance; few reels; few options that are not plain; wishes met; and
// last the spots that are not the bottleneck lifted as well. The work is bounded
// by counts of steps, never by time.
package spread

import (
	"math/bits"
	"slices"
	"sort"
)

// Rank says how near two nodes come to each other.
type Rank int

// The ranks, the one that matters most first.
const (
	Touch Rank = iota // they end at one part
	Along             // they lie in one run
	Pass              // they pass one branching
	ranks
)

// Floors holds a distance for each rank.
type Floors [ranks]int

// Problem is a graph with its options. Nodes with one option are settled; edges
// between two of them are left alone.
type Problem struct {
	Far    [][]int // by two options: their distance; 0 when alike, symmetric
	Plain  []bool  // by option
	Family []int   // by option; nodes of a group keep to one family
	Nodes  []Node
	Edges  []Edge
	Spots  []Rank // by spot: the rank at which nodes meet there
	Bands  []int  // distances; none beyond one is sought before all ranks are raised to it
	Enough int    // no greater distance is sought at all; 0: no limit
}

// Node is what is to get an option.
type Node struct {
	Options []int // in the order of preference, at least one
	Reels   []int // an option is bought once for each reel number
	Wish    []int // by option, the higher the better; nil when there is none
	Group   int   // above 0: the number of its group
}

// Edge joins two nodes.
type Edge struct {
	A, B  int
	Rank  Rank
	Cost  int   // of being alike
	Spots []int // where they meet
}

// Result is what was found.
type Result struct {
	Option []int  // by node
	Floors Floors // distances that all edges keep, those set aside apart
	Work   int    // steps of the searches
}

// Solve finds the options.
func Solve(p *Problem) Result {
	f := newField(p)
	start := f.fewestAlike()
	f.setAside(start)
	f.best, f.floors = start, Floors{1, 1, 0}
	f.raiseAll()
	if f.holdNarrow() {
		f.stuck = [ranks]bool{}
		f.raiseAll()
	}
	f.polish()
	return Result{Option: f.best, Floors: f.floors, Work: f.work}
}

// raiseAll raises the ranks band by band.
func (f *field) raiseAll() {
	for _, band := range append(slices.Clone(f.Bands), never) {
		for r := Touch; r < ranks; r++ {
			f.raise(r, sort.SearchInts(f.steps, band+1))
		}
	}
}

// set is a set of options, one bit each.
type set []uint64

func newSet(n int) set       { return make(set, (n+63)/64) }
func (s set) add(i int)      { s[i/64] |= 1 << (i % 64) }
func (s set) drop(i int)     { s[i/64] &^= 1 << (i % 64) }
func (s set) has(i int) bool { return s[i/64]>>(i%64)&1 == 1 }
func (s set) copy() set      { return append(set(nil), s...) }

func (s set) keep(o set) {
	for i := range s {
		s[i] &= o[i]
	}
}

func (s set) meets(o set) bool {
	for i := range s {
		if s[i]&o[i] != 0 {
			return true
		}
	}
	return false
}

func (s set) count() int {
	n := 0
	for _, w := range s {
		n += bits.OnesCount64(w)
	}
	return n
}

// without counts the members that the other set lacks.
func (s set) without(o set) int {
	n := 0
	for i := range s {
		n += bits.OnesCount64(s[i] &^ o[i])
	}
	return n
}

// each calls f with every member, ascending, until f says no.
func (s set) each(f func(i int) bool) {
	for w, word := range s {
		for ; word != 0; word &= word - 1 {
			if !f(w*64 + bits.TrailingZeros64(word)) {
				return
			}
		}
	}
}
