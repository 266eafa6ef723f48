package check

import (
	"fmt"
	"strings"

	"example.com/loomfolio/sizing/describe"
	"example.com/loomfolio/sizing/harness"
)

// openEnd makes a part of a stop "?": the end of a wire that nobody has traced. Each is
// an end of its own; those with the same words behind the mark may be the same place,
// which is told and not taken for granted.
func (c *checker) openEnd(s *describe.Stop) halt {
	said := strings.TrimSpace(strings.TrimPrefix(s.To.Text, "?"))
	ref, name := c.openRef(said), said
	if said == "" || short(said) {
		name = "not traced"
	}
	id, t := harness.PartID(len(c.h.Parts)), harness.TerminalID(len(c.h.Terminals))
	c.h.Parts = append(c.h.Parts, harness.Part{
		ID: id, Ref: ref, Kind: harness.OpenEnd, Name: name, Place: harness.None,
		Terminals: []harness.TerminalID{t}, Perhaps: strings.ToLower(said), Span: s.To.Span,
	})
	c.h.Terminals = append(c.h.Terminals, harness.Terminal{ID: t, Part: id, Full: ref})
	c.partBy[ref], c.termBy[ref] = id, t
	return halt{part: id, arrive: t, leave: t, stop: s}
}

// short tells words that serve as the name of an end: one word of a few signs.
func short(said string) bool {
	return said != "" && len(said) <= 6 && !strings.ContainsAny(said, " .")
}

// openRef names an open end: by its own word, or the next free number.
func (c *checker) openRef(said string) string {
	if short(said) {
		ref := "?" + said
		for n := 'b'; c.taken(ref); n++ {
			ref = "?" + said + string(n)
		}
		return ref
	}
	for n := 1; ; n++ {
		if ref := fmt.Sprintf("?%d", n); !c.taken(ref) && !c.written(ref) {
			return ref
		}
	}
}

func (c *checker) taken(ref string) bool {
	_, ok := c.partBy[ref]
	return ok
}

// written tells whether some stop of the description calls an end so.
func (c *checker) written(ref string) bool {
	if c.openNames == nil {
		c.openNames = map[string]bool{}
		for i := range c.d.Circuits {
			for j := range c.d.Circuits[i].Legs {
				for _, s := range c.d.Circuits[i].Legs[j].Stops {
					c.openNames[strings.ReplaceAll(s.To.Text, " ", "")] = s.Open
				}
			}
		}
	}
	return c.openNames[ref]
}

// bareUnknown is a stop that names an unknown box alone: a wire of its own goes in, and
// another comes out, since nobody says at which terminals.
func (c *checker) bareUnknown(p *harness.Part, s *describe.Stop) halt {
	t := c.freshTerminal(p)
	return halt{part: p.ID, arrive: t, leave: t, stop: s}
}

// partsHere parts what arrives from what leaves where nobody knows what lies between: in
// the middle of a leg.
func (c *checker) partsHere(h *halt) {
	switch {
	case h.stop.Open:
		h.leave = c.openEnd(h.stop).leave
	case !h.stop.Terminal.Given() && c.h.Parts[h.part].Kind == harness.Unknown && h.arrive == h.leave:
		h.leave = c.freshTerminal(&c.h.Parts[h.part])
	}
}

func (c *checker) freshTerminal(p *harness.Part) harness.TerminalID {
	n := 1
	for ; ; n++ {
		if _, there := c.termBy[fmt.Sprintf("%s.?%d", p.Ref, n)]; !there {
			break
		}
	}
	return c.busTerminal(p, fmt.Sprintf("?%d", n))
}
