package colour

import (
	"fmt"
	"strings"

	"example.com/loomfolio/sizing/colour/convention"
	"example.com/loomfolio/sizing/forest"
	"example.com/loomfolio/sizing/harness"
)

// custom is the colour that the conventions in force give to a wire, and by what it is
// known what the wire does. A tracer of "*" is any tracer.
type custom struct {
	known
	colour Pair
	title  string // whose colour it is: British practice
	note   string // its letters there, and the source
}

// customs gives, by wire, the colour of the first convention that has one for what the
// wire's net does; nil where none has, or where nothing is known of it.
func (t *task) customs(f forest.Forest, roles []role) []*custom {
	out := make([]*custom, len(t.h.Wires))
	if len(t.h.Practice.Conventions) == 0 {
		return out
	}
	what := t.functions(f, roles)
	of := map[int]*custom{}
	for w := range out {
		net := f.Root(int(t.h.Wires[w].From))
		k := what[net]
		if k.function == "" || roles[net] != free {
			continue
		}
		if of[net] == nil {
			of[net] = customOf(t.h.Practice.Conventions, k)
		}
		out[w] = of[net]
	}
	return out
}

// customOf finds the colour of a function.
func customOf(in []harness.Convention, k known) *custom {
	for _, c := range in {
		for _, own := range c.Own {
			if own.Function == k.function {
				return &custom{known: k, colour: Pair{own.Base, own.Tracer}, title: "the description's own convention"}
			}
		}
		set, ok := convention.Of(c.Set)
		if !ok {
			continue
		}
		if row, ok := set.For(k.function); ok {
			return &custom{known: k, colour: Pair{row.Base, row.Tracer}, title: set.Title, note: strings.TrimPrefix(row.Code+", "+row.Source, ", ")}
		}
	}
	return nil
}

// hit tells how well a pair keeps to a convention: 2 as written, 1 by its base, 0 not at all.
func (c *custom) hit(p Pair) int {
	switch {
	case p == c.colour, p.Base == c.colour.Base && c.colour.Tracer == "*" && p.Tracer != "":
		return 2
	case p.Base == c.colour.Base:
		return 1
	}
	return 0
}

// named tells whether it is one pair, which may be issued.
func (c *custom) named() bool { return c.colour.Tracer != "*" && !earthPair(c.colour) }

// says tells whose colour a wire has, for what, and by what that is known.
func (c *custom) says() string {
	out := fmt.Sprintf("%s by %s", c.function, c.title)
	if c.note != "" {
		out += " (" + c.note + ")"
	}
	return joined(out, c.by)
}

// gives says what the conventions would have where a wire cannot have it.
func (c *custom) gives(why string) string {
	return fmt.Sprintf("%s is %s by %s, %s", c.function, strings.TrimSuffix(c.colour.String(), "/*"), c.title, why)
}
