package trial

import (
	"slices"
	"strings"

	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/network"
)

// flatSolvings lists in which ways a state is solved again for the heat that a
// flat battery makes: with all batteries flat while an alternator runs, so that
// its cable carries its full output; and where there are several that a switch parts,
// with each one flat alone, so that the cable between two carries what the others and the
// alternator give it. Cranking is left out: it takes seconds, and a flat battery
// does not crank.
func (b *Base) flatSolvings(state int) []Solving {
	engine := b.H.States[state].Engine
	if engine == harness.EngineCranking {
		return nil
	}
	var out []Solving
	add := func(condition string, flat ...harness.ElementID) {
		out = append(out, Solving{Index: state, Name: besides(b.H.States[state].Name, condition), options: network.Options{Flat: flat}})
	}
	batteries := b.ElementsOf(harness.EMF)
	if len(batteries) > 0 && b.H.Charges(&b.H.States[state]) {
		add(allFlat(len(batteries)), batteries...)
		out[0].AllFlat = true
	}
	if len(batteries) < 2 {
		return out
	}
	groups := b.joined(batteries)
	for _, group := range groups {
		if len(groups) > 1 {
			add(isFlat(b.called(group)), group...)
		}
	}
	return out
}

// joined puts batteries together that hang in parallel whatever the switches do: one of
// them is not flat while the other is full.
func (b *Base) joined(batteries []harness.ElementID) [][]harness.ElementID {
	var out [][]harness.ElementID
	for _, id := range batteries {
		e := &b.H.Elements[id]
		i := slices.IndexFunc(out, func(group []harness.ElementID) bool {
			first := &b.H.Elements[group[0]]
			return b.Net.Always(e.A, first.A) && b.Net.Always(e.B, first.B)
		})
		if i < 0 {
			i = len(out)
			out = append(out, nil)
		}
		out[i] = append(out[i], id)
	}
	return out
}

func (b *Base) called(group []harness.ElementID) string {
	var names []string
	for _, id := range group {
		names = append(names, b.H.Elements[id].Name)
	}
	return strings.Join(names, " and ")
}

// lowSolvings lists a state once more, where a vehicle has loads of constant power,
// for the heat and the fuses: with these at the current of the lowest voltage that
// they work at. Cranking takes seconds.
func (b *Base) lowSolvings(state int) []Solving {
	if b.H.States[state].Engine == harness.EngineCranking {
		return nil
	}
	for i := range b.H.Elements {
		if e := &b.H.Elements[i]; e.Kind == harness.Load && e.Behaves == harness.AsPower && b.H.ConverterOf(e.ID) == nil {
			return []Solving{{Index: state, Name: besides(b.H.States[state].Name, lowest), options: network.Options{Low: true}}}
		}
	}
	return nil
}
