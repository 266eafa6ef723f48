package fit

import (
	"cmp"
	"slices"

	"example.com/loomfolio/sizing/fit/fitted"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/joint"
	"example.com/loomfolio/sizing/unit"
)

// specimens is how many spare crimps of each lot are pulled: MIL-T-7928 asks for
// two at least of each terminal, wire and tool.
const specimens = 2

// lots sorts the crimps by what decides how well they hold: the barrel, the wire
// and the tool. What is at the other end of the fitting (a ring, a tab) does not matter,
// so rings and receptacles of one barrel are one lot. A receptacle that holds several wires is none of theirs
// alone: it is tested with all of them in it, at the thinnest.
func (f *fitter) lots() {
	for i := range f.out.Ends {
		for _, e := range f.out.Ends[i] {
			if e.ToMake() && e.Crimp != fitted.Barrel && !e.Second {
				f.lot(f.out.LotOf(&e, f.c.Wires))
			}
		}
	}
	for i := range f.out.Splices {
		if f.allOwn(f.out.Splices[i].Wires) {
			continue
		}
		f.spliceLot(&f.out.Splices[i])
	}
	slices.SortStableFunc(f.out.Lots, func(a, b fitted.Lot) int {
		return cmp.Or(cmp.Compare(a.Crimp, b.Crimp), cmp.Compare(f.area(a.Gauge), f.area(b.Gauge)), cmp.Compare(a.Part, b.Part), cmp.Compare(a.Beside, b.Beside))
	})
	if len(f.out.Lots) > 0 {
		f.used = append(f.used, "mil-specimens")
	}
}

// spliceLot tests a barrel at the thinnest wire in it.
func (f *fitter) spliceLot(s *fitted.Splice) {
	if len(s.Wires) == 0 {
		return
	}
	thin := s.Wires[0]
	for _, w := range s.Wires {
		if f.c.Wires[w].Area < f.c.Wires[thin].Area {
			thin = w
		}
	}
	e := fitted.End{Crimp: fitted.Barrel}
	force, list := f.pull(&e, conductorOf(&f.c.Wires[thin]))
	f.lot(fitted.Lot{
		Fitting: "splice", Crimp: e.Crimp, Size: s.Size, Part: s.Number, Die: s.Die, Tool: fitted.ToolOf(&e),
		Gauge: f.c.Wires[thin].Gauge, Pull: force, PullList: list,
	})
}

// lot adds a crimp to its lot.
func (f *fitter) lot(l fitted.Lot) {
	for i := range f.out.Lots {
		o := &f.out.Lots[i]
		if o.Same(l) {
			o.Count++
			return
		}
	}
	l.Count, l.Specimens = 1, specimens
	f.out.Lots = append(f.out.Lots, l)
}

func (f *fitter) area(g unit.Gauge) unit.SquareMillimetre {
	for i := range f.c.Wires {
		if f.c.Wires[i].Gauge == g {
			return f.c.Wires[i].Area
		}
	}
	return 0
}

// studs stacks the rings on every stud that is no ground, the heaviest at the
// bottom; a stud with one ring is no stack.
func (f *fitter) studs() {
	at := map[harness.TerminalID]*fitted.Stack{}
	for i := range f.out.Ends {
		for _, e := range f.out.Ends[i] {
			p := f.h.PartOf(e.Terminal)
			if e.Kind != joint.Ring || p != nil && p.Kind == harness.Ground {
				continue
			}
			s := at[e.Terminal]
			if s == nil {
				s = &fitted.Stack{Terminal: e.Terminal, Stud: e.On}
				at[e.Terminal] = s
			}
			s.Rings = append(s.Rings, e.Wire)
		}
	}
	for t := range f.h.Terminals {
		if s := at[harness.TerminalID(t)]; s != nil && len(s.Rings) > 1 {
			f.heaviestFirst(s.Rings)
			t := f.torqueAt(s.Terminal, s.Stud)
			s.Least, s.Most, s.On = t.Least, t.Most, t.On
			f.out.Stacks = append(f.out.Stacks, *s)
		}
	}
}

// heaviestFirst orders rings from the bottom of a stud up; common practice, no source.
func (f *fitter) heaviestFirst(rings []harness.WireID) {
	slices.SortStableFunc(rings, func(a, b harness.WireID) int { return cmp.Compare(f.c.Wires[b].Area, f.c.Wires[a].Area) })
}
