// Package rig has what tests of the map and the board of a loom share: looms of the samples
// and made-up ones, and what holds of all.
package rig

import (
	"fmt"
	"math/rand/v2"
	"testing"

	"example.com/loomfolio/layout/loom/laid"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/layout/page"
	"example.com/loomfolio/samples"
	"example.com/loomfolio/samples/worked"
	"example.com/loomfolio/sizing/fit/fitted"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/result"
	"example.com/loomfolio/sizing/unit"
)

// Sample takes a sample through to its results.
func Sample(t testing.TB, name string) page.Ask {
	t.Helper()
	h, r := worked.Named(t, name)
	return page.Of(h, r, h.Sheet.Paper, page.Bench)
}

// SampleNames are the names of all samples.
func SampleNames() []string {
	var out []string
	for _, s := range samples.List() {
		out = append(out, s.Name)
	}
	return out
}

var roomNames = []string{"Nose", "Bulkhead", "Left wing", "Under the long seat", "Dash", "Pod", "Rear panel with lamps", "Boot", "Engine"}

// Grown makes a loom of up to 40 runs, mostly one tree; every fourth has a ring,
// every fifth falls into two.
func Grown(seed uint64) page.Ask {
	rnd := rand.New(rand.NewPCG(seed, 7))
	h := &harness.Harness{Info: harness.Info{Title: "Grown loom"}, Sheet: harness.Sheet{Imperial: seed%3 == 0}, Terminals: []harness.Terminal{{Part: harness.None}}}
	r := &result.Result{}
	n := 1 + rnd.IntN(40)
	for i := range n + 1 {
		h.Places = append(h.Places, harness.Place{ID: harness.PlaceID(i), Key: fmt.Sprintf("p%d", i), Name: fmt.Sprintf("%s %d", roomNames[rnd.IntN(len(roomNames))], i)})
		for range rnd.IntN(9) {
			h.Parts = append(h.Parts, harness.Part{ID: harness.PartID(len(h.Parts)), Ref: fmt.Sprintf("R%d", len(h.Parts)), Kind: harness.Lamp, Place: harness.PlaceID(i)})
		}
	}
	for i := 1; i <= n; i++ {
		if seed%5 == 0 && i == n/2 {
			continue
		}
		addRun(h, r, rnd, harness.PlaceID(max(i-1-rnd.IntN(5), 0)), harness.PlaceID(i))
	}
	if seed%4 == 0 && n > 3 {
		addRun(h, r, rnd, harness.PlaceID(n), 0)
	}
	for i := range h.Runs {
		if rnd.IntN(4) == 0 {
			h.Parts = append(h.Parts, harness.Part{ID: harness.PartID(len(h.Parts)), Ref: fmt.Sprintf("S%d", i), Kind: harness.Splice, Place: harness.None,
				Along: &harness.Along{Run: harness.RunID(i), Distance: h.Runs[i].Length / 3}})
		}
	}
	return page.Of(h, r, "A4", page.Bench)
}

func addRun(h *harness.Harness, r *result.Result, rnd *rand.Rand, from, to harness.PlaceID) {
	covers := []string{"braid", "conduit", "tape", "tube", "none", ""}
	run := harness.Run{ID: harness.RunID(len(h.Runs)), From: from, To: to, Length: unit.Millimetre(100 + 50*rnd.IntN(40)), Cover: covers[rnd.IntN(6)], Flexes: rnd.IntN(6) == 0}
	h.Runs = append(h.Runs, run)
	f := fitted.Run{Run: run.ID, CoverName: run.Cover}
	for range rnd.IntN(20) {
		f.Wires = append(f.Wires, harness.WireID(len(h.Wires)))
		h.Wires = append(h.Wires, harness.Wire{ID: harness.WireID(len(h.Wires)), Name: fmt.Sprintf("%dA", len(h.Wires))})
	}
	f.Diameter = unit.Millimetre(1.5 * float64(len(f.Wires)))
	f.Cover = unit.Millimetre(int(f.Diameter*1.3) + 1)
	r.Runs = append(r.Runs, f)
}

// GrownRun is what lies in a run with so many wires.
func GrownRun(r harness.RunID, wires int) fitted.Run {
	return fitted.Run{Run: r, Wires: make([]harness.WireID, wires), Diameter: 5}
}

// Papers are those that a packet is printed on.
func Papers() []string { return []string{"A4", "letter", "A3", "tabloid"} }

// CheckLegs holds that legs cross nowhere and have the length that the scale asks for.
func CheckLegs(t testing.TB, d laid.Legs, what string) {
	t.Helper()
	for i := range d.Lines {
		for j := range i {
			if d.Shared(i, j) >= 0 {
				continue
			}
			for _, s := range d.Pieces[i] {
				for _, o := range d.Pieces[j] {
					require.False(t, s.Meet(o), "%s: runs %d and %d cross", what, d.Tree.Legs[i].Run, d.Tree.Legs[j].Run)
				}
			}
		}
		if l := d.Tree.Legs[i]; d.Scale > 0 && !l.Closing {
			require.InDelta(t, l.MM, d.Lines[i].Length()*d.Scale, 1e-6, what)
		}
	}
}
