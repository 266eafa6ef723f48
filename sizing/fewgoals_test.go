package sizing_test

import (
	"fmt"
	"math"
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/samples"
	"example.com/loomfolio/samples/worked"
	"example.com/loomfolio/sizing/choose/bought"
	"example.com/loomfolio/sizing/colour"
	"example.com/loomfolio/sizing/colour/sight"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/rating"
	"example.com/loomfolio/sizing/result"
	"example.com/loomfolio/sizing/unit"
)

// most is what may be bought for one loom where few is.
type most struct {
	reels, sizes, thin int     // thin: sizes below 10 mm2
	copper             float64 // of the reels, over that of the least sizes; 0: no limit
	parts, runs        int     // pairs that the number sleeve alone tells apart, those by rule apart
	numbers            int     // reels with one colour a size; 0: no limit
}

// TestWhatFewComesTo holds what is bought for the samples, and for two small looms of their
// kin, to what a garage asks; figures for kestrel include the wires of all its extras. What is
// found wrong is what is found with the least sizes. All wires that meet and are not listed look
// different enough.
func TestWhatFewComesTo(t *testing.T) {
	for name, most := range map[string]most{
		"kestrel": {reels: 30, sizes: 8, thin: 4, copper: 1.12, parts: 10, runs: 15},
		"camper":  {reels: 26, sizes: 8, thin: 5, copper: 1.2, parts: 6, runs: 15},
		"tender":  {reels: 15, sizes: 4, thin: 3, parts: 2, runs: 6},
		"fan":     {reels: 7, sizes: 4, thin: 3, parts: 1, runs: 4, numbers: 4},
		"bike":    {reels: 10, sizes: 3, thin: 3, parts: 1, runs: 5, numbers: 6},
	} {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			text := loomOf(t, name)
			h, r, found := workedOut(t, text, "few")
			require.NotNil(t, r)
			most.holds(t, h, r)
			distinct(t, h, r)
			_, plain, clear := workedOut(t, text, "clear")
			require.Equal(t, kindsBought[name], map[string][2]int{
				"crimps": {kindsOf(r, "terminals"), kindsOf(plain, "terminals")}, "shrink": {kindsOf(r, "shrink"), kindsOf(plain, "shrink")},
				"fuses": {kindsOf(r, "fuses"), kindsOf(plain, "fuses")}, "cover": {kindsOf(r, "cover"), kindsOf(plain, "cover")},
			}, "kinds where few are bought, and where wires are told apart clearly")
			require.Empty(t, bought.Worse(grave(clear), grave(found)))
			if most.numbers > 0 {
				_, r, _ := workedOut(t, text, "numbers")
				require.LessOrEqual(t, len(r.Reels), most.numbers)
			}
		})
	}
}

// kindsBought is how many kinds of crimp, heat-shrink, fuse and cover the shopping list has: where few are
// bought, and where every wire has its least size and all that meet are told apart by colour.
var kindsBought = map[string]map[string][2]int{
	"kestrel": {"crimps": {30, 41}, "shrink": {4, 8}, "fuses": {7, 11}, "cover": {6, 10}},
	"camper":  {"crimps": {28, 45}, "shrink": {4, 7}, "fuses": {9, 13}, "cover": {8, 11}},
	"tender":  {"crimps": {14, 13}, "shrink": {3, 4}, "fuses": {4, 6}, "cover": {4, 4}},
	"fan":     {"crimps": {4, 10}, "shrink": {1, 1}, "fuses": {2, 2}, "cover": {0, 0}},
	"bike":    {"crimps": {8, 9}, "shrink": {3, 4}, "fuses": {1, 1}, "cover": {3, 3}},
}

// kindsOf counts the lines of a group; of the fuses without their panels and holders.
func kindsOf(r *result.Result, group string) int {
	n := 0
	for _, i := range r.Shopping {
		if i.Group == group && !strings.HasPrefix(i.What, "fuse panel") && !strings.HasPrefix(i.What, "holder ") {
			n++
		}
	}
	return n
}

func loomOf(t *testing.T, name string) string {
	for _, s := range samples.List() {
		if s.Name == name {
			return string(s.Text)
		}
	}
	text, err := os.ReadFile("testdata/few/" + name + ".yaml")
	require.NoError(t, err)
	return string(text)
}

func (m most) holds(t *testing.T, h *harness.Harness, r *result.Result) {
	sizes, thin, copper := map[string]bool{}, map[string]bool{}, 0.0
	for _, x := range r.Reels {
		sizes[x.Gauge.String()] = true
		if rating.AreaOf(x.Gauge) < 9.9 {
			thin[x.Gauge.String()] = true
		}
	}
	require.LessOrEqual(t, len(r.Reels), m.reels, "reels")
	require.LessOrEqual(t, len(sizes), m.sizes, "sizes")
	require.LessOrEqual(t, len(thin), m.thin, "sizes below 10 mm2")
	for i, core := range h.Cores() {
		if !core {
			copper += float64(rating.CopperMass(r.Wires[i].Area, r.Ways[i].Length))
		}
	}
	require.InDelta(t, float64(r.Purchase.Cost.Copper), copper, 0.01*copper, "the reels weigh what their wires do")
	if m.copper > 0 {
		require.LessOrEqual(t, copper, m.copper*leastCopper(h, r), "copper of the reels")
	}
	parts, runs := 0, 0
	for _, p := range r.Purchase.Pairs {
		switch {
		case p.ByRule:
		case p.Part != harness.None:
			parts++
		default:
			runs++
		}
	}
	require.LessOrEqual(t, parts, m.parts, "pairs at parts")
	require.LessOrEqual(t, runs, m.runs, "pairs in runs")
}

// leastCopper weighs the wires on reels in their own least sizes, g.
func leastCopper(h *harness.Harness, r *result.Result) float64 {
	sum := 0.0
	for i, core := range h.Cores() {
		area := r.Wires[i].Area
		if r.Wires[i].Least.Given() {
			area = rating.AreaOf(r.Wires[i].Least)
		}
		if !core {
			sum += float64(rating.CopperMass(area, r.Ways[i].Length))
		}
	}
	return sum
}

// enoughApart is the difference in CIEDE2000 units from which two colours are told apart in good light.
const enoughApart = 12

// distinct holds that wires of two nets which meet where they must look different do, or are
// listed; the model is walked anew. Two grounds and two battery feeds are alike by rule.
func distinct(t *testing.T, h *harness.Harness, r *result.Result) {
	require.Empty(t, unlisted(h, r))
	nets := netsOf(h)
	core := h.Cores()
	for i := range h.Wires {
		for j := range i {
			if nets.Root(int(h.Wires[i].From)) == nets.Root(int(h.Wires[j].From)) || core[i] || core[j] || byCopper(r, i, j) {
				continue
			}
			p := meeting(h, i, j)
			if d := apart(r.Colours[i].Pair, r.Colours[j].Pair); p != "" && d < enoughApart && d > 0 {
				require.True(t, namedAPair(r, nets, h, i, j), "%s and %s at %s: %s and %s are %.1f apart", h.Wires[j].Name, h.Wires[i].Name, p, r.Colours[j].Pair, r.Colours[i].Pair, d)
			}
		}
	}
}

// byCopper tells wires apart that nobody mistakes for each other.
func byCopper(r *result.Result, i, j int) bool {
	a, b := float64(r.Wires[i].Area), float64(r.Wires[j].Area)
	return max(a, b) >= sizeTellsApart*min(a, b)
}

// apart is how far two colours of wire are from each other, plain ones by their base; where both have
// a tracer, or one of them, by what differs most.
func apart(a, b colour.Pair) float64 {
	base := differ(a.Base, b.Base)
	if a.Tracer == b.Tracer {
		return base
	}
	x, y := a.Tracer, b.Tracer
	if x == "" {
		x = a.Base
	}
	if y == "" {
		y = b.Base
	}
	return math.Max(base, differ(x, y))
}

func differ(a, b string) float64 {
	look := func(letters string) sight.Lab {
		r, g, b := colour.RGB(letters)
		return sight.Look(sight.Shade{r, g, b}, sight.Normal)
	}
	return sight.Difference(look(a), look(b))
}

// Every wire that is bought thicker says its least size, and is thicker; what is bought in its
// least size says none.
func TestLeastIsSaidBesideWhatIsBought(t *testing.T) {
	for _, s := range samples.List() {
		h, r := worked.Named(t, s.Name)
		thicker := 0
		for i, w := range r.Wires {
			if !w.Least.Given() {
				require.Empty(t, w.Bought, h.Wires[i].Name)
				continue
			}
			thicker++
			require.Greater(t, float64(w.Area), float64(rating.AreaOf(w.Least)), fmt.Sprint(h.Wires[i].Name, " ", unit.AreaText(w.Area, false)))
		}
		require.Positive(t, thicker, s.Name)
	}
}
