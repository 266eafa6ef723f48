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
	fuses    [][]int                      // by part: places in the results' fuses
	panels   []harness.PartID             // the fuse panels
	at       [][]harness.PartID           // by place: the parts there
	along    [][]harness.PartID           // by run: the splices along it
	wires    [][]harness.WireID           // by terminal: those that end on it
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
		fuses:    make([][]int, len(h.Parts)),
		at:       make([][]harness.PartID, len(h.Places)),
		along:    make([][]harness.PartID, len(h.Runs)),
		wires:    make([][]harness.WireID, len(h.Terminals)),
	}
	for i, e := range h.Elements {
		if _, ok := x.named[e.Name]; !ok {
			x.named[e.Name] = harness.ElementID(i)
		}
		if e.Part >= 0 {
			x.elements[e.Part] = append(x.elements[e.Part], harness.ElementID(i))
		}
	}
	for i, f := range r.Fuses {
		if f.Part >= 0 {
			x.fuses[f.Part] = append(x.fuses[f.Part], i)
		}
	}
	x.place(h)
	for _, l := range r.Loads {
		if p := h.Elements[l.Element].Part; p >= 0 {
			x.loads[p]++
		}
	}
	for _, w := range h.Wires {
		x.wires[w.From] = append(x.wires[w.From], w.ID)
		x.wires[w.To] = append(x.wires[w.To], w.ID)
	}
	return x
}

// place finds the parts by where they are.
func (x *index) place(h *harness.Harness) {
	for i := range h.Parts {
		p := &h.Parts[i]
		id := harness.PartID(i)
		switch {
		case p.Place >= 0:
			x.at[p.Place] = append(x.at[p.Place], id)
		case p.Along != nil:
			x.along[p.Along.Run] = append(x.along[p.Along.Run], id)
		}
		if p.Panel != nil {
			x.panels = append(x.panels, id)
		}
	}
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

// FusesOf are the fuses of a part, as places in the results' fuses.
func (a Ask) FusesOf(p harness.PartID) []int { return a.found.fuses[p] }

// Panels are the fuse panels.
func (a Ask) Panels() []harness.PartID { return a.found.panels }

// PartsAt are the parts at a place, in the order of the description.
func (a Ask) PartsAt(p harness.PlaceID) []harness.PartID { return a.found.at[p] }

// PartsAlong are the splices along a run, off all places.
func (a Ask) PartsAlong(r harness.RunID) []harness.PartID { return a.found.along[r] }

// LoadsOf counts the loads of a part that have results.
func (a Ask) LoadsOf(p harness.PartID) int { return a.found.loads[p] }

// WiresOn are the wires that end on a terminal, in order.
func (a Ask) WiresOn(t harness.TerminalID) []harness.WireID { return a.found.wires[t] }
