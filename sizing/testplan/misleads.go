package testplan

import (
	"fmt"
	"math"

	"example.com/loomfolio/sizing/fault/way"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/proof"
	"example.com/loomfolio/sizing/testplan/meter"
)

// hidden is the joint behind which a test lamp of 3 W still looks normal, at 12 V (103 % of
// its rated light); at other voltages it goes by the lamp's own resistance.
const hidden = 2.0

// misleads says of each point on the feed of a load, where a test lamp serves, what a bad
// joint that it does not show would leave to the load.
func (m *plan) misleads(ways *way.Ways) {
	most := map[int]*way.Way{}
	for i := range ways.List {
		x := &ways.List[i]
		if !x.Load {
			continue
		}
		for _, s := range ways.Feed(m.h, x) {
			for _, t := range []harness.TerminalID{s.From, s.To} {
				if at := m.at[t]; at != proof.None && (most[at] == nil || x.Amps > most[at].Amps) {
					most[at] = x
				}
			}
		}
	}
	for i := range m.p.Points {
		if p, x := &m.p.Points[i], most[i]; x != nil && p.Lamp {
			e := &m.h.Elements[x.Draw]
			ohms := hidden * math.Pow(float64(m.h.SystemOf(e).Volts)/12, 2)
			left := meter.Behind(x.Volts, ohms, func(v float64) float64 { return x.Amps * math.Pow(v/x.Volts, follows(e)) })
			if left < (1-tenth)*x.Volts {
				p.Misleads = fmt.Sprintf("a lamp lights behind %.2g Ω, where %s gets %.1f V", ohms, e.Name, left)
			}
		}
	}
}

// follows is the power by which a load's current follows its volts.
func follows(e *harness.Element) float64 {
	switch e.Behaves {
	case harness.AsLamp:
		return 0.55
	case harness.AsResistance:
		return 1
	}
	return 0
}
