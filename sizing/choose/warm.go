package choose

import (
	"math"

	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/heat"
	"example.com/loomfolio/sizing/network"
	"example.com/loomfolio/sizing/rating"
	"example.com/loomfolio/sizing/unit"
)

// spot is where a wire lies in company: a run or a cable with its wires, in one state.
type spot struct {
	wires  []harness.WireID
	bundle heat.Bundle
	amps   []unit.Ampere
}

// warmth computes what wires may carry and how warm they get, from the heat
// balance of package heat, with the sizes and the solved states of one round.
// Every run is taken in its hottest state: the one in which the currents of all
// its wires make most heat in it.
type warmth struct {
	s       *sizer
	spots   []spot  // by RunID, then the cables; no wires: nothing carries current there
	of      [][]int // by WireID: the runs that it passes, and its cable
	carried map[carryKey]float64
}

type carryKey struct {
	wire  harness.WireID
	size  *size
	limit unit.Celsius
}

func (s *sizer) newWarmth() *warmth {
	w := &warmth{s: s, spots: make([]spot, len(s.h.Runs)), of: make([][]int, len(s.h.Wires)), carried: map[carryKey]float64{}}
	for run, wires := range s.inRuns() {
		if len(wires) == 0 {
			continue
		}
		for _, wire := range wires {
			w.of[wire] = append(w.of[wire], run)
		}
		w.spots[run] = w.hottest(wires, w.air(harness.RunID(run)))
		w.spots[run].bundle.Cover = w.cover(harness.RunID(run), w.spots[run].bundle.Diameter)
	}
	for i := range s.h.Units {
		if u := &s.h.Units[i]; u.Kind == harness.Cabled {
			w.addCable(u)
		}
	}
	return w
}

// addCable counts the cores of a cable as a bundle under its sheath, in the warmest
// place that one of them passes; on the safe side, what lies beside it in its runs is
// counted apart, with the cores as wires of the run.
func (w *warmth) addCable(u *harness.Unit) {
	air := unit.Celsius(-100)
	for _, id := range u.Wires {
		w.of[id] = append(w.of[id], len(w.spots))
		air = max(air, w.s.places[id].celsius)
	}
	at := w.hottest(u.Wires, air)
	at.bundle.Diameter = max(at.bundle.Diameter, u.Type.Diameter-2*u.Type.Sheath)
	at.bundle.Cover = heat.Cover{Wall: u.Type.Sheath}
	w.spots = append(w.spots, at)
}

// hottest builds the bundle of some wires in the state in which it makes most heat.
func (w *warmth) hottest(wires []harness.WireID, air unit.Celsius) spot {
	best, most := -1.0, (*network.State)(nil)
	w.s.each(func(st *network.State, cranking bool) {
		if cranking {
			return // seconds only
		}
		sum := 0.0
		for _, id := range wires {
			a := float64(flowing(st, id))
			sum += a * a * w.s.size(id).ohms
		}
		if sum > best {
			best, most = sum, st
		}
	})
	out := spot{wires: wires, bundle: heat.Bundle{Air: air}}
	var diameters []unit.Millimetre
	for _, id := range wires {
		z := w.s.size(id)
		diameters = append(diameters, z.over)
		out.bundle.Wires = append(out.bundle.Wires, section(z))
		amps := unit.Ampere(0)
		if most != nil {
			amps = flowing(most, id)
		}
		out.amps = append(out.amps, amps)
	}
	out.bundle.Diameter, _ = rating.BundleDiameter(diameters)
	return out
}

func section(z *size) heat.Wire {
	return heat.Wire{Conductor: z.conductor.Copper, Outside: z.over, Resistance: unit.OhmPerMetre(z.ohms)}
}

// air is the warmer of a run's two places.
func (w *warmth) air(run harness.RunID) unit.Celsius {
	r := w.s.h.Runs[run]
	return max(w.s.h.Places[r.From].Ambient, w.s.h.Places[r.To].Ambient)
}

// Walls of covers in mm, and the air under a loose one; common practice, no source.
const (
	tapeWall  = 0.4
	tubeWall  = 0.8
	looseness = 8 // the bundle's diameter over the gap: AC 43.13-1B 11-249 asks for a bore 25 % wider
)

// cover is what is drawn over a run's bundle.
func (w *warmth) cover(run harness.RunID, bundle unit.Millimetre) heat.Cover {
	switch w.s.h.Runs[run].Cover {
	case "", "none":
		return heat.Cover{}
	case "tape":
		return heat.Cover{Wall: tapeWall}
	case "shrink":
		return heat.Cover{Wall: tubeWall}
	}
	return heat.Cover{Wall: tubeWall, Gap: bundle / looseness}
}

// upTo gives what a size of a wire may carry for ever up to a limit of
// temperature: the least of what it may carry alone in the hottest place that it
// passes, and in each of its runs beside the currents of the others there.
func (w *warmth) upTo(id harness.WireID, z *size, limit unit.Celsius) float64 {
	key := carryKey{id, z, limit}
	if a, ok := w.carried[key]; ok {
		return a
	}
	least := w.alone(id, z, limit)
	for _, run := range w.of[id] {
		at := &w.spots[run]
		if len(at.wires) < 2 {
			continue
		}
		me := at.index(id)
		b := at.bundle
		b.Wires = append([]heat.Wire(nil), b.Wires...)
		b.Wires[me] = section(z)
		least = math.Min(least, float64(b.Capacity(me, at.amps, limit)))
	}
	w.carried[key] = least
	return least
}

// alone is the same with no other wire beside it.
func (w *warmth) alone(id harness.WireID, z *size, limit unit.Celsius) float64 {
	return float64(section(z).Current(limit, w.s.places[id].celsius))
}

func (p *spot) index(id harness.WireID) int {
	for i, w := range p.wires {
		if w == id {
			return i
		}
	}
	return -1
}

// temperatures gives how warm the conductors get in a solved state, by WireID:
// alone in the hottest place that each passes, or in the hottest of its runs
// beside the others' currents.
func (w *warmth) temperatures(st *network.State) []unit.Celsius {
	out := make([]unit.Celsius, len(w.of))
	for i := range out {
		id := harness.WireID(i)
		out[i] = w.s.places[i].celsius
		if a := flowing(st, id); a > warms {
			out[i] = section(w.s.size(id)).Temperature(a, out[i])
		}
	}
	for i := range w.spots {
		at := &w.spots[i]
		if len(at.wires) < 2 {
			continue
		}
		amps, any := make([]unit.Ampere, len(at.wires)), false
		for j, id := range at.wires {
			amps[j] = flowing(st, id)
			any = any || amps[j] > warms
		}
		if !any {
			continue
		}
		for j, t := range at.bundle.Balance(amps).Conductors {
			out[at.wires[j]] = max(out[at.wires[j]], t)
		}
	}
	return out
}

// warms is the least current that is looked at for heat: a tenth of an ampere
// warms the thinnest wire of the tables, 0.13 mm2, by less than half a kelvin.
const warms unit.Ampere = 0.1

// flowing gives a wire's current without its sign, 0 where it floats.
func flowing(st *network.State, w harness.WireID) unit.Ampere {
	if a := st.WireAmps[w]; !math.IsNaN(a) {
		return unit.Ampere(math.Abs(a))
	}
	return 0
}
