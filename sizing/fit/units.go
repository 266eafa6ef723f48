package fit

import (
	"slices"

	"example.com/loomfolio/sizing/choose/chosen"
	"example.com/loomfolio/sizing/fit/fitted"
	"example.com/loomfolio/sizing/fit/packing"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/joint"
	"example.com/loomfolio/sizing/rating"
	"example.com/loomfolio/sizing/route"
	"example.com/loomfolio/sizing/unit"
)

// bootGrip is how much of the end of a sheath or screen a tube covers; common practice, no source.
const bootGrip unit.Millimetre = 15

func (f *fitter) units() {
	for i := range f.h.Units {
		f.out.Units = append(f.out.Units, f.unit(&f.h.Units[i]))
	}
}

func (f *fitter) unit(u *harness.Unit) fitted.Unit {
	out := fitted.Unit{Unit: u.ID, Length: f.ways[u.Wires[0]].Whole, Twists: route.Twists(f.h, u, f.sections())}
	for _, t := range out.Twists {
		f.used = append(f.used, t.Source)
	}
	inner := f.inside(u, &out)
	out.Diameter, f.inner = inner, append(f.inner, inner)
	out.Parts = f.partsOf(u)
	if u.Kind == harness.Cabled {
		out.Diameter = u.Type.Diameter
	}
	if u.Kind == harness.Screened {
		out.Screen = f.h.Practice.ScreenAs
		out.Diameter += 2 * f.h.Practice.ScreenWall
		f.used = append(f.used, rating.ScreenSource)
	}
	f.cutBack(u, &out)
	if tube, ok := tubeOver(out.Diameter, inner); ok && out.Back[0] > 0 {
		out.Boot, out.BootLen = tube.Name(f.h.Sheet.Imperial), shrinkLength(bootGrip, out.Diameter)
		f.used = append(f.used, tube.Source, "shrink-rule")
	}
	for _, t := range u.Drains {
		out.Drains = append(out.Drains, f.drain(u, &out, t))
	}
	return out
}

func (f *fitter) sections() []route.Section {
	out := make([]route.Section, len(f.c.Wires))
	for i, w := range f.c.Wires {
		out[i] = route.Section{Over: w.Diameter, Area: w.Area}
	}
	return out
}

// inside packs the wires of a unit: each twist first, then the twists and the other
// wires. It gives the circle round them.
func (f *fitter) inside(u *harness.Unit, out *fitted.Unit) unit.Millimetre {
	var groups [][]int // by index into the unit's wires
	for i, id := range u.Wires {
		at := -1
		for n, t := range out.Twists {
			if slices.Contains(t.Wires, id) && t.Wires[0] != id {
				at = slices.IndexFunc(groups, func(g []int) bool { return u.Wires[g[0]] == out.Twists[n].Wires[0] })
			}
		}
		if at < 0 {
			groups = append(groups, []int{i})
			continue
		}
		groups[at] = append(groups[at], i)
	}
	packs := make([]packing.Packing, len(groups))
	outer := make([]float64, len(groups))
	for n, g := range groups {
		d := make([]float64, len(g))
		for k, i := range g {
			d[k] = float64(f.c.Wires[u.Wires[i]].Diameter)
		}
		packs[n] = packing.Pack(d)
		outer[n] = packs[n].Diameter
	}
	whole := packing.Pack(outer)
	out.Circles = make([]packing.Circle, len(u.Wires))
	for n, g := range groups {
		for k, i := range g {
			c := packs[n].Circles[k]
			out.Circles[i] = packing.Circle{X: c.X + whole.Circles[n].X, Y: c.Y + whole.Circles[n].Y, Diameter: c.Diameter}
		}
	}
	return unit.Millimetre(whole.Diameter)
}

// partsOf lists the parts at either end.
func (f *fitter) partsOf(u *harness.Unit) [2][]harness.PartID {
	var out [2][]harness.PartID
	for _, id := range u.Wires {
		w := &f.h.Wires[id]
		turned := f.turned(u, w)
		for side, t := range [2]harness.TerminalID{w.From, w.To} {
			if turned {
				side = 1 - side
			}
			if p := f.h.Terminals[t].Part; p != harness.None && !slices.Contains(out[side], p) {
				out[side] = append(out[side], p)
			}
		}
	}
	return out
}

// turned tells whether a wire of a unit begins where the first one ends.
func (f *fitter) turned(u *harness.Unit, w *harness.Wire) bool {
	first := &f.h.Wires[u.Wires[0]]
	place := func(t harness.TerminalID) harness.PlaceID {
		if p := f.h.PartOf(t); p != nil {
			return p.Place
		}
		return harness.None
	}
	part := func(t harness.TerminalID) harness.PartID { return f.h.Terminals[t].Part }
	if a, b := place(first.From), place(first.To); a != b {
		return place(w.From) == b || place(w.To) == a
	}
	return part(w.From) == part(first.To) || part(w.To) == part(first.From)
}

// cutBack says how far screen or sheath is cut back: where all its wires go to one
// part by the slack of the practice (a screen less), else also by the longest tail
// of its parts; common practice, no source.
func (f *fitter) cutBack(u *harness.Unit, out *fitted.Unit) {
	if u.Kind == harness.Twisted {
		return
	}
	least := f.h.Practice.EachEnd
	if u.Kind == harness.Screened {
		least = rating.ScreenOf(out.Screen).Back
	}
	for side, parts := range out.Parts {
		out.Back[side] = least
		if len(parts) < 2 {
			continue
		}
		longest := unit.Millimetre(0)
		for _, p := range parts {
			longest = max(longest, f.h.Parts[p].Tail)
		}
		out.Back[side] += longest
	}
	if u.Kind == harness.Screened {
		out.ScreenLen = max(0, out.Length-out.Back[0]-out.Back[1])
	}
}

// drain fits the earthed end of a screen: into the crimp of the wire that ends in the
// same contact or on the same tab, else with a fitting of its own.
func (f *fitter) drain(u *harness.Unit, out *fitted.Unit, t harness.TerminalID) fitted.Drain {
	d := fitted.Drain{End: f.endAt(u, t), Terminal: t, With: harness.None}
	j := f.jointOf(t)
	if j.Fitting == joint.Contact || j.Fitting == joint.Receptacle || j.Fitting == joint.SpliceBarrel {
		for i := range f.h.Wires {
			if w := &f.h.Wires[i]; w.From == t || w.To == t {
				d.With = w.ID
				return d
			}
		}
	}
	c, _ := rating.ConductorOf(fitted.DrainGauge(f.h.Sheet.Gauge))
	over, _ := rating.Diameter(f.h.Practice.Insulation, c)
	wire := chosen.Wire{Gauge: c.Gauge, Area: c.Area, Diameter: over}
	d.Fitting = fitted.End{Wire: u.Wires[0], End: string(rune('a' + d.End)), Terminal: t, Kind: j.Fitting, On: j.Size, Fitting: fittingText(j, f.h.Sheet.Imperial)}
	f.crimp(&d.Fitting, j, &wire, c)
	d.Length = f.drainLength(u, d)
	return d
}

// drainLength is the wire that leads from the end of a screen to a stud of another part:
// back to the loom and out again, with the practice's slack and dress.
func (f *fitter) drainLength(u *harness.Unit, d fitted.Drain) unit.Millimetre {
	w := &f.h.Wires[u.Wires[0]]
	ends := f.h.PartOf([2]harness.TerminalID{w.From, w.To}[d.End])
	to := f.h.PartOf(d.Terminal)
	if ends == nil || to == nil || ends.ID == to.ID {
		return 0
	}
	p := f.h.Practice
	return route.RoundUp(float64(ends.Tail+to.Tail+p.EachEnd)*(1+float64(p.Dress)), float64(p.RoundUp))
}

// endAt gives the end of a unit at which a terminal lies.
func (f *fitter) endAt(u *harness.Unit, t harness.TerminalID) int {
	p, last := f.h.PartOf(t), f.h.PartOf(f.h.Wires[u.Wires[0]].To)
	if p == nil || last == nil {
		return 0
	}
	first := f.h.PartOf(f.h.Wires[u.Wires[0]].From)
	if p.ID == last.ID || p.Place == last.Place && (first == nil || first.Place != p.Place) {
		return 1
	}
	return 0
}
