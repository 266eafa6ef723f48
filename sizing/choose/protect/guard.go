package protect

import (
	"slices"

	"example.com/loomfolio/sizing/choose/ampacity"
	"example.com/loomfolio/sizing/choose/demand"
	"example.com/loomfolio/sizing/flow"
	"example.com/loomfolio/sizing/harness"
)

// Protection is what the fuses let happen to the wires in one trial.
type Protection struct {
	*demand.Demand
	*ampacity.Ampacity
	Fuses   []Fuse                // by ElementID; only those of fuses are used
	Stand   [][]harness.ElementID // by WireID: the fuses whose current it must stand
	passing *flow.Passing         // what the fuses carry continuously
	surging *flow.Passing         // what they carry until they open
	gangs   [2][][]flow.Gang      // by WireID: what several let through at once, continuously and until they open
}

// Of says what some fuses, by ElementID, let happen to the wires.
func Of(d *demand.Demand, a *ampacity.Ampacity, fuses []Fuse) *Protection {
	p := &Protection{Demand: d, Ampacity: a, Fuses: fuses}
	p.Stand = p.guardsOf()
	p.pass()
	return p
}

// guardsOf gives the fuses whose rating each wire must stand: those that feed
// it, those that hang on it unfused, and, on a return, the fuse that feeds the
// load: a dead short in the load sends that fuse's current through the return.
func (p *Protection) guardsOf() [][]harness.ElementID {
	out := make([][]harness.ElementID, len(p.H.Wires))
	for w, fuses := range p.Guards.Of {
		if tap := p.tap(harness.WireID(w)); tap != harness.None {
			fuses = []harness.ElementID{tap}
		}
		for _, f := range fuses {
			join(&out[w], f)
		}
	}
	for f, wires := range p.Guards.Legs {
		for _, w := range wires {
			join(&out[w], harness.ElementID(f))
		}
	}
	p.joinReturns(p.Draws, out)
	p.joinReturns(p.Coils, out)
	return out
}

// joinReturns adds to the returns of draws the fuse nearest to each on its feed.
func (p *Protection) joinReturns(draws []demand.Draw, out [][]harness.ElementID) {
	for i := range draws {
		fuses := draws[i].Feed.Fuses(p.H)
		if len(fuses) == 0 || p.H.Elements[draws[i].Load].Senses {
			continue
		}
		for _, w := range draws[i].Back.Wires {
			join(&out[w], fuses[len(fuses)-1])
		}
	}
}

func join(list *[]harness.ElementID, f harness.ElementID) {
	if !slices.Contains(*list, f) {
		*list = append(*list, f)
	}
}

// tap gives the fuse that a short wire leads to from a heavier one: within the
// lengths of 33 CFR 183.455(b) it need not stand what protects the heavier one,
// only its own fuse. None for any other wire.
func (p *Protection) tap(w harness.WireID) harness.ElementID {
	mm := float64(p.Ways[w].Length)
	if mm > SheathedFeed || mm > OpenFeed && !p.Sheathed(w) {
		return harness.None
	}
	far, near := p.Net.Taps(w)
	for _, f := range near { // the fuse by which it is fed, unless it hangs on a source itself
		if slices.Contains(p.Guards.Legs[f], w) || !slices.Contains(p.Guards.Of[w], f) {
			far = append(far, f)
		}
	}
	own := harness.ElementID(harness.None)
	for _, f := range far {
		if len(p.Guards.Wires[f]) == 0 {
			continue
		}
		if own != harness.None {
			return harness.None // several fuses: nothing holds their sum
		}
		own = f
	}
	return own
}

// LetThrough is what flows into a wire continuously from the side of a fuse, A: what
// the fuse lets through and what all that feeds there beside it does; see flow.Passing.
func (p *Protection) LetThrough(f harness.ElementID, w harness.WireID) float64 {
	return p.letThroughOf(p.passing, p.gangs[0][w], f, w)
}

func (p *Protection) letThroughOf(by *flow.Passing, gangs []flow.Gang, f harness.ElementID, w harness.WireID) float64 {
	if slices.Contains(p.Guards.Of[w], f) {
		own := by.Into(f, w)
		if slices.Contains(p.Guards.Legs[f], w) { // from the other side the source gives all that it passes
			own = by.Most(f)
		}
		if gang, ok := flow.Best(gangs, f); ok && p.tap(w) != f {
			own = max(own, gang.Amps)
		}
		return own
	}
	return by.Most(f)
}

// Strongest gives the fuse that lets most into a wire, the first of equals.
func (p *Protection) Strongest(w harness.WireID, fuses []harness.ElementID) harness.ElementID {
	best := harness.ElementID(harness.None)
	for _, f := range fuses {
		if best == harness.None || p.LetThrough(f, w) > p.LetThrough(best, w) {
			best = f
		}
	}
	return best
}

// Limits of 33 CFR 183.455(b), mm of conductor from the source.
const (
	OpenFeed     = 178  // 7 in
	SheathedFeed = 1016 // 40 in, in a sheath the whole way
)

// Sheathed tells that a wire lies under a cover on its whole way.
func (p *Protection) Sheathed(w harness.WireID) bool {
	shares := p.Ways[w].Shares
	for _, share := range shares {
		if c := p.H.Runs[share.Run].Cover; c == "" || c == "none" {
			return false
		}
	}
	return len(shares) > 0
}
