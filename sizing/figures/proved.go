package figures

import (
	"math"

	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/proof"
)

// TestPoint is a terminal that a probe reaches; volts and limits by the states in which it
// is measured.
type TestPoint struct {
	Point    string             `json:"point"`
	Place    string             `json:"place"`
	Side     string             `json:"side"`
	Reach    float64            `json:"reach"` // minutes to get a probe there
	Lamp     bool               `json:"lamp"`
	NoLamp   string             `json:"no_lamp"`
	Misleads string             `json:"misleads"`
	Pulses   string             `json:"pulses"` // why a meter shows a mean
	Volts    map[string]float64 `json:"volts"`
	LowV     map[string]float64 `json:"low_v"`
	HighV    map[string]float64 `json:"high_v"`
	Floats   []string           `json:"floats"` // states in which nothing defines a voltage
}

// TestSection is what is judged under load, red on From, black on To.
type TestSection struct {
	From  string  `json:"from"`
	To    string  `json:"to"`
	What  string  `json:"what"`
	Whole bool    `json:"whole"`
	State string  `json:"state"`
	Load  string  `json:"load"`
	Volts float64 `json:"volts"`
	MostV float64 `json:"most_v"`
	Blind string  `json:"blind"`
}

// TestStep is one step of the first power.
type TestStep struct {
	Through string   `json:"through"`
	Do      string   `json:"do"`
	State   string   `json:"state"` // "" for everything off
	Fuses   []string `json:"fuses"`
	Amps    float64  `json:"amps"`
	LowA    float64  `json:"low_a"`
	HighA   float64  `json:"high_a"`
	Lamp    string   `json:"lamp"`
	Stop    string   `json:"stop"`
}

// TestBeep is a chain of wires that beeps from end to end before any power.
type TestBeep struct {
	From  string   `json:"from"`
	To    string   `json:"to"`
	Wires []string `json:"wires"`
	Note  string   `json:"note"`
}

// TestApart are two points that do not beep; Ohm is between them with everything plugged
// in, 0 where nothing joins them.
type TestApart struct {
	A      string   `json:"a"`
	B      string   `json:"b"`
	Ground bool     `json:"ground"`
	Ohm    float64  `json:"ohm"`
	Joined bool     `json:"joined"`
	Off    []string `json:"off"`
	Switch []string `json:"switch"`
}

// TestAmps is the current through a fuse or coil.
type TestAmps struct {
	ID      string  `json:"id"`
	State   string  `json:"state"`
	Amps    float64 `json:"amps"`
	LowA    float64 `json:"low_a"`
	HighA   float64 `json:"high_a"`
	Ohm     float64 `json:"ohm"`      // of a coil, across its two tabs; else 0
	Diode   string  `json:"diode"`    // of a coil
	AcrossV float64 `json:"across_v"` // of a fuse
}

// TestKeyOff is the current with everything at rest.
type TestKeyOff struct {
	State  string  `json:"state"`
	SumA   float64 `json:"sum_a"`
	HighA  float64 `json:"high_a"`
	LimitA float64 `json:"limit_a"`
}

// proved fills in how the wiring is proved.
func (f *filler) proved() {
	f.testPoints()
	f.testSections()
	p := &f.r.Proof
	for _, s := range p.Power {
		f.d.Power = append(f.d.Power, TestStep{s.Through, s.Do, f.state(s.State), f.elements(s.Fuses), float64(s.Amps), float64(s.Low), float64(s.High), s.Lamp, s.Stop})
	}
	for _, b := range p.Before.Beeps {
		f.d.Beeps = append(f.d.Beeps, TestBeep{f.full(b.From), f.full(b.To), f.names(b.Wires), b.Note})
	}
	for _, t := range p.Before.Bodies {
		f.d.Beeps = append(f.d.Beeps, TestBeep{f.full(t), f.full(harness.Chassis), []string{}, "the part's body is its ground"})
	}
	for _, a := range p.Before.Apart {
		joined := !math.IsInf(float64(a.Ohms), 0)
		f.d.Apart = append(f.d.Apart, TestApart{f.full(a.A), f.full(a.B), a.Ground, finite(float64(a.Ohms)), joined, f.parts(a.Off), f.parts(a.Switch)})
	}
	for _, x := range p.Through {
		f.d.FuseAmps = append(f.d.FuseAmps, f.through(x))
	}
	for _, x := range p.Coils {
		f.d.CoilAmps = append(f.d.CoilAmps, TestAmps{
			ID: f.h.Elements[x.Coil].Name, State: f.state(x.State), Amps: float64(x.Amps), LowA: float64(x.Low), HighA: float64(x.High), Ohm: float64(x.Ohms), Diode: x.Diode,
		})
	}
	for _, x := range p.KeyOff.Fuses {
		f.d.KeyOffAmps = append(f.d.KeyOffAmps, f.through(x))
	}
	f.d.KeyOff = TestKeyOff{f.state(p.KeyOff.State), float64(p.KeyOff.Sum), float64(p.KeyOff.High), float64(p.KeyOff.Limit)}
}

func (f *filler) testPoints() {
	out := make([]TestPoint, len(f.r.Proof.Points))
	for i, p := range f.r.Proof.Points {
		out[i] = TestPoint{
			Point: f.full(p.At), Side: p.Side, Reach: p.Reach, Lamp: p.Lamp, NoLamp: p.NoBut, Misleads: p.Misleads, Pulses: p.Pulses,
			Volts: map[string]float64{}, LowV: map[string]float64{}, HighV: map[string]float64{}, Floats: []string{},
		}
		if p.Place != harness.None {
			out[i].Place = f.h.Places[p.Place].Key
		}
	}
	for _, x := range f.r.Proof.Readings {
		o, state := &out[x.Point], f.state(x.State)
		switch {
		case !x.Asked:
		case x.Floats:
			o.Floats = append(o.Floats, state)
		default:
			o.Volts[state], o.LowV[state], o.HighV[state] = float64(x.Volts), float64(x.Low), float64(x.High)
		}
	}
	f.d.TestPoints = append(f.d.TestPoints, out...)
}

func (f *filler) testSections() {
	for _, s := range f.r.Proof.Sections {
		one := TestSection{f.full(s.From), f.full(s.To), s.What, s.Whole, f.state(s.State), "", float64(s.Volts), float64(s.Most), s.Blind}
		if s.Load != harness.None {
			one.Load = f.h.Elements[s.Load].Name
		}
		f.d.Sections = append(f.d.Sections, one)
	}
}

func (f *filler) through(x proof.Through) TestAmps {
	return TestAmps{
		ID: f.h.Elements[x.Fuse].Name, State: f.state(x.State), Amps: float64(x.Amps), LowA: float64(x.Low), HighA: float64(x.High), AcrossV: float64(x.Across),
	}
}

// state names a state, "" for None.
func (f *filler) state(i int) string {
	if i < 0 || i >= len(f.h.States) {
		return ""
	}
	return f.h.States[i].Name
}

func (f *filler) parts(ids []harness.PartID) []string {
	out := []string{}
	for _, id := range ids {
		out = append(out, f.h.Parts[id].Ref)
	}
	return out
}
