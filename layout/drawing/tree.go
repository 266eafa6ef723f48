package drawing

import (
	"slices"

	"example.com/loomfolio/layout/sheet"
	"example.com/loomfolio/layout/typeface"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/harness/kind"
)

// rail is a supply, panel or bar on the overview with the circuits that hang from it.
type rail struct {
	part      harness.PartID // None for the circuits that no supply feeds
	fedBy     []harness.CircuitID
	rows      []row
	continued bool
	pace      pace
	column    int
	at        sheet.Rect // once placed
}

// row is a circuit on a rail, or below the circuit through which it is fed.
type row struct {
	tap
	deep  int
	label string
	fuse  string // the rating of the fuse that it begins behind
	words []string
	y     float64 // its middle, once placed
}

// mostNested is how many circuits a switch or a relay may feed to be shown below
// its own circuit and not as a rail.
const mostNested = 4

// railsOf turns feeders into rails: panels, bars and supplies become rails of their
// own; what passes the supply on inside a circuit stands below that circuit.
func (s *sheets) railsOf(all []feeder) []rail {
	var out []rail
	below := map[harness.CircuitID][]feeder{}
	for _, f := range all {
		switch {
		case !s.supplies(f):
		case s.nests(f, all):
			below[f.fedBy[0]] = append(below[f.fedBy[0]], f)
		default:
			out = append(out, rail{part: f.part, fedBy: f.fedBy, rows: s.rowsOf(f, 0)})
		}
	}
	for i := range out {
		out[i].rows = s.nested(out[i].rows, below)
	}
	if rest := s.unfed(out); len(rest) > 0 {
		out = append(out, rail{part: harness.None, rows: rest})
	}
	return out
}

// supplies tells whether a feeder passes the supply on: no load, and no bar or
// splice that is joined to the bodywork or a battery's earthed pole.
func (s *sheets) supplies(f feeder) bool {
	p := &s.h.Parts[f.part]
	switch {
	case kind.RoleOf(p.Kind) == kind.Works:
		return false
	case p.Kind != harness.Bus && p.Kind != harness.Splice:
		return true
	}
	return !slices.ContainsFunc(p.Terminals, func(t harness.TerminalID) bool {
		return slices.ContainsFunc(s.use[t].in, func(w harness.WireID) bool { return s.earthed(s.h.Wires[w].From) }) ||
			slices.ContainsFunc(s.use[t].out, func(w harness.WireID) bool { return s.earthed(s.h.Wires[w].To) })
	})
}

// earthed tells whether a terminal is on the bodywork or a battery's pole to it.
func (s *sheets) earthed(t harness.TerminalID) bool {
	p := s.h.PartOf(t)
	return p != nil && (p.Kind == harness.Ground || t == s.minus(p))
}

// nests tells whether a feeder stands below the circuit that feeds it, which some
// other feeder has to tap.
func (s *sheets) nests(f feeder, all []feeder) bool {
	switch s.h.Parts[f.part].Kind {
	case harness.Battery, harness.Alternator, harness.FusePanel, harness.Bus:
		return false
	}
	return len(f.fedBy) > 0 && len(f.taps) <= mostNested && slices.ContainsFunc(all, func(o feeder) bool {
		return o.part != f.part && s.supplies(o) && slices.ContainsFunc(o.taps, func(t tap) bool { return t.circuit == f.fedBy[0] })
	})
}

func (s *sheets) rowsOf(f feeder, deep int) []row {
	var out []row
	p := &s.h.Parts[f.part]
	for _, t := range f.taps {
		r := row{tap: t, deep: deep, label: s.h.Terminals[t.terminal].Name}
		if deep > 0 || p.Kind == harness.Splice {
			r.label = s.h.Terminals[t.terminal].Full
		}
		if p.Kind == harness.Splice && deep == 0 {
			r.label = ""
		}
		r.fuse = s.firstFuse(p, t)
		out = append(out, r)
	}
	return out
}

// nested puts the rows of what is fed through a circuit below its first row.
func (s *sheets) nested(rows []row, below map[harness.CircuitID][]feeder) []row {
	var out []row
	for _, r := range rows {
		out = append(out, r)
		for _, f := range below[r.circuit] {
			out = append(out, s.rowsOf(f, r.deep+1)...)
		}
		if len(below[r.circuit]) > 0 {
			from := len(out)
			for out[from-1].deep > r.deep {
				from--
			}
			delete(below, r.circuit)
			out = append(out[:from:from], s.nested(out[from:], below)...)
		}
	}
	return out
}

// unfed gives the circuits that hang from no rail: grounds and signals.
func (s *sheets) unfed(rails []rail) []row {
	seen := map[harness.CircuitID]bool{}
	for _, r := range rails {
		for _, x := range r.rows {
			seen[x.circuit] = true
		}
	}
	var out []row
	for _, c := range s.h.Circuits {
		if !seen[c.ID] && len(c.Wires) > 0 {
			out = append(out, row{tap: tap{terminal: harness.None, circuit: c.ID}})
		}
	}
	return out
}

// firstFuse is the rating of a position, or of the first fuse behind another
// terminal within the circuit, "" for none.
func (s *sheets) firstFuse(p *harness.Part, t tap) string {
	if f := s.fuseOf(p.ID, s.h.Terminals[t.terminal].Name); f != nil && p.Kind == harness.FusePanel {
		return amps(float64(f.Rating))
	}
	in := setOf(s.h.Circuits[t.circuit].Wires)
	at := t.terminal
	for range len(s.h.Circuits[t.circuit].Wires) {
		_, onward := s.liveWires(at, in)
		if len(onward) == 0 {
			return ""
		}
		w := s.h.Wires[onward[0]]
		end := w.To
		next := s.h.PartOf(end)
		if next == nil {
			return ""
		}
		if next.Kind == harness.Fuse || next.Kind == harness.Breaker {
			if f := s.fuseOf(next.ID, ""); f != nil {
				return amps(float64(f.Rating))
			}
		}
		if at = s.passed(next, end, in); at < 0 {
			return ""
		}
	}
	return ""
}

// passed is the one other terminal of a part with an onward wire of the circuit;
// None where there is no one such.
func (s *sheets) passed(p *harness.Part, from harness.TerminalID, in set) harness.TerminalID {
	out := harness.TerminalID(harness.None)
	for _, t := range p.Terminals {
		if _, onward := s.liveWires(t, in); t == from || len(onward) == 0 {
			continue
		}
		if out >= 0 {
			return harness.None
		}
		out = t
	}
	return out
}

// wordsIn breaks a circuit's name to a width, two lines at most.
func wordsIn(name string, width float64) []string {
	lines := typeface.Wrap(name, sheet.Regular, sheet.SizeBody, width)
	if len(lines) > 2 {
		lines = []string{lines[0], fit(lines[1]+" "+lines[2], sheet.Regular, width)}
	}
	return lines
}
