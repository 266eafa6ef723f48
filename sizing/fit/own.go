package fit

import (
	"slices"

	"example.com/loomfolio/sizing/harness"
)

// ownEnd tells an end of the vehicle's own wire that stays as it is. It is made anew where it
// goes into a splice with wires that are new.
func (f *fitter) ownEnd(w *harness.Wire, t harness.TerminalID) bool {
	if !w.Existing {
		return false
	}
	p := f.h.PartOf(t)
	return p == nil || p.Kind != harness.Splice || f.allOwn(f.at(p.ID))
}

// allOwn tells whether wires are all the vehicle's own, one at least.
func (f *fitter) allOwn(wires []harness.WireID) bool {
	return len(wires) > 0 && !slices.ContainsFunc(wires, func(w harness.WireID) bool { return !f.h.Wires[w].Existing })
}

// onlyOwn tells a terminal on which only the vehicle's own wires end.
func (f *fitter) onlyOwn(t harness.TerminalID) bool {
	return !slices.ContainsFunc(f.h.Wires, func(w harness.Wire) bool { return (w.From == t || w.To == t) && !w.Existing })
}

// allNamedOwn is allOwn of wires by their names.
func (f *fitter) allNamedOwn(names []string) bool {
	for i := range f.h.Wires {
		if w := &f.h.Wires[i]; !w.Existing && slices.Contains(names, w.Name) {
			return false
		}
	}
	return true
}
