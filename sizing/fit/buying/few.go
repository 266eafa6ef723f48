package buying

import (
	"slices"

	"example.com/loomfolio/sizing/fit/fitted"
	"example.com/loomfolio/sizing/fit/kinds"
	"example.com/loomfolio/sizing/ladder"
	"example.com/loomfolio/sizing/rating"
	"example.com/loomfolio/sizing/unit"
)

// upTo chooses, from sizes in their order, the fewest that serve: each thing takes one that is
// no smaller than it and at most so many times as wide. What none serves keeps the least size
// above it; 0 where none is so large. The sizes come in the order of the things.
func upTo(sizes, things []unit.Millimetre, most unit.Millimetre) []unit.Millimetre {
	needs := make([]ladder.Need, len(things))
	for i, over := range things {
		needs[i] = ladder.Need{Least: len(sizes), Most: -1}
		for k, size := range sizes {
			needs[i].Cost = append(needs[i].Cost, float64(size))
			if size >= over {
				needs[i].Least = min(needs[i].Least, k)
				if k == needs[i].Least || size <= most*over {
					needs[i].Most = k
				}
			}
		}
	}
	set := ladder.Fewest(len(sizes), needs)
	out := make([]unit.Millimetre, len(things))
	for i, x := range needs {
		if k := set.Serving(x); x.Least < len(sizes) && k >= 0 {
			out[i] = sizes[k]
		}
	}
	return out
}

// own gives the things themselves as sizes, each once, the least first.
func own(things []unit.Millimetre) []unit.Millimetre {
	out := slices.Clone(things)
	slices.Sort(out)
	return slices.Compact(out)
}

// laid lists the runs that hold wires still to be laid.
func (b *basket) laid(f *fitted.Fitted) []*fitted.Run {
	var out []*fitted.Run
	for i := range f.Runs {
		if r := &f.Runs[i]; b.someLeft(r.Wires) {
			out = append(out, r)
		}
	}
	return out
}

// clamps gives what the clamp of each of some runs holds; 0 where none is so large.
func (b *basket) clamps(runs []*fitted.Run) []unit.Millimetre {
	over := make([]unit.Millimetre, len(runs))
	for i, r := range runs {
		over[i] = r.Outside
	}
	if b.h.Practice.Buy.Fewest() {
		return upTo(rating.Clamps(), over, rating.MostLoose)
	}
	for i := range over {
		over[i], _ = rating.Clamp(over[i])
	}
	return over
}

// bored gives the bore of the grommet of each of some runs.
func (b *basket) bored(runs []*fitted.Run) []unit.Millimetre {
	bores := make([]unit.Millimetre, len(runs))
	for i, r := range runs {
		bores[i] = r.Grommet
	}
	if b.h.Practice.Buy.Fewest() {
		return upTo(own(bores), bores, rating.MostGrommet)
	}
	return bores
}

// sealed is what the seal of each of some wires is for: its gauge, or where few kinds are
// bought the insulation that it grips.
func (b *basket) sealed(ends []*fitted.End) []string {
	out := make([]string, len(ends))
	needs := make([]kinds.Need, len(ends))
	ranges := rating.Ranges(rating.Seals)
	for i, e := range ends {
		w := &b.c.Wires[e.Wire]
		out[i], needs[i] = w.Gauge.String(), kinds.Need{}
		for k, r := range ranges {
			if r.Holds(w.Area, w.Diameter) {
				needs[i][k] = float64(r.OverTo)
			}
		}
	}
	if !b.h.Practice.Buy.Fewest() {
		return out
	}
	for i, k := range kinds.Pick(slices.Repeat([]float64{1}, len(ranges)), needs) {
		if k >= 0 {
			out[i] = "insulation " + b.across(ranges[k].OverFrom, ranges[k].OverTo)
		}
	}
	return out
}

// across is a range of diameters as it is printed.
func (b *basket) across(from, to unit.Millimetre) string {
	if from == to {
		return "of " + unit.AcrossText(from, b.h.Sheet.Imperial)
	}
	return "from " + unit.AcrossText(from, b.h.Sheet.Imperial) + " to " + unit.AcrossText(to, b.h.Sheet.Imperial)
}
