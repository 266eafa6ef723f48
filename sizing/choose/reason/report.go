// Package reason says of what was settled why it is so. In: a Settled of package choose,
// for reading only. Out: the plain results of package chosen: by wire, load, fuse, relay,
// contact and state the figures, the rule that decided with its numbers and the keys of its
// sources, and what the sizes and ratings beside it would break. Units stand at the fields of
// package chosen. Always holds: a reason names numbers of the same trial as the result
// beside it; a neighbour is tried against the rules by which it was not taken.
package reason

import (
	"math"
	"slices"

	"example.com/loomfolio/sizing/choose"
	"example.com/loomfolio/sizing/choose/chosen"
	"example.com/loomfolio/sizing/choose/demand"
	"example.com/loomfolio/sizing/choose/protect"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/rating"
	"example.com/loomfolio/sizing/unit"
)

// report reads what was settled.
type report struct {
	*choose.Settled
	again *solved
}

// Of writes down what was settled, with the reason of each choice.
func Of(s *choose.Settled) chosen.Chosen {
	r := report{s, newSolved(len(s.Groups.Wires))}
	return r.chosen(r.wires())
}

// Figures writes down what findings are made from, in a tenth of the time: of the wires
// neither the reasons nor what is beside them.
func Figures(s *choose.Settled) chosen.Chosen {
	r, wanted := report{Settled: s}, s.At
	if slices.ContainsFunc(s.Draws, func(d demand.Draw) bool { return s.Exceeds(&d) }) {
		wanted = s.WantedForDrop()
	}
	var wires []chosen.Wire
	for w, step := range wanted {
		wires = append(wires, r.figures(harness.WireID(w), step))
	}
	return r.chosen(wires)
}

// chosen writes down all but the wires.
func (r report) chosen(wires []chosen.Wire) chosen.Chosen {
	s := r.Settled
	c := chosen.Chosen{States: s.States, Faulty: s.Faulty, Reckoned: reckoned(s), Wires: wires, Rounds: s.Rounds}
	for i := range s.H.Elements {
		e := &s.H.Elements[i]
		switch e.Kind {
		case harness.Load:
			c.Loads = append(c.Loads, r.loadOf(e))
		case harness.FuseLink:
			if !(protect.Seat{H: s.H, E: e}).Spare() {
				c.Fuses = append(c.Fuses, r.fuse(e))
			}
		}
	}
	c.Relays, c.Contacts, c.Budgets = r.relays(), s.Contacts(), s.Budgets()
	c.SourceKeys = sourceKeys(&c)
	c.CopperMass, c.CopperBound = s.Copper()
	return c
}

// reckoned gives what was solved beside the declared states, and what stands for those that are faults.
func reckoned(s *choose.Settled) []chosen.Reckoned {
	var out []chosen.Reckoned
	for i, at := range s.Solvings {
		if i >= len(s.States) || s.Faulty[i] {
			out = append(out, chosen.Reckoned{State: at.State, Cranking: at.Cranking})
		}
	}
	return out
}

func (r report) wires() []chosen.Wire {
	var out []chosen.Wire
	for w, wanted := range r.WantedForDrop() {
		out = append(out, r.wire(harness.WireID(w), wanted))
	}
	return out
}

func sourceKeys(c *chosen.Chosen) []string {
	var keys []string
	for _, w := range c.Wires {
		keys = append(keys, w.Sources...)
	}
	for _, f := range c.Fuses {
		keys = append(keys, f.Sources...)
	}
	return rating.Distinct(keys...)
}

// wire writes down one wire with its reason and what is beside it.
func (r report) wire(w harness.WireID, wanted int) chosen.Wire {
	out := r.figures(w, wanted)
	var more []string
	out.Reason, more = r.reason(w)
	out.Loads, out.Saves = r.thick(w)
	out.Below = r.below(w)
	out.Sources = rating.Distinct(append(append([]string(nil), r.Size(w).Sources...), more...)...)
	return out
}

// figures writes down what one wire has and carries.
func (r report) figures(w harness.WireID, wanted int) chosen.Wire {
	z, f, p := r.Size(w), r.Floors[w], r.Peaks[w]
	gauge := func(i int) unit.Gauge { return r.Shelf[w][i].Conductor.Gauge }
	out := chosen.Wire{
		Gauge: z.Conductor.Gauge, Area: z.Conductor.Area, Diameter: z.Over,
		Insulation: r.H.Wires[w].Insulation, Class: z.Class, Resistance: unit.Ohm(r.Ohms(w)),
		Amps: unit.Ampere(p.Amps), State: p.State, Drop: unit.Volt(p.Amps * p.Ohms), Cold: unit.Volt(p.Amps * r.Ohms(w)),
		Ambient: r.Places[w].Celsius, Bundle: r.Bundles[w],
		Ampacity: unit.Ampere(r.Carries(w, z)),
		Wants:    chosen.Wants{Drop: gauge(wanted), Heat: gauge(f.Heat), Handling: gauge(f.Handling)},
		Given:    r.Given(w),
	}
	out.Temperature, out.HottestIn = r.HottestState(w)
	if f.Guard != harness.None {
		out.Wants.Protection = gauge(f.Protection)
	}
	if g := r.Strongest(w, r.protectorsOf(w)); g != harness.None {
		out.ProtectedBy = r.H.Elements[g].Name
	}
	return out
}

// protectorsOf gives the fuses that would open for a short on the wire: those
// that feed it, or on a return those that feed its loads. A wire that a source
// feeds with no fuse between has none, whatever hangs on it.
func (r report) protectorsOf(w harness.WireID) []harness.ElementID {
	for _, b := range r.Guards.Bare {
		if b.Wire == w {
			return nil
		}
	}
	return r.Stand[w]
}

// loadOf writes down one load's worst case: the state with its lowest voltage
// among those that count.
func (r report) loadOf(e *harness.Element) chosen.Load {
	out := chosen.Load{Element: e.ID, Name: e.Name, Amps: e.Amps}
	amps, worst := r.worstOf(e.ID)
	for i := range r.Draws {
		if d := &r.Draws[i]; d.Load == e.ID && r.Declared(d) {
			out.On = append(out.On, r.StateName(d))
		}
	}
	if worst != nil {
		out.Amps = unit.Ampere(amps)
		r.fillLoad(&out, worst)
	} else {
		worst = &demand.Draw{Load: e.ID}
	}
	out.Limit, out.LimitText = r.LimitOf(worst)
	out.Class, out.Own = r.ClassOf(worst), r.OwnLimit(worst)
	return out
}

// worstOf gives the largest current of a load in the draws that count, A, and the one
// with its lowest voltage; of all its draws where none counts, nil where there is none.
func (r report) worstOf(load harness.ElementID) (amps float64, worst *demand.Draw) {
	counts := slices.ContainsFunc(r.Draws, func(d demand.Draw) bool { return d.Load == load && d.Counts })
	for i := range r.Draws {
		d := &r.Draws[i]
		if d.Load != load || counts && !d.Counts {
			continue
		}
		amps = math.Max(amps, d.Amps)
		if worst == nil || d.Volts < worst.Volts-1e-9 { // false for NaN
			worst = d
		}
	}
	return amps, worst
}

func (r report) fillLoad(out *chosen.Load, d *demand.Draw) {
	start := r.StartOf(d)
	out.StartAmps, out.StartFor = start.Amps, start.For
	out.FeedDrop, out.ReturnDrop = unit.Volt(r.DropIn(d.State, d.Feed.Wires)), unit.Volt(r.DropIn(d.State, d.Back.Wires))
	out.Cold = unit.Volt(r.ColdDrop(d))
	out.Feed, out.Return = d.Feed.Wires, d.Back.Wires
	if r.Declared(d) {
		out.State, out.Volts = r.StateName(d), unit.Volt(d.Volts)
		out.OtherDrop = max(r.lostBetween(d)-out.FeedDrop-out.ReturnDrop, 0)
	}
	if fuses := d.Feed.Fuses(r.H); len(fuses) > 0 {
		out.ProtectedBy = r.H.Elements[fuses[len(fuses)-1]].Name
	}
}

// lostBetween is what is lost of a source's voltage on the way of a draw and back.
func (r report) lostBetween(d *demand.Draw) unit.Volt {
	if d.Feed.Source == harness.None {
		return 0
	}
	src, st := &r.H.Elements[d.Feed.Source], &r.States[d.State]
	return unit.Volt(math.Max(0, math.Abs(st.Volts[src.A]-st.Volts[src.B])-d.Volts))
}

func (r report) relays() []chosen.Relay {
	var out []chosen.Relay
	for i := range r.H.Parts {
		if p := &r.H.Parts[i]; p.Kind == harness.Relay {
			out = append(out, r.relay(p))
		}
	}
	return out
}

func (r report) relay(p *harness.Part) chosen.Relay {
	out := chosen.Relay{Part: p.ID, Rating: p.Rating}
	for _, id := range p.Elements {
		amps, _ := r.Through(id)
		switch r.H.Elements[id].Kind {
		case harness.RelayCoil:
			out.Coil = max(out.Coil, unit.Ampere(amps))
		case harness.Contact:
			out.Contact = max(out.Contact, unit.Ampere(amps))
		}
	}
	return out
}
