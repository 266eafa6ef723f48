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
	r.restore()
	for {
		err := r.supply()
		if err != nil && !r.giveUp() || err == nil && !r.shed() {
			return err
		}
	}
}

// supply is feed with the converters that work as they stand.
func (r *relays) supply() error {
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
		if e := &r.elements[i]; e.Kind == Intake {
			r.draws[i] = e.Standing / math.Max(top, e.Floor)
		} else {
			r.draws[i] = e.draw(top)
		}
	}
}

// missing is the current that a load of constant power asks for beyond what is held.
func (r *relays) missing(i int) float64 {
	if !r.takes(i) {
		return 0
	}
	return r.asks(i) - r.draws[i]
}

// takes tells an element that takes a power now: not one that a fault has replaced, nor
// the input of a converter that does not work.
func (w *work) takes(i int) bool {
	return w.elements[i].Kind == Power || w.elements[i].Kind == Intake && !w.cut[i]
}

// asks is the current of an element that takes a power, at the voltages as they stand.
func (w *work) asks(i int) float64 {
	e := &w.elements[i]
	v := w.between(&w.branches[i])
	if e.Kind == Intake {
		return w.intake(e) / math.Max(v, e.Floor)
	}
	return e.draw(v)
}

// most is more than the largest current that it may ask for.
func (w *work) most(i int) float64 {
	e := &w.elements[i]
	if e.Kind == Intake {
		return w.mostIntake(e) / e.Floor
	}
	return e.draw(0)
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
			off = math.Max(off, math.Abs(now)/r.most(i))
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
		was := r.draws[i]
		if r.takes(i) {
			r.draws[i] = math.Min(math.Max(was+long*lack[n], was/2), r.most(i))
		}
		step[n] = r.draws[i] - was
	}
}
