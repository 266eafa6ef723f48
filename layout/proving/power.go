package proving

import (
	"slices"
	"strings"

	"example.com/loomfolio/layout/caution"
	"example.com/loomfolio/layout/page"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/proof"
)

// power sets the steps of the first power-up.
func (s *sheets) power(l *list) {
	if len(s.p.Power) == 0 {
		return
	}
	l.head("2  First power", "In this order; in the lead to "+s.live()+" what is named and a meter, 10"+page.NoBreak+"A range. "+caution.First())
	always := s.always()
	stages := s.stages()
	for i, g := range stages {
		does := ""
		if slices.IndexFunc(stages, func(o stage) bool { return o.off == g.off }) == i {
			does = g.does()
		}
		if i > 0 && stages[i-1].battery != g.battery {
			l.sub("In the lead to "+s.poleOf(g.battery)+", every other battery off", "")
		}
		s.stage(l, g, does, always[g.battery])
	}
}

// stage sets the steps of a stage; those of one reading with everything off share a line.
func (s *sheets) stage(l *list, g stage, does string, always []harness.ElementID) {
	if !g.off && len(always) > 0 {
		does = page.List(" ", does, "Always in: "+s.named(always)+".")
	}
	stops := g.stops()
	l.sub(g.title(), page.List(" ", does, page.List(" ", either(len(stops) == 0, "", "Stop:"), page.Sentence(strings.Join(stops, "; ")))))
	for i := 0; i < len(g.steps); {
		x := g.steps[i]
		runs := s.step(x, always)
		for i++; i < len(g.steps) && g.off && shown(g.steps[i]) == shown(x); i++ {
			runs = append(runs, strong(box+page.NoBreak+s.named(g.steps[i].Fuses)))
		}
		runs = append(runs, plain(x.Lamp), strong(amps(x.Low, x.High)+page.NoBreak+blank))
		if x.Stop != "" && !slices.Contains(stops, x.Stop) {
			runs = append(runs, small("stop: "+x.Stop))
		}
		l.add(ticked(), runs...)
	}
}

// stage is a row of steps with the same thing in the plus lead.
type stage struct {
	battery harness.ElementID // in whose lead
	through string
	off     bool // everything is off
	steps   []proof.Step
}

func (s *sheets) stages() []stage {
	var out []stage
	for _, x := range s.p.Power {
		n := len(out)
		if off := x.State == proof.None; n == 0 || out[n-1].through != x.Through || out[n-1].off != off || out[n-1].battery != x.Battery {
			out = append(out, stage{battery: x.Battery, through: x.Through, off: off})
			n++
		}
		out[n-1].steps = append(out[n-1].steps, x)
	}
	return out
}

// title says what stands in the lead, and what is done.
func (g stage) title() string {
	return page.Capital(g.through) + either(g.off, ", everything off", ", loads on")
}

// does says how the steps of a stage go.
func (g stage) does() string {
	if g.off {
		return "Fuses go in one after the other, and stay."
	}
	return "Only the bold fuse and those behind + are in, switches as the letter says."
}

func either(first bool, a, b string) string {
	if first {
		return a
	}
	return b
}

// stops are the reasons to stop that hold for the steps of a stage alike; none where there are many.
func (g stage) stops() []string {
	var all []string
	for _, x := range g.steps {
		if alone := x.State != proof.None && x.Fuse == harness.None; x.Stop != "" && !alone && !slices.Contains(all, x.Stop) {
			all = append(all, x.Stop)
		}
	}
	if len(all) > 2 {
		return nil
	}
	return all
}

// shown is what lamp and meter show at a step.
func shown(x proof.Step) string { return x.Lamp + amps(x.Low, x.High) }

// step says which fuse goes in, with which others, and what is on.
func (s *sheets) step(x proof.Step, always []harness.ElementID) []run {
	in, with := s.stepFuses(x, always)
	switch {
	case in == "":
		return []run{plain(x.Do + ",")}
	case x.State == proof.None:
		return []run{strong(in)}
	}
	return []run{strong(page.StateLetter(x.State)), strong(in), small(page.List(page.NoBreak, either(with == "", "", "+"), with))}
}

// always are by battery the fuses that are in whenever the loads behind one are on.
func (s *sheets) always() map[harness.ElementID][]harness.ElementID {
	out := map[harness.ElementID][]harness.ElementID{}
	for _, x := range s.p.Power {
		if x.State == proof.None || x.Fuse == harness.None {
			continue
		}
		if _, ok := out[x.Battery]; !ok {
			out[x.Battery] = slices.Clone(x.Fuses)
		}
		out[x.Battery] = slices.DeleteFunc(out[x.Battery], func(f harness.ElementID) bool { return !slices.Contains(x.Fuses, f) || f == x.Fuse })
	}
	return out
}

// stepFuses are the fuses that a step is about, and those that must be in with them.
func (s *sheets) stepFuses(x proof.Step, always []harness.ElementID) (in, with string) {
	switch {
	case x.Fuse == harness.None:
		return "", ""
	case x.State == proof.None:
		return s.named(x.Fuses), ""
	}
	others := slices.DeleteFunc(slices.Clone(x.Fuses), func(f harness.ElementID) bool { return f == x.Fuse || slices.Contains(always, f) })
	return s.H.Elements[x.Fuse].Name, s.named(others)
}

// named are fuses by name.
func (s *sheets) named(all []harness.ElementID) string {
	var names []string
	for _, f := range all {
		names = append(names, s.H.Elements[f].Name)
	}
	return s.fuses(names)
}
