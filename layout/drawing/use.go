package drawing

import (
	"slices"

	"example.com/loomfolio/layout/symbol"
	"example.com/loomfolio/sizing/harness"
)

// use is every wire that lands on a terminal, over the whole harness. A jumper within
// one part arrives at both its ends: it is drawn as a loop at the left of the part.
type use struct{ in, out []harness.WireID }

func uses(h *harness.Harness) []use {
	out := make([]use, len(h.Terminals))
	for _, w := range h.Wires {
		if h.Jumper(w.ID) {
			out[w.From].in = append(out[w.From].in, w.ID)
		} else {
			out[w.From].out = append(out[w.From].out, w.ID)
		}
		out[w.To].in = append(out[w.To].in, w.ID)
	}
	return out
}

// set is the wires of one strip.
type set map[harness.WireID]bool

func setOf(wires []harness.WireID) set {
	s := set{}
	for _, w := range wires {
		s[w] = true
	}
	return s
}

func (s set) only(wires []harness.WireID) (inside, outside []harness.WireID) {
	for _, w := range wires {
		if s[w] {
			inside = append(inside, w)
		} else {
			outside = append(outside, w)
		}
	}
	return inside, outside
}

// touched gives the terminals of a part on which wires of the set land.
func (s *sheets) touched(p *harness.Part, in set) []harness.TerminalID {
	var out []harness.TerminalID
	for _, t := range p.Terminals {
		u := s.use[t]
		if slices.ContainsFunc(u.in, func(w harness.WireID) bool { return in[w] }) ||
			slices.ContainsFunc(u.out, func(w harness.WireID) bool { return in[w] }) {
			out = append(out, t)
		}
	}
	return out
}

// partsOf gives the parts on which the wires land, in the order of the wires.
func (s *sheets) partsOf(wires []harness.WireID) []harness.PartID {
	var out []harness.PartID
	seen := map[harness.PartID]bool{}
	for _, w := range wires {
		for _, t := range []harness.TerminalID{s.h.Wires[w].From, s.h.Wires[w].To} {
			if p := s.h.Terminals[t].Part; p >= 0 && !seen[p] {
				seen[p] = true
				out = append(out, p)
			}
		}
	}
	return out
}

// landing gives a terminal's use for a symbol, with the wires of the set alone.
func (s *sheets) landing(t harness.TerminalID, in set) (u symbol.Use, arrive, leave []harness.WireID) {
	arrive, _ = in.only(s.use[t].in)
	leave, _ = in.only(s.use[t].out)
	return symbol.Use{Terminal: t, Name: s.h.Terminals[t].Name, In: len(arrive), Out: len(leave)}, arrive, leave
}

// wired tells whether any wire of the harness lands on a terminal.
func (s *sheets) wired(t harness.TerminalID) bool {
	return len(s.use[t].in)+len(s.use[t].out) > 0
}

// bodyGrounds tells the terminal of a part that its own body grounds.
func (s *sheets) bodyGrounds(t harness.TerminalID) bool {
	p := s.h.PartOf(t)
	return p != nil && p.BodyGround && p.BodyJoint != harness.None && p.BodyAt == t
}

// form is how a part stands on a strip.
type form int

const (
	asTile form = iota
	asRail      // a supply bar at the left
	asEnd       // a bar at the right, on which wires end
	asTag       // an arrow to the sheet where it is drawn
	asGround
	asPositions // a fuse panel, position by position
	asCavities  // a connector, cavity by cavity
	asPost      // one terminal at which wires arrive and leave
)

// formOf says how a part stands among wires.
func (s *sheets) formOf(p *harness.Part, in set) form {
	touched := s.touched(p, in)
	switch {
	case p.Kind == harness.Ground:
		return asGround
	case p.Kind == harness.Connector:
		return asCavities
	case s.feedsOnly(p, touched, in):
		return asRail
	case s.endsOnly(p, touched, in):
		return asEnd
	case p.Kind == harness.FusePanel && p.Panel != nil:
		return asPositions
	case s.passedOnly(p, touched, in):
		return asPost
	}
	return asTile
}

// feedsOnly tells whether a supply is only a source here.
func (s *sheets) feedsOnly(p *harness.Part, touched []harness.TerminalID, in set) bool {
	if p.Kind != harness.Battery && p.Kind != harness.Bus {
		return false
	}
	return !slices.ContainsFunc(touched, func(t harness.TerminalID) bool {
		arrive, _ := in.only(s.use[t].in)
		return len(arrive) > 0 || earthedPole(s.h, t)
	})
}

// endsOnly tells whether a bus only takes wires here.
func (s *sheets) endsOnly(p *harness.Part, touched []harness.TerminalID, in set) bool {
	return p.Kind == harness.Bus && !slices.ContainsFunc(touched, func(t harness.TerminalID) bool {
		leave, _ := in.only(s.use[t].out)
		return len(leave) > 0
	})
}

// passedOnly tells whether wires arrive and leave at one terminal and touch no other.
func (s *sheets) passedOnly(p *harness.Part, touched []harness.TerminalID, in set) bool {
	if p.Kind == harness.Splice || len(touched) != 1 {
		return false
	}
	arrive, _ := in.only(s.use[touched[0]].in)
	leave, _ := in.only(s.use[touched[0]].out)
	return len(arrive) > 0 && len(leave) > 0
}

// chooseHomes says for each part on which strip references to it land: where most of
// its terminals are used by the strip's own wires, the first of equals.
func (s *sheets) chooseHomes(strips []*strip) {
	s.home = map[harness.PartID]*strip{}
	best := map[harness.PartID]int{}
	for _, st := range strips {
		own := s.mine(st)
		in := setOf(own)
		for _, p := range s.partsOf(own) {
			if n := len(s.touched(&s.h.Parts[p], in)); n > best[p] {
				best[p], s.home[p] = n, st
			}
		}
	}
}
