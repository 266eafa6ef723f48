package circuit_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/sizing/circuit"
	"example.com/loomfolio/sizing/network/spicecheck"
)

// dcdc is a converter written as a simulator's subcircuit of sources that follow
// formulas (B): the output gives what brings it to its voltage behind a small resistance,
// never more than its limit, and nothing below the lowest input; a source of 0 V measures
// that current, and the input takes its power over the efficiency, and the standing draw.
const dcdc = `.subckt dcdc ip in op on vset=12 ro=1m lim=20 eta=0.9 pst=0 vmin=10
Vm x op 0
Bo on x I = V(ip,in) > vmin ? min(lim, max(0, (vset - V(op,on))/ro)) : 0
Bi ip in I = V(ip,in) > vmin ? (V(op,on)*I(Vm)/eta + pst)/max(V(ip,in), 0.1) : 0
.ends
`

// setting is a converter between a battery and a load at an operating point.
type setting struct {
	emf, wire                     float64 // the feed
	volts, limit, eta, pst, least float64 // the converter
	load                          float64 // ohm
	battery                       float64 // EMF beside the load behind 8 milliohm, 0 for none
	ground                        float64 // ohm that input and output share to the battery, 0 for none: isolated, the output's minus on its own
}

func (c setting) network() circuit.Network {
	n := circuit.Network{Nodes: 5, Grounds: []int{4}, Elements: []circuit.Element{
		{Name: "BAT", Kind: circuit.Source, A: 1, B: 0, Volts: c.emf, Ohms: 0.02},
		{Name: "W", Kind: circuit.Resistor, A: 1, B: 2, Ohms: c.wire},
		{Name: "OUT", Kind: circuit.Limited, A: 3, B: 4, Volts: c.volts, Ohms: 0.004, Amps: c.limit},
		{Name: "IN", Kind: circuit.Intake, A: 2, B: 4, Control: 2, Efficiency: c.eta, Standing: c.pst, Floor: c.least},
		{Name: "LOAD", Kind: circuit.Resistor, A: 3, B: 4, Ohms: c.load},
	}}
	if c.ground > 0 {
		n.Elements = append(n.Elements, circuit.Element{Name: "G", Kind: circuit.Resistor, A: 4, B: 0, Ohms: c.ground})
	} else {
		n.Elements[3].B = 0
	}
	if c.battery > 0 {
		n.Elements = append(n.Elements, circuit.Element{Name: "HOUSE", Kind: circuit.Source, A: 3, B: 4, Volts: c.battery, Ohms: 0.008})
	}
	return n
}

// netlist has the same with the subcircuit; node 4 is 0 where the sides are parted.
func (c setting) netlist() []byte {
	var b strings.Builder
	minus := 4
	if c.ground == 0 {
		minus = 0
	}
	fmt.Fprintf(&b, "converter\n%s", dcdc)
	fmt.Fprintf(&b, "V1 11 0 %g\nR1 11 1 0.02\nR2 1 2 %g\n", c.emf, c.wire)
	fmt.Fprintf(&b, "X1 2 %d 3 %d dcdc vset=%g ro=0.004 lim=%g eta=%g pst=%g vmin=%g\n", minus, minus, c.volts, c.limit, c.eta, c.pst, c.least)
	fmt.Fprintf(&b, "R3 3 %d %g\n", minus, c.load)
	if c.ground > 0 {
		fmt.Fprintf(&b, "R4 4 0 %g\n", c.ground)
	}
	if c.battery > 0 {
		fmt.Fprintf(&b, "V5 13 %d %g\nR5 13 3 0.008\n", minus, c.battery)
	}
	given := min(c.limit, c.volts/(c.load+0.004)) // where to begin, not an answer
	fmt.Fprintf(&b, ".nodeset V(1)=%g V(2)=%g V(3)=%g V(4)=0\n", c.emf, c.emf-0.1, max(c.battery, given*c.load))
	b.WriteString(".options reltol=1e-9 abstol=1e-12 vntol=1e-12 gmin=1e-15 itl1=2000 noacct\n.control\nset numdgt=15\nop\nprint all\nquit\n.endc\n.end\n")
	return []byte(b.String())
}

// TestConverterBesideSpice compares 120 operating points, in the limit and out of it,
// down and up, charging a battery, cut off, with one minus or two.
func TestConverterBesideSpice(t *testing.T) {
	spicecheck.Need(t)
	var points []setting
	for _, feed := range []float64{24.6, 28.2, 20.5} {
		for _, load := range []float64{100, 3, 1, 0.6, 0.2, 0.02} {
			for _, ground := range []float64{0, 0.005} {
				points = append(points, setting{emf: feed, wire: 0.03, volts: 13.8, limit: 20, eta: 0.88, pst: 0.7, least: 21, load: load, ground: ground})
			}
		}
	}
	for _, feed := range []float64{12.2, 13.4, 14.2, 11.9, 9.8} {
		for _, battery := range []float64{11.9, 12.6, 14.5} {
			for _, load := range []float64{50, 0.7} {
				for _, ground := range []float64{0, 0.002} {
					points = append(points, setting{emf: feed, wire: 0.008, volts: 14.4, limit: 30, eta: 0.9, pst: 0.3, least: 10.5, load: load, battery: battery, ground: ground})
				}
			}
		}
	}
	for _, eta := range []float64{0.7, 0.95, 1} {
		for _, load := range []float64{40, 6, 2.1, 1} {
			points = append(points, setting{emf: 12.6, wire: 0.05, volts: 24, limit: 11, eta: eta, least: 9, load: load, ground: 0.01},
				setting{emf: 48, wire: 0.05, volts: 12, limit: 25, eta: eta, pst: 2, least: 40, load: load / 4})
		}
	}
	require.GreaterOrEqual(t, len(points), 120)
	netlists := make([][]byte, len(points))
	for i, c := range points {
		netlists[i] = c.netlist()
	}
	got, err := spicecheck.RunAll(t.TempDir(), netlists)
	require.NoError(t, err)
	cut, limited := 0, 0
	for i, c := range points {
		s, err := circuit.Solve(c.network())
		require.NoError(t, err)
		if !s.Energised[3] {
			cut++
		}
		if s.Amps[2] == -c.limit {
			limited++
		}
		for node := 1; node <= 3; node++ {
			volts, want := s.Volts[node], got[i][node]
			require.LessOrEqual(t, math.Abs(volts-want), 1e-5*math.Abs(want)+1e-8, "%+v node %d: %.9g V, by ngspice %.9g V", c, node, volts, want)
		}
	}
	t.Log(len(points), "points,", limited, "in the limit,", cut, "cut off")
	require.Greater(t, cut, 5)
	require.Greater(t, limited, 15)
}
