package buying

import (
	"math"

	"example.com/loomfolio/sizing/fit/fitted"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/unit"
)

// Cables sums up each type of cable that is used: the lengths, and what is bought by
// whole metres (feet on an imperial sheet) with the practice's spare. A cable is built
// when all its wires are.
func Cables(h *harness.Harness, units []fitted.Unit, kept []harness.KeptState) []fitted.Cable {
	step := 1000.0
	if h.Sheet.Imperial {
		step = 304.8
	}
	var out []fitted.Cable
	for i := range h.Practice.CableTypes {
		c := fitted.Cable{Type: &h.Practice.CableTypes[i]}
		for k := range h.Units {
			u := &h.Units[k]
			if u.Kind != harness.Cabled || u.Type.Name != c.Type.Name {
				continue
			}
			c.Units = append(c.Units, u.ID)
			if harness.BuiltUnit(u, kept) {
				c.Built++
				continue
			}
			c.Need += units[k].Length
		}
		c.Buy = unit.Millimetre(step * math.Ceil(float64(c.Need)*(1+float64(h.Practice.Spare))/step-1e-9))
		if len(c.Units) > 0 {
			out = append(out, c)
		}
	}
	return out
}
