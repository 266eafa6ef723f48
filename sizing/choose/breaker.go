package choose

import (
	"fmt"

	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/source"
)

// Breaker types of SAE J553.
const (
	SelfResetting = "1"
	HeldOpen      = "2"
	HandReset     = "3"
)

// breakerReason says how a breaker behaves once it has opened (SAE J553).
func breakerReason(kind string) string {
	switch kind {
	case SelfResetting:
		return "; type 1: closes by itself and cycles while the fault lasts, easily mistaken for a loose connection"
	case HeldOpen:
		return "; type 2: stays open while it has power, closes once that is taken away"
	case HandReset:
		return "; type 3: stays open until it is reset by hand, and cannot be held closed on a fault"
	}
	return ""
}

// cycling reports self-resetting breakers with nothing before them that opens
// for good: such a breaker closes on the fault again and again (SAE J553).
func (f *inspection) cycling() {
	for i := range f.c.Fuses {
		fuse := &f.c.Fuses[i]
		if fuse.Type != SelfResetting || !f.Net.Unlimited(fuse.Element, f.opensForGood) {
			continue
		}
		p := &f.H.Parts[fuse.Part]
		f.add(source.Problem{
			Slug: "breaker-cycles-unfused", Level: source.Warning, Span: p.Span,
			Summary:  fmt.Sprintf("%s closes again by itself (type 1) and has no fuse before it: it goes on feeding a short in bursts", fuse.Name),
			Detail:   "put a fuse between the battery and this breaker, or take a breaker of type 3, reset by hand (SAE J553)",
			Subjects: []string{fuse.Name}, Numbers: []source.Number{number("rating_a", float64(fuse.Rating))},
		})
	}
}

func (f *inspection) opensForGood(id harness.ElementID) bool {
	p := f.PartOf(id)
	return p.Kind != harness.Breaker || p.BreakerType != SelfResetting
}
