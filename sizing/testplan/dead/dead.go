// Package dead says what is proved before any power, the battery off and all fuses out:
// what must beep from end to end, what must not beep to ground or to its neighbour, and
// what bridges a fuse that is pulled.
//
// In: the model as it is meant, what was sized, the points. Out: a proof.Before. Method:
// the wiring is solved without any source, everything at rest, and once more with every
// switch worked; what draws a current between two probes is unplugged in thought until no
// beeper sounds.
package dead

import (
	"strings"

	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/proof"
	"example.com/loomfolio/sizing/result"
	"example.com/loomfolio/sizing/unit"
)

// check is one being made.
type check struct {
	h   *harness.Harness
	r   *result.Result
	at  []int // by terminal: its point
	out proof.Before
}

// All lists what is proved; at gives by terminal its point. The error is the solver's.
func All(h *harness.Harness, r *result.Result, at []int) (proof.Before, error) {
	k := &check{h: h, r: r, at: at}
	k.beeps()
	k.bodies()
	rest, err := k.solve(false)
	if err != nil {
		return proof.Before{}, err
	}
	worked, err := k.solve(true)
	if err != nil {
		return proof.Before{}, err
	}
	if err := k.toGround(rest, worked); err != nil {
		return proof.Before{}, err
	}
	if err := k.neighbours(rest); err != nil {
		return proof.Before{}, err
	}
	return k.out, k.pulled(rest)
}

// ground is what counts as ground for a beeper: the bodywork, of a wired return the
// earthed post of the first battery. None where there is neither.
func (k *check) ground(d *wiring) harness.TerminalID {
	if d.state.Of[harness.Chassis] >= 0 && !k.h.System.WiredReturn {
		return harness.Chassis
	}
	for i := range k.h.Elements {
		if e := &k.h.Elements[i]; e.Kind == harness.EMF {
			return k.h.Earthed(e)
		}
	}
	return harness.None
}

// pulled: each fuse out reads open, or says what bridges it.
func (k *check) pulled(d *wiring) error {
	for i, f := range k.r.Fuses {
		if f.Breaker {
			continue
		}
		e := &k.h.Elements[f.Element]
		ohms, off, metal, err := d.between(e.A, e.B)
		if err != nil {
			return err
		}
		one := proof.Pulled{Fuse: f.Element, Ohms: unit.Ohm(ohms), Off: off, Note: Unplug(k.h, off)}
		switch {
		case metal:
			one.Note = "metal joins its two sides: it protects nothing"
		case k.r.Outages[i].Shared:
			one.Note = strings.Trim("another feeder reaches its load side: pull that too; "+one.Note, "; ")
		}
		k.out.Pulled = append(k.out.Pulled, one)
	}
	return nil
}
