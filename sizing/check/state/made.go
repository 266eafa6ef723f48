package state

import (
	"maps"
	"slices"
	"strings"

	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/harness/kind"
)

// setting is the parts that are not at rest, each with its position.
type setting map[harness.PartID]int

// with is a setting with others over it.
func (s setting) with(over ...setting) setting {
	out := maps.Clone(s)
	for _, o := range over {
		maps.Copy(out, o)
	}
	return out
}

// driver makes the states of a vehicle as whoever drives it would.
type driver struct {
	*ways
	isolators setting // those that rest open, closed
	key       setting // ignition switches at run
	fires     setting // switches without which the engine would not fire
	starts    setting // what turns the starter: its button, or the key
	cranks    setting // all that must be set while it turns
	out       []harness.State
}

// made makes the states of a description that declares none: parked, with everything at
// rest; driving, with the key at run, the engine running and no more on than it needs;
// each switch by itself in each position, with those that feed it; everything on (each
// switch where it turns on most current); each button pressed, by itself and with
// everything on; cranking, where something turns a starter. A switch that can only take
// away what its rest closes (an inertia switch) stays at rest. Relays follow their coils.
func made(h *harness.Harness) []harness.State {
	d := driverOf(h)
	base := d.isolators.with(d.key, d.fires)
	still := d.isolators.with(d.key)
	for i := range h.Parts {
		if p := &h.Parts[i]; d.warns(p) || p.Kind == harness.TrailerSocket && len(p.Positions) > 1 {
			base[p.ID] = 1 // the oil has pressure, and the trailer its lamps
		}
	}
	full := d.full(base)
	d.add("parked", harness.EngineOff, nil)
	d.besideRun()
	for i := range h.Parts {
		if p := &h.Parts[i]; d.warns(p) {
			d.add(p.Ref+" "+p.Positions[0], harness.EngineOff, still)
		}
	}
	d.add("driving", harness.EngineRunning, base)
	d.each(func(p *harness.Part, n int, fed setting) {
		d.add(p.Ref+" "+p.Positions[n], harness.EngineRunning, base.with(fed, setting{p.ID: n}))
	})
	d.add("everything on", harness.EngineRunning, full)
	d.each(func(p *harness.Part, n int, fed setting) {
		if d.momentary(p) && n > 0 {
			d.add("everything on, "+p.Ref+" "+p.Positions[n], harness.EngineRunning, full.with(fed, setting{p.ID: n}))
		}
	})
	if d.hasStarter() {
		d.add("cranking", harness.EngineCranking, d.isolators.with(d.key, d.fires, d.cranks))
	}
	follow(h, d.out, func(int, harness.PartID) bool { return false })
	return d.out
}

func driverOf(h *harness.Harness) *driver {
	d := &driver{ways: waysOf(metalOf(h)), isolators: setting{}, key: setting{}}
	crank, fire := d.neededBy(isStarter), d.neededBy(func(p *harness.Part) bool { return p.Kind == harness.Coil })
	d.starts = d.starting(crank, fire)
	d.cranks = crank.positions()
	for i := range h.Parts {
		p := &h.Parts[i]
		switch {
		case len(p.Positions) == 0:
		case p.Kind == harness.IgnitionSwitch:
			d.atKey(p)
		case p.Kind == harness.Isolator && !d.ownSwitch(p):
			if n := d.fullest(p, none); len(d.contactsIn(p, n)) > len(d.contactsIn(p, 0)) {
				d.isolators[p.ID] = n
			}
		}
	}
	d.fires = fire.positions()
	for p, n := range d.fires {
		if d.isKey(p) || d.isStart(p, n) || d.momentary(&h.Parts[p]) {
			delete(d.fires, p)
		}
	}
	return d
}

func isStarter(p *harness.Part) bool { return p.Kind == harness.Starter }

func none(int) bool { return false }

func (d *driver) isKey(p harness.PartID) bool { return d.h.Parts[p].Kind == harness.IgnitionSwitch }

func (d *driver) hasStarter() bool {
	return slices.ContainsFunc(d.h.Parts, func(p harness.Part) bool { return isStarter(&p) })
}

// neededBy is what all loads of some parts need, those that nothing feeds left out.
func (d *driver) neededBy(parts func(*harness.Part) bool) needs {
	out := needs{}
	for i := range d.h.Elements {
		e := &d.h.Elements[i]
		if e.Kind == harness.Load && e.Part != harness.None && parts(&d.h.Parts[e.Part]) {
			if n := d.forLoad(e.ID); n.cost < far {
				out = joined(out, n)
			}
		}
	}
	return out
}

// starting gives what is only set to turn the starter: buttons, else the key, else
// the switch nearest to it. What the engine needs to fire is not that.
func (d *driver) starting(crank, fire needs) setting {
	out := setting{}
	only := crank.positions()
	maps.DeleteFunc(only, func(p harness.PartID, n int) bool {
		return slices.Contains(fire.allowed[p], n) || d.h.Parts[p].Kind == harness.Isolator
	})
	for _, is := range []func(harness.PartID) bool{
		func(p harness.PartID) bool { return d.h.Parts[p].Momentary }, d.isKey, func(harness.PartID) bool { return true },
	} {
		for _, p := range crank.order {
			if n, set := only[p]; set && is(p) {
				out[p] = n
				if !d.h.Parts[p].Momentary {
					return out
				}
			}
		}
		if len(out) > 0 {
			return out
		}
	}
	return out
}

// isStart tells a position that turns the starter.
func (d *driver) isStart(p harness.PartID, n int) bool {
	at, starts := d.starts[p]
	return starts && at == n
}

// atKey sets an ignition switch to run: the position of that name, else the fullest
// that does not turn the starter.
func (d *driver) atKey(p *harness.Part) {
	barred := func(n int) bool { return d.isStart(p.ID, n) || strings.EqualFold(p.Positions[n], "start") }
	n := position(p, "run")
	if n < 0 {
		n = d.fullest(p, barred)
	}
	if n > 0 {
		d.key[p.ID] = n
	}
}

// besideRun adds the key's positions that close what it closes neither at run nor to
// start: accessories, with the engine off.
func (d *driver) besideRun() {
	for i := range d.h.Parts {
		p := &d.h.Parts[i]
		if !d.isKey(p.ID) {
			continue
		}
		seen := append(d.contactsIn(p, d.key[p.ID]), d.contactsIn(p, d.cranks[p.ID])...)
		for n := 1; n < len(p.Positions); n++ {
			if slices.ContainsFunc(d.contactsIn(p, n), func(id harness.ElementID) bool { return !slices.Contains(seen, id) }) && !strings.EqualFold(p.Positions[n], "start") {
				d.add(p.Ref+" "+p.Positions[n], harness.EngineOff, d.isolators.with(setting{p.ID: n}))
			}
		}
	}
}

// full is everything on: each switch that stays where it is put, at its fullest.
func (d *driver) full(base setting) setting {
	out := maps.Clone(base)
	for i := range d.h.Parts {
		p := &d.h.Parts[i]
		if !d.switches(p) || d.momentary(p) || d.follows(p) || d.cutsOff(p) {
			continue
		}
		out[p.ID] = d.fullest(p, func(n int) bool { return d.isStart(p.ID, n) })
	}
	return out
}

// each visits the positions that a driver puts a switch in, with the others that have
// to be set for it. The rest position is one of them where it closes what others feed.
func (d *driver) each(visit func(p *harness.Part, n int, fed setting)) {
	for i := range d.h.Parts {
		p := &d.h.Parts[i]
		if !d.switches(p) || d.cutsOff(p) {
			continue
		}
		for n := range p.Positions {
			fed := d.feeding(p, n)
			if d.isStart(p.ID, n) || n == 0 && len(fed) == 0 {
				continue
			}
			visit(p, n, fed)
		}
	}
}

// feeding is what must be set so that the contacts of a switch's position are fed;
// the key and what turns the starter stay as they are.
func (d *driver) feeding(p *harness.Part, n int) setting {
	out := setting{}
	for _, id := range d.contactsIn(p, n) {
		for q, at := range d.forContact(id).positions() {
			if q != p.ID && !d.isKey(q) && !d.isStart(q, at) && !d.momentary(&d.h.Parts[q]) {
				out[q] = at
			}
		}
	}
	return out
}

// switches tells what is worked like a switch: an isolator in one load's own lead as well,
// and what heat, pressure, time or a cam moves.
func (d *driver) switches(p *harness.Part) bool {
	_, moves := kind.MoverOf(p.Kind)
	moves = moves && p.Kind != harness.TrailerSocket
	return p.Kind == harness.Switch || moves || p.Kind == harness.Isolator && d.ownSwitch(p)
}

// follows tells a park contact, which is set once all else is.
func (d *driver) follows(p *harness.Part) bool {
	m, _ := kind.MoverOf(p.Kind)
	return m == kind.WhenFed
}

// ownSwitch tells an isolator with nothing but loads on one of its sides, as in the lead
// of an inverter: it isolates no supply.
func (d *driver) ownSwitch(p *harness.Part) bool {
	for _, id := range p.Elements {
		e := &d.h.Elements[id]
		if d.loadsAlone(e.A, p.ID) || d.loadsAlone(e.B, p.ID) {
			return true
		}
	}
	return false
}

// loadsAlone tells whether wires and joints lead from a terminal to loads and to nothing
// that passes the supply on.
func (d *driver) loadsAlone(t harness.TerminalID, but harness.PartID) bool {
	seen, loads := map[harness.TerminalID]bool{t: true, harness.Chassis: true}, 0
	for queue := []harness.TerminalID{t}; len(queue) > 0; queue = queue[1:] {
		reach := func(to harness.TerminalID) {
			if !seen[to] {
				seen[to] = true
				queue = append(queue, to)
			}
		}
		for _, w := range d.wires[queue[0]] {
			reach(d.h.Wires[w].From)
			reach(d.h.Wires[w].To)
		}
		for _, id := range d.at[queue[0]] {
			switch e := &d.h.Elements[id]; {
			case e.Part == but:
			case e.Kind == harness.Join, e.Kind == harness.Resistance:
				reach(e.A)
				reach(e.B)
			case e.Kind == harness.Load && d.h.Parts[e.Part].Kind != harness.Starter:
				loads++
			default:
				return false
			}
		}
	}
	return loads > 0
}

// cutsOff tells a switch that can only take away what its rest position closes.
func (d *driver) cutsOff(p *harness.Part) bool {
	if len(p.Positions) < 2 {
		return true
	}
	rest := d.contactsIn(p, 0)
	for n := range p.Positions[1:] {
		if slices.ContainsFunc(d.contactsIn(p, n+1), func(id harness.ElementID) bool { return !slices.Contains(rest, id) }) {
			return false
		}
	}
	return len(rest) > 0
}

// add adds a state, unless one like it, or of its name, is there.
func (d *driver) add(name string, engine harness.Engine, set setting) {
	s := harness.State{Name: name, Position: make([]int, len(d.h.Parts)), Engine: engine, Made: true}
	for p, n := range set {
		s.Position[p] = n
	}
	if !slices.ContainsFunc(d.out, func(o harness.State) bool {
		return o.Name == name || o.Engine == engine && slices.Equal(o.Position, s.Position)
	}) {
		d.out = append(d.out, s)
	}
}
