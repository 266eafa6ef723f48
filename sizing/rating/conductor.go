package rating

import (
	"math"
	"slices"
	"sort"
	"strconv"
	"strings"
	"sync"

	"example.com/loomfolio/sizing/unit"
)

// Conductor is one size of stranded copper conductor.
type Conductor struct {
	Gauge      unit.Gauge
	Area       unit.SquareMillimetre // metal; SAE gauge: the minimum that SAE allows
	Copper     unit.Millimetre       // diameter over the strands
	Resistance unit.OhmPerMetre      // largest at 20 C; AWG: bare, by ASTM B258 with 2 % for the lay of the strands
	Tinned     unit.OhmPerMetre      // the largest by FAA AC 43.13-1B table 11-9; 0 where it has none
	Sources    []string              // of the area, of the resistance
}

var conductorTable = sync.OnceValue(func() []Conductor {
	systems := map[string]unit.System{"mm2": unit.Metric, "awg": unit.AWG, "sae": unit.SAE}
	var out []Conductor
	for _, r := range rows("conductors.csv") {
		out = append(out, Conductor{
			Gauge:      unit.Gauge{System: systems[r["system"]], Size: r["size"]},
			Area:       unit.SquareMillimetre(r.number("area_mm2")),
			Copper:     unit.Millimetre(r.number("copper_mm")),
			Resistance: unit.OhmPerMetre(r.number("ohm_per_km_20c") / 1000),
			Tinned:     unit.OhmPerMetre(r.number("tinned_ohm_per_km_20c") / 1000),
			Sources:    Distinct(r["area_source"], r["ohm_source"]),
		})
	}
	sort.SliceStable(out, func(i, j int) bool { return out[i].Area < out[j].Area })
	return out
})

// ByAircraftTable gives the conductor with the resistance of FAA AC 43.13-1B table 11-9, where
// it has one: tin-plated, up to 27 % more than bare copper of that gauge.
func (c Conductor) ByAircraftTable() Conductor {
	if c.Tinned > 0 {
		c.Resistance, c.Sources = c.Tinned, Distinct(c.Sources[0], "ac43-11-9")
	}
	return c
}

// Distinct gives keys of sources each once, in their order, without empty ones.
func Distinct(keys ...string) []string {
	var out []string
	seen := map[string]bool{}
	for _, k := range keys {
		if k != "" && !seen[k] {
			seen[k] = true
			out = append(out, k)
		}
	}
	return out
}

// Sizes gives every conductor of one system, thinnest first.
func Sizes(system unit.System) []Conductor { return slices.Clone(sizesOf(system)) }

// sizesOf is Sizes for reading only.
func sizesOf(system unit.System) []Conductor { return sizeTable()[system] }

var sizeTable = sync.OnceValue(func() map[unit.System][]Conductor {
	out := map[unit.System][]Conductor{}
	for _, c := range conductorTable() {
		out[c.Gauge.System] = append(out[c.Gauge.System], c)
	}
	return out
})

// ConductorOf gives the row of one gauge.
func ConductorOf(g unit.Gauge) (Conductor, bool) {
	for _, c := range conductorTable() {
		if c.Gauge == g {
			return c, true
		}
	}
	return Conductor{}, false
}

// MadeUp gives a conductor for a gauge that no table holds, for example 1.25 mm2
// or 13 AWG: metric by its area, AWG by the formula of ASTM B258, SAE gauge at
// 0.89 of that area. The resistance is that of the worst row of the same
// system (18.9 or 17.6 ohm.mm2/km, by AC 43.13-1B 22); common practice, no source.
func MadeUp(g unit.Gauge) (Conductor, bool) {
	area, rho, tinned := 0.0, 17.6, 0.0
	n, err := strconv.ParseFloat(strings.TrimSuffix(g.Size, "/0"), 64)
	switch {
	case err != nil || n <= 0 && g.System == unit.Metric:
		return Conductor{}, false
	case g.System == unit.Metric:
		area, rho = n, 18.9
	default:
		if strings.HasSuffix(g.Size, "/0") {
			n = 1 - n
		}
		d := 0.127 * math.Pow(92, (36-n)/39)
		area = math.Pi / 4 * d * d
	}
	switch g.System {
	case unit.SAE:
		area *= 0.89
	case unit.AWG:
		tinned = 22
	}
	return Conductor{
		Gauge: g, Area: unit.SquareMillimetre(area), Copper: unit.Millimetre(copperOf(area)),
		Resistance: unit.OhmPerMetre(rho / area / 1000), Tinned: unit.OhmPerMetre(tinned / area / 1000), Sources: []string{"common"},
	}, true
}

// AnyConductor gives the row of a gauge, or a made-up one where no table holds it.
func AnyConductor(g unit.Gauge) (Conductor, bool) {
	if c, ok := ConductorOf(g); ok {
		return c, true
	}
	return MadeUp(g)
}

// AreaOf gives the metal of a gauge by AnyConductor, 0 where it is none.
func AreaOf(g unit.Gauge) unit.SquareMillimetre {
	c, _ := AnyConductor(g)
	return c.Area
}

// NearestBelow gives the heaviest conductor of a system that has no more area
// than asked; the thinnest of the system where all have more.
func NearestBelow(system unit.System, area unit.SquareMillimetre) Conductor {
	all := sizesOf(system)
	best := all[0]
	for _, c := range all {
		if float64(c.Area) <= float64(area)*1.0001 {
			best = c
		}
	}
	return best
}

// CircularMils gives an area in circular mils.
func CircularMils(area unit.SquareMillimetre) float64 { return float64(area) / squareMMPerCmil }

// Circular mil in mm2: a circle of 0.001 in.
const squareMMPerCmil = math.Pi / 4 * 0.0254 * 0.0254

// CopperMass gives the mass of the copper in a length of conductor, at
// 8.89 g/cm3 (NBS Handbook 100); the lay of the strands is not counted.
func CopperMass(area unit.SquareMillimetre, length unit.Millimetre) unit.Gram {
	return unit.Gram(float64(area) * float64(length) * 8.89e-3)
}
