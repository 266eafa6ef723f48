// Package ampacity says what a wire may carry where it lies, and how warm it gets there.
// In: a trial's solved states with the sizes in hand. Out: amperes that a size of a wire may
// carry for ever, or until it comes to a limit in C, beside the currents of the wires it
// lies with; the temperatures of all conductors, C. Always holds: what is said belongs to
// one trial; how many loaded wires lie together never goes back from one trial to the next,
// so that the choice settles. Method: the heat balance of package heat; or, where practice
// says so, a published table of currents with its factors for bundles and warm places
// (ABYC E-11 table VI-B, FAA AC 43.13-1B table 11-9).
package ampacity

import (
	"math"

	"example.com/loomfolio/sizing/choose/shelf"
	"example.com/loomfolio/sizing/choose/trial"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/network"
	"example.com/loomfolio/sizing/rating"
	"example.com/loomfolio/sizing/unit"
)

// Ampacity is what all wires may carry in one trial.
type Ampacity struct {
	t       *trial.Solved
	Bundles []int // by WireID: the most loaded wires that lie together with it, itself counted
	warm    *warmth
}

// Of takes the currents of a trial. Before is what was said in the trial before it, nil
// for none: its bundles count on, and what it knows of wires alone is used again.
func Of(t *trial.Solved, before *Ampacity) *Ampacity {
	a := &Ampacity{t: t, Bundles: make([]int, len(t.H.Wires))}
	alone := newSingle(t.Kinds)
	for w := range a.Bundles {
		a.Bundles[w] = 1
	}
	if before != nil {
		copy(a.Bundles, before.Bundles)
		alone = before.warm.single
	}
	a.countBundles()
	a.warm = newWarmth(t, alone)
	return a
}

// Temperatures gives how warm the conductors get in a solved state, by WireID, in C.
func (a *Ampacity) Temperatures(st *network.State) []unit.Celsius { return a.warm.temperatures(st) }

// Alone gives what a size may carry for ever up to a limit with no other wire beside it,
// in the hottest place that the wire passes, A.
func (a *Ampacity) Alone(w harness.WireID, z *shelf.Size, limit unit.Celsius) float64 {
	return a.warm.alone(w, z, limit)
}

// CarriesTo tells that a size may carry a current for ever where the wire lies and stays
// below a limit, by the heat balance.
func (a *Ampacity) CarriesTo(w harness.WireID, z *shelf.Size, amps float64, limit unit.Celsius) bool {
	return a.warm.carries(w, z, amps, limit)
}

// Balanced tells that the heat balance says what wires may carry, not a table.
func (a *Ampacity) Balanced() bool {
	return !a.t.ByRule() && a.t.H.Practice.Ampacity == "computed"
}

// Carries gives what a size of a wire may carry for ever where the wire lies.
func (a *Ampacity) Carries(w harness.WireID, z *shelf.Size) float64 {
	if a.Balanced() {
		return a.warm.upTo(w, z, z.Class)
	}
	here := a.t.Places[w].Celsius
	if a.t.H.Practice.Method == "ac43-13" {
		// Table 11-9 stands for large bundles at 70 C.
		hot := math.Max(0, math.Min(1, float64(z.Class-here)/float64(z.Class-70)))
		return float64(rating.AircraftCurrent(z.Conductor, z.Class)) * math.Sqrt(hot)
	}
	base, _ := rating.Ampacity(z.Conductor, z.Class)
	factor, _ := rating.BundleFactor(a.Bundles[w])
	return float64(base) * rating.AmbientFactor(z.Class, here) * factor
}

// MayCarry tells that Carries is no less than a current.
func (a *Ampacity) MayCarry(w harness.WireID, z *shelf.Size, amps float64) bool {
	if a.Balanced() {
		return a.warm.carries(w, z, amps, z.Class)
	}
	return a.Carries(w, z) >= amps
}

// Withstands gives the current that brings the conductor of a size to a limit,
// where the wire lies and beside the currents of the others there; above its
// class for the time of an overload. Where a table is in force the rise is taken
// to go with the square of the current.
func (a *Ampacity) Withstands(w harness.WireID, z *shelf.Size, limit unit.Celsius) float64 {
	if a.Balanced() {
		return a.warm.upTo(w, z, limit)
	}
	here := a.t.Places[w].Celsius
	if limit <= here || z.Class <= here {
		return 0
	}
	return a.Carries(w, z) * math.Sqrt(float64(limit-here)/float64(z.Class-here))
}

// Least gives the least size that carries a current for ever where the wire
// lies. Hot tells that none does for its neighbours' sake or its place's: more
// copper would not mend that, so it is the size that carries it alone.
func (a *Ampacity) Least(w harness.WireID, amps float64) (at int, hot bool) {
	at, ok := a.t.Shelf[w].Least(func(z *shelf.Size) bool { return a.MayCarry(w, z, amps*(1-1e-9)) })
	if !a.Balanced() || ok && at <= Neighbourly {
		return at, !ok
	}
	alone, _ := a.t.Shelf[w].Least(func(z *shelf.Size) bool { return a.warm.alone(w, z, z.Class) >= amps*(1-1e-9) })
	if !ok || at > alone+Neighbourly {
		return alone, true
	}
	return at, false
}

// Neighbourly is how many sizes a wire may be thicker than it would be alone, for its
// neighbours' sake: a fully loaded bundle of forty asks for seven. What would ask for more
// lies among wires that are too thin themselves, as in a first round, and is no cure for
// them. Common practice, no source.
const Neighbourly = 9

// Sources names, by keys of rating.Source, what the current that a wire may carry rests on.
func (a *Ampacity) Sources(w harness.WireID) []string {
	if a.Balanced() {
		return []string{"heat-balance"}
	}
	keys := []string{"abyc-vi-b", "ambient-rule"}
	if a.Bundles[w] > 1 {
		_, key := rating.BundleFactor(a.Bundles[w])
		keys = append(keys, key)
	}
	return keys
}
