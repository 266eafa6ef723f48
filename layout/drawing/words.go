package drawing

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"example.com/loomfolio/layout/page"
	"example.com/loomfolio/layout/symbol"
	"example.com/loomfolio/sizing/choose/chosen"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/harness/kind"
)

// place is the plain name of where a part sits, and whether it is the vehicle's own.
func (s *sheets) place(p *harness.Part) string {
	place := ""
	if p.Place >= 0 && int(p.Place) < len(s.h.Places) {
		place = s.h.Places[p.Place].Name
	}
	switch {
	case !p.Existing:
		return place
	case place == "":
		return "existing"
	}
	return place + " · existing"
}

// caption is a part's reference, name, what matters of it in numbers, and place.
func (s *sheets) caption(p *harness.Part, drawn func(harness.WireID) bool) []symbol.Line {
	return symbol.Caption(p.Ref, p.Name, s.place(p), s.figures(p, drawn)...)
}

// figures are the numbers that stand under a tile.
func (s *sheets) figures(p *harness.Part, drawn func(harness.WireID) bool) []string {
	switch p.Kind {
	case harness.Fuse, harness.Breaker:
		if f := s.fuseOf(p.ID, ""); f != nil {
			return []string{fuseWords(f)}
		}
	case harness.Battery:
		if p.Capacity > 0 {
			return []string{number(float64(p.Capacity)) + " Ah"}
		}
	case harness.DCConverter:
		return []string{s.converts(p)}
	case harness.Inverter, harness.SolarPanel:
		return []string{p.Charge.Power.String()}
	case harness.Relay, harness.Switch, harness.Isolator, harness.IgnitionSwitch, harness.Thermostat, harness.PressureSwitch, harness.Reed, harness.GlowTimer, harness.LatchingRelay, harness.Timer:
		if p.Rating > 0 {
			return []string{"rated " + amps(float64(p.Rating))}
		}
	}
	if kind.Charges(p.Kind) && p.Output > 0 {
		return []string{amps(float64(p.Output))}
	}
	return []string{s.takes(p, drawn)}
}

// converts is what a converter gives, and at what voltage.
func (s *sheets) converts(p *harness.Part) string {
	for _, id := range p.Elements {
		if e := &s.h.Elements[id]; e.Kind == harness.Converter {
			return number(float64(e.Volts)) + " V, " + amps(float64(e.Amps))
		}
	}
	return ""
}

// takes is what a part draws through the loads that some wires land on, running
// and starting.
func (s *sheets) takes(p *harness.Part, drawn func(harness.WireID) bool) string {
	loads := s.reached(p, drawn)
	running, starting := s.atOnce(loads), float64(p.Starts.Amps)
	if running == 0 {
		running = s.written(loads)
	}
	if running == 0 {
		return ""
	}
	if starting > 0 {
		return fmt.Sprintf("%s, starts %s", amps(running), amps(starting))
	}
	return amps(running)
}

// reached are the loads of a part with a terminal of their own on which one of
// the wires lands; all of them where the wires land on shared terminals alone.
func (s *sheets) reached(p *harness.Part, drawn func(harness.WireID) bool) []harness.ElementID {
	var all []harness.ElementID
	ends := map[harness.TerminalID]int{}
	for _, e := range p.Elements {
		if l := &s.h.Elements[e]; l.Kind == harness.Load {
			all = append(all, e)
			ends[l.A]++
			ends[l.B]++
		}
	}
	landed := map[harness.TerminalID]bool{}
	for t := range ends {
		if slices.ContainsFunc(s.use[t].in, drawn) || slices.ContainsFunc(s.use[t].out, drawn) {
			landed[t] = true
		}
	}
	var own []harness.ElementID
	for _, e := range all {
		l := &s.h.Elements[e]
		if landed[l.A] && ends[l.A] == 1 || landed[l.B] && ends[l.B] == 1 {
			own = append(own, e)
		}
	}
	if len(own) == 0 && len(landed) > 0 {
		return all
	}
	return own
}

// atOnce is the most that loads draw at once in any state; 0 where none draws.
func (s *sheets) atOnce(loads []harness.ElementID) float64 {
	var found []int
	for _, e := range loads {
		found = append(found, s.loadsOf[e]...)
	}
	slices.Sort(found)
	sums := map[string]float64{}
	most := 0.0
	for _, i := range found {
		l := &s.r.Loads[i]
		for _, state := range l.On {
			sums[state] += float64(l.Amps)
			most = max(most, sums[state])
		}
	}
	return most
}

// written is the current that the description gives for loads.
func (s *sheets) written(loads []harness.ElementID) float64 {
	sum := 0.0
	for _, e := range loads {
		sum += float64(s.h.Elements[e].Amps)
	}
	return sum
}

func (s *sheets) fuseOf(p harness.PartID, position string) *chosen.Fuse {
	return s.fuseAt[seat{p, position}]
}

// fuseWords is a fuse's rating, body and colour: "30 A maxi, green".
func fuseWords(f *chosen.Fuse) string {
	words := strings.TrimSpace(amps(float64(f.Rating)) + " " + f.Body)
	if f.BodyColour != "" && !f.Breaker {
		words += ", " + f.BodyColour
	}
	return words
}

// shortFuse is a position's rating and colour: "10 A red"; "" of a feed.
func (s *sheets) shortFuse(p *harness.Part, position string) string {
	f := s.fuseOf(p.ID, position)
	if f == nil {
		return ""
	}
	return strings.TrimSpace(amps(float64(f.Rating)) + " " + f.BodyColour)
}

// panelCaption tells of a fuse panel's feeds and the positions behind them.
func (s *sheets) panelCaption(p *harness.Part, feeds []symbol.Use) []symbol.Line {
	var more []string
	for _, u := range feeds {
		for _, f := range p.Panel.Feeds {
			if f.Name == u.Name {
				more = append(more, f.Name+" feeds "+page.Ranges(f.Positions))
			}
		}
	}
	return symbol.Caption(p.Ref, p.Name, s.place(p), more...)
}

// number prints three figures at most, without needless zeros.
func number(v float64) string {
	return strconv.FormatFloat(rounded(v), 'f', -1, 64)
}

func rounded(v float64) float64 {
	digits := 2
	switch a := abs(v); {
	case a >= 100:
		digits = 0
	case a >= 10:
		digits = 1
	}
	r, _ := strconv.ParseFloat(strconv.FormatFloat(v, 'f', digits, 64), 64)
	return r
}

func abs(v float64) float64 {
	if v < 0 {
		return -v
	}
	return v
}

// amps writes a current, in mA where two decimals of an ampere would say nothing.
func amps(v float64) string {
	if v != 0 && abs(v) < 0.01 {
		return number(v*1000) + " mA"
	}
	return number(v) + " A"
}
