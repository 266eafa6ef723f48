package cost

import (
	"cmp"
	"math"
	"slices"

	"example.com/loomfolio/sizing/fit/fitted"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/purchase"
	"example.com/loomfolio/sizing/result"
	"example.com/loomfolio/sizing/unit"
)

// ShortestKept is the shortest length that is worth a place on the shelf: a lead between two
// neighbouring parts with its two ends; judgement, not published.
const ShortestKept unit.Millimetre = 300

// Left lists what lies on the shelf after the build, reel by reel: what is over of every length
// that is cut from, the spare with it, from ShortestKept on; then the lengths of the shelf that
// nothing is cut from. Lengths are rounded down, so that nothing is promised that is not there; none
// stand behind a colour that the description has on the shelf without any.
func Left(h *harness.Harness, r *result.Result) []purchase.Left {
	var out []purchase.Left
	shelf := shelved(h)
	for i := range r.Reels {
		reel := &r.Reels[i]
		l := purchase.Left{Gauge: reel.Gauge, Insulation: reel.Insulation, Base: reel.Base, Tracer: reel.Tracer}
		for _, c := range reel.Cuts {
			l.Lengths = append(l.Lengths, kept(h, c.Over)...)
		}
		if at := find(shelf, &l); at >= 0 {
			l.Lengths = append(l.Lengths, untouched(shelf[at].Lengths, reel.Cuts)...)
			shelf = slices.Delete(shelf, at, at+1)
		}
		out = append(out, l)
	}
	out = append(out, shelf...)
	for i := range out {
		slices.SortFunc(out[i].Lengths, func(a, b unit.Millimetre) int { return cmp.Compare(b, a) })
	}
	out = slices.DeleteFunc(out, func(l purchase.Left) bool { return len(l.Lengths) == 0 && !unmeasured(h, &l) })
	return bySize(out)
}

// unmeasured tells a colour that the description has on the shelf without its lengths: it is still there.
func unmeasured(h *harness.Harness, l *purchase.Left) bool {
	for _, s := range h.Practice.Stock {
		for _, c := range s.Colours {
			if s.Gauge == l.Gauge && c.Base == l.Base && c.Tracer == l.Tracer && len(c.Left) == 0 && l.Insulation == h.Practice.Insulation {
				return true
			}
		}
	}
	return false
}

// bySize puts what is of one size and insulation together, in the order in which they come.
func bySize(list []purchase.Left) []purchase.Left {
	at := func(l *purchase.Left) int {
		return slices.IndexFunc(list, func(o purchase.Left) bool { return o.Gauge == l.Gauge && o.Insulation == l.Insulation })
	}
	out := slices.Clone(list)
	slices.SortStableFunc(out, func(a, b purchase.Left) int { return cmp.Compare(at(&a), at(&b)) })
	return out
}

// kept is a remainder as it is put back, nothing where it is too short.
func kept(h *harness.Harness, over unit.Millimetre) []unit.Millimetre {
	step := unit.Millimetre(10)
	if h.Sheet.Imperial {
		step = 25.4
	}
	over = step * unit.Millimetre(math.Floor(float64(over/step)+1e-6))
	if over < ShortestKept {
		return nil
	}
	return []unit.Millimetre{over}
}

// shelved is what the description has on the shelf with its lengths.
func shelved(h *harness.Harness) []purchase.Left {
	var out []purchase.Left
	for _, s := range h.Practice.Stock {
		for _, c := range s.Colours {
			l := purchase.Left{Gauge: s.Gauge, Insulation: h.Practice.Insulation, Base: c.Base, Tracer: c.Tracer}
			if at := find(out, &l); at >= 0 {
				out[at].Lengths = append(out[at].Lengths, c.Left...)
				continue
			}
			l.Lengths = slices.Clone(c.Left)
			out = append(out, l)
		}
	}
	return out
}

func find(in []purchase.Left, l *purchase.Left) int {
	return slices.IndexFunc(in, func(o purchase.Left) bool {
		return o.Gauge == l.Gauge && o.Insulation == l.Insulation && o.Base == l.Base && o.Tracer == l.Tracer
	})
}

// untouched are the lengths of the shelf that no cut begins.
func untouched(lengths []unit.Millimetre, cuts []fitted.Cut) []unit.Millimetre {
	out := slices.Clone(lengths)
	for _, c := range cuts {
		if !c.Shelf {
			continue
		}
		if at := slices.IndexFunc(out, func(l unit.Millimetre) bool { return math.Abs(float64(l-c.Whole)) < 0.05 }); at >= 0 {
			out = slices.Delete(out, at, at+1)
		}
	}
	return out
}
