package fit

import (
	"math"
	"slices"
	"sort"

	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/joint"
	"example.com/loomfolio/sizing/packing"
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

func (f *fitter) run(id harness.RunID, wires []harness.WireID) Run {
	r := Run{Run: id, Wires: wires}
	if len(wires) == 0 {
		return r
	}
	over := f.press(&r)
	r.Diameter = unit.Millimetre(math.Round(float64(over)*10) / 10)
	r.BendLeast, r.BendLong = upTo5(bendLeast*over), upTo5(bendLong*over)
	f.used = append(f.used, "nasa-bend")
	if c := f.h.Runs[id].Cover; c != "" && c != "none" {
		r.CoverName = c
		if !taped(c) {
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
func (f *fitter) press(r *Run) unit.Millimetre {
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
	unit  *Unit // nil for a wire of its own
	wires []int // by index into the run's wires
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
func (f *fitter) placed(w harness.WireID, u *Unit, at packing.Circle) packing.Circle {
	if u == nil {
		return at
	}
	c := u.Circles[slices.Index(f.h.Units[u.Unit].Wires, w)]
	return packing.Circle{X: at.X + c.X, Y: at.Y + c.Y, Diameter: c.Diameter}
}

// passage finds the bore through which the run's ends pass when they are finished,
// one after the other, each beside the wires that lie in the hole already; from
// the side that needs less. The contacts of a housing pass without it.
func (f *fitter) passage(r *Run) {
	sum, squares := 0.0, 0.0
	for _, x := range f.bundled(r.Wires) {
		sum, squares = sum+x.over, squares+x.over*x.over
	}
	var bore [2]float64 // the ends on the run's From side pass, those on its To side
	for _, w := range r.Wires {
		own := float64(f.c.Wires[w].Diameter)
		others := math.Min(float64(r.Diameter)*math.Sqrt(math.Max(0, 1-own*own/squares)), sum-own)
		from, to := f.sides(w, r.Run)
		for side, t := range []harness.TerminalID{from, to} {
			bore[side] = math.Max(bore[side], others+math.Max(own, float64(f.head(t, own))))
		}
	}
	side := 0
	if bore[1] < bore[0] {
		side = 1
	}
	r.Hole = unit.Millimetre(math.Ceil(bore[side] - 1e-9))
	r.PassFrom = f.h.Runs[r.Run].From
	if side == 1 {
		r.PassFrom = f.h.Runs[r.Run].To
	}
	f.openUntilPassed(r, side)
}

// sides gives the terminals of a wire on the From and on the To side of a run
// that it passes.
func (f *fitter) sides(w harness.WireID, id harness.RunID) (from, to harness.TerminalID) {
	run, wire := &f.h.Runs[id], &f.h.Wires[w]
	places := f.ways[w].Places
	for i := 1; i < len(places); i++ {
		if places[i-1] == run.From && places[i] == run.To {
			return wire.From, wire.To
		}
	}
	return wire.To, wire.From
}

// head gives how wide the fitting on an end is; common practice, no source: a
// ring about twice its stud, an insulated receptacle 1.7 mm more than its tab, an
// insulated butt splice or a contact a millimetre more than its wire.
func (f *fitter) head(t harness.TerminalID, wire float64) unit.Millimetre {
	j := f.jointOf(t)
	switch j.Fitting {
	case joint.Ring:
		if s, ok := rating.StudOf(j.Size); ok {
			return 2 * s.Diameter
		}
	case joint.Receptacle:
		return rating.TabWidth(j.Size) + 1.7
	}
	return unit.Millimetre(wire + 1)
}

// openUntilPassed lists the housings that stay off until the run has passed its hole.
func (f *fitter) openUntilPassed(r *Run, side int) {
	seen := map[harness.PartID]bool{}
	for _, w := range r.Wires {
		from, to := f.sides(w, r.Run)
		t := [2]harness.TerminalID{from, to}[side]
		p := f.h.PartOf(t)
		if p == nil || seen[p.ID] || f.jointOf(t).Fitting != joint.Contact {
			continue
		}
		seen[p.ID] = true
		r.Open = append(r.Open, p.ID)
	}
	sort.Slice(r.Open, func(i, j int) bool { return r.Open[i] < r.Open[j] })
}
