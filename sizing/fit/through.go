package fit

import (
	"math"

	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/network"
	"example.com/loomfolio/sizing/unit"
)

// through is the most that a ground carries, and where that comes from.
type through struct {
	amps  unit.Ampere
	state string // "" where nothing flows
}

// throughGround gives the most that a ground carries in any state, those that are reckoned
// beside the declared ones too, apart by whether it lasts. A state that is a fault counts by
// what stands for it.
func (f *fitter) throughGround(p *harness.Part) (lasting, cranking through) {
	into := map[bool]*through{false: &lasting, true: &cranking}
	rings := f.at(p.ID)
	for i := range f.c.States {
		if i < len(f.c.Faulty) && f.c.Faulty[i] {
			continue
		}
		into[f.crankingIn(i)].of(f.returning(p, rings, &f.c.States[i]), f.c.States[i].Name)
	}
	for i := range f.c.Reckoned {
		into[f.c.Reckoned[i].Cranking].of(f.returning(p, rings, &f.c.Reckoned[i].State), f.c.Reckoned[i].Name)
	}
	return lasting, cranking
}

// of takes a current where it is more than what was found so far; less than a millionth
// of an ampere is the solver's rounding.
func (t *through) of(amps float64, state string) {
	if amps > float64(t.amps)+1e-6 {
		t.amps, t.state = unit.Ampere(amps), state
	}
}

func (f *fitter) crankingIn(state int) bool {
	return state < len(f.h.States) && f.h.States[state].Engine == harness.EngineCranking
}

// returning is what a ground carries in a state: from its rings into the metal, or from one
// ring to the others, A.
func (f *fitter) returning(p *harness.Part, rings []harness.WireID, st *network.State) float64 {
	most := 0.0
	for _, id := range p.Elements {
		if a := math.Abs(st.Amps[id]); f.h.Elements[id].Kind != harness.Join && a > most { // false for NaN
			most = a
		}
	}
	for _, w := range rings {
		if int(w) < len(st.WireAmps) {
			most = max(most, math.Abs(st.WireAmps[w]))
		}
	}
	return most
}
