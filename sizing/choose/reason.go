package choose

import (
	"fmt"

	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/rating"
	"example.com/loomfolio/sizing/unit"
)

// reason says in short sentences which rule decided a wire's gauge, with the
// numbers, and gives the keys of the sources of that rule.
func (s *sizer) reason(w harness.WireID) (string, []string) {
	f, at := s.floors[w], s.at[w]
	gauge := s.gauge(w, at)
	heat := s.heatSources(w)
	switch {
	case s.pins.wires[w]:
		return gauge + "; " + s.carried(w, at), heat
	case s.fixed[w]:
		return "given: " + gauge + "; " + s.carried(w, at), heat
	case at == f.heat && f.heat > max(f.handling, f.protection):
		return gauge + ": " + s.carried(w, at) + s.thinner(w, at), heat
	case at == f.protection && f.protection > f.handling:
		return s.protectionReason(w), append(heat, s.overloadSources(w, f.guard)...)
	case at == f.beside && f.beside > max(f.handling, f.heat, f.protection):
		return gauge + ": one gauge with the kept wires in series with it; " + s.carried(w, at), heat
	case at == f.handling && f.earth:
		return gauge + ": no thinner than the battery's live lead (NEC 552.10); " + s.carried(w, at), append(heat, "nec-552")
	case at == f.handling:
		return gauge + ": the smallest that practice allows; " + s.carried(w, at), heat
	}
	return s.sharedReason(w, heat)
}

// sharedReason is for a gauge that the drop or a neighbour in series decided.
func (s *sizer) sharedReason(w harness.WireID, heat []string) (string, []string) {
	for _, x := range s.groups[s.ofWire[w]] {
		if x != w && s.floors[x].least() == s.at[w] {
			text, keys := s.reason(x)
			tie := "in series"
			if starting := s.startingWires(); starting[w] && starting[x] {
				tie = "cranks the engine"
			}
			return fmt.Sprintf("%s with %s, so one gauge: %s", tie, s.h.Wires[x].Name, text), keys
		}
	}
	switch s.h.Practice.Method {
	case "abyc-e11":
		return s.gauge(w, s.at[w]) + ": 10.75 × amperes × feet ÷ volts, ABYC E-11" + s.dropReason(w), append(heat, "abyc-ix")
	case "ac43-13":
		return s.gauge(w, s.at[w]) + ": 0.5 V at 14 V, FAA AC 43.13-1B table 11-6" + s.dropReason(w), append(heat, "ac43-11-6", "ac43-11-9")
	}
	return s.gauge(w, s.at[w]) + s.dropReason(w), append(heat, "abyc-ix")
}

func (s *sizer) gauge(w harness.WireID, at int) string {
	return s.shelf[w][at].conductor.Gauge.String()
}

// carried says the worst current against what the wire may carry.
func (s *sizer) carried(w harness.WireID, at int) string {
	p := s.peak[w]
	most := unit.Ampere(round(s.carries(w, &s.shelf[w][at]), 1))
	here := fmt.Sprintf("at %s", s.places[w].celsius)
	if n := s.bundle[w]; n > 1 {
		here += fmt.Sprintf(" among %d loaded wires", n)
	}
	switch {
	case p.short:
		return fmt.Sprintf("%s while cranking, seconds only; carries %s for ever %s", amps(p.amps), most, here)
	case p.amps < onFrom:
		return fmt.Sprintf("no state draws current; carries %s %s", most, here)
	}
	return fmt.Sprintf("%s in %s, carries %s %s", amps(p.amps), p.state, most, here)
}

func amps(a float64) unit.Ampere {
	if a < 1 {
		return unit.Ampere(round(a, 3))
	}
	return unit.Ampere(round(a, 1))
}

// thinner says what the next thinner size would carry.
func (s *sizer) thinner(w harness.WireID, at int) string {
	if at == 0 {
		return ""
	}
	return fmt.Sprintf("; %s would carry %s", s.gauge(w, at-1), unit.Ampere(round(s.carries(w, &s.shelf[w][at-1]), 1)))
}

// protectionReason says what the wire's fuse lets through, and that the next
// thinner size would not stand it.
func (s *sizer) protectionReason(w harness.WireID) string {
	at, guard := s.at[w], s.floors[w].guard
	z := s.size(w)
	lead := fmt.Sprintf("%s: for its fuse %s: ", s.gauge(w, at), s.h.Elements[guard].Name)
	if at == 0 {
		return lead + s.burdenText(w, z, guard, s.worst(w, z, guard))
	}
	thinner := &s.shelf[w][at-1]
	fails := s.worst(w, thinner, guard)
	for _, b := range s.burdens(w, z, guard) {
		if b.lasting == fails.lasting {
			lead += s.burdenText(w, z, guard, b)
		}
	}
	return lead + fmt.Sprintf("; %s would stand %s", thinner.conductor.Gauge, unit.Ampere(round(fails.stands, 1)))
}

// dropReason speaks of the load through this wire that comes nearest its limit.
func (s *sizer) dropReason(w harness.WireID) string {
	d := s.tightest(w)
	if d == nil {
		return ""
	}
	limit, text := s.limitOf(d)
	drop := s.drop(d)
	out := fmt.Sprintf(": %s over %s with %s of return loses %.2f V%s of %.2f V allowed (%s) to %s", amps(d.amps),
		s.metresText(s.length(d.feed.Wires)), s.metresText(s.length(d.back.Wires)), drop, s.coldText(d, drop), float64(limit), text, s.h.Elements[d.load].Name)
	if at := s.at[w]; at > 0 {
		out += fmt.Sprintf("; %s would lose %.2f V", s.gauge(w, at-1), s.dropBelow(d, w))
	}
	return out
}

// coldText gives the drop at 20 C beside a warm one that differs from it.
func (s *sizer) coldText(d *draw, warm float64) string {
	if cold := s.coldDrop(d); warm-cold >= 0.005 {
		return fmt.Sprintf(" warm (%.2f V at 20 °C)", cold)
	}
	return ""
}

// tightest gives the draw through a wire that comes nearest its limit.
func (s *sizer) tightest(w harness.WireID) *draw {
	var best *draw
	most := -1.0
	for _, i := range s.drawn[w] {
		d := &s.draws[i]
		if !d.counts {
			continue
		}
		limit, _ := s.limitOf(d)
		if ratio := s.drop(d) / float64(limit); ratio > most {
			best, most = d, ratio
		}
	}
	return best
}

func (s *sizer) length(wires []harness.WireID) float64 {
	sum := 0.0
	for _, w := range wires {
		sum += s.metres(w)
	}
	return sum
}

// metresText gives a length for reading, in the sheet's units: 2.44 m, 8.0 ft.
func (s *sizer) metresText(m float64) string {
	if s.h.Sheet.Imperial {
		return fmt.Sprintf("%.1f ft", m*feet)
	}
	return fmt.Sprintf("%.2f m", m)
}

// heatSources names what the current that a wire may carry rests on.
func (s *sizer) heatSources(w harness.WireID) []string {
	if s.balanced() {
		return []string{"heat-balance"}
	}
	keys := []string{"abyc-vi-b", "ambient-rule"}
	if s.bundle[w] > 1 {
		_, key := rating.BundleFactor(s.bundle[w])
		keys = append(keys, key)
	}
	return keys
}
