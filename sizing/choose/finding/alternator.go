package finding

import (
	"fmt"
	"slices"
	"strings"

	"example.com/loomfolio/sizing/choose/chosen"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/source"
	"example.com/loomfolio/sizing/unit"
)

// outrun reports each declared state that asks more than the alternator gives, as advice
// where a button is pressed in it, which lasts seconds. Of the made states it reports that
// which asks least, as advice where several switches are on in it, which nobody has said to
// be meant.
func (f *inspection) outrun() {
	var least *chosen.Budget
	for i := range f.c.Budgets {
		b := &f.c.Budgets[i]
		state := &f.H.States[b.State]
		switch {
		case b.Alternator <= 0 || b.Loads <= b.Alternator*(1+1e-9):
		case !state.Made && f.pressed(state):
			f.overload(b, source.Advice)
		case !state.Made:
			f.overload(b, source.Warning)
		case !f.pressed(state) && (least == nil || b.Loads < least.Loads):
			least = b
		}
	}
	if least == nil {
		return
	}
	level := source.Warning
	if f.switchesOn(&f.H.States[least.State]) > 1 {
		level = source.Advice
	}
	f.overload(least, level)
}

func (f *inspection) overload(b *chosen.Budget, level source.Level) {
	state := &f.H.States[b.State]
	cure := "the battery gives the rest until it is flat: turn something off in this state, or fit a larger " + f.machine()
	if f.pressed(state) {
		cure = "while a button is pressed the battery gives the rest: a state without it shows whether what stays on is too much"
	}
	f.add(source.Problem{
		Slug: "alternator-overloaded", Level: level, Span: f.stateSpan(state),
		Summary:  fmt.Sprintf("the loads of %s take %s, %s gives %s", state.Name, unit.Amps(float64(b.Loads)), strings.Join(f.chargers(state), " with "), b.Alternator),
		Detail:   cure,
		Subjects: append([]string{state.Name}, f.chargers(state)...), Numbers: []source.Number{number("loads_a", float64(b.Loads)), number("alternator_a", float64(b.Alternator))},
	})
}

// machine is what charges: a dynamo, or an alternator.
func (f *inspection) machine() string {
	if slices.ContainsFunc(f.H.Parts, func(p harness.Part) bool { return p.Kind == harness.Dynamo }) {
		return "dynamo"
	}
	return "alternator"
}

// chargers names the alternators, regulators and chargers that give current in a state.
func (f *inspection) chargers(state *harness.State) []string {
	var out []string
	for _, id := range f.ElementsOf(harness.Charger) {
		if e := &f.H.Elements[id]; state.There(e.When) {
			out = append(out, e.Name)
		}
	}
	return out
}

// pressed tells a state with a button pressed, which lasts seconds.
func (f *inspection) pressed(state *harness.State) bool {
	return slices.ContainsFunc(f.H.Parts, func(p harness.Part) bool { return p.Momentary && state.Position[p.ID] != 0 })
}

// switchesOn counts the plain switches that are not at rest.
func (f *inspection) switchesOn(state *harness.State) int {
	n := 0
	for i := range f.H.Parts {
		if p := &f.H.Parts[i]; p.Kind == harness.Switch && state.Position[p.ID] != 0 {
			n++
		}
	}
	return n
}
