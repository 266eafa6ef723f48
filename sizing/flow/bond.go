package flow

import "example.com/loomfolio/sizing/harness"

// Bonded tells whether metal joins two terminals, the chassis with it: wires, straps,
// fuses and contacts, all of them closed; no load, source or resistor.
func (n *Net) Bonded(a, b harness.TerminalID) bool {
	if n.bonds == nil {
		n.bond()
	}
	return n.bonds.Root(n.vertex[a]) == n.bonds.Root(n.vertex[b])
}

func (n *Net) bond() {
	n.bonds = n.together(func(x *harness.Element) bool {
		return x.Kind == harness.FuseLink || n.conducts(x.ID) && x.Kind != harness.Rectifier && !n.isResistor(x)
	})
}

// Always tells whether metal that no switch parts joins two terminals: wires, straps and
// fuses.
func (n *Net) Always(a, b harness.TerminalID) bool {
	if n.always == nil {
		n.always = n.together(n.firm)
	}
	return n.always.Root(n.vertex[a]) == n.always.Root(n.vertex[b])
}

// firm tells what joins whatever the switches do: fuses, straps and what is always closed;
// no diode, no resistor.
func (n *Net) firm(x *harness.Element) bool {
	return x.Kind == harness.FuseLink || x.When.Kind == harness.Always && n.conducts(x.ID) && x.Kind != harness.Rectifier && !n.isResistor(x)
}

// Bypassed tells whether metal joins the two sides of a contact though it is open: wires,
// straps, what is always closed, and the fuses that pass says.
func (n *Net) Bypassed(contact harness.ElementID, pass func(fuse harness.ElementID) bool) bool {
	e := &n.h.Elements[contact]
	return n.tied(e.A, e.B, contact, pass)
}

// Tied tells whether wires, straps and what is always closed join two terminals, over no fuse.
func (n *Net) Tied(a, b harness.TerminalID) bool {
	return n.tied(a, b, harness.None, func(harness.ElementID) bool { return false })
}

func (n *Net) tied(a, b harness.TerminalID, contact harness.ElementID, pass func(fuse harness.ElementID) bool) bool {
	found := false
	n.walkAll(n.vertex[a], func(x edge) bool {
		if x.wire != harness.None {
			return true
		}
		y := &n.h.Elements[x.element]
		switch y.Kind {
		case harness.FuseLink:
			return pass(y.ID)
		case harness.Contact:
			return y.ID != contact && y.When.Kind == harness.Always
		case harness.Resistance:
			return !n.isResistor(y)
		}
		return false
	}, func(v int) bool {
		found = found || v == n.vertex[b]
		return !found
	})
	return found
}

// Holds tells whether a relay's own contact holds its coil, once it has pulled in, with no
// switch between: over fuses, straps and what is always closed, the coil reaches a source's
// live side by its own contact alone, and its other side the return.
func (n *Net) Holds(coil harness.ElementID) bool {
	e := &n.h.Elements[coil]
	lives, deads := n.poles()
	live, dead := n.live(e), n.dead(e)
	own := func(y *harness.Element) bool { return y.When.Kind == harness.Energised && y.When.Coil == coil }
	firm := func(y *harness.Element) bool {
		return n.firm(y) || y.Kind == harness.Rectifier && n.conducts(y.ID)
	}
	return !n.reachesOver(live, lives, firm) && n.reachesOver(live, lives, func(y *harness.Element) bool { return firm(y) || own(y) }) && n.reachesOver(dead, deads, firm)
}

// Reaches tells whether a load or coil reaches a source's live side and the return over
// wires, fuses, straps, diodes, what is always closed and the contacts that shut says.
func (n *Net) Reaches(id harness.ElementID, shut func(*harness.Element) bool) bool {
	e := &n.h.Elements[id]
	lives, deads := n.poles()
	over := n.overShut(shut)
	return n.reachesOver(n.live(e), lives, over) && n.reachesOver(n.dead(e), deads, over)
}

// Fed tells whether a terminal reaches a source's live side so, Grounded whether it reaches
// the return.
func (n *Net) Fed(t harness.TerminalID, shut func(*harness.Element) bool) bool {
	lives, _ := n.poles()
	return n.reachesOver(n.vertex[t], lives, n.overShut(shut))
}

// Grounded: see Fed.
func (n *Net) Grounded(t harness.TerminalID, shut func(*harness.Element) bool) bool {
	_, deads := n.poles()
	return n.reachesOver(n.vertex[t], deads, n.overShut(shut))
}

// overShut passes what joins whatever the switches do, diodes, and the contacts that shut says.
func (n *Net) overShut(shut func(*harness.Element) bool) func(*harness.Element) bool {
	return func(y *harness.Element) bool {
		return n.firm(y) || y.Kind == harness.Rectifier && n.conducts(y.ID) || y.Kind == harness.Contact && n.conducts(y.ID) && shut(y)
	}
}

// reachesOver tells whether some vertices are reached over wires and the elements that pass says.
func (n *Net) reachesOver(from int, goals map[int]bool, pass func(*harness.Element) bool) bool {
	found := false
	n.walkAll(from, func(x edge) bool { return x.wire != harness.None || pass(&n.h.Elements[x.element]) }, func(v int) bool {
		found = found || goals[v]
		return !found && v != n.chassis
	})
	return found
}

// InReturn tells a fuse on the earth side: metal joins it to the chassis or to the earth
// side of a source without passing itself, and to no live side.
func (n *Net) InReturn(fuse harness.ElementID) bool {
	e := &n.h.Elements[fuse]
	lives, deads := n.poles()
	earth := false
	for _, from := range []int{n.vertex[e.A], n.vertex[e.B]} {
		live := false
		n.walkAll(from, func(x edge) bool {
			if x.wire != harness.None {
				return true
			}
			y := &n.h.Elements[x.element]
			return y.ID != fuse && (y.Kind == harness.FuseLink || n.conducts(y.ID))
		}, func(v int) bool {
			live, earth = live || lives[v], earth || deads[v]
			return !live && v != n.chassis
		})
		if live {
			return false
		}
	}
	return earth
}

// Links gives the wires of the cables between batteries in series: from the earth side
// of one, over metal, to the live side of another. A way round to its own live side, as
// through a switch that turns a motor round, is none.
func (n *Net) Links() []harness.WireID {
	var out []harness.WireID
	for i := range n.h.Elements {
		e := &n.h.Elements[i]
		if lives := n.otherLives(e); e.Kind == harness.EMF && !lives[n.dead(e)] {
			out = append(out, n.link(n.dead(e), lives)...)
		}
	}
	return out
}

// otherLives marks the live sides of all batteries that do not share one with this.
func (n *Net) otherLives(one *harness.Element) map[int]bool {
	lives := map[int]bool{}
	for i := range n.h.Elements {
		if e := &n.h.Elements[i]; e.Kind == harness.EMF && n.live(e) != n.live(one) {
			lives[n.live(e)] = true
		}
	}
	return lives
}

// link gives the wires on the shortest way over metal from a vertex to a live side, not
// over the chassis.
func (n *Net) link(from int, lives map[int]bool) []harness.WireID {
	back := map[int]int{from: -1}
	for queue := []int{from}; len(queue) > 0; queue = queue[1:] {
		v := queue[0]
		if lives[v] {
			var wires []harness.WireID
			for back[v] >= 0 {
				e := n.edges[back[v]]
				if e.wire != harness.None {
					wires = append(wires, e.wire)
				}
				v = e.other(v)
			}
			return wires
		}
		if v == n.chassis {
			return nil
		}
		for _, i := range n.at[v] {
			e := n.edges[i]
			next := e.other(v)
			passes := e.wire != harness.None || n.conducts(e.element) || n.h.Elements[e.element].Kind == harness.FuseLink
			if _, old := back[next]; !old && passes && next != n.chassis {
				back[next] = i
				queue = append(queue, next)
			}
		}
	}
	return nil
}

// BetweenBatteries tells a fuse that leads to a battery on either side.
func (n *Net) BetweenBatteries(fuse harness.ElementID) bool {
	battery := func(e *harness.Element) bool { return e.Kind == harness.EMF }
	e := &n.h.Elements[fuse]
	return n.reachesAny(n.vertex[e.A], fuse, battery) && n.reachesAny(n.vertex[e.B], fuse, battery)
}

// Step is a wire of a way as the current passes it.
type Step struct {
	Wire     harness.WireID
	From, To harness.TerminalID // in the direction of the current
	Against  bool               // of the direction in which its leg is written
}

// Steps gives the wires of a way in a state with the direction of the current.
func (c *Currents) Steps(way Path) []Step {
	var out []Step
	for _, w := range way.Wires {
		x := &c.h.Wires[w]
		s := Step{w, x.From, x.To, c.state.WireAmps[w] < 0}
		if s.Against {
			s.From, s.To = s.To, s.From
		}
		out = append(out, s)
	}
	return out
}

// Carries tells whether a wire between contacts can carry a current while the contacts stand
// as shut says: without it, over all that passes current, loads too, one end reaches a source
// or the return and the other a load.
func (n *Net) Carries(w harness.WireID, shut func(*harness.Element) bool) bool {
	goals, deads := n.poles()
	for v := range deads {
		goals[v] = true
	}
	over := n.overShut(shut)
	pass := func(x edge) bool {
		if x.wire != harness.None {
			return x.wire != w
		}
		y := &n.h.Elements[x.element]
		return Draws(y) || y.Kind == harness.Resistance || over(y)
	}
	reaches := func(t harness.TerminalID) (supplied, load bool) {
		n.walkAll(n.vertex[t], pass, func(v int) bool {
			supplied, load = supplied || goals[v], load || n.loaded(v)
			return v != n.chassis
		})
		return supplied, load
	}
	oneFed, one := reaches(n.h.Wires[w].From)
	otherFed, other := reaches(n.h.Wires[w].To)
	return oneFed && other || otherFed && one
}

// loaded tells a vertex on which a load or coil ends.
func (n *Net) loaded(v int) bool {
	for _, i := range n.at[v] {
		if e := n.edges[i]; e.element != harness.None && Draws(&n.h.Elements[e.element]) {
			return true
		}
	}
	return false
}

// Travellers lists the wires on which nothing ends but contacts of switches.
func (n *Net) Travellers() []harness.WireID {
	var out []harness.WireID
	for i, e := range n.edges {
		if e.wire != harness.None && n.onlyContacts(e.from, i) && n.onlyContacts(e.to, i) {
			out = append(out, e.wire)
		}
	}
	return out
}
