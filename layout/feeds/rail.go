package feeds

import (
	"slices"

	"example.com/loomfolio/layout/page"
	"example.com/loomfolio/sizing/harness"
)

// rail is a supply, a panel or a bar with the circuits that hang from it.
type rail struct {
	part  harness.PartID // None for the circuits that no supply feeds
	fedBy []harness.CircuitID
	rows  []row
}

// row is a circuit on a rail, or below the circuit through which it is fed.
type row struct {
	tap
	deep  int
	label string   // of the terminal
	fuse  string   // the rating of the fuse that it begins behind
	feeds []string // the rails that it feeds in turn
	at    float64  // where its words begin, from the column's edge; measured on the whole rail
	words []string // its number and name in lines
}

// mostNested is how many circuits a switch or a relay may feed to be shown below
// its own circuit and not as a rail.
const mostNested = 4

// rails turns feeders into rails: panels, bars and supplies become rails of their
// own; what passes the supply on inside a circuit stands below that circuit.
func (t *tree) rails() []rail {
	all := t.feeders()
	var out []rail
	below := map[harness.CircuitID][]feeder{}
	for _, f := range all {
		switch {
		case !t.supplies(f):
		case t.nests(f, all):
			below[f.fedBy[0]] = append(below[f.fedBy[0]], f)
		default:
			out = append(out, rail{part: f.part, fedBy: f.fedBy, rows: t.rowsOf(f, 0)})
		}
	}
	for i := range out {
		out[i].rows = t.nested(out[i].rows, below)
	}
	t.onward(out)
	if rest := t.unfed(out); len(rest) > 0 {
		out = append(out, rail{part: harness.None, rows: rest})
	}
	return out
}

// nests tells whether a feeder stands below the circuit that feeds it, which some
// other feeder has to tap.
func (t *tree) nests(f feeder, all []feeder) bool {
	if p := &t.a.H.Parts[f.part]; source(p) || p.Kind == harness.FusePanel || p.Kind == harness.Bus {
		return false
	}
	return len(f.fedBy) > 0 && len(f.taps) <= mostNested && slices.ContainsFunc(all, func(o feeder) bool {
		return o.part != f.part && t.supplies(o) && slices.ContainsFunc(o.taps, func(x tap) bool { return x.circuit == f.fedBy[0] })
	})
}

func (t *tree) rowsOf(f feeder, deep int) []row {
	var out []row
	p := &t.a.H.Parts[f.part]
	for _, x := range f.taps {
		r := row{tap: x, deep: deep, label: t.a.H.Terminals[x.terminal].Name, fuse: t.firstFuse(p, x)}
		switch {
		case p.Kind == harness.Splice && deep == 0:
			r.label = ""
		case deep > 0 || p.Kind == harness.Splice:
			r.label = t.a.H.Terminals[x.terminal].Full
		}
		out = append(out, r)
	}
	return out
}

// nested puts the rows of what is fed through a circuit below its first row.
func (t *tree) nested(rows []row, below map[harness.CircuitID][]feeder) []row {
	var out []row
	for _, r := range rows {
		out = append(out, r)
		fed := below[r.circuit]
		delete(below, r.circuit)
		var under []row
		for _, f := range fed {
			under = append(under, t.rowsOf(f, r.deep+1)...)
		}
		out = append(out, t.nestedUnder(under, below)...)
	}
	return out
}

// nestedUnder is nested for what may be nothing.
func (t *tree) nestedUnder(rows []row, below map[harness.CircuitID][]feeder) []row {
	if len(rows) == 0 {
		return nil
	}
	return t.nested(rows, below)
}

// onward names at each row the rails that are fed from there.
func (t *tree) onward(rails []rail) {
	for i := range rails {
		for k := range rails[i].rows {
			x := &rails[i].rows[k]
			reached := t.reached(x.tap, rails)
			for _, o := range rails {
				if o.part != rails[i].part && slices.Contains(o.fedBy, x.circuit) && reached[o.part] {
					x.feeds = append(x.feeds, t.a.H.Parts[o.part].Ref)
				}
			}
		}
	}
}

// reached are the parts to which a circuit brings the supply from where it begins: it goes
// through what lies on its way, but neither through a rail nor a relay's coil.
func (t *tree) reached(x tap, rails []rail) map[harness.PartID]bool {
	out := map[harness.PartID]bool{}
	open := []harness.TerminalID{x.terminal}
	for len(open) > 0 {
		at := open[0]
		open = open[1:]
		for _, w := range t.of(t.out[at], x.circuit) {
			_, end := t.ends(w)
			p := t.a.H.PartOf(end)
			if p == nil || out[p.ID] && p.Kind != harness.Connector || t.coil(end) {
				continue
			}
			out[p.ID] = true
			if !slices.ContainsFunc(rails, func(r rail) bool { return r.part == p.ID }) {
				open = append(open, t.beyond(p, end)...)
			}
		}
	}
	return out
}

// beyond are the terminals to which the supply goes on within a part; a plug's is that of the
// same cavity.
func (t *tree) beyond(p *harness.Part, end harness.TerminalID) []harness.TerminalID {
	var out []harness.TerminalID
	for _, x := range p.Terminals {
		if t.a.H.Terminals[x].Cavity == t.a.H.Terminals[end].Cavity && !t.coil(x) && (x != end || len(p.Terminals) == 1) {
			out = append(out, x)
		}
	}
	return out
}

// coil tells whether a terminal is an end of a relay's coil.
func (t *tree) coil(x harness.TerminalID) bool {
	return slices.ContainsFunc(t.a.H.Elements, func(e harness.Element) bool {
		return e.Kind == harness.RelayCoil && (e.A == x || e.B == x)
	})
}

// unfed gives the circuits that hang from no rail: grounds and signals.
func (t *tree) unfed(rails []rail) []row {
	seen := map[harness.CircuitID]bool{}
	for _, r := range rails {
		for _, x := range r.rows {
			seen[x.circuit] = true
		}
	}
	var out []row
	for _, c := range t.a.H.Circuits {
		if !seen[c.ID] && len(c.Wires) > 0 {
			out = append(out, row{tap: tap{terminal: harness.None, circuit: c.ID}})
		}
	}
	return out
}

// firstFuse is the rating of a position, or of the first fuse behind another
// terminal within the circuit, "" for none.
func (t *tree) firstFuse(p *harness.Part, x tap) string {
	if p.Kind == harness.FusePanel {
		if rating := t.rating(p.ID, t.a.H.Terminals[x.terminal].Name); rating != "" {
			return rating
		}
	}
	at := x.terminal
	for range len(t.a.H.Circuits[x.circuit].Wires) {
		onward := t.of(t.out[at], x.circuit)
		if len(onward) == 0 {
			return ""
		}
		_, end := t.ends(onward[0])
		next := t.a.H.PartOf(end)
		if next == nil {
			return ""
		}
		if next.Kind == harness.Fuse || next.Kind == harness.Breaker {
			if rating := t.rating(next.ID, ""); rating != "" {
				return rating
			}
		}
		if at = t.passed(next, end, x.circuit); at < 0 {
			return ""
		}
	}
	return ""
}

// rating is that of a fuse, or of a panel's position: "10 A"; "" where none was chosen.
func (t *tree) rating(p harness.PartID, position string) string {
	for _, i := range t.a.FusesOf(p) {
		if f := t.a.R.Fuses[i]; f.Position == position {
			return page.Trimmed(float64(f.Rating), 1) + page.NoBreak + "A"
		}
	}
	return ""
}

// passed is the one other terminal of a part with an onward wire of the circuit;
// None where there is no one such.
func (t *tree) passed(p *harness.Part, from harness.TerminalID, c harness.CircuitID) harness.TerminalID {
	out := harness.TerminalID(harness.None)
	for _, x := range p.Terminals {
		if x == from || len(t.of(t.out[x], c)) == 0 {
			continue
		}
		if out >= 0 {
			return harness.None
		}
		out = x
	}
	return out
}

// first is the wire with which a circuit begins at a terminal, None for none.
func (t *tree) first(x tap) harness.WireID {
	if x.terminal < 0 {
		return harness.None
	}
	if onward := t.of(t.out[x.terminal], x.circuit); len(onward) > 0 {
		return onward[0]
	}
	return harness.None
}
