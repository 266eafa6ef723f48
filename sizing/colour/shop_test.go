package colour

import (
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/unit"
)

func (b *bench) bought() []Bought {
	var out []Bought
	for _, g := range b.gauges {
		out = append(out, Bought{Gauge: g})
	}
	return out
}

func fewAsk() Ask {
	return Ask{Tracer: 0.5, PartPair: 0.25, RunPair: 0.06, MostPart: 0, MostRun: -1, Moves: 5000}
}

// few gives the colours by wire name and what was found.
func (b *bench) few(a Ask, locks Locks) (map[string]string, Found) {
	f := NewShop(b.h, b.ways, locks).Fewest(b.bought(), a)
	out := map[string]string{}
	for i, p := range f.Pairs {
		out[b.h.Wires[i].Name] = p.String()
	}
	return out, f
}

// A panel of eight positions in two rows: 1 2 3 4 over 5 6 7 8; each position feeds a lamp of its own.
func panel() *bench {
	b := build(`
		FP fuse-panel
		L1 lamp
		L2 lamp
		L3 lamp
		L4 lamp
		L5 lamp
		L6 lamp
		L7 lamp
		L8 lamp
		X module`, `
		1A FP.1 L1.1 1
		2A FP.2 L2.1 1
		3A FP.3 L3.1 1
		4A FP.4 L4.1 1
		5A FP.5 L5.1 1
		6A FP.6 L6.1 1
		7A FP.7 L7.1 1
		8A FP.8 L8.1 1
		9A FP.in X.1 1`)
	b.h.Parts[0].Panel = &harness.Panel{Layout: [][]string{{"1", "2", "3", "4"}, {"5", "6", "7", "8"}}}
	return b
}

func TestNeighboursInAPanel(t *testing.T) {
	b := panel()
	got, f := b.few(fewAsk(), nil)
	require.Equal(t, 4, f.Reels, "three along a row, and the feed beside all: %v", got)
	require.Equal(t, 4, f.Bound)
	require.Zero(t, f.PartPairs)
	for _, near := range [][2]string{{"1A", "2A"}, {"1A", "3A"}, {"2A", "4A"}, {"1A", "5A"}, {"4A", "8A"}, {"6A", "7A"}, {"9A", "1A"}, {"9A", "8A"}} {
		require.NotEqual(t, got[near[0]], got[near[1]], "%v", near)
	}
	b.h.Practice.Apart = harness.Apart{Near: 1, Runs: "sleeve"}
	_, f = b.few(fewAsk(), nil)
	require.Equal(t, 3, f.Reels)
	b.h.Practice.Apart = harness.Apart{Near: 0, Runs: "sleeve"}
	_, f = b.few(fewAsk(), nil)
	require.Equal(t, 9, f.Reels, "all in one panel")
	require.Equal(t, 9, f.Bound)
}

func TestEverythingAtOtherParts(t *testing.T) {
	b := build(`
		S switch
		L1 lamp
		L2 lamp
		L3 lamp
		L4 lamp
		L5 lamp`, `
		1A S.1 L1.1 1
		2A S.2 L2.1 1
		3A S.3 L3.1 1
		4A S.4 L4.1 1
		5A S.5 L5.1 1`)
	_, f := b.few(fewAsk(), nil)
	require.Equal(t, 5, f.Reels)
	a := fewAsk()
	a.MostPart = 2
	a.PartPair = 0.01
	_, f = b.few(a, nil)
	require.Equal(t, 2, f.PartPairs, "as many on the sleeve as are allowed")
	require.Equal(t, 3, f.Reels)
	a.Numbers = true
	_, f = b.few(a, nil)
	require.Equal(t, 1, f.Reels)
	require.Equal(t, 10, f.PartPairs)
}

// Runs and branchings cost what is asked.
func TestRunsBySleeveOrByColour(t *testing.T) {
	b := build(`
		A lamp
		B lamp
		C lamp
		D lamp`, `
		1A A.1 B.1 1 0
		2A C.1 D.1 1 0`)
	_, f := b.few(fewAsk(), nil)
	require.Equal(t, []int{1, 1}, []int{f.Reels, f.RunPairs})
	b.h.Practice.Apart = harness.Apart{Near: 2, Runs: "colour"}
	_, f = b.few(fewAsk(), nil)
	require.Equal(t, []int{2, 0}, []int{f.Reels, f.RunPairs})
	b.gauges[1] = unit.Gauge{Size: "2.5"}
	_, f = b.few(fewAsk(), nil)
	require.Equal(t, []int{2, 0}, []int{f.Reels, f.RunPairs})
}

// Grounds, feeds, thick wire, given and built colours stay.
func TestFewKeepsWhatIsSettled(t *testing.T) {
	b := build(car, `
		2A F1.2 L1.+ 1 0 =OG
		3A F2.2 L1.- 1 0
		4A SW.2 L2.+ 1 1
		5N L2.- G1 1 1
		6A BAT.+ F1.1 16`)
	got, _ := b.few(fewAsk(), Locks{2: {Pair{Base: "WH"}, true}})
	require.Equal(t, "OG", got["2A"])
	require.NotEqual(t, "OG", got["3A"])
	require.Equal(t, "WH", got["4A"])
	require.Equal(t, "BK", got["5N"])
	require.Equal(t, "RD", got["6A"])
}

// What is on the shelf is free, and more may be bought.
func TestTheShelfIsFree(t *testing.T) {
	b := panel()
	b.gauges = nil
	for range b.h.Wires {
		b.gauges = append(b.gauges, unit.Gauge{System: unit.Metric, Size: "1"})
	}
	b.h.Practice.Stock = []harness.Stock{{Gauge: b.gauges[0], Colours: []harness.StockColour{{Base: "PK"}, {Base: "WH", Tracer: "VT"}}}}
	got, f := b.few(fewAsk(), nil)
	require.Equal(t, 2, f.Reels, "two of four are there: %v", got)
	require.Equal(t, 2, f.Bound)
	require.Contains(t, got, "1A")
	require.Zero(t, f.PartPairs)
}

// The cores of a cable are bought with it.
func TestCoresAreNoReels(t *testing.T) {
	b := panel()
	b.h.Units = []harness.Unit{{Kind: "cable", Wires: []harness.WireID{0, 1, 2, 3, 4, 5, 6, 7, 8}}}
	_, f := b.few(fewAsk(), nil)
	require.Equal(t, []int{0, 0, 0}, []int{f.Reels, f.Bound, f.PartPairs})
}

// A net in two sizes buys its colour in both.
func TestANetInTwoSizes(t *testing.T) {
	b := build(`
		A lamp
		S splice
		B lamp`, `
		1A A.1 S 1
		1B S B.1 2`)
	got, f := b.few(fewAsk(), nil)
	require.Equal(t, got["1A"], got["1B"])
	require.Equal(t, 2, f.Reels)
}

func TestConventionsAreKeptWhereReelsAreSaved(t *testing.T) {
	b := build(car+"\nH horn", `
		2A F1.2 SW.1 1 0
		2B SW.2 H.+ 1 0`)
	b.horn("F1.2")
	b.h.Practice.Conventions = asked("german")
	b.h.Practice.GroundColour = "BN"
	got, _ := b.few(fewAsk(), nil)
	require.Equal(t, "BK", got["2B"][:2])
}

// The finished colours: pairs on the sleeve are listed with their place and are no finding.
func TestSettle(t *testing.T) {
	b := panel()
	s := NewShop(b.h, b.ways, nil)
	a := fewAsk()
	a.MostPart, a.PartPair = 3, 0.01
	f := s.Fewest(b.bought(), a)
	require.Equal(t, []int{3, 2}, []int{f.Reels, f.PartPairs}, "two pairs save a reel, three save no other")
	choices, report, alike, bounds, problems := s.Settle(b.bought(), f.Pairs, a)
	require.Empty(t, problems)
	require.Len(t, alike, 2)
	for _, p := range alike {
		require.Equal(t, harness.PartID(0), p.Part)
		require.Equal(t, harness.RunID(harness.None), p.Run)
		require.Less(t, p.Distance, 12.0)
		require.False(t, p.ByRule)
		require.Contains(t, choices[p.A].Reason, "its number sleeve tells it from")
	}
	require.Equal(t, 2, report.LookAlikes)
	require.GreaterOrEqual(t, report.Smallest, 12.0)
	require.Equal(t, []SizeBound{{Bought{unit.Gauge{Size: "1"}, ""}, f.Reels, 4, true}}, bounds)
	for w, c := range choices {
		require.Equal(t, f.Pairs[w], c.Pair)
	}
}

// Given colours that clash are told as ever.
func TestGivenColoursThatClash(t *testing.T) {
	b := build(car, `
		2A F1.2 L1.+ 1 0 =OG
		3A F2.2 L1.- 1 0 =OG`)
	s := NewShop(b.h, b.ways, nil)
	f := s.Fewest(b.bought(), fewAsk())
	require.Equal(t, []int{0, 1}, []int{f.PartPairs, f.RuleParts})
	_, _, alike, _, problems := s.Settle(b.bought(), f.Pairs, fewAsk())
	require.Len(t, alike, 1)
	require.True(t, alike[0].ByRule)
	require.Len(t, problems, 1)
	require.Equal(t, "look-alike", problems[0].Slug)
}

// What Fewest found is what Of and Settle measure, on a loom of 200 wires.
func TestMeasuresAgree(t *testing.T) {
	b := newTree(200, 45, 40, 3)
	s := NewShop(b.h, b.ways, nil)
	a := fewAsk()
	f := s.Fewest(b.bought(), a)
	of := s.Of(b.bought(), f.Pairs, a)
	of.Bound = f.Bound
	require.Equal(t, f, of)
	require.Equal(t, f, s.Fewest(b.bought(), a))
	choices, _, alike, bounds, _ := s.Settle(b.bought(), f.Pairs, a)
	parts, runs := 0, 0
	for _, p := range alike {
		if !p.ByRule && p.Part != harness.None {
			parts++
		} else if !p.ByRule {
			runs++
		}
	}
	require.Equal(t, []int{f.PartPairs, f.RunPairs}, []int{parts, runs})
	reels := map[Pair]bool{}
	for _, c := range choices {
		reels[c.Pair] = true
	}
	require.Len(t, reels, f.Reels)
	require.Equal(t, f.Reels, bounds[0].Reels)
}
