package diagram

import (
	"fmt"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"
)

var rules = Rules{Grid: 1.25, Gap: 2.5, Below: 2.5, Track: 3, Stub: 4, FlagUp: 5, FlagDown: 1, W: 267, H: 122, Tries: 4, Force: true}

// randomGraph makes a circuit of so many wires: supplies at the left, grounds at
// the right, tiles with several pins between, now and then a wire that runs back.
func randomGraph(wires int, seed uint64) Graph {
	rng := rand.New(rand.NewPCG(seed, uint64(wires)))
	var g Graph
	free := map[Side][]End{}
	add := func(c Column, west, east int) {
		n := Node{W: 12 + float64(rng.IntN(20)), Column: c}
		n.H = float64(max(west, east))*10 + 7.5
		if c != Free {
			n.H = 7.5
		}
		for i := range west {
			n.Pins = append(n.Pins, Pin{West, 0, 5 + 10*float64(i), 1 + rng.IntN(3)})
		}
		for i := range east {
			n.Pins = append(n.Pins, Pin{East, n.W, 5 + 10*float64(i), 0})
		}
		g.Nodes = append(g.Nodes, n)
		for p := range n.Pins {
			free[n.Pins[p].Side] = append(free[n.Pins[p].Side], End{len(g.Nodes) - 1, p})
		}
	}
	for i := range wires {
		switch i % 4 {
		case 0:
			add(First, 0, 1)
		case 3:
			add(Last, 1, 0)
		default:
			add(Free, 1+rng.IntN(3), 1+rng.IntN(3))
		}
	}
	join(&g, free, wires, rng)
	return g
}

func join(g *Graph, free map[Side][]End, wires int, rng *rand.Rand) {
	for try := 0; try < 40*wires && len(g.Wires) < wires; try++ {
		if len(free[East]) == 0 || len(free[West]) == 0 {
			return
		}
		i, j := rng.IntN(len(free[East])), rng.IntN(len(free[West]))
		from, to := free[East][i], free[West][j]
		back := from.Node >= to.Node
		if from.Node == to.Node || (back && rng.IntN(12) > 0) {
			continue
		}
		g.Wires = append(g.Wires, Wire{from, to, 20 + float64(rng.IntN(12))})
		free[East] = append(free[East][:i], free[East][i+1:]...)
		free[West] = append(free[West][:j], free[West][j+1:]...)
	}
}

func lay(g Graph) (*Layout, error) {
	columns, err := Columns(g)
	if err != nil {
		return nil, err
	}
	return Lay(g, rules, columns), nil
}

func TestRandomGraphsAreClean(t *testing.T) {
	for wires := 3; wires <= 40; wires += 1 + wires/10 {
		for seed := range uint64(2) {
			g := randomGraph(wires, seed)
			l, err := lay(g)
			require.NoError(t, err)
			require.Empty(t, l.Check(g), "%d wires, seed %d", wires, seed)
			if testing.Verbose() {
				fmt.Println(wires, seed, len(g.Wires), l.Crossings, l.Bends, l.W, l.H, l.Fits)
			}
		}
	}
}

func TestSameGraphSameLayout(t *testing.T) {
	g := randomGraph(20, 5)
	one, err := lay(g)
	require.NoError(t, err)
	two, err := lay(g)
	require.NoError(t, err)
	require.Equal(t, one, two)
}

// Columns found without the library give layouts as clean.
func TestLongestPaths(t *testing.T) {
	for seed := range uint64(8) {
		g := randomGraph(20, seed)
		require.Empty(t, Lay(g, rules, longestPaths(g)).Check(g))
	}
}

func TestRingsAreLaidOutWithoutTheLibrary(t *testing.T) {
	g := Graph{}
	for range 3 {
		g.Nodes = append(g.Nodes, Node{W: 10, H: 10, Pins: []Pin{{West, 0, 5, 0}, {East, 10, 5, 0}}})
	}
	for i := range 3 {
		g.Wires = append(g.Wires, Wire{From: End{i, 1}, To: End{(i + 1) % 3, 0}, Flag: 10})
	}
	require.Equal(t, []int{0, 1, 2}, longestPaths(g))
	require.Empty(t, Lay(g, rules, longestPaths(g)).Check(g))
}

func TestMalformedGraphs(t *testing.T) {
	pins := []Pin{{East, 10, 5, 0}, {West, 0, 5, 0}}
	for name, g := range map[string]Graph{
		"no tiles":     {},
		"no such pin":  {Nodes: []Node{{Pins: pins}}, Wires: []Wire{{From: End{0, 0}, To: End{3, 1}}}},
		"pin is taken": {Nodes: []Node{{Pins: pins}, {Pins: pins}}, Wires: []Wire{{From: End{0, 0}, To: End{1, 1}}, {From: End{0, 0}, To: End{1, 0}}}},
		"one tile":     {Nodes: []Node{{Pins: pins}}, Wires: []Wire{{From: End{0, 0}, To: End{0, 1}}}},
	} {
		_, err := Columns(g)
		require.Error(t, err, name)
	}
}

// Check finds what it is there to find.
func TestCheckFindsFaults(t *testing.T) {
	g := randomGraph(12, 1)
	faulty := func(spoil func(l *Layout)) []string {
		l, err := lay(g)
		require.NoError(t, err)
		spoil(l)
		return l.Check(g)
	}
	require.NotEmpty(t, faulty(func(l *Layout) { l.Nodes[1] = l.Nodes[0] }))
	require.NotEmpty(t, faulty(func(l *Layout) { l.Paths[1] = l.Paths[0] }))
	require.NotEmpty(t, faulty(func(l *Layout) { l.Flags[1] = l.Flags[0] }))
	require.NotEmpty(t, faulty(func(l *Layout) { l.Flags[0].Y += 40 }))
	require.NotEmpty(t, faulty(func(l *Layout) { l.Paths[0][0].Y++ }))
	require.NotEmpty(t, faulty(func(l *Layout) { l.Nodes[0].X = -5 }))
}

// A layout spread or drawn together stays clean; what was laid out does not change.
func TestWideIsClean(t *testing.T) {
	for seed := range uint64(6) {
		g := randomGraph(14, seed)
		l, err := lay(g)
		require.NoError(t, err)
		before := l.Paths[0][0]
		for _, w := range []float64{l.Least, l.W + 40} {
			wide := l.Wide(w)
			require.InDelta(t, w, wide.W, 1e-6)
			require.Empty(t, wide.Check(g), "seed %d", seed)
		}
		require.Equal(t, before, l.Paths[0][0])
	}
}

// A flag stands in the nook beside a tile whose caption is wider than itself.
func TestFlagsStandInNooks(t *testing.T) {
	tile := func(solid ...Rect) Node {
		return Node{W: 40, H: 20, Solid: solid, Pins: []Pin{{West, 15, 7.5, 0}, {East, 25, 7.5, 0}}}
	}
	slim := []Rect{{15, 0, 10, 12}, {0, 12, 40, 8}}
	width := func(solid []Rect) float64 {
		g := Graph{Nodes: []Node{tile(solid...), tile(solid...)}, Wires: []Wire{{From: End{0, 1}, To: End{1, 0}, Flag: 26}}}
		l, err := lay(g)
		require.NoError(t, err)
		require.Empty(t, l.Check(g))
		return l.Least
	}
	require.InDelta(t, 80+26+2*flagAside, width(nil), 1e-6)
	require.InDelta(t, 80+rules.Gap, width(slim), 1e-6)
}
