package circuit

import (
	"fmt"
	"math"
	"slices"
)

// shape is the pattern of a symmetric matrix and of its factor L, in
// elimination order. It is worked out once and never changes.
type shape struct {
	size  int
	place []int // by vertex: its row in elimination order
	// The matrix above the diagonal, by column: column k's rows are
	// aboveRow[aboveAt[k]:aboveAt[k+1]], ascending.
	aboveAt  []int
	aboveRow []int32
	// L by row: the columns of row k, ascending, and where each entry lies in L by column.
	rowAt     []int
	rowColumn []int32
	rowSpot   []int32
	// L by column: the rows of column i are lowerRow[columnAt[i]:columnAt[i+1]],
	// ascending; the first of them is the column's parent in the elimination tree.
	columnAt []int
	lowerRow []int32
}

// pair is an edge between two different vertices.
type pair struct{ a, b int }

// newShape orders the vertices and finds where L has entries.
func newShape(size int, edges []pair) (*shape, error) {
	s := &shape{size: size, place: make([]int, size)}
	for k, v := range leastDegree(neighbours(size, edges)) {
		s.place[v] = k
	}
	s.setAbove(edges)
	s.fill()
	if len(s.rowColumn) > math.MaxInt32 {
		return nil, fmt.Errorf("circuit: the network is too large")
	}
	s.columns()
	return s, nil
}

// neighbours lists each vertex's neighbours, ascending, each once.
func neighbours(size int, edges []pair) [][]int32 {
	counts := make([]int, size)
	for _, e := range edges {
		counts[e.a]++
		counts[e.b]++
	}
	out := make([][]int32, size)
	all := make([]int32, 2*len(edges))
	for v, c := range counts {
		out[v], all = all[:0:c], all[c:]
	}
	for _, e := range edges {
		out[e.a] = append(out[e.a], int32(e.b))
		out[e.b] = append(out[e.b], int32(e.a))
	}
	for v := range out {
		slices.Sort(out[v])
		out[v] = slices.Compact(out[v])
	}
	return out
}

func (s *shape) setAbove(edges []pair) {
	turned := make([]pair, len(edges))
	for n, e := range edges {
		i, j := s.place[e.a], s.place[e.b]
		turned[n] = pair{max(i, j), min(i, j)}
	}
	slices.SortFunc(turned, func(x, y pair) int {
		if x.a != y.a {
			return x.a - y.a
		}
		return x.b - y.b
	})
	turned = slices.Compact(turned)
	s.aboveAt = make([]int, s.size+1)
	s.aboveRow = make([]int32, len(turned))
	for n, e := range turned {
		s.aboveAt[e.a+1] = n + 1
		s.aboveRow[n] = int32(e.b)
	}
	for k := range s.size {
		s.aboveAt[k+1] = max(s.aboveAt[k+1], s.aboveAt[k])
	}
}

// fill walks the elimination tree: row k of L holds what is met on the way
// from each entry above the diagonal up to k.
func (s *shape) fill() {
	parent := make([]int32, s.size)
	mark := make([]int32, s.size)
	s.rowAt = make([]int, s.size+1)
	s.rowColumn = make([]int32, 0, 2*len(s.aboveRow))
	for k := range s.size {
		parent[k], mark[k] = -1, int32(k)
		for _, i := range s.aboveRow[s.aboveAt[k]:s.aboveAt[k+1]] {
			for ; mark[i] != int32(k); i = parent[i] {
				if parent[i] < 0 {
					parent[i] = int32(k)
				}
				mark[i] = int32(k)
				s.rowColumn = append(s.rowColumn, i)
			}
		}
		s.rowAt[k+1] = len(s.rowColumn)
		slices.Sort(s.rowColumn[s.rowAt[k]:])
	}
}

// columns turns L by row into L by column.
func (s *shape) columns() {
	s.columnAt = make([]int, s.size+1)
	for _, i := range s.rowColumn {
		s.columnAt[i+1]++
	}
	for i := range s.size {
		s.columnAt[i+1] += s.columnAt[i]
	}
	next := slices.Clone(s.columnAt)
	s.rowSpot = make([]int32, len(s.rowColumn))
	s.lowerRow = make([]int32, len(s.rowColumn))
	for k := range s.size {
		for n := s.rowAt[k]; n < s.rowAt[k+1]; n++ {
			i := s.rowColumn[n]
			s.rowSpot[n], s.lowerRow[next[i]] = int32(next[i]), int32(k)
			next[i]++
		}
	}
}

// slot gives where the entry between two vertices lies above the diagonal.
func (s *shape) slot(a, b int) int {
	i, j := min(s.place[a], s.place[b]), max(s.place[a], s.place[b])
	at, _ := slices.BinarySearch(s.aboveRow[s.aboveAt[j]:s.aboveAt[j+1]], int32(i))
	return s.aboveAt[j] + at
}
