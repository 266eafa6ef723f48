package route

import (
	"fmt"
	"slices"

	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/rating"
	"example.com/loomfolio/sizing/source"
	"example.com/loomfolio/sizing/unit"
)

// Section is what a twist asks of a wire.
type Section struct {
	Over unit.Millimetre // outside
	Area unit.SquareMillimetre
}

// guessed gives the sections before anything is chosen: of the given gauge, else the
// kept one, else the smallest of the practice.
func guessed(h *harness.Harness) []Section {
	least := h.Practice.Smallest
	if !least.Given() {
		least = unit.Gauge{System: unit.Metric, Size: "0.5"}
	}
	out := make([]Section, len(h.Wires))
	for i := range h.Wires {
		w := &h.Wires[i]
		c, ok := rating.AnyConductor(w.Gauge)
		if !ok {
			c, ok = rating.AnyConductor(w.Kept.Gauge)
		}
		if !ok {
			c, _ = rating.AnyConductor(least)
		}
		over, _ := rating.Diameter(w.Insulation, c)
		out[i] = Section{over, c.Area}
	}
	return out
}

// Twist is the wires of one twist, with how they are laid.
type Twist struct {
	Name   string
	Wires  []harness.WireID
	Lay    unit.Millimetre
	Factor float64 // length of a wire over that of the twist
	Source string  // of the lay, "" where the practice gives it
}

// Twists gives the twists within a unit, in the order of its wires.
func Twists(h *harness.Harness, u *harness.Unit, sections []Section) []Twist {
	var out []Twist
	for _, id := range u.Wires {
		name := h.Wires[id].Twist
		if name == "" || u.Kind == harness.Cabled {
			continue
		}
		i := slices.IndexFunc(out, func(t Twist) bool { return t.Name == name })
		if i < 0 {
			i = len(out)
			out = append(out, Twist{Name: name})
		}
		out[i].Wires = append(out[i].Wires, id)
	}
	out = slices.DeleteFunc(out, func(t Twist) bool { return len(t.Wires) < 2 })
	for i := range out {
		laid(h, &out[i], sections)
	}
	return out
}

// laid finds the lay and what it adds; the thickest wire decides both.
func laid(h *harness.Harness, t *Twist, sections []Section) {
	var thick Section
	for _, w := range t.Wires {
		thick.Over, thick.Area = max(thick.Over, sections[w].Over), max(thick.Area, sections[w].Area)
	}
	if t.Lay = h.Practice.Lay; t.Lay == 0 {
		t.Lay, t.Source = rating.Lay(thick.Area, len(t.Wires))
	}
	t.Factor = rating.Twisted(rating.PitchCircle(thick.Over, len(t.Wires)), t.Lay)
}

// together cuts the wires of a unit to one length, that of the longest, and those
// of a twist longer by its turns. A given length is cut as it is written, and the
// others follow the longest given one. Wires that go different ways keep their own
// lengths: they cannot be one.
func (f *finder) together(u *harness.Unit, ways []Way) {
	factor := make(map[harness.WireID]float64, len(u.Wires))
	for _, t := range Twists(f.h, u, f.sections) {
		for _, w := range t.Wires {
			factor[w] = t.Factor
		}
	}
	whole, given := unit.Millimetre(0), false
	for _, w := range u.Wires {
		own := ways[w].Wants
		if ways[w].Given && factor[w] > 0 {
			own /= unit.Millimetre(factor[w])
		}
		if ways[w].Given && !given {
			whole, given = 0, true
		}
		if ways[w].Given == given {
			whole = max(whole, own)
		}
	}
	parted := f.apart(u, ways)
	for _, w := range u.Wires {
		way := &ways[w]
		way.Whole = whole
		if parted || way.Given || way.Length == 0 {
			continue
		}
		f.follow(u, way, whole, factor[w])
	}
}

// follow gives a wire the length of its unit, with the turns of its twist.
func (f *finder) follow(u *harness.Unit, way *Way, whole unit.Millimetre, factor float64) {
	if whole != way.Wants {
		way.Reason += fmt.Sprintf("; as long as the others in %s, %s", u.Name, f.text(whole))
	}
	way.Wants = whole
	if factor > 0 {
		way.Wants = RoundUp(float64(whole)*factor, float64(f.h.Practice.RoundUp))
		way.Reason += fmt.Sprintf("; × %.3f for the turns of the twist, rounded up to %s", factor, f.text(way.Wants))
	}
	way.Length = way.Wants
}

// uneven is how far the wires of a unit may differ before anything is said: a tenth
// and 100 mm; common practice, no source.
const (
	unevenShare                  = 0.1
	unevenAlways unit.Millimetre = 100
)

// apart reports wires of one unit that do not go one way, or differ much in length
// where they are not cut off at its end. It tells of the former.
func (f *finder) apart(u *harness.Unit, ways []Way) bool {
	first := u.Wires[0]
	short, long := first, first
	for _, w := range u.Wires[1:] {
		if !sameWay(&ways[first], &ways[w]) {
			f.notTogether(u, source.Warning, "unit-apart", w, first, fmt.Sprintf("%s and %s do not take the same route, and both belong to the %s %s",
				f.ends(first), f.ends(w), u.Kind, u.Name), "only wires between the same two places can be one: take one of them out, or let both pass the same places (via:)")
			return true
		}
		if ways[w].Wants < ways[short].Wants {
			short = w
		}
		if ways[w].Wants > ways[long].Wants {
			long = w
		}
	}
	low, high := ways[short].Wants, ways[long].Wants
	if u.Kind == harness.Cabled || high-low <= max(unevenAlways, high*unevenShare) {
		return false // the cores of a cable are cut off where each one ends
	}
	f.notTogether(u, source.Advice, "unit-uneven", short, long, fmt.Sprintf("%s needs %s and %s needs %s, and the %s %s makes both one length",
		f.ends(short), f.text(low), f.ends(long), f.text(high), u.Kind, u.Name), "cut off what is over at the end, or look at the lengths and tails of both")
	return false
}

func (f *finder) notTogether(u *harness.Unit, level source.Level, slug string, w, other harness.WireID, summary, detail string) {
	f.problems = append(f.problems, source.Problem{
		Slug: slug, Level: level, Span: f.h.Wires[w].Span, Summary: summary, Detail: detail,
		Subjects: []string{f.h.Wires[w].Name, f.h.Wires[other].Name},
		Others:   []source.Note{{Span: f.h.Wires[other].Span, Text: "the other one"}},
	})
}

// ends names a wire; while the names are not settled by its ends.
func (f *finder) ends(id harness.WireID) string {
	w := &f.h.Wires[id]
	return w.Name + " (" + f.h.Terminals[w.From].Full + " to " + f.h.Terminals[w.To].Full + ")"
}

// sameWay tells whether two wires lie in the same runs and between the same places,
// whichever way round.
func sameWay(a, b *Way) bool {
	return slices.Equal(runsOf(a), runsOf(b)) && slices.Equal(endsOf(a), endsOf(b))
}

func runsOf(w *Way) []harness.RunID {
	var out []harness.RunID
	for _, s := range w.Shares {
		out = append(out, s.Run)
	}
	slices.Sort(out)
	return slices.Compact(out)
}

func endsOf(w *Way) []harness.PlaceID {
	if len(w.Places) == 0 {
		return nil
	}
	out := []harness.PlaceID{w.Places[0], w.Places[len(w.Places)-1]}
	slices.Sort(out)
	return out
}
