package spare

import (
	"math"
	"slices"

	"example.com/loomfolio/sizing/choose/chosen"
	"example.com/loomfolio/sizing/choose/demand"
	"example.com/loomfolio/sizing/choose/protect"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/harness/kind"
	"example.com/loomfolio/sizing/rating"
	"example.com/loomfolio/sizing/unit"
)

// room gives the k at which some current comes to its limit, where the load takes a part
// of it.
func room(limit, now, taken float64) float64 { return 1 + (limit-now)/taken }

// fuses: the share of its rating that each fuse carries continuously where it sits.
func (l *load) fuses() {
	l.passed(harness.FuseLink, func(t taken, f harness.ElementID) {
		x, seat := &l.Fuses[f], protect.Seat{H: l.H, E: &l.H.Elements[f]}
		if x.Rating > 0 && !l.Solvings[t.solving].Cranking {
			l.allows(l.onElement(chosen.ByContinuous, f), l.roomThrough(t, f, float64(x.Rating)*seat.Share()*seat.Heat()))
		}
	})
}

// starts: no fuse opens while what lies behind one fuse starts together.
func (l *load) starts() {
	l.passed(harness.FuseLink, func(t taken, f harness.ElementID) {
		x, seat := &l.Fuses[f], protect.Seat{H: l.H, E: &l.H.Elements[f]}
		if in := l.limits(t); in != nil && in.elements[f] || x.Breaker || x.Rating <= 0 || l.Solvings[t.solving].Cranking || !seat.Holds(x.Body, x.Rating, x) {
			return
		}
		l.allows(l.onElement(chosen.ByStart, f), l.largest(func(k float64) bool {
			start := l.startWith(t, f, k)
			return seat.Holds(x.Body, x.Rating, &protect.Fuse{Start: start.Amps, StartFor: start.For})
		}))
	})
}

// startWith gives the worst start through a fuse in a state with the load k times as large.
func (l *load) startWith(t taken, f harness.ElementID, k float64) unit.Start {
	worst := unit.Start{}
	own := l.StartOf(t.Draw)
	fuses := t.Feed.Fuses(l.H)
	for _, g := range l.rushes[t.solving] {
		if !slices.Contains(g.Fuses, f) {
			continue
		}
		total := l.through(t.solving, f) + (k-1)*t.amps + g.Extra
		if len(fuses) > 0 && fuses[len(fuses)-1] == g.Behind && own.Amps > unit.Ampere(t.amps) {
			total += (k - 1) * (float64(own.Amps) - t.amps)
		}
		if a := unit.Ampere(total); a > worst.Amps {
			worst = unit.Start{Amps: a, For: g.Lasts}
		}
	}
	return worst
}

// heat: what each wire carries continuously where it lies.
func (l *load) heat() {
	for _, t := range l.takes {
		if l.Solvings[t.solving].Cranking {
			continue
		}
		for _, w := range t.Wires() {
			l.allows(l.onWire(chosen.ByHeat, w), l.roomIn(t, w, l.Carries(w, l.Size(w))))
		}
	}
}

// contacts: ratings, of switches by the factors of FAA AC 43.13-1B table 11-4. A switch of
// no known rating is asked for it from some current on; a relay of none is named.
func (l *load) contacts() {
	l.passed(harness.Contact, func(t taken, e harness.ElementID) {
		p := l.PartOf(e)
		rated := float64(p.Rating)
		switch ask := asked(p); {
		case rated > 0 && isSwitch(p) && l.Declared(t.Draw) && t.solving == t.State:
			l.allows(l.onElement(chosen.ByContact, e), room(rated, l.wanted(e, t.solving), t.amps*l.factor()))
			fallthrough
		case rated > 0:
			l.allows(l.onElement(chosen.ByContact, e), l.roomThrough(t, e, rated))
		case ask > 0:
			l.allows(l.onElement(chosen.ByUnrated, e), l.roomThrough(t, e, ask))
		case !slices.Contains(l.bare, p.ID):
			l.bare = append(l.bare, p.ID)
		}
	})
}

func isSwitch(p *harness.Part) bool {
	return p.Kind == harness.Switch || p.Kind == harness.IgnitionSwitch
}

// asked is the current from which a switch of no rating is asked for it; see
// misuse.Asked.
func asked(p *harness.Part) float64 {
	switch {
	case p.Kind == harness.IgnitionSwitch:
		return demand.AskKey
	case p.Kind == harness.Switch && p.Stud == "":
		return demand.AskSwitch
	}
	return 0
}

// wanted is the rating that a switch needs in a state.
func (l *load) wanted(e harness.ElementID, state int) float64 {
	_, wants := l.Switched(e, state)
	return float64(wants)
}

// factor is the load's own of FAA AC 43.13-1B table 11-4.
func (l *load) factor() float64 {
	row, ok := kind.Of(l.PartOf(l.e.ID).Kind)
	if !ok {
		return 1
	}
	return rating.SwitchFactor(l.Nominal(), string(row.ClassOf(l.e.Behaves)))
}

// alternators: no state with the engine running asks for more than they give.
func (l *load) alternators() {
	for _, t := range l.takes {
		if t.solving >= len(l.c.Budgets) || l.H.States[t.solving].Made || l.e.Kind != harness.Load {
			continue
		}
		if b := &l.c.Budgets[t.solving]; b.Alternator > 0 {
			name := l.H.States[t.solving].Name
			l.allows(chosen.Limit{Rule: chosen.ByAlternator, Name: name, Element: harness.None, Wire: harness.None},
				room(float64(b.Alternator), float64(b.Loads), l.through(t.solving, l.e.ID)))
		}
	}
}

// keyOff: what the battery may lose with everything at rest.
func (l *load) keyOff() {
	for _, t := range l.takes {
		if t.solving < len(l.c.Budgets) && l.c.Budgets[t.solving].KeyOff && l.e.Kind == harness.Load {
			b := &l.c.Budgets[t.solving]
			l.allows(chosen.Limit{Rule: chosen.ByKeyOff, Name: l.H.States[t.solving].Name, Element: harness.None, Wire: harness.None},
				room(demand.KeyOffLimit, float64(b.Drain), l.through(t.solving, l.e.ID)))
		}
	}
}

// drops: every load that shares a wire with this one keeps within its limit.
func (l *load) drops() {
	for _, t := range l.takes {
		for i := range l.Draws {
			if d := &l.Draws[i]; d.State == t.solving && d.Counts && l.shares(d) && !l.Exceeds(d) {
				l.drop(t, d)
			}
		}
		if l.e.Kind == harness.Charger && t.solving == t.State {
			l.drop(t, t.Draw)
		}
	}
}

func (l *load) shares(d *demand.Draw) bool {
	for _, list := range [][]harness.WireID{d.Feed.Wires, d.Back.Wires} {
		for _, w := range list {
			if l.on(w) {
				return true
			}
		}
	}
	return false
}

// drop asks one draw's limit.
func (l *load) drop(t taken, d *demand.Draw) {
	k := l.largest(func(k float64) bool {
		if l.ByRule() {
			return l.byRule(t, d, k)
		}
		limit, _ := l.LimitOf(d)
		return l.lost(t, d, k) <= float64(limit)*(1+1e-6)
	})
	at := l.onElement(chosen.ByDrop, d.Load)
	l.allows(at, k)
}

// lost gives a draw's drop with the load k times as large, its wires as warm as that makes
// them: the rise goes with the square of the current.
func (l *load) lost(t taken, d *demand.Draw, k float64) (sum float64) {
	for _, list := range [][]harness.WireID{d.Feed.Wires, d.Back.Wires} {
		for _, w := range list {
			amps, ohms := l.flow(d.State, w)+d.More, l.OhmsIn(d.State, w)
			if l.on(w) {
				more := (k - 1) * t.amps
				if !l.Solvings[d.State].Cranking {
					ohms = l.OhmsAt(w, l.warmer(w, k))
				}
				amps += more
			}
			sum += amps * ohms
		}
	}
	return sum
}

// warmer estimates how warm one of the load's wires gets at k times the current: what it
// adds to its warmth goes with the square of the current, and brings it to its class at
// what it carries there.
func (l *load) warmer(w harness.WireID, k float64) unit.Celsius {
	z, carries := l.Size(w), l.Carries(w, l.Size(w))
	most := l.Peaks[w].Amps
	for _, t := range l.takes {
		if now := l.flow(t.solving, w); !l.Solvings[t.solving].Cranking {
			most = math.Max(most, now+(k-1)*t.amps)
		}
	}
	had, has := square(l.Peaks[w].Amps/carries), square(most/carries)
	if had > 0.99 {
		return z.Overload
	}
	alone := float64(l.Hottest[w]) - (float64(z.Class)-float64(l.Hottest[w]))*had/(1-had)
	return min(unit.Celsius(alone+(float64(z.Class)-alone)*has), z.Overload)
}

func square(x float64) float64 { return x * x }

// byRule asks the published rule of every wire that both have.
func (l *load) byRule(t taken, d *demand.Draw, k float64) bool {
	more := *d
	more.More += (k - 1) * t.amps
	for _, w := range d.Wires() {
		if l.on(w) && !l.RuleOf(l.H.Practice.Method, &more, w)(l.Size(w)) {
			return false
		}
	}
	return true
}
