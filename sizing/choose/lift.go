package choose

import (
	"fmt"
	"math"
	"slices"

	"example.com/loomfolio/sizing/choose/protect"
	"example.com/loomfolio/sizing/choose/shelf"
	"example.com/loomfolio/sizing/flow"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/rating"
	"example.com/loomfolio/sizing/unit"
)

// Lift is the least step of a wire that a dead short asks for, and why.
type Lift struct {
	Step int
	Rule string // short; earth where it follows a lead whose current it returns
	Why  string
}

// mostLifts is how often wires are lifted at most for the sake of shorts.
const mostLifts = 12

// enough is how many times a fuse's rating a dead short at the far end is to draw
// (ECSS-Q-ST-30-11C).
const enough = 3

// lifted gives the lifts that the shorts of a settled end ask for besides those that it
// has, false where none is to be had: free wires that would get too hot before their fuse
// opens; and where a short at a far end draws too little to open it, those that resist
// most on its way, as far as their terminals and the copper can mend it.
func (r *Round) lifted(shorts []flow.Shorts, have []Lift) ([]Lift, bool) {
	l := &lifting{Round: r, out: slices.Clone(have)}
	ideal := r.idealShorts(r.slow(shorts))
	for i := range r.H.Elements {
		f := harness.ElementID(i)
		if r.H.Elements[i].Kind != harness.FuseLink || r.Fuses[i].Rating <= 0 {
			continue
		}
		for _, w := range r.Guards.Wires[f] {
			l.outlast(f, w, shorts[f].At(w))
		}
		if few := enough * float64(r.Fuses[f].Rating); shorts[f].Least() < few && ideal[f].Least() >= few {
			l.open(f, shorts[f].Least()/few)
		}
	}
	l.straps()
	return l.out, l.changed
}

// straps lifts the free cables by which the current of a source returns where its lead came
// out heavier all the same.
func (l *lifting) straps() {
	for _, lead := range l.Leads {
		for _, live := range lead.Live {
			for _, w := range lead.Earth {
				z := l.Size(live)
				at, _ := l.Shelf[w].Least(func(x *shelf.Size) bool { return x.Conductor.Area >= z.Conductor.Area*0.999 })
				if !lead.Battery && l.Cranks[w] && !l.Fixed[w] {
					l.lift(w, at, "earth", fmt.Sprintf("no thinner than %s, whose current it returns", l.H.Wires[live].Name))
				}
			}
		}
	}
}

// lifting gathers lifts.
type lifting struct {
	*Round
	out     []Lift
	changed bool
}

func (l *lifting) lift(w harness.WireID, step int, rule, why string) {
	if step > max(l.out[w].Step, l.At[w]) {
		l.out[w], l.changed = Lift{step, rule, why}, true
	}
}

// outlast lifts a wire that a short would heat too much before its fuse opens.
func (l *lifting) outlast(f harness.ElementID, w harness.WireID, amps float64) {
	lasts := l.Lasts(f, amps)
	if l.Fixed[w] || lasts <= protect.OutLasts(l.Size(w), amps) {
		return
	}
	if at, ok := l.leastOutlasting(w, amps, lasts); ok {
		l.lift(w, at, "short", fmt.Sprintf("in a dead short %s flows for up to %.2f s until %s opens (k²S² of IEC 60364-5-54)", unit.Amps(amps), lasts, l.H.Elements[f].Name))
	}
}

// open lifts the free wires behind a fuse that resist most, half of the most and above, and
// that their terminals take thicker: to what resists by the share of the wanted current
// that flows, a step at least.
func (l *lifting) open(f harness.ElementID, share float64) {
	most := 0.0
	for _, w := range l.Guards.Wires[f] {
		if l.grows(w) {
			most = math.Max(most, l.Ohms(w))
		}
	}
	for _, w := range l.Guards.Wires[f] {
		if l.grows(w) && l.Ohms(w) >= most/2 {
			at := l.At[w] + 1
			for top := l.ceiling(w); at < top && l.Shelf[w][at].Ohms > share*l.Size(w).Ohms; {
				at++
			}
			l.lift(w, at, "short", fmt.Sprintf("a dead short at the far end is to draw three times the %s of %s (ECSS-Q-ST-30-11C)", l.Fuses[f].Rating, l.H.Elements[f].Name))
		}
	}
}

// grows tells a free wire whose terminals take the next size.
func (l *lifting) grows(w harness.WireID) bool { return !l.Fixed[w] && l.At[w] < l.ceiling(w) }

// ceiling gives the heaviest size that a wire's terminals take.
func (r *Round) ceiling(w harness.WireID) int {
	return sizes{Protection: r.Protection, groups: r.Groups}.ceilingOf([]harness.WireID{w})
}

func (r *Round) leastOutlasting(w harness.WireID, amps, lasts float64) (int, bool) {
	for i := r.At[w]; i < len(r.Shelf[w]); i++ {
		if protect.OutLasts(&r.Shelf[w][i], amps) >= lasts {
			return i, true
		}
	}
	return 0, false
}

// slow lists the fuses that a short at a far end draws too little to open.
func (r *Round) slow(shorts []flow.Shorts) []harness.ElementID {
	var out []harness.ElementID
	for _, f := range r.ElementsOf(harness.FuseLink) {
		if x := r.Fuses[f].Rating; x > 0 && shorts[f].Least() < enough*float64(x) {
			out = append(out, f)
		}
	}
	return out
}

// idealShorts gives the shorts behind some fuses if every free wire had the heaviest size that
// its terminals take.
func (r *Round) idealShorts(fuses []harness.ElementID) []flow.Shorts {
	if len(fuses) == 0 {
		return nil
	}
	heaviest := func(w harness.WireID) float64 {
		ohms := r.OhmsAt(w, r.Hottest[w])
		if r.Fixed[w] {
			return ohms
		}
		return ohms * (r.Shelf[w][max(r.ceiling(w), r.At[w])].Ohms / r.Size(w).Ohms)
	}
	return r.Net.Shorts(fuses, r.ShortOhms(heaviest, rating.HotFuse))
}
