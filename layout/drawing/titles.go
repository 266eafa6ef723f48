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
		names = append(names, c.Name+s.share[id])
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
	in := setOf(wires)
	drawn := func(w harness.WireID) bool { return in[w] }
	for _, p := range s.partsOf(wires) {
		part := &s.h.Parts[p]
		if !s.fed(part, drawn) {
			continue
		}
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

// fed tells whether one of the wires brings a part's loads their supply: it lands
// on a pole that is not the return alone.
func (s *sheets) fed(p *harness.Part, drawn func(harness.WireID) bool) bool {
	lands := func(t harness.TerminalID) bool {
		return t >= 0 && (slices.ContainsFunc(s.use[t].in, drawn) || slices.ContainsFunc(s.use[t].out, drawn))
	}
	return slices.ContainsFunc(s.reached(p, drawn), func(e harness.ElementID) bool {
		supply, back := s.h.Elements[e].A, s.h.Elements[e].B
		if s.returns(supply) {
			supply, back = back, supply
		}
		return lands(supply) || (lands(back) && !s.returns(back))
	})
}

// returns tells whether a terminal is a load's return by its name: its case, 31 of
// DIN 72552, or the pole that faces the bodywork.
func (s *sheets) returns(t harness.TerminalID) bool {
	if t < 0 {
		return true
	}
	name := s.h.Terminals[t].Name
	earthed := "-"
	if s.h.System.PositiveEarth {
		earthed = "+"
	}
	return name == "case" || name == "31" || name == earthed
}

func wiresOf(group []*strip) []harness.WireID {
	var out []harness.WireID
	for _, st := range group {
		out = append(out, st.wires...)
	}
	return out
}

// numberParts tells apart the sheets of one title, and leaves each anchor only at
// its first place.
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

// numberShares tells each circuit that takes several sheets which of them this is.
func numberShares(pages [][]*strip) []map[harness.CircuitID]string {
	count := map[harness.CircuitID]int{}
	for _, p := range pages {
		for _, c := range circuitsOf(p) {
			count[c]++
		}
	}
	seen := map[harness.CircuitID]int{}
	out := make([]map[harness.CircuitID]string, len(pages))
	for i, p := range pages {
		out[i] = map[harness.CircuitID]string{}
		for _, c := range circuitsOf(p) {
			if seen[c]++; count[c] > 1 {
				out[i][c] = fmt.Sprintf(" (%d of %d)", seen[c], count[c])
			}
		}
	}
	return out
}

func oneAnchorEach(drawings []Drawing) {
	known := map[string]bool{}
	for i := range drawings {
		drawings[i].Marks = slices.DeleteFunc(drawings[i].Marks, func(m mark) bool { return again(m, known) })
	}
}
