package explain

import (
	"fmt"
	"math"
	"strings"

	"example.com/loomfolio/sizing/fit/fitted"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/unit"
)

func (x *explainer) ground(p *harness.Part) {
	for _, g := range x.r.Grounds {
		if g.Part != p.ID {
			continue
		}
		var rings []string
		for _, id := range g.Rings {
			rings = append(rings, fmt.Sprintf("%s (%s, %s)", x.h.Wires[id].Name, x.r.Wires[id].Gauge, x.r.Wires[id].Amps))
		}
		x.line("ground", "%s stud on a %s surface, %s", g.Stud, g.Surface, g.Washer)
		x.line("rings", "from the bottom: %s", strings.Join(rings, ", "))
		if g.StudWhy != "" {
			x.line("", "%s", g.StudWhy)
		}
		x.line("carries", "%s", carried(g))
		x.line("offset", "%s", offset(g))
	}
}

// offset says how far a ground gets from the battery's post.
func offset(g fitted.Ground) string {
	if g.LiftIn == "" {
		return "none from the battery's post in any state"
	}
	text := fmt.Sprintf("%s at most from the battery's post, in %s", volts(g.Lift), g.LiftIn)
	if g.SteadyIn != "" {
		text += fmt.Sprintf("; otherwise %s, in %s", volts(g.Steady), g.SteadyIn)
	}
	return text
}

// carried says what a ground carries for long, and for seconds.
func carried(g fitted.Ground) string {
	text := "nothing that lasts"
	if g.State != "" {
		text = fmt.Sprintf("%s at most, in %s", g.Amps, g.State)
	}
	if g.CrankIn != "" {
		text += fmt.Sprintf("; %s for seconds, in %s", g.Crank, g.CrankIn)
	}
	return text
}

func (x *explainer) splice(p *harness.Part) {
	for _, s := range x.r.Splices {
		if s.Part != p.ID {
			continue
		}
		var wires []string
		for _, id := range s.Wires {
			wires = append(wires, fmt.Sprintf("%s (%s)", x.h.Wires[id].Name, x.r.Wires[id].Gauge))
		}
		x.line("splice", "%s in all: %s", unit.AreaText(s.AreaSum, x.h.Sheet.Imperial), strings.Join(wires, ", "))
		x.line("barrel", "%s, heat-shrink %s %s", s.Size, s.Shrink, s.Where)
	}
}

// cavities says for each cavity of a connector what comes, what goes on and how
// much flows at most.
func (x *explainer) cavities(p *harness.Part) {
	if p.Kind != harness.Connector {
		return
	}
	in, out := map[string][]string{}, map[string][]string{}
	most, state := map[string]float64{}, map[string]string{}
	for i, w := range x.h.Wires {
		for _, t := range []harness.TerminalID{w.From, w.To} {
			term := &x.h.Terminals[t]
			if term.Part != p.ID {
				continue
			}
			side := in
			if strings.HasSuffix(term.Name, ".out") {
				side = out
			}
			side[term.Cavity] = append(side[term.Cavity], fmt.Sprintf("%s (%s)", w.Name, x.r.Wires[i].Gauge))
			for _, s := range x.r.States {
				if a := math.Abs(s.WireAmps[i]); a > most[term.Cavity] {
					most[term.Cavity], state[term.Cavity] = a, s.Name
				}
			}
		}
	}
	for _, c := range p.Cavities {
		if len(in[c])+len(out[c]) == 0 {
			x.line("cavity "+c, "empty")
			continue
		}
		text := fmt.Sprintf("%s to %s", orDash(strings.Join(in[c], ", ")), orDash(strings.Join(out[c], ", ")))
		if most[c] > 1e-3 {
			text += fmt.Sprintf("; %s at most, in %s", unit.Ampere(most[c]), state[c])
		}
		x.line("cavity "+c, "%s", text)
	}
}
