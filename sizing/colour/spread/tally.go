package spread

import "math/bits"

// tally counts in how many sets each option is: plane p holds bit p of every
// count, so that adding a set touches a few words and no single option.
type tally struct {
	width  int
	planes []set
	spare  []set
}

func (t *tally) clear() {
	t.spare = append(t.spare, t.planes...)
	t.planes = t.planes[:0]
}

func (t *tally) add(s set) {
	for w, carry := range s {
		for p := 0; carry != 0; p++ {
			if p == len(t.planes) {
				t.grow()
			}
			t.planes[p][w], carry = t.planes[p][w]^carry, t.planes[p][w]&carry
		}
	}
}

func (t *tally) grow() {
	if n := len(t.spare); n > 0 {
		s := t.spare[n-1]
		clear(s)
		t.planes, t.spare = append(t.planes, s), t.spare[:n-1]
		return
	}
	t.planes = append(t.planes, make(set, t.width))
}

// outside adds up the counts of all options that a set lacks.
func (t *tally) outside(s set) int {
	n := 0
	for p, plane := range t.planes {
		for w := range plane {
			n += bits.OnesCount64(plane[w]&^s[w]) << p
		}
	}
	return n
}
