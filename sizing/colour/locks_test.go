package colour

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/sizing/harness"
)

// After a first run three wires go and five come: no other changes its colour.
func TestLocksKeepALoom(t *testing.T) {
	b := newTree(200, 45, 40, 2)
	first, _, _ := Assign(b.h, b.ways, b.gauges, nil)
	was := map[string]Pair{}
	for i, c := range first {
		was[b.h.Wires[i].Name] = c.Pair
	}
	b.h.Wires, b.ways, b.gauges = b.h.Wires[3:], b.ways[3:], b.gauges[3:]
	for i := range b.h.Wires {
		b.h.Wires[i].ID = harness.WireID(i)
	}
	for len(b.h.Wires) < 202 {
		n := len(b.h.Wires)
		if b.lay(45); len(b.h.Wires) > n {
			b.h.Wires[n].Name = fmt.Sprintf("9%dA", n)
		}
	}
	locks := Locks{}
	for i := range b.h.Wires {
		if p, ok := was[b.h.Wires[i].Name]; ok {
			locks[harness.WireID(i)] = Lock{Pair: p, Built: i%2 == 0}
		}
	}
	require.Len(t, locks, 197)
	again, report, problems := Assign(b.h, b.ways, b.gauges, locks)
	for i := range b.h.Wires {
		if p, ok := was[b.h.Wires[i].Name]; ok {
			require.Equal(t, p, again[i].Pair, b.h.Wires[i].Name)
		}
	}
	for _, p := range problems {
		t.Log(p.Summary)
	}
	require.Zero(t, report.LookAlikes)
}

func TestOrderOfForce(t *testing.T) {
	b := build(car, `
		2A F1.2 L1.+ 1 0 =OG
		3A F2.2 L1.- 1 0
		4A SW.2 L2.+ 1 1
		5N L2.- G1 1 1`)
	og, wh := Pair{Base: "OG"}, Pair{Base: "WH"}
	choices, _, problems := Assign(b.h, b.ways, b.gauges, Locks{0: {wh, true}, 1: {og, false}, 2: {wh, true}, 3: {wh, true}})
	require.Equal(t, og, choices[0].Pair, "the description comes first")
	require.NotEqual(t, og, choices[1].Pair, "a planned colour gives way to a look-alike at its part")
	require.Equal(t, wh, choices[2].Pair)
	require.Equal(t, wh, choices[3].Pair, "what is built stays, against a rule too")
	slugs := map[string]int{}
	for _, p := range problems {
		slugs[p.Slug]++
	}
	require.Equal(t, map[string]int{"lock-broken": 2, "built-against-rule": 1, "look-alike": 1}, slugs)
}

func TestFoundColoursAreShownAndCompared(t *testing.T) {
	b := build(car, `
		2A F1.2 L1.+ 1 0
		3A F2.2 L1.- 1 0 =OG`)
	b.h.Wires[0].Found = harness.StockColour{Base: "OG"}
	choices, _, problems := Assign(b.h, b.ways, b.gauges, nil)
	require.Equal(t, Pair{Base: "OG"}, choices[0].Found)
	require.Contains(t, choices[0].Reason, "OG in the car as found")
	require.Len(t, problems, 1)
	require.Equal(t, "found-look-alike", problems[0].Slug)
}

func TestConventionsAndPolicies(t *testing.T) {
	b := build(car+"\nH horn", `
		2A F1.2 SW.1 1 0
		2B SW.2 H.+ 1 0`)
	b.horn("F1.2")
	b.h.Practice.Conventions = asked("german")
	b.h.Practice.GroundColour = "BN"
	got, _, _ := b.assign()
	require.Equal(t, "BK", got["2B"][:2], "the base of the horn's black and yellow; no tracer is bought for it")
	b.h.Practice.Conventions = nil
	b.h.Practice.ColourChange = "keep"
	got, _, _ = b.assign()
	require.Equal(t, got["2A"], got["2B"])
	b.h.Practice.ColourChange = "keep-base"
	got, _, _ = b.assign()
	require.Equal(t, got["2A"][:2], got["2B"][:2])
	require.NotEqual(t, got["2A"], got["2B"])
}
