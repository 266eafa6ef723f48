package fit

import (
	"fmt"
	"slices"

	"example.com/loomfolio/sizing/fit/fitted"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/rating"
	"example.com/loomfolio/sizing/unit"
)

// drainArea is the copper of a drain.
func (f *fitter) drainArea() unit.SquareMillimetre {
	c, _ := rating.ConductorOf(fitted.DrainGauge(f.h.Sheet.Gauge))
	return c.Area
}

// drainsAt lists the units whose drains go to a part.
func (f *fitter) drainsAt(p harness.PartID) []string {
	var out []string
	for i := range f.h.Units {
		for _, t := range f.h.Units[i].Drains {
			if f.h.Terminals[t].Part == p {
				out = append(out, f.h.Units[i].Name)
			}
		}
	}
	return out
}

// drained takes a contact or sleeve that holds the drain too where that goes into a
// wire's crimp: by the areas added, as in a splice (NASA-STD-8739.4 19.11).
func (f *fitter) drained() {
	for i := range f.out.Units {
		for _, d := range f.out.Units[i].Drains {
			if d.With == harness.None {
				continue
			}
			for n := range f.out.Ends[d.With] {
				if e := &f.out.Ends[d.With][n]; e.Terminal == d.Terminal {
					f.holdDrain(e, f.h.Units[i].Name)
				}
			}
		}
	}
}

// holdDrain widens one end's crimp, and those of the wires that share it. The shop's own
// terminal and a crimp that nothing larger replaces stay, with the drain named.
func (f *fitter) holdDrain(e *fitted.End, of string) {
	together := f.out.Sharing(e)
	sum := f.together(together) + f.drainArea()
	for _, o := range together {
		o.Drain = of
		if o.Part == "" && o.ToMake() && f.widen(o, sum) {
			o.Reason += fmt.Sprintf("; with the drain of %s, together %s", of, unit.AreaText(sum, f.h.Sheet.Imperial))
			o.Sources = append(o.Sources, "nasa-splice")
		}
	}
}

// widen gives an end the contact or sleeve for an area; false where none is tabled.
func (f *fitter) widen(e *fitted.End, sum unit.SquareMillimetre) bool {
	system := f.c.Wires[e.Wire].Gauge.System
	if e.Crimp == "open barrel" {
		sizes := rating.Sizes(system)
		i := slices.IndexFunc(sizes, func(c rating.Conductor) bool { return c.Area >= sum })
		if i < 0 {
			return false
		}
		e.Size = sizes[i].Gauge.String()
		e.Strip, _ = rating.Strip("barrel", sum)
		return true
	}
	sleeve, ok := f.sleeveFor(e, sum)
	if !ok || f.h.PartOf(e.Terminal).Sleeve != "" {
		return false
	}
	insulate(e, sleeve, sum)
	return true
}
