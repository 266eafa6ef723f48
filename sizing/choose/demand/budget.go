package demand

import (
	"cmp"
	"math"
	"slices"

	"example.com/loomfolio/sizing/choose/chosen"
	"example.com/loomfolio/sizing/choose/trial"
	"example.com/loomfolio/sizing/flow"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/unit"
)

// usable is the share of a battery's charge that is counted on; common
// practice, no source.
const usable = 0.5

// KeyOffLimit is the drain that a parked car may have, A: 50 mA, a workshop note;
// a training module says 35 mA.
const KeyOffLimit = 0.050

// Budgets adds up every state.
func (m *Demand) Budgets() []chosen.Budget {
	var out []chosen.Budget
	for i := range m.States {
		out = append(out, m.budget(i))
	}
	return out
}

func (m *Demand) budget(i int) chosen.Budget {
	state := &m.H.States[i]
	b := chosen.Budget{State: i, Sources: map[string]unit.Ampere{}, KeyOff: state.Engine == harness.EngineOff && atRest(state)}
	drawn := 0.0
	for _, id := range m.ElementsOf(harness.Converter) {
		c := &m.H.Elements[id]
		b.Behind = append(b.Behind, chosen.Side{Converter: id, Name: m.PartOf(id).Ref, Gives: unit.Ampere(-m.States[i].Amps[id]), Limit: c.Amps})
	}
	for e := range m.H.Elements {
		drawn += m.count(&b, &m.H.Elements[e])
	}
	if !b.KeyOff {
		return b
	}
	b.Drain = unit.Ampere(drawn)
	if drawn > flow.Least {
		b.Days = m.charge() * usable / drawn / 24
	}
	b.Drains, b.Batteries = m.drains(i), m.resting(i)
	return b
}

// count adds an element to the sum of its state, and gives what a battery gives, A;
// of one in a series string its share, so that the string counts once.
func (m *Demand) count(b *chosen.Budget, e *harness.Element) (drawn float64) {
	a := m.States[b.State].Amps[e.ID]
	if math.IsNaN(a) {
		return 0
	}
	switch e.Kind {
	case harness.Load, harness.RelayCoil:
		if m.field(e) {
			return 0
		}
		m.load(b, e, math.Abs(a))
	case harness.EMF:
		b.Sources[e.Name] = unit.Ampere(-a)
		return math.Max(-a, 0) * float64(e.Holds())
	case harness.Charger:
		b.Sources[e.Name] = unit.Ampere(-a - m.intoField(b.State, e))
		if s := &m.H.States[b.State]; s.Engine == harness.EngineRunning && s.There(e.When) {
			b.Alternator += m.gives(e)
		}
	}
	return 0
}

// load counts a load or coil on its side: behind a converter, else on the main one.
func (m *Demand) load(b *chosen.Budget, e *harness.Element, amps float64) {
	behind := m.H.BehindOf(e)
	at := slices.IndexFunc(b.Behind, func(s chosen.Side) bool { return s.Converter == behind })
	if at < 0 {
		b.Loads += unit.Ampere(amps)
		return
	}
	s := &b.Behind[at]
	s.Loads += unit.Ampere(amps)
	if m.Awake(e, amps) {
		s.Asked += unit.Ampere(max(amps, m.DescribedAmps(e)))
	}
}

// field tells the field of a dynamo: its output is what leaves beside it.
func (m *Demand) field(e *harness.Element) bool {
	return e.Kind == harness.Load && m.H.Parts[e.Part].Kind == harness.Dynamo
}

// intoField is what a dynamo gives its own field in a state, A; 0 for other sources.
func (m *Demand) intoField(state int, source *harness.Element) float64 {
	for _, id := range m.H.Parts[source.Part].Elements {
		if a := m.States[state].Amps[id]; m.field(&m.H.Elements[id]) && !math.IsNaN(a) {
			return math.Abs(a)
		}
	}
	return 0
}

// gives is what a source has for the loads at most.
func (m *Demand) gives(e *harness.Element) unit.Ampere {
	if p := &m.H.Parts[e.Part]; p.Kind == harness.Dynamo {
		return p.Output
	}
	return e.Amps
}

// drains lists what is drawn in a state by the fuse nearest to each load, the most
// first. Of loads in series the first one from the source counts, and a resistor with no
// load before or behind it counts like one.
func (m *Demand) drains(state int) []chosen.Drain {
	currents := m.Currents[state]
	var out []chosen.Drain
	total := 0.0
	for i := range m.H.Elements {
		e := &m.H.Elements[i]
		a := math.Abs(currents.Through(e.ID))
		resistor := m.isResistor(e.ID)
		if e.Kind != harness.Load && e.Kind != harness.RelayCoil && !resistor || a <= flow.Least {
			continue
		}
		feed := currents.Feed(e.ID)
		if feed.Source != harness.None && m.H.Elements[feed.Source].Kind == harness.Converter {
			continue // it is drawn at the converter's input
		}
		if m.behindLoad(feed) || resistor && (slices.ContainsFunc(feed.Elements, m.isResistor) || m.behindLoad(currents.Return(e.ID))) {
			continue
		}
		d := m.drainOf(feed, &out)
		d.Amps, d.Loads = d.Amps+unit.Ampere(a), append(d.Loads, e.Name)
		total += a
	}
	slices.SortStableFunc(out, func(a, b chosen.Drain) int { return cmp.Compare(b.Amps, a.Amps) })
	for i := range out {
		out[i].Share = unit.Fraction(float64(out[i].Amps) / total)
	}
	return out
}

// drainOf gives the drain of the last fuse on a feed, made where there is none yet.
func (m *Demand) drainOf(feed flow.Path, all *[]chosen.Drain) *chosen.Drain {
	fuse, name := harness.ElementID(harness.None), ""
	if fuses := feed.Fuses(m.H); len(fuses) > 0 {
		fuse = fuses[len(fuses)-1]
		name = m.H.Elements[fuse].Name
	}
	i := slices.IndexFunc(*all, func(d chosen.Drain) bool { return d.Fuse == fuse })
	if i < 0 {
		i = len(*all)
		*all = append(*all, chosen.Drain{Fuse: fuse, Name: name})
	}
	return &(*all)[i]
}

// isResistor tells an element that is made to lose volts.
func (m *Demand) isResistor(id harness.ElementID) bool {
	e := &m.H.Elements[id]
	return e.Kind == harness.Resistance && e.Ohms > trial.Metal
}

// behindLoad tells whether a way leads through another load or coil.
func (m *Demand) behindLoad(way flow.Path) bool {
	return slices.ContainsFunc(way.Elements, func(id harness.ElementID) bool {
		k := m.H.Elements[id].Kind
		return k == harness.Load || k == harness.RelayCoil
	})
}

// resting gives what each battery gives in a state, and for how long.
func (m *Demand) resting(state int) []chosen.Resting {
	var out []chosen.Resting
	for i := range m.H.Elements {
		e := &m.H.Elements[i]
		if e.Kind != harness.EMF {
			continue
		}
		b := chosen.Resting{Battery: e.ID, Name: e.Name, Amps: unit.Ampere(-m.States[state].Amps[i])}
		if b.Amps > flow.Least {
			b.Days = float64(m.H.Parts[e.Part].Capacity) * usable / float64(b.Amps) / 24
		}
		out = append(out, b)
	}
	return out
}

// charge adds up the capacity of the batteries, Ah; batteries in series count
// once by the share of the system's voltage that each gives.
func (m *Demand) charge() float64 {
	sum := 0.0
	for i := range m.H.Elements {
		if e := &m.H.Elements[i]; e.Kind == harness.EMF {
			sum += float64(m.H.Parts[e.Part].Capacity) * float64(e.Holds())
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
