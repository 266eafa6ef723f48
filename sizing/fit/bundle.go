package fit

import (
	"math"
	"slices"

	"example.com/loomfolio/sizing/fit/fitted"
	"example.com/loomfolio/sizing/fit/packing"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/rating"
	"example.com/loomfolio/sizing/unit"
)

// Bends of a bundle in its diameters: NASA-STD-8739.4 7.3.21, least and for long
// life; the shorter one where it is clamped on both sides of the bend.
const (
	bendLeast = 6
	bendLong  = 10
)

// runs presses the wires of every run into a round bundle, and finds the bore of
// its cover, its bends, and the hole through which its finished ends pass.
func (f *fitter) runs() {
	in := make([][]harness.WireID, len(f.h.Runs))
	for w := range f.h.Wires {
		for _, share := range f.ways[w].Shares {
			if list := in[share.Run]; len(list) == 0 || list[len(list)-1] != harness.WireID(w) {
				in[share.Run] = append(list, harness.WireID(w))
			}
		}
	}
	for i := range f.h.Runs {
		f.out.Runs = append(f.out.Runs, f.run(harness.RunID(i), in[i]))
	}
}

func (f *fitter) run(id harness.RunID, wires []harness.WireID) fitted.Run {
	r := fitted.Run{Run: id, Wires: wires}
	if len(wires) == 0 {
		return r
	}
	over := f.press(&r)
	r.Diameter = unit.Millimetre(math.Round(float64(over)*10) / 10)
	r.BendLeast, r.BendLong = upTo5(bendLeast*over), upTo5(bendLong*over)
	f.used = append(f.used, "nasa-bend")
	if c := f.h.Runs[id].Cover; c != "" && c != "none" {
		r.CoverName = c
		if !fitted.Taped(c) {
			r.Cover = unit.Millimetre(math.Ceil(float64(rating.CoverBore(over)) - 1e-9))
			f.used = append(f.used, "ac43-11-249")
		}
	}
	f.passage(&r)
	f.edges(&r)
	return r
}

func upTo5(mm unit.Millimetre) unit.Millimetre {
	return unit.Millimetre(5 * math.Ceil(float64(mm)/5-1e-9))
}

// press gives the diameter round a run's wires: the best known packing where all
// are equal, else the one that package packing finds; and where each wire lies. The
// wires of a unit lie in its circle.
func (f *fitter) press(r *fitted.Run) unit.Millimetre {
	items := f.bundled(r.Wires)
	d := make([]float64, len(items))
	wide := make([]unit.Millimetre, len(items))
	for i, x := range items {
		d[i], wide[i] = x.over, unit.Millimetre(x.over)
	}
	found := packing.Pack(d)
	r.Section = make([]packing.Circle, len(r.Wires))
	for i, x := range items {
		if x.unit != nil {
			r.Sheaths = append(r.Sheaths, found.Circles[i])
		}
		for _, k := range x.wires {
			r.Section[k] = f.placed(r.Wires[k], x.unit, found.Circles[i])
		}
	}
	f.used = append(f.used, "packing")
	if over, key := rating.BundleDiameter(wide); key == "packing" {
		return min(over, unit.Millimetre(found.Diameter))
	}
	return unit.Millimetre(found.Diameter)
}

// bundleItem is one circle of a bundle: a wire, or a unit with its wires.
type bundleItem struct {
	over  float64
	unit  *fitted.Unit // nil for a wire of its own
	wires []int        // by index into the run's wires
}

// bundled gives the circles of a bundle; a unit counts once.
func (f *fitter) bundled(wires []harness.WireID) []bundleItem {
	var out []bundleItem
	at := map[harness.UnitID]int{}
	for i, w := range wires {
		u := f.unitOf[w]
		if u == harness.None {
			out = append(out, bundleItem{over: float64(f.c.Wires[w].Diameter), wires: []int{i}})
			continue
		}
		n, known := at[u]
		if !known {
			n = len(out)
			at[u] = n
			out = append(out, bundleItem{over: float64(f.out.Units[u].Diameter), unit: &f.out.Units[u]})
		}
		out[n].wires = append(out[n].wires, i)
	}
	return out
}

// placed gives where a wire lies whose item lies at a circle.
func (f *fitter) placed(w harness.WireID, u *fitted.Unit, at packing.Circle) packing.Circle {
	if u == nil {
		return at
	}
	c := u.Circles[slices.Index(f.h.Units[u.Unit].Wires, w)]
	return packing.Circle{X: at.X + c.X, Y: at.Y + c.Y, Diameter: c.Diameter}
}
