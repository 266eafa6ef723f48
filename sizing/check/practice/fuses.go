package practice

import (
	"slices"

	"example.com/loomfolio/sizing/describe/read"
	"example.com/loomfolio/sizing/rating"
	"example.com/loomfolio/sizing/unit"
)

// fuses takes over which fuses the shop fits: ratings that are made.
func (c *reader) fuses() {
	f := c.written.Fuses
	c.out.LeastFuse = 3 // common practice, no source
	if f.Smallest.Span.Known() && c.made(f.Smallest) {
		c.out.LeastFuse = f.Smallest.V
	}
	for _, r := range f.Stock {
		if c.made(r) {
			c.out.FuseStock = append(c.out.FuseStock, r.V)
		}
	}
}

// made refuses a rating in which no body is made, and one for which a holder is rarely there.
func (c *reader) made(r read.Value[unit.Ampere]) bool {
	ok := slices.ContainsFunc(rating.FuseBodies(), func(body string) bool {
		_, found := rating.FuseOf(body, r.V)
		return found
	})
	if !ok && r.V > 0 {
		c.Fail("fuse-not-made", r.Span, "write ratings that are printed on fuses, such as 5 A, 7.5 A, 10 A, 15 A", "no fuse is made for %s", r.V)
	}
	return ok
}
