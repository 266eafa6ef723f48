package practice

import (
	"fmt"
	"slices"
	"strconv"

	"example.com/loomfolio/sizing/colour"
	"example.com/loomfolio/sizing/describe"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/rating"
	"example.com/loomfolio/sizing/unit"
)

// usualSheath is the wall of a cable's sheath where its type gives none; common
// practice, no source.
const usualSheath unit.Millimetre = 0.8

// cableTypes resolves the shop's cables. Each is a reel of its own as well, by whose
// data its cores are sized.
func (c *reader) cableTypes() {
	for i := range c.written.CableTypes {
		w := &c.written.CableTypes[i]
		if slices.Contains(Families(&c.out), w.Name.Text) {
			c.Fail("cable-type-name", w.Name.Span, "give it a name of its own", "%s is the name of a wire family already", w.Name.Text)
			continue
		}
		t := harness.CableType{
			Name: w.Name.Text, Order: w.Order.Text, Diameter: w.Diameter.V, Sheath: w.Sheath.Or(usualSheath),
			Class: w.Class.V, Screened: w.Screened.V, Span: w.Name.Span,
		}
		t.Cores = c.cores(w)
		c.sizes(w, &t)
		c.fits(w, &t)
		c.out.CableTypes = append(c.out.CableTypes, t)
		c.out.WireTypes = append(c.out.WireTypes, reelOf(&t, w.Core.V))
	}
}

// cores gives the cores with their colours: of a published order, or listed.
func (c *reader) cores(w *describe.CableType) []harness.Core {
	var out []harness.Core
	for i, word := range w.Colours {
		base, tracer := Colour(&c.Report, word)
		out = append(out, harness.Core{Mark: strconv.Itoa(i + 1), Base: base, Tracer: tracer})
	}
	if w.Order.Given() {
		out = c.ordered(w)
	}
	if n := w.Cores; n.Given() && n.V > len(out) && len(out) > 0 {
		c.Fail("too-many-cores", n.Span, "list the colours yourself: colours: [WH, BN, …]", "%d cores, and %d colours are named", n.V, len(out))
	}
	if n := w.Cores.V; n > 0 && n < len(out) {
		out = out[:n]
	}
	return out
}

// ordered gives the cores of a published order.
func (c *reader) ordered(w *describe.CableType) []harness.Core {
	cores := rating.Cores(w.Order.Text)
	if len(cores) == 0 {
		c.Unknown("unknown-core-order", "order of core colours", w.Order, rating.CoreOrders())
		return nil
	}
	var out []harness.Core
	for _, x := range cores {
		p, _ := colour.Parse(x.Colour)
		core := harness.Core{Mark: strconv.Itoa(x.Number), Size: x.Size, Base: p.Base, Tracer: p.Tracer}
		if x.Mark != "" {
			core.Mark += " (" + x.Mark + ")"
		}
		out = append(out, core)
	}
	return out
}

// sizes gives each core its size: its own, else that of all, else that of the order.
func (c *reader) sizes(w *describe.CableType, t *harness.CableType) {
	for i := range t.Cores {
		if w.Size.Given() {
			t.Cores[i].Size = w.Size.V
		}
	}
	for _, s := range w.Sizes {
		n, err := strconv.Atoi(s.Core.Text)
		if err != nil || n < 1 || n > len(t.Cores) {
			c.Fail("unknown-core", s.Core.Span, fmt.Sprintf("its cores are 1 to %d", len(t.Cores)), "%s has no core %s", t.Name, s.Core.Text)
			continue
		}
		t.Cores[n-1].Size = s.Size.V
	}
	for _, core := range t.Cores {
		if !core.Size.Given() && !w.Size.Given() {
			c.Fail("core-without-size", w.Name.Span, "write size: 1.5 mm2 for all cores, and sizes: {3: 2.5 mm2} for those that differ", "core %s of %s has no size", core.Mark, t.Name)
			return
		}
	}
}

// fits refuses a cable that is thinner than the copper in it.
func (c *reader) fits(w *describe.CableType, t *harness.CableType) {
	var copper []unit.Millimetre
	for _, core := range t.Cores {
		k, _ := rating.AnyConductor(core.Size)
		copper = append(copper, k.Copper)
	}
	if over, _ := rating.BundleDiameter(copper); over > t.Diameter {
		c.Fail("cable-too-thin", w.Diameter.Span, "write the outside diameter from the maker's sheet", "%s is %s across, and the copper of its cores alone takes %s", t.Name, w.Diameter.Written, unit.AcrossText(over, c.sheet.Imperial))
	}
}

// reelOf is the cable's cores as wire: those of its own sizes, and the other sizes of
// the tables, in which a core that is too thin is told what it wants.
func reelOf(t *harness.CableType, over unit.Millimetre) harness.WireType {
	out := harness.WireType{Name: t.Name, Class: t.Class}
	for _, core := range t.Cores {
		known := slices.ContainsFunc(out.Sizes, func(s harness.WireTypeSize) bool { return s.Size == core.Size })
		if !known && core.Size.Given() {
			out.Sizes = append(out.Sizes, harness.WireTypeSize{Size: core.Size, Diameter: over})
		}
	}
	if len(out.Sizes) == 0 {
		return out
	}
	for _, c := range rating.Sizes(out.Sizes[0].Size.System) {
		if !slices.ContainsFunc(out.Sizes, func(s harness.WireTypeSize) bool { return s.Size == c.Gauge }) {
			out.Sizes = append(out.Sizes, harness.WireTypeSize{Size: c.Gauge})
		}
	}
	return out
}
