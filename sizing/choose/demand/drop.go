package demand

import (
	"math"

	"example.com/loomfolio/sizing/choose/copper"
	"example.com/loomfolio/sizing/choose/shelf"
	"example.com/loomfolio/sizing/choose/trial"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/rating"
	"example.com/loomfolio/sizing/unit"
)

// ClassOf gives the drop class of the circuit in which the load's feed arrives.
func (m *Demand) ClassOf(d *Draw) string {
	wire := harness.WireID(harness.None)
	if n := len(d.Feed.Wires); n > 0 {
		wire = d.Feed.Wires[n-1]
	} else if len(d.Back.Wires) > 0 {
		wire = d.Back.Wires[0]
	} else {
		return "default"
	}
	class := m.H.Circuits[m.H.Wires[wire].Circuit].Class
	if _, ok := m.H.Practice.Drop[class]; !ok {
		return "default"
	}
	return class
}

// LimitOf gives a load's allowed drop and how it is written.
func (m *Demand) LimitOf(d *Draw) (unit.Volt, string) {
	if m.H.Practice.Method == "ac43-13" {
		return m.aircraftLimit(d.Load), "FAA AC 43.13-1B table 11-6"
	}
	limit := m.limitOf(d)
	volts, text := limit.Volts, limit.Volts.String()
	if limit.Volts <= 0 {
		nominal := m.Nominal(d.Load)
		volts, text = limit.Of(nominal), limit.Fraction.String()+" of "+nominal.String()
	}
	if left, needs := m.leftFor(d); left > 0 && left < volts {
		return left, "needs " + needs.String()
	}
	return volts, text
}

// OwnLimit tells a load that says its own limit, by the key that says it: drop, needs; ""
// for none.
func (m *Demand) OwnLimit(d *Draw) string {
	p := m.PartOf(d.Load)
	switch left, _ := m.leftFor(d); {
	case m.H.Practice.Method == "ac43-13" || m.H.Elements[d.Load].Kind != harness.Load:
		return ""
	case left > 0 && left < m.withoutNeeds(d):
		return "needs"
	case p.Limit != (unit.DropLimit{}):
		return "drop"
	}
	return ""
}

// withoutNeeds is what a load may lose by its class or its own drop.
func (m *Demand) withoutNeeds(d *Draw) unit.Volt {
	return m.limitOf(d).Of(m.Nominal(d.Load))
}

// limitOf is the load's own limit, else that of its class.
func (m *Demand) limitOf(d *Draw) unit.DropLimit {
	if own := m.PartOf(d.Load).Limit; own != (unit.DropLimit{}) && m.H.Elements[d.Load].Kind == harness.Load {
		return own
	}
	return m.H.Practice.Drop[m.ClassOf(d)]
}

// leftFor is what the wires of a load that needs some volts may lose in a state: what it
// has there and loses in them, less what it needs. 0 for a load that says nothing, and where
// no wire would be thick enough, which is a finding of its own.
func (m *Demand) leftFor(d *Draw) (left, needs unit.Volt) {
	needs = m.PartOf(d.Load).NeedsVolts
	if needs <= 0 || m.H.Elements[d.Load].Kind != harness.Load || math.IsNaN(d.Volts) {
		return 0, 0
	}
	return max(0, unit.Volt(d.Volts+m.Drop(d))-needs), needs
}

// DropIn gives the drop in some wires in a state (see OhmsIn), V.
func (m *Demand) DropIn(state int, wires []harness.WireID) float64 {
	sum := 0.0
	for _, w := range wires {
		sum += math.Abs(m.Solvings[state].State.WireAmps[w]) * m.OhmsIn(state, w)
	}
	return sum
}

// ColdDrop gives the drop in a draw's conductors, feed and return, at 20 C.
func (m *Demand) ColdDrop(d *Draw) float64 {
	sum := 0.0
	for _, w := range d.Wires() {
		sum += m.on(d, w) * m.Ohms(w)
	}
	return sum
}

// Drop gives the drop in a draw's conductors, feed and return.
func (m *Demand) Drop(d *Draw) float64 {
	return m.dropOn(d, d.Feed.Wires) + m.dropOn(d, d.Back.Wires)
}

func (m *Demand) dropOn(d *Draw, wires []harness.WireID) (sum float64) {
	for _, w := range wires {
		sum += m.on(d, w) * m.OhmsIn(d.State, w)
	}
	return sum
}

// on gives the current that a draw's drop in one of its wires is counted with: all
// that flows there, the draw itself as it is at its lowest voltage, A.
func (m *Demand) on(d *Draw, w harness.WireID) float64 {
	return math.Abs(m.Solvings[d.State].State.WireAmps[w]) + d.More
}

// Exceeds tells a draw that counts and loses more than its limit; a millionth over
// it is the rounding of the temperatures.
func (m *Demand) Exceeds(d *Draw) bool {
	limit, _ := m.LimitOf(d)
	probe := copper.Demand{Limit: float64(limit) * (1 + 1e-6)}
	return d.Counts && !probe.Meets(m.Drop(d))
}

// OnGroups makes a demand of a draw on wires in groups, within its limit: see OnGroupsTo.
func (m *Demand) OnGroups(d *Draw, group []int) copper.Demand {
	limit, _ := m.LimitOf(d)
	return m.OnGroupsTo(d, group, limit)
}

// OnGroupsTo makes a demand of a draw on wires in groups, within some limit: group gives the number of a
// wire's by WireID, below 0 for a gauge that is given. The drop in given wires is
// taken off its limit. Where they take more than their share of it (by amperes
// times metres), the others are held to theirs: copper there would not mend it,
// and the given gauge is a finding of its own.
func (m *Demand) OnGroupsTo(d *Draw, group []int, limit unit.Volt) copper.Demand {
	out := copper.Demand{}
	place := map[int]int{}
	lost, given, free := 0.0, 0.0, 0.0
	for _, w := range d.Wires() {
		load, g := m.LoadOn(d, w), group[w]
		if g < 0 {
			lost += load * m.Size(w).Ohms
			given += load
			continue
		}
		free += load
		if _, ok := place[g]; !ok {
			place[g] = len(out.Terms)
			out.Terms = append(out.Terms, copper.Term{Group: g})
		}
		out.Terms[place[g]].Amps += load
	}
	out.Limit = float64(limit) - lost
	if free > 0 {
		out.Limit = math.Max(out.Limit, float64(limit)*free/(free+given))
	}
	return out
}

// LoadOn gives the amperes times metres of a draw in a wire. Ohms are those at 20 C, so
// the copper's warmth goes into the current.
func (m *Demand) LoadOn(d *Draw, w harness.WireID) float64 {
	return m.on(d, w) * m.OhmsIn(d.State, w) / m.Size(w).Ohms
}

// aircraftLimit is the drop that FAA AC 43.13-1B table 11-6 allows from the bus to the load and
// back, for continuous loads at 14 V, in proportion for other systems.
func (m *Demand) aircraftLimit(load harness.ElementID) unit.Volt {
	return unit.Volt(0.5 * float64(m.Nominal(load)) / 12)
}

// RuleOf gives the test that a size of a wire must pass for one load: that of the published
// rule, with the resistance that the drop is counted with afterwards.
func (m *Demand) RuleOf(method string, d *Draw, w harness.WireID) func(*shelf.Size) bool {
	amps := m.on(d, w)
	loop := m.Along(d.Wires())
	limit, _ := m.LimitOf(d)
	least := unit.SquareMillimetre(0)
	if method == "abyc-e11" {
		least = rating.ABYCDropArea(unit.Ampere(amps), loop*trial.Feet, limit)
	}
	return func(z *shelf.Size) bool {
		return float64(z.Conductor.Area) >= float64(least)*0.99999 && amps*loop*z.Ohms <= float64(limit)*(1+1e-9)
	}
}
