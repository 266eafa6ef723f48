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

type rush struct {
	extra  float64
	lasts  unit.Second
	fuses  []harness.ElementID
	behind harness.ElementID
}

func startsIn(m *demand.Demand, state int, out map[harness.ElementID]unit.Start) {
	for _, g := range rushes(m, state) {
		for _, f := range g.fuses {
			running := math.Abs(m.Solvings[state].State.Amps[f])
			if total := unit.Ampere(running + g.extra); total > out[f].Amps {
				out[f] = unit.Start{Amps: total, For: g.lasts}
			}
		}
	}
	crankStarts(m, state, out)
}

// rushes gathers what starts together in a state, by the last fuse before it.
func rushes(m *demand.Demand, state int) []rush {
	var out []rush
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
		j := slices.IndexFunc(out, func(r rush) bool { return r.behind == last })
		if j < 0 {
			j = len(out)
			out = append(out, rush{fuses: fuses, behind: last})
		}
		out[j].extra += float64(start.Amps) - d.Amps
		out[j].lasts = max(out[j].lasts, start.For)
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
