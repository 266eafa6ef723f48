package colour

import (
	"fmt"
	"strings"

	"example.com/loomfolio/sizing/source"
)

// insisted tells of a class that it has a convention's colour because the practice will
// have it so, whatever it costs.
func (t *task) insisted(c *class) bool {
	custom := t.custom[c.wires[0]]
	return t.h.Practice.Insist && custom != nil && c.role == free && c.force != written && c.fixed() && t.combos[c.domain[0]] == custom.colour
}

// sleeved adds to the reasons of insisted colours which wires only their number sleeves
// tell them from.
func (v *verdict) sleeved() {
	names := map[int][]string{}
	for _, x := range v.alike {
		a, b := v.class[x.a], v.class[x.b]
		if v.insisted(&v.classes[a]) || v.insisted(&v.classes[b]) {
			names[a] = append(names[a], v.h.Wires[x.b].Name)
			names[b] = append(names[b], v.h.Wires[x.a].Name)
		}
	}
	for w := range v.choices {
		if list := names[v.class[w]]; len(list) > 0 {
			v.choices[w].Reason = joined(v.choices[w].Reason, "its number sleeve tells it from "+strings.Join(list, ", "))
		}
	}
}

// unkept is one advice on the wires that cannot have the colours that the practice
// insists on.
func (v *verdict) unkept() source.Problems {
	if !v.h.Practice.Insist {
		return nil
	}
	var names, why []string
	var at source.Span
	said := map[string]bool{}
	for _, w := range v.order {
		c := v.custom[w]
		if c == nil || v.held[w].force != open || v.core[w] || c.hit(v.choices[w].Pair) == 2 {
			continue
		}
		if len(names) == 0 {
			at = v.h.Wires[w].Span
		}
		names = append(names, v.h.Wires[w].Name)
		if text := c.gives(v.hindrance(c, &v.classes[v.class[w]])); !said[text] {
			said[text] = true
			why = append(why, text)
		}
	}
	if len(names) == 0 {
		return nil
	}
	return source.Problems{{
		Slug: "convention-not-kept", Level: source.Advice, Span: at,
		Summary:  "not in the colours of the conventions: " + strings.Join(names, ", "),
		Detail:   strings.Join(why, "; "),
		Subjects: names, Gathers: true,
	}}
}

// hindrance says why a wire cannot have its convention's colour, and what helps.
func (v *verdict) hindrance(c *custom, of *class) string {
	base := practicePair(v.h.Practice.GroundColour, "BK").Base
	switch {
	case c.colour.Base == base:
		return fmt.Sprintf("and no chosen colour has the ground's base %s: write colour: at those that are to have it all the same", base)
	case earthPair(c.colour):
		return "and green with yellow belongs to the protective earth of the mains"
	case strings.HasPrefix(of.rule, "thick wire"):
		return "and thick wire comes in BK and RD"
	}
	return "and another wire of its net is given otherwise"
}
