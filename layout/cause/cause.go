// Package cause words what may be wrong: faults of the dictionary as a finder says them
// ("12A open", "12A to ground", "G3 off"), and points and volts as a meter shows them.
//
// In: the model and its proof. Out: words. A thing that is only open, or a joint that costs
// volts, is its name alone: which of the two it is the reading tells.
package cause

import (
	"slices"
	"strings"

	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/proof"
)

// Words words the proof of a model.
type Words struct {
	H *harness.Harness
	P *proof.Proof

	Spells func(faults []int) []Spell // parts what blows a fuse by when it does; nil: not parted
}

// Point is how a test point is called: the terminal, of a plug the cavity, whichever side.
func (w Words) Point(i int) string {
	if i < 0 || i >= len(w.P.Points) {
		return "battery " + w.Earthed()
	}
	return w.Terminal(w.P.Points[i].At)
}

// Earthed is the sign of the battery's earthed post, against which volts are read.
func (w Words) Earthed() string {
	if w.H.System.PositiveEarth {
		return "+"
	}
	return "−"
}

// Probe is where a meter goes: a point, or two that it is put across.
func (w Words) Probe(p *proof.Probe) string {
	if p.Against == proof.None {
		return w.Point(p.Point)
	}
	return w.Point(p.Point) + " – " + w.Point(p.Against)
}

// Terminal is how a terminal is called: its full name, of a plug the cavity.
func (w Words) Terminal(t harness.TerminalID) string {
	x := &w.H.Terminals[t]
	if x.Cavity != "" {
		return w.H.PartOf(t).Ref + "." + x.Cavity
	}
	return x.Full
}

// Thing is what a fault sits in: a wire, a part, a pin; of a relay or a switch the part, of a
// load of several the terminal that is its own.
func (w Words) Thing(f *proof.Fault) string {
	if f.Wire != harness.None {
		return w.H.Wires[f.Wire].Name
	}
	if name, _, ok := strings.Cut(f.Element, "~"); ok {
		return name
	}
	if f.Part < 0 || int(f.Part) >= len(w.H.Parts) {
		return f.Element
	}
	p := &w.H.Parts[f.Part]
	switch p.Basic() {
	case harness.Relay, harness.Flasher, harness.Switch, harness.IgnitionSwitch, harness.Isolator:
		return p.Ref
	case harness.Fuse, harness.FusePanel, harness.Breaker, harness.Connector, harness.Splice, harness.Ground:
		return f.Element
	}
	if ref, of, _ := strings.Cut(f.Element, "."); of == "body" {
		return ref + " ground"
	}
	return p.Short(f.Element)
}

// quiet are the kinds that a reading tells by itself: nothing behind the thing, or less than there should be.
var quiet = []proof.Kind{proof.Open, proof.Joint, proof.Burnt, proof.Unearthed}

// Quiet tells whether a fault is said by the name of its thing alone.
func Quiet(k proof.Kind) bool { return slices.Contains(quiet, k) }

// said is what is said of a thing by the kind of its fault.
func said(k proof.Kind) string {
	switch k {
	case proof.Welded:
		return "welded"
	case proof.Stuck:
		return "stuck"
	case proof.Shorted:
		return "shorted"
	case proof.Flat:
		return "flat"
	case proof.Disconnected:
		return "lead off"
	case proof.Dead:
		return "gives nothing"
	}
	return ""
}

// Fault says one fault: "12A", "12A to ground", "K1 welded".
func (w Words) Fault(f *proof.Fault) string {
	switch {
	case f.Kind == proof.Short:
		return w.Thing(f) + " to " + w.touched(f)
	case w.whole(f):
		return w.Thing(f)
	}
	return strings.TrimSpace(w.Thing(f) + " " + said(f.Kind))
}

// whole tells that a fault of a relay is said by its name: whether its coil is open or
// shorted, or its armature stuck, it is the relay that is changed.
func (w Words) whole(f *proof.Fault) bool {
	relay := f.Part >= 0 && int(f.Part) < len(w.H.Parts) && w.H.Parts[f.Part].Kind == harness.Relay
	return relay && (f.Kind == proof.Stuck || f.Kind == proof.Shorted)
}

// ground is what a wire touches that touches no neighbour.
const ground = "ground"

// touched is what a short touches: the neighbour in its name, else ground.
func (w Words) touched(f *proof.Fault) string {
	name, _, _ := strings.Cut(f.ID, ":")
	if _, other, ok := strings.Cut(name, "~"); ok {
		return other
	}
	return ground
}

// Things are what faults sit in, in their order, each once.
func (w Words) Things(faults []int) []string {
	var out []string
	for _, i := range faults {
		out = appendOnce(out, w.Thing(&w.P.Faults[i]))
	}
	return out
}
