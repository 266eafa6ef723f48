// Package forest joins numbers into sets: terminals into nets, wires into series.
//
// In: how many numbers there are, then which two belong together. Out: the least
// number of the set that holds one. Method: union-find with path halving; since
// the least number is always the root, results do not hang on the order of joining.
package forest

// Forest holds for each number one of its set, never a greater one.
type Forest []int

// New gives n numbers from 0, each a set of its own.
func New(n int) Forest {
	f := make(Forest, n)
	for i := range f {
		f[i] = i
	}
	return f
}

// Root gives the least number of the set that holds i.
func (f Forest) Root(i int) int {
	for f[i] != i {
		f[i] = f[f[i]]
		i = f[i]
	}
	return i
}

// Join makes one set of two; it tells whether they were apart.
func (f Forest) Join(a, b int) bool {
	a, b = f.Root(a), f.Root(b)
	f[max(a, b)] = min(a, b)
	return a != b
}
