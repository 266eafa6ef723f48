package fit

import (
	"math"
	"sort"

	"example.com/loomfolio/sizing/choose"
	"example.com/loomfolio/sizing/colour"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/rating"
	"example.com/loomfolio/sizing/route"
	"example.com/loomfolio/sizing/unit"
)

// Reels sorts the wires into reels of one gauge, insulation and colour, thinnest
// gauge first, then by insulation and colour; in a reel the longest wire is cut
// first, so that what is left over serves the short ones. What to buy is a tenth
// more, up to a whole metre (foot on an imperial sheet); common practice.
// Without colours every reel is plain.
func Reels(h *harness.Harness, ways []route.Way, wires []choose.Wire, colours []colour.Choice) []Reel {
	type key struct {
		gauge                    unit.Gauge
		insulation, base, tracer string
	}
	number := map[key]int{}
	var out []Reel
	for i := range wires {
		w := &wires[i]
		var pair colour.Pair
		if i < len(colours) {
			pair = colours[i].Pair
		}
		k := key{w.Gauge, w.Insulation, pair.Base, pair.Tracer}
		n, ok := number[k]
		if !ok {
			n = len(out)
			number[k] = n
			out = append(out, Reel{Gauge: w.Gauge, Insulation: w.Insulation, Base: pair.Base, Tracer: pair.Tracer})
		}
		out[n].Wires = append(out[n].Wires, harness.WireID(i))
		out[n].Need += ways[i].Length
		out[n].Copper += rating.CopperMass(w.Area, ways[i].Length)
	}
	for i := range out {
		out[i].Buy = toBuy(out[i].Need, h.Sheet.Imperial)
		list := out[i].Wires
		sort.SliceStable(list, func(a, b int) bool { return ways[list[a]].Length > ways[list[b]].Length })
	}
	sort.SliceStable(out, func(a, b int) bool { return cutBefore(&out[a], &out[b], wires) })
	return out
}

func toBuy(need unit.Millimetre, imperial bool) unit.Millimetre {
	step := 1000.0
	if imperial {
		step = 304.8
	}
	return unit.Millimetre(step * math.Ceil(float64(need)*1.1/step-1e-9))
}

func cutBefore(a, b *Reel, wires []choose.Wire) bool {
	areaA, areaB := wires[a.Wires[0]].Area, wires[b.Wires[0]].Area
	switch {
	case areaA != areaB:
		return areaA < areaB
	case a.Gauge != b.Gauge:
		return a.Gauge.String() < b.Gauge.String()
	case a.Insulation != b.Insulation:
		return a.Insulation < b.Insulation
	case a.Base != b.Base:
		return a.Base < b.Base
	}
	return a.Tracer < b.Tracer
}
