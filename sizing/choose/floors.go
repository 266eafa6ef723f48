package choose

import (
	"math"

	"example.com/loomfolio/sizing/choose/protect"
	"example.com/loomfolio/sizing/choose/shelf"
	"example.com/loomfolio/sizing/choose/trial"
	"example.com/loomfolio/sizing/harness"
)

// Floors is the least step that each rule alone asks for.
type Floors struct {
	Handling, Heat, Protection int
	Beside                     int  // the thickest of the kept wires in series with it
	Bought                     int  // the least that a plan allows
	Short                      Lift // what a dead short asks for
	Hot, Weak                  bool // no size is enough for heat, for the fuse
	Guard                      harness.ElementID
	Earth                      bool // handling comes from the battery's live lead
}

// Least is the highest of them.
func (f Floors) Least() int { return max(f.Ruled(), f.Bought) }

// Ruled is the highest that a rule asks for, whatever is bought.
func (f Floors) Ruled() int { return max(f.Handling, f.Heat, f.Protection, f.Beside, f.Short.Step) }

// floorsOf finds the floors of every wire.
func floorsOf(p *protect.Protection, groups Groups, lifts []Lift, bought []int) []Floors {
	out := make([]Floors, len(p.H.Wires))
	for i := range out {
		w := harness.WireID(i)
		f := Floors{Guard: p.Strongest(w, p.Stand[w]), Short: lifts[i], Bought: bought[i]}
		f.Handling = p.Shelf[w].Smallest(&p.H.Practice)
		if !p.Peaks[w].Short {
			f.Heat, f.Hot = p.Least(w, p.Peaks[w].Amps)
		}
		if f.Guard != harness.None {
			f.Protection, f.Weak = p.LeastBehind(w, f.Guard)
		}
		if g := groups.Of[w]; g >= 0 {
			f.Beside = groups.beside[g]
		}
		out[i] = f
	}
	for w, area := range earthAreas(p, groups, out) {
		out[w].Handling, out[w].Earth = handling(p, w, area)
	}
	return out
}

// handling gives the least size for handling, or for the area that an earth lead must have.
func handling(p *protect.Protection, w harness.WireID, area float64) (least int, earth bool) {
	least = p.Shelf[w].Smallest(&p.H.Practice)
	if area <= 0 {
		return least, false
	}
	j, _ := p.Shelf[w].Least(func(z *shelf.Size) bool { return float64(z.Conductor.Area) >= area*0.999 })
	return max(least, j), j > least
}

// LeastEarth is 8 gauge by SAE minimum metal area (14 810 cmil): NEC (2008)
// 552.10 wants a battery's lead to the chassis to be at least 8 AWG.
const LeastEarth = 7.5 // mm2

// heaviest gives the largest area among a source's live leads, for a battery 8 gauge at
// least. A lead in one group with the earth lead does not count: it has its gauge
// already, and the two would hold each other up. Where an alternator's current returns by a
// cable that cranks the engine, what its lead needs by itself counts: it grows no further
// than that cable for the loads' sake (see sizes.strapOf).
func heaviest(p *protect.Protection, groups Groups, floors []Floors, l trial.Leads, earth harness.WireID) float64 {
	most := 0.0
	if l.Battery {
		most = LeastEarth
	}
	for _, w := range l.Live {
		z := p.Size(w)
		if !l.Battery && p.Cranks[earth] && groups.Of[w] >= 0 {
			z = &p.Shelf[w][leastOf(groups.Wires[groups.Of[w]], floors)]
		}
		if groups.Of[w] < 0 || groups.Of[w] != groups.Of[earth] {
			most = math.Max(most, float64(z.Conductor.Area))
		}
	}
	return most
}

// leastOf gives the floor of a group.
func leastOf(wires []harness.WireID, floors []Floors) int {
	least := 0
	for _, w := range wires {
		least = max(least, floors[w].Least())
	}
	return least
}

// earthAreas gives the least area of the leads on a source's earth side: that of the
// heaviest lead on its live side, for a battery 8 gauge at least (NEC 552.10).
func earthAreas(p *protect.Protection, groups Groups, floors []Floors) map[harness.WireID]float64 {
	out := map[harness.WireID]float64{}
	for _, l := range p.Leads {
		for _, w := range l.Earth {
			out[w] = math.Max(out[w], heaviest(p, groups, floors, l, w))
		}
	}
	return out
}
