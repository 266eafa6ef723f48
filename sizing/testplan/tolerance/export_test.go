package tolerance

import (
	"slices"

	"example.com/loomfolio/sizing/circuit"
)

// Spans are those that vary, without outcomes.
func (l *Limits) Spans() []Span {
	var out []Span
	for _, s := range l.spans {
		if s[0].Figure != Stands {
			out = append(out, s)
		}
	}
	return out
}

// Worst is the network at the corner to which a reading's slopes point, up or down.
func (l *Limits) Worst(a, b int, up bool) circuit.Network {
	c := &l.corners[0]
	z := slices.Clone(c.gains.Of(a, b))
	at := make([]float64, len(l.spans))
	for i, span := range l.spans {
		var one corner = *c
		one.pushes = nil
		one.push(&c.network, []Span{span})
		low, high := 0.0, 0.0
		for _, p := range one.pushes {
			by := z[p.b] - z[p.a]
			low, high = low+by*p.low, high+by*p.high
		}
		if at[i] = 1; (low > high) == up {
			at[i] = -1
		}
	}
	return Set(c.network, l.spans, func(span int, _ Setting) float64 { return at[span] })
}
