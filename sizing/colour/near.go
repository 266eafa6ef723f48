package colour

import (
	"sort"

	"example.com/loomfolio/sizing/harness"
)

// spots gives, by wire, where it meets others: the parts at its ends, and the
// runs in which it lies (numbered on after the parts).
func spots(h *harness.Harness, runs [][]harness.RunID) [][]int {
	out := make([][]int, len(h.Wires))
	for i, w := range h.Wires {
		for _, end := range []harness.TerminalID{w.From, w.To} {
			if p := h.Terminals[end].Part; p != harness.None {
				out[i] = withNumber(out[i], int(p))
			}
		}
		if i < len(runs) {
			for _, r := range runs[i] {
				out[i] = withNumber(out[i], len(h.Parts)+int(r))
			}
		}
		sort.Ints(out[i])
	}
	return out
}

// meet tells whether two ascending lists share a number.
func meet(a, b []int) bool {
	for i, j := 0, 0; i < len(a) && j < len(b); {
		switch {
		case a[i] == b[j]:
			return true
		case a[i] < b[j]:
			i++
		default:
			j++
		}
	}
	return false
}

// rivals tells whether two classes must look different where they meet: they
// are on different nets and are not both ground.
func rivals(a, b *class) bool {
	return a.net != b.net && !(a.role == ground && b.role == ground)
}

// bySpot lists the classes at every spot, ascending and each once.
func (t *task) bySpot() [][]int {
	out := make([][]int, len(t.h.Parts)+len(t.h.Runs))
	for i, c := range t.classes {
		for _, w := range c.wires {
			for _, s := range t.spots[w] {
				if n := len(out[s]); n == 0 || out[s][n-1] != i {
					out[s] = append(out[s], i)
				}
			}
		}
	}
	return out
}

// neighbours gives, by class, the rivals that it meets. Two classes that can
// only have one colour each are left out: nothing can be done about them.
func (t *task) neighbours() [][]int {
	n := len(t.classes)
	meets := make([]bool, n*n)
	for _, here := range t.bySpot() {
		for _, i := range here {
			for _, j := range here {
				meets[i*n+j] = true
			}
		}
	}
	out := make([][]int, n)
	for i := range n {
		for j := range n {
			a, b := &t.classes[i], &t.classes[j]
			if meets[i*n+j] && rivals(a, b) && !(a.fixed() && b.fixed()) {
				out[i] = append(out[i], j)
			}
		}
	}
	return out
}
