package asfound

import (
	"fmt"
	"math"
	"slices"

	"example.com/loomfolio/sizing/circuit"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/network"
	"example.com/loomfolio/sizing/proof"
	"example.com/loomfolio/sizing/rating"
	"example.com/loomfolio/sizing/unit"
)

// What a cheap meter adds to ohms: its leads and their tips, and the last digits of its
// 200 Ω range; one that reads thousandths has four leads. Common practice, no source.
const (
	leadOhms  = 0.5
	ohmPart   = 0.02
	fineOhms  = 0.1   // below it a reading is taken as one with four leads
	fineError = 0.003 // Ω
)

// ohmError is the most by which a reading of ohms is off.
func ohmError(ohms float64) float64 {
	switch {
	case math.IsInf(ohms, 1):
		return 0
	case ohms < fineOhms:
		return fineError + ohmPart*ohms
	}
	return leadOhms + ohmPart*ohms
}

// ohms holds a reading of ohms to what lies between the points with the battery off. The
// least is with all that is described joined, loads and switches worked too; the most is by
// the metal alone, at rest, or with the switches worked where there is none at rest.
func (s *survey) ohms(x *harness.Reading, m *proof.Measured) error {
	against := x.Against
	if against == harness.None {
		against = s.post()
	}
	m.Meter = ohmError(float64(x.Ohms))
	all, err := s.between(x.At, against, func(*harness.Element) bool { return true }, true)
	if err != nil {
		return err
	}
	metal, err := s.between(x.At, against, passesOhms, false)
	if err != nil {
		return err
	}
	if rest := math.IsInf(metal, 1); rest && math.IsInf(float64(x.Ohms), 1) {
		m.Is, m.Low, m.High, m.Verdict = metal, all/coldLamp, metal, proof.Agrees
		return nil
	} else if rest {
		if metal, err = s.between(x.At, against, passesOhms, true); err != nil {
			return err
		}
	}
	t, ground := rating.ToleranceOf("wire length"), rating.ToleranceOf("ground")
	m.Is, m.Low, m.High = metal, all*t.Low*coldPart, metal*t.High+float64(ground.More)
	if math.IsInf(metal, 1) {
		m.Is, m.High = all, math.Inf(1)
		m.Low = all / coldLamp
	}
	s.judgeOhms(x, m, against, math.IsInf(metal, 1))
	return nil
}

// A wire in the cold has less than its ohms at 20 °C; a filament in the cold a twelfth of
// what it has alight (engineering rule, from memory).
const (
	coldPart = 0.9
	coldLamp = 12
)

func (s *survey) judgeOhms(x *harness.Reading, m *proof.Measured, against harness.TerminalID, loads bool) {
	v := float64(x.Ohms)
	unknown := s.worked.Open(x.At) || s.worked.Open(against)
	switch {
	case v < m.Low-m.Meter && unknown:
		m.Verdict, m.Says = proof.Unsettled, "less than by what is described: something joins them through what is not traced"
	case v < m.Low-m.Meter:
		m.Verdict, m.Says = proof.Low, "less than by what is described: something else joins the two points, or they touch"
	case loads && math.IsInf(m.Is, 1) && !math.IsInf(v, 1):
		m.Verdict, m.Says = proof.High, "nothing that is described joins the two points"
		if unknown {
			m.Verdict, m.Says = proof.Unsettled, "they are joined through what is not traced"
		}
	case loads || v <= m.High && (math.IsInf(v, 1) == math.IsInf(m.Is, 1)):
		m.Verdict = proof.Agrees
	case math.IsInf(v, 1):
		m.Verdict, m.Says = proof.High, fmt.Sprintf("open, where %s of metal should join them", unit.Ohm(unit.Round(m.Is, 3)))
	case v <= m.High+m.Meter:
		m.Verdict = proof.Coarse
		m.Says = "a cheap meter cannot tell it from its own leads: measure the volts across it with the load on"
	default:
		m.Verdict = proof.High
		m.Says = fmt.Sprintf("%s more than metal and meter explain", unit.Ohm(unit.Round(v-m.High-m.Meter, 2)))
	}
}

// post is the terminal of the first battery on its grounded side, else the bodywork.
func (s *survey) post() harness.TerminalID {
	for i := range s.h.Elements {
		if e := &s.h.Elements[i]; e.Kind == harness.EMF {
			return s.h.Earthed(e)
		}
	}
	return harness.Chassis
}

// passesOhms tells metal: what passes current and takes none.
func passesOhms(e *harness.Element) bool {
	switch e.Kind {
	case harness.Join, harness.Contact, harness.FuseLink, harness.Resistance:
		return true
	}
	return false
}

// between gives the ohms between two points with every source out, over the elements that
// are asked for; worked closes all contacts that a hand works.
func (s *survey) between(a, b harness.TerminalID, asked func(*harness.Element) bool, worked bool) (float64, error) {
	h := *s.h
	h.States = []harness.State{{Name: "dead", Position: make([]int, len(h.Parts)), Engine: harness.EngineOff}}
	h.Elements = slices.Clone(h.Elements)
	r := network.Resistances{Wires: s.r.Cold(), Links: make([]float64, len(h.Elements))}
	for i := range h.Elements {
		e := &h.Elements[i]
		switch {
		case e.Kind == harness.EMF, e.Kind == harness.Charger:
			r.Links[i] = math.Inf(1)
		case !asked(e):
			e.Kind = harness.Open
		case worked && e.Kind == harness.Contact && e.When.Kind == harness.InPosition:
			e.When = harness.Condition{}
		}
	}
	p, err := network.Prepare(&h, 0, r, network.Options{})
	if err != nil {
		return 0, err
	}
	st, err := p.Solve()
	if err != nil {
		return 0, err
	}
	g, err := p.Gains(st)
	if err != nil {
		return 0, err
	}
	return ohmsOf(g, st.Of[a], st.Of[b]), nil
}

func ohmsOf(g *circuit.Gains, a, b int) float64 {
	switch {
	case a < 0 || b < 0 || !g.Joined(a, b):
		return math.Inf(1)
	case a == b:
		return 0
	}
	return g.Of(a, b)[a]
}
