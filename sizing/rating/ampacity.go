package rating

import (
	"fmt"
	"math"
	"sync"

	"example.com/loomfolio/sizing/unit"
)

// The classes of insulation in 33 CFR 183.425 table 5, C.
var currentClasses = [...]unit.Celsius{60, 75, 80, 90, 105, 125, 200}

type current struct {
	size    string
	area    float64 // of the AWG conductor, mm2
	byClass [len(currentClasses)]float64
}

var currentTable = sync.OnceValue(func() []current {
	var out []current
	for _, r := range rows("ampacity.csv") {
		c, _ := ConductorOf(unit.Gauge{System: unit.AWG, Size: r["awg"]})
		line := current{size: r["awg"], area: float64(c.Area)}
		for i, class := range currentClasses {
			line.byClass[i] = r.number(fmt.Sprintf("class_%.0f_a", float64(class)))
		}
		out = append(out, line)
	}
	return out
})

// Ampacity gives the continuous current of a single conductor in 30 C air, in
// amperes, and the keys of its sources: 33 CFR 183.425 table 5. A numbered
// gauge takes its own row. A metric conductor is interpolated by its area
// between the AWG areas of the rows, on logarithmic scales. Below 18 gauge the
// current falls in proportion to the area (the safe side). A class between two
// columns takes the cooler one.
func Ampacity(c Conductor, class unit.Celsius) (unit.Ampere, []string) {
	column := 0
	for i, from := range currentClasses {
		if class >= from {
			column = i
		}
	}
	table := currentTable()
	if c.Gauge.System != unit.Metric {
		for _, line := range table {
			if line.size == c.Gauge.Size {
				return unit.Ampere(line.byClass[column]), []string{"abyc-vi-b"}
			}
		}
	}
	return byArea(table, column, equivalentArea(c))
}

// equivalentArea is the AWG area that a conductor is compared by: SAE gauges
// below 18 count as the AWG size of the same number.
func equivalentArea(c Conductor) float64 {
	if c.Gauge.System == unit.SAE {
		if awg, ok := ConductorOf(unit.Gauge{System: unit.AWG, Size: c.Gauge.Size}); ok {
			return float64(awg.Area)
		}
	}
	return float64(c.Area)
}

func byArea(table []current, column int, area float64) (unit.Ampere, []string) {
	first := table[0]
	if area < first.area {
		return unit.Ampere(first.byClass[column] * area / first.area), []string{"abyc-vi-b", "below-18"}
	}
	for i := 1; i < len(table); i++ {
		low, high := table[i-1], table[i]
		if area <= high.area {
			y := between(math.Log(low.area), math.Log(low.byClass[column]), math.Log(high.area), math.Log(high.byClass[column]), math.Log(area))
			return unit.Ampere(math.Exp(y)), []string{"abyc-vi-b"}
		}
	}
	return unit.Ampere(table[len(table)-1].byClass[column]), []string{"abyc-vi-b"}
}

func atoi(s string) float64 { return row{"n": s}.number("n") }

// AmbientFactor gives the share of the 30 C current that a wire of a class may
// carry at an ambient: sqrt((class-ambient)/(class-30)), 0 at or above the
// class. It is never more than 1: cooler air earns no extra.
func AmbientFactor(class, ambient unit.Celsius) float64 {
	if ambient >= class {
		return 0
	}
	return math.Min(1, math.Sqrt(float64(class-ambient)/float64(class-30)))
}

type bundleStep struct {
	from   int // wires
	factor float64
	source string
}

var bundleTable = sync.OnceValue(func() []bundleStep {
	var out []bundleStep
	for _, r := range rows("bundle.csv") {
		out = append(out, bundleStep{int(r.number("wires_from")), r.number("factor"), r["source"]})
	}
	return out
})

// BundleFactor gives the share of the single current that each of several
// loaded wires in one bundle may carry (ABYC E-11), and its source.
func BundleFactor(wires int) (float64, string) {
	factor, source := 1.0, "abyc-vi-b"
	for _, r := range bundleTable() {
		if wires >= r.from {
			factor, source = r.factor, r.source
		}
	}
	return factor, source
}

var aircraftTable = sync.OnceValue(func() map[string]row {
	out := map[string]row{}
	for _, r := range rows("aircraft.csv") {
		out[r["awg"]] = r
	}
	return out
})

// AircraftCurrent gives the continuous current of FAA AC 43.13-1B table 11-9
// for a conductor (by the AWG size not larger in area) and its class: 105 C
// column, 150 C, 200 C. The table stands for large bundles at 70 C ambient.
func AircraftCurrent(c Conductor, class unit.Celsius) unit.Ampere {
	column := "amps_105c"
	if class >= 200 {
		column = "amps_200c"
	} else if class >= 150 {
		column = "amps_150c"
	}
	return unit.Ampere(aircraftRow(c).number(column))
}

// AircraftFuse gives the largest fuse and breaker of FAA AC 43.13-1B table
// 11-3 for a conductor; 0 where the table has none.
func AircraftFuse(c Conductor) (fuse, breaker unit.Ampere) {
	r := aircraftRow(c)
	return unit.Ampere(r.number("fuse_a")), unit.Ampere(r.number("breaker_a"))
}

func aircraftRow(c Conductor) row {
	if c.Gauge.System != unit.Metric {
		if r, ok := aircraftTable()[c.Gauge.Size]; ok {
			return r
		}
	}
	return aircraftTable()[NearestBelow(unit.AWG, c.Area).Gauge.Size]
}

// ABYCDropGauge gives the SAE gauge that ABYC E-11 asks for: at least
// 10.75 x amps x loop feet / allowed volts circular mils, then the next SAE
// minimum area up from 18 gauge. Size 3 is not in the series, as in its chart.
// The size is "" when 4/0 is not enough.
func ABYCDropGauge(amps unit.Ampere, loopFeet float64, allowed unit.Volt) string {
	area := ABYCDropArea(amps, loopFeet, allowed)
	for _, c := range sizesOf(unit.SAE) {
		if c.Area >= 0.7 && float64(c.Area) >= float64(area)*0.99999 {
			return c.Gauge.Size
		}
	}
	return ""
}

// ABYCDropArea gives the least area by the same rule.
func ABYCDropArea(amps unit.Ampere, loopFeet float64, allowed unit.Volt) unit.SquareMillimetre {
	return unit.SquareMillimetre(10.75 * float64(amps) * loopFeet / float64(allowed) * squareMMPerCmil)
}
