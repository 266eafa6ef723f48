package demand

import (
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/unit"
)

// A cold filament takes ten times its running current until it is hot: component
// text gives 10 times, mains lamps measured 7 to 14 times, near nominal after
// 0.05 s; no measurement of a 12 V lamp was found.
const (
	coldFilament             = 10
	FilamentHot  unit.Second = 0.05
)

// StartOf gives what a load takes while it starts; the part's figure belongs to
// its first load. Filament lamps start cold where nothing is given.
func (m *Demand) StartOf(d *Draw) unit.Start {
	p := m.PartOf(d.Load)
	for _, id := range p.Elements {
		if m.H.Elements[id].Kind != harness.Load {
			continue
		}
		if id == d.Load && p.Starts.Amps > 0 {
			return p.Starts
		}
		break
	}
	if m.H.Elements[d.Load].Behaves == harness.AsLamp {
		return unit.Start{Amps: unit.Ampere(coldFilament * d.Amps), For: FilamentHot}
	}
	return unit.Start{}
}
