package fuses_test

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/sizing/choose"
	"example.com/loomfolio/sizing/choose/bought/fuses"
	"example.com/loomfolio/sizing/choose/rig"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/unit"
)

// circuit is a fuse F1, F2 … with a load and a ground of its own.
type circuit struct {
	amps    unit.Ampere
	mm      unit.Millimetre // from the fuse to the load
	gauge   string          // given of all wires, mm²
	back    string          // given of the return, mm², where it differs
	body    string
	rating  unit.Ampere // given
	holder  unit.Ampere
	start   unit.Start
	feeder  string // of the fuse that it hangs on; "" for the battery
	breaker bool
}

// vehicle wires circuits to one battery.
func vehicle(circuits ...circuit) *rig.Rig {
	b := rig.New(unit.Metric)
	b.Battery("BAT")
	b.Ground("G")
	b.Wire("N", "BAT.-", "G", 100)
	for i, c := range circuits {
		fuse, load, from := fmt.Sprintf("F%d", i+1), fmt.Sprintf("L%d", i+1), "BAT.+"
		p := b.Fuse(fuse)
		p.Body, p.Rating, p.Holder = c.body, c.rating, c.holder
		if c.breaker {
			p.Kind = harness.Breaker
		}
		if c.feeder != "" {
			from = c.feeder + ".2"
		}
		b.Wire(fuse+"A", from, fuse+".1", 100)
		if c.amps <= 0 {
			continue
		}
		b.Load(load, harness.Heater, c.amps, harness.AsCurrent).Starts = c.start
		b.Wire(fuse+"B", fuse+".2", load+".+", c.mm)
		b.Wire(fuse+"N", load+".-", "G", 200)
		if c.back == "" {
			c.back = c.gauge
		}
		for name, size := range map[string]string{fuse + "A": c.gauge, fuse + "B": c.gauge, fuse + "N": c.back} {
			if size != "" {
				b.Given(name, unit.Gauge{System: unit.Metric, Size: size})
			}
		}
	}
	b.State("on", harness.EngineOff)
	return b
}

// planned settles, plans, settles again, checks what holds always, and gives the ratings.
func planned(t *testing.T, b *rig.Rig, worth unit.Gram) []unit.Ampere {
	t.Helper()
	before := b.Settled(t)
	plan := fuses.Plan(before, worth)
	after, err := choose.Again(b.Ways, before, choose.Plan{Fuses: plan})
	require.NoError(t, err)
	if plan == nil {
		plan = make([]choose.Rated, len(b.H.Elements))
	}
	holds(t, before, after, plan)
	var out []unit.Ampere
	for i := range b.H.Elements {
		if b.H.Elements[i].Kind == harness.FuseLink {
			out = append(out, after.Fuses[i].Rating)
		}
	}
	return out
}

type list = []unit.Ampere

// Descriptions that ask for a larger fuse than something stands: it stays as it is.
func TestNoFuseIsTooLarge(t *testing.T) {
	for _, c := range []struct {
		why      string
		circuits []circuit
		want     list
		worth    unit.Gram
	}{
		{"a given wire does not stand 15 A", []circuit{{amps: 5, mm: 1000, gauge: "0.5"}, {amps: 10, mm: 1000, gauge: "2.5"}}, list{7.5, 15}, fuses.Worth},
		{"a given return does not stand 15 A", []circuit{{amps: 5, mm: 1000, gauge: "2.5", back: "0.5"}, {amps: 10, mm: 1000, gauge: "2.5"}}, list{7.5, 15}, fuses.Worth},
		{"a holder carries 10 A", []circuit{{amps: 5, mm: 1000, gauge: "2.5", holder: 10}, {amps: 10, mm: 1000, gauge: "2.5"}}, list{7.5, 15}, fuses.Worth},
		{"15 A is more than twice 5 A", []circuit{{amps: 3, mm: 1000, gauge: "2.5"}, {amps: 10, mm: 1000, gauge: "2.5"}}, list{5, 15}, fuses.Worth},
		{"a short at the end of a long thin wire draws less than three times 7.5 A", []circuit{{amps: 3, mm: 14500, gauge: "0.5"}, {amps: 5, mm: 1000, gauge: "2.5"}}, list{5, 7.5}, fuses.Worth},
		{"a given feeder stays above its branch", []circuit{{rating: 15, body: "blade"}, {amps: 5, mm: 500, gauge: "2.5", feeder: "F1"}, {amps: 10, mm: 1000, gauge: "2.5"}}, list{15, 7.5, 15}, fuses.Worth},
		{"glass and blade fuses are two kinds", []circuit{{amps: 5, mm: 1000, gauge: "2.5", body: "glass"}, {amps: 7, mm: 1000, gauge: "2.5", body: "blade"}}, list{7.5, 10}, fuses.Worth},
		{"a breaker is no fuse", []circuit{{amps: 5, mm: 1000, gauge: "2.5", breaker: true}, {amps: 7, mm: 1000, gauge: "2.5"}}, list{7.5, 10}, fuses.Worth},
		{"a rating that is given", []circuit{{amps: 5, mm: 1000, gauge: "2.5", rating: 7.5}, {amps: 7, mm: 1000, gauge: "2.5"}}, list{7.5, 10}, fuses.Worth},
		{"no wire grows for nothing", []circuit{{amps: 5, mm: 1000}, {amps: 10, mm: 1000, gauge: "2.5"}}, list{7.5, 15}, 0},
		{"a wire would grow by more copper than a kind is worth", []circuit{{amps: 5, mm: 1000}, {amps: 10, mm: 1000, gauge: "2.5"}}, list{7.5, 15}, 0.1},
	} {
		require.Equal(t, c.want, planned(t, vehicle(c.circuits...), c.worth), c.why)
	}
}

// Descriptions in which one kind serves several circuits: it is bought.
func TestOneKindServesSeveral(t *testing.T) {
	for _, c := range []struct {
		why      string
		circuits []circuit
		want     list
		worth    unit.Gram
	}{
		{"stout wires", []circuit{{amps: 5, mm: 1000, gauge: "2.5"}, {amps: 10, mm: 1000, gauge: "2.5"}}, list{15, 15}, 0},
		{"small ones", []circuit{{amps: 1, mm: 1000}, {amps: 3, mm: 1000}}, list{5, 5}, 0},
		{"three become one", []circuit{{amps: 5, mm: 1000, gauge: "2.5"}, {amps: 7, mm: 1000, gauge: "2.5"}, {amps: 10, mm: 1000, gauge: "2.5"}}, list{15, 15, 15}, 0},
		{"three become two, the middle one down", []circuit{{amps: 3, mm: 1000, gauge: "2.5"}, {amps: 7, mm: 1000, gauge: "2.5"}, {amps: 14, mm: 1000, gauge: "2.5"}}, list{10, 10, 20}, 0},
		{"a given one is bought anyway", []circuit{{amps: 5, mm: 1000, gauge: "2.5"}, {amps: 5, mm: 1000, rating: 10}}, list{10, 10}, 0},
		{"short wires grow", []circuit{{amps: 5, mm: 1000}, {amps: 10, mm: 1000, gauge: "2.5"}}, list{15, 15}, fuses.Worth},
		{"a feeder grows with its branch", []circuit{{body: "blade"}, {amps: 5, mm: 500, gauge: "2.5", feeder: "F1"}, {amps: 2, mm: 500, rating: 3, feeder: "F1"}, {amps: 10, mm: 1000, rating: 15}, {amps: 14, mm: 1000, rating: 20}}, list{20, 15, 3, 15, 20}, fuses.Worth},
		{"maxi fuses", []circuit{{amps: 20, mm: 1000, gauge: "10", body: "maxi"}, {amps: 28, mm: 1000, gauge: "10", body: "maxi"}}, list{40, 40}, 0},
		{"bolted ones", []circuit{{amps: 50, mm: 1000, gauge: "25", body: "bolt"}, {amps: 70, mm: 1000, gauge: "25", body: "bolt"}}, list{100, 100}, 0},
		{"glass ones", []circuit{{amps: 5, mm: 1000, gauge: "2.5", body: "glass"}, {amps: 7, mm: 1000, gauge: "2.5", body: "glass"}}, list{10, 10}, 0},
		{"breakers", []circuit{{amps: 5, mm: 1000, gauge: "2.5", breaker: true}, {amps: 7, mm: 1000, gauge: "2.5", breaker: true}}, list{10, 10}, 0},
	} {
		require.Equal(t, c.want, planned(t, vehicle(c.circuits...), c.worth), c.why)
	}
}

// The shop's own list is bought from first.
func TestOwnStock(t *testing.T) {
	b := vehicle(circuit{amps: 5, mm: 1000, gauge: "2.5"}, circuit{amps: 7, mm: 1000, gauge: "2.5"})
	b.H.Practice.FuseStock = list{7.5, 15}
	require.Equal(t, list{15, 15}, planned(t, b, fuses.Worth))
}

// What stands in the vehicle is not changed, and is no kind to be bought; what is planned is.
func TestKeptFuses(t *testing.T) {
	for state, want := range map[harness.KeptState]list{harness.Built: {7.5, 7.5}, harness.Planned: {10, 10}} {
		b := vehicle(circuit{amps: 5, mm: 1000, gauge: "2.5"}, circuit{amps: 5, mm: 1000, gauge: "2.5"})
		rated := unit.Ampere(7.5)
		if state == harness.Planned {
			rated = 10
		}
		b.H.Elements[b.H.Parts[b.Parts["F1"]].Elements[0]].Kept = harness.KeptFuse{State: state, Rating: rated, Body: "blade"}
		require.Equal(t, want, planned(t, b, fuses.Worth), state)
	}
}

// Looms in which several fuses feed one wire, chargers and batteries in parallel: whatever is
// planned, the engine finds nothing worse.
func TestSeveralSources(t *testing.T) {
	for _, b := range []*rig.Rig{rig.Split(), rig.Charged(), rig.BesideAlternator(60), rig.Wide(12)} {
		planned(t, b, 0)
		planned(t, b, fuses.Worth)
	}
}
