package network_test

import (
	"bytes"
	"fmt"
	"math"
	"math/rand"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/network"
	"example.com/loomfolio/sizing/network/spicecheck"
)

// bench builds small harnesses by hand: parts come to be with their terminals.
type bench struct {
	*harness.Harness
	ohms []float64
}

func newBench() *bench {
	h := &harness.Harness{System: harness.System{Volts: 12, Running: 14.2}}
	h.Terminals = []harness.Terminal{{Part: harness.None, Full: "chassis"}}
	h.Circuits = []harness.Circuit{{}}
	return &bench{Harness: h}
}

// at gives the terminal called "PART.name", made where it is new.
func (b *bench) at(full string) harness.TerminalID {
	if full == "chassis" {
		return harness.Chassis
	}
	for _, t := range b.Terminals {
		if t.Full == full {
			return t.ID
		}
	}
	ref, name, _ := strings.Cut(full, ".")
	p := b.part(ref)
	t := harness.Terminal{ID: harness.TerminalID(len(b.Terminals)), Part: p.ID, Name: name, Full: full}
	b.Terminals = append(b.Terminals, t)
	p.Terminals = append(p.Terminals, t.ID)
	return t.ID
}

func (b *bench) part(ref string) *harness.Part {
	for i := range b.Parts {
		if b.Parts[i].Ref == ref {
			return &b.Parts[i]
		}
	}
	b.Parts = append(b.Parts, harness.Part{ID: harness.PartID(len(b.Parts)), Ref: ref, Kind: harness.Module, Place: harness.None})
	return &b.Parts[len(b.Parts)-1]
}

func (b *bench) element(name, from, to string, e harness.Element) harness.ElementID {
	e.A, e.B = b.at(from), b.at(to)
	e.ID, e.Name, e.Part = harness.ElementID(len(b.Elements)), name, b.Terminals[max(e.A, e.B)].Part
	b.Elements = append(b.Elements, e)
	return e.ID
}

func (b *bench) wire(name, from, to string, ohms float64) harness.WireID {
	w := harness.Wire{ID: harness.WireID(len(b.Wires)), Name: name, From: b.at(from), To: b.at(to)}
	b.Wires = append(b.Wires, w)
	b.ohms = append(b.ohms, ohms)
	return w.ID
}

func (b *bench) state(name string, engine harness.Engine, positions map[string]int) int {
	s := harness.State{Name: name, Engine: engine, Position: make([]int, len(b.Parts))}
	for i, p := range b.Parts {
		s.Position[i] = positions[p.Ref]
	}
	b.States = append(b.States, s)
	return len(b.States) - 1
}

func (b *bench) solve(t testing.TB, state int, o network.Options) network.State {
	t.Helper()
	require.NoError(t, b.Verify())
	s, err := network.Solve(b.Harness, state, network.Resistances{Wires: b.ohms}, o)
	require.NoError(t, err)
	require.Less(t, s.Residual, 1e-9)
	return s
}

// batteries lists all of them.
func (b *bench) batteries() []harness.ElementID {
	var out []harness.ElementID
	for _, e := range b.Elements {
		if e.Kind == harness.EMF {
			out = append(out, e.ID)
		}
	}
	return out
}

// flatWhere gives options with every battery flat, or none.
func (b *bench) flatWhere(flat bool) network.Options {
	if !flat {
		return network.Options{}
	}
	return network.Options{Flat: b.batteries()}
}

func (b *bench) volts(s network.State, terminal string) float64 { return s.Volts[b.at(terminal)] }

func on(switchPart harness.PartID, positions ...int) harness.Condition {
	return harness.Condition{Kind: harness.InPosition, Switch: switchPart, Positions: positions}
}

// fan is a fan behind a relay: battery, fuse, relay, fan, ground; the switch feeds the coil.
func fan() *bench {
	b := newBench()
	b.element("BAT", "BAT.+", "BAT.-", harness.Element{Kind: harness.EMF, Volts: 12.6, Ohms: 0.01})
	b.element("BAT.lead", "BAT.-", "chassis", harness.Element{Kind: harness.Resistance, Ohms: 0.001})
	b.element("ALT", "ALT.B+", "ALT.case", harness.Element{Kind: harness.Charger, Volts: 14.2, Ohms: 0.001, Amps: 45,
		When: harness.Condition{Kind: harness.EngineIs, Engines: []harness.Engine{harness.EngineRunning}}})
	b.element("ALT.block", "ALT.case", "chassis", harness.Element{Kind: harness.Join})
	b.element("F1", "F1.1", "F1.2", harness.Element{Kind: harness.FuseLink})
	coil := b.element("K1.coil", "K1.86", "K1.85", harness.Element{Kind: harness.RelayCoil, Ohms: 80, PullIn: 8, DropOut: 1.2})
	b.element("K1.30-87", "K1.30", "K1.87", harness.Element{Kind: harness.Contact, When: harness.Condition{Kind: harness.Energised, Coil: coil}})
	sw := b.part("SW1").ID
	b.element("SW1.1-2", "SW1.1", "SW1.2", harness.Element{Kind: harness.Join, When: on(sw, 1)})
	b.element("FAN", "FAN.+", "FAN.-", harness.Element{Kind: harness.Load, Behaves: harness.AsMotor, Amps: 20, AtVolts: 14.2, Floor: 6})
	b.element("G1", "G1", "chassis", harness.Element{Kind: harness.Join})
	b.wire("12A", "BAT.+", "F1.1", 0.004)
	b.wire("12B", "F1.2", "K1.30", 0.01)
	b.wire("12C", "K1.87", "FAN.+", 0.008)
	b.wire("12N", "FAN.-", "G1", 0.003)
	b.wire("13A", "F1.2", "SW1.1", 0.05)
	b.wire("13B", "SW1.2", "K1.86", 0.05)
	b.wire("13N", "K1.85", "G1", 0.05)
	b.wire("1A", "ALT.B+", "BAT.+", 0.005)
	b.state("parked", harness.EngineOff, nil)
	b.state("fan", harness.EngineOff, map[string]int{"SW1": 1})
	b.state("driving", harness.EngineRunning, map[string]int{"SW1": 1})
	return b
}

// With the relay in, 20 A run through 12.6 V - (battery 0.01 + 12A 0.004 + fuse 0.005) with the
// coil's current as well, then 12B, contact 0.002 and 12C; the return is 12N and the battery's lead.
// The coil: I = V(F1.2) - V(G1) over 80.15 ohm.
//
//	V(G1) = (20+I)*0.001,  V(F1.2) = 12.6 - (20+I)*0.019,  so I = (12.6 - 20*0.02)/(80.15 + 0.02)
func TestFan(t *testing.T) {
	b := fan()
	s := b.solve(t, 1, network.Options{})
	coil := 12.2 / 80.17
	all := 20 + coil
	require.Zero(t, b.volts(s, "BAT.-"))
	require.InDelta(t, 12.6-all*0.01, b.volts(s, "BAT.+"), 1e-10)
	require.InDelta(t, 12.6-all*0.019, b.volts(s, "F1.2"), 1e-10)
	require.InDelta(t, 12.6-all*0.019-20*0.020, b.volts(s, "FAN.+"), 1e-10)
	require.InDelta(t, all*0.001+20*0.003, b.volts(s, "FAN.-"), 1e-10)
	require.InDelta(t, b.volts(s, "chassis"), b.volts(s, "ALT.case"), 0)
	require.InDeltaSlice(t, []float64{all, 20, 20, 20, coil, coil, coil, 0}, s.WireAmps, 1e-8)
	require.InDelta(t, -all, s.Amps[0], 1e-8)
	require.True(t, s.Energised[5])
	require.InDelta(t, coil, s.Amps[7], 1e-8, "through the switch, which is a join")
	require.InDelta(t, all, s.Amps[9], 1e-8, "through the ground, which is a join")
	require.Equal(t, -1, s.ElementAt[2], "the alternator stands still")
	require.Equal(t, "chassis", s.NodeNames[s.Of[b.at("G1")]])
	require.Equal(t, "SW1.1", s.NodeNames[s.Of[b.at("SW1.2")]])
	require.Equal(t, network.Printed{Name: "FAN", Kind: "current", A: "FAN.+", B: "FAN.-", Value: 20, Note: "module"}, s.Elements[s.ElementAt[8]])
}

func TestParked(t *testing.T) {
	b := fan()
	s := b.solve(t, 0, network.Options{})
	for _, floats := range []string{"SW1.2", "K1.86"} {
		require.InDelta(t, 0, b.volts(s, floats), 1e-12, "held by the coil to ground: %s", floats)
	}
	require.InDelta(t, 12.6, b.volts(s, "K1.30"), 1e-9)
	require.InDelta(t, 0, b.volts(s, "K1.87"), 1e-9, "held by the motor to ground")
	require.Equal(t, "open", s.Elements[s.ElementAt[6]].Kind)
	// A broken return leaves the fan's side of the contact floating.
	b.ohms[3] = math.Inf(1)
	s = b.solve(t, 0, network.Options{})
	require.True(t, math.IsNaN(b.volts(s, "FAN.+")))
	require.True(t, math.IsNaN(b.volts(s, "K1.87")))
}

func TestDriving(t *testing.T) {
	b := fan()
	s := b.solve(t, 2, network.Options{})
	require.Zero(t, s.Amps[0], "the charged battery rests")
	require.InDelta(t, -20.17, s.Amps[2], 0.02)
	s = b.solve(t, 2, network.Options{Flat: b.batteries()})
	require.InDelta(t, -45, s.Amps[2], 1e-8, "a flat battery takes what the alternator gives")
	require.InDelta(t, 45-20.15, s.Amps[0], 0.02)
}

// In a positive-earth vehicle the plus is the reference and all else lies below.
func TestPositiveEarth(t *testing.T) {
	b := newBench()
	b.System.PositiveEarth = true
	b.element("BAT", "BAT.+", "BAT.-", harness.Element{Kind: harness.EMF, Volts: 12.6, Ohms: 0.1})
	b.element("BAT.lead", "BAT.+", "chassis", harness.Element{Kind: harness.Join})
	b.element("HORN", "HORN.+", "HORN.-", harness.Element{Kind: harness.Load, Behaves: harness.AsResistance, Amps: 6, AtVolts: 12})
	b.element("HORN.case", "HORN.+", "chassis", harness.Element{Kind: harness.Join})
	b.wire("1A", "HORN.-", "BAT.-", 0.5)
	b.state("on", harness.EngineOff, nil)
	s := b.solve(t, 0, network.Options{})
	require.Zero(t, b.volts(s, "BAT.+"))
	require.InDelta(t, -12.6+12.6/2.6*0.1, b.volts(s, "BAT.-"), 1e-12)
	require.InDelta(t, 12.6/2.6, s.WireAmps[0], 1e-12)
	require.InDelta(t, -12.6/2.6, s.Amps[3], 1e-12, "from the chassis into the case")
}

// A starter: the motor follows its solenoid, and so does a join in a module.
func TestFollowers(t *testing.T) {
	b := newBench()
	sw := b.part("IGN").ID
	b.element("BAT", "BAT.+", "BAT.-", harness.Element{Kind: harness.EMF, Volts: 12.6, Ohms: 0.006})
	b.element("IGN.30-50", "IGN.30", "IGN.50", harness.Element{Kind: harness.Contact, When: on(sw, 1)})
	coil := b.element("M1.solenoid", "M1.50", "M1.case", harness.Element{Kind: harness.RelayCoil, Ohms: 1})
	b.element("M1", "M1.30", "M1.case", harness.Element{Kind: harness.Load, Behaves: harness.AsMotor, Amps: 200, Floor: 4,
		When: harness.Condition{Kind: harness.Energised, Coil: coil}})
	b.element("X.a-b", "X.a", "X.b", harness.Element{Kind: harness.Join, When: harness.Condition{Kind: harness.Released, Coil: coil}})
	b.wire("1A", "BAT.+", "M1.30", 0.001)
	b.wire("1N", "M1.case", "BAT.-", 0.001)
	b.wire("2A", "BAT.+", "IGN.30", 0.01)
	b.wire("2B", "IGN.50", "M1.50", 0.01)
	b.wire("3A", "BAT.+", "X.a", 0.01)
	b.state("rest", harness.EngineOff, nil)
	b.state("start", harness.EngineCranking, map[string]int{"IGN": 1})
	rest, start := b.solve(t, 0, network.Options{}), b.solve(t, 1, network.Options{})
	require.Zero(t, rest.Amps[3])
	require.InDelta(t, 200, start.Amps[3], 1e-9)
	require.InDelta(t, 200, start.WireAmps[0], 1e-6)
	require.True(t, start.Energised[coil])
	require.InDelta(t, 12.6, b.volts(rest, "X.b"), 1e-9)
	require.True(t, math.IsNaN(b.volts(start, "X.b")))
	require.Contains(t, start.NodeNames, "M1.inside")
	spicecheck.Compare(t, b.Harness, start)
}

func TestBuzzer(t *testing.T) {
	b := newBench()
	b.element("BAT", "BAT.+", "BAT.-", harness.Element{Kind: harness.EMF, Volts: 12.6})
	coil := b.element("K1.coil", "K1.86", "K1.85", harness.Element{Kind: harness.RelayCoil, Ohms: 80})
	b.element("K1.30-87a", "K1.30", "K1.87a", harness.Element{Kind: harness.Contact, When: harness.Condition{Kind: harness.Released, Coil: coil}})
	b.wire("1A", "BAT.+", "K1.30", 0.01)
	b.wire("1B", "K1.87a", "K1.86", 0.01)
	b.wire("1N", "K1.85", "BAT.-", 0.01)
	b.state("on", harness.EngineOff, nil)
	s := b.solve(t, 0, network.Options{})
	require.Equal(t, []harness.ElementID{coil}, s.Chatter)
	require.False(t, s.Energised[coil])
}

func TestRefused(t *testing.T) {
	b := fan()
	for _, c := range []struct {
		state int
		r     network.Resistances
		says  string
	}{
		{9, network.Resistances{Wires: b.ohms}, "network: there is no state 9"},
		{0, network.Resistances{}, "network: 0 resistances for 8 wires"},
		{0, network.Resistances{Wires: b.ohms, Links: []float64{1}}, "network: 1 link resistances for 10 elements"},
		{0, network.Resistances{Wires: make([]float64, 8)}, "network: wire 12A needs a resistance above 0 ohm, not 0"},
	} {
		_, err := network.Solve(b.Harness, c.state, c.r, network.Options{})
		require.EqualError(t, err, c.says)
	}
	b.Elements[5].Ohms = 0
	_, err := network.Solve(b.Harness, 0, network.Resistances{Wires: b.ohms}, network.Options{})
	require.EqualError(t, err, "state parked: circuit: element K1.coil needs a resistance above 0 ohm")
}

// Link resistances take the place of an element's own, and may open it.
func TestLinks(t *testing.T) {
	b := fan()
	links := make([]float64, len(b.Elements))
	links[4] = 0.05
	s, err := network.Solve(b.Harness, 1, network.Resistances{Wires: b.ohms, Links: links}, network.Options{})
	require.NoError(t, err)
	require.InDelta(t, 20.15*0.05, b.volts(s, "F1.1")-b.volts(s, "F1.2"), 0.001)
	links[4] = math.Inf(1)
	s, err = network.Solve(b.Harness, 1, network.Resistances{Wires: b.ohms, Links: links}, network.Options{})
	require.NoError(t, err)
	require.Zero(t, s.WireAmps[0])
	require.False(t, s.Energised[5])
}

func TestNetlist(t *testing.T) {
	b := fan()
	b.Info.Title = "Fan\nand relay"
	var text bytes.Buffer
	require.NoError(t, network.Netlist(&text, b.Harness, b.solve(t, 1, network.Options{})))
	lines := strings.Split(text.String(), "\n")
	require.Equal(t, "Fan and relay, state fan: solved network, each element as it stands", lines[0])
	for _, want := range []string{
		"* node 0: BAT.-", "* node 1: chassis, ALT.case, G1", "* 12A (wire)", "R0_12A 2 4 0.0040000000000000001",
		"* BAT (battery)", "R8_BAT 2 x8 0.01", "V8_BAT x8 0 DC 12.6", "* FAN (module)", "I13_FAN 11 12 DC 20", ".end",
	} {
		require.Contains(t, lines, want, text.String())
	}
	b.ohms[3] = math.Inf(1)
	text.Reset()
	require.NoError(t, network.Netlist(&text, b.Harness, b.solve(t, 0, network.Options{})))
	require.Contains(t, text.String(), "* floating, left out: FAN.+")
}

func TestFanBySpice(t *testing.T) {
	b := fan()
	for state := range b.States {
		spicecheck.Compare(t, b.Harness, b.solve(t, state, network.Options{}))
		spicecheck.Compare(t, b.Harness, b.solve(t, state, network.Options{Flat: b.batteries()}))
	}
}

// The comparison must not be blind: a voltage moved by a tenth of a millivolt is found.
func TestSpiceFindsFaults(t *testing.T) {
	spicecheck.Need(t)
	b := fan()
	s := b.solve(t, 1, network.Options{})
	s.Solution.Volts[s.Of[b.at("FAN.+")]] += 1e-4
	found, err := spicecheck.Differences(t.TempDir(), b.Harness, s)
	require.NoError(t, err)
	require.Len(t, found, 1)
	require.Contains(t, found[0], "node 11, FAN.+, is at")
}

// The currents through joins, too, must sum to nothing at each terminal.
func TestJoinsBalance(t *testing.T) {
	b := vehicle(rand.New(rand.NewSource(3)), 80)
	b.States = nil
	for _, pair := range [][2]string{{"S.1", "S.2"}, {"S.2", "S.3"}, {"S.3", "S.1"}, {"S.3", "S.4"}} {
		b.element("S"+pair[0]+pair[1], pair[0], pair[1], harness.Element{Kind: harness.Join})
	}
	for i := range 4 {
		b.wire(fmt.Sprint("S", i), fmt.Sprint("S.", i+1), fmt.Sprint("L", i, ".+"), 0.01)
	}
	on := map[string]int{}
	for i := range b.Parts {
		on[b.Parts[i].Ref] = 1
	}
	b.state("off", harness.EngineOff, nil)
	b.state("on", harness.EngineRunning, on)
	for state := range b.States {
		s := b.solve(t, state, network.Options{})
		into := make([]float64, len(b.Terminals))
		for i, w := range b.Wires {
			into[w.From] -= s.WireAmps[i]
			into[w.To] += s.WireAmps[i]
		}
		for i, e := range b.Elements {
			into[e.A] -= s.Amps[i]
			into[e.B] += s.Amps[i]
		}
		require.InDeltaSlice(t, make([]float64, len(into)), into, 1e-9)
	}
}
