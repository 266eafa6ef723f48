package drawing

import (
	"slices"

	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/harness/kind"
)

// A circuit is drawn whole: where it begins at a splice or a pin to which another
// circuit's wire brings the supply, that wire is drawn again, back to the post, the
// fuse or the switch that feeds it; where the return of one of its loads is another
// circuit's wire, that one too, to its ground. Such a wire is lent. Its flag has a
// light name, and it counts as drawn where its own circuit is.

// farthest is how many wires may be lent one behind the other; what begins farther
// away begins at a tag.
const farthest = 4

// mostFeeders is how many wires that bring the supply to one terminal are lent.
const mostFeeders = 2

// lent is the wires of others that a strip draws, and those of them that begin at a tag.
type lent struct {
	wires  []harness.WireID
	tagged set
}

func (l *lent) add(w harness.WireID) bool {
	if slices.Contains(l.wires, w) {
		return false
	}
	l.wires = append(l.wires, w)
	return true
}

// only gives those of some wires that are lent.
func (l lent) only(wires []harness.WireID) lent {
	return lent{wires, l.tagged}
}

// lentTo gives the wires that make others whole; short: each feeding one begins at a tag.
func (s *sheets) lentTo(wires []harness.WireID, short bool) lent {
	l := lent{tagged: set{}}
	in := setOf(wires)
	for _, id := range s.partsOf(wires) {
		p := &s.h.Parts[id]
		for _, t := range s.touched(p, in) {
			if arrive, _ := in.only(s.arriving(t)); len(arrive) == 0 && s.fedFromOutside(p) {
				s.feed(&l, in, t, short, farthest)
			}
			if leave, _ := in.only(s.leaving(t)); len(leave) == 0 && isJoint(p) {
				s.follow(&l, in, t)
			}
		}
		s.returnsOf(&l, p, in)
	}
	return l
}

// fedFromOutside tells of the parts that are no beginning of a circuit: a splice, a plug,
// a pin of a relay or a load.
func (s *sheets) fedFromOutside(p *harness.Part) bool {
	if kind.Charges(p.Kind) {
		return false
	}
	switch p.Kind {
	case harness.Battery, harness.DCConverter, harness.Bus, harness.FusePanel, harness.Ground, harness.Isolator,
		harness.Switch, harness.IgnitionSwitch, harness.Fuse, harness.Breaker:
		return false
	}
	return true
}

func isJoint(p *harness.Part) bool { return p.Kind == harness.Splice || p.Kind == harness.Connector }

// arriving are the wires that arrive at a terminal, of a plug's cavity those at either half.
func (s *sheets) arriving(t harness.TerminalID) []harness.WireID {
	var out []harness.WireID
	for _, o := range s.mates(t) {
		out = append(out, s.use[o].in...)
	}
	return out
}

func (s *sheets) leaving(t harness.TerminalID) []harness.WireID {
	var out []harness.WireID
	for _, o := range s.mates(t) {
		out = append(out, s.use[o].out...)
	}
	return out
}

// mates are a terminal and the other half of its cavity.
func (s *sheets) mates(t harness.TerminalID) []harness.TerminalID {
	x := s.h.Terminals[t]
	if x.Cavity == "" {
		return []harness.TerminalID{t}
	}
	var out []harness.TerminalID
	for _, o := range s.h.PartOf(t).Terminals {
		if s.h.Terminals[o].Cavity == x.Cavity {
			out = append(out, o)
		}
	}
	return out
}

// feed lends the wires that bring the supply to a terminal.
func (s *sheets) feed(l *lent, in set, t harness.TerminalID, short bool, left int) {
	n := 0
	for _, w := range s.arriving(t) {
		if in[w] || s.h.Jumper(w) || n == mostFeeders || !l.add(w) {
			continue
		}
		n++
		from := s.h.Wires[w].From
		p := s.h.PartOf(from)
		switch {
		case short:
			l.tagged[w] = true
		case p == nil || !isJoint(p):
		case left == 1:
			l.tagged[w] = true
		default:
			s.feed(l, in, from, short, left-1)
		}
	}
}

// follow lends the wires from a terminal to its ground, if they lead to one.
func (s *sheets) follow(l *lent, in set, t harness.TerminalID) {
	for _, w := range s.toGround(in, t, farthest) {
		l.add(w)
	}
}

// toGround is the way from a terminal over joints to a ground or a bus, nil for none.
func (s *sheets) toGround(in set, t harness.TerminalID, left int) []harness.WireID {
	if left == 0 {
		return nil
	}
	for _, w := range s.leaving(t) {
		to := s.h.Wires[w].To
		p := s.h.PartOf(to)
		switch {
		case in[w] || p == nil || s.h.Jumper(w):
		case p.Kind == harness.Ground || p.Kind == harness.Bus:
			return []harness.WireID{w}
		case isJoint(p) || p.Kind == harness.Strap:
			if rest := s.toGround(in, to, left-1); rest != nil {
				return append([]harness.WireID{w}, rest...)
			}
		}
	}
	return nil
}

// returnsOf lends the returns of a part's loads that the wires feed.
func (s *sheets) returnsOf(l *lent, p *harness.Part, in set) {
	lands := func(t harness.TerminalID) bool {
		return t > 0 && len(s.landingOn([][]harness.TerminalID{{t}}, in)) > 0
	}
	for _, e := range p.Elements {
		x := &s.h.Elements[e]
		if x.Kind != harness.Load {
			continue
		}
		for _, pair := range [][2]harness.TerminalID{{x.A, x.B}, {x.B, x.A}} {
			if back := pair[1]; lands(pair[0]) && !lands(back) && back > 0 && s.h.Terminals[back].Part == p.ID {
				s.follow(l, in, back)
			}
		}
	}
}
