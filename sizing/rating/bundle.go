package rating

import (
	"math"
	"sort"
	"sync"

	"example.com/loomfolio/sizing/unit"
)

// BundleDiameter gives the diameter of the smallest round bundle of wires and
// the source: the best known packing for up to 20 equal wires, else 1.2 times
// the root of the summed squares, never less than the two thickest side by side
// nor than the packing of as many of the thinnest.
func BundleDiameter(diameters []unit.Millimetre) (unit.Millimetre, string) {
	if len(diameters) == 0 {
		return 0, "packing"
	}
	d := make([]float64, len(diameters))
	sum := 0.0
	for i, v := range diameters {
		d[i] = float64(v)
		sum += d[i] * d[i]
	}
	sort.Float64s(d)
	thin, thick := d[0], d[len(d)-1]
	ratio, tabled := packing(len(d))
	if tabled && thick-thin < 1e-9 {
		return unit.Millimetre(ratio * thick), "packing"
	}
	over := math.Max(1.2*math.Sqrt(sum), d[len(d)-2]+thick)
	if tabled {
		over = math.Min(math.Max(over, ratio*thin), ratio*thick)
	}
	return unit.Millimetre(math.Max(over, d[len(d)-2]+thick)), "bundle-rule"
}

func packing(wires int) (float64, bool) {
	ratio, ok := packingTable()[wires]
	return ratio, ok
}

var packingTable = sync.OnceValue(func() map[int]float64 {
	out := map[int]float64{}
	for _, r := range rows("packing.csv") {
		out[int(r.number("wires"))] = r.number("bundle_over_wire")
	}
	return out
})

// SpliceSize gives the AWG size of the barrel for several conductors: their
// areas added up, the size that holds the sum or the next larger
// (NASA-STD-8739.4 19.11). "" when 4/0 is too small.
func SpliceSize(areas []unit.SquareMillimetre) (sum unit.SquareMillimetre, size string) {
	for _, a := range areas {
		sum += a
	}
	for _, c := range sizesOf(unit.AWG) {
		if float64(c.Area) >= float64(sum)*0.9999 {
			return sum, c.Gauge.Size
		}
	}
	return sum, ""
}

// MostRings is how many terminals one stud may hold (FAA AC 43.13-1B 11-174).
const MostRings = 4

// CoverBore gives the bore of a cover: 25 % over the bundle (FAA AC 43.13-1B 11-249).
func CoverBore(bundle unit.Millimetre) unit.Millimetre { return bundle * 1.25 }
