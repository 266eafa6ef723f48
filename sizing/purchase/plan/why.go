package plan

import (
	"fmt"

	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/unit"
)

// Why says why an option was taken out of those that were weighed, best first; nil: none of
// them, every wire keeps its own least size.
func Why(h *harness.Harness, options []*Option, taken *Option) string {
	refused := 0
	for _, o := range options {
		if o.Refused != "" {
			refused++
		}
	}
	if taken == nil {
		return fmt.Sprintf("every wire keeps its own least size: with each of %s something would be wrong that is not wrong now", unit.Counted(refused, "set of sizes"))
	}
	if len(taken.set.Steps) == 0 {
		return "no wire is left to be cut off a reel"
	}
	why := "the least sum of reels, tracers, pairs on the sleeve and copper"
	if pricesOf(h).any() {
		why = "the least sum of money and pairs on the sleeve"
	}
	if refused > 0 {
		why += fmt.Sprintf(", after %s with which something would be wrong", unit.Counted(refused, "choice"))
	}
	return why + budgets(h.Practice.Buy, taken)
}

// budgets says whether the budgets of the practice are kept.
func budgets(buy harness.Buy, taken *Option) string {
	out := ""
	for _, x := range []struct {
		what     string
		n, limit int
	}{{"size", len(taken.Sizes), buy.Sizes}, {"reel", taken.Reels, buy.Reels}} {
		switch {
		case x.limit == 0:
		case x.n <= x.limit:
			out += fmt.Sprintf("; within %s", unit.Counted(x.limit, x.what))
		default:
			out += fmt.Sprintf("; fewer than %s cannot be had, %d are asked for", unit.Counted(x.n, x.what), x.limit)
		}
	}
	return out
}
