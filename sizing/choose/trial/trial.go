package trial

import (
	"math"

	"example.com/loomfolio/sizing/choose/shelf"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/heat"
	"example.com/loomfolio/sizing/network"
	"example.com/loomfolio/sizing/unit"
)

// Trial is what came of sizes in hand: the solved states, and how warm the wires get.
type Trial struct {
	*Solved
	Warm    [][]unit.Celsius // by solving and WireID: the conductors at the currents that were solved
	Hottest []unit.Celsius   // by WireID: as warm as it gets in any state, cranking apart
}

// Warmed takes the temperatures of all wires from the currents that were solved,
// and tells the largest change from those that went into the solving, in K. A
// conductor counts as no hotter than its insulation stands for the hours of an
// overload: beyond that it is a finding, and no circuit goes on.
func (s *Solved) Warmed(temperatures func(*network.State) []unit.Celsius) (*Trial, float64) {
	t, change := &Trial{Solved: s}, 0.0
	for i := range s.Solvings {
		at := &s.Solvings[i]
		if at.Cranking {
			t.Warm = append(t.Warm, at.Warm)
			continue
		}
		now := temperatures(&at.State)
		for w := range now {
			now[w] = min(now[w], s.Size(harness.WireID(w)).Overload)
			change = math.Max(change, math.Abs(float64(now[w]-at.Warm[w])))
		}
		t.Warm = append(t.Warm, now)
	}
	for w := range s.H.Wires {
		hottest, _ := t.HottestState(harness.WireID(w))
		t.Hottest = append(t.Hottest, hottest)
	}
	return t, change
}

// Warmest gives the wire of a group that its current warms most.
func (t *Trial) Warmest(wires []harness.WireID) harness.WireID {
	best, most := wires[0], unit.Celsius(-1)
	for _, w := range wires {
		if rise := t.Hottest[w] - t.Places[w].Celsius; rise > most {
			best, most = w, rise
		}
	}
	return best
}

// Warmer estimates the resistance of another size of a wire, warmed by the same
// current, over what the size in hand would have if it were as warm: the rise
// goes with the resistance and against the surface. The next round sees its true
// temperature.
func (t *Trial) Warmer(w harness.WireID, z *shelf.Size) float64 {
	if t.ByRule() {
		return 1
	}
	now, here := t.Size(w), t.Places[w].Celsius
	hot := t.Hottest[w]
	rise := (hot - here) * unit.Celsius(z.Ohms/now.Ohms*float64(now.Over/z.Over))
	return heat.ResistanceFactor(min(here+rise, z.Overload)) / heat.ResistanceFactor(hot)
}

// HottestState gives the warmest that a wire's conductor gets, and the state.
func (t *Trial) HottestState(w harness.WireID) (unit.Celsius, string) {
	best := 0
	for i := range t.Solvings {
		if !t.Solvings[i].Cranking && (t.Solvings[best].Cranking || t.Warm[i][w] > t.Warm[best][w]) {
			best = i
		}
	}
	if t.Solvings[best].Cranking {
		return t.Places[w].Celsius, t.Solvings[best].Name
	}
	return t.Warm[best][w], t.Solvings[best].Name
}

// OhmsIn gives the resistance of a whole wire for the drop of a load in a
// declared state: with the copper as warm as it gets in any state, the same for
// all loads; as it was solved while the engine is cranked; and at 20 C where a
// published rule sizes the wires, as its own figures do.
func (t *Trial) OhmsIn(state int, w harness.WireID) float64 {
	switch {
	case t.ByRule():
		return t.Ohms(w)
	case t.Solvings[state].Cranking:
		return t.Solvings[state].Ohms[w]
	}
	return t.OhmsAt(w, t.Hottest[w])
}
