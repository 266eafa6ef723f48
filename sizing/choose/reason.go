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
	f, at := s.Floors[w], s.At[w]
	gauge := s.gauge(w, at)
	heat := s.heatSources(w)
	switch {
	case s.Pins.Wires[w]:
		return gauge + "; " + s.carried(w, at), heat
	case s.Fixed[w]:
		return "given: " + gauge + "; " + s.carried(w, at), heat
	case at == f.Heat && f.Heat > max(f.Handling, f.Protection):
		return gauge + ": " + s.carried(w, at) + s.thinner(w, at), heat
	case at == f.Protection && f.Protection > f.Handling:
		return s.protectionReason(w), append(heat, s.OverloadSources(w, f.Guard)...)
	case at == f.Beside && f.Beside > max(f.Handling, f.Heat, f.Protection):
		return gauge + ": one gauge with the kept wires in series with it; " + s.carried(w, at), heat
	case at == f.Handling && f.Earth:
		return gauge + ": no thinner than the battery's live lead (NEC 552.10); " + s.carried(w, at), append(heat, "nec-552")
	case at == f.Handling:
		return gauge + ": the smallest that practice allows; " + s.carried(w, at), heat
	}
	return s.sharedReason(w, heat)
}

// sharedReason is for a gauge that the drop or a neighbour in series decided.
func (s *sizer) sharedReason(w harness.WireID, heat []string) (string, []string) {
	for _, x := range s.groups[s.ofWire[w]] {
		if x != w && s.Floors[x].Least() == s.At[w] {
			text, keys := s.reason(x)
			tie := "in series"
			if starting := s.startingWires(); starting[w] && starting[x] {
				tie = "cranks the engine"
			}
			return fmt.Sprintf("%s with %s, so one gauge: %s", tie, s.H.Wires[x].Name, text), keys
		}
	}
	switch s.H.Practice.Method {
	case "abyc-e11":
		return s.gauge(w, s.At[w]) + ": 10.75 × amperes × feet ÷ volts, ABYC E-11" + s.dropReason(w), append(heat, "abyc-ix")
	case "ac43-13":
		return s.gauge(w, s.At[w]) + ": 0.5 V at 14 V, FAA AC 43.13-1B table 11-6" + s.dropReason(w), append(heat, "ac43-11-6", "ac43-11-9")
	}
	return s.gauge(w, s.At[w]) + s.dropReason(w), append(heat, "abyc-ix")
}

func (s *sizer) gauge(w harness.WireID, at int) string {
	return s.Of[w][at].Conductor.Gauge.String()
}

// carried says the worst current against what the wire may carry.
func (s *sizer) carried(w harness.WireID, at int) string {
	p := s.Peaks[w]
	most := unit.Ampere(unit.Round(s.Carries(w, &s.Of[w][at]), 1))
	here := fmt.Sprintf("at %s", s.Places[w].Celsius)
	if n := s.Bundles[w]; n > 1 {
		here += fmt.Sprintf(" among %d loaded wires", n)
	}
	switch {
	case p.Short:
		return fmt.Sprintf("%s while cranking, seconds only; carries %s for ever %s", unit.Amps(p.Amps), most, here)
	case p.Amps < OnFrom:
		return fmt.Sprintf("no state draws current; carries %s %s", most, here)
	}
	return fmt.Sprintf("%s in %s, carries %s %s", unit.Amps(p.Amps), p.State, most, here)
}

// thinner says what the next thinner size would carry.
func (s *sizer) thinner(w harness.WireID, at int) string {
	if at == 0 {
		return ""
	}
	return fmt.Sprintf("; %s would carry %s", s.gauge(w, at-1), unit.Ampere(unit.Round(s.Carries(w, &s.Of[w][at-1]), 1)))
}

// protectionReason says what the wire's fuse lets through, and that the next
// thinner size would not stand it.
func (s *sizer) protectionReason(w harness.WireID) string {
	at, guard := s.At[w], s.Floors[w].Guard
	z := s.Size(w)
	lead := fmt.Sprintf("%s: for its fuse %s: ", s.gauge(w, at), s.H.Elements[guard].Name)
	if at == 0 {
		return lead + s.BurdenText(w, z, guard, s.Worst(w, z, guard))
	}
	thinner := &s.Of[w][at-1]
	fails := s.Worst(w, thinner, guard)
	for _, b := range s.Burdens(w, z, guard) {
		if b.Lasting == fails.Lasting {
			lead += s.BurdenText(w, z, guard, b)
		}
	}
	return lead + fmt.Sprintf("; %s would stand %s", thinner.Conductor.Gauge, unit.Ampere(unit.Round(fails.Stands, 1)))
}

// dropReason speaks of the load through this wire that comes nearest its limit.
func (s *sizer) dropReason(w harness.WireID) string {
	d := s.tightest(w)
	if d == nil {
		return ""
	}
	limit, text := s.LimitOf(d)
	drop := s.Drop(d)
	out := fmt.Sprintf(": %s over %s with %s of return loses %.2f V%s of %.2f V allowed (%s) to %s", unit.Amps(d.Amps),
		s.metresText(s.Along(d.Feed.Wires)), s.metresText(s.Along(d.Back.Wires)), drop, s.coldText(d, drop), float64(limit), text, s.H.Elements[d.Load].Name)
	if at := s.At[w]; at > 0 {
		out += fmt.Sprintf("; %s would lose %.2f V", s.gauge(w, at-1), s.dropBelow(d, w))
	}
	return out
}

// coldText gives the drop at 20 C beside a warm one that differs from it.
func (s *sizer) coldText(d *Draw, warm float64) string {
	if cold := s.ColdDrop(d); warm-cold >= 0.005 {
		return fmt.Sprintf(" warm (%.2f V at 20 °C)", cold)
	}
	return ""
}

// tightest gives the draw through a wire that comes nearest its limit.
func (s *sizer) tightest(w harness.WireID) *Draw {
	var best *Draw
	most := -1.0
	for _, i := range s.Drawn[w] {
		d := &s.Draws[i]
		if !d.Counts {
			continue
		}
		limit, _ := s.LimitOf(d)
		if ratio := s.Drop(d) / float64(limit); ratio > most {
			best, most = d, ratio
		}
	}
	return best
}

func (s *sizer) Along(wires []harness.WireID) float64 {
	sum := 0.0
	for _, w := range wires {
		sum += s.Metres(w)
	}
	return sum
}

// metresText gives a length for reading, in the sheet's units: 2.44 m, 8.0 ft.
func (s *sizer) metresText(m float64) string {
	if s.H.Sheet.Imperial {
		return fmt.Sprintf("%.1f ft", m*Feet)
	}
	return fmt.Sprintf("%.2f m", m)
}

// heatSources names what the current that a wire may carry rests on.
func (s *sizer) heatSources(w harness.WireID) []string {
	if s.Balanced() {
		return []string{"heat-balance"}
	}
	keys := []string{"abyc-vi-b", "ambient-rule"}
	if s.Bundles[w] > 1 {
		_, key := rating.BundleFactor(s.Bundles[w])
		keys = append(keys, key)
	}
	return keys
}
