package finding

import (
	"fmt"
	"slices"

	"example.com/loomfolio/sizing/choose/chosen"
	"example.com/loomfolio/sizing/choose/demand"
	"example.com/loomfolio/sizing/flow"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/loose"
	"example.com/loomfolio/sizing/source"
)

// adrift are loads that one piece of metal leaves without a feed, or without a return.
type adrift struct {
	at    harness.TerminalID // on that metal: where the loads hang
	loads []*chosen.Load
}

// loadsAndEnds reports loads that nothing feeds, grounds or turns on; those of one cause
// together.
func (f *inspection) loadsAndEnds() {
	var unfed, drifting []*adrift
	metal := loose.Worked(f.H)
	for i := range f.c.Loads {
		l := &f.c.Loads[i]
		e, own := &f.H.Elements[l.Element], &f.Owns[l.Element]
		live, earth := f.H.Live(e), f.H.Earthed(e)
		switch {
		case !own.Fed && metal.Open(live), own.Fed && !own.Earthed && metal.Open(earth), len(l.On) == 0 && metal.Commanded(f.H, l.Element):
			// nobody has traced it: sizing/asfound tells it
		case !own.Fed:
			unfed = f.hung(unfed, live, l)
		case !own.Earthed:
			drifting = f.hung(drifting, earth, l)
		case len(l.On) == 0 && !f.onRegulator(own):
			f.neverOn(l)
		}
	}
	for _, a := range unfed {
		f.unfed(a)
	}
	for _, a := range drifting {
		f.loose(a)
	}
}

// hung adds a load to those on the same metal.
func (f *inspection) hung(all []*adrift, at harness.TerminalID, l *chosen.Load) []*adrift {
	i := slices.IndexFunc(all, func(a *adrift) bool { return f.Net.Bonded(a.at, at) })
	if i < 0 {
		return append(all, &adrift{at, []*chosen.Load{l}})
	}
	all[i].loads = append(all[i].loads, l)
	return all
}

// names lists the loads of one cause.
func (a *adrift) names() []string {
	var out []string
	for _, l := range a.loads {
		out = append(out, l.Name)
	}
	return out
}

// outermost gives the terminal of a metal at which its wires begin, or end where they are
// followed with the current: where the feed or the return is missing. False where a load's
// own terminal is that.
func (f *inspection) outermost(a *adrift, begin bool) (harness.TerminalID, bool) {
	in, out := make([]bool, len(f.H.Terminals)), make([]bool, len(f.H.Terminals))
	for i := range f.H.Wires {
		in[f.H.Wires[i].To], out[f.H.Wires[i].From] = true, true
	}
	for i := range f.H.Terminals {
		t := harness.TerminalID(i)
		ends := in[t] && !out[t]
		if begin {
			ends = out[t] && !in[t]
		}
		if t != harness.Chassis && ends && f.Net.Bonded(a.at, t) && !f.ofLoad(a, t) {
			return t, true
		}
	}
	return a.at, false
}

func (f *inspection) ofLoad(a *adrift, t harness.TerminalID) bool {
	return slices.ContainsFunc(a.loads, func(l *chosen.Load) bool { return f.H.Elements[l.Element].Part == f.H.Terminals[t].Part })
}

func (f *inspection) unfed(a *adrift) {
	l := a.loads[0]
	p := f.PartOf(l.Element)
	x := source.Problem{
		Slug: "unfed-load", Level: source.Error, Span: p.Span, Subjects: a.names(),
		Summary: l.Name + " has no path to a source", Detail: "write the leg that feeds it, from a fuse or a switch to its plus terminal",
	}
	if t, ok := f.outermost(a, !f.H.System.PositiveEarth); ok && len(a.loads) > 1 {
		at := f.H.PartOf(t)
		x.Span, x.Subjects = at.Span, append([]string{at.Ref}, x.Subjects...)
		x.Summary = fmt.Sprintf("nothing feeds %s, and so nothing %s", f.H.Terminals[t].Full, source.Some(a.names(), ""))
		x.Detail = fmt.Sprintf("write the leg that feeds %s, or the position of %s that closes a contact to it", f.H.Terminals[t].Full, at.Ref)
	}
	f.add(x)
}

func (f *inspection) loose(a *adrift) {
	l := a.loads[0]
	p := f.PartOf(l.Element)
	x := source.Problem{
		Slug: "floating-load", Level: source.Error, Span: p.Span, Subjects: a.names(),
		Summary: l.Name + " has no path to ground", Detail: "write the leg from its minus terminal to a ground, for example [" + p.Ref + ".-, G1]",
	}
	if t, ok := f.outermost(a, f.H.System.PositiveEarth); ok && (len(a.loads) > 1 || f.H.PartOf(t).Kind == harness.Bus) {
		at := f.H.PartOf(t)
		x.Slug, x.Span, x.Subjects = "no-return-to-source", at.Span, append([]string{at.Ref}, x.Subjects...)
		x.Summary = fmt.Sprintf("%s leads to no battery and to no ground: %s have no return", f.H.Terminals[t].Full, source.Some(a.names(), ""))
		x.Detail = fmt.Sprintf("write the leg from %s to the battery's minus or to a ground", f.H.Terminals[t].Full)
	}
	f.add(x)
}

// onRegulator tells a load, as a charge lamp, that ends on an alternator's regulator: it is
// out while the engine runs.
func (f *inspection) onRegulator(own *flow.Own) bool {
	return f.H.OnRegulator(own.Back.Elements)
}

func (f *inspection) neverOn(l *chosen.Load) {
	if d := f.idleCoil(l); d != nil {
		f.idleRelay(d)
		return
	}
	p := f.PartOf(l.Element)
	f.add(source.Problem{
		Slug: "load-never-on", Level: source.Warning, Span: p.Span, Subjects: []string{l.Name},
		Summary: l.Name + " draws current in no state",
		Detail:  "add a state that turns it on; until then its wires and fuse are sized for what it is described to draw",
	})
}

// idleCoil gives the largest draw of a coil that carries current in some state, pulls in in
// none, and whose contact keeps a load off; nil where there is none.
func (f *inspection) idleCoil(l *chosen.Load) *demand.Draw {
	own := &f.Owns[l.Element]
	var best *demand.Draw
	for _, id := range slices.Concat(own.Feed.Elements, own.Back.Elements) {
		when := f.H.Elements[id].When
		if when.Kind != harness.Energised {
			continue
		}
		for i := range f.Coils {
			d := &f.Coils[i]
			if d.Load != when.Coil {
				continue
			}
			if f.States[d.State].Energised[d.Load] {
				return nil
			}
			if best == nil || d.Volts > best.Volts {
				best = d
			}
		}
	}
	return best
}

// idleRelay reports a relay whose coil shares its voltage with a load, once; one that gets
// too little otherwise is told with the weak coils.
func (f *inspection) idleRelay(d *demand.Draw) {
	e, p := &f.H.Elements[d.Load], f.PartOf(d.Load)
	said := slices.ContainsFunc(f.out, func(x source.Problem) bool {
		return x.Slug == "relay-will-not-pull-in" && slices.Contains(x.Subjects, p.Ref)
	})
	if said || e.Senses || !f.throughLoad(d) && d.Volts >= called*float64(e.PullIn) {
		return
	}
	x := source.Problem{
		Slug: "relay-will-not-pull-in", Level: source.Warning, Span: p.Span, Subjects: []string{p.Ref, f.StateName(d)},
		Summary: fmt.Sprintf("%s gets %.1f V in %s and pulls in from %.1f V", e.Name, d.Volts, f.StateName(d), float64(e.PullIn)),
		Detail:  "feed the coil from nearer the battery, and give it a ground of its own",
		Numbers: []source.Number{number("coil_v", d.Volts), number("pull_in_v", float64(e.PullIn))},
	}
	for id := range d.Elements() {
		if f.H.Elements[id].Kind == harness.Load {
			x.Summary += ": it is in series with " + f.H.Elements[id].Name
			break
		}
	}
	f.add(x)
}
