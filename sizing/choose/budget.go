package choose

import (
	"math"

	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/unit"
)

// usable is the share of a battery's charge that is counted on; common
// practice, no source.
const usable = 0.5

// budgets adds up every state.
func (s *sizer) budgets() []Budget {
	var out []Budget
	for i := range s.states {
		out = append(out, s.budget(i))
	}
	return out
}

func (s *sizer) budget(i int) Budget {
	st, state := &s.states[i], &s.h.States[i]
	b := Budget{State: i, Sources: map[string]unit.Ampere{}, KeyOff: state.Engine == harness.EngineOff && atRest(state)}
	drawn := 0.0
	for _, e := range s.h.Elements {
		a := st.Amps[e.ID]
		if math.IsNaN(a) {
			continue
		}
		switch e.Kind {
		case harness.Load, harness.RelayCoil:
			b.Loads += unit.Ampere(math.Abs(a))
		case harness.EMF:
			b.Sources[e.Name] = unit.Ampere(-a)
			drawn += math.Max(-a, 0)
		case harness.Charger:
			b.Sources[e.Name] = unit.Ampere(-a)
			if state.Engine == harness.EngineRunning {
				b.Alternator += e.Amps
			}
		}
	}
	if b.KeyOff && drawn > 1e-6 {
		b.Days = s.charge() * usable / drawn / 24
	}
	return b
}

// charge adds up the capacity of the batteries, Ah; batteries in series count
// once by the share of the system's voltage that each gives.
func (s *sizer) charge() float64 {
	sum := 0.0
	for i := range s.h.Elements {
		if e := &s.h.Elements[i]; e.Kind == harness.EMF {
			sum += float64(s.h.Parts[e.Part].Capacity) * math.Min(1, float64(e.Volts)/float64(s.nominal()))
		}
	}
	return sum
}

func atRest(state *harness.State) bool {
	for _, p := range state.Position {
		if p != 0 {
			return false
		}
	}
	return true
}
