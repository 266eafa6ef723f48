package circuit

import (
	"fmt"
	"math"
	"math/rand"
	"testing"

	"github.com/stretchr/testify/require"
)

// tangle makes a connected network of resistors and sources, of about twice as
// many elements as nodes, whose ohms span six decades.
func tangle(r *rand.Rand, nodes int) Network {
	n := Network{Nodes: nodes, Reference: r.Intn(nodes)}
	ohms := func() float64 { return math.Pow(10, r.Float64()*6-3) }
	add := func(a, b int) {
		e := resistor(fmt.Sprint("e", len(n.Elements)), a, b, ohms())
		if r.Intn(6) == 0 {
			e.Kind, e.Volts = Source, 24*r.Float64()-6
		}
		n.Elements = append(n.Elements, e)
	}
	for i := 1; i < nodes; i++ {
		add(i, r.Intn(i))
	}
	for range nodes {
		add(r.Intn(nodes), r.Intn(nodes))
	}
	return n
}

// vehicle makes a network that looks like a car's: a battery and an alternator,
// a feed tree of wires, relays, diodes, loads of every kind, returns to one chassis.
func vehicle(r *rand.Rand, elements int) Network {
	n := Network{Nodes: 3}
	node := func() int { n.Nodes++; return n.Nodes - 1 }
	add := func(e Element) int {
		e.Name = fmt.Sprint("e", len(n.Elements))
		n.Elements = append(n.Elements, e)
		return len(n.Elements) - 1
	}
	wire := func(a, b int) { add(resistor("", a, b, 0.001+0.05*r.Float64())) }
	add(Element{Kind: Source, A: 1, B: 0, Volts: 12.6, Ohms: 0.008, Idle: 14.2})
	add(Element{Kind: Limited, A: 1, B: 2, Volts: 14.2, Ohms: 0.002, Amps: 40 + 60*r.Float64()})
	wire(2, 0) // the chassis strap
	feeds := []int{1}
	for len(n.Elements) < elements {
		at := node()
		wire(feeds[r.Intn(len(feeds))], at)
		feeds = append(feeds, at)
		switch r.Intn(4) {
		case 0: // through a relay
			from, coil := at, add(Element{Kind: Coil, A: feeds[r.Intn(len(feeds))], B: 2, Ohms: 80, PullIn: 8, DropOut: 3})
			at = node()
			add(Element{Kind: Contact, A: from, B: at, Ohms: 0.005, Control: coil, Breaks: r.Intn(3) == 0})
		case 1: // through a diode, or into one
			from := at
			at = node()
			if r.Intn(5) == 0 {
				from, at = at, from
			}
			add(Element{Kind: Diode, A: from, B: at, Volts: 0.7, Ohms: 0.01})
		}
		back := node()
		wire(back, 2)
		amps := 10 * math.Pow(r.Float64(), 3)
		switch r.Intn(4) {
		case 0:
			add(resistor("", at, back, 12/(amps+0.01)))
		case 1:
			add(Element{Kind: Current, A: at, B: back, Amps: amps, Floor: 6})
		case 2:
			add(Element{Kind: Lamp, A: at, B: back, Amps: amps, AtVolts: 13.5, Floor: 1})
		}
	}
	return n
}

// dense solves the frozen network by elimination with pivoting on a full matrix.
func dense(n Network, s Solution) []float64 {
	a := make([][]float64, n.Nodes)
	for i := range a {
		a[i] = make([]float64, n.Nodes+1)
		if i == n.Reference || math.IsNaN(s.Volts[i]) {
			a[i][i] = 1
		}
	}
	stamp := func(row, other int, g, amps float64) {
		if row != n.Reference && !math.IsNaN(s.Volts[row]) {
			a[row][row] += g
			a[row][other] -= g
			a[row][n.Nodes] += amps
		}
	}
	for i, e := range n.Elements {
		f := s.Frozen[i]
		g, amps := 0.0, 0.0
		switch f.Form {
		case IsResistance:
			g = 1 / f.Ohms
		case IsCurrent:
			amps = f.Amps
		case IsVoltage:
			g, amps = 1/f.Ohms, -f.Volts/f.Ohms
		}
		stamp(e.A, e.B, g, -amps)
		stamp(e.B, e.A, g, amps)
	}
	return eliminate(a)
}

func eliminate(a [][]float64) []float64 {
	n := len(a)
	for k := range n {
		best := k
		for i := k; i < n; i++ {
			if math.Abs(a[i][k]) > math.Abs(a[best][k]) {
				best = i
			}
		}
		a[k], a[best] = a[best], a[k]
		for i := k + 1; i < n; i++ {
			if f := a[i][k] / a[k][k]; f != 0 {
				for j := k; j <= n; j++ {
					a[i][j] -= f * a[k][j]
				}
			}
		}
	}
	x := make([]float64, n)
	for i := n - 1; i >= 0; i-- {
		x[i] = a[i][n]
		for j := i + 1; j < n; j++ {
			x[i] -= a[i][j] * x[j]
		}
		x[i] /= a[i][i]
	}
	return x
}

func requireDense(t *testing.T, n Network, s Solution) {
	t.Helper()
	want := dense(n, s)
	for i, v := range s.Volts {
		if !math.IsNaN(v) {
			require.InDelta(t, want[i], v, 1e-9*math.Max(1, math.Abs(v)), "node %d", i)
		}
	}
}

func TestSparseAgainstDense(t *testing.T) {
	for seed, nodes := range []int{10, 11, 15, 20, 30, 40, 60, 80, 100, 150, 200, 300} {
		n := tangle(rand.New(rand.NewSource(int64(seed))), nodes)
		s, err := Solve(n)
		require.NoError(t, err)
		require.Less(t, s.Residual, 1e-10)
		requireDense(t, n, s)
	}
}

func TestVehicles(t *testing.T) {
	most := 0
	for seed := range 300 {
		n := vehicle(rand.New(rand.NewSource(int64(seed))), 10+seed)
		s, err := Solve(n)
		require.NoError(t, err, "seed %d", seed)
		require.Less(t, s.Residual, 1e-10, "seed %d", seed)
		most = max(most, s.Rounds)
		if seed%10 == 0 {
			requireDense(t, n, s)
		}
		again, err := Solve(n)
		require.NoError(t, err)
		require.Equal(t, fmt.Sprint(s), fmt.Sprint(again))
	}
	t.Log("most rounds", most)
}

// The answer does not hang on which way round or in which order elements stand.
func TestOrderDoesNotMatter(t *testing.T) {
	for seed := range 30 {
		r := rand.New(rand.NewSource(int64(seed)))
		n := vehicle(r, 80)
		s, err := Solve(n)
		require.NoError(t, err)
		turned := Network{Nodes: n.Nodes, Elements: make([]Element, len(n.Elements))}
		order := r.Perm(len(n.Elements))
		for i, e := range n.Elements {
			if e.Kind == Contact {
				e.Control = order[e.Control]
			}
			if e.Kind == Resistor || e.Kind == Coil || e.Kind == Contact || e.Kind == Lamp {
				e.A, e.B = e.B, e.A
			}
			turned.Elements[order[i]] = e
		}
		other, err := Solve(turned)
		require.NoError(t, err)
		if len(s.Chatter) == 0 && len(other.Chatter) == 0 {
			require.InDeltaSlice(t, s.Volts, other.Volts, 1e-8, "seed %d", seed)
		}
	}
}

func BenchmarkSolve(b *testing.B) {
	for _, size := range []int{10, 100, 1000, 1600} {
		n := vehicle(rand.New(rand.NewSource(1)), size)
		b.Run(fmt.Sprint(size), func(b *testing.B) {
			for b.Loop() {
				if _, err := Solve(n); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

func BenchmarkFaults(b *testing.B) {
	for _, size := range []int{10, 100, 1000, 3500} {
		n := vehicle(rand.New(rand.NewSource(1)), size)
		p, err := Prepare(n)
		require.NoError(b, err)
		f, err := p.Faults()
		require.NoError(b, err)
		b.Run(fmt.Sprint(size), func(b *testing.B) {
			rounds := 0
			for i := 0; b.Loop(); i++ {
				s, err := f.Try(Fault{i % len(n.Elements), math.Inf(1)})
				if err != nil {
					b.Fatal(err)
				}
				rounds += s.Rounds
			}
			b.ReportMetric(float64(rounds)/float64(b.N), "rounds/op")
		})
	}
}

// wild makes networks that no car has: elements of every kind between any two nodes.
func wild(r *rand.Rand) Network {
	n := Network{Nodes: 2 + r.Intn(8)}
	n.Reference = r.Intn(n.Nodes)
	for i := range 1 + r.Intn(3*n.Nodes) {
		e := Element{
			Name: fmt.Sprint("e", i), Kind: Kind(r.Intn(int(Diode) + 1)), A: r.Intn(n.Nodes), B: r.Intn(n.Nodes),
			Ohms: math.Pow(10, r.Float64()*5-3), Volts: 15 * r.Float64(), Amps: float64(r.Intn(60)), AtVolts: 12,
			Floor: 6, PullIn: 8, DropOut: 3, Control: -1, Breaks: r.Intn(2) == 0, Idle: float64(r.Intn(2)) * 14.2,
		}
		n.Elements = append(n.Elements, e)
	}
	for i := range n.Elements {
		for range 8 {
			if j := r.Intn(len(n.Elements)); n.Elements[j].Kind == Coil {
				n.Elements[i].Control = j
			}
		}
	}
	return n
}

func TestWild(t *testing.T) {
	chatter, most := 0, 0
	for seed := range 8000 {
		n := wild(rand.New(rand.NewSource(int64(seed))))
		s, err := Solve(n)
		require.NoError(t, err, "seed %d", seed)
		require.Less(t, s.Residual, 1e-9, "seed %d", seed)
		if len(s.Chatter) > 0 {
			chatter++
		}
		most = max(most, s.Rounds)
		if seed%10 == 0 {
			requireDense(t, n, s)
		}
	}
	require.Greater(t, chatter, 3, "the mix must hold networks that chatter")
	t.Log("most rounds", most, "chattering", chatter)
}
