// Package plan chooses what is bought above what is least: the sizes of wire, a colour for
// every wire, and the single wires that take a thicker size since that is bought anyway. In:
// the model, the ways, the least sizes as settled, the question of colours. Out: the
// choices that were weighed, the best first, each with the plan that the engine is to keep.
// Nothing here solves a circuit: whether a choice stands is for the engine to say, on the
// sizes that come of it.
//
// Method: for every number of sizes the set with the least copper (package ladder, exactly);
// for each set a colouring; one objective for all (see Weights); for the best few of them a
// longer search, in which wires that are alone on a reel are lifted to a reel that is bought
// anyway, and the colours sought once more.
package plan

import (
	"cmp"
	"slices"

	"example.com/loomfolio/sizing/choose"
	"example.com/loomfolio/sizing/choose/bought"
	"example.com/loomfolio/sizing/colour"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/purchase"
	"example.com/loomfolio/sizing/route"
	"example.com/loomfolio/sizing/unit"
)

// Option is one choice with what it means for every wire.
type Option struct {
	purchase.Choice
	Gauges []unit.Gauge  // by WireID
	Pairs  []colour.Pair // by WireID
	Plan   choose.Plan
	set    bought.Set
	eased  float64
	rule   *[2]int // pairs by rule at parts and in runs; nil before they are counted
}

// Moves of the search for colours: on each set of sizes, and on those that are looked at
// longer, one after the other; how many these are.
const (
	quickMoves = 1000
	finalists  = 2
)

var longMoves = [...]int{20000, 30000}

// eases are by how much pairs and copper count less, one after the other, until the budgets
// of the practice are kept.
var eases = [...]float64{1, 2, 4, 8, 16, 32}

// Weigh gives the choices, best first: those that keep the budgets of the practice before
// those that do not, then by the sum of the objective. Where a budget of reels is not kept,
// pairs on the sleeve and copper count half as much, and half again.
func Weigh(h *harness.Harness, ways []route.Way, least *choose.Settled, shop *colour.Shop) []*Option {
	w := newWeighing(h, ways, least, shop)
	for _, by := range eases {
		w.ease(by)
		if out := w.weigh(); len(out) == 0 || by == eases[len(eases)-1] || h.Practice.Buy.Reels == 0 || out[0].Reels <= h.Practice.Buy.Reels {
			return out
		}
	}
	return nil
}

// weigh colours the set of each number of sizes, and looks longer at the best few.
func (w *weighing) weigh() []*Option {
	var out []*Option
	var start []colour.Pair
	for _, set := range w.sets() {
		o := w.option(set, start, quickMoves)
		start = o.Pairs
		out = append(out, o)
	}
	w.sort(out)
	for i := range min(finalists, len(out)) {
		w.polish(out[i])
	}
	w.sort(out)
	return out
}

// Again measures an option with the gauges that the engine came to, its colours sought once
// more from those that it has.
func Again(h *harness.Harness, ways []route.Way, least *choose.Settled, shop *colour.Shop, o *Option, gauges []unit.Gauge) *Option {
	w := newWeighing(h, ways, least, shop)
	w.ease(o.eased)
	next := &Option{set: o.set, eased: o.eased, Gauges: gauges}
	w.measure(next, shop.Of(w.bought(gauges), o.Pairs, w.ask))
	w.better(next, longMoves[0], false)
	return next
}

// sort puts the best first.
func (w *weighing) sort(list []*Option) {
	slices.SortStableFunc(list, func(a, b *Option) int {
		return cmp.Or(cmp.Compare(w.over(a), w.over(b)), cmp.Compare(a.Sum, b.Sum), cmp.Compare(len(a.Sizes), len(b.Sizes)))
	})
}

// over tells how far a choice is above the budgets of the practice, in sizes and reels.
func (w *weighing) over(o *Option) int {
	most := func(n, limit int) int {
		if limit <= 0 {
			return 0
		}
		return max(0, n-limit)
	}
	return most(len(o.Sizes), w.h.Practice.Buy.Sizes) + most(o.Reels, w.h.Practice.Buy.Reels)
}

// option colours a set of sizes.
func (w *weighing) option(set bought.Set, start []colour.Pair, moves int) *Option {
	o := &Option{set: set, eased: w.eased, Gauges: w.menu.Sizes(set)}
	w.colour(o, start, moves)
	return o
}

// colour seeks colours for the sizes in hand and measures them. Pairs by rule count against the
// limits too, up to half of these.
func (w *weighing) colour(o *Option, start []colour.Pair, moves int) {
	ask := w.limited(o)
	ask.Start, ask.Moves = start, moves
	w.measure(o, w.shop.Fewest(w.bought(o.Gauges), ask))
}

// limited gives what is asked of the colours with what the pairs by rule leave of the limits.
func (w *weighing) limited(o *Option) colour.Ask {
	ask := w.ask
	if ask.MostPart < 0 && ask.MostRun < 0 {
		return ask
	}
	if o.rule == nil {
		f := w.shop.Of(w.bought(o.Gauges), make([]colour.Pair, len(o.Gauges)), ask)
		o.rule = &[2]int{f.RuleParts, f.RuleRuns}
	}
	ask.MostPart, ask.MostRun = left(ask.MostPart, o.rule[0]), left(ask.MostRun, o.rule[1])
	return ask
}

// left gives what is left of a limit, no less than half of it; below 0 for none.
func left(most, by int) int {
	if most < 0 {
		return most
	}
	return max(most-by, most/2)
}

// measure takes over what was found for an option.
func (w *weighing) measure(o *Option, f colour.Found) {
	m := w.sum(o.Gauges, f)
	o.Pairs, o.Sizes = f.Pairs, w.sizesOf(o.Gauges)
	o.Reels, o.Tracers, o.Copper, o.Sum, o.Money = m.reels, m.tracers, m.copper, m.sum, m.money
	o.PartPairs, o.RunPairs, o.Bound = f.PartPairs, f.RunPairs, max(f.Bound, o.Bound)
	o.RuleParts, o.RuleRuns = f.RuleParts, f.RuleRuns
	o.Plan = w.menu.Plan(o.set)
	o.Plan.Least = o.Gauges
}

// polish looks longer: the colours are sought with more and more moves, and wires that are
// alone on a reel are lifted.
func (w *weighing) polish(o *Option) {
	for i, moves := range longMoves {
		w.better(o, moves, i > 0)
		w.lift(o)
	}
}

// better seeks the colours of an option anew, from those that it has or from none, and keeps
// those that it has unless others are cheaper.
func (w *weighing) better(o *Option, moves int, anew bool) {
	next, start := *o, o.Pairs
	if anew {
		start = nil
	}
	w.colour(&next, start, moves)
	if next.Sum < o.Sum {
		*o = next
	}
}
