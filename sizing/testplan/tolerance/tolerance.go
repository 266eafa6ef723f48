// Package tolerance says between what limits a sound wiring reads: every figure of a
// solved state with the span in which it may lie (source, load, length and temperature of
// wire, contacts and fuses from new to aged), and by these the worst case of a voltage.
//
// In: the model, a solved state. Out: spans, and of two nodes the lowest and the highest
// volts between them, or of an element the least and the greatest current.
//
// Method: the state is solved as described, weak (sources low, ways bad, loads heavy),
// heavy (strong sources, good ways, heavy loads), strong (the other way round than weak) and,
// where one source may charge another, with charging high and batteries low. At each of
// these corners an adjoint solving gives how the reading follows every figure; each slope
// is taken times the span of its figure, to either side of what is described, all are
// added, the worst case by interval, first order, and of the corners the widest sum counts.
// The solved corners must lie inside too, and a sixteenth is added for what is not
// straight. It is no proof: tests draw instances by lot, and go to the worst corner of
// readings, and look whether these lie inside. Batteries that metal joins are at one level
// and vary together, and so do all charging voltages. A charged battery that rests stands
// anywhere between the volts that the corners show. A corner in which a relay stands
// otherwise than it should is left out.
package tolerance

import (
	"math"

	"example.com/loomfolio/sizing/circuit"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/heat"
	"example.com/loomfolio/sizing/network"
	"example.com/loomfolio/sizing/rating"
)

// Figure is which figure of an element of the network varies.
type Figure int

// The figures.
const (
	Ohms Figure = iota
	Volts
	Amps
	Idle   // the voltage up to which a charged battery does nothing
	Stands // the voltage at which such a battery stands, an outcome: heeded by the sums alone
)

// Setting is one figure of one element of a solved network, and where it may lie.
type Setting struct {
	Element   int // into State.Network.Elements
	Figure    Figure
	Low, High float64
	Is        float64 // of Stands, as described
	Draws     bool    // of a load or coil: at High amps, or Low ohms, it loads its feed the most
}

// Span is settings that vary together.
type Span []Setting

// maker lists the spans of a state.
type maker struct {
	h       *harness.Harness
	s       *network.State
	element []harness.ElementID // by element of the network, None for wires and what is made
	cold    []float64           // by wire: ohms at 20 °C
	out     []Span
}

// coldest is the temperature of a wire in the cold; common practice, no source.
const coldest = 0

// Spans lists what varies in a solved state; cold are the ohms of the wires at 20 °C.
func Spans(h *harness.Harness, s *network.State, cold []float64) []Span {
	m := &maker{h: h, s: s, cold: cold, element: make([]harness.ElementID, len(s.Network.Elements))}
	for k := range m.element {
		m.element[k] = harness.None
	}
	for e, k := range s.ElementAt {
		if k >= 0 {
			m.element[k] = harness.ElementID(e)
		}
	}
	m.wires()
	m.sources()
	for k := range s.Network.Elements {
		m.inside(k)
	}
	return m.out
}

func (m *maker) add(settings ...Setting) {
	for _, s := range settings {
		if s.Low == s.High || math.IsInf(s.High, 0) {
			return
		}
	}
	m.out = append(m.out, settings)
}

// wires: the length to either side, cold to as warm as it gets in this state.
func (m *maker) wires() {
	t := rating.ToleranceOf("wire length")
	for w, k := range m.s.WireAt {
		ohms := m.s.Network.Elements[k].Ohms
		low := min(ohms, m.cold[w]*heat.ResistanceFactor(coldest))
		less, more := m.unknown(&m.h.Wires[w])
		m.add(Setting{Element: k, Low: low * t.Low * less, High: ohms * t.High * more})
	}
}

// What a wire's ohms may be of what is taken where nobody knows its length (a guess of 3 m
// stands for 0.3 to 6 m), or how thick the vehicle's own is (two usual sizes up or down).
// Common practice, no source.
const (
	shorter, longer  = 0.1, 2.0
	thicker, thinner = 1 / 3.0, 3.0
)

// unknown gives how much less and how much more a wire's ohms may be for what nobody knows of it.
func (m *maker) unknown(w *harness.Wire) (less, more float64) {
	less, more = 1, 1
	if w.Length == 0 && (m.h.PartOf(w.From).Unplaced() || m.h.PartOf(w.To).Unplaced()) {
		less, more = less*shorter, more*longer
	}
	if w.Existing && !w.Gauge.Given() {
		less, more = less*thicker, more*thinner
	}
	return less, more
}

// setting is a figure with a tolerance of the table.
func (m *maker) setting(k int, f Figure, what string) Setting {
	t, e := rating.ToleranceOf(what), &m.s.Network.Elements[k]
	s := Setting{Element: k, Figure: f}
	switch f {
	case Ohms:
		s.Low, s.High = e.Ohms*t.Low, e.Ohms*t.High+float64(t.More)
	case Volts:
		s.Low, s.High = e.Volts*t.Low, e.Volts*t.High
	case Amps:
		s.Low, s.High = e.Amps*t.Low, e.Amps*t.High
	case Idle:
		s.Low, s.High = e.Idle*t.Low, e.Idle*t.High
	}
	return s
}

// inside is what varies of an element that is no wire and no source.
func (m *maker) inside(k int) {
	e := &m.s.Network.Elements[k]
	switch m.s.Elements[k].Note {
	case "wire", "battery", "bridge":
	case "alternator":
		m.add(m.setting(k, Ohms, "charger ohms"))
		m.add(m.setting(k, Amps, "charger amps"))
	case "fuse", "breaker":
		m.add(m.setting(k, Ohms, m.fuse(k)))
	case "contact":
		m.add(m.setting(k, Ohms, m.contact(k)))
	case "resistance":
		m.add(m.setting(k, Ohms, m.resistance(k)))
	case "coil":
		s := m.setting(k, Ohms, "coil")
		s.Draws = true
		m.add(s)
	case "diode":
		m.add(m.setting(k, Ohms, "diode ohms"))
		m.add(m.setting(k, Volts, "diode volts"))
	default:
		m.load(k, e)
	}
}

func (m *maker) load(k int, e *circuit.Element) {
	s, what := Setting{}, map[circuit.Kind]string{circuit.Lamp: "lamp", circuit.Power: "power", circuit.Current: "current"}[e.Kind]
	switch {
	case e.Kind == circuit.Resistor:
		s = m.setting(k, Ohms, "resistance")
	case m.element[k] != harness.None && m.h.Elements[m.element[k]].Behaves == harness.AsMotor:
		s = m.setting(k, Amps, "motor")
	default:
		s = m.setting(k, Amps, what)
	}
	s.Draws = true
	m.add(s)
}

// part is the part of an element of the network, nil for none.
func (m *maker) part(k int) *harness.Part {
	id := m.element[k]
	if id == harness.None || m.h.Elements[id].Part == harness.None {
		return nil
	}
	return &m.h.Parts[m.h.Elements[id].Part]
}

// fuse names the tolerance of a fuse by its body.
func (m *maker) fuse(k int) string {
	p := m.part(k)
	switch {
	case m.s.Elements[k].Note == "breaker":
		return "breaker"
	case p != nil && (p.Body == "bolt" || p.Body == "maxi"):
		return "fuse " + p.Body
	}
	return "fuse"
}

func (m *maker) contact(k int) string {
	if p := m.part(k); p != nil && (p.Kind == harness.Isolator || p.Kind == harness.Starter) || m.heavy(k) {
		return "contact heavy"
	}
	return "contact"
}

// heavyAmps is a current for which contacts and joints are made so that they stay good;
// judgement, not published.
const heavyAmps = 50

func (m *maker) heavy(k int) bool { return math.Abs(m.s.Solution.Amps[k]) > heavyAmps }

func (m *maker) resistance(k int) string {
	switch p := m.part(k); {
	case p != nil && m.h.Grounds(&m.h.Elements[m.element[k]]) && m.heavy(k):
		return "ground heavy"
	case p != nil && m.h.Grounds(&m.h.Elements[m.element[k]]):
		return "ground"
	case p != nil && p.Kind == harness.Strap:
		return "strap"
	}
	return "resistor"
}
