package circuit

import (
	"fmt"
	"slices"
)

// shape is the pattern of a symmetric matrix and of its factor L, in
// elimination order. It is worked out once and never changes.
type shape struct {
	size  int
	place []int // by vertex: its row in elimination order
	// The part of the matrix above the diagonal, by column: rows and offsets.
	above   [][]int
	aboveAt []int // where column j's entries start among all entries
	// Row k of L has entries in columns rows[k], ascending; column i of L starts at columnAt[i].
	rows     [][]int
	columnAt []int
}

// pair is an edge between two different vertices.
type pair struct{ a, b int }

// newShape orders the vertices and finds where L has entries.
func newShape(size int, edges []pair) *shape {
	s := &shape{size: size, place: make([]int, size), above: make([][]int, size)}
	for k, v := range leastDegree(neighbours(size, edges)) {
		s.place[v] = k
	}
	for _, e := range edges {
		i, j := s.place[e.a], s.place[e.b]
		s.above[max(i, j)] = append(s.above[max(i, j)], min(i, j))
	}
	s.aboveAt = make([]int, size+1)
	for j, list := range s.above {
		slices.Sort(list)
		s.above[j] = slices.Compact(list)
		s.aboveAt[j+1] = s.aboveAt[j] + len(s.above[j])
	}
	s.fill()
	return s
}

func neighbours(size int, edges []pair) [][]int {
	out := make([][]int, size)
	for _, e := range edges {
		out[e.a] = append(out[e.a], e.b)
		out[e.b] = append(out[e.b], e.a)
	}
	for v := range out {
		slices.Sort(out[v])
		out[v] = slices.Compact(out[v])
	}
	return out
}

// fill walks the elimination tree: row k of L holds what is met on the way
// from each entry above the diagonal up to k.
func (s *shape) fill() {
	parent := make([]int, s.size)
	mark := make([]int, s.size)
	counts := make([]int, s.size)
	s.rows = make([][]int, s.size)
	for k := range s.size {
		parent[k], mark[k] = -1, k
		for _, i := range s.above[k] {
			for ; mark[i] != k; i = parent[i] {
				if parent[i] < 0 {
					parent[i] = k
				}
				mark[i] = k
				counts[i]++
				s.rows[k] = append(s.rows[k], i)
			}
		}
		slices.Sort(s.rows[k])
	}
	s.columnAt = make([]int, s.size+1)
	for i, c := range counts {
		s.columnAt[i+1] = s.columnAt[i] + c
	}
}

// slot gives where the entry between two vertices lies in matrix.above.
func (s *shape) slot(a, b int) int {
	i, j := s.place[a], s.place[b]
	at, _ := slices.BinarySearch(s.above[max(i, j)], min(i, j))
	return s.aboveAt[max(i, j)] + at
}

// matrix is the numbers for a shape, and the room to factorise them.
type matrix struct {
	*shape
	diagonal []float64 // in elimination order
	above    []float64 // as shape.slot says
	pivot    []float64
	lower    []float64 // L by column
	lowerRow []int
	ends     []int
	work     []float64
}

func (s *shape) matrix() *matrix {
	return &matrix{
		shape:    s,
		diagonal: make([]float64, s.size),
		above:    make([]float64, s.aboveAt[s.size]),
		pivot:    make([]float64, s.size),
		lower:    make([]float64, s.columnAt[s.size]),
		lowerRow: make([]int, s.columnAt[s.size]),
		ends:     make([]int, s.size),
		work:     make([]float64, s.size),
	}
}

func (m *matrix) clear() {
	clear(m.diagonal)
	clear(m.above)
}

// factorise writes the matrix as L D L', row by row of L. It fails when the
// matrix is not positive definite.
func (m *matrix) factorise() error {
	copy(m.ends, m.columnAt[:m.size])
	y := m.work
	clear(y)
	for k := range m.size {
		for n, i := range m.shape.above[k] {
			y[i] = m.above[m.aboveAt[k]+n]
		}
		d := m.diagonal[k]
		for _, i := range m.rows[k] {
			yi := y[i]
			y[i] = 0
			end := m.ends[i]
			for p := m.columnAt[i]; p < end; p++ {
				y[m.lowerRow[p]] -= m.lower[p] * yi
			}
			l := yi / m.pivot[i]
			d -= l * yi
			m.lower[end], m.lowerRow[end] = l, k
			m.ends[i]++
		}
		if !(d > 0) {
			return fmt.Errorf("circuit: the network has no single answer (pivot %g in row %d)", d, k)
		}
		m.pivot[k] = d
	}
	return nil
}

// solve replaces b, in elimination order, by the solution.
func (m *matrix) solve(b []float64) {
	for i := range m.size {
		for p := m.columnAt[i]; p < m.columnAt[i+1]; p++ {
			b[m.lowerRow[p]] -= m.lower[p] * b[i]
		}
	}
	for i := m.size - 1; i >= 0; i-- {
		x := b[i] / m.pivot[i]
		for p := m.columnAt[i]; p < m.columnAt[i+1]; p++ {
			x -= m.lower[p] * b[m.lowerRow[p]]
		}
		b[i] = x
	}
}
