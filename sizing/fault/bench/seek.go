package bench

import (
	"math"

	"example.com/loomfolio/sizing/fault/cause"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/network"
	"example.com/loomfolio/sizing/unit"
)

// How near the part that a joint costs is sought, against that part, and in how many trials.
const (
	near   = 0.008
	trials = 30
)

// mostOhms is more than any joint has that still conducts.
const mostOhms = 1e6

// loses gives the part of its voltage that a load or coil loses.
func (b *Bench) loses(reading network.Reading, draw harness.ElementID) float64 {
	e, st := &b.h.Elements[draw], &b.r.States[b.state]
	was := math.Abs(st.Volts[e.A] - st.Volts[e.B])
	v := math.Abs(reading.Volts(e.A) - reading.Volts(e.B))
	if math.IsNaN(v) {
		return 1
	}
	return 1 - v/was
}

// costs gives what a cause costs a load or coil; where none is given, the load that it
// costs most.
func (b *Bench) costs(reading network.Reading, draw harness.ElementID) (harness.ElementID, float64) {
	if draw != harness.None {
		return draw, b.loses(reading, draw)
	}
	most := 0.0
	for i := range b.loads {
		if b.loads[i].on {
			if part := b.loses(reading, b.loads[i].id); part > most {
				draw, most = b.loads[i].id, part
			}
		}
	}
	return draw, most
}

// Opened is Try for an element that is open: it tells beside what is seen which load or
// coil loses what part of its voltage: the one that the cause is looked at for, which is
// set to that which loses most where there is none.
func (b *Bench) Opened(c *cause.Cause) (seen *Seen, draw harness.ElementID, part float64) {
	at, does := b.Replaced(c, 0)
	if !does {
		return b.sound, c.Load, 0
	}
	if s, at := b.elsewhere(c, 0); s != nil && !math.IsNaN(s.part) && (c.Load == harness.None || c.Load == s.load) {
		c.Load = s.load
		return b.moved(c, 0, s, at), s.load, s.part
	}
	reading, err := b.read(c, at)
	if err != nil {
		return b.lost(), c.Load, 0
	}
	c.Load, part = b.costs(reading, c.Load)
	seen = b.see(c, at, reading)
	told := part
	if broken(c, c.Load) {
		told = math.NaN() // a load that is itself open keeps its voltage: not so elsewhere in its chain
	}
	b.remember(c, 0, reading, seen, told)
	return seen, c.Load, part
}

// Seek gives the ohms of a joint that costs its load or coil a part of its voltage, to
// within a hundredth of that part, and what is seen. Where the load jumps over that part
// (its relay lets go on the way) they are a little more than where it does; nothing is
// seen where no ohms cost as much.
//
// Method: of a load that is a resistance the logarithm of part/(1-part) rises as that of
// the ohms does, of one of constant current almost: a secant between these two, kept
// within what is known to be too little and too much.
func (b *Bench) Seek(c *cause.Cause) (unit.Ohm, *Seen) {
	k := seeking{b: b, c: c, want: float64(c.Costs), lo: trial{math.Inf(-1), math.Inf(-1)}, hi: trial{math.Inf(1), math.Inf(1)}}
	ohms := b.guess(c)
	if s, at := b.elsewhere(c, ohms); s != nil && s.load == c.Load && s.costs == c.Costs {
		return unit.Ohm(ohms), b.moved(c, ohms, s, at)
	}
	for range trials {
		if seen := k.at(ohms); seen != nil {
			return unit.Ohm(ohms), seen
		}
		if ohms = math.Exp(k.next()); ohms > mostOhms {
			return 0, nil
		}
		if k.hi.x-k.lo.x < 1e-3 {
			break
		}
	}
	k.jumps = true
	ohms = math.Exp(k.hi.x + 0.02)
	return unit.Ohm(ohms), k.at(ohms)
}

// seeking is a joint being sought.
type seeking struct {
	b      *Bench
	c      *cause.Cause
	want   float64
	lo, hi trial // that cost too little, and too much
	jumps  bool  // what costs more is taken too
}

// trial is the logarithm of the ohms, and the logit of what they cost.
type trial struct{ x, y float64 }

func logit(part float64) float64 {
	part = min(max(part, 1e-9), 1-1e-9)
	return math.Log(part / (1 - part))
}

// at tries ohms; what is seen is nil where they cost too little or too much.
func (s *seeking) at(ohms float64) *Seen {
	at, _ := s.b.Replaced(s.c, unit.Ohm(ohms))
	reading, err := s.b.read(s.c, at)
	if err != nil {
		return s.b.lost()
	}
	part := s.b.loses(reading, s.c.Load)
	switch {
	case s.jumps || math.Abs(part-s.want) <= near*s.want:
		s.b.known[knownKey{s.c.Load, s.c.Costs}] = knownJoint{s.b.amps(s.c.Cuts[0]), ohms}
		seen := s.b.see(s.c, at, reading)
		s.b.remember(s.c, ohms, reading, seen, part)
		return seen
	case part < s.want:
		s.lo = trial{math.Log(ohms), logit(part)}
	default:
		s.hi = trial{math.Log(ohms), logit(part)}
	}
	return nil
}

// next is where to try next.
func (s *seeking) next() float64 {
	want := logit(s.want)
	switch lo, hi := s.lo, s.hi; {
	case math.IsInf(hi.x, 1):
		return lo.x + min(max(want-lo.y, 0.1), 7)
	case math.IsInf(lo.x, -1):
		return hi.x - min(max(hi.y-want, 0.1), 7)
	default:
		x := lo.x + (hi.x-lo.x)*(want-lo.y)/(hi.y-lo.y)
		margin := 0.02 * (hi.x - lo.x)
		return min(max(x, lo.x+margin), hi.x-margin)
	}
}

// knownKey and knownJoint are the joint that was found last for a load and a part: with
// the same current another one has about the same ohms.
type (
	knownKey struct {
		load  harness.ElementID
		costs unit.Fraction
	}
	knownJoint struct{ amps, ohms float64 }
)

// guess gives the ohms to begin with: those of the joint found last, or those that would
// cost the load that part if it were alone there.
func (b *Bench) guess(c *cause.Cause) float64 {
	e, st := &b.h.Elements[c.Load], &b.r.States[b.state]
	amps := math.Abs(b.amps(c.Cuts[0]))
	if k, ok := b.known[knownKey{c.Load, c.Costs}]; ok && math.Abs(math.Abs(k.amps)-amps) < 0.02*amps {
		return k.ohms
	}
	volts := math.Abs(st.Volts[e.A] - st.Volts[e.B])
	return float64(c.Costs) * volts / max(amps, 1e-4) * math.Pow(1-float64(c.Costs), -follows(e))
}

// follows is the power by which a load's current follows its voltage.
func follows(e *harness.Element) float64 {
	switch {
	case e.Kind == harness.RelayCoil || e.Behaves == harness.AsResistance:
		return 1
	case e.Behaves == harness.AsLamp:
		return 0.55
	case e.Behaves == harness.AsPower:
		return -1
	}
	return 0
}

// amps is the current through what a joint goes bad at.
func (b *Bench) amps(f network.Fault) float64 {
	if f.Wire != harness.None {
		return b.r.States[b.state].WireAmps[f.Wire]
	}
	return b.r.States[b.state].Amps[f.Element]
}
