package circuit

import (
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/require"
)

func resistor(name string, a, b int, ohms float64) Element {
	return Element{Name: name, Kind: Resistor, A: a, B: b, Ohms: ohms}
}

func battery(a, b int, volts, ohms float64) Element {
	return Element{Name: "battery", Kind: Source, A: a, B: b, Volts: volts, Ohms: ohms}
}

func solved(t *testing.T, nodes int, elements ...Element) Solution {
	t.Helper()
	s, err := Solve(Network{Nodes: nodes, Elements: elements})
	require.NoError(t, err)
	require.Less(t, s.Residual, 1e-10)
	return s
}

// Wheatstone's bridge out of balance. Choose 10 V at the top, 6 V left, 4 V right:
//
//	bridge  100 ohm: (6-4)/100 = 20 mA, left to right
//	lower left 100:  6/100 = 60 mA, so upper left carries 80 mA: (10-6)/0.08 = 50 ohm
//	upper right 200: (10-4)/200 = 30 mA, so lower right carries 50 mA: 4/0.05 = 80 ohm
//	the source gives 80+30 = 110 mA; behind 10 ohm its EMF is 10+1.1 = 11.1 V
func TestBridge(t *testing.T) {
	s := solved(t, 4, battery(1, 0, 11.1, 10),
		resistor("upper left", 1, 2, 50), resistor("lower left", 2, 0, 100),
		resistor("upper right", 1, 3, 200), resistor("lower right", 3, 0, 80),
		resistor("bridge", 2, 3, 100))
	require.InDeltaSlice(t, []float64{0, 10, 6, 4}, s.Volts, 1e-12)
	require.InDeltaSlice(t, []float64{-0.11, 0.08, 0.06, 0.03, 0.05, 0.02}, s.Amps, 1e-12)
}

// Two batteries in parallel feed a load (Millman's theorem):
//
//	V = (12.6/0.02 + 12/0.03) / (1/0.02 + 1/0.03 + 1/0.5) = 1030 / 85.3333 = 12.0703125 V
//	first (12.6-V)/0.02 = 26.484375 A, second (12-V)/0.03 = -2.34375 A (it is charged),
//	load V/0.5 = 24.140625 A, which is their sum
func TestTwoBatteries(t *testing.T) {
	s := solved(t, 2, battery(1, 0, 12.6, 0.02), battery(1, 0, 12, 0.03), resistor("load", 1, 0, 0.5))
	require.InDelta(t, 12.0703125, s.Volts[1], 1e-12)
	require.InDeltaSlice(t, []float64{-26.484375, 2.34375, 24.140625}, s.Amps, 1e-10)
}

// A ladder with a relay and a diode. 12 V behind 0.5 ohm at node 1; the coil, 80 ohm, from there.
// Released: V1 = 12*80/80.5 = 11.93 V, above pull-in. Energised, the contact (0.5 ohm), the diode
// (0.7 V behind 0.1 ohm) and the load (4.4 ohm) are in series, 5 ohm:
//
//	(12-V1)/0.5 = V1/80 + (V1-0.7)/5   so   24.14 = 2.2125 V1,  V1 = 10.9107 V, still above drop-out
//	I = (V1-0.7)/5,  V2 = V1 - 0.5 I,  V3 = 4.4 I
func TestLadderWithRelayAndDiode(t *testing.T) {
	s := solved(t, 4, battery(1, 0, 12, 0.5),
		Element{Name: "coil", Kind: Coil, A: 1, B: 0, Ohms: 80, PullIn: 8, DropOut: 3},
		Element{Name: "contact", Kind: Contact, A: 1, B: 2, Ohms: 0.5, Control: 1},
		Element{Name: "diode", Kind: Diode, A: 2, B: 3, Volts: 0.7, Ohms: 0.1},
		resistor("load", 3, 0, 4.4))
	v1 := 24.14 / 2.2125
	amps := (v1 - 0.7) / 5
	require.InDeltaSlice(t, []float64{0, v1, v1 - 0.5*amps, 4.4 * amps}, s.Volts, 1e-12)
	require.True(t, s.Energised[1])
	require.Empty(t, s.Chatter)
	require.Equal(t, Frozen{Form: IsVoltage, Volts: 0.7, Ohms: 0.1}, s.Frozen[3])
}

// A 21 W lamp at 12 V takes 1.75 A. Behind 1 ohm its voltage obeys E = V + 1.75 (V/12)^0.55;
// choose V = 6: 1.75 * 0.5^0.55 = 1.19528 A, so E = 7.19528 V.
func TestLamp(t *testing.T) {
	lamp := Element{Name: "lamp", Kind: Lamp, A: 2, B: 0, Amps: 1.75, AtVolts: 12, Floor: 1}
	amps := 1.75 * math.Exp(0.55*math.Log(0.5))
	for _, sign := range []float64{1, -1} {
		s := solved(t, 3, battery(1, 0, sign*(6+amps), 0.25), resistor("wire", 1, 2, 0.75), lamp)
		require.InDelta(t, sign*6, s.Volts[2], 1e-11)
		require.InDelta(t, sign*amps, s.Amps[2], 1e-11)
		require.InDelta(t, 6/amps, s.Frozen[2].Ohms, 1e-10)
	}
	// Below its floor a resistance: at 1 V 1.75*(1/12)^0.55 = 0.44622 A, so 2.24106 ohm.
	ohms := 1 / (1.75 * math.Exp(0.55*math.Log(1.0/12)))
	s := solved(t, 2, battery(1, 0, 1, ohms), Element{Name: "lamp", Kind: Lamp, A: 1, B: 0, Amps: 1.75, AtVolts: 12, Floor: 1})
	require.InDelta(t, 0.5, s.Volts[1], 1e-12)
}

// A steady 10 A above 6 V, below that 0.6 ohm.
func TestConstantCurrent(t *testing.T) {
	load := Element{Name: "module", Kind: Current, A: 1, B: 0, Amps: 10, Floor: 6}
	for _, c := range []struct{ emf, ohms, volts, amps float64 }{
		{12, 0.1, 11, 10},       // 12 - 10*0.1
		{12, 0.6, 6, 10},        // just at the floor
		{12, 1.4, 3.6, 6},       // 12*0.6/2.0: below the floor
		{-12, 1.4, -3.6, -6},    // backwards: the same resistance
		{0, 0.1, 0, 0},          // a source without volts
		{12, math.Inf(1), 0, 0}, // no source at all
	} {
		s := solved(t, 2, battery(1, 0, c.emf, c.ohms), load)
		require.InDelta(t, c.volts, s.Volts[1], 1e-12, "%+v", c)
		require.InDelta(t, c.amps, s.Amps[1], 1e-11, "%+v", c)
	}
}

// The contact closes on a load which pulls the coil's voltage down.
// Before: V = 12*80/80.5 = 11.925 V. With 0.5 ohm of load: 12/(0.5*(1/80+2+2)) = 5.98 V.
func TestHysteresis(t *testing.T) {
	for _, c := range []struct {
		name            string
		pullIn, dropOut float64
		holds           bool
		chatter         []int
	}{
		{"stays below pull-in, above drop-out", 8, 3, true, nil},
		{"falls off at once", 8, 7, false, []int{1}},
		{"never pulls in", 11.95, 3, false, nil},
	} {
		s := solved(t, 3, battery(1, 0, 12, 0.5),
			Element{Name: "coil", Kind: Coil, A: 0, B: 1, Ohms: 80, PullIn: c.pullIn, DropOut: c.dropOut},
			Element{Name: "contact", Kind: Contact, A: 1, B: 2, Ohms: 0.001, Control: 1},
			resistor("load", 2, 0, 0.5))
		require.Equal(t, c.holds, s.Energised[1], c.name)
		require.Equal(t, c.chatter, s.Chatter, c.name)
		require.Equal(t, !c.holds, math.IsNaN(s.Volts[2]) || s.Volts[2] == 0, c.name)
	}
}

func TestBuzzer(t *testing.T) {
	s := solved(t, 3, battery(1, 0, 12, 0.1),
		Element{Name: "contact", Kind: Contact, A: 1, B: 2, Ohms: 0.01, Control: 2, Breaks: true},
		Element{Name: "coil", Kind: Coil, A: 2, B: 0, Ohms: 80, PullIn: 8, DropOut: 3},
		Element{Name: "quiet coil", Kind: Coil, A: 1, B: 0, Ohms: 80, PullIn: 8, DropOut: 3})
	require.Equal(t, []int{2}, s.Chatter)
	require.Equal(t, []bool{false, false, false, true}, s.Energised)
	require.InDelta(t, 12*80/80.11, s.Volts[2], 0.02)
}

// Two relays, each fed through the other's break contact: the first one wins.
func TestLockedOut(t *testing.T) {
	s := solved(t, 4, battery(1, 0, 12, 0.1),
		Element{Name: "a's feed", Kind: Contact, A: 1, B: 2, Ohms: 0.01, Control: 4, Breaks: true},
		Element{Name: "b's feed", Kind: Contact, A: 1, B: 3, Ohms: 0.01, Control: 3, Breaks: true},
		Element{Name: "a", Kind: Coil, A: 2, B: 0, Ohms: 80, PullIn: 8, DropOut: 3},
		Element{Name: "b", Kind: Coil, A: 3, B: 0, Ohms: 80, PullIn: 8, DropOut: 3})
	require.Empty(t, s.Chatter)
	require.True(t, s.Energised[3])
	require.False(t, s.Energised[4])
}

// An alternator, 14.2 V behind 10 milliohm and 50 A at most, on a charged battery,
// 12.6 V behind 10 milliohm, that takes nothing up to 14.2 V.
//
//	1 ohm:    V = 14.2/1.01 = 14.0594 V; the alternator regulates, the battery rests
//	0.26 ohm: 50 A * 0.26 = 13 V; the alternator is at its limit, the battery rests
//	0.2 ohm:  50 + (12.6-V)/0.01 = V/0.2, so V = 1310/105 = 12.476 V; the battery helps
func TestAlternator(t *testing.T) {
	for _, c := range []struct {
		ohms, volts      float64
		machine, battery Form
	}{
		{1, 14.2 / 1.01, IsVoltage, IsOpen},
		{0.26, 13, IsCurrent, IsOpen},
		{0.2, 1310.0 / 105, IsCurrent, IsVoltage},
	} {
		cell := battery(1, 0, 12.6, 0.01)
		cell.Idle = 14.2
		s := solved(t, 2, cell, resistor("load", 1, 0, c.ohms),
			Element{Name: "alternator", Kind: Limited, A: 1, B: 0, Volts: 14.2, Ohms: 0.01, Amps: 50})
		require.InDelta(t, c.volts, s.Volts[1], 1e-11)
		require.Equal(t, c.machine, s.Frozen[2].Form)
		require.Equal(t, c.battery, s.Frozen[0].Form)
	}
	// A second source above the regulated voltage: the alternator takes nothing.
	s := solved(t, 2, battery(1, 0, 15, 0.1), resistor("load", 1, 0, 10),
		Element{Name: "alternator", Kind: Limited, A: 1, B: 0, Volts: 14.2, Ohms: 0.01, Amps: 50})
	require.Zero(t, s.Amps[2])
	require.Equal(t, IsOpen, s.Frozen[2].Form)
	// A flat battery takes all the alternator gives: V = 11.9 + 50*0.01.
	s = solved(t, 2, battery(1, 0, 11.9, 0.01),
		Element{Name: "alternator", Kind: Limited, A: 1, B: 0, Volts: 14.2, Ohms: 0.01, Amps: 50})
	require.InDelta(t, 12.4, s.Volts[1], 1e-12)
	require.InDelta(t, -50, s.Amps[1], 1e-9)
}

// A battery overcharged beyond its resting span takes current: (15-14.2)/(0.1+0.01).
func TestIdleAbove(t *testing.T) {
	cell := battery(1, 0, 12.6, 0.01)
	cell.Idle = 14.2
	s := solved(t, 2, cell, battery(1, 0, 15, 0.1))
	require.InDelta(t, 0.8/0.11, s.Amps[0], 1e-10)
	require.Equal(t, Frozen{Form: IsVoltage, Volts: 14.2, Ohms: 0.01}, s.Frozen[0])
	// With nothing else it holds its own voltage.
	s = solved(t, 2, cell)
	require.InDelta(t, 12.6, s.Volts[1], 1e-9)
}

func TestFloating(t *testing.T) {
	nan := math.NaN()
	for _, c := range []struct {
		name     string
		elements []Element
		volts    []float64
	}{
		{"nothing at all", nil, []float64{0, nan, nan, nan}},
		{"a source of its own", []Element{battery(1, 0, 12, 1), battery(2, 3, 6, 1), resistor("r", 2, 3, 1)}, []float64{0, 12, nan, nan}},
		{"beyond an open contact", []Element{battery(1, 0, 12, 1), {Kind: Contact, A: 1, B: 2, Ohms: 1, Control: -1, Breaks: true}, resistor("r", 2, 3, 1),
			{Kind: Contact, A: 3, B: 0, Ohms: math.Inf(1), Control: -1}}, []float64{0, 12, 12, 12}},
		{"an open resistor", []Element{battery(1, 0, 12, 1), resistor("r", 1, 2, math.Inf(1)), resistor("r", 2, 3, 1)}, []float64{0, 12, nan, nan}},
		{"a load without source", []Element{{Kind: Current, A: 1, B: 0, Amps: 5, Floor: 6}, {Kind: Current, A: 2, B: 3, Amps: 5, Floor: 6}}, []float64{0, 0, nan, nan}},
		{"only constant currents, in balance", []Element{
			{Kind: Limited, A: 1, B: 0, Volts: 14, Ohms: 0.01, Amps: 30}, resistor("r", 1, 2, 0.1), {Kind: Current, A: 2, B: 0, Amps: 30, Floor: 6}}, []float64{0, nan, nan, nan}},
		{"dead end beyond a diode", []Element{battery(1, 0, 12, 1), {Kind: Diode, A: 1, B: 2, Volts: 0.7, Ohms: 0.01}, {Kind: Diode, A: 3, B: 1, Volts: 0.7, Ohms: 0.01}}, []float64{0, 12, 11.3, nan}},
		{"the same below the reference", []Element{battery(0, 1, 12, 1), {Kind: Diode, A: 1, B: 2, Volts: 0.7, Ohms: 0.01}, {Kind: Diode, A: 3, B: 1, Volts: 0.7, Ohms: 0.01}}, []float64{0, -12, nan, -11.3}},
	} {
		t.Run(c.name, func(t *testing.T) {
			s := solved(t, 4, c.elements...)
			require.InDeltaSlice(t, c.volts, s.Volts, 1e-9)
			require.Equal(t, fmt.Sprint(c.volts), fmt.Sprint(rounded(s.Volts)))
		})
	}
}

func rounded(volts []float64) []float64 {
	out := make([]float64, len(volts))
	for i, v := range volts {
		out[i] = math.Round(v*1e6) / 1e6
	}
	return out
}

// A floating island's elements still follow their laws: 6 V over 1+1 ohm, and its relay pulls in.
func TestFloatingIslandWorks(t *testing.T) {
	s := solved(t, 5, battery(1, 0, 12, 1), battery(2, 3, 6, 1), resistor("r", 2, 3, 1),
		Element{Name: "coil", Kind: Coil, A: 2, B: 3, Ohms: 1e6, PullIn: 2, DropOut: 1},
		Element{Name: "contact", Kind: Contact, A: 1, B: 4, Ohms: 1, Control: 3})
	require.InDelta(t, 3, s.Amps[2], 1e-5)
	require.InDelta(t, 12, s.Volts[4], 1e-12)
}

func TestRefused(t *testing.T) {
	for _, c := range []struct {
		element Element
		says    string
	}{
		{resistor("r", 0, 1, 0), "circuit: element r needs a resistance above 0 ohm"},
		{resistor("r", 0, 1, math.NaN()), "circuit: element r needs a resistance above 0 ohm"},
		{resistor("r", 0, 2, 1), "circuit: element r ends on a node that does not exist"},
		{Element{Name: "c", Kind: Contact, A: 0, B: 1, Ohms: 1, Control: 5}, "circuit: contact c follows a coil that does not exist"},
		{Element{Name: "c", Kind: Contact, A: 0, B: 1, Ohms: 1, Control: 0}, "circuit: contact c follows c, which is no coil"},
		{Element{Name: "l", Kind: Lamp, A: 0, B: 1, Amps: 1, AtVolts: 12}, "circuit: load l needs a floor above 0 V"},
		{Element{Name: "k", Kind: Coil, A: 0, B: 1, Ohms: 80}, "circuit: coil k must pull in above 0 V and drop out no higher than that"},
		{Element{Name: "x", Kind: Intake + 1, A: 0, B: 1}, "circuit: element x is of no known kind"},
	} {
		_, err := Solve(Network{Nodes: 2, Elements: []Element{c.element}})
		require.EqualError(t, err, c.says)
	}
	_, err := Solve(Network{Nodes: 2, Reference: 2})
	require.EqualError(t, err, "circuit: the reference node 2 is not one of the 2 nodes")
}
