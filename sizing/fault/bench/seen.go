package bench

import (
	"math"
	"slices"

	"example.com/loomfolio/sizing/fault/cause"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/network"
	"example.com/loomfolio/sizing/proof"
	"example.com/loomfolio/sizing/unit"
)

// Seen is what is seen with one fault in one state.
type Seen struct {
	sound []float64           // by point
	Volts []proof.Shows       // at the points that move by Moves or more, in the order of the points
	Dead  []harness.ElementID // loads that are on and do not work
	Weak  []harness.ElementID // loads that are on with less than nine tenths of their voltage
	Extra []harness.ElementID // loads that work though they are not on
	Blown []harness.ElementID // fuses that it opens, the first to go first
	Amps  float64             // the most that flows through what touches, before a fuse opens
	Shown []proof.Shows       // in the state of the cause itself: the readings that are told of it
	Buzz  bool                // a relay finds no rest
	Lost  bool                // no state was found in which everything rests: what is seen is not known
}

// At gives the volts at a point; NaN where nothing defines any.
func (s *Seen) At(point int) float64 {
	lo, hi := 0, len(s.Volts)
	for lo < hi {
		if mid := (lo + hi) / 2; s.Volts[mid].Point < point {
			lo = mid + 1
		} else {
			hi = mid
		}
	}
	switch {
	case lo == len(s.Volts) || s.Volts[lo].Point != point:
		return s.sound[point]
	case s.Volts[lo].Float:
		return math.NaN()
	}
	return float64(s.Volts[lo].Volts)
}

// Nothing tells that no reading and no load shows the fault.
func (s *Seen) Nothing() bool {
	return len(s.Volts)+len(s.Dead)+len(s.Weak)+len(s.Extra)+len(s.Blown) == 0
}

// Try gives what is seen with a cause; ohms are those of its joint or contact;
// Lost where the solver finds no rest.
func (b *Bench) Try(c *cause.Cause, ohms unit.Ohm) *Seen {
	at, does := b.Replaced(c, ohms)
	if !does {
		return b.sound
	}
	if s, at := b.elsewhere(c, float64(ohms)); s != nil {
		return b.moved(c, float64(ohms), s, at)
	}
	reading, err := b.read(c, at)
	if err != nil {
		return b.lost()
	}
	seen := b.see(c, at, reading)
	b.remember(c, float64(ohms), reading, seen, math.NaN())
	return seen
}

// lost is what is seen where the solver finds no rest.
func (b *Bench) lost() *Seen { return &Seen{sound: b.sound.sound, Lost: true} }

// see opens the fuses that must open, and reads what is seen then.
func (b *Bench) see(c *cause.Cause, at []network.Fault, reading network.Reading) *Seen {
	s := &Seen{sound: b.sound.sound}
	if c.Touch != harness.None {
		x := b.touches[c.Touch]
		s.Amps = math.Abs(reading.Volts(x.A)-reading.Volts(x.B)) / at[len(at)-1].Ohms
	}
	for next := b.soonest(reading); next != harness.None; next = b.soonest(reading) {
		s.Blown = append(s.Blown, next)
		at = append(at, network.Fault{Wire: harness.None, Element: next, Ohms: math.Inf(1)})
		var err error
		if reading, err = b.read(c, at); err != nil {
			return b.lost()
		}
	}
	s.Buzz = reading.Chatters()
	for i, t := range b.points {
		b.now[i] = reading.Volts(t)
	}
	b.volts(s)
	b.working(s, reading, c)
	if b.state == c.State {
		b.shown(s, c)
	}
	return s
}

// soonest is the fuse that opens first, harness.None where none must.
func (b *Bench) soonest(reading network.Reading) harness.ElementID {
	best, least := harness.ElementID(harness.None), math.Inf(1)
	for i := range b.fuses {
		if t := b.fuses[i].time(reading.Amps(b.fuses[i].id)); t < least {
			best, least = b.fuses[i].id, t
		}
	}
	return best
}

// volts enters the points that move.
func (b *Bench) volts(s *Seen) {
	for i, v := range b.now {
		was := s.sound[i]
		switch {
		case math.IsNaN(v) && !math.IsNaN(was):
			s.Volts = append(s.Volts, proof.Shows{Point: i, Float: true})
		case !math.IsNaN(v) && !(math.Abs(v-was) < Moves):
			s.Volts = append(s.Volts, proof.Shows{Point: i, Volts: unit.Volt(v)})
		}
	}
}

// clearly is the change of a reading that is told wherever it is, V; a smaller one only on
// the ways of what the fault touches: what else there is gets a little more or less where
// a load falls out; judgement, not published.
const clearly = 0.5

// shown enters the readings that are told: on the ways of the load that the cause is looked
// at for and of those that it touches, and wherever they move clearly.
func (b *Bench) shown(s *Seen, c *cause.Cause) {
	var at []int
	for _, l := range slices.Concat([]harness.ElementID{c.Load}, s.Dead, s.Weak, s.Extra) {
		if l != harness.None {
			at = append(at, b.on[l]...)
		}
	}
	for _, m := range s.Volts {
		if !(math.Abs(float64(m.Volts)-s.sound[m.Point]) < clearly) {
			at = append(at, m.Point)
		}
	}
	slices.Sort(at)
	for _, p := range slices.Compact(at) {
		if v := b.now[p]; math.IsNaN(v) {
			s.Shown = append(s.Shown, proof.Shows{Point: p, Float: true})
		} else {
			s.Shown = append(s.Shown, proof.Shows{Point: p, Volts: unit.Volt(v)})
		}
	}
}

// working enters the loads that do not work as they should; one that is itself open or
// shorted has its voltage and does nothing.
func (b *Bench) working(s *Seen, reading network.Reading, c *cause.Cause) {
	for i := range b.loads {
		l := &b.loads[i]
		v := math.Abs(reading.Volts(l.a) - reading.Volts(l.b))
		switch {
		case !l.on && broken(c, l.id):
		case !l.on && v >= l.dead && !(l.volts >= l.dead):
			s.Extra = append(s.Extra, l.id)
		case l.on && (!(v >= l.dead) || broken(c, l.id)):
			s.Dead = append(s.Dead, l.id)
		case l.on && v < weakPart*l.volts:
			s.Weak = append(s.Weak, l.id)
		}
	}
}

// broken tells whether a load is what is replaced.
func broken(c *cause.Cause, load harness.ElementID) bool {
	return len(c.Cuts) == 1 && c.Cuts[0].Wire == harness.None && c.Cuts[0].Element == load
}
