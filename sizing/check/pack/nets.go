package pack

import (
	"example.com/loomfolio/sizing/forest"
	"example.com/loomfolio/sizing/harness"
)

// netsOf joins the terminals that are one piece of metal.
func netsOf(h *harness.Harness) forest.Forest {
	f := forest.New(len(h.Terminals))
	for i := range h.Wires {
		f.Join(int(h.Wires[i].From), int(h.Wires[i].To))
	}
	for i := range h.Elements {
		if e := &h.Elements[i]; isMetal(h, e) {
			f.Join(int(e.A), int(e.B))
		}
	}
	for i := range h.Elements {
		if e := &h.Elements[i]; e.Kind == harness.Contact && !bridges(h, f, e) {
			f.Join(int(e.A), int(e.B))
		}
	}
	return f
}

// isMetal tells what joins its terminals whatever the switches do, isolators being on.
func isMetal(h *harness.Harness, e *harness.Element) bool {
	if e.Part == harness.None {
		return e.Kind == harness.Join
	}
	part := h.Parts[e.Part].Kind
	switch e.Kind {
	case harness.Join, harness.FuseLink:
		return true
	case harness.Contact:
		return e.When.Kind == harness.Always || part == harness.Isolator
	case harness.Resistance:
		return part == harness.Ground || part == harness.Strap || part == harness.Battery
	}
	return false
}

// bridges tells a contact that would join the two sides of a battery: that of a
// changeover between series and parallel, once its other position is joined.
func bridges(h *harness.Harness, f forest.Forest, e *harness.Element) bool {
	a, z := f.Root(int(e.A)), f.Root(int(e.B))
	for i := range h.Elements {
		if x := &h.Elements[i]; x.Kind == harness.EMF {
			plus, minus := f.Root(int(x.A)), f.Root(int(x.B))
			if plus == a && minus == z || plus == z && minus == a {
				return true
			}
		}
	}
	return false
}
