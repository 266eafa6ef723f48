package drawing

import (
	"slices"

	"example.com/loomfolio/layout/diagram"
	"example.com/loomfolio/layout/symbol"
	"example.com/loomfolio/sizing/harness"
)

// strip is a set of wires drawn together from left to right.
type strip struct {
	wires    []harness.WireID // of its circuits
	lent     lent             // wires of other strips that make it whole
	circuits []harness.CircuitID
	part     bool // one of the pieces of a circuit that fits no sheet
	power    bool // of the supply, where lent wires count as much as its own
	short    bool // it begins at tags: what leads up to it is too much for a sheet
	graph    *graph
	layout   *diagram.Layout
	form     look
	versions []version               // those that fit
	beside   map[harness.PartID]side // where the words of parts stand in the mixed look
}

// side is where the words of a tile stand.
type side int

const (
	below side = iota
	beside
	besideWide
	sidesAll
)

// mine are the wires of the strip's own circuits: the supply draws others with them.
func (s *sheets) mine(st *strip) []harness.WireID {
	var out []harness.WireID
	for _, w := range st.wires {
		if slices.Contains(st.circuits, s.h.Wires[w].Circuit) {
			out = append(out, w)
		}
	}
	return out
}

// all is what is drawn on it.
func (st *strip) all() []harness.WireID { return append(slices.Clone(st.wires), st.lent.wires...) }

// job is what is drawn together under one head: the supply, or a circuit.
type job struct {
	power    bool
	circuits []harness.CircuitID
	wires    []harness.WireID
	lent     lent
	strips   []*strip
	states   []int         // in which the volts are told
	back     []symbol.Item // to tags that have no line under a tile
}

// jobs are the supply and then the circuits in the order of their numbers, with their
// strips laid out.
func (s *sheets) jobs() []*job {
	power := s.power()
	var jobs []*job
	if power != nil {
		jobs = append(jobs, power)
	}
	for _, id := range s.inOrder() {
		if c := s.h.Circuits[id]; (power == nil || !slices.Contains(power.circuits, id)) && len(c.Wires) > 0 {
			j := &job{circuits: []harness.CircuitID{id}, wires: c.Wires}
			j.lent = s.lentTo(c.Wires, false)
			jobs = append(jobs, j)
		}
	}
	for _, j := range jobs {
		s.layOutJob(j)
	}
	return jobs
}

// layOutJob divides what a job draws into strips until each fits a sheet.
func (s *sheets) layOutJob(j *job) {
	j.states = s.statesFor(j)
	s.states = j.states
	for _, wires := range s.components(append(slices.Clone(j.wires), j.lent.wires...)) {
		own, other := setOf(j.wires).only(wires)
		if j.power {
			own, other = wires, nil
		}
		j.strips = append(j.strips, &strip{wires: own, lent: j.lent.only(other), circuits: j.circuits, power: j.power})
	}
	for range 12 {
		var next []*strip
		again := false
		for _, st := range j.strips {
			s.layOut(st)
			switch {
			case len(st.versions) > 0 || len(st.wires) < 2 && st.short:
				next = append(next, st)
				continue
			case !st.short && len(st.lent.wires) > 0:
				next = append(next, s.piece(st.wires, st, st.part))
			case len(st.wires) < 2:
				st.short = true
				next = append(next, st)
				continue
			default:
				for _, part := range s.divide(st) {
					next = append(next, s.piece(part, st, true))
				}
			}
			again = true
		}
		j.strips = next
		if !again {
			break
		}
	}
	for _, st := range j.strips {
		s.force(st)
	}
}

// piece is a strip of some of another's wires that begins at tags.
func (s *sheets) piece(wires []harness.WireID, of *strip, part bool) *strip {
	return &strip{wires: wires, lent: s.lentTo(wires, true), circuits: of.circuits, part: part, power: of.power, short: true}
}

// components groups wires that hang together by tiles; supplies and grounds,
// which are drawn as rails, join nothing.
func (s *sheets) components(wires []harness.WireID) [][]harness.WireID {
	in := setOf(wires)
	root := map[harness.WireID]harness.WireID{}
	for _, w := range wires {
		root[w] = w
	}
	find := func(w harness.WireID) harness.WireID {
		for root[w] != w {
			root[w] = root[root[w]]
			w = root[w]
		}
		return w
	}
	for _, p := range s.partsOf(wires) {
		for _, tied := range s.tied(&s.h.Parts[p], in) {
			for _, w := range tied[1:] {
				root[find(w)] = find(tied[0])
			}
		}
	}
	var out [][]harness.WireID
	at := map[harness.WireID]int{}
	for _, w := range wires {
		r := find(w)
		if _, ok := at[r]; !ok {
			at[r] = len(out)
			out = append(out, nil)
		}
		out[at[r]] = append(out[at[r]], w)
	}
	return out
}

// tied gives the sets of wires that a part holds together on a strip.
func (s *sheets) tied(p *harness.Part, in set) [][]harness.WireID {
	switch s.formOf(p, in) {
	case asGround, asRail, asEnd:
		return nil
	case asPositions:
		return s.byFeed(p, in)
	case asCavities:
		return s.byCavity(p, in)
	}
	return s.landingOn([][]harness.TerminalID{p.Terminals}, in)
}

// landingOn gives the wires of a set on each group of terminals, where there are any.
func (s *sheets) landingOn(groups [][]harness.TerminalID, in set) [][]harness.WireID {
	var out [][]harness.WireID
	for _, g := range groups {
		var here []harness.WireID
		for _, t := range g {
			_, arrive, leave := s.landing(t, in)
			here = append(append(here, arrive...), leave...)
		}
		if len(here) > 0 {
			out = append(out, here)
		}
	}
	return out
}

func (s *sheets) byCavity(p *harness.Part, in set) [][]harness.WireID {
	return s.landingOn(cavities(s.h, p), in)
}

// byFeed gives the wires on each feed of a panel that is wired here with those on the
// positions behind it, and those on every other position.
func (s *sheets) byFeed(p *harness.Part, in set) [][]harness.WireID {
	return s.landingOn(s.stages(p, in), in)
}

// stages groups the terminals of a panel that are used here: a wired feed and the
// positions behind it, and each other terminal alone.
func (s *sheets) stages(p *harness.Part, in set) [][]harness.TerminalID {
	var out [][]harness.TerminalID
	at := map[string]int{}
	touched := s.touched(p, in)
	for _, t := range touched {
		if s.feedOf(p, s.h.Terminals[t].Name) == "" {
			at[s.h.Terminals[t].Name] = len(out)
			out = append(out, []harness.TerminalID{t})
		}
	}
	for _, t := range touched {
		feed := s.feedOf(p, s.h.Terminals[t].Name)
		if feed == "" {
			continue
		}
		if i, ok := at[feed]; ok {
			out[i] = append(out[i], t)
			continue
		}
		out = append(out, []harness.TerminalID{t})
	}
	return out
}

// cavities groups a connector's terminals by cavity.
func cavities(h *harness.Harness, p *harness.Part) [][]harness.TerminalID {
	var out [][]harness.TerminalID
	at := map[string]int{}
	for _, t := range p.Terminals {
		name := h.Terminals[t].Cavity
		if _, ok := at[name]; !ok {
			at[name] = len(out)
			out = append(out, nil)
		}
		out[at[name]] = append(out[at[name]], t)
	}
	return out
}
