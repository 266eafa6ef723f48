package choose

import (
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/unit"
)

// Relaxed gives by WireID the sizes with the least copper if some loads were allowed to lose more
// than their limit, V by ElementID; all else as it was settled: currents, temperatures, fuses and
// the floors that they ask for.
func (s *Settled) Relaxed(allowed map[harness.ElementID]unit.Volt) []int {
	z := sizes{Protection: s.Protection, groups: s.Groups, allowed: allowed, straps: true}
	_, found := z.withinTerminals(func(w harness.WireID) int { return s.Floors[w].Least() })
	return z.inWires(found.Step)
}
