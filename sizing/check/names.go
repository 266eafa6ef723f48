package check

import (
	"sort"

	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/source"
)

// Letters of wire names: feeds take A to M, returns to ground N to Z; I and O
// are left out, since they read as 1 and 0 on a sleeve.
const (
	feedLetters   = "ABCDEFGHJKLM"
	returnLetters = "NPQRSTUVWXYZ"
)

// nameWires names the wires of each circuit: number and letter.
func (c *checker) nameWires() {
	ground := c.groundNets(true)
	taken := c.ownNames()
	c.keptNames(taken)
	for _, circuit := range c.h.Circuits {
		feeds, returns := 0, 0
		for _, id := range circuit.Wires {
			w := &c.h.Wires[id]
			if own, ok := c.wireNamed[id]; ok {
				w.Name = own.Text
				continue
			}
			if w.Name != "" {
				continue // kept
			}
			letters, n := feedLetters, &feeds
			if ground[w.To] || ground[w.From] {
				letters, n = returnLetters, &returns
			}
			for w.Name == "" || taken[w.Name] {
				w.Name = circuit.Number + letter(letters, *n)
				*n++
			}
			taken[w.Name] = true
		}
	}
}

// ownNames are the names that the description gives; two alike are a problem.
func (c *checker) ownNames() map[string]bool {
	taken := map[string]bool{}
	var first source.Span
	for id := range c.h.Wires {
		own, ok := c.wireNamed[harness.WireID(id)]
		if !ok {
			continue
		}
		if taken[own.Text] {
			p := c.Fail("wire-name-twice", own.Span, "give each wire a name of its own", "two wires are called %s", own.Text)
			p.Others = []source.Note{{Span: first, Text: "another one"}}
		}
		taken[own.Text], first = true, own.Span
	}
	return taken
}

// letter gives A, B … M, then AA, AB ….
func letter(letters string, n int) string {
	size := len(letters)
	if n < size {
		return letters[n : n+1]
	}
	return letter(letters, n/size-1) + letters[n%size:n%size+1]
}

// groundNets marks the terminals that wires alone (through splices, buses and
// connectors) join to a ground, to the earthed side of a battery, or to a grounded body
// where these count.
func (c *checker) groundNets(bodies bool) map[harness.TerminalID]bool {
	out := map[harness.TerminalID]bool{}
	var queue []harness.TerminalID
	mark := func(t harness.TerminalID) {
		if !out[t] {
			out[t] = true
			queue = append(queue, t)
		}
	}
	for _, p := range c.h.Parts {
		if p.Kind == harness.Ground {
			mark(p.Terminals[0])
		}
		if bodies && p.BodyGround {
			mark(p.BodyAt)
		}
		if p.Kind == harness.Battery {
			if t, ok := c.termBy[p.Ref+"."+c.earthed()]; ok {
				mark(t)
			}
		}
	}
	for len(queue) > 0 {
		t := queue[0]
		queue = queue[1:]
		for _, id := range c.wiresAt[t] {
			mark(c.h.Wires[id].From)
			mark(c.h.Wires[id].To)
		}
		c.throughJoints(t, mark)
	}
	return out
}

// throughJoints marks what a connector, bus or splice joins to a terminal.
func (c *checker) throughJoints(t harness.TerminalID, mark func(harness.TerminalID)) {
	p := c.h.PartOf(t)
	if p == nil || (p.Kind != harness.Connector && p.Kind != harness.Bus && p.Kind != harness.Splice) {
		return
	}
	for _, id := range p.Elements {
		if e := c.h.Elements[id]; e.A == t || e.B == t {
			mark(e.A)
			mark(e.B)
		}
	}
}

// earthed is the name of the battery terminal that is earthed.
func (c *checker) earthed() string {
	if c.h.System.PositiveEarth {
		return "+"
	}
	return "-"
}

func sortedKeys[V any](m map[string]V) []string {
	var keys []string
	for k := range m {
		keys = append(keys, k)
	}
	sort.Strings(keys)
	return keys
}
