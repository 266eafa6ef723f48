package colour

import (
	"example.com/loomfolio/sizing/colour/spread"
	"example.com/loomfolio/sizing/forest"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/route"
	"example.com/loomfolio/sizing/unit"
)

// newTask lays the question out.
func newTask(h *harness.Harness, ways []route.Way, gauges []unit.Gauge, locks Locks) *task {
	t := &task{h: h, scale: scaleOf(h), order: byName(h)}
	f := nets(h)
	role := roles(h, f)
	f, t.group = policy(h, f, role)
	t.custom = t.customs(f, role)
	t.combos, t.issued = t.combinations(locks)
	t.meant = t.meanings()
	t.far = t.farTable()
	t.spots = spots(h, ways)
	t.core = h.OffReels()
	for w := range h.Wires {
		t.areas = append(t.areas, area(gaugeOf(gauges, harness.WireID(w))))
	}
	t.hold(f, role, gauges, locks)
	for _, wires := range t.byNet(f) {
		net := f.Root(int(h.Wires[wires[0]].From))
		t.addNet(net, role[net], wires, gauges)
	}
	t.sortClasses()
	for w := range h.Wires {
		c := &t.classes[t.class[w]]
		t.sides = append(t.sides, side{c.net, c.role == ground, h.Wires[w].Existing})
	}
	return t
}

// problem puts the question in numbers.
func (t *task) problem() *spread.Problem {
	p := &spread.Problem{Far: t.far, Edges: t.edges()}
	for s := range t.meetings() {
		p.Spots = append(p.Spots, t.rankOf(s))
	}
	for _, c := range t.combos {
		p.Plain = append(p.Plain, c.Tracer == "")
		p.Family = append(p.Family, find(c.Base))
	}
	for i := range t.classes {
		c := &t.classes[i]
		p.Nodes = append(p.Nodes, spread.Node{Options: c.domain, Reels: c.gauges, Wish: t.wish(c), Group: t.groupOf(c)})
	}
	p.Bands = []int{checkInGood, clear}
	if len(t.h.Practice.Conventions) > 0 {
		p.Enough = clear
	}
	return p
}

// groupOf gives the number of a class's group above 0 where bases are kept
// across devices, for those that have a choice.
func (t *task) groupOf(c *class) int {
	if t.group == nil || c.fixed() {
		return 0
	}
	return t.group.Root(c.net) + 1
}

// wish says, by combination, how well it keeps to the convention for a class.
func (t *task) wish(c *class) []int {
	custom := t.custom[c.wires[0]]
	if custom == nil || c.role != free {
		return nil
	}
	out := make([]int, len(t.combos))
	for i, p := range t.combos {
		out[i] = custom.hit(p)
	}
	return out
}

// policy says what carries one colour beyond a net, and what one base.
func policy(h *harness.Harness, f forest.Forest, roles []role) (forest.Forest, forest.Forest) {
	switch h.Practice.ColourChange {
	case "keep":
		return throughDevices(h, f, roles), nil
	case "keep-base":
		return f, behindContacts(h, f, roles)
	}
	return f, nil
}

// behindContacts joins, in a copy, nets without a role of their own that
// contacts lie between: one supply. A fuse begins a new one.
func behindContacts(h *harness.Harness, f forest.Forest, roles []role) forest.Forest {
	out := append(forest.Forest(nil), f...)
	for _, e := range h.Elements {
		a, b := f.Root(int(e.A)), f.Root(int(e.B))
		if e.Kind == harness.Contact && roles[a] == free && roles[b] == free && e.A != harness.Chassis && e.B != harness.Chassis {
			out.Join(a, b)
		}
	}
	return out
}

// throughDevices joins, in a copy, nets without a role of their own that a
// contact or fuse lies between, where it is the one way on from the first net
// and the one way into the second. Where ways part, each gets its own colour.
func throughDevices(h *harness.Harness, f forest.Forest, roles []role) forest.Forest {
	arrives := make([]bool, len(f))
	for _, w := range h.Wires {
		arrives[w.To] = true
	}
	onward, into := map[int][]int{}, map[int][]int{}
	for _, e := range h.Elements {
		if e.Kind != harness.Contact && e.Kind != harness.FuseLink {
			continue
		}
		from, to := e.A, e.B
		if !arrives[from] && arrives[to] {
			from, to = to, from
		}
		a, b := f.Root(int(from)), f.Root(int(to))
		onward[a], into[b] = withNumber(onward[a], b), withNumber(into[b], a)
	}
	out := append(forest.Forest(nil), f...)
	for a := range f {
		if len(onward[a]) != 1 {
			continue
		}
		if b := onward[a][0]; roles[a] == free && roles[b] == free && len(into[b]) == 1 && a != int(harness.Chassis) && b != int(harness.Chassis) {
			out.Join(a, b)
		}
	}
	return out
}
