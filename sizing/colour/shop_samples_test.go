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

func TestFewReelsOfTheSamples(t *testing.T) {
	for _, c := range []struct {
		name, set string
		reels     int
	}{
		{"kestrel", "0.5 1 3 6 10 35 50 70", 30},
		{"kestrel", "0.5 1 3 6 35 50 70", 30},
		{"kestrel", "1 2.5 6 35 50 70", 30},
		{"kestrel", "0.5 1 2 3 6 10 35 50 70", 33},
		{"camper", "0.5 1.5 2.5 6 16 35 50", 24},
		{"camper", "0.5 1.5 2.5 6 10 16 25 35 50", 27},
		{"tender", "16 12 10 1", 15},
		{"first", "3 10", 7},
	} {
		l := loomOf(t, sample(t, c.name))
		s := colour.NewShop(l.h, l.ways, nil)
		sizes := map[string]int{}
		for _, b := range l.least {
			sizes[b.Gauge.Size]++
		}
		bought := l.upTo(c.set)
		for _, moves := range []int{20000, 100000} {
			a := asked()
			a.Moves = moves
			f := s.Fewest(bought, a)
			f.Pairs = nil
			t.Logf("%s %s %d: %+v", c.name, c.set, moves, f)
			a.MostPart, a.MostRun = 9, 14
			f = s.Fewest(bought, a)
			f.Pairs = nil
			t.Logf("limits %s %s %d: %+v", c.name, c.set, moves, f)
		}
		a := asked()
		a.MostPart, a.MostRun, a.Moves = 0, 0, 60000
		f := s.Fewest(bought, a)
		f.Pairs = nil
		t.Logf("    apart: %+v   %v", f, sizes)
		a.Numbers = true
		f = s.Fewest(bought, a)
		f.Pairs = nil
		t.Logf("    numbers: %+v", f)
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
