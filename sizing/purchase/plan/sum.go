package plan

import (
	"math"

	"example.com/loomfolio/sizing/colour"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/rating"
	"example.com/loomfolio/sizing/unit"
)

// reel is what wires of one gauge, insulation and colour are cut from.
type reel struct {
	gauge      unit.Gauge
	insulation string
	pair       colour.Pair
}

// needed is how much of a reel is needed beyond what lies on the shelf.
type needed struct {
	reel
	length unit.Millimetre
}

// needs adds up what is cut, in the order of the wires; what is built and the cores of cables
// are on no reel.
func (w *weighing) needs(gauges []unit.Gauge, pairs []colour.Pair) []needed {
	number := map[reel]int{}
	var out []needed
	for i, g := range gauges {
		if w.core[i] || w.built(harness.WireID(i)) {
			continue
		}
		r := reel{g, w.h.Wires[i].Insulation, pairs[i]}
		n, known := number[r]
		if !known {
			n = len(out)
			number[r], out = n, append(out, needed{reel: r})
		}
		out[n].length += w.ways[i].Length
	}
	for i := range out {
		out[i].length = max(0, out[i].length-w.onShelf(out[i].reel))
	}
	return out
}

// onShelf gives how much of a reel is there: enough of a colour whose lengths are not said.
func (w *weighing) onShelf(r reel) unit.Millimetre {
	sum := unit.Millimetre(0)
	for _, s := range w.h.Practice.Stock {
		if s.Gauge != r.gauge || r.insulation != w.h.Practice.Insulation {
			continue
		}
		for _, c := range s.Colours {
			if (colour.Pair{Base: c.Base, Tracer: c.Tracer}) != r.pair {
				continue
			}
			if len(c.Left) == 0 {
				return unit.Millimetre(math.MaxInt32)
			}
			for _, l := range c.Left {
				sum += l
			}
		}
	}
	return sum
}

// measured is what sizes and colours come to.
type measured struct {
	reels, tracers int
	copper         unit.Gram // of all wires
	money          float64   // of the wire, where prices are given
	sum            float64   // of the objective
}

// sum measures sizes with their colours.
func (w *weighing) sum(gauges []unit.Gauge, f colour.Found) measured {
	var m measured
	for i, g := range gauges {
		m.copper += rating.CopperMass(w.area(g), w.ways[i].Length)
	}
	metres, reels := 0.0, 0.0
	for _, n := range w.needs(gauges, f.Pairs) {
		if n.length <= 0 {
			continue
		}
		if m.reels++; n.pair.Tracer != "" {
			m.tracers++
		}
		reels += w.counts(n.reel)
		metres += math.Ceil(float64(n.length)/1000 - 1e-9)
		m.money += w.prices.of(n.gauge, n.length)
	}
	m.sum = w.pairs(f) + kindWeight*float64(len(w.kinds.uses(gauges))) + sizeWeight*float64(len(w.sizesOf(gauges)))
	if w.prices.any() {
		m.sum += m.money / w.prices.reel()
	} else {
		m.sum += reels + float64(m.copper)/w.mass + metres*metreWeight
	}
	m.money = math.Round(100*m.money) / 100
	return m
}

// pairs is what the pairs count that only the sleeve tells apart; nothing where sleeves tell
// all wires apart.
func (w *weighing) pairs(f colour.Found) float64 {
	if w.ask.Numbers {
		return 0
	}
	over := func(n, most int) float64 {
		if most < 0 {
			return 0
		}
		return float64(max(0, n-most))
	}
	return w.ask.PartPair*float64(f.PartPairs) + w.ask.RunPair*float64(f.RunPairs) +
		overPart*over(f.PartPairs, left(w.ask.MostPart, f.RuleParts)) + overRun*over(f.RunPairs, left(w.ask.MostRun, f.RuleRuns))
}
