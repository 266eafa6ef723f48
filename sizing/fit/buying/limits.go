package buying

import (
	"fmt"

	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/purchase"
	"example.com/loomfolio/sizing/source"
	"example.com/loomfolio/sizing/unit"
)

// Limits tells of the sizes and reels that the description asks for and that cannot be kept.
func Limits(h *harness.Harness, p *purchase.Purchase) source.Problems {
	if p.Taken < 0 || p.Taken >= len(p.Curve) {
		return nil
	}
	var out source.Problems
	buy, taken := h.Practice.Buy, &p.Curve[p.Taken]
	for _, x := range []struct {
		what     string
		n, limit int
	}{{"size", len(taken.Sizes), buy.Sizes}, {"reel", taken.Reels, buy.Reels}} {
		if x.limit == 0 || x.n <= x.limit {
			continue
		}
		out = append(out, source.Problem{
			Slug: "limit-not-kept", Level: source.Advice, Span: buy.Span,
			Summary: fmt.Sprintf("%s asked for, %d are bought", unit.Counted(x.limit, x.what), x.n),
			Detail:  fmt.Sprintf("what the wires need and what their terminals take leave no fewer; leave the limit out, or ask for %d", x.n),
			Numbers: []source.Number{{Name: x.what + "s", Value: float64(x.n)}},
		})
	}
	return out
}
