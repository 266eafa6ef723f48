package protect

import (
	"math"
	"slices"

	"example.com/loomfolio/sizing/choose/demand"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/unit"
)

// cranks is how long the starter may turn at once; common practice, no source.
const cranks unit.Second = 10

// starts gives the worst start current through each fuse. Loads behind the same
// last fuse start together when a state has them on together; through a fuse
// further up, one such group starts while all else runs.
func starts(m *demand.Demand) map[harness.ElementID]unit.Start {
	out := map[harness.ElementID]unit.Start{}
	for state := range m.Solvings {
		startsIn(m, state, out)
	}
	return out
}

// Rush is what starts together in a state.
type Rush struct {
	Extra  float64 // A, above what runs
	Lasts  unit.Second
	Fuses  []harness.ElementID // that it passes
	Behind harness.ElementID   // the last of them
}

func startsIn(m *demand.Demand, state int, out map[harness.ElementID]unit.Start) {
	for _, g := range Rushes(m, state) {
		for _, f := range g.Fuses {
			running := math.Abs(m.Solvings[state].State.Amps[f])
			if total := unit.Ampere(running + g.Extra); total > out[f].Amps {
				out[f] = unit.Start{Amps: total, For: g.Lasts}
			}
		}
	}
	crankStarts(m, state, out)
}

// Rushes gathers what starts together in a state, by the last fuse before it.
func Rushes(m *demand.Demand, state int) []Rush {
	var out []Rush
	for i := range m.Draws {
		d := &m.Draws[i]
		if d.State != state {
			continue
		}
		start, fuses := m.StartOf(d), d.Feed.Fuses(m.H)
		if start.Amps <= unit.Ampere(d.Amps) || len(fuses) == 0 {
			continue
		}
		last := fuses[len(fuses)-1]
		j := slices.IndexFunc(out, func(r Rush) bool { return r.Behind == last })
		if j < 0 {
			j = len(out)
			out = append(out, Rush{Fuses: fuses, Behind: last})
		}
		out[j].Extra += float64(start.Amps) - d.Amps
		out[j].Lasts = max(out[j].Lasts, start.For)
	}
	return out
}

// crankStarts lets a fuse in the starter's way carry the cranking current.
func crankStarts(m *demand.Demand, state int, out map[harness.ElementID]unit.Start) {
	for i := range m.Draws {
		d := &m.Draws[i]
		if d.State != state || m.PartOf(d.Load).Kind != harness.Starter {
			continue
		}
		for _, f := range d.Feed.Fuses(m.H) {
			if a := unit.Ampere(math.Abs(m.Solvings[state].State.Amps[f])); a > out[f].Amps {
				out[f] = unit.Start{Amps: a, For: cranks}
			}
		}
	}
}
