package spare

import (
	"slices"

	"example.com/loomfolio/sizing/choose/chosen"
	"example.com/loomfolio/sizing/choose/demand"
	"example.com/loomfolio/sizing/choose/protect"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/harness/kind"
	"example.com/loomfolio/sizing/rating"
	"example.com/loomfolio/sizing/unit"
)

// rise gives the k at which some current comes to its limit, where the load takes a part
// of it.
func rise(limit, now, taken float64) float64 { return 1 + (limit-now)/taken }

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
			most := l.Carries(w, l.Size(w))
			if from := l.LoadedFrom(w); !l.Balanced() && l.Peaks[w].Amps < from && len(l.Ways[w].Shares) > 0 {
				most = min(most, from) // from there on it counts in its bundles
			}
			l.allows(l.onWire(chosen.ByHeat, w), l.roomIn(t, w, most))
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
			l.allows(l.onElement(chosen.ByContact, e), rise(rated, l.wanted(e, t.solving), t.amps*l.factor()))
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
	return rating.SwitchFactor(l.Nominal(l.e.ID), string(row.ClassOf(l.e.Behaves)))
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
				rise(float64(b.Alternator), float64(b.Loads), l.through(t.solving, l.e.ID)))
		}
	}
}

// keyOff: what the battery may lose with everything at rest.
func (l *load) keyOff() {
	for _, t := range l.takes {
		if t.solving < len(l.c.Budgets) && l.c.Budgets[t.solving].KeyOff && l.e.Kind == harness.Load {
			b := &l.c.Budgets[t.solving]
			l.allows(chosen.Limit{Rule: chosen.ByKeyOff, Name: l.H.States[t.solving].Name, Element: harness.None, Wire: harness.None},
				rise(demand.KeyOffLimit, float64(b.Drain), l.through(t.solving, l.e.ID)))
		}
	}
}
