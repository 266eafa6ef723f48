package colour_test

import (
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/samples"
	"example.com/loomfolio/samples/grown"
	"example.com/loomfolio/sizing/check"
	"example.com/loomfolio/sizing/choose"
	"example.com/loomfolio/sizing/choose/reason"
	"example.com/loomfolio/sizing/colour"
	"example.com/loomfolio/sizing/describe"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/route"
	"example.com/loomfolio/sizing/source"
	"example.com/loomfolio/sizing/unit"
)

// loom is a harness with its ways and the reels of its own least sizes.
type loom struct {
	h     *harness.Harness
	ways  []route.Way
	least []colour.Bought
}

func sample(t testing.TB, name string) *harness.Harness {
	for _, s := range samples.List() {
		if s.Name == name {
			d, problems := describe.Parse(name+".yaml", s.Text)
			require.False(t, problems.HasErrors())
			h, _ := check.Check(d)
			return h
		}
	}
	return nil
}

func loomOf(t testing.TB, h *harness.Harness) loom {
	ways, _ := route.Find(h)
	settled, err := choose.Settle(h, ways)
	require.NoError(t, err)
	out := loom{h: h, ways: ways}
	for _, w := range reason.Of(settled).Wires {
		out.least = append(out.least, colour.Bought{Gauge: w.Gauge, Insulation: w.Insulation})
	}
	return out
}

// upTo rounds the least sizes up to those of a set, "0.5 1 3"; cores keep theirs.
func (l loom) upTo(set string) []colour.Bought {
	out := append([]colour.Bought(nil), l.least...)
	cores := l.h.Cores()
	for w := range out {
		for _, s := range strings.Fields(set) {
			if !cores[w] && thickness(s, out[w].Gauge.System) >= thickness(out[w].Gauge.Size, out[w].Gauge.System) {
				out[w].Gauge.Size = s
				break
			}
		}
	}
	return out
}

func thickness(size string, system unit.System) float64 {
	if over, ok := strings.CutSuffix(size, "/0"); ok {
		n, _ := strconv.ParseFloat(over, 64)
		return n - 1
	}
	n, _ := strconv.ParseFloat(size, 64)
	if system != unit.Metric {
		return -n
	}
	return n
}

func asked() colour.Ask {
	return colour.Ask{Tracer: 0.5, PartPair: 0.25, RunPair: 0.06, MostPart: -1, MostRun: -1, Moves: 20000}
}

// The samples with a few sizes each: so many reels with a handful of pairs on the sleeve; and with
// none, within 5 % of the bound (one reel where that is less), or 10 % where only parts count.
func TestFewReelsOfTheSamples(t *testing.T) {
	for _, c := range []struct {
		name, set string
		reels     int
	}{
		{"kestrel", "0.5 1 3 6 10 35 50 70", 30},
		{"camper", "0.5 1.5 2.5 6 16 35 50", 24},
		{"tender", "16 12 10 1", 15},
		{"first", "3 10", 7},
	} {
		l := loomOf(t, sample(t, c.name))
		s, bought := colour.NewShop(l.h, l.ways, nil), l.upTo(c.set)
		a := asked()
		a.MostPart, a.MostRun = 9, 14
		f := s.Fewest(bought, a)
		t.Logf("%s, sizes %s: %d reels, %d with tracer, pairs %d at parts, %d in runs, %d and %d by rule", c.name, c.set, f.Reels, f.Tracers, f.PartPairs, f.RunPairs, f.RuleParts, f.RuleRuns)
		require.LessOrEqual(t, f.Reels, c.reels, c.name)
		require.LessOrEqual(t, f.PartPairs, 9, c.name)
		require.LessOrEqual(t, f.RunPairs, 14, c.name)
		settledAs(t, s, bought, f, a)
		a.MostPart, a.MostRun = 0, 0
		f = s.Fewest(bought, a)
		t.Logf("all apart: %d reels, bound %d", f.Reels, f.Bound)
		require.LessOrEqual(t, f.Reels, f.Bound+max(1, f.Bound/20), c.name)
		require.Zero(t, f.PartPairs+f.RunPairs, c.name)
		a.RunPair, a.MostRun = 0, -1
		f = s.Fewest(bought, a)
		t.Logf("apart at parts: %d reels, bound %d", f.Reels, f.Bound)
		require.LessOrEqual(t, f.Reels, f.Bound+max(1, f.Bound/10), c.name)
		require.Zero(t, f.PartPairs, c.name)
	}
}

// settledAs holds that the finished colours are those that were found, that every pair that must
// differ is told by colour or listed, and that no more is found fault with than where colours are many.
func settledAs(t *testing.T, s *colour.Shop, bought []colour.Bought, f colour.Found, a colour.Ask) {
	choices, report, alike, bounds, problems := s.Settle(bought, f.Pairs, a)
	rule, reels := 0, 0
	for _, p := range alike {
		require.Less(t, p.Distance, 12.0)
		if p.ByRule {
			rule++
		}
	}
	for _, b := range bounds {
		reels += b.Reels
		require.LessOrEqual(t, b.Least, 25)
	}
	require.Equal(t, f.Reels, reels)
	require.Equal(t, f.RuleParts+f.RuleRuns, rule)
	require.Len(t, alike, f.PartPairs+f.RunPairs+rule)
	require.GreaterOrEqual(t, report.Smallest, 12.0)
	for w, c := range choices {
		require.Equal(t, f.Pairs[w], c.Pair)
		require.NotEmpty(t, c.Reason)
	}
	for _, p := range problems {
		require.NotEqual(t, source.Warning, p.Level, p.Summary)
		require.NotEqual(t, "colours-repeat", p.Slug)
	}
}

func BenchmarkFewest(b *testing.B) {
	l := loomOf(b, sample(b, "kestrel"))
	bought := l.upTo("0.5 1 3 6 10 35 50 70")
	s := colour.NewShop(l.h, l.ways, nil)
	f := s.Fewest(bought, asked())
	b.Run("prepare", func(b *testing.B) {
		for b.Loop() {
			colour.NewShop(l.h, l.ways, nil)
		}
	})
	b.Run("search", func(b *testing.B) {
		for b.Loop() {
			s.Fewest(bought, asked())
		}
	})
	b.Run("measure", func(b *testing.B) {
		b.ReportAllocs()
		for b.Loop() {
			s.Of(bought, f.Pairs, asked())
		}
	})
}

func BenchmarkFewestGrown(b *testing.B) {
	l := loomOf(b, grown.Harness(b, 1000, 1))
	b.Run("prepare", func(b *testing.B) {
		for b.Loop() {
			colour.NewShop(l.h, l.ways, nil)
		}
	})
	s := colour.NewShop(l.h, l.ways, nil)
	b.Run("search", func(b *testing.B) {
		for b.Loop() {
			s.Fewest(l.least, asked())
		}
	})
}
