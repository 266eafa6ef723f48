package flow

import "example.com/loomfolio/sizing/harness"

// NoLoad looks for a current that leaves a source and comes back to it through
// no load: it follows the currents from each source in turn, over wires, fuses,
// contacts and joints of less than the given ohms, and over diodes. The way is
// given in the order of the current with the source that it left, None when
// there is no such way.
func (c *Currents) NoLoad(ohms float64) (Path, harness.ElementID) {
	for i := range c.h.Elements {
		e := &c.h.Elements[i]
		if !isSource(e) || c.Through(e.ID) >= -Least {
			continue
		}
		if way, ok := c.plainWay(c.state.Of[e.A], c.state.Of[e.B], ohms); ok {
			return way, e.ID
		}
	}
	return Path{Source: harness.None}, harness.None
}

// plainWay walks with the current from a node, nearest first, and gives the
// shortest way over metal to another node.
func (c *Currents) plainWay(from, to int, ohms float64) (Path, bool) {
	seen := map[int]reached{from: {}}
	for queue := []int{from}; len(queue) > 0; queue = queue[1:] {
		v := queue[0]
		if v == to {
			return wayBack(seen, from, to), true
		}
		for _, i := range c.at(v) {
			e := c.edges[i]
			next := e.other(v)
			if _, old := seen[next]; old || !c.plain(e, ohms) || !c.away(e, v) {
				continue
			}
			seen[next] = reached{e, v}
			queue = append(queue, next)
		}
	}
	return Path{}, false
}

// reached is how a walk came to a node: by which edge, from which node.
type reached struct {
	edge edge
	back int
}

func wayBack(seen map[int]reached, from, to int) Path {
	p := Path{Source: harness.None}
	for v := to; v != from; v = seen[v].back {
		if e := seen[v].edge; e.wire != harness.None {
			p.Wires = append(p.Wires, e.wire)
		} else {
			p.Elements = append(p.Elements, e.element)
		}
	}
	return p.reversed()
}

// away tells whether an edge takes current from a node.
func (c *Currents) away(e edge, node int) bool {
	a := c.amps(e)
	if e.to == node {
		a = -a
	}
	return a > Least
}

// plain tells an edge that is no load.
func (c *Currents) plain(e edge, ohms float64) bool {
	if e.wire != harness.None {
		return true
	}
	switch x := &c.h.Elements[e.element]; x.Kind {
	case harness.Contact, harness.FuseLink, harness.Resistance, harness.Join:
		return float64(x.Ohms) < ohms
	case harness.Rectifier:
		return true
	}
	return false
}
