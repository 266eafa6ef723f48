package toy

import (
	"slices"

	"example.com/loomfolio/layout/page"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/proof"
	"example.com/loomfolio/sizing/unit"
)

// Faulty gives a toy a proof with every kind of thing in it, made from the feeds of its loads, and every second
// wire a circuit of its own; the volts are invented, since only their printing is tested.
func Faulty(a page.Ask) page.Ask {
	h := *a.H
	h.Wires, h.Circuits = slices.Clone(h.Wires), append(slices.Clone(h.Circuits), harness.Circuit{ID: 1, Key: "more", Number: "13", Name: "Everything else"})
	for i := range h.Wires {
		h.Wires[i].Circuit = harness.CircuitID(i / 2 % 2)
	}
	a.H = &h
	b := prover{a: a, points: map[harness.TerminalID]int{}}
	for i := range a.R.Loads {
		b.load(i)
	}
	b.together()
	b.live()
	b.p.Sneaks = []proof.Sneak{{
		Kind: "back-feed", State: "parked, then hazard on", Amps: 0.3,
		Path:  []proof.Stop{{At: a.H.Wires[0].From, Wire: 0, Element: harness.None}, {At: a.H.Wires[0].To, Wire: 1, Element: harness.None, Against: true}, {At: harness.Chassis, Wire: harness.None, Element: harness.None}},
		Loads: []harness.ElementID{0}, Says: "the telltale feeds the other side", Cure: "put a diode in 12A",
	}}
	b.p.Looked = proof.Looked{States: 5, Changes: 40, Pairs: 12, Solved: 99, Left: "states with two switches changed that share nothing"}
	b.p.Changes = []proof.Change{{Circuit: 0, Part: harness.None, If: "a fan of 25 A", Then: "fuse FP.1 30 A, wires 12C and 12D 4 mm²"}}
	r := *a.R
	r.Proof = b.p
	out := page.Of(a.H, &r, a.Paper, a.For)
	out.Known = a.Known
	return out
}

// prover makes a proof.
type prover struct {
	a      page.Ask
	p      proof.Proof
	points map[harness.TerminalID]int
}

// point is the place of a terminal among the points.
func (b *prover) point(t harness.TerminalID) int {
	if i, ok := b.points[t]; ok {
		return i
	}
	b.points[t] = len(b.p.Points)
	b.p.Points = append(b.p.Points, proof.Point{At: t, Place: harness.None, Reach: 1, Lamp: true})
	return b.points[t]
}

// load makes the ladder and the tree of a load: two rungs a wire of its feed, two of its return.
func (b *prover) load(i int) {
	l := &b.a.R.Loads[i]
	if len(l.Feed) == 0 {
		return
	}
	ladder := proof.Ladder{Load: l.Element, State: len(b.a.H.States) - 1}
	volts := unit.Volt(12.6)
	for _, id := range append([]harness.WireID{0, 1}, l.Feed...) {
		w := &b.a.H.Wires[id]
		open := b.fault(proof.Fault{ID: w.Name + ":open", Element: w.Name, Kind: proof.Open, Part: harness.None, Wire: id, Load: l.Element, Dead: []harness.ElementID{l.Element}})
		joint := b.fault(proof.Fault{ID: w.Name + ":joint-30", Element: w.Name, Kind: proof.Joint, Part: harness.None, Wire: id, Load: l.Element, Costs: 0.3})
		ladder.Rungs = append(ladder.Rungs, b.rung(w.From, volts), b.rung(w.To, volts-0.1, open, joint))
		volts -= 0.1
	}
	own := b.a.H.Elements[l.Element].Part
	itself := b.fault(proof.Fault{ID: l.Name + ":open", Element: l.Name, Kind: proof.Open, Part: own, Wire: harness.None, Load: l.Element})
	for _, w := range b.a.H.Wires {
		if b.a.H.Terminals[w.From].Part == own && !slices.Contains(l.Feed, w.ID) {
			off := b.fault(proof.Fault{ID: b.a.H.Terminals[w.To].Full + ":unearthed", Element: b.a.H.Terminals[w.To].Full, Kind: proof.Unearthed, Part: b.a.H.Terminals[w.To].Part, Wire: harness.None})
			ladder.Rungs = append(ladder.Rungs, b.rung(w.From, 0.1, itself), b.rung(w.To, 0, off))
			break
		}
	}
	b.p.Ladders = append(b.p.Ladders, ladder)
	b.tree(ladder)
}

// fault adds a fault.
func (b *prover) fault(f proof.Fault) int {
	f.Weight = 1
	b.p.Faults = append(b.p.Faults, f)
	return len(b.p.Faults) - 1
}

// rung is a point with what it is when it reads less.
func (b *prover) rung(t harness.TerminalID, volts unit.Volt, faults ...int) proof.Rung {
	r := proof.Rung{Point: b.point(t), Volts: volts, Low: volts - 0.3, High: volts + 0.2}
	for i, f := range faults {
		low := volts * unit.Volt(len(faults)-1-i) / 2
		r.Means = append(r.Means, proof.Meaning{Low: low, High: low + 1, Faults: []int{f}})
	}
	return r
}

// tree asks at the middle of a ladder, then on both sides.
func (b *prover) tree(l proof.Ladder) {
	n := len(l.Rungs)
	probe := func(at int, below, above *proof.Probe) *proof.Probe {
		r := l.Rungs[at]
		answer := func(low, high unit.Volt, says string, next *proof.Probe, left ...int) proof.Answer {
			return proof.Answer{Low: low, High: high, Says: says, Share: 0.5, Next: next, Left: left}
		}
		return &proof.Probe{Point: r.Point, Against: proof.None, Answers: []proof.Answer{
			answer(r.Low, r.High, "full", above, 1), answer(0, r.Low/2, "none", below, 0),
		}}
	}
	t := proof.Tree{Load: l.Load, State: l.State, Mean: 1.5, Most: 3, Classes: 3, Entropy: 1.2}
	if n > 2 {
		t.Root = probe(n/2, probe(n/4, nil, nil), probe(n-1, nil, nil))
	}
	b.p.Trees = append(b.p.Trees, t)
}

// together makes sets of the loads two by two.
func (b *prover) together() {
	for i := 0; i+2 < len(b.p.Ladders); i += 2 {
		l := b.p.Ladders[i:]
		b.p.Together = append(b.p.Together, proof.Together{State: 0, Dead: []harness.ElementID{l[0].Load, l[1].Load}, Live: []harness.ElementID{l[2].Load}, Faults: []int{0, 1}})
	}
}

// live makes a net of each wire.
func (b *prover) live() {
	for _, s := range b.a.H.States {
		b.p.When = append(b.p.When, s.Name)
	}
	b.p.When = append(b.p.When, "isolator open, engine turning", "battery off, alternator turning")
	for i, w := range b.a.H.Wires {
		l := proof.Live{Net: w.From, Points: []harness.TerminalID{w.From, w.To}, Wires: []harness.WireID{w.ID}}
		for k := range b.p.When {
			l.When = append(l.When, proof.Lives((i/3+k*k)%4))
		}
		b.p.Live = append(b.p.Live, l)
	}
	b.p.Without = []proof.Without{{Fuse: 0, State: 0, Still: []int{0, 1}}}
}
