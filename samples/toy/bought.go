package toy

import (
	"math"

	"example.com/loomfolio/layout/page"
	"example.com/loomfolio/sizing/fit/fitted"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/purchase"
	"example.com/loomfolio/sizing/result"
	"example.com/loomfolio/sizing/unit"
)

// Bought is a harness with what was weighed for what is bought made up: a choice for each number of sizes down
// from those of its reels, one of them taken, one refused; pairs on the sleeve, bounds, work and left-overs.
func Bought(a page.Ask, buy string) page.Ask {
	r := *a.R
	a.R = &r
	sizes := gauges(r.Reels)
	total := page.Total(r.Reels)
	p := purchase.Purchase{
		For: buy, Least: total.Copper, Why: "the least sum of reels, sleeves and copper",
		Weights: purchase.Weights{Tracer: 0.5, PartPair: 0.25, RunPair: 0.05, Copper: 250, Metre: 0.002},
		Taught:  "neighbours within 2 positions in panels, plugs and modules; all at other parts",
	}
	for n := len(sizes); n > 0; n-- {
		p.Curve = append(p.Curve, choice(sizes, n, total.Copper))
	}
	p.Taken = len(p.Curve) / 2
	if last := p.Taken + 1; last < len(p.Curve) && buy == "few" {
		p.Curve[last].Refused = "warning short-too-slow at 7A"
	}
	for i, s := range sizes {
		p.Bounds = append(p.Bounds, purchase.Bound{Gauge: s, Reels: 9 - min(i, 7), Least: 8 - min(i, 7) + i%2})
	}
	p.Pairs = pairs(a, p.Curve[p.Taken])
	p.Cost = cost(&r, total)
	for i := range r.Reels {
		if o := &r.Reels[i]; o.ToCut() > 0 && o.Buy > o.Need {
			p.Left = append(p.Left, purchase.Left{Gauge: o.Gauge, Insulation: o.Insulation, Base: o.Base, Tracer: o.Tracer, Lengths: []unit.Millimetre{o.Buy - o.Need}})
		}
	}
	r.Purchase = p
	return a
}

func gauges(reels []fitted.Reel) []unit.Gauge {
	var out []unit.Gauge
	for _, g := range page.Gauges(reels) {
		if n := len(out); n == 0 || out[n-1] != g[0].Gauge {
			out = append(out, g[0].Gauge)
		}
	}
	return out
}

// choice drops every other size from the thin end until n are left.
func choice(sizes []unit.Gauge, n int, copper unit.Gram) purchase.Choice {
	lost := float64(len(sizes) - n)
	c := purchase.Choice{
		Reels: 2 + 4*n, Tracers: n, Bound: 2 + 4*n, PartPairs: 2 * len(sizes) / n, RunPairs: 3 * len(sizes) / n,
		Copper: unit.Gram(float64(copper) * (1 + 0.012*math.Pow(lost, 1.8))),
	}
	for i, s := range sizes {
		if left := len(sizes) - i; left <= n-len(c.Sizes) || i%2 == 0 && len(c.Sizes) < n {
			c.Sizes = append(c.Sizes, s)
		}
	}
	c.Sum = float64(c.Reels) + 0.5*float64(c.Tracers) + 0.25*float64(c.PartPairs) + 0.05*float64(c.RunPairs) + float64(c.Copper)/250
	return c
}

// pairs takes so many wires in a row as the choice says, each with the one before it; the first by rule.
func pairs(a page.Ask, c purchase.Choice) []purchase.Pair {
	var out []purchase.Pair
	for i := 1; i < len(a.H.Wires) && len(out) <= c.PartPairs+c.RunPairs; i++ {
		p := purchase.Pair{A: harness.WireID(i - 1), B: harness.WireID(i), Part: harness.None, Run: harness.None, Distance: 4 + float64(i%7), ByRule: len(out) == 0}
		if part := a.H.PartOf(a.H.Wires[i].From); part != nil && len(out) <= c.PartPairs {
			p.Part = part.ID
		} else if len(a.H.Runs) > 0 {
			p.Run = harness.RunID(i % len(a.H.Runs))
		} else {
			continue
		}
		out = append(out, p)
	}
	return out
}

// cost counts without prices.
func cost(r *result.Result, total fitted.Reel) purchase.Cost {
	c := purchase.Cost{Metres: float64(total.Need) / 1000, Copper: total.Copper, Wire: total.Copper * 1.3, Cover: 640, Spread: 0.3}
	for _, it := range r.Shopping {
		if it.Unit == "pcs" {
			c.Pieces += int(it.Count)
		}
	}
	n := float64(len(total.Wires))
	for _, o := range []purchase.Operation{
		{Key: "cut", Name: "cutting and marking", Count: n, Per: "wire", Each: 1.5}, {Key: "end", Name: "stripping and crimping", Count: 2 * n, Per: "end", Each: 1.2},
		{Key: "lay", Name: "laying", Count: n, Per: "wire", Each: 1}, {Key: "tie", Name: "ties", Count: 54, Per: "tie", Each: 0.5}, {Key: "test", Name: "testing", Count: n, Per: "wire", Each: 0.9},
	} {
		o.Minutes = o.Count * o.Each
		c.Operation, c.Minutes = append(c.Operation, o), c.Minutes+o.Minutes
	}
	return c
}

// WithPrices gives what is bought prices: sums by group and by circuit.
func WithPrices(a page.Ask) page.Ask {
	r := *a.R
	r.Shopping = append([]fitted.Item(nil), r.Shopping...)
	h := *a.H
	h.Practice.Prices, h.Practice.Currency = []harness.Price{{Item: "wire", Each: 1}}, "EUR"
	a.H, a.R = &h, &r
	c := &r.Purchase.Cost
	c.Currency, c.Priced = "EUR", true
	r.Purchase.Weights.Money = true
	for i := range r.Shopping {
		it := &r.Shopping[i]
		if i%9 == 8 {
			c.Unpriced++
			continue
		}
		it.Priced, it.Sum = true, it.Buy*0.85
		c.Money += it.Sum
		if n := len(c.Groups); n == 0 || c.Groups[n-1].Name != it.Group {
			c.Groups = append(c.Groups, purchase.Sum{Name: it.Group})
		}
		g := &c.Groups[len(c.Groups)-1]
		g.Money += it.Sum
		if it.Unit == "m" {
			g.Metres += it.Buy
		} else {
			g.Pieces += int(it.Buy)
		}
	}
	for i := range h.Circuits {
		c.Circuits = append(c.Circuits, purchase.Sum{Name: h.Circuits[i].Key, Metres: 4 + float64(i%5), Pieces: 6 + i%7, Mass: 120, Money: c.Money / float64(len(h.Circuits))})
	}
	return a
}

// FewReels has at most so many colours of each size and insulation, by laying reels together: for sheets that are to be
// tried with few.
func FewReels(a page.Ask, most int) page.Ask {
	r := *a.R
	r.Reels = nil
	for _, group := range page.Gauges(a.R.Reels) {
		at := len(r.Reels)
		for i, o := range group {
			if i < most {
				r.Reels = append(r.Reels, o)
				continue
			}
			into := &r.Reels[at+i%most]
			into.Wires = append(into.Wires[:len(into.Wires):len(into.Wires)], o.Wires...)
			into.Built, into.Need, into.Buy, into.Copper = into.Built+o.Built, into.Need+o.Need, into.Buy+o.Buy, into.Copper+o.Copper
		}
	}
	a.R = &r
	return a
}
