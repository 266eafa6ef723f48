package plan

import (
	"cmp"
	"math"
	"slices"

	"example.com/loomfolio/sizing/choose"
	"example.com/loomfolio/sizing/choose/bought"
	"example.com/loomfolio/sizing/colour"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/purchase"
	"example.com/loomfolio/sizing/rating"
	"example.com/loomfolio/sizing/route"
	"example.com/loomfolio/sizing/unit"
)

// Weights of the objective in reels. Our own choices (judgement, not published), by the knee of the
// curves of the samples: a tracer is ordered where a whole colour lies on the shelf; the
// last reels are bought for a handful of pairs in runs; 150 g of copper are 17 m of
// 1 mm2, about what two hanks hold.
const (
	tracerWeight = 0.5
	partWeight   = 0.25
	runWeight    = 0.06
	metreWeight  = 0.05
	sizeWeight   = 1.5                   // a size more to keep, to strip and to crimp; shops keep three to six
	reelMass     = 150.0                 // g
	hank         = unit.Millimetre(5000) // the shortest length that is sold where the practice says none; common practice, no source
	wiresPerPart = 25                    // a pair at a part that only the sleeve tells apart is allowed for so many wires
	runShare     = 0.92                  // and so many in runs as this by the root of their number: few wires share fewer runs
	overPart     = 1.0                   // what each pair above that counts besides, at a part
	overRun      = 0.25                  // and in a run
)

// weighing is one question.
type weighing struct {
	h      *harness.Harness
	ways   []route.Way
	least  *choose.Settled
	shop   *colour.Shop
	menu   *bought.Menu
	ask    colour.Ask
	eased  float64 // by how much pairs and copper count less
	mass   float64 // g of copper that a reel is worth
	prices prices
	core   []bool
	kinds  *kinds
	areas  map[unit.Gauge]unit.SquareMillimetre
	kept   map[reel]bool // that wires of the record are of; true where one of these is built
}

func newWeighing(h *harness.Harness, ways []route.Way, least *choose.Settled, shop *colour.Shop) *weighing {
	w := &weighing{
		h: h, ways: ways, least: least, shop: shop, menu: bought.Of(least),
		prices: pricesOf(h), core: h.OffReels(), areas: map[unit.Gauge]unit.SquareMillimetre{},
	}
	w.kinds, w.kept = kindsOf(least, w.core, w.area), keptReels(h, w.core)
	w.ease(1)
	return w
}

// ease lets pairs and copper count less than the weights say.
func (w *weighing) ease(by float64) {
	w.eased, w.ask, w.mass = by, Ask(w.h), float64(Weights(w.h).Copper)*by
	w.ask.PartPair, w.ask.RunPair = w.ask.PartPair/by, w.ask.RunPair/by
	if buy := w.h.Practice.Buy; by > 1 && buy.Parts < 0 {
		w.ask.MostPart = -1
	}
	if buy := w.h.Practice.Buy; by > 1 && buy.Runs < 0 {
		w.ask.MostRun = -1
	}
}

// Ask gives what is asked of the colours: the weights, and how many pairs may be told apart
// by their number sleeves alone, by the practice or by the number of wires.
func Ask(h *harness.Harness) colour.Ask {
	buy := h.Practice.Buy
	a := colour.Ask{
		Numbers: buy.For == "numbers", Tracer: tracerWeight, PartPair: partWeight, RunPair: runWeight,
		MostPart: len(h.Wires) / wiresPerPart, MostRun: int(runShare * math.Sqrt(float64(len(h.Wires)))),
	}
	if apart := h.Practice.Apart; apart.Near == 0 && apart != (harness.Apart{}) || apart.Runs == "colour" {
		a.MostPart = 0 // who asks for more than is built in wants colours
	}
	if buy.Parts >= 0 {
		a.MostPart = buy.Parts
	}
	if buy.Runs >= 0 {
		a.MostRun = buy.Runs
	}
	if a.Numbers {
		a.MostPart, a.MostRun = -1, -1
	}
	return a
}

// Bought gives the reel of each wire but for its colour. Gauges are by WireID.
func Bought(h *harness.Harness, gauges []unit.Gauge) []colour.Bought {
	out := make([]colour.Bought, len(gauges))
	for i := range out {
		out[i] = colour.Bought{Gauge: gauges[i], Insulation: h.Wires[i].Insulation}
	}
	return out
}

// Weights gives those in force.
func Weights(h *harness.Harness) purchase.Weights {
	w := purchase.Weights{Money: pricesOf(h).any(), Tracer: tracerWeight, PartPair: partWeight, RunPair: runWeight, Copper: reelMass, Metre: metreWeight, Size: sizeWeight, Kind: kindWeight}
	if m := h.Practice.Buy.ReelMass; m > 0 {
		w.Copper = m
	}
	return w
}

// sets gives for each number of sizes the lightest set, most sizes first; where sizes are there
// already also the lightest with all of these, not counted. Where nothing is cut off reels any
// more there is one set, of none.
func (w *weighing) sets() []bought.Set {
	if len(w.menu.Groups) == 0 {
		return []bought.Set{{Steps: map[string][]int{}}}
	}
	sets := w.menu.Curve(nil)
	if len(w.h.Practice.Stock) > 0 || len(w.kept) > 0 {
		sets = append(sets, w.menu.Curve(w.there)...)
	}
	slices.SortStableFunc(sets, func(a, b bought.Set) int {
		x, y := a.All(), b.All()
		return cmp.Or(cmp.Compare(len(y), len(x)), slices.CompareFunc(x, y, func(p, q [2]int) int { return slices.Compare(p[:], q[:]) }))
	})
	return slices.CompactFunc(sets, func(a, b bought.Set) bool { return slices.Equal(a.All(), b.All()) })
}

func (w *weighing) bought(gauges []unit.Gauge) []colour.Bought { return Bought(w.h, gauges) }

// area gives a gauge's copper, mm2.
func (w *weighing) area(g unit.Gauge) unit.SquareMillimetre {
	a, known := w.areas[g]
	if !known {
		a = rating.AreaOf(g)
		w.areas[g] = a
	}
	return a
}

// built tells a wire that is in the loom already.
func (w *weighing) built(id harness.WireID) bool { return w.h.Wires[id].Kept.State == harness.Built }

// sizesOf lists the gauges, thinnest first, each once.
func (w *weighing) sizesOf(gauges []unit.Gauge) []unit.Gauge {
	var out []unit.Gauge
	for i, g := range gauges {
		if !w.core[i] && !slices.Contains(out, g) {
			out = append(out, g)
		}
	}
	slices.SortStableFunc(out, func(a, b unit.Gauge) int {
		switch x, y := w.area(a), w.area(b); {
		case x < y:
			return -1
		case x > y:
			return 1
		}
		return 0
	})
	return out
}
