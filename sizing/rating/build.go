package rating

import (
	"math"
	"strings"
	"sync"

	"example.com/loomfolio/sizing/unit"
)

// Time is how long one operation of building a loom takes.
type Time struct {
	Key     string // as harness.Operations names it
	Name    string // "strip an end"
	Minutes float64
	Per     string // wire, end, splice, tie, metre, reel
	Source  string
}

var timeTable = sync.OnceValue(func() []Time {
	var out []Time
	for _, r := range rows("times.csv") {
		out = append(out, Time{r["operation"], r["name"], r.number("minutes"), r["per"], r["source"]})
	}
	return out
})

// Times lists the operations in the order of the work.
func Times() []Time { return append([]Time(nil), timeTable()...) }

// InsulationMass gives the mass of the insulation round a conductor over a length: what lies between
// the strands and the outside, at the density of its family. A family that no table has counts as PVC.
func InsulationMass(family string, conductor, outside, length unit.Millimetre) unit.Gram {
	density := plainPVC
	if in, ok := InsulationOf(family); ok {
		density = in.Density
	}
	ring := math.Pi / 4 * (float64(outside)*float64(outside) - float64(conductor)*float64(conductor))
	return unit.Gram(math.Max(ring, 0) * float64(length) * density / 1000)
}

// plainPVC is the density of PVC compound, g/cm3, as insulations.csv has it.
const plainPVC = 1.4

// CableMass gives the mass of a cable over a length: its copper, and all else in its round as PVC,
// the air between its cores included, which is the heavy side.
func CableMass(outside unit.Millimetre, copper unit.SquareMillimetre, length unit.Millimetre) unit.Gram {
	rest := math.Pi/4*float64(outside)*float64(outside) - float64(copper)
	return CopperMass(copper, length) + unit.Gram(math.Max(rest, 0)*float64(length)*plainPVC/1000)
}

// CoverMass gives the mass of a length of cover of a bore; of tape the length is that of the tape
// itself. A cover whose name no table has counts as plain tube.
func CoverMass(cover string, bore, length unit.Millimetre) unit.Gram {
	all := rows("covers.csv")
	best := rowOf(all, "cover", strings.ToLower(cover))
	if best == nil {
		best = rowOf(all, "cover", "tube")
	}
	return unit.Gram((best.number("grams_per_m") + best.number("grams_per_m_mm")*float64(bore)) * float64(length) / 1000)
}

// rowOf finds the row whose cell is a text.
func rowOf(all []row, column, text string) row {
	for _, r := range all {
		if r[column] == text {
			return r
		}
	}
	return nil
}
