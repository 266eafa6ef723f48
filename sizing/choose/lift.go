package choose

import (
	"fmt"
	"slices"

	"example.com/loomfolio/sizing/choose/protect"
	"example.com/loomfolio/sizing/flow"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/rating"
	"example.com/loomfolio/sizing/unit"
)

// Lift is the least step of a wire that a dead short asks for, and why.
type Lift struct {
	Step int
	Why  string
}

// mostLifts is how often wires are lifted at most for the sake of shorts.
const mostLifts = 12

// enough is how many times a fuse's rating a dead short at the far end is to draw
// (ECSS-Q-ST-30-11C).
const enough = 3

// lifted gives the lifts that the shorts of a settled end ask for besides those that it
// has, false where none is to be had: free wires that would get too hot before their fuse
// opens, and those at whose end a short draws too little to open it, as long as copper can
// mend that.
func (r *Round) lifted(shorts []flow.Shorts, have []Lift) ([]Lift, bool) {
	out, changed := slices.Clone(have), false
	ideal := r.idealShorts()
	for i := range r.H.Elements {
		if r.H.Elements[i].Kind != harness.FuseLink || r.Fuses[i].Rating <= 0 {
			continue
		}
		f := harness.ElementID(i)
		for _, w := range r.Guards.Wires[f] {
			if r.Fixed[w] {
				continue
			}
			x := r.liftOf(f, w, shorts[f].At(w), ideal[f].At(w))
			if x.Step > max(out[w].Step, r.At[w]) {
				out[w], changed = x, true
			}
		}
	}
	return out, changed
}

// liftOf gives what a short behind one fuse asks of one wire.
func (r *Round) liftOf(f harness.ElementID, w harness.WireID, amps, ideal float64) Lift {
	name, rated := r.H.Elements[f].Name, r.Fuses[f].Rating
	lasts := r.Lasts(f, amps)
	if hot, ok := r.leastOutlasting(w, amps, lasts); ok && lasts > protect.OutLasts(r.Size(w), amps) {
		return Lift{hot, fmt.Sprintf("in a dead short %s flows for up to %.2f s until %s opens (k²S² of IEC 60364-5-54)", unit.Amps(amps), lasts, name)}
	}
	few := amps < enough*float64(rated) && ideal >= enough*float64(rated)
	if next := r.At[w] + 1; few && next < len(r.Shelf[w]) {
		return Lift{next, fmt.Sprintf("a dead short at its end is to draw three times the %s of %s (ECSS-Q-ST-30-11C)", rated, name)}
	}
	return Lift{}
}

func (r *Round) leastOutlasting(w harness.WireID, amps, lasts float64) (int, bool) {
	for i := r.At[w]; i < len(r.Shelf[w]); i++ {
		if protect.OutLasts(&r.Shelf[w][i], amps) >= lasts {
			return i, true
		}
	}
	return 0, false
}

// idealShorts gives the shorts if every free wire had the heaviest size of its shelf.
func (r *Round) idealShorts() []flow.Shorts {
	ohms := flow.Ohms{Wires: make([]float64, len(r.H.Wires)), Elements: make([]float64, len(r.H.Elements))}
	var fuses []harness.ElementID
	for w := range ohms.Wires {
		id := harness.WireID(w)
		ohms.Wires[w] = r.OhmsAt(id, r.Hottest[w])
		if !r.Fixed[w] {
			ohms.Wires[w] *= r.Shelf[w][len(r.Shelf[w])-1].Ohms / r.Size(id).Ohms
		}
	}
	for i := range r.H.Elements {
		e := &r.H.Elements[i]
		ohms.Elements[i] = float64(e.Ohms)
		if cold := r.Fuses[i].Cold; e.Kind == harness.FuseLink {
			fuses = append(fuses, e.ID)
			if cold > 0 {
				ohms.Elements[i] = rating.HotFuse * float64(cold)
			}
		}
	}
	return r.Net.Shorts(fuses, ohms)
}
