package network

import (
	"slices"

	"example.com/loomfolio/sizing/forest"
	"example.com/loomfolio/sizing/harness"
)

// nodes is which terminals are one: a union of terminals, and the joins that
// made it (the tree), without those that would close a ring.
type nodes struct {
	forest.Forest
	tree []harness.ElementID
}

func (n *nodes) root(t harness.TerminalID) harness.TerminalID {
	return harness.TerminalID(n.Root(int(t)))
}

// join unites two terminals; the lower ID stays the root.
func (n *nodes) join(e *harness.Element) {
	if n.Join(int(e.A), int(e.B)) {
		n.tree = append(n.tree, e.ID)
	}
}

// makeNodes unites what is joined in this state and numbers the nodes in the
// order of their first terminals.
func (b *builder) makeNodes() {
	n := &b.nodes
	n.Forest = forest.New(len(b.h.Terminals))
	for i := range b.h.Elements {
		e := &b.h.Elements[i]
		if there, coil := b.condition(e.When); e.Kind == harness.Join && there && coil == harness.None {
			n.join(e)
		}
	}
	used := b.used()
	b.of = slices.Repeat([]int{-1}, len(b.h.Terminals))
	for t := range b.h.Terminals {
		if !used[t] {
			continue
		}
		root := n.root(harness.TerminalID(t))
		if b.of[root] < 0 {
			b.of[root] = b.newNode(b.terminalName(root))
		}
		b.of[t] = b.of[root]
	}
}

func (b *builder) newNode(name string) int {
	b.names = append(b.names, name)
	return len(b.names) - 1
}

func (b *builder) terminalName(t harness.TerminalID) string {
	if name := b.h.Terminals[t].Full; name != "" || t != harness.Chassis {
		return name
	}
	return "chassis"
}

// used tells which terminals belong to the network: those on which a wire or an
// element ends in any state, and the chassis where it must be the reference.
func (b *builder) used() []bool {
	used := make([]bool, len(b.h.Terminals))
	for i := range b.h.Wires {
		w := &b.h.Wires[i]
		used[w.From], used[w.To] = true, true
	}
	for i := range b.h.Elements {
		e := &b.h.Elements[i]
		if e.Kind != harness.Open {
			used[e.A], used[e.B] = true, true
		}
	}
	if b.battery() == nil {
		used[harness.Chassis] = true
	}
	return used
}

// battery is the first battery, or nil.
func (b *builder) battery() *harness.Element {
	for i := range b.h.Elements {
		if b.h.Elements[i].Kind == harness.EMF {
			return &b.h.Elements[i]
		}
	}
	return nil
}

// grounds lists the nodes that are 0 V where the reference's metal does not reach:
// the minus of each battery (its plus where that is earthed), then of each charger and converter,
// then the chassis.
func (b *builder) grounds() []int {
	var out []int
	for _, kind := range []harness.ElementKind{harness.EMF, harness.Charger, harness.Converter} {
		for i := range b.h.Elements {
			if e := &b.h.Elements[i]; e.Kind == kind {
				out = append(out, b.of[b.earthSide(e)])
			}
		}
	}
	if at := b.of[harness.Chassis]; at >= 0 {
		out = append(out, at)
	}
	return out
}

// earthSide is the terminal of a source on the side that the vehicle earths.
func (b *builder) earthSide(source *harness.Element) harness.TerminalID {
	if b.h.System.PositiveEarth {
		return source.A
	}
	return source.B
}

// reference is the node at 0 V.
func (b *builder) reference() int {
	battery := b.battery()
	if battery == nil {
		return b.of[harness.Chassis]
	}
	return b.of[b.earthSide(battery)]
}
