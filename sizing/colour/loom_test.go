package colour

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/route"
	"example.com/loomfolio/sizing/source"
	"example.com/loomfolio/sizing/unit"
)

// tree is a loom made by a fixed sequence: run n joins place n+1 to an earlier
// place; every place has one connector with many cavities; one wire in eight
// goes to ground, one in thirty-three straight to the battery; no run holds more
// wires than the fattest, and one holds just as many.
type tree struct {
	*bench
	parent []int
	load   []int
	seed   uint32
}

func newTree(wires, runs, fattest int, seed uint32) *tree {
	t := &tree{bench: build("", ""), seed: seed * 7919, parent: []int{-1}, load: make([]int, runs)}
	h := t.h
	for i := range runs + 1 {
		h.Places = append(h.Places, harness.Place{ID: harness.PlaceID(i), Key: fmt.Sprint("p", i)})
		h.Parts = append(h.Parts, harness.Part{ID: harness.PartID(i), Ref: fmt.Sprint("P", i), Kind: harness.Module})
		if i > 0 {
			t.parent = append(t.parent, t.next(min(i, 1+i/2)))
			h.Runs = append(h.Runs, harness.Run{ID: harness.RunID(i - 1), From: harness.PlaceID(t.parent[i]), To: harness.PlaceID(i), Length: 500})
		}
	}
	h.Parts = append(h.Parts, harness.Part{ID: harness.PartID(runs + 1), Ref: "G", Kind: harness.Ground},
		harness.Part{ID: harness.PartID(runs + 2), Ref: "BAT", Kind: harness.Battery})
	for len(h.Wires) < wires {
		t.lay(fattest)
	}
	return t
}

func (t *tree) next(n int) int {
	t.seed = t.seed*1664525 + 1013904223
	return int(t.seed>>8) % n
}

// lay adds one wire between two places, unless a run would be too full.
func (t *tree) lay(fattest int) {
	from, to := t.next(len(t.h.Places)), t.next(len(t.h.Places))
	way := t.way(from, to)
	if len(way.Shares) == 0 {
		return
	}
	for _, s := range way.Shares {
		if t.load[s.Run] == fattest {
			return
		}
	}
	for _, s := range way.Shares {
		t.load[s.Run]++
	}
	n := len(t.h.Wires)
	a, b := t.pin(from), t.pin(to)
	switch {
	case n%8 == 0:
		b = t.named("G", "")
	case n%33 == 1:
		a = t.named("BAT", "+")
	}
	t.h.Wires = append(t.h.Wires, harness.Wire{ID: harness.WireID(n), Name: fmt.Sprintf("%dA", n+1), From: a, To: b, Span: source.At(n+1, 1, 2)})
	t.ways = append(t.ways, way)
	t.gauges = append(t.gauges, unit.Gauge{Size: "1"})
}

func (t *tree) pin(place int) harness.TerminalID {
	return t.named(fmt.Sprint("P", place), fmt.Sprint(len(t.h.Terminals)))
}

func (t *tree) named(ref, name string) harness.TerminalID {
	for i := range t.h.Parts {
		if p := &t.h.Parts[i]; p.Ref == ref {
			if p.Kind != harness.Module && len(p.Terminals) > 0 {
				return p.Terminals[0]
			}
			id := harness.TerminalID(len(t.h.Terminals))
			t.h.Terminals = append(t.h.Terminals, harness.Terminal{ID: id, Part: p.ID, Name: name, Full: ref + "." + name})
			p.Terminals = append(p.Terminals, id)
			return id
		}
	}
	panic("no part " + ref)
}

// way goes up the tree from both ends.
func (t *tree) way(from, to int) route.Way {
	var out route.Way
	for from != to {
		if from < to {
			from, to = to, from
		}
		out.Shares = append(out.Shares, route.Share{Run: harness.RunID(from - 1), Length: 500})
		from = t.parent[from]
	}
	return out
}

func (t *tree) fattest() int {
	most := 0
	for _, n := range t.load {
		most = max(most, n)
	}
	return most
}

// Five looms of 200 wires with 40 in the fattest run: the nearest two neighbours
// stand within 15 % of what is proved to be the most (within 0.1 % in four of them), and no two wires look
// alike at a connector.
func TestLoomsOf200Wires(t *testing.T) {
	for seed := range uint32(5) {
		b := newTree(200, 45, 40, seed+1)
		require.Equal(t, 40, b.fattest())
		choices, report, problems := Assign(b.h, b.ways, b.gauges, nil)
		t.Logf("seed %d: %.1f of at most %.1f", seed+1, report.Smallest, report.Bound)
		require.Zero(t, report.LookAlikes)
		require.Empty(t, problems)
		require.LessOrEqual(t, report.Smallest, report.Bound)
		require.GreaterOrEqual(t, report.Smallest, 0.85*report.Bound)
		for r, x := range append(report.Runs, report.Parts...) {
			require.LessOrEqual(t, x.Reached, max(x.Bound, 0), "%d %+v", r, x)
		}
		again, _, _ := Assign(b.h, b.ways, b.gauges, nil)
		require.Equal(t, choices, again)
	}
}

func BenchmarkLoom(b *testing.B) {
	for _, n := range []int{200, 500, 1000, 2000} {
		m := newTree(n, 45*n/200, 40, 1)
		b.Run(fmt.Sprint(n), func(b *testing.B) {
			for b.Loop() {
				Assign(m.h, m.ways, m.gauges, nil)
			}
		})
	}
}
