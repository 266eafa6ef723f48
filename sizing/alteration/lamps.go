package alteration

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"example.com/loomfolio/sizing/forest"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/proof"
	"example.com/loomfolio/sizing/unit"
)

// ledShare is the least that an LED lamp takes of what the bulb in its place did: 2 W for
// 21 W; common practice, no source.
const ledShare = 2.0 / 21

// ledAmps is what an LED takes that is made to stand in for a tell-tale, A; common
// practice, no source.
const ledAmps = 0.020

// flashers speak of LED lamps behind a flasher that flashes by its load: one that says what
// it needs, or that has no ground terminal in use, as electronic ones need one (common
// practice, no source).
func (n *notes) flashers() []proof.Change {
	var out []proof.Change
	for i := range n.h.Elements {
		e := &n.h.Elements[i]
		p := &n.h.Parts[e.Part]
		if e.Kind != harness.Contact || p.Kind != harness.Flasher || n.blamed[p.Ref] || p.Needs <= 0 && n.grounded(p) {
			continue
		}
		if least, state := n.leastThrough(e.ID); least > bulbs {
			out = append(out, n.flasher(e, p, least, state))
		}
	}
	return out
}

// bulbs is the current of a flasher's side from which it has filament lamps, A.
const bulbs = 1

func (n *notes) flasher(e *harness.Element, p *harness.Part, amps float64, state int) proof.Change {
	needs := float64(p.Needs)
	if needs <= 0 || needs > amps {
		needs = amps
	}
	volts := float64(n.h.SystemOf(e).Running)
	left := amps * ledShare
	ohms := e12(volts / (needs - left))
	heat := volts * volts / ohms
	return proof.Change{
		Circuit: n.circuitAt(e.A, e.B), Part: p.ID, Alters: proof.LEDFlashers, At: n.h.States[state].Name, Names: []string{},
		If: fmt.Sprintf("LED lamps behind %s", p.Ref),
		Then: fmt.Sprintf("%s takes %s now and may get %s, too little to flash right: use an electronic flasher, or on each side add %s, %.0f W or more, on metal (%.0f W of heat)",
			p.Ref, unit.Amps(amps), unit.Amps(left), unit.Ohm(ohms), part(heat), heat),
		Numbers: []proof.Number{number("now_a", amps), number("left_a", left), number("needs_a", needs), number("resistor_ohm", ohms), number("resistor_w", heat)},
	}
}

// leastThrough gives the least current of a closed contact and the state of it.
func (n *notes) leastThrough(e harness.ElementID) (least float64, state int) {
	least = math.Inf(1)
	for i := range n.r.States {
		if a := math.Abs(n.r.States[i].Amps[e]); a > ledAmps && a < least {
			least, state = a, i
		}
	}
	if math.IsInf(least, 1) {
		return 0, 0
	}
	return least, state
}

// grounded tells that a part's terminal 31 has a wire.
func (n *notes) grounded(p *harness.Part) bool {
	return slices.ContainsFunc(p.Terminals, func(t harness.TerminalID) bool { return n.h.Terminals[t].Name == "31" && n.wireAt(t) != harness.None })
}

func (n *notes) wireAt(t harness.TerminalID) harness.WireID {
	for i := range n.h.Wires {
		if w := &n.h.Wires[i]; w.From == t || w.To == t {
			return w.ID
		}
	}
	return harness.None
}

// circuitAt gives the circuit of the last of some terminals that has a wire.
func (n *notes) circuitAt(terminals ...harness.TerminalID) harness.CircuitID {
	c := harness.CircuitID(harness.None)
	for _, t := range terminals {
		if w := n.wireAt(t); w != harness.None {
			c = n.h.Wires[w].Circuit
		}
	}
	return c
}

// e12 gives the largest value of the E12 series (IEC 60063) that is no larger, ohm.
func e12(ohms float64) float64 {
	best := 0.0
	decade := math.Pow(10, math.Floor(math.Log10(ohms)))
	for _, v := range [...]float64{1, 1.2, 1.5, 1.8, 2.2, 2.7, 3.3, 3.9, 4.7, 5.6, 6.8, 8.2} {
		if x := v * decade; x <= ohms*(1+1e-9) {
			best = x
		}
	}
	return unit.Round(best, 3)
}

// part gives the wattage of a resistor that bears a heat for hours: half as much again, of
// those sold; common practice, no source.
func part(heat float64) float64 {
	for _, w := range [...]float64{0.5, 1, 2, 5, 10, 25, 50, 100} {
		if w >= 1.5*heat {
			return w
		}
	}
	return 200
}

// exciters are the names of the terminal by which a lamp excites an alternator: DIN 72552
// (61, D+, L) and common marks.
var exciters = strings.Fields("L 61 D+ WL IND")

// chargeLamps speak of an LED in the place of the lamp through which an alternator is
// excited.
func (n *notes) chargeLamps() []proof.Change {
	joined := n.metal()
	var out []proof.Change
	for i := range n.h.Elements {
		e := &n.h.Elements[i]
		p := &n.h.Parts[e.Part]
		if e.Behaves != harness.AsLamp || e.Kind != harness.Load || p.Kind != harness.Lamp || n.blamed[p.Ref] || !n.excites(joined, e) {
			continue
		}
		if amps, volts, state := n.exciting(e); amps > 2*ledAmps {
			out = append(out, n.chargeLamp(e, amps, volts, state))
		}
	}
	return out
}

// metal joins the terminals that wires and parts join for good.
func (n *notes) metal() forest.Forest {
	f := forest.New(len(n.h.Terminals))
	for i := range n.h.Wires {
		f.Join(int(n.h.Wires[i].From), int(n.h.Wires[i].To))
	}
	for i := range n.h.Elements {
		if e := &n.h.Elements[i]; e.Kind == harness.Join || n.h.Parts[e.Part].Kind == harness.Connector {
			f.Join(int(e.A), int(e.B))
		}
	}
	return f
}

// excites tells a lamp of which one side is an alternator's lamp terminal.
func (n *notes) excites(joined forest.Forest, lamp *harness.Element) bool {
	for i := range n.h.Parts {
		p := &n.h.Parts[i]
		if p.Kind != harness.Alternator {
			continue
		}
		for _, t := range p.Terminals {
			at := joined.Root(int(t))
			if slices.Contains(exciters, strings.ToUpper(n.h.Terminals[t].Name)) && (at == joined.Root(int(lamp.A)) || at == joined.Root(int(lamp.B))) && at != joined.Root(0) {
				return true
			}
		}
	}
	return false
}

// exciting gives what flows through the lamp with the engine off, at most, and the volts
// across it; as it is described where no state shows it.
func (n *notes) exciting(e *harness.Element) (amps, volts float64, state int) {
	for i := range n.r.States {
		st := &n.r.States[i]
		if a := math.Abs(st.Amps[e.ID]); n.h.States[i].Engine == harness.EngineOff && a > amps {
			amps, volts, state = a, math.Abs(st.Volts[e.A]-st.Volts[e.B]), i
		}
	}
	if amps < ledAmps {
		return float64(e.Amps), float64(e.AtVolts), harness.None
	}
	return amps, volts, state
}

func (n *notes) chargeLamp(e *harness.Element, amps, volts float64, state int) proof.Change {
	p := &n.h.Parts[e.Part]
	ohms := e12(volts / (amps - ledAmps))
	heat := volts * volts / ohms
	at := ""
	if state != harness.None {
		at = n.h.States[state].Name
	}
	return proof.Change{
		Circuit: n.circuitAt(e.A, e.B), Part: p.ID, Alters: proof.LEDCharge, At: at, Names: []string{},
		If: fmt.Sprintf("an LED for %s", p.Name),
		Then: fmt.Sprintf("%s excites the alternator now, an LED passes about %s: it may not charge; put %s, %.2g W or more, across the LED",
			unit.Amps(amps), unit.Ampere(ledAmps), unit.Ohm(ohms), part(heat)),
		Numbers: []proof.Number{number("now_a", amps), number("left_a", ledAmps), number("resistor_ohm", ohms), number("resistor_w", heat)},
	}
}
