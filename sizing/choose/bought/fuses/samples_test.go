package fuses_test

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/samples"
	"example.com/loomfolio/sizing/check"
	"example.com/loomfolio/sizing/choose"
	"example.com/loomfolio/sizing/choose/bought/fuses"
	"example.com/loomfolio/sizing/choose/finding"
	"example.com/loomfolio/sizing/choose/misuse"
	"example.com/loomfolio/sizing/choose/protect"
	"example.com/loomfolio/sizing/choose/reason"
	"example.com/loomfolio/sizing/describe"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/polarity"
	"example.com/loomfolio/sizing/route"
	"example.com/loomfolio/sizing/unit"
)

// settled settles a sample on few sizes of wire, or on all.
func settled(t *testing.T, x samples.Sample, sizes ...string) ([]route.Way, *choose.Settled, choose.Plan) {
	t.Helper()
	written, _ := describe.Parse(x.Name, x.Text)
	h, _ := check.Check(written)
	h, _ = polarity.Mend(h)
	ways, _ := route.Find(h)
	s, err := choose.Settle(h, ways)
	require.NoError(t, err)
	if len(sizes) == 0 {
		return ways, s, choose.Plan{}
	}
	plan := choose.Plan{Sizes: map[string][]unit.Gauge{}}
	for _, key := range s.Keys {
		plan.Sizes[key] = nil
		for _, z := range sizes {
			plan.Sizes[key] = append(plan.Sizes[key], unit.Gauge{System: h.Sheet.Gauge, Size: z})
		}
	}
	s, err = choose.Again(ways, s, plan)
	require.NoError(t, err)
	return ways, s, plan
}

// kinds counts the fuses by kind.
func kinds(s *choose.Settled) map[string]int {
	out := map[string]int{}
	for i := range s.H.Elements {
		e := &s.H.Elements[i]
		if f := &s.Fuses[i]; e.Kind == harness.FuseLink && f.Rating > 0 && !(protect.Seat{H: s.H, E: e}).Spare() {
			out[fmt.Sprintf("%s %s", f.Body, f.Rating)]++
		}
	}
	return out
}

// found counts what is found wrong, advice too.
func found(s *choose.Settled) map[string]int {
	c, out := reason.Of(s), map[string]int{}
	for _, p := range append(finding.All(s, &c), misuse.All(s, s, &c)...) {
		out[fmt.Sprintf("%s %s", p.Level, p.Slug)]++
	}
	return out
}

// Few kinds on all samples, on all sizes and on few: fewer than before, none that no list names,
// nothing worse by the engine's own findings, every wire safe behind what is bought.
func TestSamples(t *testing.T) {
	few := map[string][]string{
		"kestrel": {"0.5", "1", "3", "6", "35", "50", "70"}, "camper": {"0.5", "1.5", "2.5", "6", "16", "35", "50"},
		"tender": {"16", "14", "10", "2"},
	}
	most := map[string]int{"first": 3, "kestrel": 6, "tender": 5, "camper": 9}
	for _, x := range samples.List() {
		for _, sizes := range [][]string{nil, few[x.Name]} {
			if sizes == nil && few[x.Name] != nil && testing.Short() {
				continue
			}
			ways, before, plan := settled(t, x, sizes...)
			plan.Fuses = fuses.Plan(before, fuses.Worth)
			require.NotNil(t, plan.Fuses)
			after, err := choose.Again(ways, before, plan)
			require.NoError(t, err)
			was, now := kinds(before), kinds(after)
			require.LessOrEqual(t, len(now), most[x.Name], "%s: %v, before %v", x.Name, now, was)
			require.Less(t, len(now), len(was), x.Name)
			holds(t, before, after, plan.Fuses)
		}
	}
}

// holds checks what was settled with a plan of fuses.
func holds(t *testing.T, before, after *choose.Settled, plan []choose.Rated) {
	t.Helper()
	worse := found(after)
	for slug, n := range found(before) {
		worse[slug] -= n
	}
	for slug, n := range worse {
		require.LessOrEqual(t, n, 0, slug)
	}
	for i := range after.H.Elements {
		e, f := &after.H.Elements[i], &after.Fuses[i]
		if e.Kind != harness.FuseLink || f.Rating <= 0 {
			continue
		}
		seat := protect.Seat{H: after.H, E: e}
		require.True(t, f.Given || f.Kept || seat.Named(f.Body, f.Rating), "%s: %s %s", e.Name, f.Body, f.Rating)
		require.GreaterOrEqual(t, f.Rating, before.Fuses[i].Rating, e.Name)
		require.LessOrEqual(t, f.Rating, max(fuses.Small, fuses.Near*before.Fuses[i].Rating), e.Name)
		if plan[i].Rating > 0 {
			require.Equal(t, plan[i], choose.Rated{Rating: f.Rating, Body: f.Body}, e.Name)
			require.Equal(t, before.Fuses[i].Rating, f.Least, e.Name)
		}
	}
	for w, guards := range after.Stand {
		id := harness.WireID(w)
		for _, f := range guards {
			if before.Stands(id, before.Size(id), f) {
				require.True(t, after.Stands(id, after.Size(id), f), "%s behind %s", after.H.Wires[w].Name, after.H.Elements[f].Name)
			}
		}
	}
}
