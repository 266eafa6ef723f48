package circuit

import (
	"fmt"
	"math"
	"slices"
)

const mostTurns = 1000 // sets of contacts tried before giving up

// run solves with the relays: all coils released at first.
func (p *Prepared) run(elements []Element, from []float64) (Solution, error) {
	w := p.start(elements, from)
	r := &relays{work: w, holds: make([]bool, len(elements)), stuck: make([]bool, len(elements))}
	if err := r.rest(); err != nil {
		return Solution{}, err
	}
	return r.solution(), nil
}

// relays is the state of the coils while their rest is sought.
type relays struct {
	*work
	holds []bool // by element: coils that are energised
	stuck []bool // by element: coils found chattering, held released
	turns int
}

// rest moves coils until none wants to move. First all that want to move do so
// together; if that goes round in circles, they move one at a time, in order,
// since of two relays that lock each other out the first one wins. What goes
// round in circles even then chatters, and is held released.
func (r *relays) rest() error {
	for {
		var circling []int
		for _, together := range []bool{true, false} {
			clear(r.holds)
			var err error
			if circling, err = r.turn(together); err != nil || len(circling) == 0 {
				return err
			}
		}
		for _, c := range circling {
			r.stuck[c] = true
		}
	}
}

// turn moves coils until they rest, or gives the coils that move in circles.
func (r *relays) turn(together bool) ([]int, error) {
	seen := map[string]int{}
	var past [][]bool
	for {
		if r.turns++; r.turns > mostTurns {
			return nil, fmt.Errorf("circuit: the relays do not settle in %d turns", mostTurns)
		}
		if at, again := seen[r.key()]; again {
			return r.changing(past[at:]), nil
		}
		seen[r.key()] = len(past)
		past = append(past, slices.Clone(r.holds))
		r.follow()
		if err := r.settle(); err != nil {
			return nil, err
		}
		if !r.update(together) {
			return nil, nil
		}
	}
}

// key is the set of energised coils, as text.
func (r *relays) key() string {
	b := make([]byte, len(r.coils))
	for i, c := range r.coils {
		b[i] = '0'
		if r.holds[c] {
			b[i] = '1'
		}
	}
	return string(b)
}

// follow sets the contacts as their coils stand.
func (r *relays) follow() {
	for i := range r.elements {
		if e := &r.elements[i]; e.Kind == Contact {
			r.closed[i] = e.Control < 0 || r.holds[e.Control] != e.Breaks
		}
	}
}

// update moves the coils that want to move, or only the first of them, and
// tells whether any did.
func (r *relays) update(together bool) bool {
	moved := false
	for _, c := range r.coils {
		want := r.wants(c)
		if want == r.holds[c] {
			continue
		}
		r.holds[c], moved = want, true
		if !together {
			break
		}
	}
	return moved
}

// wants tells whether a coil is energised at its present voltage.
func (r *relays) wants(c int) bool {
	e := &r.elements[c]
	if e.Kind != Coil || r.stuck[c] {
		return false
	}
	volts := math.Abs(r.volts[e.A] - r.volts[e.B])
	if r.holds[c] {
		return volts >= e.DropOut
	}
	return volts >= e.PullIn
}

// changing lists the coils that are not the same all through.
func (r *relays) changing(past [][]bool) []int {
	var out []int
	for _, c := range r.coils {
		if slices.ContainsFunc(past, func(holds []bool) bool { return holds[c] != past[0][c] }) {
			out = append(out, c)
		}
	}
	return out
}

// solution reads the result off.
func (r *relays) solution() Solution {
	s := Solution{
		Volts: r.volts, Amps: r.amps, Energised: r.holds, Rounds: r.rounds,
		Frozen: make([]Frozen, len(r.elements)),
	}
	s.Residual, _ = r.balance()
	r.group()
	for i := range r.elements {
		e := &r.elements[i]
		s.Frozen[i] = e.frozen(r.volts[e.A]-r.volts[e.B], r.closed[i])
		if r.stuck[i] {
			s.Chatter = append(s.Chatter, i)
		}
	}
	home := r.groups.root(r.network.Reference)
	for n := range s.Volts {
		if r.groups.root(n) != home {
			s.Volts[n] = math.NaN()
		}
	}
	return s
}
