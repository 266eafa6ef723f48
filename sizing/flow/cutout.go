package flow

import "example.com/loomfolio/sizing/harness"

// findOutputs notes where each source reaches what it feeds: its live side; of a dynamo
// the far side of the cut-out. A short before the cut-out opens it by reverse current (at
// 3 to 5 A, by a maker's manual of a control box) and takes the dynamo's own field away:
// nothing feeds it for long. What lies behind is fed as by any source that limits itself.
func (n *Net) findOutputs() {
	n.outputs = make([]int, len(n.h.Elements))
	for i := range n.h.Elements {
		e := &n.h.Elements[i]
		if !isSource(e) {
			continue
		}
		n.outputs[i] = n.live(e)
		if e.Kind == harness.Charger {
			n.outputs[i] = n.behindCutOut(n.live(e))
		}
	}
}

// behindCutOut gives the far side of the cut-out to which wires and contacts lead from a
// vertex; the vertex where there is none.
func (n *Net) behindCutOut(from int) int {
	out := from
	n.walk(from, func(e edge) bool { return e.wire != harness.None || n.conducts(e.element) }, func(v int) bool {
		for _, i := range n.at[v] {
			if e := n.edges[i]; e.wire == harness.None && n.h.Elements[e.element].CutOut && e.from == v {
				out = e.to
			}
		}
		return out == from
	})
	return out
}

// output gives the vertex at which a source reaches what it feeds.
func (n *Net) output(e *harness.Element) int { return n.outputs[e.ID] }
