package sizing

import (
	"cmp"
	"fmt"
	"slices"

	"example.com/loomfolio/sizing/choose"
	"example.com/loomfolio/sizing/choose/bought"
	"example.com/loomfolio/sizing/choose/bought/fuses"
	"example.com/loomfolio/sizing/choose/chosen"
	"example.com/loomfolio/sizing/choose/finding"
	"example.com/loomfolio/sizing/choose/misuse"
	"example.com/loomfolio/sizing/choose/reason"
	"example.com/loomfolio/sizing/colour"
	"example.com/loomfolio/sizing/fit"
	"example.com/loomfolio/sizing/fit/fitted"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/purchase"
	"example.com/loomfolio/sizing/purchase/plan"
	"example.com/loomfolio/sizing/rating"
	"example.com/loomfolio/sizing/route"
	"example.com/loomfolio/sizing/source"
	"example.com/loomfolio/sizing/unit"
)

// made is a loom as it is to be built: its wires with sizes, colours and fittings.
type made struct {
	laying
	chosen   chosen.Chosen
	colours  []colour.Choice
	tracing  colour.Report
	fitted   fitted.Fitted
	problems source.Problems
	purchase purchase.Purchase
}

// build makes the loom as its practice says. High is what speaks against doing so at all; the
// choices are empty where a wire has no length.
func build(h *harness.Harness) (m made, high source.Problems, err error) {
	l, err := least(h)
	if err != nil || l.settled == nil {
		return made{laying: l, problems: l.lengths}, nil, err
	}
	if high := outOfScope(h, l.settled.States); high != nil {
		return made{}, high, nil
	}
	if !h.Practice.Buy.Fewest() {
		return plainly(h, l), nil, nil
	}
	if m, ok, err := unkept(h); ok || err != nil {
		return m, nil, err
	}
	m, err = fewly(h, l)
	return m, nil, err
}

// plainly makes the loom of the least sizes, all wires that meet told apart by their colours.
func plainly(h *harness.Harness, l laying) made {
	m := made{laying: l}
	var sizes, colours, fits source.Problems
	m.chosen, sizes = l.chosen(nil)
	m.colours, m.tracing, colours = coloured(h, l.ways, gauges(m.chosen.Wires))
	m.fitted, fits = fit.All(h, l.ways, m.chosen)
	m.problems = slices.Concat(sizes, colours, fits)
	m.purchase = purchase.Purchase{For: "clear"}
	return m
}

// mostTried is how many choices the engine settles again at most; the lightest besides.
const mostTried = 4

// fewly makes the loom for which few sizes and reels are bought: the best choice with which the
// engine finds nothing that it does not find with the least sizes. Where none is left, these,
// all told apart by their colours.
func fewly(h *harness.Harness, l laying) (made, error) {
	b := &buyer{h: h, least: l, shop: colour.NewShop(h, l.ways, locks(h))}
	options := plan.Weigh(h, l.ways, l.settled, b.shop)
	for _, o := range tried(options) {
		m, refused, err := b.try(o)
		if err != nil || refused == "" {
			b.weighed(&m, options, o)
			return m, err
		}
		o.Refused = refused
	}
	m := plainly(h, l)
	b.weighed(&m, options, nil)
	return m, nil
}

// tried gives the best few options, and last the one with the least copper.
func tried(options []*plan.Option) []*plan.Option {
	out := slices.Clone(options[:min(mostTried, len(options))])
	if len(options) > mostTried {
		out = append(out, slices.MinFunc(options[mostTried:], func(a, b *plan.Option) int { return cmp.Compare(a.Copper, b.Copper) }))
	}
	return out
}

// buyer is the search for what is bought.
type buyer struct {
	h     *harness.Harness
	least laying
	shop  *colour.Shop
	sizes source.Problems // what is wrong with the least sizes, once it is asked for; nil before
	fits  source.Problems // what is wrong with what is fitted to them, likewise
}

// try lets the engine settle on an option, and says what speaks against it.
func (b *buyer) try(o *plan.Option) (m made, refused string, err error) {
	l, err := b.again(o.Plan)
	if err != nil {
		return made{}, "", err
	}
	m = made{laying: l}
	var sizes, fits source.Problems
	m.chosen, sizes = l.chosen(b.least.settled)
	m.fitted, fits = fit.All(b.h, l.ways, m.chosen)
	m.problems = slices.Concat(sizes, fits)
	if refused = b.grown(sizes, fits); refused != "" {
		return m, refused, nil
	}
	b.colour(&m, o)
	return m, "", nil
}

// again settles on a plan, and on the fuses that go with its sizes.
func (b *buyer) again(p choose.Plan) (laying, error) {
	l, err := b.settled(b.least.settled, p)
	if err != nil {
		return l, err
	}
	if p.Fuses = fuses.Plan(l.settled, plan.Weights(b.h).Copper); p.Fuses == nil {
		return l, nil
	}
	return b.settled(l.settled, p)
}

func (b *buyer) settled(from *choose.Settled, p choose.Plan) (laying, error) {
	return laid(b.h, b.least.ways, func(ways []route.Way) (*choose.Settled, error) { return choose.Again(ways, from, p) })
}

// colour gives the wires of a made loom their colours: those of the option, sought again where
// the engine came to other sizes.
func (b *buyer) colour(m *made, o *plan.Option) {
	at, pairs := plan.Bought(b.h, gauges(m.chosen.Wires)), o.Pairs
	if !slices.Equal(gauges(m.chosen.Wires), o.Gauges) {
		*o = *plan.Again(b.h, m.ways, b.least.settled, b.shop, o, gauges(m.chosen.Wires))
		pairs = o.Pairs
	}
	choices, report, alike, bounds, problems := b.shop.Settle(at, pairs, plan.Ask(b.h))
	m.colours, m.tracing, m.problems = choices, report, append(m.problems, problems...)
	for _, a := range alike {
		m.purchase.Pairs = append(m.purchase.Pairs, purchase.Pair(a))
	}
	for _, x := range bounds {
		m.purchase.Bounds = append(m.purchase.Bounds, purchase.Bound{Gauge: x.Gauge, Insulation: x.Insulation, Reels: x.Reels, Least: x.Least, Exact: x.Exact})
	}
}

// grown names a finding that there is more often than with the least sizes, "" for none. What
// is wrong with those is looked for where something is found at all.
func (b *buyer) grown(sizes, fits source.Problems) string {
	if len(sizes) > 0 && b.sizes == nil {
		c := reason.Figures(b.least.settled)
		b.sizes = slices.Concat(source.Problems{}, b.least.lengths, finding.All(b.least.settled, &c), misuse.All(b.least.settled, b.least.settled, &c))
	}
	if len(fits) > 0 && b.fits == nil {
		_, found := fit.All(b.h, b.least.ways, reason.Figures(b.least.settled))
		b.fits = slices.Concat(source.Problems{}, found)
	}
	if worse := slices.Concat(bought.Worse(b.sizes, sizes), bought.Worse(b.fits, fits)); len(worse) > 0 {
		return fmt.Sprintf("%s [%s]", worse[0].Summary, worse[0].Slug)
	}
	return ""
}

// weighed fills in what was weighed, most sizes first, and what was taken, nil for the least.
func (b *buyer) weighed(m *made, options []*plan.Option, taken *plan.Option) {
	p := &m.purchase
	p.For, p.Weights, p.Taken, p.Taught = b.h.Practice.Buy.For, plan.Weights(b.h), -1, colour.Taught(b.h)
	for i := range b.h.Wires {
		if b.h.Wires[i].Existing {
			continue
		}
		p.Least += rating.CopperMass(b.least.settled.Size(harness.WireID(i)).Conductor.Area, b.least.ways[i].Length)
	}
	list := slices.Clone(options)
	slices.SortStableFunc(list, func(a, b *plan.Option) int { return len(b.Sizes) - len(a.Sizes) })
	for i, o := range list {
		p.Curve = append(p.Curve, o.Choice)
		if o == taken {
			p.Taken = i
		}
	}
	p.Why = plan.Why(b.h, options, taken)
}

// gauges lists those of the wires.
func gauges(wires []chosen.Wire) []unit.Gauge {
	out := make([]unit.Gauge, len(wires))
	for i, w := range wires {
		out[i] = w.Gauge
	}
	return out
}
