package dead

import (
	"slices"

	"example.com/loomfolio/sizing/forest"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/proof"
)

// chains is the metal of wires through what always joins: joins and mated plugs.
type chains struct {
	k    *check
	at   forest.Forest // terminals that are one with everything mated
	ends map[int][]harness.WireID
	done []bool // by wire
	seen map[int]bool
}

// beeps lists chains of wires that must beep from end to end, so that every wire is in
// one: from each root of the metal to each of its far ends. A wire that closes a ring is
// told apart: for it one end must be off.
func (k *check) beeps() {
	c := &chains{k: k, at: forest.New(len(k.h.Terminals)), ends: map[int][]harness.WireID{}, done: make([]bool, len(k.h.Wires)), seen: map[int]bool{}}
	for i := range k.h.Elements {
		e := &k.h.Elements[i]
		if e.When.Kind == harness.Always && (e.Kind == harness.Join || e.Kind == harness.Contact && k.h.Parts[e.Part].Kind == harness.Connector) {
			c.at.Join(int(e.A), int(e.B))
		}
	}
	for _, w := range k.h.Wires {
		for _, t := range []harness.TerminalID{w.From, w.To} {
			root := c.at.Root(int(t))
			c.ends[root] = append(c.ends[root], w.ID)
		}
	}
	for _, leaf := range []bool{true, false} { // begin where one wire ends, then at rings
		for _, w := range k.h.Wires {
			root := c.at.Root(int(w.From))
			if !c.done[w.ID] && !c.seen[root] && (!leaf || len(c.ends[root]) == 1) {
				c.from(root, w.From, w.From, nil)
			}
		}
	}
}

// bodies lists the parts whose bodies must beep to the bodywork.
func (k *check) bodies() {
	for i := range k.h.Parts {
		if p := &k.h.Parts[i]; p.BodyGround && p.BodyJoint != harness.None {
			k.out.Bodies = append(k.out.Bodies, p.BodyAt)
		}
	}
}

// from walks on from a node, reached at a terminal over the wires of way; start is where
// the probe stays.
func (c *chains) from(node int, start, here harness.TerminalID, way []harness.WireID) {
	c.seen[node] = true
	on := false
	for _, w := range c.ends[node] {
		if c.done[w] {
			continue
		}
		c.done[w] = true
		next := c.far(w, node)
		if far := c.at.Root(int(next)); !c.seen[far] {
			on = true
			c.from(far, start, next, append(slices.Clone(way), w))
		} else {
			c.add(c.far(w, far), next, []harness.WireID{w}, "one end off: another way joins the two")
		}
	}
	if !on && len(way) > 0 {
		c.add(start, here, way, "")
	}
}

// far is the end of a wire that is away from a node.
func (c *chains) far(w harness.WireID, node int) harness.TerminalID {
	if x := &c.k.h.Wires[w]; c.at.Root(int(x.From)) == node {
		return x.To
	}
	return c.k.h.Wires[w].From
}

func (c *chains) add(from, to harness.TerminalID, way []harness.WireID, note string) {
	if n := &c.k.out; from != to {
		n.Beeps = append(n.Beeps, proof.Beep{Wire: way[0], Wires: way, From: from, To: to, Note: note})
	}
}
