package circuit

import (
	"fmt"
	"math"
	"slices"
)

const mostTurns = 1000 // sets of contacts tried before giving up

// relays is the state of the coils while their rest is sought.
type relays struct {
	*work
	holds []bool // by element: coils that are energised
	stuck []bool // by element: coils found chattering, held released
	turns int
	known trail // where voltages and a factor are found to start from; may be nil
	ill   []int // the elements that are not as in known, contacts aside
	other bool  // any element may be other than in known
	made  trail // what was found on the way, where it is to be kept; else nil
}

// trail is what was found for the sets of contacts that a solving met, by key.
type trail map[string]*stage

// stage is the rest for one set of contacts.
type stage struct {
	volts, low, spare, scale []float64 // by node
	amps, slope, across      []float64 // by element
	factor                   *factor
}

func (p *Prepared) relays(elements []Element) *relays {
	return &relays{work: p.start(elements), holds: make([]bool, len(elements)), stuck: make([]bool, len(elements))}
}

// still settles the voltages for the contacts as they stand, from what is
// known of them, else from where the voltages are.
func (r *relays) still(key string) error {
	var err error
	switch s := r.known[key]; {
	case s == nil:
		err = r.feed()
	case r.other:
		copy(r.volts, s.volts)
		copy(r.low, s.low)
		err = r.feed()
	default:
		if worst, clean := r.set(s, r.ill); len(r.powers) > 0 {
			err = r.feed()
		} else {
			err = r.settleFrom(worst, clean)
		}
	}
	if err == nil && r.made != nil {
		r.made[key] = r.stage()
	}
	return err
}

// stage keeps a copy of the rest.
func (r *relays) stage() *stage {
	s := &stage{
		volts: slices.Clone(r.volts), low: slices.Clone(r.low), spare: slices.Clone(r.spare), scale: slices.Clone(r.scale),
		amps: slices.Clone(r.amps), slope: slices.Clone(r.slope), across: make([]float64, len(r.branches)),
		factor: r.factor.kept(),
	}
	for i := range r.branches {
		s.across[i] = r.between(&r.branches[i])
	}
	return s
}

// rest moves coils until none wants to move. First all that want to move do so
// together; if that goes round in circles, they move one at a time, in order,
// since of two relays that lock each other out the first one wins. What goes
// round in circles even then chatters, and is held released.
func (r *relays) rest() error {
	for {
		var circling []int
		for _, together := range []bool{true, false} {
			r.begin()
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

// begin sets the coils as they are before anything moves: released, but for those that
// are held from before.
func (r *relays) begin() {
	for _, c := range r.coils {
		r.holds[c] = r.elements[c].Kind == Coil && r.elements[c].Held
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
		key := r.key()
		if at, again := seen[key]; again {
			return r.changing(past[at:]), nil
		}
		seen[key] = len(past)
		past = append(past, slices.Clone(r.holds))
		r.follow()
		if err := r.still(key); err != nil {
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
	for _, i := range r.contacts {
		e := &r.elements[i]
		r.closed[i] = e.Kind == Contact && (e.Control < 0 || r.holds[e.Control] != e.Breaks)
		r.take(i)
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
	volts := math.Abs(r.between(&r.branches[c]))
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

// solution reads the result off, all but the frozen elements, into room that
// may be there already.
func (r *relays) solution(s *Solution) {
	s.Volts, s.Amps = append(s.Volts[:0], r.volts...), append(s.Amps[:0], r.amps...)
	s.Energised, s.Chatter = append(s.Energised[:0], r.holds...), s.Chatter[:0]
	s.Rounds, s.Residual = r.rounds, 0
	for _, i := range r.intakes {
		s.Energised[i] = r.takes(i)
	}
	for _, amps := range r.spare {
		s.Residual = max(s.Residual, math.Abs(amps))
	}
	for _, i := range r.powers {
		s.Residual = max(s.Residual, math.Abs(r.missing(i)))
	}
	for _, c := range r.coils {
		if r.stuck[c] {
			s.Chatter = append(s.Chatter, c)
		}
	}
	r.fromZero(s)
}

// fromZero counts each voltage from the node that is at 0 V in its island.
func (r *relays) fromZero(s *Solution) {
	s.Zero = append(s.Zero[:0], r.nowhere...)
	for _, g := range slices.Backward(r.network.Grounds) {
		s.Zero[r.groups.root(g)] = g
	}
	s.Zero[r.home()] = r.network.Reference
	for n := range s.Volts {
		zero := s.Zero[r.groups.root(n)]
		s.Zero[n] = zero
		switch {
		case zero < 0:
			s.Volts[n] = math.NaN()
		case zero != r.network.Reference:
			s.Volts[n] = (r.volts[n] - r.volts[zero]) + (r.low[n] - r.low[zero])
		}
	}
}

// frozen gives how each element stands.
func (r *relays) frozen() []Frozen {
	out := make([]Frozen, len(r.elements))
	for i := range r.elements {
		switch {
		case r.branches[i].way == open:
			out[i] = Frozen{}
		case r.elements[i].Kind == Intake:
			out[i] = r.elements[i].frozenHeld(r.between(&r.branches[i]), r.draws[i])
		default:
			out[i] = r.elements[i].frozen(r.between(&r.branches[i]), r.closed[i])
		}
	}
	return out
}
