package circuit

import (
	"fmt"
	"math"
	"slices"
)

// Fault is an element replaced by a resistance: +Inf for one that is open.
// Contacts that follow a replaced coil stay as when it is released.
type Fault struct {
	Element int
	Ohms    float64
}

// Faults tries faults in a network, one after another. Each starts from the
// sound network's voltages and its factor for the same contacts, which is
// changed only as far as the fault asks for. The relays start released, as
// always, so that the answer is that of solving the faulty network from nothing.
// One Faults must not be used by several goroutines at once; each may have its own.
type Faults struct {
	relays   *relays
	solution Solution
}

// Faults makes ready for trying faults. The error is that of the sound network.
func (p *Prepared) Faults() (*Faults, error) {
	p.once.Do(p.base)
	if p.fails != nil {
		return nil, p.fails
	}
	if f, ok := p.idle.Get().(*Faults); ok {
		return f, nil
	}
	f := &Faults{relays: p.relays(slices.Clone(p.network.Elements))}
	f.relays.known, f.relays.factor.part = p.trail, hastyPart
	return f, nil
}

// Try solves the network with these faults, none of which stays for the next
// time. The solution, in which Frozen is left out, holds until then.
func (f *Faults) Try(faults ...Fault) (*Solution, error) {
	defer f.heal()
	if err := f.replace(faults); err != nil {
		return nil, err
	}
	r := f.relays
	clear(r.holds)
	clear(r.stuck)
	r.turns, r.rounds = 0, 0
	if err := r.rest(); err != nil {
		return nil, err
	}
	r.solution(&f.solution)
	return &f.solution, nil
}

func (f *Faults) replace(faults []Fault) error {
	r := f.relays
	for _, fault := range faults {
		i := fault.Element
		if i < 0 || i >= len(r.elements) {
			return fmt.Errorf("circuit: there is no element %d", i)
		}
		if !(fault.Ohms > 0) {
			return fmt.Errorf("circuit: element %s needs a resistance above 0 ohm", r.elements[i].Name)
		}
		r.ill = append(r.ill, i)
		r.elements[i].Kind, r.elements[i].Ohms = Resistor, fault.Ohms
		r.retake(i)
	}
	return nil
}

// heal puts the elements back as they were.
func (f *Faults) heal() {
	r := f.relays
	for _, i := range r.ill {
		r.elements[i] = r.network.Elements[i]
		r.retake(i)
	}
	r.ill = r.ill[:0]
}

// Faulted solves the network with one element replaced by a resistance. The
// solution of the sound network makes it quicker; empty, all starts from nothing.
// For many faults, Faults is quicker still.
func (p *Prepared) Faulted(element int, ohms float64, sound Solution) (Solution, error) {
	if len(sound.Volts) == 0 {
		return p.fromNothing(Fault{element, ohms})
	}
	f, err := p.Faults()
	if err != nil {
		return p.fromNothing(Fault{element, ohms})
	}
	defer p.idle.Put(f)
	s, err := f.Try(Fault{element, ohms})
	if err != nil {
		return Solution{}, err
	}
	out := s.clone()
	out.Frozen = f.relays.frozenWith(Fault{element, ohms})
	return out, nil
}

// fromNothing solves with a fault, without what is known of the sound network.
func (p *Prepared) fromNothing(fault Fault) (Solution, error) {
	f := &Faults{relays: p.relays(slices.Clone(p.network.Elements))}
	s, err := f.Try(fault)
	if err != nil {
		return Solution{}, err
	}
	s.Frozen = f.relays.frozenWith(fault)
	return *s, nil
}

// frozenWith is frozen with a fault that is healed already.
func (r *relays) frozenWith(fault Fault) []Frozen {
	out := r.frozen()
	out[fault.Element] = Frozen{Form: IsResistance, Ohms: fault.Ohms}
	if math.IsInf(fault.Ohms, 1) {
		out[fault.Element] = Frozen{}
	}
	return out
}
