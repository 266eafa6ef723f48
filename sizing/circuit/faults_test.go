package circuit

import (
	"fmt"
	"math"
	"math/rand"
	"sync"
	"testing"

	"github.com/stretchr/testify/require"
)

func requireSame(t *testing.T, want, got Solution, amps float64, says string) {
	t.Helper()
	require.Less(t, got.Residual, 1e-9, says)
	require.Equal(t, want.Energised, got.Energised, says)
	require.Equal(t, len(want.Chatter), len(got.Chatter), says)
	require.InDeltaSlice(t, want.Amps, got.Amps, amps, says)
	for v := range want.Volts {
		require.Equal(t, math.IsNaN(want.Volts[v]), math.IsNaN(got.Volts[v]), "%s node %d", says, v)
	}
	require.InDeltaSlice(t, want.Volts, got.Volts, 1e-8, says)
}

// A fault solved from the sound network's voltages and factor gives what it gives from nothing.
func TestFaulted(t *testing.T) {
	for seed := range 6 {
		n := vehicle(rand.New(rand.NewSource(int64(seed))), 120)
		p, err := Prepare(n)
		require.NoError(t, err)
		sound, err := p.Solve()
		require.NoError(t, err)
		for i := range n.Elements {
			for _, ohms := range []float64{math.Inf(1), 1, 1e-4} {
				fast, err := p.Faulted(i, ohms, sound)
				require.NoError(t, err)
				slow, err := p.Faulted(i, ohms, Solution{})
				require.NoError(t, err)
				says := fmt.Sprint("seed ", seed, " ", n.Elements[i].Name, " at ", ohms)
				requireSame(t, slow, fast, 1e-6, says)
				require.Equal(t, len(slow.Frozen), len(fast.Frozen))
				require.Equal(t, slow.Frozen[i], fast.Frozen[i], says)
			}
		}
		_, err = p.Faulted(-1, 1, sound)
		require.EqualError(t, err, "circuit: there is no element -1")
		_, err = p.Faulted(0, 0, sound)
		require.EqualError(t, err, "circuit: element e0 needs a resistance above 0 ohm")
	}
}

// The same in networks that no car has, with one, two and three faults at once.
func TestWildFaults(t *testing.T) {
	for seed := range 1500 {
		r := rand.New(rand.NewSource(int64(seed)))
		n := wild(r)
		p, err := Prepare(n)
		require.NoError(t, err)
		f, err := p.Faults()
		require.NoError(t, err)
		for round := range 6 {
			var faults []Fault
			for range 1 + round/2 {
				faults = append(faults, Fault{r.Intn(len(n.Elements)), []float64{math.Inf(1), 1, 1e-3}[r.Intn(3)]})
			}
			got, err := f.Try(faults...)
			require.NoError(t, err, "seed %d", seed)
			fresh := &Faults{relays: p.relays(append([]Element(nil), n.Elements...))}
			want, err := fresh.Try(faults...)
			require.NoError(t, err, "seed %d", seed)
			requireSame(t, *want, *got, 1e-5, fmt.Sprint("seed ", seed, " faults ", faults))
		}
	}
}

// No fault stays behind: the answers are the same, to the last digit, in any order.
func TestFaultsInAnyOrder(t *testing.T) {
	n := vehicle(rand.New(rand.NewSource(4)), 200)
	p, err := Prepare(n)
	require.NoError(t, err)
	answers := func(order []int) []string {
		f, err := p.Faults()
		require.NoError(t, err)
		out := make([]string, len(order))
		for _, i := range order {
			s, err := f.Try(Fault{i, math.Inf(1)})
			require.NoError(t, err)
			out[i] = fmt.Sprint(*s)
		}
		return out
	}
	forth, back := make([]int, len(n.Elements)), make([]int, len(n.Elements))
	for i := range forth {
		forth[i], back[len(back)-1-i] = i, i
	}
	require.Equal(t, answers(forth), answers(back))
}

// An updated factor solves as the factor of the updated matrix does.
func TestUpdate(t *testing.T) {
	for seed := range 40 {
		r := rand.New(rand.NewSource(int64(seed)))
		p, err := Prepare(tangle(r, 10+seed))
		require.NoError(t, err)
		w := p.start(p.network.Elements)
		w.balance()
		w.group()
		require.NoError(t, w.afresh())
		for n := range 8 {
			i := r.Intn(len(w.slope))
			w.slope[i] *= []float64{0.1, 0.5, 3, 100}[r.Intn(4)]
			require.True(t, w.update(), "seed %d change %d", seed, n)
		}
		updated := solvedBy(w)
		require.NoError(t, w.afresh())
		for i, v := range solvedBy(w) {
			require.InDelta(t, v, updated[i], 1e-8*math.Max(1, math.Abs(v)), "seed %d", seed)
		}
	}
}

func solvedBy(w *work) []float64 {
	b := make([]float64, w.shape.size)
	for i := range b {
		b[i] = float64(i%5) - 2
	}
	w.factor.solve(b)
	return b
}

// Cutting off a part of the network pins it; an update that would leave nothing of a pivot gives up.
func TestUpdateGivesUp(t *testing.T) {
	p, err := Prepare(Network{Nodes: 3, Elements: []Element{resistor("a", 0, 1, 1e-9), resistor("b", 1, 2, 1), resistor("c", 1, 0, 1e9)}})
	require.NoError(t, err)
	w := p.start(p.network.Elements)
	w.balance()
	w.group()
	require.NoError(t, w.afresh())
	require.False(t, w.shift(0, -w.slope[0]), "no digit of the pivot would be left")
	require.False(t, w.factor.ready)
	w.slope[0] = 0
	w.group()
	require.NoError(t, w.refresh())
	require.True(t, w.factor.ready)
	require.Zero(t, w.factor.work[0]+w.factor.work[1])
}

// With shares the structure; the answer is that of a network made so from the start.
func TestWith(t *testing.T) {
	for seed := range 30 {
		r := rand.New(rand.NewSource(int64(seed)))
		n := vehicle(r, 20+6*seed)
		p, err := Prepare(n)
		require.NoError(t, err)
		ohms := make([]float64, len(n.Elements))
		fresh := Network{Nodes: n.Nodes, Elements: append([]Element(nil), n.Elements...)}
		for i, e := range n.Elements {
			if e.Kind == Resistor && r.Intn(3) > 0 {
				ohms[i] = e.Ohms * math.Pow(10, 2*r.Float64()-1)
				fresh.Elements[i].Ohms = ohms[i]
			}
		}
		want, err := Solve(fresh)
		require.NoError(t, err)
		other, err := p.With(ohms)
		require.NoError(t, err)
		got, err := other.Solve()
		require.NoError(t, err)
		requireSame(t, want, got, 1e-6, fmt.Sprint("seed ", seed))
	}
	p, err := Prepare(Network{Nodes: 2, Elements: []Element{resistor("r", 0, 1, 1)}})
	require.NoError(t, err)
	_, err = p.With(nil)
	require.EqualError(t, err, "circuit: 0 resistances for 1 elements")
	_, err = p.With([]float64{-1})
	require.EqualError(t, err, "circuit: element r needs a resistance above 0 ohm")
}

// Near a known voltage a lamp's current comes from a series.
func TestPowerNear(t *testing.T) {
	for x := -1.0 / 128; x <= 1.0/128; x += 1.0 / 4096 {
		require.InDelta(t, math.Pow(1+x, lampPower), powerNear(x), 3e-16)
	}
}

// A battery post with hundreds of heavy wires: the residual stays far below a nanoampere.
func TestHeavyPost(t *testing.T) {
	n := Network{Nodes: 2, Elements: []Element{battery(1, 0, 12.6, 0.003)}}
	for i := range 800 {
		n.Nodes++
		n.Elements = append(n.Elements, resistor("", 1, n.Nodes-1, 0.0003+1e-6*float64(i)), resistor("", n.Nodes-1, 0, 5+float64(i)))
	}
	s, err := Solve(n)
	require.NoError(t, err)
	require.Less(t, s.Residual, 1e-11)
}

// One Prepared serves several goroutines at once, to the same digits.
func TestAtOnce(t *testing.T) {
	n := vehicle(rand.New(rand.NewSource(9)), 150)
	p, err := Prepare(n)
	require.NoError(t, err)
	answers := make([]string, 4)
	var wait sync.WaitGroup
	for k := range answers {
		wait.Go(func() {
			sound, err := p.Solve()
			for i := 0; err == nil && i < len(n.Elements); i++ {
				var s Solution
				s, err = p.Faulted(i, 1, sound)
				answers[k] += fmt.Sprint(s.Volts)
			}
			if err != nil {
				answers[k] = err.Error()
			}
		})
	}
	wait.Wait()
	for _, a := range answers {
		require.Equal(t, answers[0], a)
		require.Contains(t, a, "12.")
	}
}
