package rating

import (
	"math"
	"sync"

	"example.com/loomfolio/sizing/unit"
)

// Insulation is one family of wire: its temperature class, how hot it may get
// for the minutes of an overload, and for the seconds of a short.
type Insulation struct {
	Name           string
	Class          unit.Celsius
	Overload       unit.Celsius
	ShortCircuit   unit.Celsius
	Source         string
	OverloadSource string
	Density        float64 // g/cm3
	DensitySource  string
}

var insulationTable = sync.OnceValue(func() []Insulation {
	var out []Insulation
	for _, r := range rows("insulations.csv") {
		out = append(out, Insulation{
			Name: r["insulation"], Class: unit.Celsius(r.number("class_c")),
			Overload: unit.Celsius(r.number("overload_c")), ShortCircuit: unit.Celsius(r.number("short_circuit_c")),
			Source: r["source"], OverloadSource: r["overload_source"],
			Density: r.number("density_g_cm3"), DensitySource: r["density_source"],
		})
	}
	return out
})

// Insulations lists the families, in a fixed order.
func Insulations() []Insulation { return append([]Insulation(nil), insulationTable()...) }

// InsulationOf gives a family by its name.
func InsulationOf(name string) (Insulation, bool) {
	for _, in := range insulationTable() {
		if in.Name == name {
			return in, true
		}
	}
	return Insulation{}, false
}

type outside struct {
	area, over float64 // mm2, mm
	gauge      unit.Gauge
	source     string
}

var outsideTable = sync.OnceValue(func() map[string][]outside {
	systems := map[string]unit.System{"mm2": unit.Metric, "sae": unit.SAE}
	out := map[string][]outside{}
	for _, r := range rows("diameters.csv") {
		g := unit.Gauge{System: systems[r["system"]], Size: r["size"]}
		c, _ := ConductorOf(g)
		out[r["insulation"]] = append(out[r["insulation"]], outside{
			area: float64(c.Area), over: r.number("outside_mm"), gauge: g, source: r["source"],
		})
	}
	return out
})

// Diameter gives the largest outside diameter of a conductor in an insulation.
// Where the family is not tabled in that size, the wall is interpolated by
// conductor area between the rows around it (kept as it is beyond the ends).
func Diameter(insulation string, c Conductor) (over unit.Millimetre, source string) {
	table := outsideTable()[insulation]
	if len(table) == 0 {
		table = outsideTable()["thin-wall-125"]
	}
	for _, o := range table {
		if o.gauge == c.Gauge {
			return unit.Millimetre(o.over), o.source
		}
	}
	wall := func(o outside) float64 { return o.over - copperOf(o.area) }
	area := float64(c.Area)
	low, high := table[0], table[len(table)-1]
	for _, o := range table {
		if o.area <= area && (o.area > low.area || low.area > area) {
			low = o
		}
		if o.area >= area && (o.area < high.area || high.area < area) {
			high = o
		}
	}
	w := between(low.area, wall(low), high.area, wall(high), area)
	return unit.Millimetre(math.Round((copperOf(area)+w)*10) / 10), "iso-6722-interpolated"
}

// copperOf gives the diameter of a strand bundle of an area, at 75 % fill.
func copperOf(area float64) float64 { return math.Sqrt(area / 0.75 * 4 / math.Pi) }

// between interpolates on a straight line, and keeps the end values outside.
func between(x0, y0, x1, y1, x float64) float64 {
	switch {
	case x <= x0 || x1 <= x0:
		return y0
	case x >= x1:
		return y1
	}
	return y0 + (y1-y0)*(x-x0)/(x1-x0)
}

// ShortCircuitK gives k of the adiabatic rule A = sqrt(I²t)/k for copper
// between two temperatures, in A·s^0.5/mm2 (IEC 60364-5-54).
func ShortCircuitK(from, to unit.Celsius) float64 {
	return 226 * math.Sqrt(math.Log(1+float64(to-from)/(234.5+float64(from))))
}
