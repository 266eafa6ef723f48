package proving

import (
	"math"
	"slices"
	"strconv"
	"strings"

	"example.com/loomfolio/layout/page"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/proof"
	"example.com/loomfolio/sizing/unit"
)

const (
	box     = "☐"
	blank   = "____"
	noLamp  = "†"
	roughTo = 2.0 // V; below it a meter shows hundredths on the sheet, above it tenths
)

// steps are those to which limits are rounded, V, with their decimals.
var steps = []struct {
	step   float64
	places int
}{{0.5, 1}, {0.2, 1}, {0.1, 1}, {0.05, 2}, {0.02, 2}, {0.01, 2}}

// limits are the bounds of a reading in volts, rounded outward by no more than an eighth of
// what lies between them: about battery's pole as one figure either way.
func limits(low, high unit.Volt) string {
	l, h := float64(low), float64(high)
	most := math.Max(math.Abs(l), math.Abs(h))
	if near := math.Min(math.Abs(l), math.Abs(h)); most < roughTo && (l*h < 0 || near < 0.2) {
		step, places := stepOf(2 * most)
		return "±" + page.Figure(math.Ceil(most/step-1e-6)*step, places)
	}
	step, places := stepOf(h - l)
	if most >= roughTo {
		step, places = math.Max(step, 0.1), 1
	}
	return between(l, h, step, places)
}

// stepOf is the coarsest step that is no more than an eighth of a span.
func stepOf(span float64) (step float64, places int) {
	for _, s := range steps {
		step, places = s.step, s.places
		if step <= span/8 {
			break
		}
	}
	return step, places
}

// between are two bounds rounded outward to steps.
func between(low, high, step float64, places int) string {
	low, high = math.Floor(low/step+1e-6)*step, math.Ceil(high/step-1e-6)*step
	a, b := page.Figure(low, places), page.Figure(high, places)
	switch {
	case a == b:
		return a
	case low < 0:
		return a + page.NoBreak + "to" + page.NoBreak + b
	}
	return a + "–" + b
}

// atMost is a bound rounded up to hundredths.
func atMost(v unit.Volt) string {
	return page.Figure(math.Ceil(math.Abs(float64(v))*100-1e-6)/100, 2)
}

// amps are the bounds of a current as a meter shows it: hundredths below 2 A, else tenths.
func amps(low, high unit.Ampere) string {
	if math.Abs(float64(high)) < 2 {
		return between(float64(low), float64(high), 0.01, 2)
	}
	return between(float64(low), float64(high), 0.1, 1)
}

// listed are terminals, those of one part together and numbers that follow one another as a
// span: "FD.bat .1–6 KA.86".
func (s *sheets) listed(all []harness.TerminalID) string {
	return s.spelt(all, s.short)
}

// spelt is listed with names of one's own for the terminals.
func (s *sheets) spelt(all []harness.TerminalID, short func(harness.TerminalID) string) string {
	var refs []string
	names := map[string][]string{}
	for _, t := range all {
		ref, name := s.ref(t), short(t)
		if names[ref] == nil {
			refs = append(refs, ref)
		}
		if !slices.Contains(names[ref], name) {
			names[ref] = append(names[ref], name)
		}
	}
	var out []string
	for _, ref := range refs {
		dot := ref + "."
		if names[ref][0] == "" || strings.HasPrefix(names[ref][0], noLamp) {
			dot = ref
		}
		for _, span := range spans(names[ref]) {
			out = append(out, page.Firm(dot+span))
			dot = "."
		}
	}
	return strings.Join(out, " ")
}

// spans shortens three and more names that count on: 1, 2, 3 become 1–3.
func spans(names []string) []string {
	return page.SpansOf(names, counts, func(first, last string) string {
		if first == last {
			return first
		}
		return first + "–" + last
	})
}

// counts tells whether one name is the next number after another, with the same sign.
func counts(a, b string) bool {
	x, errX := strconv.Atoi(strings.TrimSuffix(a, noLamp))
	y, errY := strconv.Atoi(strings.TrimSuffix(b, noLamp))
	return errX == nil && errY == nil && y == x+1 && strings.HasSuffix(a, noLamp) == strings.HasSuffix(b, noLamp)
}

// ref is what a terminal's part is called.
func (s *sheets) ref(t harness.TerminalID) string {
	if p := s.H.PartOf(t); p != nil {
		return p.Ref
	}
	return s.H.Terminals[t].Full
}

// short is a terminal's own name, of a plug its cavity; "" where the part has one alone.
func (s *sheets) short(t harness.TerminalID) string {
	x := s.H.Terminals[t]
	switch {
	case s.H.PartOf(t) == nil || x.Full == s.ref(t):
		return ""
	case x.Cavity != "":
		return x.Cavity
	}
	return x.Name
}

// stop is a terminal with its part.
func (s *sheets) stop(t harness.TerminalID) string {
	if n := s.short(t); n != "" {
		return page.Firm(s.ref(t) + "." + n)
	}
	return page.Firm(s.ref(t))
}

// probe is a terminal's own name where volts are told: of a plug whose two sides differ with the
// side, and with the sign of points where no test lamp may be used.
func (s *sheets) probe(t harness.TerminalID) string {
	name := s.short(t)
	if s.sided[t] {
		name = s.H.Terminals[t].Name
	}
	if s.meter[t] {
		name += noLamp
	}
	return name
}

// sides finds the cavities on whose two sides the sheets tell different volts.
func (s *sheets) sides() {
	first := map[harness.TerminalID]proof.Reading{}
	for _, x := range s.told() {
		t := s.p.Points[x.Point].At
		if s.H.Terminals[t].Cavity == "" {
			continue
		}
		was, ok := first[s.node(t)]
		if !ok {
			first[s.node(t)] = x
		} else if was.State != x.State || s.bounds(was) != s.bounds(x) {
			s.sided[t], s.sided[s.p.Points[was.Point].At] = true, true
		}
	}
}
