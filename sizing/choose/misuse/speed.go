package misuse

import (
	"fmt"
	"slices"

	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/source"
)

// slowSpeeds reports a relay that joins what another joins already, before a resistor that no
// contact passes by: the load gets its current through the resistor with either.
func (f *inspection) slowSpeeds() {
	for _, id := range f.ElementsOf(harness.Resistance) {
		r := &f.H.Elements[id]
		if f.PartOf(id).Kind != harness.Resistor {
			continue
		}
		list := f.relaysBefore(r)
		for k, e := range list {
			for _, x := range list[:k] {
				if x.When.Coil != e.When.Coil && f.sameEnds(e, x) && !f.passed(r) {
					f.slowSpeed(x, e, r)
				}
			}
		}
	}
}

// relaysBefore lists the make contacts of relays that wires join to a resistor.
func (f *inspection) relaysBefore(r *harness.Element) []*harness.Element {
	var out []*harness.Element
	for i := range f.H.Elements {
		e := &f.H.Elements[i]
		if e.Kind == harness.Contact && e.When.Kind == harness.Energised && f.PartOf(e.ID).Kind == harness.Relay && f.before(e, r) {
			out = append(out, e)
		}
	}
	return out
}

// sameEnds tells two contacts of which wires join both sides, and whose coils have feeds of their own.
func (f *inspection) sameEnds(a, b *harness.Element) bool {
	one, other := &f.H.Elements[a.When.Coil], &f.H.Elements[b.When.Coil]
	return !f.Net.Tied(f.H.Live(one), f.H.Live(other)) &&
		(f.Net.Tied(a.A, b.A) && f.Net.Tied(a.B, b.B) || f.Net.Tied(a.A, b.B) && f.Net.Tied(a.B, b.A))
}

// slowSpeed tells it of the first load whose way leads over both.
func (f *inspection) slowSpeed(a, b, r *harness.Element) {
	for i := range f.Owns {
		own, load := &f.Owns[i], &f.H.Elements[i]
		if load.Kind != harness.Load || !own.Whole || !slices.Contains(own.All.Elements, a.ID) || !slices.Contains(own.All.Elements, r.ID) {
			continue
		}
		p, q := f.PartOf(b.ID), f.PartOf(a.ID)
		f.add(source.Problem{
			Slug: "speed-without-effect", Level: source.Warning, Span: p.Span, Subjects: []string{p.Ref, q.Ref, load.Name},
			Summary: fmt.Sprintf("%s joins the same two places as %s: with either %s gets its current through %s, and no contact passes that by", p.Ref, q.Ref, load.Name, r.Name),
			Detail:  fmt.Sprintf("lead the output of the relay of the full speed to %s, behind %s", load.Name, r.Name),
		})
		return
	}
}

// before tells that wires join a contact to a resistor.
func (f *inspection) before(c, r *harness.Element) bool {
	for _, x := range [2]harness.TerminalID{c.A, c.B} {
		if f.Net.Tied(x, r.A) || f.Net.Tied(x, r.B) {
			return true
		}
	}
	return false
}

// passed tells that contacts lead past a resistor: each of its ends comes to a source over
// contacts, wires and fuses.
func (f *inspection) passed(r *harness.Element) bool {
	any := func(*harness.Element) bool { return true }
	return f.Net.Fed(r.A, any) && f.Net.Fed(r.B, any)
}
