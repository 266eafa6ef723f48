package reason

import (
	"fmt"
	"math"
	"slices"

	"example.com/loomfolio/sizing/choose"
	"example.com/loomfolio/sizing/choose/chosen"
	"example.com/loomfolio/sizing/choose/demand"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/unit"
)

func fail(rule, of string, has, limit float64, text string) chosen.Fail {
	return chosen.Fail{Rule: rule, Of: of, Has: has, Limit: limit, Text: text}
}

// below tries the next thinner size of a wire against every rule, everything
// else as it was chosen.
func (r report) below(w harness.WireID) chosen.Neighbour {
	at := r.At[w] - 1
	if at < 0 {
		return chosen.Neighbour{}
	}
	out := chosen.Neighbour{Size: r.gauge(w, at), Fails: append(r.ownFails(w, at), r.dropFails(w)...)}
	if len(out.Fails) > 0 || r.Groups.Of[w] < 0 {
		return out
	}
	for _, x := range r.Groups.Wires[r.Groups.Of[w]] {
		if x == w {
			continue
		}
		if own := r.ownFails(x, at); len(own) > 0 {
			f := own[0]
			f.Text = fmt.Sprintf("one gauge with %s in series: %s", r.H.Wires[x].Name, f.Text)
			f.Rule, f.Of = "series", r.H.Wires[x].Name
			out.Fails = append(out.Fails, f)
			return out
		}
	}
	return out
}

// ownFails tries a size of one wire against the rules that know no other wire.
func (r report) ownFails(w harness.WireID, at int) []chosen.Fail {
	z, f := &r.Shelf[w][at], r.Floors[w]
	var out []chosen.Fail
	if least := r.Shelf[w].Smallest(&r.H.Practice); at < least {
		c := r.Shelf[w][least].Conductor
		out = append(out, fail("handling", "", float64(z.Conductor.Area), float64(c.Area), "practice uses nothing thinner than "+c.Gauge.String()))
	}
	if least := r.earthOver(w, at); float64(z.Conductor.Area) < least*0.999 {
		text := fmt.Sprintf("a battery's ground lead holds no less copper than its live lead, %s here (NEC 552.10)", unit.AreaText(unit.SquareMillimetre(least), r.H.Sheet.Imperial))
		out = append(out, fail("earth", "", float64(z.Conductor.Area), least, text))
	}
	if at < f.Short.Step {
		out = append(out, fail(f.Short.Rule, "", float64(z.Conductor.Area), float64(r.Shelf[w][f.Short.Step].Conductor.Area), f.Short.Why))
	}
	carries := r.Carries(w, z)
	if at < f.Heat {
		text := fmt.Sprintf("carries %s continuously where it lies, and %s flows in %s", unit.Amps(carries), unit.Amps(r.Peaks[w].Amps), r.Peaks[w].State)
		out = append(out, fail("heat", r.Peaks[w].State, carries, r.Peaks[w].Amps, text))
	}
	if at < f.Protection {
		b := r.Worst(w, z, f.Guard)
		text := fmt.Sprintf("for its fuse %s: %s", r.H.Elements[f.Guard].Name, r.BurdenText(w, z, f.Guard, b))
		out = append(out, fail("protection", r.H.Elements[f.Guard].Name, b.Stands, b.Passes, text))
	}
	return out
}

// earthOver gives the least area of a lead on a battery's earth side when it,
// and all in series with it, take a size: live leads of that series go with it.
// 0 for any other wire.
func (r report) earthOver(w harness.WireID, at int) float64 {
	least := 0.0
	for _, l := range r.Leads {
		if !slices.Contains(l.Earth, w) {
			continue
		}
		if l.Battery {
			least = math.Max(least, choose.LeastEarth)
		}
		for _, x := range l.Live {
			z := r.Size(x)
			if r.Groups.Of[x] >= 0 && r.Groups.Of[x] == r.Groups.Of[w] {
				z = &r.Shelf[x][at]
			}
			least = math.Max(least, float64(z.Conductor.Area))
		}
	}
	return least
}

// dropFails gives the loads whose drop would pass its limit if a wire, and all
// that are in series with it, were one size thinner; the worst state of each.
func (r report) dropFails(w harness.WireID) []chosen.Fail {
	at := map[harness.ElementID]int{} // the place in out
	var out []chosen.Fail
	for _, d := range r.Drawn[w] {
		if !d.Counts {
			continue
		}
		f, ok := r.dropFail(d, w)
		if !ok {
			continue
		}
		j, seen := at[d.Load]
		if !seen {
			at[d.Load] = len(out)
			out = append(out, f)
		} else if f.Has > out[j].Has {
			out[j] = f
		}
	}
	return out
}

// dropFail tries one load in one state, by the method of the practice.
func (r report) dropFail(d *demand.Draw, w harness.WireID) (chosen.Fail, bool) {
	name := r.H.Elements[d.Load].Name
	at := r.At[w] - 1
	if r.ByRule() {
		if r.RuleOf(r.H.Practice.Method, d, w)(&r.Shelf[w][at]) {
			return chosen.Fail{}, false
		}
		text := fmt.Sprintf("too thin by the rule for %s to %s in %s", unit.Amps(d.Most()), name, r.StateName(d))
		return fail("drop", name, d.Most(), 0, text), true
	}
	limit, words := r.LimitOf(d)
	lost := r.dropBelow(d, w)
	if lost <= float64(limit)*(1+1e-9) {
		return chosen.Fail{}, false
	}
	text := fmt.Sprintf("loses %.3g V to %s in %s, allowed %.3g V (%s)", lost, name, r.StateName(d), float64(limit), words)
	return fail("drop", name, lost, float64(limit), text), true
}

// dropBelow gives the drop of a draw if a wire, and all in series with it, were
// one size thinner and as warm as that size gets.
func (r report) dropBelow(d *demand.Draw, w harness.WireID) float64 {
	group := []harness.WireID{w}
	if g := r.Groups.Of[w]; g >= 0 {
		group = r.Groups.Wires[g]
	}
	z := &r.Shelf[w][r.At[w]-1]
	return r.Drop(d) + r.share(d, w)*(z.Ohms*r.Warmer(r.Warmest(group), z)-r.Size(w).Ohms)
}

// share gives the amperes times metres of a draw in a wire and all of its group,
// the copper's warmth in the current.
func (r report) share(d *demand.Draw, w harness.WireID) float64 {
	for _, t := range r.OnGroups(d, r.Groups.Of).Terms {
		if r.Groups.Of[w] >= 0 && t.Group == r.Groups.Of[w] {
			return t.Amps
		}
	}
	return r.LoadOn(d, w)
}
