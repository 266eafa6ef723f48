package cause

import (
	"slices"
	"strings"

	"example.com/loomfolio/layout/page"
	"example.com/loomfolio/sizing/proof"
	"example.com/loomfolio/sizing/unit"
)

// fewThings is up to how many things stand in the order of their likelihood; more are
// sorted by name, so that those that follow one another can be joined.
const fewThings = 4

// Grouped says faults in few words: what is open or a poor joint, the likeliest first, then
// what else it may be, then what touches ground, then what a fuse is blown by. A load or coil
// that is named stands for its being shorted too; a wire that touches ground is told beside its being open.
func (w Words) Grouped(faults []int) string {
	var open, other, earthed []string
	var blown []int
	for _, i := range faults {
		f := &w.P.Faults[i]
		switch {
		case len(f.Blown) > 0 && (f.Kind == proof.Short || f.Kind == proof.Shorted):
			blown = append(blown, i)
		case f.Kind == proof.Short && w.touched(f) == ground:
			earthed = appendOnce(earthed, w.Thing(f))
		case Quiet(f.Kind) || f.Kind == proof.Shorted || w.whole(f):
			open = appendOnce(open, w.Thing(f))
		default:
			other = appendOnce(other, w.Fault(f))
		}
	}
	return page.List("; ", strings.Join(append(joined(open), firm(other)...), ", "), after("to ground: ", spanned(earthed)), w.blown(blown))
}

// after is a list behind its first words, nothing where it is empty.
func after(words string, list []string) string {
	if len(list) == 0 {
		return ""
	}
	return words + strings.Join(list, ", ")
}

// Spell are faults that blow a fuse in the same states.
type Spell struct {
	When   string // "at once", "in turning left"
	Faults []int
}

// blown says what blows a fuse, by when it does where that is known.
func (w Words) blown(faults []int) string {
	if len(faults) == 0 {
		return ""
	}
	spells := []Spell{{Faults: faults}}
	if w.Spells != nil {
		spells = w.Spells(faults)
	}
	var out []string
	for _, s := range spells {
		var things []string
		for _, f := range s.Faults {
			things = appendOnce(things, w.blowing(&w.P.Faults[f]))
		}
		out = append(out, page.List(" ", s.When, strings.Join(joined(things), ", ")))
	}
	return "blown: " + strings.Join(out, "; ")
}

// blowing is what blows a fuse: a thing to ground, or to its neighbour.
func (w Words) blowing(f *proof.Fault) string {
	if other := w.touched(f); f.Kind == proof.Short && other != ground {
		return w.Thing(f) + " to " + other
	}
	return w.Thing(f)
}

// joined are things with those that follow one another joined, where there are many.
func joined(things []string) []string {
	if len(things) > fewThings {
		return spanned(things)
	}
	return firm(things)
}

// spanned are things by name with those that follow one another joined.
func spanned(things []string) []string {
	things = slices.Clone(things)
	slices.SortStableFunc(things, unit.Natural)
	return page.Spans(things)
}

// firm keeps each of some words in one line.
func firm(words []string) []string {
	var out []string
	for _, s := range words {
		out = append(out, page.Firm(s))
	}
	return out
}

func appendOnce(list []string, s string) []string {
	if slices.Contains(list, s) {
		return list
	}
	return append(list, s)
}
