package choose

import (
	"fmt"
	"math"
	"slices"

	"example.com/loomfolio/sizing/choose/chosen"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/rating"
	"example.com/loomfolio/sizing/unit"
)

func fail(rule, of string, has, limit float64, text string) chosen.Fail {
	return chosen.Fail{Rule: rule, Of: of, Has: has, Limit: limit, Text: text}
}

// below tries the next thinner size of a wire against every rule, everything
// else as it was chosen.
func (s *sizer) below(w harness.WireID) chosen.Neighbour {
	at := s.At[w] - 1
	if at < 0 {
		return chosen.Neighbour{}
	}
	out := chosen.Neighbour{Size: s.gauge(w, at), Fails: append(s.ownFails(w, at), s.dropFails(w)...)}
	if len(out.Fails) > 0 || s.ofWire[w] < 0 {
		return out
	}
	for _, x := range s.groups[s.ofWire[w]] {
		if x == w {
			continue
		}
		if own := s.ownFails(x, at); len(own) > 0 {
			f := own[0]
			f.Text = fmt.Sprintf("one gauge with %s in series: %s", s.H.Wires[x].Name, f.Text)
			f.Rule, f.Of = "series", s.H.Wires[x].Name
			out.Fails = append(out.Fails, f)
			return out
		}
	}
	return out
}

// ownFails tries a size of one wire against the rules that know no other wire.
func (s *sizer) ownFails(w harness.WireID, at int) []chosen.Fail {
	z, f := &s.Of[w][at], s.Floors[w]
	var out []chosen.Fail
	if least := s.Of[w].Smallest(&s.H.Practice); at < least {
		c := s.Of[w][least].Conductor
		out = append(out, fail("handling", "", float64(z.Conductor.Area), float64(c.Area), "practice uses nothing thinner than "+c.Gauge.String()))
	}
	if least := s.earthOver(w, at); float64(z.Conductor.Area) < least*0.999 {
		text := fmt.Sprintf("a battery's earth lead holds no less copper than its live lead, %s here (NEC 552.10)", unit.SquareMillimetre(least))
		out = append(out, fail("earth", "", float64(z.Conductor.Area), least, text))
	}
	carries := s.Carries(w, z)
	if at < f.Heat {
		text := fmt.Sprintf("carries %s for ever where it lies, and %s flows in %s", unit.Amps(carries), unit.Amps(s.Peaks[w].Amps), s.Peaks[w].State)
		out = append(out, fail("heat", s.Peaks[w].State, carries, s.Peaks[w].Amps, text))
	}
	if at < f.Protection {
		b := s.Worst(w, z, f.Guard)
		text := fmt.Sprintf("for its fuse %s: %s", s.H.Elements[f.Guard].Name, s.BurdenText(w, z, f.Guard, b))
		out = append(out, fail("protection", s.H.Elements[f.Guard].Name, b.Stands, b.Passes, text))
	}
	return out
}

// earthOver gives the least area of a lead on a battery's earth side when it,
// and all in series with it, take a size: live leads of that series go with it.
// 0 for any other wire.
func (s *sizer) earthOver(w harness.WireID, at int) float64 {
	least := 0.0
	for _, l := range s.Leads {
		if !slices.Contains(l.Earth, w) {
			continue
		}
		least = math.Max(least, LeastEarth)
		for _, x := range l.Live {
			z := s.Size(x)
			if s.ofWire[x] >= 0 && s.ofWire[x] == s.ofWire[w] {
				z = &s.Of[x][at]
			}
			least = math.Max(least, float64(z.Conductor.Area))
		}
	}
	return least
}

// dropFails gives the loads whose drop would pass its limit if a wire, and all
// that are in series with it, were one size thinner; the worst state of each.
func (s *sizer) dropFails(w harness.WireID) []chosen.Fail {
	worst := map[harness.ElementID]chosen.Fail{}
	var order []harness.ElementID
	for _, i := range s.Drawn[w] {
		d := &s.Draws[i]
		if !d.Counts {
			continue
		}
		f, ok := s.dropFail(d, w)
		if !ok {
			continue
		}
		was, seen := worst[d.Load]
		if !seen {
			order = append(order, d.Load)
		}
		if !seen || f.Has > was.Has {
			worst[d.Load] = f
		}
	}
	var out []chosen.Fail
	for _, id := range order {
		out = append(out, worst[id])
	}
	return out
}

// dropFail tries one load in one state, by the method of the practice.
func (s *sizer) dropFail(d *Draw, w harness.WireID) (chosen.Fail, bool) {
	name := s.H.Elements[d.Load].Name
	at := s.At[w] - 1
	if s.ByRule() {
		if s.RuleOf(s.H.Practice.Method, d, w)(&s.Of[w][at]) {
			return chosen.Fail{}, false
		}
		text := fmt.Sprintf("too thin by the rule for %s to %s in %s", unit.Amps(d.Amps), name, s.States[d.State].Name)
		return fail("drop", name, d.Amps, 0, text), true
	}
	limit, words := s.LimitOf(d)
	lost := s.dropBelow(d, w)
	if lost <= float64(limit)*(1+1e-9) {
		return chosen.Fail{}, false
	}
	text := fmt.Sprintf("loses %.3g V to %s in %s, allowed %.3g V (%s)", lost, name, s.States[d.State].Name, float64(limit), words)
	return fail("drop", name, lost, float64(limit), text), true
}

// dropBelow gives the drop of a draw if a wire, and all in series with it, were
// one size thinner and as warm as that size gets.
func (s *sizer) dropBelow(d *Draw, w harness.WireID) float64 {
	group := []harness.WireID{w}
	if g := s.ofWire[w]; g >= 0 {
		group = s.groups[g]
	}
	z := &s.Of[w][s.At[w]-1]
	return s.Drop(d) + s.share(d, w)*(z.Ohms*s.Warmer(s.Warmest(group), z)-s.Size(w).Ohms)
}

// share gives the amperes times metres of a draw in a wire and all of its group,
// the copper's warmth in the current.
func (s *sizer) share(d *Draw, w harness.WireID) float64 {
	for _, t := range s.demandOf(d).Terms {
		if s.ofWire[w] >= 0 && t.Group == s.ofWire[w] {
			return t.Amps
		}
	}
	return math.Abs(s.States[d.State].WireAmps[w]) * s.OhmsIn(d.State, w) / s.Size(w).Ohms
}

// ratings lists the ratings that a fuse or breaker of a body is made in.
func ratings(f *Fuse) []unit.Ampere {
	if f.Breaker {
		return BreakerRatings[:]
	}
	var out []unit.Ampere
	for _, r := range rating.FuseSeries(f.Body) {
		out = append(out, r.Rating)
	}
	return out
}

// beside gives the ratings on both sides of a fuse's and why they were not taken.
func (s *sizer) beside(e *harness.Element) (below, above chosen.Neighbour) {
	f := &s.Fuses[e.ID]
	lower, higher := unit.Ampere(0), unit.Ampere(0)
	for _, r := range ratings(f) {
		if r < f.Rating {
			lower = r
		}
		if r > f.Rating && higher == 0 {
			higher = r
		}
	}
	if lower > 0 {
		below = chosen.Neighbour{Size: lower.String(), Fails: s.tooLittle(e, f, lower)}
	}
	if higher > 0 {
		above = chosen.Neighbour{Size: higher.String(), Fails: s.tooMuch(e, f, higher)}
	}
	return below, above
}

// tooLittle tries a smaller rating against the load and its start.
func (s *sizer) tooLittle(e *harness.Element, f *Fuse, r unit.Ampere) []chosen.Fail {
	var out []chosen.Fail
	if most := float64(r) * s.fuseShare() * s.fuseHeat(e); f.Amps > most*(1+1e-9) {
		text := fmt.Sprintf("carries %s for ever (%s of it", unit.Amps(most), unit.Fraction(s.fuseShare()))
		if heat := s.fuseHeat(e); heat < 0.995 {
			text += fmt.Sprintf(", and %s of that in the heat where it sits", unit.Fraction(unit.Round(heat, 2)))
		}
		out = append(out, fail("continuous", f.State, f.Amps, most, fmt.Sprintf("%s), and %s flows in %s", text, unit.Amps(f.Amps), f.State)))
	}
	if !f.Breaker && !s.holds(e, f.Body, r, f) {
		earliest := float64(rating.EarliestOpening(f.Body, float64(f.Start)/(float64(r)*s.fuseHeat(e))))
		text := fmt.Sprintf("may open %s after the start of %s begins, which lasts %s", unit.Second(unit.Round(earliest, 3)), unit.Amps(float64(f.Start)), f.StartFor)
		out = append(out, fail("start", "", earliest, float64(f.StartFor), text))
	}
	return out
}

// tooMuch tries a larger rating against the holder and every wire behind.
func (s *sizer) tooMuch(e *harness.Element, f *Fuse, r unit.Ampere) []chosen.Fail {
	var out []chosen.Fail
	if limit := s.holderLimit(e, f.Body); !f.Breaker && limit > 0 && r > limit {
		out = append(out, fail("holder", "", float64(r), float64(limit), fmt.Sprintf("the holder takes %s at most", limit)))
	}
	for i, guards := range s.Stand {
		w := harness.WireID(i)
		if !slices.Contains(guards, e.ID) || s.LetThrough(e.ID, w) < float64(f.Rating)*(1-1e-9) {
			continue // its supply limits what passes, not this fuse
		}
		if most := s.MostRating(w, s.Size(w), e.ID); most < float64(r)*(1-1e-9) {
			name := s.H.Wires[w].Name
			text := fmt.Sprintf("%s (%s) stands a rating of %s at most", name, s.gauge(w, s.At[w]), unit.Amps(most))
			out = append(out, fail("wire", name, most, float64(r), text))
		}
	}
	return out
}
