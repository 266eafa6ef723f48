package colour

import (
	"example.com/loomfolio/sizing/forest"
	"example.com/loomfolio/sizing/harness"
)

// role is what a net is for, where that settles its colour.
type role int

// The roles of a net.
const (
	free role = iota
	ground
	feed // straight from the battery, before any fuse
)

// nets joins what carries one colour: wires that share a terminal, a splice, a
// bus, a ground or a mated cavity. Any other part is a device, and the chassis
// joins nothing.
func nets(h *harness.Harness) forest.Forest {
	f := forest.New(len(h.Terminals))
	for _, w := range h.Wires {
		f.Join(int(w.From), int(w.To))
	}
	for i := range h.Parts {
		joinWithin(h, &h.Parts[i], f)
	}
	return f
}

func joinWithin(h *harness.Harness, p *harness.Part, f forest.Forest) {
	switch p.Kind {
	case harness.Splice, harness.Bus, harness.Ground:
		for _, t := range p.Terminals {
			f.Join(int(p.Terminals[0]), int(t))
		}
	case harness.Connector:
		for i, t := range p.Terminals {
			for _, u := range p.Terminals[:i] {
				if h.Terminals[t].Cavity == h.Terminals[u].Cavity {
					f.Join(int(t), int(u))
				}
			}
		}
	}
}

// roles gives the role of every net, by its root terminal. Isolators and
// straps pass a role on: they neither protect nor use the current.
func roles(h *harness.Harness, f forest.Forest) []role {
	grounded, live := seeds(h, f)
	carry(h, f, grounded)
	carry(h, f, live)
	out := make([]role, len(f))
	for i := range out {
		switch {
		case grounded[i]:
			out[i] = ground
		case live[i]:
			out[i] = feed
		}
	}
	return out
}

// seeds marks the nets that reach a ground part or the earthed pole of a
// battery, and those that reach a live pole. A lead from one battery's pole to
// the other pole of the next (batteries in series) is live.
func seeds(h *harness.Harness, f forest.Forest) (grounded, live []bool) {
	grounded, live = make([]bool, len(f)), make([]bool, len(f))
	earthed, hot := "-", "+"
	if h.System.PositiveEarth {
		earthed, hot = hot, earthed
	}
	mark := func(kind harness.Kind, name string, into []bool) {
		for _, t := range h.Terminals[1:] {
			if p := h.Parts[t.Part]; p.Kind == kind && (name == "" || name == t.Name) {
				into[f.Root(int(t.ID))] = true
			}
		}
	}
	mark(harness.Battery, earthed, grounded)
	mark(harness.Battery, hot, live)
	for i := range grounded {
		grounded[i] = grounded[i] && !live[i]
	}
	mark(harness.Ground, "", grounded)
	for i := range h.Parts {
		if p := &h.Parts[i]; p.BodyGround && p.BodyJoint != harness.None {
			grounded[f.Root(int(p.BodyAt))] = true
		}
	}
	return grounded, live
}

// carry takes a mark through isolators and straps until nothing changes.
func carry(h *harness.Harness, f forest.Forest, marked []bool) {
	for again := true; again; {
		again = false
		for _, e := range h.Elements {
			kind := h.Parts[e.Part].Kind
			if kind != harness.Isolator && kind != harness.Strap || e.A == harness.Chassis || e.B == harness.Chassis {
				continue
			}
			a, b := f.Root(int(e.A)), f.Root(int(e.B))
			if marked[a] != marked[b] {
				marked[a], marked[b], again = true, true, true
			}
		}
	}
}
