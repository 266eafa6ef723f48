package drawing

import (
	"slices"

	"example.com/loomfolio/layout/sheet"
	"example.com/loomfolio/layout/typeface"
	"example.com/loomfolio/sizing/harness"
)

// feeder is a part from which circuits take their supply, with its taps.
type feeder struct {
	part  harness.PartID
	fedBy []harness.CircuitID
	taps  []tap
}

// tap is a circuit that begins at a terminal of a feeder.
type tap struct {
	terminal harness.TerminalID
	circuit  harness.CircuitID
}

// feeders finds, for every circuit, the parts that it takes its supply from without
// bringing any to them; supplies come first, then what they feed in turn.
func (s *sheets) feeders() []feeder {
	var all []feeder
	at := map[harness.PartID]int{}
	for _, c := range s.h.Circuits {
		in := setOf(c.Wires)
		for _, id := range s.partsOf(c.Wires) {
			p := &s.h.Parts[id]
			if p.Kind == harness.Ground || (p.Kind != harness.FusePanel && s.broughtTo(p, in)) {
				continue
			}
			for _, t := range s.touched(p, in) {
				if brought, onward := s.liveWires(t, in); len(onward) == 0 || len(brought) > 0 || t == s.minus(p) {
					continue
				}
				if _, ok := at[id]; !ok {
					at[id] = len(all)
					all = append(all, feeder{part: id, fedBy: s.fedBy(p)})
				}
				all[at[id]].taps = append(all[at[id]].taps, tap{t, c.ID})
			}
		}
	}
	return s.inFlow(all)
}

// minus is a battery's terminal to the chassis side; None for other parts.
func (s *sheets) minus(p *harness.Part) harness.TerminalID {
	earthed := "-"
	if s.h.System.PositiveEarth {
		earthed = "+"
	}
	for _, t := range p.Terminals {
		if p.Kind == harness.Battery && s.h.Terminals[t].Name == earthed {
			return t
		}
	}
	return harness.None
}

// broughtTo tells whether a circuit brings current to a part, supplies apart.
func (s *sheets) broughtTo(p *harness.Part, in set) bool {
	if p.Kind == harness.Battery || p.Kind == harness.Alternator {
		return false
	}
	return slices.ContainsFunc(p.Terminals, func(t harness.TerminalID) bool {
		brought, _ := s.liveWires(t, in)
		return len(brought) > 0
	})
}

// liveWires parts the wires of a set at a terminal into those that bring the
// supply and those that take it onward.
func (s *sheets) liveWires(t harness.TerminalID, in set) (brought, onward []harness.WireID) {
	_, arrive, leave := s.landing(t, in)
	return arrive, leave
}

// fedBy lists the circuits whose wires bring the supply to a part.
func (s *sheets) fedBy(p *harness.Part) []harness.CircuitID {
	var out []harness.CircuitID
	if p.Kind == harness.Battery || p.Kind == harness.Alternator {
		return nil
	}
	for _, t := range p.Terminals {
		for _, w := range s.use[t].in {
			if c := s.h.Wires[w].Circuit; !slices.Contains(out, c) {
				out = append(out, c)
			}
		}
	}
	return out
}

// inFlow orders feeders so that one comes after those that feed it, as far as
// that is possible; the order of the file decides between equals.
func (s *sheets) inFlow(all []feeder) []feeder {
	var out []feeder
	reached := map[harness.CircuitID]bool{}
	rest := slices.Clone(all)
	for len(rest) > 0 {
		at := slices.IndexFunc(rest, func(f feeder) bool {
			return len(f.fedBy) == 0 || slices.ContainsFunc(f.fedBy, func(c harness.CircuitID) bool { return reached[c] })
		})
		f := rest[max(at, 0)]
		for _, t := range f.taps {
			reached[t.circuit] = true
		}
		out = append(out, f)
		rest = slices.Delete(rest, max(at, 0), max(at, 0)+1)
	}
	return out
}

// fit shortens a text to a width, with an ellipsis where something is left out.
func fit(s string, face sheet.Face, room float64) string {
	if typeface.Width(s, face, sheet.SizeBody) <= room {
		return s
	}
	r := []rune(s)
	for len(r) > 0 && typeface.Width(string(r)+"…", face, sheet.SizeBody) > room {
		r = r[:len(r)-1]
	}
	return string(r) + "…"
}
