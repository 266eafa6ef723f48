package demand

import (
	"math"

	"example.com/loomfolio/sizing/flow"
	"example.com/loomfolio/sizing/harness"
)

// charges follows what every alternator, regulator, charger and converter gives while all batteries
// are flat, from it to the battery and back: its lead and its return share one drop, that
// of the class of the circuit in which the lead leaves it. A way through a load is no
// charging way.
func (m *Demand) charges() {
	converters := m.ElementsOf(harness.Converter)
	for i := len(m.States); i < len(m.Solvings); i++ {
		at := &m.Solvings[i]
		if at.Index == harness.None || !at.AllFlat && len(converters) == 0 {
			continue
		}
		c := flow.In(m.H, &at.State)
		for _, id := range m.ElementsOf(harness.Charger) {
			if at.AllFlat {
				m.charging(c, i, id)
			}
		}
		for _, id := range converters { // it may stand still while the battery that feeds it is flat
			m.charging(c, i, id)
		}
	}
}

func (m *Demand) charging(c *flow.Currents, state int, id harness.ElementID) {
	d := Draw{Load: id, State: state, Amps: math.Abs(c.Through(id)), Volts: math.NaN(), Counts: true}
	d.Feed, d.Back = c.Charge(id)
	if d.Feed.Source == harness.None || d.Back.Source == harness.None || m.behindLoad(d.Feed) || m.behindLoad(d.Back) || m.known(&d) {
		return
	}
	m.Charge = append(m.Charge, d)
}

// known tells that another state has the source give as much, and takes the larger.
func (m *Demand) known(d *Draw) bool {
	for i := range m.Charge {
		if x := &m.Charge[i]; x.Load == d.Load {
			if d.Amps > x.Amps {
				*x = *d
			}
			return true
		}
	}
	return false
}
