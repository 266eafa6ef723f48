package fuses

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/sizing/choose"
	"example.com/loomfolio/sizing/choose/rig"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/unit"
)

// drawn is a vehicle of up to five circuits drawn by lot, each with a fuse at the battery or
// behind the first.
func drawn(r *rand.Rand, fed bool) *rig.Rig {
	b := rig.New(unit.Metric)
	b.Battery("BAT")
	b.Ground("G")
	b.Wire("N", "BAT.-", "G", 100)
	for i := range 2 + r.IntN(4) {
		fuse, load := fmt.Sprintf("F%d", i+1), fmt.Sprintf("L%d", i+1)
		p := b.Fuse(fuse)
		p.Body = []string{"", "blade", "blade", "maxi"}[r.IntN(4)]
		if r.IntN(6) == 0 {
			p.Rating, p.Body = 10, "blade"
		}
		b.Load(load, harness.Heater, unit.Ampere(0.5+15*r.Float64()), harness.AsCurrent)
		from := "BAT.+"
		if fed && i > 0 && r.IntN(2) == 0 {
			from = "F1.2"
		}
		b.Wire(fuse+"A", from, fuse+".1", 100)
		b.Wire(fuse+"B", fuse+".2", load+".+", unit.Millimetre(300+3000*r.Float64()))
		b.Wire(fuse+"N", load+".-", "G", 200)
	}
	b.State("on", harness.EngineOff)
	return b
}

// Against every way to rate the fuses, each as it is offered, on 60 vehicles drawn by lot: no
// way that the engine's check lets pass comes to less. Where fuses hang on one that may grow
// with them, which of them gives way is a guess: no more than one in ten comes to more.
func TestNoWayComesToLess(t *testing.T) {
	require.Zero(t, missed(t, false))
	require.LessOrEqual(t, missed(t, true), 6)
}

// missed counts the vehicles for which there is a better plan than the one found.
func missed(t *testing.T, fed bool) (n int) {
	gained := 0
	for seed := range uint64(60) {
		r := rand.New(rand.NewPCG(seed, 7))
		s := drawn(r, fed).Settled(t)
		worth := unit.Gram([]float64{0, 20, 150}[seed%3])
		p := newPlanner(s, worth)
		least := math.Inf(1)
		p.every(make([]choose.Rated, len(s.H.Elements)), p.movable(), func(plan []choose.Rated) {
			if sum := p.sum(plan); sum < least-1e-9 && !newPlanner(s, worth).reorder(plan) && len(p.refused(plan)) == 0 {
				least = sum
			}
		})
		got := Plan(s, worth)
		if got == nil {
			got = make([]choose.Rated, len(s.H.Elements))
		} else {
			gained++
		}
		require.GreaterOrEqual(t, p.sum(got), least-1e-6, "seed %d", seed)
		if p.sum(got) > least+1e-6 {
			n++
		}
	}
	require.Greater(t, gained, 15)
	return n
}

// every calls with each way to rate some fuses as they are offered.
func (p *planner) every(plan []choose.Rated, fuses []harness.ElementID, do func([]choose.Rated)) {
	if len(fuses) == 0 {
		do(plan)
		return
	}
	f := fuses[0]
	for _, o := range p.offers(f) {
		for _, r := range o.ratings {
			if plan[f] = (choose.Rated{Rating: r, Body: o.body}); plan[f] == p.now(f) {
				plan[f] = choose.Rated{}
			}
			p.every(plan, fuses[1:], do)
		}
	}
	plan[f] = choose.Rated{}
}

// The fuses of a vehicle of 60 circuits.
func BenchmarkPlan(b *testing.B) {
	s := rig.Wide(60).Settled(b)
	for b.Loop() {
		Plan(s, Worth)
	}
}
