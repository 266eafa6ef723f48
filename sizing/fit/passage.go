package fit

import (
	"math"
	"slices"
	"sort"

	"example.com/loomfolio/sizing/fit/fitted"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/joint"
	"example.com/loomfolio/sizing/rating"
	"example.com/loomfolio/sizing/route"
	"example.com/loomfolio/sizing/unit"
)

// passage finds the bore through which the run's ends pass when they are finished,
// one after the other, each beside the wires that lie in the hole already; from
// the side that needs less. The contacts of a housing pass without it; behind a
// splice pass the wires that leave on its far side.
func (f *fitter) passage(r *fitted.Run) {
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
			bore[side] = math.Max(bore[side], others+math.Max(own, float64(f.passing(t, r.Run, w))))
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

// passing gives how wide what hangs on an end is: its fitting, or the splice there in
// its tube, and behind it the wires that do not pass the run, one end after the other
// beside the rest of them.
func (f *fitter) passing(t harness.TerminalID, run harness.RunID, w harness.WireID) unit.Millimetre {
	p, wide := f.h.PartOf(t), f.head(t, float64(f.c.Wires[w].Diameter))
	if p == nil || p.Kind != harness.Splice {
		return wide
	}
	beyond := f.beyond(p.ID, run, w)
	for i, x := range beyond {
		rest, _ := rating.BundleDiameter(f.diameters(slices.Delete(slices.Clone(beyond), i, i+1)))
		own := f.c.Wires[x].Diameter
		wide = max(wide, rest+max(own, f.head(f.far(x, p.ID), float64(own))))
	}
	return wide
}

// tubeWall is the wall of a dual-wall tube shrunk over a splice; common practice, no source.
const tubeWall unit.Millimetre = 1.5

// barrelAt is how much copper the barrel of a splice holds.
func (f *fitter) barrelAt(p *harness.Part) unit.SquareMillimetre {
	if r, ok := f.barrels[p.ID]; ok {
		return r.To
	}
	i := slices.IndexFunc(f.out.Splices, func(s fitted.Splice) bool { return s.Part == p.ID })
	sum, awg := rating.SpliceSize([]unit.SquareMillimetre{f.out.Splices[i].AreaSum})
	return barrelArea(awg, sum, f.h.Sheet.Gauge, f.h.Sheet.Imperial)
}

// beyond lists the wires of a splice that lie behind it when it is pulled through a
// run by one of its wires: those that do not pass the run.
func (f *fitter) beyond(p harness.PartID, run harness.RunID, by harness.WireID) []harness.WireID {
	return slices.DeleteFunc(f.at(p), func(x harness.WireID) bool {
		return x == by || slices.ContainsFunc(f.ways[x].Shares, func(s route.Share) bool { return s.Run == run })
	})
}

// far is the end of a wire that is not on a part.
func (f *fitter) far(w harness.WireID, p harness.PartID) harness.TerminalID {
	if wire := &f.h.Wires[w]; f.h.Terminals[wire.From].Part != p {
		return wire.From
	}
	return f.h.Wires[w].To
}

// head gives how wide the fitting on an end is; common practice, no source: a
// ring about twice its stud, an insulated receptacle 1.7 mm more than its tab, a
// bare splice its barrel in its tube, an insulated butt splice or a contact a
// millimetre more than its wire.
func (f *fitter) head(t harness.TerminalID, wire float64) unit.Millimetre {
	j := f.jointOf(t)
	switch j.Fitting {
	case joint.Ring:
		if s, ok := rating.StudOf(j.Size); ok {
			return 2 * s.Diameter
		}
	case joint.Receptacle:
		return rating.TabWidth(j.Size) + 1.7
	case joint.SpliceBarrel:
		return barrelOver(f.barrelAt(f.h.PartOf(t))) + 2*tubeWall
	}
	return unit.Millimetre(wire + 1)
}

// openUntilPassed lists the housings that stay off until the run has passed its hole.
func (f *fitter) openUntilPassed(r *fitted.Run, side int) {
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
