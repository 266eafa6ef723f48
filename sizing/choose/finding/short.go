package finding

import (
	"fmt"

	"example.com/loomfolio/sizing/choose/chosen"
	"example.com/loomfolio/sizing/choose/protect"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/source"
	"example.com/loomfolio/sizing/unit"
)

// fuseShorts checks that a dead short opens each fuse, and in time.
func (f *inspection) fuseShorts() {
	for i := range f.c.Fuses {
		fuse := &f.c.Fuses[i]
		if fuse.Prospective <= 0 {
			continue
		}
		if level, few := f.mayNotOpen(fuse); few {
			f.add(source.Problem{
				Slug: "short-may-not-open", Level: level, Span: f.fuseSpan(fuse),
				Summary:  fmt.Sprintf("a dead short at the far end draws %s through %s, less than three times its %s", unit.Amps(float64(fuse.Prospective)), fuse.Name, fuse.Rating),
				Detail:   "a heavier wire, a shorter route or a smaller fuse (ECSS-Q-ST-30-11C requires three times the rating)",
				Subjects: []string{fuse.Name}, Numbers: []source.Number{number("prospective_a", float64(fuse.Prospective)), number("rating_a", float64(fuse.Rating))},
			})
		}
		for _, w := range fuse.Wires {
			f.tooSlow(fuse, w)
		}
	}
}

// inTime is how long a fuse may take to open in a dead short, s, before that is said: the
// wire stands what opens it only in half an hour. Common practice, no source.
const inTime = 60

// mayNotOpen tells a fuse through which a short at the far end draws less than three times
// its rating (ECSS-Q-ST-30-11C): a warning where it then takes too long to open, or a
// breaker less than twice its rating; advice for a given rating that opens all the same. A
// rating that was chosen, with the wires as heavy as their terminals take, is not blamed.
func (f *inspection) mayNotOpen(fuse *chosen.Fuse) (source.Level, bool) {
	if fuse.Prospective >= 3*fuse.Rating {
		return 0, false
	}
	opens := f.Clears(fuse.Element, float64(fuse.Prospective)) <= inTime
	if fuse.Breaker {
		opens = fuse.Prospective >= 2*fuse.Rating
	}
	if !opens {
		return source.Warning, true
	}
	return source.Advice, fuse.Given
}

// tooSlow compares I²t with k²S² for a short at the far end of a wire: nearer
// the fuse the current is larger, but a fuse opens so much sooner that I²t is not.
func (f *inspection) tooSlow(fuse *chosen.Fuse, w harness.WireID) {
	through := f.Shorts[fuse.Element].At(w)
	z := f.Size(w)
	t, stands := f.Lasts(fuse.Element, through), protect.OutLasts(z, through)
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
