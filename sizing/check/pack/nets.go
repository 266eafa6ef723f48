package pack

import (
	"example.com/loomfolio/sizing/forest"
	"example.com/loomfolio/sizing/harness"
)

// netsOf joins the terminals that are one piece of metal. Contacts of switches and
// relays are joined last, and only where both sides are as many batteries high: of a
// changeover between series and parallel those of the position that is written first.
func netsOf(h *harness.Harness) forest.Forest {
	f, heights := forest.New(len(h.Terminals)), newHeights(len(h.Terminals))
	join := func(a, b harness.TerminalID) {
		f.Join(int(a), int(b))
		heights.join(int(a), int(b), 0)
	}
	for i := range h.Wires {
		join(h.Wires[i].From, h.Wires[i].To)
	}
	for i := range h.Elements {
		if e := &h.Elements[i]; isMetal(h, e) {
			join(e.A, e.B)
		}
	}
	for i := range h.Elements {
		if e := &h.Elements[i]; e.Kind == harness.EMF {
			heights.join(int(e.A), int(e.B), 1)
		}
	}
	for i := range h.Elements {
		if e := &h.Elements[i]; isSwitched(e) && heights.join(int(e.A), int(e.B), 0) {
			f.Join(int(e.A), int(e.B))
		}
	}
	return f
}

// heights are terminals joined into sets, and how many batteries each is above the
// first of its set.
type heights struct{ up, above []int }

func newHeights(n int) *heights {
	out := &heights{make([]int, n), make([]int, n)}
	for i := range out.up {
		out.up[i] = i
	}
	return out
}

// root gives the first of a terminal's set, and how many batteries it is above that.
func (h *heights) root(i int) (root, above int) {
	if h.up[i] == i {
		return i, 0
	}
	root, above = h.root(h.up[i])
	h.up[i], h.above[i] = root, h.above[i]+above
	return root, h.above[i]
}

// join puts a so many batteries above b; it tells whether that agrees with what is
// joined already.
func (h *heights) join(a, b, batteries int) bool {
	rootA, aboveA := h.root(a)
	rootB, aboveB := h.root(b)
	if rootA == rootB {
		return aboveA-aboveB == batteries
	}
	h.up[rootA], h.above[rootA] = rootB, aboveB+batteries-aboveA
	return true
}

// isSwitched tells a contact that a switch or a relay moves.
func isSwitched(e *harness.Element) bool {
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
