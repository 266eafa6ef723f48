package dead

import (
	"slices"

	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/result"
)

// Ohms are the ohms between two terminals with the battery off, all fuses out and
// parts unplugged; worked: with all switches on.
func Ohms(h *harness.Harness, r *result.Result, worked bool, off []harness.PartID, a, b harness.TerminalID) (float64, error) {
	c := *h
	c.Elements = slices.Clone(h.Elements)
	for i := range c.Elements {
		if e := &c.Elements[i]; slices.Contains(off, e.Part) && Unplugs(h, e) {
			e.Kind, e.When = harness.Open, harness.Condition{}
		}
	}
	for i := range c.Elements { // what followed an unplugged coil stays as it is at rest
		if e := &c.Elements[i]; e.When.Kind == harness.Energised && c.Elements[e.When.Coil].Kind == harness.Open {
			e.Kind, e.When = harness.Open, harness.Condition{}
		}
		if e := &c.Elements[i]; e.When.Kind == harness.Released && c.Elements[e.When.Coil].Kind == harness.Open {
			e.When = harness.Condition{}
		}
	}
	d, err := (&check{h: &c, r: r}).solve(worked)
	if err != nil {
		return 0, err
	}
	return d.ohms(a, b), nil
}
