package colour

import (
	"fmt"
	"slices"
	"strings"

	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/source"
)

// bandColours are those of the bands round the bundles of a run, by number: the
// seven colours that are told apart best by everyone, in an order of our own.
// With more bundles they repeat, and the number tells.
var bandColours = [...]string{"WH", "OG", "VT", "PK", "GY", "RD", "BK"}

// bundle ties wires of one colour that lie in one run into different bundles
// (MIL-STD-681F 5.1.3: each colour once in a bundle, bundles told apart by
// coloured bands). A wire keeps its bundle all along the loom.
func (v *verdict) bundle() {
	clash := map[harness.WireID][]harness.WireID{}
	for _, x := range v.alike {
		if !x.touch && v.chosen(x) {
			clash[x.a], clash[x.b] = append(clash[x.a], x.b), append(clash[x.b], x.a)
		}
	}
	if len(clash) == 0 {
		return
	}
	number := map[harness.WireID]int{}
	for _, w := range v.order {
		n := 1
		for slices.ContainsFunc(clash[w], func(o harness.WireID) bool { return number[o] == n }) {
			n++
		}
		number[w] = n
	}
	for r := range v.bundles {
		v.bundles[r] = bundles(v.here[len(v.h.Parts)+r], clash, number)
	}
}

// chosen tells whether the colour of one of two wires at least was chosen.
func (v *verdict) chosen(x alike) bool {
	return !v.classes[v.class[x.a]].fixed() || !v.classes[v.class[x.b]].fixed()
}

// banded tells whether two wires of one colour lie in different bundles.
func (v *verdict) banded(x alike) bool { return !x.touch && v.chosen(x) }

// bundles sorts the wires of a run by their bundles; nil where no colour repeats.
func bundles(wires []harness.WireID, clash map[harness.WireID][]harness.WireID, number map[harness.WireID]int) []Bundle {
	repeats := slices.ContainsFunc(wires, func(w harness.WireID) bool {
		return slices.ContainsFunc(clash[w], func(o harness.WireID) bool { return slices.Contains(wires, o) })
	})
	if !repeats {
		return nil
	}
	var out []Bundle
	for n, left := 1, len(wires); left > 0; n++ {
		b := Bundle{Number: n, Band: bandColours[(n-1)%len(bandColours)]}
		for _, w := range wires {
			if number[w] == n {
				b.Wires = append(b.Wires, w)
			}
		}
		if left -= len(b.Wires); len(b.Wires) > 0 {
			out = append(out, b)
		}
	}
	return out
}

// bands is one advice for each run in which colours repeat.
func (v *verdict) bands() source.Problems {
	var out source.Problems
	for r, list := range v.bundles {
		if len(list) == 0 {
			continue
		}
		run := v.h.Runs[r]
		p := source.Problem{
			Slug: "colours-repeat", Level: source.Advice, Span: run.Span,
			Summary: fmt.Sprintf("colours repeat in the run from %s to %s: tie its wires into %d bundles", v.place(run.From), v.place(run.To), len(list)),
		}
		var groups []string
		for _, b := range list {
			words := []string{fmt.Sprintf("%s band %d:", nameOr(b.Band), b.Number)}
			for _, w := range b.Wires {
				words = append(words, v.h.Wires[w].Name)
				p.Subjects = append(p.Subjects, v.h.Wires[w].Name)
			}
			groups = append(groups, strings.Join(words, " "))
		}
		p.Detail = "each colour is there once in a bundle; put the bands on at every branching: " + strings.Join(groups, "; ")
		out = append(out, p)
	}
	return out
}

func (v *verdict) place(p harness.PlaceID) string {
	if int(p) < len(v.h.Places) {
		return v.h.Places[p].Key
	}
	return fmt.Sprint(int(p))
}
