package check

import (
	"example.com/loomfolio/sizing/describe/read"
	"example.com/loomfolio/sizing/rating"
)

// insulation resolves the family of a wire: its own, else the practice's. A
// family is one of the tables' or one of the description's own wire types.
func (c *checker) insulation(w read.Word) string {
	if !w.Given() {
		return c.h.Practice.Insulation
	}
	names := c.families()
	for _, n := range names {
		if n == w.Text {
			return n
		}
	}
	c.unknown("unknown-insulation", "insulation", w, names)
	return w.Text
}

// families lists the tables' insulation families and the description's wire types.
func (c *checker) families() []string {
	var names []string
	for _, t := range c.h.Practice.WireTypes {
		names = append(names, t.Name)
	}
	for _, i := range rating.Insulations() {
		names = append(names, i.Name)
	}
	return names
}
