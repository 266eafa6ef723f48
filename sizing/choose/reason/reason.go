package reason

import (
	"fmt"
	"slices"

	"example.com/loomfolio/sizing/choose/demand"
	"example.com/loomfolio/sizing/choose/trial"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/unit"
)

// reason says in short sentences which rule decided a wire's gauge, with the
// numbers, and gives the keys of the sources of that rule.
func (r report) reason(w harness.WireID) (string, []string) {
	f, at := r.Floors[w], r.At[w]
	gauge := r.gauge(w, at)
	heat := r.Ampacity.Sources(w)
	switch x := &r.H.Wires[w]; {
	case x.Existing && !x.Gauge.Given():
		return gauge + " at least, for nobody says how thick it is: measure it; " + r.carried(w, at), heat
	case r.Pins.Wires[w]:
		return gauge + "; " + r.carried(w, at), heat
	case r.Fixed[w]:
		return "given: " + gauge + "; " + r.carried(w, at), heat
	case at == f.Heat && f.Heat > max(f.Handling, f.Protection):
		return gauge + ": " + r.carried(w, at) + r.thinner(w, at), heat
	case at == f.Protection && f.Protection > f.Handling:
		return r.protectionReason(w), append(heat, r.OverloadSources(w, f.Guard)...)
	case at == f.Beside && f.Beside > max(f.Handling, f.Heat, f.Protection):
		return gauge + ": one gauge with the kept wires in series with it; " + r.carried(w, at), heat
	case at == f.Short.Step && f.Short.Step > max(f.Handling, f.Heat, f.Protection, f.Beside):
		return gauge + ": " + f.Short.Why + "; " + r.carried(w, at), heat
	case at == f.Handling && f.Earth:
		return gauge + ": no thinner than the live lead of its source (NEC 552.10)" + r.noStarter() + "; " + r.carried(w, at), append(heat, "nec-552")
	case at == f.Handling:
		return gauge + ": the smallest that practice allows; " + r.carried(w, at), heat
	}
	return r.sharedReason(w, heat)
}

// noStarter says of an earth lead what its size leaves out.
func (r report) noStarter() string {
	if slices.ContainsFunc(r.H.Parts, func(p harness.Part) bool { return p.Kind == harness.Starter }) {
		return ""
	}
	return ", and no starter is described: the lead of a car that has one stays as thick as it is"
}

// sharedReason is for a gauge that the drop or a neighbour in series decided.
func (r report) sharedReason(w harness.WireID, heat []string) (string, []string) {
	for _, x := range r.Groups.Wires[r.Groups.Of[w]] {
		if x != w && r.Floors[x].Ruled() == r.At[w] {
			text, keys := r.reason(x)
			tie := "in series"
			if starting := r.Cranks; starting[w] && starting[x] {
				tie = "cranks the engine"
			}
			return fmt.Sprintf("%s with %s, so one gauge: %s", tie, r.H.Wires[x].Name, text), keys
		}
	}
	switch r.H.Practice.Method {
	case "abyc-e11":
		return r.gauge(w, r.At[w]) + ": 10.75 × amperes × feet ÷ volts, ABYC E-11" + r.dropReason(w), append(heat, "abyc-ix")
	case "ac43-13":
		return r.gauge(w, r.At[w]) + ": 0.5 V at 14 V, FAA AC 43.13-1B table 11-6" + r.dropReason(w), append(heat, "ac43-11-6", "ac43-11-9")
	}
	return r.gauge(w, r.At[w]) + r.dropReason(w), append(heat, "abyc-ix")
}

func (r report) gauge(w harness.WireID, at int) string {
	return r.Shelf[w][at].Conductor.Gauge.String()
}

// carried says the worst current against what the wire may carry.
func (r report) carried(w harness.WireID, at int) string {
	p := r.Peaks[w]
	most := unit.Ampere(unit.Round(r.Carries(w, &r.Shelf[w][at]), 1))
	here := fmt.Sprintf("at %s", r.Places[w].Celsius)
	if n := r.Bundles[w]; n > 1 {
		here += fmt.Sprintf(" among %d loaded wires", n)
	}
	switch {
	case p.Short:
		return fmt.Sprintf("%s while cranking, seconds only; carries %s continuously %s", unit.Amps(p.Amps), most, here)
	case p.Amps < demand.OnFrom:
		return fmt.Sprintf("no state draws current; carries %s %s", most, here)
	}
	return fmt.Sprintf("%s in %s, carries %s %s", unit.Amps(p.Amps), p.State, most, here)
}

// thinner says what the next thinner size would carry.
func (r report) thinner(w harness.WireID, at int) string {
	if at == 0 {
		return ""
	}
	return fmt.Sprintf("; %s would carry %s", r.gauge(w, at-1), unit.Ampere(unit.Round(r.Carries(w, &r.Shelf[w][at-1]), 1)))
}

// protectionReason says what the wire's fuse lets through, and that the next
// thinner size would not stand it.
func (r report) protectionReason(w harness.WireID) string {
	at, guard := r.At[w], r.Floors[w].Guard
	z := r.Size(w)
	lead := fmt.Sprintf("%s: for its fuse %s: ", r.gauge(w, at), r.H.Elements[guard].Name)
	if at == 0 {
		return lead + r.BurdenText(w, z, guard, r.Worst(w, z, guard))
	}
	thinner := &r.Shelf[w][at-1]
	fails := r.Worst(w, thinner, guard)
	for _, b := range r.Burdens(w, z, guard) {
		if b.Lasting == fails.Lasting {
			lead += r.BurdenText(w, z, guard, b)
		}
	}
	return lead + fmt.Sprintf("; %s would be good for %s", thinner.Conductor.Gauge, unit.Ampere(unit.Round(fails.Stands, 1)))
}

// dropReason speaks of the load through this wire that comes nearest its limit.
func (r report) dropReason(w harness.WireID) string {
	d := r.tightest(w)
	if d == nil {
		return ""
	}
	limit, text := r.LimitOf(d)
	drop := r.Drop(d)
	lead := ":"
	if sum := r.sumText(w, d); sum != "" {
		lead = sum
	}
	out := lead + fmt.Sprintf(" %s over %s with %s of return loses %.2f V%s of %.2f V allowed (%s) to %s", unit.Amps(d.Most()),
		r.metresText(r.Along(d.Feed.Wires)), r.metresText(r.Along(d.Back.Wires)), drop, r.coldText(d, drop), float64(limit), text, r.H.Elements[d.Load].Name)
	if at := r.At[w]; at > 0 {
		out += fmt.Sprintf("; %s would lose %.2f V", r.gauge(w, at-1), r.dropBelow(d, w))
	}
	return out + r.saving(w, d)
}

// coldText gives the drop at 20 C beside a warm one that differs from it.
func (r report) coldText(d *demand.Draw, warm float64) string {
	if cold := r.ColdDrop(d); warm-cold >= 0.005 {
		return fmt.Sprintf(" warm (%.2f V at 20 °C)", cold)
	}
	return ""
}

// tightest gives the draw through a wire that comes nearest its limit.
func (r report) tightest(w harness.WireID) *demand.Draw {
	var best *demand.Draw
	most := -1.0
	for _, d := range r.Drawn[w] {
		if !d.Counts {
			continue
		}
		limit, _ := r.LimitOf(d)
		if ratio := r.Drop(d) / float64(limit); ratio > most {
			best, most = d, ratio
		}
	}
	return best
}

// metresText gives a length for reading, in the sheet's units: 2.44 m, 8.0 ft.
func (r report) metresText(m float64) string {
	if r.H.Sheet.Imperial {
		return fmt.Sprintf("%.1f ft", m*trial.Feet)
	}
	return fmt.Sprintf("%.2f m", m)
}
