package circuit

import (
	"fmt"
	"math"
	"math/rand"
	"testing"

	"github.com/stretchr/testify/require"
)

// converter is a battery behind a wire, a converter and a load behind it, all with one
// minus: node 1 the battery, 2 the input, 3 the output.
func converter(volts, wire float64, load Element, limit float64) Network {
	load.A, load.B = 3, 0
	return Network{Nodes: 4, Elements: []Element{
		{Name: "BAT", Kind: Source, A: 1, B: 0, Volts: volts, Ohms: 0.01},
		{Name: "W", Kind: Resistor, A: 1, B: 2, Ohms: wire},
		{Name: "DC", Kind: Limited, A: 3, B: 0, Volts: 13.8, Ohms: 0.001, Amps: limit},
		{Name: "DC.in", Kind: Intake, A: 2, B: 0, Control: 2, Efficiency: 0.88, Standing: 0.5, Floor: 20},
		load,
	}}
}

// By hand: 1.38 ohm at 13.8 V takes 10 A but for the millohm; the input gives 138 W over
// 0.88 and half a watt; its voltage is the greater root of V² - 25.2 V + R P.
func TestConverterByHand(t *testing.T) {
	s, err := Solve(converter(25.2, 0.09, Element{Name: "R", Kind: Resistor, Ohms: 1.38}, 20))
	require.NoError(t, err)
	out := 13.8 * 1.38 / 1.381
	watts := out*out/1.38/0.88 + 0.5
	in := (25.2 + math.Sqrt(25.2*25.2-4*0.1*watts)) / 2
	require.InDelta(t, out, s.Volts[3], 1e-9)
	require.InDelta(t, in, s.Volts[2], 1e-9)
	require.InDelta(t, watts/in, s.Amps[3], 1e-9)
	require.True(t, s.Energised[3])
	require.Less(t, s.Residual, 1e-9)
}

// Beyond its limit the output gives its amperes at whatever voltage the load then has,
// and the input takes the power of that: a short costs little at the input.
func TestConverterInItsLimit(t *testing.T) {
	for ohms, volts := range map[float64]float64{0.5: 10, 0.1: 2, 0.001: 0.02} {
		s, err := Solve(converter(25.2, 0.09, Element{Name: "R", Kind: Resistor, Ohms: ohms}, 20))
		require.NoError(t, err)
		require.InDelta(t, volts, s.Volts[3], 1e-9)
		require.InDelta(t, 20*volts/0.88+0.5, s.Amps[3]*s.Volts[2], 1e-9)
		require.Equal(t, Frozen{Form: IsCurrent, Amps: -20}, s.Frozen[2])
	}
}

// Nothing loaded it takes its standing draw; dead at the input it gives nothing, and so
// it does where the feed cannot hold its lowest voltage: at rest the input would have
// enough, so that a switch by voltage would go on and off without end.
func TestConverterCutOff(t *testing.T) {
	s, err := Solve(converter(25.2, 0.09, Element{Name: "R", Kind: Resistor, Ohms: 1e9}, 20))
	require.NoError(t, err)
	require.InDelta(t, 0.5, s.Amps[3]*s.Volts[2], 1e-6)

	for _, n := range []Network{
		converter(25.2, math.Inf(1), Element{Name: "R", Kind: Resistor, Ohms: 1.38}, 20),
		converter(19.9, 0.01, Element{Name: "R", Kind: Resistor, Ohms: 1.38}, 20),
		converter(25.2, 1.2, Element{Name: "R", Kind: Resistor, Ohms: 1.38}, 20),
	} {
		s, err := Solve(n)
		require.NoError(t, err)
		require.InDelta(t, 0, s.Amps[3], 1e-12)
		require.Zero(t, s.Amps[2])
		require.InDelta(t, 0, s.Volts[3], 1e-12)
		require.False(t, s.Energised[3])
		require.Equal(t, []Form{IsOpen, IsOpen}, []Form{s.Frozen[2].Form, s.Frozen[3].Form})
	}
}

// Two behind one thin wire: with both the voltage is too low, with one it is not.
func TestConvertersShareAFeed(t *testing.T) {
	n := converter(25.2, 0.35, Element{Name: "R", Kind: Resistor, Ohms: 1.38}, 20)
	n.Nodes = 5
	n.Elements = append(n.Elements,
		Element{Name: "DD", Kind: Limited, A: 4, B: 0, Volts: 13.8, Ohms: 0.001, Amps: 20},
		Element{Name: "DD.in", Kind: Intake, A: 2, B: 0, Control: 5, Efficiency: 0.88, Floor: 21},
		resistor("S", 4, 0, 1.38))
	s, err := Solve(n)
	require.NoError(t, err)
	require.True(t, s.Energised[3])
	require.False(t, s.Energised[6], "the one that needs more stops")
	require.Greater(t, s.Volts[2], 21.0, "and what is left would be enough for it alone")
}

// A converter behind a converter, and one whose output is on an island of its own.
func TestConverterChainsAndIslands(t *testing.T) {
	n := converter(25.2, 0.09, Element{Name: "R", Kind: Resistor, Ohms: 1e6}, 20)
	n.Nodes, n.Grounds = 6, []int{5}
	n.Elements = append(n.Elements,
		Element{Name: "DD", Kind: Limited, A: 4, B: 5, Volts: 5, Ohms: 0.001, Amps: 3},
		Element{Name: "DD.in", Kind: Intake, A: 3, B: 0, Control: 5, Efficiency: 0.5, Floor: 8},
		resistor("S", 4, 5, 2.499))
	s, err := Solve(n)
	require.NoError(t, err)
	require.InDelta(t, 2, s.Amps[7], 1e-9)
	second := 5 * 2 * 2.499 / 2.5 / 0.5
	require.InDelta(t, second/s.Volts[3], s.Amps[6], 1e-9)
	require.InDelta(t, (-s.Amps[2]*s.Volts[3])/0.88+0.5, s.Amps[3]*s.Volts[2], 1e-8)
	require.Equal(t, 5, s.Zero[4])

	n.Elements[3].Floor = 30
	s, err = Solve(n)
	require.NoError(t, err)
	require.False(t, s.Energised[6], "what feeds it is dead")
	require.Zero(t, s.Amps[7])
}

// A converter does not feed itself, however its wires lie.
func TestConverterFeedsNotItself(t *testing.T) {
	s, err := Solve(Network{Nodes: 3, Elements: []Element{
		{Name: "DC", Kind: Limited, A: 1, B: 0, Volts: 13.8, Ohms: 0.001, Amps: 20},
		{Name: "DC.in", Kind: Intake, A: 2, B: 0, Control: 0, Efficiency: 0.99, Floor: 8},
		resistor("W", 1, 2, 0.01),
		resistor("R", 1, 0, 100),
	}})
	require.NoError(t, err)
	require.InDelta(t, 0, s.Amps[3], 1e-12)
	require.False(t, s.Energised[1])
}

// Faults: with its input open or shorted it gives nothing; with its output replaced it
// takes its standing draw; afterwards all is as it was.
func TestConverterFaults(t *testing.T) {
	p, err := Prepare(converter(25.2, 0.09, Element{Name: "R", Kind: Resistor, Ohms: 1.38}, 20))
	require.NoError(t, err)
	sound, err := p.Solve()
	require.NoError(t, err)
	f, err := p.Faults()
	require.NoError(t, err)
	for range 2 {
		for _, ohms := range []float64{math.Inf(1), 0.5} {
			s, err := f.Try(Fault{3, ohms})
			require.NoError(t, err)
			require.Zero(t, s.Amps[2])
			require.InDelta(t, 0, s.Volts[3], 1e-12)
		}
		s, err := f.Try(Fault{2, math.Inf(1)})
		require.NoError(t, err)
		require.InDelta(t, 0.5, s.Amps[3]*s.Volts[2], 1e-9)
		s, err = f.Try(Fault{1, 2})
		require.NoError(t, err)
		require.False(t, s.Energised[3])
		s, err = f.Try(Fault{4, 0.3})
		require.NoError(t, err)
		require.InDelta(t, 6, s.Volts[3], 1e-9)
		s, err = f.Try()
		require.NoError(t, err)
		require.InDelta(t, sound.Volts[2], s.Volts[2], 1e-9)
	}
	one, err := p.Faulted(3, math.Inf(1), sound)
	require.NoError(t, err)
	require.Equal(t, IsOpen, one.Frozen[3].Form)
}

// The output's slope carries a small current; the input is as one of constant current.
func TestConverterGains(t *testing.T) {
	p, err := Prepare(converter(25.2, 0.09, Element{Name: "R", Kind: Resistor, Ohms: 1.38}, 20))
	require.NoError(t, err)
	s, err := p.Solve()
	require.NoError(t, err)
	g, err := p.Gains(s)
	require.NoError(t, err)
	require.InDelta(t, 1/(1/0.001+1/1.38), g.Of(3, 0)[3], 1e-12)
	require.InDelta(t, 0.1, g.Of(2, 0)[2], 1e-9)
}

func TestConverterRefused(t *testing.T) {
	for says, change := range map[string]func(*Network){
		"circuit: input DC.in has no output that is limited":        func(n *Network) { n.Elements[3].Control = 0 },
		"circuit: input DC.in needs an efficiency above 0, up to 1": func(n *Network) { n.Elements[3].Efficiency = 1.1 },
		"circuit: input DC.in takes less than nothing":              func(n *Network) { n.Elements[3].Standing = -1 },
		"circuit: load DC.in needs a floor above 0 V":               func(n *Network) { n.Elements[3].Floor = 0 },
		"circuit: inputs DC.in and DC.in have one output":           func(n *Network) { n.Elements = append(n.Elements, n.Elements[3]) },
		"circuit: element DC.in has a value that is no number":      func(n *Network) { n.Elements[3].Standing = math.NaN() },
	} {
		n := converter(25.2, 0.09, Element{Name: "R", Kind: Resistor, Ohms: 1.38}, 20)
		change(&n)
		_, err := Solve(n)
		require.EqualError(t, err, says)
	}
}

// Anything joined to anything, with converters among it: there is a rest, the currents
// balance, and what a converter takes is what it gives over its efficiency.
func TestWildConverters(t *testing.T) {
	working, limited, rounds := 0, 0, 0
	for seed := range 6000 {
		r := rand.New(rand.NewSource(int64(seed)))
		n := wild(r)
		for range 1 + r.Intn(3) {
			out := Element{Name: fmt.Sprint("o", len(n.Elements)), Kind: Limited, A: r.Intn(n.Nodes), B: r.Intn(n.Nodes), Volts: 5 + 25*r.Float64(), Ohms: 0.001 + 0.02*r.Float64(), Amps: float64(r.Intn(60)), Control: -1}
			in := Element{Name: fmt.Sprint("i", len(n.Elements)), Kind: Intake, A: r.Intn(n.Nodes), B: r.Intn(n.Nodes), Control: len(n.Elements), Efficiency: 0.8 + 0.2*r.Float64(), Standing: r.Float64(), Floor: 3 + 7*r.Float64()}
			n.Elements = append(n.Elements, out, in)
		}
		s, err := Solve(n)
		require.NoError(t, err, "seed %d", seed)
		require.Less(t, s.Residual, 1e-6, "seed %d", seed)
		rounds = max(rounds, s.Rounds)
		for i, e := range n.Elements {
			if e.Kind != Intake || !s.Energised[i] {
				continue
			}
			o := n.Elements[e.Control]
			if s.Zero[e.A] < 0 || s.Zero[o.A] < 0 || s.Zero[e.A] != s.Zero[e.B] || s.Zero[o.A] != s.Zero[o.B] {
				continue // no voltage between them is known
			}
			working++
			given := math.Max(0, -s.Amps[e.Control]*(s.Volts[o.A]-s.Volts[o.B]))
			require.InDelta(t, given/e.Efficiency+e.Standing, s.Amps[i]*(s.Volts[e.A]-s.Volts[e.B]), 1e-5, "seed %d", seed)
			if given > 0 && -s.Amps[e.Control] == o.Amps {
				limited++
			}
		}
	}
	require.Greater(t, working, 300)
	require.Greater(t, limited, 30)
	t.Log("working", working, "in their limit", limited, "most rounds", rounds)
}
