package circuit

import (
	"fmt"
	"math"
)

const (
	mostFeeds  = 600   // rounds for the loads of constant power
	boldFeeds  = 150   // of these the rounds that look ahead; then every step goes half the way
	feedDigits = 1e-13 // part of a current that it may be off
	enoughFeed = 1e-12 // the same where no more digits are to be had
	longest    = 1e6   // of a step, in plain ones
)

// feed settles the voltages with every load of constant power at the current
// that its voltage asks for. The currents begin at less than any voltage here
// could ask for. As long as more current means less voltage, the plain steps only
// rise, and end at the answer with the highest voltages; where there is none, at
// the floors. The steps are lengthened by what the last one changed (secant; the
// length of Barzilai and Borwein, IMA J. Numerical Analysis 8 (1988), from
// memory): near the most that a feed can give, plain ones would crawl.
func (r *relays) feed() error {
	if len(r.powers) == 0 {
		return r.settle()
	}
	r.unload()
	step, lack := make([]float64, len(r.powers)), make([]float64, len(r.powers))
	best, idle, long := math.Inf(1), 0, 1.0
	for round := range mostFeeds {
		if err := r.settle(); err != nil {
			return err
		}
		var off float64
		off, long = r.lacking(step, lack, long)
		if off < best/2 {
			best, idle = off, 0
		} else {
			idle++
		}
		if off <= feedDigits || idle >= 8 && off <= enoughFeed {
			return nil
		}
		if round >= boldFeeds {
			long = 0.5
		}
		r.redraw(step, lack, long)
	}
	return fmt.Errorf("circuit: the loads of constant power do not settle in %d rounds", mostFeeds)
}

// unload holds every load of constant power at less than it can ever take here.
func (r *relays) unload() {
	top := 0.0
	for i := range r.elements {
		if e := &r.elements[i]; e.Kind == Source || e.Kind == Limited {
			top += math.Max(math.Abs(e.Volts), e.Idle)
		}
	}
	for _, i := range r.powers {
		r.draws[i] = r.elements[i].draw(top)
	}
}

// missing is the current that a load of constant power asks for beyond what is held.
func (r *relays) missing(i int) float64 {
	e := &r.elements[i]
	if e.Kind != Power {
		return 0
	}
	return e.draw(r.between(&r.branches[i])) - r.draws[i]
}

// lacking works out what each load of constant power lacks, the largest part of
// a load's most current that this is, and how long the next step should be, by how much
// the last one, which is given, changed the lack.
func (r *relays) lacking(step, lack []float64, last float64) (off, long float64) {
	along, square := 0.0, 0.0
	for n, i := range r.powers {
		now := r.missing(i)
		along += step[n] * (lack[n] - now)
		square += step[n] * step[n]
		if lack[n] = now; now != 0 {
			off = math.Max(off, math.Abs(now)/r.elements[i].draw(0))
		}
	}
	switch {
	case square == 0:
		return off, 1
	case along <= 0: // no answer lies ahead, or none near
		return off, math.Min(4*last, longest)
	}
	return off, math.Min(math.Max(square/along, 0.25), longest)
}

// redraw goes a length of what is lacking, and says how far each load went.
func (r *relays) redraw(step, lack []float64, long float64) {
	for n, i := range r.powers {
		e := &r.elements[i]
		was := r.draws[i]
		if e.Kind == Power {
			r.draws[i] = math.Min(math.Max(was+long*lack[n], was/2), e.draw(0))
		}
		step[n] = r.draws[i] - was
	}
}
