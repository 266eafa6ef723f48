package page

import (
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/result"
)

// index finds what the model holds by name, by part and by terminal.
type index struct {
	named    map[string]harness.ElementID // the first of a name
	elements [][]harness.ElementID        // by part
	loads    []int                        // by part: how many it has
	wires    [][]harness.WireID           // by terminal: those that end on it
	units    []harness.UnitID             // by wire: the unit that it is in
	twists   map[string][]harness.WireID  // by their name
	screens  map[string][]harness.WireID
}

// Of is the question for a packet of a model and its results, on a paper and for a
// reader; nothing is known yet of where anchors stand. The model must not change afterwards.
func Of(h *harness.Harness, r *result.Result, paper, reader string) Ask {
	return Ask{H: h, R: r, Paper: paper, For: reader, found: indexed(h, r)}
}

func indexed(h *harness.Harness, r *result.Result) *index {
	x := &index{
		named:    make(map[string]harness.ElementID, len(h.Elements)),
		elements: make([][]harness.ElementID, len(h.Parts)),
		loads:    make([]int, len(h.Parts)),
		wires:    make([][]harness.WireID, len(h.Terminals)),
		units:    h.UnitOf(),
		twists:   map[string][]harness.WireID{},
		screens:  map[string][]harness.WireID{},
	}
	for i, e := range h.Elements {
		if _, ok := x.named[e.Name]; !ok {
			x.named[e.Name] = harness.ElementID(i)
		}
		if e.Part >= 0 {
			x.elements[e.Part] = append(x.elements[e.Part], harness.ElementID(i))
		}
	}
	for _, l := range r.Loads {
		if p := h.Elements[l.Element].Part; p >= 0 {
			x.loads[p]++
		}
	}
	for _, w := range h.Wires {
		x.wires[w.From] = append(x.wires[w.From], w.ID)
		x.wires[w.To] = append(x.wires[w.To], w.ID)
		if w.Twist != "" {
			x.twists[w.Twist] = append(x.twists[w.Twist], w.ID)
		}
		if w.Screen != "" {
			x.screens[w.Screen] = append(x.screens[w.Screen], w.ID)
		}
	}
	return x
}

// ElementNamed finds an element by its name.
func (a Ask) ElementNamed(name string) (harness.Element, bool) {
	id, ok := a.found.named[name]
	if !ok {
		return harness.Element{}, false
	}
	return a.H.Elements[id], true
}

// ElementsOf are the elements of a part, in order.
func (a Ask) ElementsOf(p harness.PartID) []harness.ElementID { return a.found.elements[p] }

// LoadsOf counts the loads of a part that have results.
func (a Ask) LoadsOf(p harness.PartID) int { return a.found.loads[p] }

// UnitOf is the unit that a wire is in, nil where it is in none.
func (a Ask) UnitOf(w harness.WireID) *harness.Unit {
	if id := a.found.units[w]; id != harness.None {
		return &a.H.Units[id]
	}
	return nil
}

// Twist are the wires of a twist.
func (a Ask) Twist(name string) []harness.WireID { return a.found.twists[name] }

// Screen are the wires under a screen.
func (a Ask) Screen(name string) []harness.WireID { return a.found.screens[name] }

// WiresOn are the wires that end on a terminal, in order.
func (a Ask) WiresOn(t harness.TerminalID) []harness.WireID { return a.found.wires[t] }
