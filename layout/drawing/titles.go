package drawing

import (
	"fmt"
	"slices"
	"strings"

	"example.com/loomfolio/layout/sheet"
	"example.com/loomfolio/layout/typeface"
	"example.com/loomfolio/sizing/harness"
)

func circuitName(c harness.Circuit) string {
	if c.Number == "" {
		return c.Name
	}
	return c.Number + " · " + c.Name
}

// titles gives a sheet's heading: its circuits and what they feed.
func (s *sheets) titles(group []*strip) (title, subtitle string) {
	var numbers, names []string
	for _, id := range circuitsOf(group) {
		c := s.h.Circuits[id]
		names = append(names, c.Name)
		if c.Number != "" {
			numbers = append(numbers, c.Number)
		}
	}
	title = "Circuit"
	if len(names) > 1 {
		title = "Circuits"
	}
	if len(numbers) > 0 {
		title += " " + strings.Join(numbers, ", ")
	}
	return s.withNames(title, names), s.loads(group)
}

// withNames adds as many names to a title as one line holds.
func (s *sheets) withNames(title string, names []string) string {
	for n := len(names); n > 0; n-- {
		full := title + " · " + strings.Join(names[:n], ", ")
		if n < len(names) {
			full += fmt.Sprintf(" and %d more", len(names)-n)
		}
		if n == 1 || typeface.Width(full, sheet.Bold, sheet.SizeTitle) <= s.body.W-12 {
			return full
		}
	}
	return title
}

// loads lists what the circuits of a sheet feed, as far as one line holds it.
func (s *sheets) loads(group []*strip) string {
	const most = 6
	var words []string
	more := 0
	wires := wiresOf(group)
	drawn := func(w harness.WireID) bool { return slices.Contains(wires, w) }
	for _, p := range s.partsOf(wires) {
		part := &s.h.Parts[p]
		takes := s.takes(part, drawn)
		switch {
		case takes == "":
		case len(words) == most:
			more++
		default:
			words = append(words, part.Name+" "+takes)
		}
	}
	if more > 0 {
		words = append(words, fmt.Sprintf("and %d more", more))
	}
	return strings.Join(words, " · ")
}

func wiresOf(group []*strip) []harness.WireID {
	var out []harness.WireID
	for _, st := range group {
		out = append(out, st.wires...)
	}
	return out
}

// numberParts tells apart the sheets of a circuit that takes several, and leaves
// each anchor only at its first place.
func (s *sheets) numberParts(drawings []Drawing) {
	count := map[string]int{}
	for _, d := range drawings {
		count[d.Title]++
	}
	seen := map[string]int{}
	for i := range drawings {
		d := &drawings[i]
		if n := count[d.Title]; n > 1 {
			seen[d.Title]++
			d.Title = fmt.Sprintf("%s (%d of %d)", d.Title, seen[d.Title], n)
		}
	}
	oneAnchorEach(drawings)
}

func oneAnchorEach(drawings []Drawing) {
	known := map[string]bool{}
	for i := range drawings {
		drawings[i].Marks = slices.DeleteFunc(drawings[i].Marks, func(m mark) bool { return again(m, known) })
	}
}
