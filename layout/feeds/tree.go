package feeds

import (
	"slices"

	"example.com/loomfolio/layout/page"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/harness/kind"
)

// tree finds what feeds what.
type tree struct {
	a       page.Ask
	in, out [][]harness.WireID // by terminal: what brings the supply to it, and takes it onward
}

// treeOf is the tree of a model; with the positive pole on the bodywork the supply comes along
// the wires against the current. A jumper within a part brings to both its ends.
func treeOf(a page.Ask) *tree {
	t := &tree{a: a, in: make([][]harness.WireID, len(a.H.Terminals)), out: make([][]harness.WireID, len(a.H.Terminals))}
	for _, w := range a.H.Wires {
		from, to := t.ends(w.ID)
		if a.H.Jumper(w.ID) {
			t.in[from] = append(t.in[from], w.ID)
		} else {
			t.out[from] = append(t.out[from], w.ID)
		}
		t.in[to] = append(t.in[to], w.ID)
	}
	return t
}

// ends are a wire's terminals, the live side first.
func (t *tree) ends(w harness.WireID) (from, to harness.TerminalID) {
	from, to = t.a.H.Wires[w].From, t.a.H.Wires[w].To
	if t.a.H.System.PositiveEarth {
		return to, from
	}
	return from, to
}

// of keeps the wires of a circuit.
func (t *tree) of(wires []harness.WireID, c harness.CircuitID) []harness.WireID {
	var out []harness.WireID
	for _, w := range wires {
		if t.a.H.Wires[w].Circuit == c {
			out = append(out, w)
		}
	}
	return out
}

// tap is a circuit that begins at a terminal of a feeder.
type tap struct {
	terminal harness.TerminalID
	circuit  harness.CircuitID
}

// feeder is a part from which circuits take their supply, with its taps.
type feeder struct {
	part  harness.PartID
	fedBy []harness.CircuitID
	taps  []tap
}

// feeders finds, for every circuit, the parts that it takes its supply from without
// bringing any to them; supplies come first, then what they feed in turn.
func (t *tree) feeders() []feeder {
	var all []feeder
	at := map[harness.PartID]int{}
	for _, c := range t.a.H.Circuits {
		for _, id := range t.partsOf(c) {
			p := &t.a.H.Parts[id]
			if p.Kind == harness.Ground || (p.Kind != harness.FusePanel && t.broughtTo(p, c.ID)) {
				continue
			}
			for _, x := range p.Terminals {
				if len(t.of(t.out[x], c.ID)) == 0 || len(t.of(t.in[x], c.ID)) > 0 || x == t.minus(p) {
					continue
				}
				if _, ok := at[id]; !ok {
					at[id] = len(all)
					all = append(all, feeder{part: id, fedBy: t.fedBy(p)})
				}
				all[at[id]].taps = append(all[at[id]].taps, tap{x, c.ID})
			}
		}
	}
	return t.inFlow(all)
}

// partsOf gives the parts on which a circuit's wires land, in the order of the wires from
// the live side.
func (t *tree) partsOf(c harness.Circuit) []harness.PartID {
	var out []harness.PartID
	for _, w := range c.Wires {
		from, to := t.ends(w)
		for _, x := range []harness.TerminalID{from, to} {
			if p := t.a.H.Terminals[x].Part; p >= 0 && !slices.Contains(out, p) {
				out = append(out, p)
			}
		}
	}
	return out
}

// minus is a battery's terminal to the chassis side; None for other parts.
func (t *tree) minus(p *harness.Part) harness.TerminalID {
	earthed := "-"
	if t.a.H.System.PositiveEarth {
		earthed = "+"
	}
	for _, x := range p.Terminals {
		if p.Kind == harness.Battery && t.a.H.Terminals[x].Name == earthed {
			return x
		}
	}
	return harness.None
}

// broughtTo tells whether a circuit brings current to a part, supplies apart.
func (t *tree) broughtTo(p *harness.Part, c harness.CircuitID) bool {
	return !source(p) && slices.ContainsFunc(p.Terminals, func(x harness.TerminalID) bool { return len(t.of(t.in[x], c)) > 0 })
}

func source(p *harness.Part) bool { return p.Kind == harness.Battery || kind.Charges(p.Kind) }

// fedBy lists the circuits whose wires bring the supply to a part.
func (t *tree) fedBy(p *harness.Part) []harness.CircuitID {
	var out []harness.CircuitID
	if source(p) {
		return nil
	}
	for _, x := range p.Terminals {
		for _, w := range t.in[x] {
			if c := t.a.H.Wires[w].Circuit; !slices.Contains(out, c) {
				out = append(out, c)
			}
		}
	}
	return out
}

// inFlow orders feeders so that one comes after those that feed it, as far as
// that is possible; the order of the file decides between equals.
func (t *tree) inFlow(rest []feeder) []feeder {
	var out []feeder
	reached := map[harness.CircuitID]bool{}
	for len(rest) > 0 {
		at := max(0, slices.IndexFunc(rest, func(f feeder) bool {
			return len(f.fedBy) == 0 || slices.ContainsFunc(f.fedBy, func(c harness.CircuitID) bool { return reached[c] })
		}))
		for _, x := range rest[at].taps {
			reached[x.circuit] = true
		}
		out = append(out, rest[at])
		rest = slices.Delete(rest, at, at+1)
	}
	return out
}

// supplies tells whether a feeder passes the supply on: no load, and no bar or
// splice that is joined to the bodywork or a battery's earthed pole.
func (t *tree) supplies(f feeder) bool {
	p := &t.a.H.Parts[f.part]
	switch {
	case kind.RoleOf(p.Kind) == kind.Works:
		return false
	case p.Kind != harness.Bus && p.Kind != harness.Splice:
		return true
	}
	return !slices.ContainsFunc(p.Terminals, func(x harness.TerminalID) bool {
		return slices.ContainsFunc(t.in[x], func(w harness.WireID) bool { from, _ := t.ends(w); return t.earthed(from) }) ||
			slices.ContainsFunc(t.out[x], func(w harness.WireID) bool { _, to := t.ends(w); return t.earthed(to) })
	})
}

// earthed tells whether a terminal is on the bodywork or a battery's pole to it.
func (t *tree) earthed(x harness.TerminalID) bool {
	p := t.a.H.PartOf(x)
	return p != nil && (p.Kind == harness.Ground || x == t.minus(p))
}
