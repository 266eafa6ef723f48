package colour

import (
	"fmt"

	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/source"
)

// asFound reports where the colour of a wire that is in the car now would be
// taken for another wire's new colour at the same part: while both looms are
// there, one is cut for the other.
func (v *verdict) asFound() source.Problems {
	var out source.Problems
	for _, a := range v.order {
		found := v.choices[a].Found
		if found.Base == "" {
			continue
		}
		for _, b := range v.order {
			if q := v.choices[b].Pair; q == found && v.mistakable(a, b) && v.touch(a, b) {
				out = append(out, v.taken(a, b))
			}
		}
	}
	return out
}

func (v *verdict) taken(a, b harness.WireID) source.Problem {
	old, other := v.h.Wires[a], v.h.Wires[b]
	return source.Problem{
		Slug: "found-look-alike", Level: source.Advice, Span: old.FoundSpan,
		Summary:  fmt.Sprintf("the wire found for %s (%s) looks like the new wire %s at the same part", old.Name, v.choices[a].Found, other.Name),
		Detail:   fmt.Sprintf("tag the old wire with %s before the new loom goes in, or give %s another colour", old.Name, other.Name),
		Subjects: []string{old.Name, other.Name},
		Others:   []source.Note{{Span: other.Span, Text: "the new wire"}},
	}
}
