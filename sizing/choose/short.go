package choose

import (
	"fmt"
	"math"

	"example.com/loomfolio/sizing/choose/chosen"
	"example.com/loomfolio/sizing/flow"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/rating"
	"example.com/loomfolio/sizing/source"
	"example.com/loomfolio/sizing/unit"
)

// findShorts works out the shorts behind every fuse, with the wires as warm as
// they run and the fuses hot: the most resistance, so the least current.
func (s *sizer) findShorts() {
	ohms := flow.Ohms{Wires: make([]float64, len(s.H.Wires)), Elements: make([]float64, len(s.H.Elements))}
	for w := range ohms.Wires {
		ohms.Wires[w] = s.OhmsAt(harness.WireID(w), s.Hottest[w])
	}
	for i := range s.H.Elements {
		e := &s.H.Elements[i]
		ohms.Elements[i] = float64(e.Ohms)
		if cold := s.Fuses[i].Cold; e.Kind == harness.FuseLink && cold > 0 {
			ohms.Elements[i] = rating.HotFuse * float64(cold)
		}
	}
	var fuses []harness.ElementID
	for i := range s.H.Elements {
		if e := &s.H.Elements[i]; e.Kind == harness.FuseLink && !s.Spare(e) {
			fuses = append(fuses, e.ID)
		}
	}
	s.Shorts = s.Net.Shorts(fuses, ohms)
}

// shorted writes down the smallest current of a dead short on what a fuse feeds,
// and the longest time in which it opens.
func (s *sizer) shorted(e *harness.Element, out *chosen.Fuse) {
	least := s.Shorts[e.ID].Least()
	if math.IsInf(least, 1) || out.Rating <= 0 {
		return
	}
	out.Prospective = unit.Ampere(least)
	if t := s.Clears(e.ID, least); !math.IsNaN(t) && !math.IsInf(t, 1) {
		out.ClearsIn = unit.Second(t)
	}
}

// clears gives the longest time in which a fuse opens at a current, s; a fuse in
// a cool place is the slower. +Inf: it need not open; NaN: its body has no times.
func (s *sizer) Clears(f harness.ElementID, amps float64) float64 {
	x := &s.Fuses[f]
	return float64(rating.LatestOpening(x.Body, amps/(float64(x.Rating)*s.fuseCool(f))))
}

// fuseShorts checks that a dead short opens each fuse, and in time.
func (f *inspection) fuseShorts() {
	for i := range f.c.Fuses {
		fuse := &f.c.Fuses[i]
		if fuse.Prospective <= 0 {
			continue
		}
		if fuse.Prospective < 3*fuse.Rating {
			f.add(source.Problem{
				Slug: "short-may-not-open", Level: source.Warning, Span: f.fuseSpan(fuse),
				Summary:  fmt.Sprintf("a dead short at the far end draws %s through %s, less than three times its %s", unit.Amps(float64(fuse.Prospective)), fuse.Name, fuse.Rating),
				Detail:   "a heavier wire, a shorter way or a smaller fuse (ECSS-Q-ST-30-11C asks for three times the rating)",
				Subjects: []string{fuse.Name}, Numbers: []source.Number{number("prospective_a", float64(fuse.Prospective)), number("rating_a", float64(fuse.Rating))},
			})
		}
		for _, w := range fuse.Wires {
			f.tooSlow(fuse, w)
		}
	}
}

// shortLasts is the longest time for which k²S² stands (IEC 60364-5-54); a fuse
// that takes longer is compared at that time.
const shortLasts = 5 // s

// tooSlow compares I²t with k²S² for a short at the far end of a wire: nearer
// the fuse the current is larger, but a fuse opens so much sooner that I²t is not.
func (f *inspection) tooSlow(fuse *chosen.Fuse, w harness.WireID) {
	through := f.Shorts[fuse.Element].At(w)
	t := math.Min(f.Clears(fuse.Element, through), shortLasts)
	if math.IsInf(through, 1) || math.IsNaN(t) || t <= 0 {
		return
	}
	z := f.Size(w)
	stands := math.Pow(rating.ShortCircuitK(z.Class, z.Shorted)*float64(z.Conductor.Area)/through, 2)
	if t <= stands {
		return
	}
	f.add(source.Problem{
		Slug: "short-too-slow", Level: source.Warning, Span: f.H.Wires[w].Span,
		Summary:  fmt.Sprintf("a short of %s brings %s (%s) to %s in %.2f s; %s may take %.2f s to open", unit.Amps(through), f.wireName(w), z.Conductor.Gauge, z.Shorted, stands, fuse.Name, t),
		Detail:   "a smaller fuse or a heavier wire (k²S² of IEC 60364-5-54)",
		Subjects: []string{f.wireName(w), fuse.Name}, Numbers: []source.Number{number("prospective_a", through), number("clears_s", t), number("stands_s", stands)},
	})
}
