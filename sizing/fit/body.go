package fit

import (
	"math"

	"example.com/loomfolio/sizing/fit/fitted"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/unit"
)

// onBodies says of every part that its own body grounds what passes there, how far it gets
// from the battery's post, and how the metal under it is made ready, as under a ring.
func (f *fitter) onBodies() {
	for i := range f.h.Parts {
		p := &f.h.Parts[i]
		if !p.BodyGround || p.BodyJoint == harness.None {
			continue
		}
		b := fitted.Body{Part: p.ID, Ohms: f.h.Elements[p.BodyJoint].Ohms, Surface: p.Surface}
		b.Washer, b.Prep = preparation(p.Surface)
		b.Washer = bodyWasher(b.Washer)
		for s := range f.c.States {
			st := &f.c.States[s]
			if a := unit.Ampere(math.Abs(st.Amps[p.BodyJoint])); a > b.Amps+alike { // false for NaN
				b.Amps, b.State = a, st.Name
			}
			if v := unit.Volt(away(st, p.BodyAt)); v > b.Lift+alike {
				b.Lift, b.LiftIn = v, st.Name
			}
		}
		f.out.Bodies = append(f.out.Bodies, b)
		f.used = append(f.used, "ac43-11-189")
	}
}

// bodyWasher is the washer under a part's own fixing screw: a toothed one where there was a
// coat (NEC 552.10), as under a ring.
func bodyWasher(ring string) string {
	if ring == "spring washer under the nut" {
		return "spring washer under the screw"
	}
	return "star washer between part and bared metal"
}
