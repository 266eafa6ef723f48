package ampacity

import (
	"cmp"
	"math"
	"slices"

	"example.com/loomfolio/sizing/choose/shelf"
	"example.com/loomfolio/sizing/choose/trial"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/heat"
	"example.com/loomfolio/sizing/network"
	"example.com/loomfolio/sizing/rating"
	"example.com/loomfolio/sizing/unit"
)

// spot is where a wire lies in company: a run or a cable with its wires, in one state.
type spot struct {
	wires  []harness.WireID
	bundle *heat.Loaded
	load   float64 // W/m of all wires for each mm of the bundle's diameter
	most   float64 // W/m of all wires, as if at 20 C
	amps   []unit.Ampere
}

// lying is a wire's place in a spot.
type lying struct{ spot, index int }

// warmth computes what wires may carry and how warm they get, from the heat
// balance of package heat, with the sizes and the solved states of one round.
// Every run is taken in its hottest state: the one in which the currents of all
// its wires make most heat in it.
type warmth struct {
	t       *trial.Solved
	single  *single
	spots   []spot    // by RunID, then the cables; no bundle: fewer than two wires lie there
	of      [][]lying // by WireID: the spots that it passes, those that make most heat first
	carried map[carryKey]float64
}

type carryKey struct {
	wire  harness.WireID
	size  *shelf.Size
	limit unit.Celsius
}

func newWarmth(t *trial.Solved, alone *single) *warmth {
	w := &warmth{t: t, single: alone, of: make([][]lying, len(t.H.Wires)), carried: map[carryKey]float64{}}
	made := heats(t)
	for run, wires := range t.Runs {
		w.addSpot(w.spotOf(wires, made, func(diameter unit.Millimetre) heat.Bundle {
			return heat.Bundle{Air: w.air(harness.RunID(run)), Diameter: diameter, Cover: w.cover(harness.RunID(run), diameter)}
		}))
	}
	for i := range t.H.Units {
		if u := &t.H.Units[i]; u.Kind == harness.Cabled {
			w.addSpot(w.spotOf(u.Wires, made, func(diameter unit.Millimetre) heat.Bundle { return w.cable(u, diameter) }))
		}
	}
	for _, places := range w.of {
		slices.SortStableFunc(places, func(a, b lying) int { return cmp.Compare(w.spots[b.spot].load, w.spots[a.spot].load) })
	}
	return w
}

func (w *warmth) addSpot(at spot) {
	if at.bundle != nil {
		for i, id := range at.wires {
			w.of[id] = append(w.of[id], lying{len(w.spots), i})
		}
	}
	w.spots = append(w.spots, at)
}

// cable counts the cores of a cable as a bundle under its sheath, in the warmest
// place that one of them passes; on the safe side, what lies beside it in its runs is
// counted apart, with the cores as wires of the run.
func (w *warmth) cable(u *harness.Unit, diameter unit.Millimetre) heat.Bundle {
	air := unit.Celsius(-100)
	for _, id := range u.Wires {
		air = max(air, w.t.Places[id].Celsius)
	}
	return heat.Bundle{Air: air, Diameter: max(diameter, u.Type.Diameter-2*u.Type.Sheath), Cover: heat.Cover{Wall: u.Type.Sheath}}
}

// heats gives what each wire makes in each solving, in W/m by solving and WireID, as
// if at 20 C; nil while cranking, which takes seconds only.
func heats(t *trial.Solved) [][]float64 {
	out := make([][]float64, len(t.Solvings))
	for i := range t.Solvings {
		if t.Solvings[i].Cranking {
			continue
		}
		out[i] = make([]float64, len(t.H.Wires))
		for w := range out[i] {
			a := float64(flowing(&t.Solvings[i].State, harness.WireID(w)))
			out[i][w] = a * a * t.Size(harness.WireID(w)).Ohms
		}
	}
	return out
}

// spotOf builds the bundle of some wires in the state in which it makes most heat.
func (w *warmth) spotOf(wires []harness.WireID, made [][]float64, bundle func(unit.Millimetre) heat.Bundle) spot {
	out := spot{wires: wires}
	if len(wires) < 2 {
		return out
	}
	most, state := hottestOf(wires, made)
	diameters, of, amps := make([]unit.Millimetre, len(wires)), make([]int, len(wires)), make([]unit.Ampere, len(wires))
	for i, id := range wires {
		z := w.t.Size(id)
		diameters[i], of[i] = z.Over, z.Kind
		if state >= 0 {
			amps[i] = flowing(&w.t.Solvings[state].State, id)
		}
	}
	diameter, _ := rating.BundleDiameter(diameters)
	b := bundle(diameter)
	out.bundle = b.Prepare(w.t.Kinds, of).Carrying(amps)
	out.load, out.most, out.amps = most/float64(b.Diameter), most, amps
	return out
}

// hottestOf gives the most heat that some wires make together, and the first
// solving in which they do, -1 for none.
func hottestOf(wires []harness.WireID, made [][]float64) (most float64, state int) {
	most, state = -1, -1
	for i, by := range made {
		if by == nil {
			continue
		}
		sum := 0.0
		for _, id := range wires {
			sum += by[id]
		}
		if sum > most {
			most, state = sum, i
		}
	}
	return most, state
}

// air is the warmer of a run's two places.
func (w *warmth) air(run harness.RunID) unit.Celsius {
	r := w.t.H.Runs[run]
	return max(w.t.H.Places[r.From].Ambient, w.t.H.Places[r.To].Ambient)
}

// Walls of covers in mm, and the air under a loose one; common practice, no source.
const (
	tapeWall  = 0.4
	tubeWall  = 0.8
	looseness = 8 // the bundle's diameter over the gap: AC 43.13-1B 11-249 asks for a bore 25 % wider
)

// cover is what is drawn over a run's bundle.
func (w *warmth) cover(run harness.RunID, bundle unit.Millimetre) heat.Cover {
	switch w.t.H.Runs[run].Cover {
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
func (w *warmth) upTo(id harness.WireID, z *shelf.Size, limit unit.Celsius) float64 {
	key := carryKey{id, z, limit}
	if a, ok := w.carried[key]; ok {
		return a
	}
	least := w.alone(id, z, limit)
	for _, at := range w.of[id] {
		b := w.spots[at.spot].bundle
		if more, _ := b.Carries(at.index, z.Kind, least, limit); !more {
			least = math.Min(least, float64(b.Capacity(at.index, z.Kind, limit)))
		}
	}
	w.carried[key] = least
	return least
}

// carries tells whether a size of a wire may carry a current for ever up to a limit:
// whether upTo is no less.
func (w *warmth) carries(id harness.WireID, z *shelf.Size, amps float64, limit unit.Celsius) bool {
	if w.alone(id, z, limit) < amps {
		return false
	}
	for _, at := range w.of[id] {
		b := w.spots[at.spot].bundle
		yes, known := b.Carries(at.index, z.Kind, amps, limit)
		if !known {
			yes = float64(b.Capacity(at.index, z.Kind, limit)) >= amps
		}
		if !yes {
			return false
		}
	}
	return true
}

// alone is upTo with no other wire beside it.
func (w *warmth) alone(id harness.WireID, z *shelf.Size, limit unit.Celsius) float64 {
	return w.single.upTo(z.Kind, limit, w.t.Places[id].Celsius)
}

// temperatures gives how warm the conductors get in a solved state, by WireID:
// alone in the hottest place that each passes, or in the hottest of its runs
// beside the others' currents.
func (w *warmth) temperatures(st *network.State) []unit.Celsius {
	out := make([]unit.Celsius, len(w.of))
	for i := range out {
		out[i] = w.t.Places[i].Celsius
	}
	for i := range w.spots {
		if at := &w.spots[i]; at.bundle != nil {
			at.warm(st, out)
		}
	}
	for i := range out {
		id := harness.WireID(i)
		if a := flowing(st, id); a > warms {
			out[i] = max(out[i], w.single.warmed(w.t.Size(id).Kind, a, w.t.Places[i].Celsius, out[i]))
		}
	}
	return out
}

// warm raises the temperatures of the wires of a spot to what they get in a state.
func (at *spot) warm(st *network.State, out []unit.Celsius) {
	amps, any := make([]unit.Ampere, len(at.wires)), false
	for j, id := range at.wires {
		amps[j] = flowing(st, id)
		any = any || amps[j] > warms
	}
	if !any {
		return
	}
	for j, t := range at.bundle.Conductors(amps) {
		out[at.wires[j]] = max(out[at.wires[j]], t)
	}
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
