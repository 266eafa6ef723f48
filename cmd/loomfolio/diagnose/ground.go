package diagnose

import (
	"math"
	"slices"

	"example.com/loomfolio/sizing/fault/diagnosis"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/proof"
	"example.com/loomfolio/sizing/unit"
)

// ground says what a meter shows at the ground of the first load that does not work: the
// first check in any fault (common practice, no source). It is left out once anything has
// been measured.
func (p *printer) ground() {
	if len(p.told.Reads) > 0 {
		return
	}
	for _, s := range p.told.Symptoms {
		point, most := p.groundOf(s.Load)
		if s.Works == diagnosis.Live || point < 0 {
			continue
		}
		p.text("Ground first: ", "%s, %s connected and on: no more than %s.", p.meter(proof.Probe{Point: point, Against: proof.None}), p.h.Elements[s.Load].Name, most)
		return
	}
}

// groundOf is the point at a load's ground and what may stand there in the state that was
// told: what is lost with all well, and a tenth of a volt for the meter. The point is
// proof.None where no probe gets there, or the load's ground is switched.
func (p *printer) groundOf(load harness.ElementID) (point int, most string) {
	t := p.h.Earthed(&p.h.Elements[load])
	point = slices.IndexFunc(p.r.Proof.Points, func(x proof.Point) bool { return x.At == t })
	if point < 0 || p.told.State < 0 {
		return proof.None, ""
	}
	volts := math.Abs(p.r.States[p.told.State].Volts[t]) + 0.1
	if math.IsNaN(volts) || volts > switched*float64(p.h.SystemOf(&p.h.Elements[load]).Volts) {
		return proof.None, ""
	}
	return point, unit.Volt(math.Ceil(volts*10) / 10).String()
}

// switched is the part of the system's voltage from which on a load's ground side is no
// ground in this state.
const switched = 0.2
