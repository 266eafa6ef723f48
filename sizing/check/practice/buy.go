package practice

import (
	"example.com/loomfolio/sizing/describe/read"
	"example.com/loomfolio/sizing/harness"
)

// buy takes over how few sizes and reels are bought, and what the shop has and needs for the work.
func (c *reader) buy() {
	c.limits()
	c.apart()
	for _, w := range c.written.Tools {
		if c.oneOf("unknown-tool", "crimping tool", w, harness.Tools()) {
			c.out.Tools = append(c.out.Tools, w.Text)
		}
	}
	for _, m := range c.written.Minutes {
		if c.oneOf("unknown-operation", "operation", m.Operation, harness.Operations()) && m.Each.Given() {
			c.minutes(m.Operation.Text, m.Each.V)
		}
	}
}

func (c *reader) minutes(operation string, each float64) {
	if c.out.Minutes == nil {
		c.out.Minutes = map[string]float64{}
	}
	c.out.Minutes[operation] = each
}

// limits takes over what is bought for, with the limits that go with it.
func (c *reader) limits() {
	b, out := c.written.Buy, harness.AsFew()
	out.For, out.Span = b.For.Or(out.For), b.Span
	out.Sizes, out.Reels, out.ReelMass = b.Sizes.V, b.Reels.V, b.Copper.V
	out.Parts, out.Runs = b.Pairs.Or(out.Parts), b.RunPairs.Or(out.Runs)
	c.out.Buy = out
	least, numbers := out.For == "clear", out.For == "numbers"
	limit(c, least, "sizes", b.Sizes)
	limit(c, least, "reels", b.Reels)
	limit(c, least || numbers, "pairs", b.Pairs)
	limit(c, least || numbers, "run-pairs", b.RunPairs)
	limit(c, least, "copper", b.Copper)
}

// limit refuses a limit that could hold nothing back.
func limit[T any](c *reader, idle bool, key string, v read.Value[T]) {
	if !idle || !v.Given() {
		return
	}
	why := "with clear every wire has its least size and all that meet look different"
	if c.out.Buy.For == "numbers" {
		why = "with numbers every wire of a size looks alike"
	}
	c.Fail("limit-without-use", v.Span, "leave "+key+": out, or write for: few", "%s: limits nothing: %s", key, why)
}

// apart takes over which wires must look different.
func (c *reader) apart() {
	a, out := c.written.Apart, harness.NearApart()
	out.Near, out.Runs, out.Branchings = a.Panels.Or(out.Near), a.Runs.Or(out.Runs), a.Branchings.V
	c.out.Apart = out
}

// oneOf reports a word that is none of the list.
func (c *reader) oneOf(slug, what string, w read.Word, list []string) bool {
	for _, x := range list {
		if x == w.Text {
			return true
		}
	}
	c.Unknown(slug, what, w, list)
	return false
}
