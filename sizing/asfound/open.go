package asfound

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/loose"
	"example.com/loomfolio/sizing/proof"
	"example.com/loomfolio/sizing/source"
	"example.com/loomfolio/sizing/unit"
)

// Points of an open question: what tracing it settles, the danger first. Judgement, not published.
const (
	LiveUnfused = 20 // it is live and no fuse is known before it
	LiveFused   = 3  // it is live behind a fuse
	EachLoad    = 3  // for each load that hangs on it alone
	EachReading = 2  // for each reading that cannot be judged for its sake
	EachWire    = 1  // for each wire that ends there
	Sought      = 1  // each time that the number of ends which may be its other end doubles
	BlindFuse   = 2  // a fuse of which nobody knows what it feeds for its sake
)

// questions lists what nobody knows.
func (s *survey) questions() {
	for i := range s.h.Parts {
		p := &s.h.Parts[i]
		if p.Kind != harness.OpenEnd && p.Kind != harness.Unknown {
			continue
		}
		o := proof.Question{Part: p.ID, Box: p.Kind == harness.Unknown}
		for _, t := range p.Terminals {
			if loose.End(s.h, t) {
				s.end(&o, t)
			}
		}
		if len(o.Ends) > 0 || o.Box && len(p.Elements) == 0 {
			s.out.Open = append(s.out.Open, o)
		}
	}
	s.hangs()
	for i := range s.out.Open {
		s.fellows(&s.out.Open[i])
	}
}

// end adds a terminal to an open question.
func (s *survey) end(o *proof.Question, t harness.TerminalID) {
	var wires []harness.WireID
	for i := range s.h.Wires {
		if w := &s.h.Wires[i]; w.From == t || w.To == t {
			wires = append(wires, w.ID)
		}
	}
	if len(wires) == 0 {
		return
	}
	o.Ends, o.Wires = append(o.Ends, t), append(o.Wires, wires...)
	state := s.liveIn(t)
	if state == "" {
		return
	}
	fuse := ""
	for _, w := range wires {
		fuse = cmp.Or(fuse, s.r.Wires[w].ProtectedBy)
	}
	if !o.Live() || fuse == "" {
		o.State, o.Fuse, o.Rating = state, fuse, s.rating(fuse)
	}
}

// liveIn is the first state in which a terminal stands at half of its side's nominal voltage or more, "" for none.
func (s *survey) liveIn(t harness.TerminalID) string {
	for i := range s.r.States {
		if v := s.r.States[i].Volts[t]; !s.out.Unsure[i][t] && math.Abs(v) >= float64(s.h.SystemAt(t).Volts)/2 {
			return s.h.States[i].Name
		}
	}
	return ""
}

func (s *survey) rating(fuse string) unit.Ampere {
	for i := range s.r.Fuses {
		if s.r.Fuses[i].Name == fuse {
			return s.r.Fuses[i].Rating
		}
	}
	return 0
}

// hangs gives each question the loads that work, as far as is known, only through it.
func (s *survey) hangs() {
	for i := range s.r.Loads {
		l := &s.r.Loads[i]
		if len(l.On) > 0 {
			continue
		}
		e := &s.h.Elements[l.Element]
		for _, t := range s.through(e) {
			for k := range s.out.Open {
				if o := &s.out.Open[k]; slices.Contains(o.Ends, t) && !slices.Contains(o.Hangs, l.Name) {
					o.Hangs = append(o.Hangs, l.Name)
				}
			}
		}
	}
}

// through lists the unknown ends through which a load that is never on may work: those on
// the metal of a side that no source and no ground reaches, or of a coil that switches it.
func (s *survey) through(e *harness.Element) []harness.TerminalID {
	var out []harness.TerminalID
	for _, t := range []harness.TerminalID{e.A, e.B} {
		if s.worked.Unsure(t) {
			out = append(out, s.worked.Near(t)...)
		}
	}
	if len(out) == 0 && s.worked.Commanded(s.h, e.ID) {
		for i := range s.h.Elements {
			if c := &s.h.Elements[i]; (c.When.Kind == harness.Energised || c.When.Kind == harness.Released) && (s.worked.Same(c.A, e.A) || s.worked.Same(c.A, e.B)) {
				coil := &s.h.Elements[c.When.Coil]
				out = slices.Concat(out, s.worked.Near(coil.A), s.worked.Near(coil.B))
			}
		}
	}
	return out
}

// fellows finds the ends that may be the same place, or the other end of the same wire.
func (s *survey) fellows(o *proof.Question) {
	if o.Box || len(o.Wires) == 0 {
		return
	}
	p := &s.h.Parts[o.Part]
	for i := range s.out.Open {
		x := &s.out.Open[i]
		if x.Part == o.Part || x.Box || len(x.Wires) == 0 {
			continue
		}
		if p.Perhaps != "" && s.h.Parts[x.Part].Perhaps == p.Perhaps {
			o.Perhaps = append(o.Perhaps, x.Part)
		} else if s.alike(o.Wires[0], x.Wires[0]) {
			o.Alike = append(o.Alike, x.Part)
		}
	}
}

// alike tells two wires that are described with one colour, and not with two sizes.
func (s *survey) alike(a, b harness.WireID) bool {
	x, y := &s.h.Wires[a], &s.h.Wires[b]
	if x.Base == "" || x.Base != y.Base || x.Tracer != y.Tracer {
		return false
	}
	return !x.Gauge.Given() || !y.Gauge.Given() || x.Gauge == y.Gauge
}

// order gives each question its points and its reason, and puts the questions in that order.
func (s *survey) order() {
	for i := range s.out.Open {
		o := &s.out.Open[i]
		o.Points = s.points(o)
		o.Why = s.why(o)
	}
	slices.SortStableFunc(s.out.Open, func(a, b proof.Question) int { return cmp.Compare(b.Points, a.Points) })
}

func (s *survey) points(o *proof.Question) int {
	n := EachLoad*len(o.Hangs) + EachReading*o.Reads + EachWire*len(o.Wires)
	switch {
	case o.Live() && o.Fuse == "":
		n += LiveUnfused
	case o.Live():
		n += LiveFused
	}
	if same := len(o.Perhaps) + len(o.Alike); same > 0 {
		n += Sought * int(math.Ceil(math.Log2(float64(1+same))))
	}
	for _, b := range s.out.Blind {
		if slices.Contains(b.Parts, o.Part) {
			n += BlindFuse
		}
	}
	return n
}

// why says in words what tracing a question settles.
func (s *survey) why(o *proof.Question) string {
	var out []string
	switch {
	case o.Live() && o.Fuse == "":
		out = append(out, "it is live in "+o.State+" and no fuse is known before it")
	case o.Live():
		out = append(out, fmt.Sprintf("it is live in %s through %s", o.State, fuseText(o.Fuse, o.Rating)))
	}
	if n := len(o.Hangs); n > 0 {
		out = append(out, counted(n, "load hangs on it", "loads hang on it")+" ("+source.Some(o.Hangs, "")+")")
	}
	if o.Reads > 0 {
		out = append(out, counted(o.Reads, "reading", "readings")+" cannot be judged without it")
	}
	if len(o.Perhaps) > 0 {
		out = append(out, "it may be the same place as "+source.Some(s.refs(o.Perhaps), ""))
	}
	if len(o.Alike) > 0 {
		out = append(out, "its wire looks like that of "+source.Some(s.refs(o.Alike), ""))
	}
	if len(out) == 0 && len(o.Wires) > 1 {
		out = append(out, counted(len(o.Wires), "wire ends there", "wires end there"))
	}
	if len(out) == 0 {
		return "nothing else is known to hang on it"
	}
	return strings.Join(out, "; ")
}

func fuseText(name string, rating unit.Ampere) string {
	if rating <= 0 {
		return name
	}
	return fmt.Sprintf("%s (%s)", name, rating)
}

func counted(n int, one, more string) string {
	if n == 1 {
		return "1 " + one
	}
	return fmt.Sprintf("%d %s", n, more)
}

// blind lists the fuses with something behind them of which nobody knows what it draws.
func (s *survey) blind() {
	for i := range s.r.Fuses {
		f := &s.r.Fuses[i]
		b := proof.Blind{Fuse: i, Given: f.Given}
		for k := range s.out.Open {
			o := &s.out.Open[k]
			if slices.ContainsFunc(o.Wires, func(w harness.WireID) bool { return s.r.Wires[w].ProtectedBy == f.Name }) {
				b.Parts = append(b.Parts, o.Part)
			}
		}
		if len(b.Parts) > 0 {
			s.out.Blind = append(s.out.Blind, b)
		}
	}
}
