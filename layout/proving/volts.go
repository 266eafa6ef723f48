package proving

import (
	"slices"
	"strings"

	"example.com/loomfolio/layout/caution"
	"example.com/loomfolio/layout/page"
	"example.com/loomfolio/layout/table"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/proof"
)

// states says how each state that is asked for is set.
func (s *sheets) states(l *list) {
	used := make([]bool, len(s.H.States))
	for _, i := range s.used() {
		if i >= 0 && i < len(used) {
			used[i] = true
		}
	}
	if !slices.Contains(used, true) {
		return
	}
	l.sub("How the switches are set, engine off unless told", "")
	for i, is := range used {
		if is {
			l.add(table.Strong(page.StateLetter(i)), strong(s.H.States[i].Name), small(s.settings(s.H.States[i])))
		}
	}
}

// used are the states that anything is asked in.
func (s *sheets) used() []int {
	out := []int{s.p.KeyOff.State}
	for _, x := range s.p.Power {
		out = append(out, x.State)
	}
	for _, x := range s.told() {
		out = append(out, x.State)
	}
	for _, x := range s.p.Sections {
		out = append(out, x.State)
	}
	for _, x := range s.p.Through {
		out = append(out, x.State)
	}
	for _, x := range s.p.Coils {
		out = append(out, x.State)
	}
	return out
}

// settings are the switches of a state that are not at rest, by reference, and the engine.
func (s *sheets) settings(x harness.State) string {
	var words []string
	for id, at := range x.Position {
		if p := s.Part(harness.PartID(id)); at > 0 && p != nil && at < len(p.Positions) {
			words = append(words, page.Firm(p.Ref+" "+p.Positions[at]))
		}
	}
	if len(words) == 0 {
		words = append(words, "all at rest")
	}
	if x.Engine != "" && x.Engine != harness.EngineOff {
		words = append(words, page.Firm("engine "+string(x.Engine)))
	}
	return strings.Join(words, ", ")
}

// grounded and live are the poles of the battery that volts are told against.
func (s *sheets) grounded() string { return s.pole(s.first(), "−", "+") }

func (s *sheets) live() string { return s.pole(s.first(), "+", "−") }

// poleOf is the live pole of a battery.
func (s *sheets) poleOf(battery harness.ElementID) string {
	return s.pole(&s.H.Elements[battery], "+", "−")
}

// pole is a battery with its pole, by its reference where there are several.
func (s *sheets) pole(battery *harness.Element, negative, positive string) string {
	name, n := "battery", 0
	for _, e := range s.H.Elements {
		if e.Kind == harness.EMF {
			n++
		}
	}
	if n > 1 {
		name = s.H.Parts[battery.Part].Ref
	}
	return name + page.NoBreak + either(s.H.System.PositiveEarth, positive, negative)
}

// volts sets the volts at every point, place by place.
func (s *sheets) volts(l *list) {
	if len(s.p.Readings)+len(s.p.Sections)+len(s.p.Through) > 0 {
		l.head("3  With power, loads on", caution.Live(s.H))
	}
	first := true
	for place := range len(s.H.Places) + 2 {
		here := s.asked(place)
		if len(here) == 0 {
			continue
		}
		remark := ""
		if first {
			remark, first = "Black lead on "+s.grounded()+". Limits, their points, room for the reading nearest to a limit.", false
		}
		l.sub(s.placeName(place), remark)
		for len(here) > 0 {
			n := slices.IndexFunc(here, func(x proof.Reading) bool { return x.State != here[0].State })
			if n < 0 {
				n = len(here)
			}
			l.add(table.Strong(page.StateLetter(here[0].State)), s.sameLimits(here[:n])...)
			here = here[n:]
		}
	}
}

// placeName is what a place is called: one of the description, the loom for splices along it, or none.
func (s *sheets) placeName(place int) string {
	switch n := len(s.H.Places); place - n {
	case 0:
		return "Along the loom"
	case 1:
		return "No place given"
	default:
		return s.H.Places[place].Name
	}
}

// sameLimits are the points of one place and state, those with one limit together.
func (s *sheets) sameLimits(here []proof.Reading) []run {
	var runs []run
	for len(here) > 0 {
		first := s.bounds(here[0])
		like := func(x proof.Reading) bool { return s.bounds(x) == first }
		var at []harness.TerminalID
		for _, x := range here {
			if like(x) {
				at = append(at, s.p.Points[x.Point].At)
			}
		}
		here = slices.DeleteFunc(slices.Clone(here), like)
		runs = append(runs, limit(first), small(s.spelt(at, s.probe)+page.NoBreak+blank))
	}
	return runs
}

func (s *sheets) bounds(x proof.Reading) string {
	if x.Floats {
		return "floats"
	}
	return limits(x.Low, x.High)
}

// asked are the readings at a place, by state; those without a place are at the last. Each point
// stands once: with the engine off if it is asked so, cranking last, and of such states in that in
// which most points are asked.
func (s *sheets) asked(place int) []proof.Reading {
	var out []proof.Reading
	for _, x := range s.told() {
		if s.placeOf(s.p.Points[x.Point].At) == place {
			out = append(out, x)
		}
	}
	return out
}

// told is by point the reading that stands on the sheets, by state, then point.
func (s *sheets) told() []proof.Reading {
	count := make([]int, len(s.H.States))
	for _, x := range s.p.Readings {
		if x.Asked {
			count[x.State]++
		}
	}
	better := func(a, b int) bool {
		if x, y := rank(s.H.States[a].Engine), rank(s.H.States[b].Engine); x != y {
			return x > y
		}
		return count[a] > count[b]
	}
	best := map[int]proof.Reading{}
	for _, x := range s.p.Readings {
		if was, ok := best[x.Point]; x.Asked && (!ok || better(x.State, was.State)) {
			best[x.Point] = x
		}
	}
	var out []proof.Reading
	for _, x := range s.p.Readings {
		if x.Asked && best[x.Point].State == x.State && !s.isReference(s.p.Points[x.Point].At) {
			out = append(out, x)
		}
	}
	return out
}

// first is the battery whose grounded pole all volts are told against; nil for none.
func (s *sheets) first() *harness.Element {
	for i := range s.H.Elements {
		if e := &s.H.Elements[i]; e.Kind == harness.EMF {
			return e
		}
	}
	return nil
}

// isReference tells the pole on which the black lead stands.
func (s *sheets) isReference(t harness.TerminalID) bool {
	e := s.first()
	return e != nil && s.H.Earthed(e) == t
}

// rank prefers an engine that is off, then one that runs.
func rank(e harness.Engine) int {
	switch e {
	case harness.EngineRunning:
		return 1
	case harness.EngineCranking:
		return 0
	}
	return 2
}
