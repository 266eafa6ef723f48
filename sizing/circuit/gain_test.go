package circuit

import (
	"testing"

	"github.com/stretchr/testify/require"
)

// TestGainsAreTheSlopesOfTheAnswer: how voltages follow a resistance, by the adjoint
// network, is what solving twice with a little more and a little less gives: a lamp and a
// motor behind a fuse, with a diode and a coil.
func TestGainsAreTheSlopesOfTheAnswer(t *testing.T) {
	n := Network{Nodes: 5, Elements: []Element{
		{Name: "B", Kind: Source, A: 1, B: 0, Volts: 12.6, Ohms: 0.01, Control: -1},
		{Name: "F", Kind: Resistor, A: 1, B: 2, Ohms: 0.05, Control: -1},
		{Name: "L", Kind: Lamp, A: 2, B: 3, Amps: 4, AtVolts: 12, Floor: 1, Control: -1},
		{Name: "M", Kind: Current, A: 2, B: 3, Amps: 6, Floor: 6, Control: -1},
		{Name: "G", Kind: Resistor, A: 3, B: 0, Ohms: 0.03, Control: -1},
		{Name: "D", Kind: Diode, A: 2, B: 4, Volts: 0.7, Ohms: 0.1, Control: -1},
		{Name: "K", Kind: Coil, A: 4, B: 3, Ohms: 80, PullIn: 8, DropOut: 1, Control: -1},
	}}
	p, err := Prepare(n)
	require.NoError(t, err)
	s, err := p.Solve()
	require.NoError(t, err)
	g, err := p.Gains(s)
	require.NoError(t, err)
	for node := 1; node < n.Nodes; node++ {
		z := append([]float64(nil), g.Of(node, 0)...)
		for _, i := range []int{0, 1, 4, 5, 6} {
			e := n.Elements[i]
			want := s.Amps[i] / e.Ohms * (z[e.A] - z[e.B])
			step := e.Ohms * 1e-4
			volts := func(ohms float64) float64 {
				m := n
				m.Elements = append([]Element(nil), n.Elements...)
				m.Elements[i].Ohms = ohms
				out, err := Solve(m)
				require.NoError(t, err)
				return out.Volts[node]
			}
			got := (volts(e.Ohms+step) - volts(e.Ohms-step)) / (2 * step)
			require.InDeltaf(t, want, got, 1e-4*max(1e-3, abs(want)), "node %d by %s", node, e.Name)
		}
	}
	require.True(t, g.Joined(4, 0))
	require.NoError(t, g.Open(5, 6))
	require.False(t, g.Joined(4, 0), "nothing else joins it")
	require.NoError(t, g.Open())
	require.True(t, g.Joined(4, 0))
}

func abs(x float64) float64 { return max(x, -x) }
