package check

import (
	"example.com/loomfolio/sizing/describe"
	"example.com/loomfolio/sizing/harness"
)

// own notes that a wire is the vehicle's own: by its stop, else by its circuit. What is
// found of it is what it has: nothing is put in its place.
func (c *checker) own(w *harness.Wire, s *describe.Stop) {
	w.Existing = s.Existing.V
	if !s.Existing.Given() {
		w.Existing = c.d.Circuits[w.Circuit].Existing.V
	}
	if open := c.h.PartOf(w.From).Kind == harness.OpenEnd || c.h.PartOf(w.To).Kind == harness.OpenEnd; open && !s.Existing.Given() {
		w.Existing = true // nobody lays a wire of which he does not know where it ends
	}
	if !w.Existing || w.Found.Base == "" {
		return
	}
	if w.Base != "" && (w.Base != w.Found.Base || w.Tracer != w.Found.Tracer) {
		c.Fail("existing-colour", s.Found.Span, "leave out found:, which is for a wire that a new one replaces, or existing: true",
			"the wire is the vehicle's own and has two colours, %s and %s", s.Colour.Text, s.Found.Text)
	}
	w.Base, w.Tracer, w.ColourSpan = w.Found.Base, w.Found.Tracer, w.FoundSpan
	w.Found = harness.StockColour{}
}
