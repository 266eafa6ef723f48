package work

import (
	"fmt"
	"math"
	"strings"

	"example.com/loomfolio/samples/adversary"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/source"
)

// The independent bound. A wire alone in free air is never hotter than the same wire in
// a loom, so what fails here fails anywhere:
//
//   - natural convection from a horizontal cylinder: Churchill and Chu, Int. J. Heat Mass
//     Transfer 18 (1975) 1049, Nu = (0.60 + 0.387 Ra^(1/6) / (1 + (0.559/Pr)^(9/16))^(8/27))²
//   - radiation with emissivity 0.9 and Stefan and Boltzmann's constant (CODATA 2018)
//   - copper of the International Annealed Copper Standard: 1/58 ohm mm²/m at 20 °C,
//     0.00393 per kelvin (IEC 60028)
//   - air at one atmosphere: Sutherland's law for viscosity and conductivity, Pr 0.71
const (
	boltzmann  = 5.670374419e-8
	emissivity = 0.9
	iacs       = 1. / 58 // ohm mm²/m at 20 °C
	perKelvin  = 0.00393
	prandtl    = 0.71
)

// lost is what a metre of a horizontal cylinder gives off, in watts: diameter in
// metres, temperatures in °C.
func lost(diameter, surface, air float64) float64 {
	film := (surface+air)/2 + 273.15
	viscosity := 1.458e-6 * math.Pow(film, 1.5) / (film + 110.4) / (101325 / (287.05 * film))
	conductivity := 2.495e-3 * math.Pow(film, 1.5) / (film + 194)
	rayleigh := 9.80665 / film * (surface - air) * math.Pow(diameter, 3) / (viscosity * viscosity) * prandtl
	nusselt := 0.60 + 0.387*math.Pow(rayleigh, 1./6)/math.Pow(1+math.Pow(0.559/prandtl, 9./16), 8./27)
	convection := nusselt * nusselt * conductivity / diameter * (surface - air)
	radiation := emissivity * boltzmann * (math.Pow(surface+273.15, 4) - math.Pow(air+273.15, 4))
	return math.Pi * diameter * (convection + radiation)
}

// bears is the current at which a wire alone in free air reaches a temperature: copper
// in mm², diameter over the insulation in mm.
func bears(copper, diameter, class, air float64) float64 {
	if class <= air {
		return 0
	}
	ohms := iacs * (1 + perKelvin*(class-20)) / copper
	return math.Sqrt(lost(diameter/1000, class, air) / ohms)
}

// near is how far a wire may pass the bound before it counts: the tables' own rounding.
const near = 1.03

// bound holds what is asked of the wires of one result.
type bound struct {
	*web
	work *Work
	told string // all errors and warnings
	out  []string
}

// unsafeWires gives every wire that the bound does not pass and no error or warning
// names, with the cause.
func unsafeWires(w *Work) []string {
	b := &bound{web: newWeb(w), work: w}
	for _, p := range w.Result.Findings {
		if p.Level != source.Advice {
			b.told += " " + p.Slug + " " + p.Summary + " " + p.Detail + " " + strings.Join(p.Subjects, " ") + ";"
		}
	}
	b.drawn()
	b.summed()
	b.letThrough()
	b.returns()
	return b.out
}

// fail notes a wire, unless the program itself says that it is wrong.
func (b *bound) fail(w harness.WireID, format string, args ...any) {
	wire := &b.h.Wires[w]
	if hasWord(b.told, wire.Name) {
		return
	}
	c := b.work.Result.Wires[w]
	said := fmt.Sprintf("wire %s %s > %s (%.2f mm²): ", wire.Name, b.h.Terminals[wire.From].Full, b.h.Terminals[wire.To].Full, float64(c.Area))
	said += fmt.Sprintf(format, args...)
	for _, x := range b.out {
		if strings.HasPrefix(x, fmt.Sprintf("wire %s ", wire.Name)) {
			return
		}
	}
	b.out = append(b.out, said)
}

// carries is the current that a wire carries alone in the air of the hotter of its ends.
func (b *bound) carries(w harness.WireID) float64 {
	c, wire := b.work.Result.Wires[w], &b.h.Wires[w]
	return bears(float64(c.Area), float64(c.Diameter), float64(c.Class), max(b.air(wire.From), b.air(wire.To)))
}

// air is the temperature at a terminal: given, or 50 °C in an engine bay and 30 °C
// elsewhere (33 CFR 183.425 table 5).
func (b *bound) air(t harness.TerminalID) float64 {
	p := b.h.PartOf(t)
	if p == nil || p.Place == harness.None {
		return 30
	}
	place := &b.h.Places[p.Place]
	switch {
	case place.AmbientGiven:
		return float64(place.Ambient)
	case place.Zone == "engine":
		return 50
	}
	return 30
}

// drawn: each load alone, whether or not a state turns it on, along its whole path.
func (b *bound) drawn() {
	for _, l := range b.loads {
		feeds, returns := b.paths(l)
		if len(feeds) == 0 || len(returns) == 0 {
			continue
		}
		needed := append(indispensable(feeds), indispensable(returns)...)
		lost, limit := 0., 0.
		for _, w := range needed {
			if b.carries(w)*near < l.amps && !l.cranks {
				b.fail(w, "%s draws %.1f A, alone in free air it carries %.1f A", l.name, l.amps, b.carries(w))
			}
			lost += l.amps * iacs * b.length(w) / float64(b.work.Result.Wires[w].Area)
			limit = max(limit, b.limit(w))
		}
		if l.coil == harness.None && lost > limit*1.05 && !strings.Contains(b.told, "drop-over-limit") && !strings.Contains(b.told, "gauge-given-too-thin") && !strings.Contains(b.told, "no-return-to-source") {
			b.fail(needed[len(needed)-1], "%s loses %.2f V alone at 20 °C, %.2f V are allowed", l.name, lost, limit)
		}
	}
}

func (b *bound) length(w harness.WireID) float64 { return float64(b.work.Result.Ways[w].Length) / 1000 }

// limit is the drop that a wire's circuit allows, in volts.
func (b *bound) limit(w harness.WireID) float64 {
	class := b.h.Circuits[b.h.Wires[w].Circuit].Class
	d, ok := b.h.Practice.Drop[class]
	if !ok {
		d = b.h.Practice.Drop["default"]
	}
	return float64(d.Of(b.h.System.Volts))
}

// summed: in each state of the description the sum of the loads that are on.
func (b *bound) summed() {
	for i := range b.h.States {
		st := &b.h.States[i]
		if st.Engine == harness.EngineCranking {
			continue
		}
		sum := map[harness.WireID]float64{}
		for _, l := range b.loads {
			feeds, returns := b.pathsIn(l, st)
			if l.cranks || len(feeds) == 0 || len(returns) == 0 {
				continue
			}
			for _, w := range append(always(feeds), always(returns)...) {
				sum[w] += l.amps
			}
		}
		for w := range b.h.Wires {
			id := harness.WireID(w)
			if b.carries(id)*near < sum[id] {
				b.fail(id, "its loads draw %.1f A in %q, alone in free air it carries %.1f A", sum[id], st.Name, b.carries(id))
			}
		}
	}
}

// letThrough: what all feeders of either end let flow continuously into a fault at the
// other, 110 % of a fuse's rating (ISO 8820-3: no opening within 100 h at that). Where
// the wire is a short tap (33 CFR 183.455: 1016 mm in a sheath) no more than passes the
// fuses at its other end. The cable of the starter has no fuse, and is exempt.
func (b *bound) letThrough() {
	if strings.Contains(b.told, "unprotected-feed") || strings.Contains(b.told, "isolator-bypassed") {
		return // it is said that a fuse is missing, or passed by
	}
	for _, st := range b.positions() {
		for i := range b.h.Wires {
			w := harness.WireID(i)
			wire := &b.h.Wires[w]
			amps := max(b.through(w, wire.From, wire.To, st), b.through(w, wire.To, wire.From, st))
			switch {
			case math.IsInf(amps, 1):
				if !b.cranking[w] {
					b.fail(w, "no fuse limits what flows through it")
				}
			case b.carries(w)*near < amps:
				b.fail(w, "its feeders let %.1f A flow in %q, alone in free air it carries %.1f A", amps, st.Name, b.carries(w))
			}
		}
	}
}

// through is what may flow continuously through a wire into a fault at its far end.
func (b *bound) through(w harness.WireID, near, far harness.TerminalID, st *harness.State) float64 {
	amps := b.flow(w, b.sources, b.node(near), st)
	if amps > 0 && b.length(w) <= 1.016 {
		amps = min(amps, b.onward(w, b.node(far), st))
	}
	return amps
}

// returns: a source's return is no thinner than its feed.
func (b *bound) returns() {
	if strings.Contains(b.told, "no-return-to-source") {
		return
	}
	for _, s := range b.poles {
		feed, back := b.thickest(s.live), b.thickest(s.dead)
		if feed == harness.None || back == harness.None {
			continue
		}
		a, z := float64(b.work.Result.Wires[feed].Area), float64(b.work.Result.Wires[back].Area)
		if z < a*0.98 {
			b.fail(back, "the return of %s is thinner than its feed of %.2f mm²", s.name, a)
		}
	}
}

func (b *bound) thickest(node int) harness.WireID {
	best := harness.WireID(harness.None)
	for i := range b.h.Wires {
		if b.node(b.h.Wires[i].From) != node && b.node(b.h.Wires[i].To) != node {
			continue
		}
		if best == harness.None || b.work.Result.Wires[i].Area > b.work.Result.Wires[best].Area {
			best = harness.WireID(i)
		}
	}
	return best
}

// thinner gives the wires of a load's own circuit that taking its states away made less
// than a quarter as thick. Steps of a size or two are no fault: the drop that other loads
// leave to it changes with the states. What its draw needs at least, drawn asks. What is bought
// above that is chosen for the whole loom, so this is asked of the least sizes.
func thinner(sound, broken *adversary.Sketch, circuit string, w *Work) []string {
	before, _, err := worked(written(sound))
	if err != nil || before == nil || len(before.Result.Wires) != len(w.Result.Wires) {
		return nil
	}
	var out []string
	for i := range w.Result.Wires {
		a, z := float64(before.Result.Wires[i].Area), float64(w.Result.Wires[i].Area)
		if wire := &w.Harness.Wires[i]; w.Harness.Circuits[wire.Circuit].Key == circuit && z < a/4 {
			out = append(out, fmt.Sprintf("wire %s is %.2f mm² where no state turns its load on, and was %.2f mm²", wire.Name, z, a))
		}
	}
	return out
}
