package route

import "example.com/loomfolio/sizing/harness"

// bare tells of each wire whether metal joins it to the live side of a battery or an
// alternator with no fuse in between, whatever the switches do. A tail must not make such a
// wire longer: 33 CFR 183.455 gives it 7 in from the source to its fuse, 40 in in a sheath.
func bare(h *harness.Harness) []bool {
	s := spread{h: h, reached: make([]bool, len(h.Terminals))}
	s.at = make([][]harness.TerminalID, len(h.Terminals))
	for i := range h.Wires {
		s.join(h.Wires[i].From, h.Wires[i].To)
	}
	for i := range h.Elements {
		switch e := &h.Elements[i]; e.Kind {
		case harness.Join, harness.Contact, harness.Resistance, harness.Rectifier:
			s.join(e.A, e.B)
		case harness.EMF, harness.Charger, harness.Converter:
			s.sources = append(s.sources, live(h, e))
		}
	}
	s.run()
	out := make([]bool, len(h.Wires))
	for i := range h.Wires {
		out[i] = s.reached[h.Wires[i].From]
	}
	return out
}

// live is the terminal of a source that is not earthed.
func live(h *harness.Harness, e *harness.Element) harness.TerminalID {
	if h.System.PositiveEarth {
		return e.B
	}
	return e.A
}

// spread walks from the sources over what joins terminals, and stops at the chassis.
type spread struct {
	h       *harness.Harness
	at      [][]harness.TerminalID // by terminal: its neighbours
	sources []harness.TerminalID
	reached []bool
}

func (s *spread) join(a, b harness.TerminalID) {
	s.at[a], s.at[b] = append(s.at[a], b), append(s.at[b], a)
}

func (s *spread) run() {
	queue := s.sources
	for len(queue) > 0 {
		t := queue[0]
		queue = queue[1:]
		if t == harness.Chassis || s.reached[t] {
			continue
		}
		s.reached[t] = true
		queue = append(queue, s.at[t]...)
	}
}
