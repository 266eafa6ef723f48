package pack

import (
	"example.com/loomfolio/sizing/forest"
	"example.com/loomfolio/sizing/harness"
)

// netsOf joins the terminals that are one piece of metal. Contacts of switches and
// relays are joined last, and only where they bridge no battery: of a changeover
// between series and parallel those of the position that is written first.
func netsOf(h *harness.Harness) forest.Forest {
	f, loops := forest.New(len(h.Terminals)), forest.New(len(h.Terminals))
	join := func(a, b harness.TerminalID) {
		f.Join(int(a), int(b))
		loops.Join(int(a), int(b))
	}
	for i := range h.Wires {
		join(h.Wires[i].From, h.Wires[i].To)
	}
	for i := range h.Elements {
		e := &h.Elements[i]
		if isMetal(h, e) {
			join(e.A, e.B)
		}
		if e.Kind == harness.EMF {
			loops.Join(int(e.A), int(e.B))
		}
	}
	for i := range h.Elements {
		if e := &h.Elements[i]; isSwitched(h, e) && loops.Root(int(e.A)) != loops.Root(int(e.B)) {
			join(e.A, e.B)
		}
	}
	return f
}

// isSwitched tells a contact that a switch or a relay moves.
func isSwitched(h *harness.Harness, e *harness.Element) bool {
	return e.Kind == harness.Contact && e.When.Kind != harness.Always && e.When.Kind != harness.EngineIs
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
