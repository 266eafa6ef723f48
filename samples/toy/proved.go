package toy

import (
	"example.com/loomfolio/layout/page"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/proof"
)

// Proved is a small car with a test plan made by hand; its figures are invented, since only their
// printing is tested.
func Proved() page.Ask {
	a := Car(8, 4)
	h, r := a.H, a.R
	for i := range r.Fuses {
		f := &r.Fuses[i]
		e := harness.Element{ID: harness.ElementID(len(h.Elements)), Kind: harness.FuseLink, Name: f.Name, Part: f.Part, A: find(h, "FP.in"), B: find(h, f.Name)}
		if f.Name == "MF1" {
			e.A, e.B = find(h, "MF1.1"), find(h, "MF1.2")
		}
		h.Elements = append(h.Elements, e)
		f.Element = e.ID
	}
	h.Elements[0].A, h.Elements[0].B = find(h, "BAT.+"), find(h, "BAT.-")
	load := &h.Elements[r.Loads[0].Element]
	load.A, load.B = find(h, "L1.+"), find(h, "L1.-")
	p := &r.Proof
	proveBefore(h, p)
	provePower(h, p, r.Fuses[1].Element, r.Fuses[2].Element)
	proveVolts(h, p, load.ID)
	for i, f := range r.Fuses {
		p.Through = append(p.Through, proof.Through{Fuse: f.Element, State: 1 + i%2, Amps: f.Amps, Low: f.Amps * 0.8, High: f.Amps * 1.25})
	}
	p.Coils = []proof.CoilAmps{{Coil: 1, State: 2, Amps: 0.15, Low: 0.121, High: 0.184, Ohms: 80, OhmsLow: 72, OhmsHigh: 88, Diode: "86 is positive"}}
	p.KeyOff = proof.KeyOff{State: 0, Sum: 0.02, High: 0.031, Limit: 0.05, Fuses: []proof.Through{{Fuse: r.Fuses[0].Element, Low: 0.012, High: 0.0311}}}
	p.Faults = []proof.Fault{{ID: "12A:open", Wire: 0}}
	p.Untold = []proof.Untold{{Fault: 0, Why: "another way carries its current"}}
	return page.Of(h, r, a.Paper, page.Bench)
}

// find is the terminal of a full name; the chassis for none.
func find(h *harness.Harness, full string) harness.TerminalID {
	for _, t := range h.Terminals {
		if t.Full == full {
			return t.ID
		}
	}
	return harness.Chassis
}

// proveBefore: every wire beeps, the plug's neighbours and the panel's do not.
func proveBefore(h *harness.Harness, p *proof.Proof) {
	for _, w := range h.Wires {
		p.Before.Beeps = append(p.Before.Beeps, proof.Beep{Wire: w.ID, Wires: []harness.WireID{w.ID}, From: w.From, To: w.To})
	}
	apart := func(a, b string, off ...harness.PartID) {
		x := proof.Apart{A: find(h, a), B: find(h, b), Off: off, Ground: b == ""}
		p.Before.Apart = append(p.Before.Apart, x)
	}
	apart("FP.1", "FP.2")
	apart("FP.2", "FP.3")
	apart("FP.4", "FP.5", 8)
	apart("X1.1.in", "X1.2.in")
	apart("X1.2.in", "X1.3.in")
	apart("K1.85", "K1.86", 3)
	apart("FP.1", "")
	apart("FP.3", "", 8)
	for _, e := range h.Elements {
		if e.Kind == harness.FuseLink {
			p.Before.Pulled = append(p.Before.Pulled, proof.Pulled{Fuse: e.ID})
		}
	}
	p.Before.Pulled[1].Off = []harness.PartID{7}
	p.Before.Pulled[2].Note = "metal joins its two sides: it protects nothing"
}

// provePower: nothing in, the main fuse, then the load behind one fuse by the lamp, of another direct.
func provePower(h *harness.Harness, p *proof.Proof, one, other harness.ElementID) {
	main := one - 1
	p.Power = []proof.Step{
		{Through: "lamp 21 W", Fuse: harness.None, State: harness.None, Do: "all fuses out, everything off", Lamp: "dark", Stop: "lamp lights: a short before the fuses"},
		{Through: "lamp 21 W", Fuse: main, Fuses: []harness.ElementID{main, one, other}, State: harness.None, Do: "MF1, FP.1, FP.2 in, everything off", Lamp: "dark", High: 0.004, Stop: "lamp lights: a short behind the last fuse"},
		{Through: "lamp 21 W", Fuse: one, Fuses: []harness.ElementID{main, one}, State: 1, Do: "FP.1 in, as in driving", Lamp: "glows", Low: 0.61, High: 0.882, Stop: "brighter than told: more than the loads is on"},
		{Through: "direct", Fuse: other, Fuses: []harness.ElementID{main, one, other}, State: 2, Do: "FP.2 in, as in driving at night", Low: 7.02, High: 9.98, Stop: "more amps than told"},
	}
}

// proveVolts: every point in two states, and the way of one load with a wire above what is small.
func proveVolts(h *harness.Harness, p *proof.Proof, load harness.ElementID) {
	ends := make([]bool, len(h.Terminals))
	for _, w := range h.Wires {
		ends[w.From], ends[w.To] = true, true
	}
	for t, wired := range ends {
		if wired && t > 0 {
			part := h.Terminals[t].Part
			p.Points = append(p.Points, proof.Point{At: harness.TerminalID(t), Place: h.Parts[part].Place, Lamp: part != 4, Misleads: "a lamp lights behind 2 Ω, where L1 gets 4.2 V"})
		}
	}
	for state := 1; state < 3; state++ {
		for i, x := range p.Points {
			r := proof.Reading{Point: i, State: state, Volts: 12.3, Low: 11.86, High: 12.71, Asked: state == 1 || i%3 > 0}
			if h.Terminals[x.At].Name == "-" || h.Parts[h.Terminals[x.At].Part].Kind == harness.Ground {
				r.Volts, r.Low, r.High = 0.04, 0.011, 0.083
			}
			p.Readings = append(p.Readings, r)
		}
	}
	feed := proof.Section{From: find(h, "BAT.+"), To: find(h, "L1.+"), State: 1, Most: 0.44, What: "feed of L1", Whole: true, Load: load, Wire: harness.None, Element: harness.None}
	back := proof.Section{From: find(h, "L1.-"), To: find(h, "BAT.-"), State: 1, Most: 0.12, What: "return of L1", Whole: true, Load: load, Wire: harness.None, Element: harness.None}
	p.Sections = []proof.Section{feed, {From: find(h, "FP.1"), To: find(h, "K1.30"), State: 1, Most: 0.05, What: "12C", Load: load}, {From: find(h, "K1.87"), To: find(h, "L1.+"), State: 1, Most: 0.17, What: "12D", Load: load}, back}
}
