package check

import (
	"fmt"
	"slices"
	"strings"

	"example.com/loomfolio/sizing/check/practice"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/record"
	"example.com/loomfolio/sizing/route"
	"example.com/loomfolio/sizing/source"
	"example.com/loomfolio/sizing/unit"
)

// formerly notes what a stop says that it was called before: PART.terminal, or
// the part alone, whose terminals then keep their names.
func (c *checker) formerly(h halt) {
	was := h.stop.Was
	if !was.Given() {
		return
	}
	part := c.h.Parts[h.part].Ref
	old, terminal, named := strings.Cut(was.Text, ".")
	old = strings.TrimSpace(old)
	c.was.Parts[h.part] = old
	for _, t := range []harness.TerminalID{h.arrive, h.leave} {
		rest := strings.TrimPrefix(c.h.Terminals[t].Full, part)
		if named {
			rest = "." + strings.TrimSpace(terminal)
			if cavity := c.h.Terminals[t].Cavity; cavity != "" {
				rest += strings.TrimPrefix(c.h.Terminals[t].Name, cavity)
			}
		}
		c.was.Terminals[t] = old + rest
	}
}

// keep sets beside every wire and fuse what the record holds of it.
func (c *checker) keep() {
	if c.kept == nil || c.Problems.HasErrors() {
		return
	}
	c.h.Record = c.kept.File
	if c.kept.Variant != c.d.Variant {
		c.Fail("record-variant", source.Span{}, "name the record of this one with --record, or go without one: --no-record",
			"the as-built record is of %s, and this is %s", variantWord(c.kept.Variant), variantWord(c.d.Variant))
		return
	}
	found := record.Match(c.h, c.lengths(), c.was, c.kept)
	c.Problems = append(c.Problems, found.Problems...)
	for i, line := range found.Wires {
		if line >= 0 && !c.h.Wires[i].Existing {
			c.keepWire(&c.h.Wires[i], &c.kept.Wires[line], found.Split[i])
		}
	}
	for i, line := range found.Fuses {
		if line >= 0 && !c.h.OwnFuse(&c.h.Elements[i]) {
			f := &c.kept.Fuses[line]
			c.h.Elements[i].Kept = harness.KeptFuse{State: f.State, Rating: f.Rating, Body: f.Body, Line: f.Line}
		}
	}
}

// variantWord names a variant, or that there is none.
func variantWord(name string) string {
	if name == "" {
		return "the vehicle in no variant"
	}
	return fmt.Sprintf("the variant %q", name)
}

// keepWire takes a line over. A piece of a wire that was parted has to be cut and
// fitted anew, and so has a wire that was given up and comes back: of these the
// choices are kept, not the length. The insulation of the practice is the
// description's own word: only what is built keeps another.
func (c *checker) keepWire(w *harness.Wire, l *record.Wire, split bool) {
	w.Kept = harness.Kept{
		State: l.State, Name: l.Name, Gauge: l.Gauge, Insulation: l.Insulation,
		Base: l.Base, Tracer: l.Tracer, Length: l.Length, Sleeves: l.Sleeves, Line: l.Line,
	}
	if split || l.State == harness.Retired {
		w.Kept.State, w.Kept.Length = harness.Planned, 0
	}
	if w.Kept.State == harness.Built && !w.InsulationSpan.Known() && slices.Contains(practice.Families(&c.h.Practice), l.Insulation) {
		w.Insulation = l.Insulation
	}
}

// lengths gives the cut lengths that the ways ask for; wires without a way are
// reported when all is sized.
func (c *checker) lengths() []unit.Millimetre {
	ways, _ := route.Find(c.h)
	out := make([]unit.Millimetre, len(ways))
	for i, w := range ways {
		out[i] = w.Length
	}
	return out
}

// keptNames gives wires the names that they have had, unless the description
// gives that name to another wire. The names of wires that are gone stay theirs:
// their sleeves may still be in the loom.
func (c *checker) keptNames(taken map[string]bool) {
	for i := range c.h.Wires {
		w := &c.h.Wires[i]
		if _, own := c.wireNamed[w.ID]; !own && !taken[w.Kept.Name] {
			w.Name = w.Kept.Name
		}
	}
	if c.kept == nil {
		return
	}
	for i := range c.kept.Wires {
		taken[c.kept.Wires[i].Name] = true
	}
}
