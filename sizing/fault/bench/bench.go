// Package bench solves faults in one state of a sized harness, and tells what is seen.
//
// In: the model and its results, a state, a cause. Out: the volts at the points that move,
// what is dead, weak or on without being switched, and the fuses that open, one after
// another: of those that must open at their current the one that does so soonest (the
// longest opening times of the tables), then solved again without it, until none must.
//
// Bad joints are sought: the ohms with which the load that is asked for loses just the
// part that the joint costs.
package bench

import (
	"math"
	"slices"

	"example.com/loomfolio/sizing/fault/cause"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/network"
	"example.com/loomfolio/sizing/proof"
	"example.com/loomfolio/sizing/rating"
	"example.com/loomfolio/sizing/result"
	"example.com/loomfolio/sizing/unit"
)

// Moves is the least change of a reading that counts as one, V: what the last digits of a
// cheap meter and its leads leave open; judgement, not published.
const Moves = 0.05

// A load is dead below deadPart of its voltage, weak below weakPart of it, and one that
// should be off works from deadPart of its rated voltage on; judgement, not published.
const (
	deadPart = 0.25
	weakPart = 0.905 // what costs a tenth, to within the trials, counts
)

// Bench is one state. It must not be used by several goroutines at once.
type Bench struct {
	h       *harness.Harness
	r       *result.Result
	state   int
	touches []network.Bridge
	ohms    network.Resistances
	plain   *network.Faults // without places where metal may touch; nil until it is asked for
	touched *network.Faults // with them
	sound   *Seen
	points  []harness.TerminalID
	on      [][]int // by ElementID of a load or coil: the points on its way
	loads   []load
	fuses   []fuse
	known   map[knownKey]knownJoint
	chains  *chains
	solved  map[place]*solvedAt
	now     []float64 // by point: what is read with the fault that is looked at
}

// load is a load as it works without a fault.
type load struct {
	id    harness.ElementID
	a, b  harness.TerminalID
	on    bool
	volts float64 // across it, without sign
	dead  float64 // below this it does nothing; of one that is off: from this on it works
}

// fuse is a fuse that opens where it carries much.
type fuse struct {
	id     harness.ElementID
	body   string
	rating float64
	opens  float64 // the multiple of its rating at which it must open
	latest float64 // s, at that multiple
}

// New makes ready for a state; on are the points on the way of each load and coil, by
// ElementID.
func New(h *harness.Harness, r *result.Result, state int, touches []network.Bridge, on [][]int) *Bench {
	b := &Bench{h: h, r: r, state: state, touches: touches, on: on, ohms: r.States[state].Resistances(), known: map[knownKey]knownJoint{}, solved: map[place]*solvedAt{}}
	st := &r.States[state]
	b.chains, b.now = chainsOf(&st.Network), make([]float64, len(r.Proof.Points))
	b.sound = &Seen{sound: make([]float64, len(r.Proof.Points))}
	for i, p := range r.Proof.Points {
		b.points = append(b.points, p.At)
		b.sound.sound[i] = st.Volts[p.At]
	}
	for i := range r.Loads {
		b.loads = append(b.loads, b.load(r.Loads[i].Element, slices.Contains(r.Loads[i].On, h.States[state].Name)))
	}
	for i := range r.Fuses {
		if f, ok := b.fuse(r.Fuses[i].Element, r.Fuses[i].Body, float64(r.Fuses[i].Rating)); ok {
			b.fuses = append(b.fuses, f)
		}
	}
	return b
}

func (b *Bench) load(id harness.ElementID, on bool) load {
	e, st := &b.h.Elements[id], &b.r.States[b.state]
	l := load{id: id, a: e.A, b: e.B, on: on, volts: math.Abs(st.Volts[e.A] - st.Volts[e.B])}
	l.dead = deadPart * l.volts
	if !on {
		l.dead = deadPart * float64(e.AtVolts)
	}
	if e.Part != harness.None && e.Behaves != harness.AsResistance { // what it must have, where it has clearly more
		if least := float64(b.h.Parts[e.Part].WorksAbove); l.volts > 1.2*least {
			l.dead = max(l.dead, least)
		}
	}
	l.on = on && l.volts > l.dead
	return l
}

// fuse gives a fuse; false for one that carries too much without any fault.
func (b *Bench) fuse(id harness.ElementID, body string, rated float64) (fuse, bool) {
	o := rating.OverloadOf(body)
	f := fuse{id, body, rated, o.Opens, float64(o.Latest)}
	return f, rated > 0 && math.Abs(b.r.States[b.state].Amps[id]) < f.opens*rated
}

// Sound is what is seen without a fault.
func (b *Bench) Sound() *Seen { return b.sound }

// time is how long a fuse stands a current at most, s; +Inf where it need not open.
func (f *fuse) time(amps float64) float64 {
	m := math.Abs(amps) / f.rating
	if m < f.opens {
		return math.Inf(1)
	}
	if t := float64(rating.LatestOpening(f.body, m)); !math.IsNaN(t) && !math.IsInf(t, 0) {
		return t
	}
	return f.latest * (f.opens / m) * (f.opens / m)
}

// faults are the places where faults are tried in this state.
func (b *Bench) faults(c *cause.Cause) (*network.Faults, error) {
	switch {
	case c.Sources != nil:
		return b.prepare(network.Options{Sources: c.Sources})
	case c.Touch == harness.None && b.plain == nil:
		var err error
		b.plain, err = b.prepare(network.Options{})
		return b.plain, err
	case c.Touch == harness.None:
		return b.plain, nil
	case b.touched == nil:
		var err error
		b.touched, err = b.prepare(network.Options{Bridges: b.touches})
		return b.touched, err
	}
	return b.touched, nil
}

// read solves this state with what stands in the network for a cause. The error is that no rest was found.
func (b *Bench) read(c *cause.Cause, at []network.Fault) (network.Reading, error) {
	f, err := b.faults(c)
	if err != nil {
		return network.Reading{}, err
	}
	return f.Try(at...)
}

func (b *Bench) prepare(o network.Options) (*network.Faults, error) {
	p, err := network.Prepare(b.h, b.state, b.ohms, o)
	if err != nil {
		return nil, err
	}
	return p.Faults()
}

// Replaced is what stands in the network with a cause, its own ohms heeded; false where
// it does nothing in this state.
func (b *Bench) Replaced(c *cause.Cause, ohms unit.Ohm) ([]network.Fault, bool) {
	if b.idle(c) {
		return nil, false
	}
	var out []network.Fault
	for _, f := range c.Cuts {
		if f.Wire == harness.None && b.r.States[b.state].ElementAt[f.Element] < 0 {
			continue
		}
		if c.Adds {
			f.Ohms = b.stands(f) + float64(ohms)
		}
		out = append(out, f)
	}
	if c.Touch != harness.None {
		if !b.apart(c.Touch) {
			return nil, false
		}
		out = append(out, network.Fault{Wire: harness.None, Element: harness.None, Bridge: c.Touch, Ohms: float64(ohms)})
	}
	return out, len(out) > 0 || c.Sources != nil
}

// idle tells a contact whose fault shows only in another position.
func (b *Bench) idle(c *cause.Cause) bool {
	if c.Contact == harness.None || c.Kind == proof.Open {
		return false
	}
	return cause.Closed(b.h, &b.r.States[b.state], b.h.Elements[c.Contact].When) == (c.Kind == proof.Welded)
}

// apart tells whether two places that touch are two nodes of the network.
func (b *Bench) apart(touch int) bool {
	st, x := &b.r.States[b.state], b.touches[touch]
	return st.Of[x.A] >= 0 && st.Of[x.B] >= 0 && st.Of[x.A] != st.Of[x.B]
}

// stands is the resistance of what a joint goes bad at.
func (b *Bench) stands(f network.Fault) float64 {
	if f.Wire != harness.None {
		return b.ohms.Wires[f.Wire]
	}
	return b.ohms.Links[f.Element]
}
