// Package reel sorts the wires into reels and plans from which length each is cut. In:
// the model, lengths in mm, gauges, colours, and what is built. Out: the reels with
// their cuts and what is to be bought of each.
package reel

import (
	"math"
	"slices"
	"sort"

	"example.com/loomfolio/sizing/choose/chosen"
	"example.com/loomfolio/sizing/colour"
	"example.com/loomfolio/sizing/fit/cutting"
	"example.com/loomfolio/sizing/fit/fitted"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/rating"
	"example.com/loomfolio/sizing/route"
	"example.com/loomfolio/sizing/unit"
)

// All sorts the wires into reels of one gauge, insulation and colour, thinnest
// gauge first, then by insulation and colour, and plans from which length each
// wire is cut: first what is left on the shelf, then as little as can be bought in
// the lengths that are sold, by the metre (foot on an imperial sheet) where the
// practice names none. The practice's spare share is bought with it, never by itself. From each
// length the longest is cut first, so that the rest serves the short ones.
// Without colours every reel is plain. Wires that kept (by WireID, nil for none)
// says are built are listed, and neither cut nor bought. Cores of a cable are on no reel.
func All(h *harness.Harness, ways []route.Way, wires []chosen.Wire, colours []colour.Choice, kept []harness.KeptState) []fitted.Reel {
	return WithDrains(h, ways, wires, colours, nil, kept)
}

// WithDrains sorts and plans as All does, and cuts the wires that lead from the screens of the
// units to grounds from the reels too; it writes the reel's name into each drain that is.
func WithDrains(h *harness.Harness, ways []route.Way, wires []chosen.Wire, colours []colour.Choice, units []fitted.Unit, kept []harness.KeptState) []fitted.Reel {
	built := func(w harness.WireID) bool { return harness.IsBuilt(kept, int(w)) }
	type key struct {
		gauge                    unit.Gauge
		insulation, base, tracer string
	}
	number := map[key]int{}
	var out []fitted.Reel
	core := h.OffReels()
	for i := range wires {
		if core[i] {
			continue
		}
		w := &wires[i]
		var pair colour.Pair
		if i < len(colours) {
			pair = colours[i].Pair
		}
		k := key{w.Gauge, w.Insulation, pair.Base, pair.Tracer}
		n, ok := number[k]
		if !ok {
			n = len(out)
			number[k] = n
			out = append(out, fitted.Reel{Gauge: w.Gauge, Insulation: w.Insulation, Base: pair.Base, Tracer: pair.Tracer})
		}
		out[n].Wires = append(out[n].Wires, harness.WireID(i))
		if built(harness.WireID(i)) {
			out[n].Built++
		} else {
			out[n].Need += ways[i].Length
		}
		out[n].Copper += rating.CopperMass(w.Area, ways[i].Length)
	}
	sort.SliceStable(out, func(a, b int) bool { return cutBefore(&out[a], &out[b], wires) })
	drains := drainsOf(h, out, units, kept)
	for i := range out {
		list := out[i].Wires
		sort.SliceStable(list, func(a, b int) bool { return ways[list[a]].Length > ways[list[b]].Length })
		plan(h, ways, &out[i], slices.DeleteFunc(slices.Clone(list), built), drains[i])
	}
	return out
}

// plan fills in which of the wires that are to be cut is cut from which length,
// and what is bought.
func plan(h *harness.Harness, ways []route.Way, r *fitted.Reel, wires []harness.WireID, drains []*fitted.Drain) {
	if len(wires) == 0 {
		return
	}
	p := cutting.Problem{Sold: sold(h), Left: onShelf(h, r)}
	for _, w := range wires {
		p.Pieces = append(p.Pieces, wanted(ways[w].Length))
	}
	for _, d := range drains {
		p.Pieces = append(p.Pieces, wanted(d.Length))
	}
	found := cutting.Solve(p)
	if found.Bought > 0 {
		p.Pieces = append(p.Pieces, spares(h, r, p.Pieces)...)
		found = cutting.Solve(p)
	}
	for _, l := range found.Lengths {
		cut := fitted.Cut{Whole: millimetres(l.Whole), Shelf: l.Left, Over: millimetres(l.Over)}
		for _, i := range l.Cuts {
			switch n := i - len(wires); {
			case n < 0:
				cut.Wires = append(cut.Wires, wires[i])
			case n < len(drains):
				cut.Drains += drains[n].Length
				drains[n].From = r.Name()
			default:
				cut.Over += millimetres(p.Pieces[i]) // the spare stays on it
			}
		}
		if len(cut.Wires) > 0 || cut.Drains > 0 {
			r.Cuts = append(r.Cuts, cut)
		} else if !cut.Shelf { // nothing is bought for the spare alone
			found.Bought -= l.Whole
		}
	}
	for _, i := range found.TooLong {
		if i < len(wires) {
			r.TooLong = append(r.TooLong, wires[i])
		}
	}
	r.Buy, r.Bound = millimetres(found.Bought), millimetres(min(found.Bound, found.Bought))
	byLength(r)
}

// byLength puts the wires in the order of the lengths that they are cut from, so
// that each length is taken in hand once; what is cut from none comes last.
func byLength(r *fitted.Reel) {
	at := map[harness.WireID]int{}
	for i, c := range r.Cuts {
		for _, w := range c.Wires {
			at[w] = i + 1
		}
	}
	last := len(r.Cuts) + 1
	of := func(w harness.WireID) int {
		if at[w] == 0 {
			return last
		}
		return at[w]
	}
	sort.SliceStable(r.Wires, func(i, j int) bool { return of(r.Wires[i]) < of(r.Wires[j]) })
}

// The plan counts in fortieths of a millimetre: an eighth of an inch is 127 of them,
// a tenth of a millimetre 4, so that neither is rounded.
const inMillimetre = 40

// wanted is a length that is needed, upwards; had is one that is there, downwards.
func wanted(mm unit.Millimetre) int { return int(math.Ceil(float64(mm)*inMillimetre - 1e-6)) }
func had(mm unit.Millimetre) int    { return int(math.Floor(float64(mm)*inMillimetre + 1e-6)) }

func millimetres(n int) unit.Millimetre { return unit.Millimetre(n) / inMillimetre }

// sold gives the lengths of the practice, else whole metres or feet.
func sold(h *harness.Harness) cutting.Sold {
	var s cutting.Sold
	for _, l := range h.Practice.Sold {
		s.Lengths = append(s.Lengths, had(l))
	}
	s.Step = had(1000)
	if h.Sheet.Imperial {
		s.Step = had(304.8)
	}
	return s
}

// onShelf gives the lengths left of a reel's gauge and colour; they are of the
// insulation of the practice.
func onShelf(h *harness.Harness, r *fitted.Reel) []int {
	if r.Insulation != h.Practice.Insulation {
		return nil
	}
	var out []int
	for _, s := range h.Practice.Stock {
		for _, c := range s.Colours {
			if s.Gauge != r.Gauge || c.Base != r.Base || c.Tracer != r.Tracer {
				continue
			}
			for _, l := range c.Left {
				out = append(out, had(l))
			}
		}
	}
	return out
}

// spares gives the spare length as pieces, none longer than the longest wire: so
// much of any wire can be cut again.
func spares(h *harness.Harness, r *fitted.Reel, pieces []int) []int {
	rest := wanted(r.Need * unit.Millimetre(h.Practice.Spare))
	var out []int
	for longest := pieces[0]; rest > 0 && longest > 0; rest -= longest {
		out = append(out, min(rest, longest))
	}
	return out
}

func cutBefore(a, b *fitted.Reel, wires []chosen.Wire) bool {
	areaA, areaB := wires[a.Wires[0]].Area, wires[b.Wires[0]].Area
	switch {
	case areaA != areaB:
		return areaA < areaB
	case a.Gauge != b.Gauge:
		return a.Gauge.String() < b.Gauge.String()
	case a.Insulation != b.Insulation:
		return a.Insulation < b.Insulation
	case a.Base != b.Base:
		return a.Base < b.Base
	}
	return a.Tracer < b.Tracer
}
