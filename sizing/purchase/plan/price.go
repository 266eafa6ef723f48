package plan

import (
	"math"
	"slices"

	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/unit"
)

// prices are those of wire.
type prices struct {
	list []harness.Price
	foot bool
	sold unit.Millimetre
}

func pricesOf(h *harness.Harness) prices {
	p := prices{foot: h.Sheet.Imperial, sold: hank}
	for _, x := range h.Practice.Prices {
		if x.Item == "wire" {
			p.list = append(p.list, x)
		}
	}
	if len(h.Practice.Sold) > 0 {
		p.sold = slices.Min(h.Practice.Sold)
	}
	return p
}

func (p prices) any() bool { return len(p.list) > 0 }

// each gives the price of a metre of a gauge: its own, else that of all wire, else the dearest.
func (p prices) each(g unit.Gauge) float64 {
	general, dearest := -1.0, 0.0
	for _, x := range p.list {
		switch {
		case x.Gauge == g:
			return p.metre(x.Each)
		case !x.Gauge.Given():
			general = x.Each
		}
		dearest = max(dearest, x.Each)
	}
	if general >= 0 {
		return p.metre(general)
	}
	return p.metre(dearest)
}

func (p prices) metre(each float64) float64 {
	if p.foot {
		return each / 0.3048
	}
	return each
}

// of gives what a reel costs: the shortest length that is sold so often as it is needed.
func (p prices) of(g unit.Gauge, need unit.Millimetre) float64 {
	if !p.any() || need <= 0 {
		return 0
	}
	return p.each(g) * float64(p.sold) / 1000 * math.Ceil(float64(need/p.sold)-1e-9)
}

// reel gives the money that counts as one reel: the shortest length of the cheapest wire.
func (p prices) reel() float64 {
	cheapest := math.Inf(1)
	for _, x := range p.list {
		cheapest = min(cheapest, p.metre(x.Each))
	}
	return max(cheapest*float64(p.sold)/1000, 1e-9)
}
