package plan

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/samples"
	"example.com/loomfolio/sizing/check"
	"example.com/loomfolio/sizing/choose"
	"example.com/loomfolio/sizing/colour"
	"example.com/loomfolio/sizing/describe"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/polarity"
	"example.com/loomfolio/sizing/purchase"
	"example.com/loomfolio/sizing/rating"
	"example.com/loomfolio/sizing/route"
	"example.com/loomfolio/sizing/unit"
)

// asked is a loom with its least sizes.
type asked struct {
	h     *harness.Harness
	ways  []route.Way
	least *choose.Settled
	shop  *colour.Shop
}

func ask(t *testing.T, text string) asked {
	t.Helper()
	d, problems := describe.Parse("plan.yaml", []byte(text))
	require.False(t, problems.HasErrors(), "%v", problems)
	h, found := check.Check(d)
	require.NotNil(t, h, "%v", found)
	h, _ = polarity.Mend(h)
	ways, _ := route.Find(h)
	s, err := choose.Settle(h, ways)
	require.NoError(t, err)
	return asked{h, ways, s, colour.NewShop(h, ways, colour.Locks{})}
}

func (a asked) weigh() []*Option { return Weigh(a.h, a.ways, a.least, a.shop) }

func (a asked) weighing() *weighing { return newWeighing(a.h, a.ways, a.least, a.shop) }

func mm2(size string) unit.Gauge { return unit.Gauge{System: unit.Metric, Size: size} }

// lamp is five wires of 0.5, 1.5, 2, 1 and 1 m.
const lamp = `loomfolio: 1
title: Lamp
system: {volts: 12}
practice: {PRACTICE}
parts:
  BAT: {kind: battery, capacity: 60 Ah, stud: M8}
  F1: {kind: fuse}
  SW: {kind: switch, positions: {off: [], on: [[1, 2]]}}
  L: {kind: lamp, draws: 21 W}
  G1: {kind: ground, stud: M6}
circuits:
  lamp: {number: 1, legs: [[BAT.+, {to: F1, length: 500 mm}, {to: SW, length: 1500 mm}, {to: L, length: 2 m}, {to: G1, length: 1 m}], [BAT.-, {to: G1, length: 1 m}]]}
`

func practised(text, practice string) string { return strings.Replace(text, "PRACTICE", practice, 1) }

// in is a colouring of the lamp's wires: red, red, a tracer, black, black.
func in() colour.Found {
	red, black := colour.Pair{Base: "RD"}, colour.Pair{Base: "BK"}
	return colour.Found{Pairs: []colour.Pair{red, red, {Base: "BU", Tracer: "WH"}, black, black}}
}

func all(gauge string, n int) []unit.Gauge { return slices.Repeat([]unit.Gauge{mm2(gauge)}, n) }

// Three reels of 2 m each, one of them with a tracer, one size; by hand from the weights. Copper is
// 6 m of 1 mm2 at 8.89 g/cm3.
func TestSumCountsWhatItSays(t *testing.T) {
	w := ask(t, practised(lamp, "buy: few")).weighing()
	require.Len(t, w.h.Wires, 5)
	m := w.sum(all("1", 5), in())
	require.Equal(t, 3, m.reels)
	require.Equal(t, 1, m.tracers)
	require.InDelta(t, 53.34, float64(m.copper), 0.01)
	require.Zero(t, m.money)
	kinds := float64(len(w.kinds.uses(all("1", 5))))
	base := 3 + 0.5 + 53.34/150 + 6*0.05 + 0.5*kinds + 1.5
	require.InDelta(t, base, m.sum, 1e-3)

	f := in()
	f.PartPairs, f.RunPairs = 2, 3
	require.Equal(t, 0, w.ask.MostPart, "five wires allow no pair at parts")
	require.Equal(t, 2, w.ask.MostRun)
	require.InDelta(t, base+2*0.25+2*1+3*0.06+1*0.25, w.sum(all("1", 5), f).sum, 1e-3, "what is above the limit counts besides")

	two := all("1", 5)
	two[1] = mm2("2.5")
	m2 := w.sum(two, in())
	more := 1.5 * 1.5 * 8.89 // g: 1.5 m grow by 1.5 mm2
	require.Equal(t, 4, m2.reels)
	require.InDelta(t, float64(m.copper)+more, float64(m2.copper), 0.2)
	grown := float64(len(w.kinds.uses(two))) - kinds
	require.Positive(t, grown)
	// the red reels take 1 m and 2 m instead of 2
	require.InDelta(t, m.sum+1+0.05+1.5+more/150+0.5*grown, m2.sum, 0.01)
}

// What lies on the shelf is no reel; a colour whose lengths are not said is there.
func TestSumTakesTheShelf(t *testing.T) {
	none := ask(t, practised(lamp, "buy: few")).weighing().sum(all("1", 5), in())
	for stock, want := range map[string]struct {
		reels  int
		metres float64 // still to be bought, each reel in whole metres
	}{
		"{1 mm2: [RD]}":                         {2, 4},
		"{1 mm2: {RD: [5 m]}}":                  {2, 4},
		"{1 mm2: {RD: [500 mm]}}":               {3, 6},
		"{2.5 mm2: [RD]}":                       {3, 6},
		"{1 mm2: {BU/WH: [800 mm], BK: [9 m]}}": {2, 4},
	} {
		w := ask(t, practised(lamp, "buy: few, stock: "+stock)).weighing()
		m := w.sum(all("1", 5), in())
		require.Equal(t, want.reels, m.reels, stock)
		require.Equal(t, none.copper, m.copper, "the copper is in the loom all the same")
		tracer := 0.5 * float64(m.tracers)
		require.InDelta(t, none.sum-3-0.5-6*0.05, m.sum-float64(m.reels)-tracer-want.metres*0.05, 1e-9, stock)
	}
}

// With prices a reel is the money of the shortest length so often as it is needed; without them none.
func TestSumInMoney(t *testing.T) {
	w := ask(t, practised(lamp, "buy: few, sold: [5 m], prices: {wire: {1 mm2: 0.40, 2.5 mm2: 1.00}}")).weighing()
	m := w.sum(all("1", 5), in())
	require.InDelta(t, 3*5*0.40, m.money, 1e-9)
	kinds := float64(len(w.kinds.uses(all("1", 5))))
	require.InDelta(t, 3+0.5*kinds+1.5, m.sum, 1e-9, "a reel is 5 m of the cheapest wire")
	two := all("1", 5)
	two[1] = mm2("2.5")
	require.InDelta(t, 3*2+5*1.00, w.sum(two, in()).money, 1e-9)
	require.InDelta(t, 1.00*1.00*5, w.prices.of(mm2("2.5"), 4999), 1e-9)
	require.InDelta(t, 10.00, w.prices.of(mm2("2.5"), 5001), 1e-9)
}

// Budgets are kept where they can be had; where not, that is said.
func TestBudgets(t *testing.T) {
	text := named(t, "camper")
	free := ask(t, text).weigh()[0]
	for _, c := range []struct {
		buy  string
		kept bool
	}{
		{fmt.Sprintf("{sizes: %d}", len(free.Sizes)-1), true}, {"{sizes: 1}", false},
		{fmt.Sprintf("{reels: %d}", free.Reels-1), true}, {"{reels: 3}", false},
	} {
		a := ask(t, buying(text, c.buy))
		list := a.weigh()
		best, why := list[0], Why(a.h, list, list[0])
		over := newWeighing(a.h, a.ways, a.least, a.shop).over(best)
		require.Equal(t, c.kept, over == 0, "%s: %d sizes, %d reels", c.buy, len(best.Sizes), best.Reels)
		if c.kept {
			require.Contains(t, why, "; within ")
		} else {
			require.Contains(t, why, "cannot be had")
		}
	}
}

// With numbers there is one colour a size and insulation, but for what rules
// part: grounds, a battery's feed, thick wire, and what is given.
func TestNumbersTakeOneColourASize(t *testing.T) {
	for name, text := range map[string]string{"lamp": practised(lamp, "buy: numbers"), "camper": buying(named(t, "camper"), "numbers")} {
		a := ask(t, text)
		best := a.weigh()[0]
		core, colours := a.h.Cores(), map[string]map[colour.Pair]bool{}
		for i, g := range best.Gauges {
			if core[i] || a.h.Wires[i].Base != "" || best.Pairs[i].Base == a.h.Practice.GroundColour || onBattery(a.h, i) || a.least.Size(harness.WireID(i)).Conductor.Area > 9 {
				continue
			}
			key := g.String() + a.h.Wires[i].Insulation
			if colours[key] == nil {
				colours[key] = map[colour.Pair]bool{}
			}
			colours[key][best.Pairs[i]] = true
		}
		for key, c := range colours {
			require.LessOrEqual(t, len(c), 1, "%s %s %v", name, key, c)
		}
	}
}

// onBattery tells a wire of a battery's live post, of which the colour is by rule.
func onBattery(h *harness.Harness, w int) bool {
	for _, end := range []harness.TerminalID{h.Wires[w].From, h.Wires[w].To} {
		if p := h.PartOf(end); p != nil && p.Kind == harness.Battery {
			return true
		}
	}
	return false
}

// Whatever is lifted takes a size of the set, no thinner than its own and no thicker than it may be.
func TestOptionsStayWithinTheirSets(t *testing.T) {
	for _, s := range samples.List() {
		a := ask(t, string(s.Text))
		w := a.weighing()
		for _, o := range a.weigh() {
			for _, g := range w.menu.Groups {
				for _, id := range g.Wires {
					step := a.least.Shelf[id].Index(o.Gauges[id])
					require.GreaterOrEqual(t, step, g.Least, a.h.Wires[id].Name)
					require.LessOrEqual(t, step, g.Most, a.h.Wires[id].Name)
					require.Contains(t, o.set.Steps[g.Shelf], step, a.h.Wires[id].Name)
					require.Equal(t, o.Gauges[g.Wires[0]], o.Gauges[id], "one size")
				}
			}
			fresh := w.sum(o.Gauges, w.shop.Of(w.bought(o.Gauges), o.Pairs, w.ask))
			require.InDelta(t, fresh.sum, o.Sum, 1e-9, "the sum is that of what is taken")
			require.Equal(t, fresh.reels, o.Reels)
		}
	}
}

// The choices stand best first, and what the lightest of them weighs is what the engine's least do, or more.
func TestBestFirst(t *testing.T) {
	a := ask(t, named(t, "kestrel"))
	list := a.weigh()
	own := unit.Gram(0)
	for i := range a.h.Wires {
		own += rating.CopperMass(rating.AreaOf(a.least.Size(harness.WireID(i)).Conductor.Gauge), a.ways[i].Length)
	}
	for i, o := range list {
		require.GreaterOrEqual(t, float64(o.Copper), float64(own)*(1-1e-9))
		if i > 0 {
			require.LessOrEqual(t, list[i-1].Sum, o.Sum)
		}
	}
	require.InDelta(t, float64(own), float64(slices.MinFunc(list, func(a, b *Option) int { return int(a.Copper - b.Copper) }).Copper), 0.01*float64(own))
}

// The order in which circuits stand decides nothing that is bought, and the same is chosen twice.
func TestTheOrderOfCircuitsDecidesNothing(t *testing.T) {
	text := named(t, "tender")
	first := choiceOf(ask(t, text).weigh()[0])
	require.Equal(t, first, choiceOf(ask(t, text).weigh()[0]))
	head, rest, ok := strings.Cut(text, "\ncircuits:\n")
	require.True(t, ok)
	circuits, tail := sections(rest)
	require.Greater(t, len(circuits), 5)
	slices.Reverse(circuits)
	other := ask(t, head+"\ncircuits:\n"+strings.Join(circuits, "")+tail).weigh()[0]
	require.Equal(t, first.Sizes, choiceOf(other).Sizes)
	require.InDelta(t, float64(first.Copper), float64(other.Copper), 1e-6)
}

func choiceOf(o *Option) purchase.Choice { return o.Choice }

// sections parts circuits, each with its lines, and what follows them.
func sections(text string) (circuits []string, tail string) {
	for i, line := range strings.SplitAfter(text, "\n") {
		switch {
		case strings.HasPrefix(line, "  ") && !strings.HasPrefix(line, "   ") && !strings.HasPrefix(strings.TrimSpace(line), "#"):
			circuits = append(circuits, line)
		case strings.HasPrefix(line, "    "), strings.TrimSpace(line) == "", strings.HasPrefix(strings.TrimSpace(line), "#"):
			if len(circuits) > 0 {
				circuits[len(circuits)-1] += line
			}
		default:
			return circuits, strings.Join(strings.SplitAfter(text, "\n")[i:], "")
		}
	}
	return circuits, ""
}

// Every wire given: there is one choice, and nothing of it changes.
func TestAllGivenLeavesOneChoice(t *testing.T) {
	text := strings.NewReplacer("500 mm}", "500 mm, gauge: 1.5 mm2}", "1500 mm}", "1500 mm, gauge: 2.5 mm2}", "2 m}", "2 m, gauge: 1 mm2}", "1 m}", "1 m, gauge: 4 mm2}").Replace(practised(lamp, "buy: few"))
	list := ask(t, text).weigh()
	require.Len(t, list, 1)
	require.Equal(t, []unit.Gauge{mm2("1.5"), mm2("2.5"), mm2("1"), mm2("4"), mm2("4")}, list[0].Gauges)
}

// One wire has one size; none at all gives no choice, or one of nothing.
func TestHardlyAnyWires(t *testing.T) {
	const empty = "loomfolio: 1\ntitle: None\nsystem: {volts: 12}\nparts: {BAT: {kind: battery, capacity: 60 Ah}, G1: {kind: ground}}\ncircuits: {}\n"
	d, _ := describe.Parse("plan.yaml", []byte(empty))
	if h, _ := check.Check(d); h != nil {
		for _, o := range ask(t, empty).weigh() {
			require.Zero(t, o.Reels)
		}
	}
	a := ask(t, strings.Replace(empty, "circuits: {}", "circuits: {g: {number: 1, legs: [[BAT.-, {to: G1, length: 300 mm}]]}}", 1))
	list := a.weigh()
	require.NotEmpty(t, list)
	for _, o := range list {
		require.Equal(t, 1, o.Reels)
		require.Len(t, o.Sizes, 1)
		require.False(t, math.IsNaN(o.Sum))
	}
}

// Wires of two insulations are on reels of their own, though of one size.
func TestTwoInsulations(t *testing.T) {
	text := strings.Replace(practised(lamp, "buy: few"), "{to: L, length: 2 m}", "{to: L, length: 2 m, insulation: thick-wall-105}", 1)
	a := ask(t, text)
	m := a.weighing().sum(all("1", 5), colour.Found{Pairs: slices.Repeat([]colour.Pair{{Base: "RD"}}, 5)})
	require.Equal(t, 2, m.reels)
	for _, o := range a.weigh() {
		for i, g := range o.Gauges {
			require.GreaterOrEqual(t, a.least.Shelf[i].Index(g), 0, "of its own shelf")
		}
	}
}

func named(t *testing.T, name string) string {
	i := slices.IndexFunc(samples.List(), func(s samples.Sample) bool { return s.Name == name })
	require.GreaterOrEqual(t, i, 0)
	return string(samples.List()[i].Text)
}

// buying gives a description with what its practice buys for.
func buying(text, buy string) string {
	if strings.Contains(text, "\npractice: {") {
		return strings.Replace(text, "\npractice: {", "\npractice: {buy: "+buy+", ", 1)
	}
	if strings.Contains(text, "\npractice:\n") {
		return strings.Replace(text, "\npractice:\n", "\npractice:\n  buy: "+buy+"\n", 1)
	}
	return strings.Replace(text, "\nparts:", "\npractice: {buy: "+buy+"}\nparts:", 1)
}
