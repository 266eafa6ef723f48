package testplan

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"example.com/loomfolio/sizing/circuit"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/network"
)

const (
	beeps  = 100  // Ω: a beeper sounds below 30 to 100, by four manuals of cheap meters
	little = 0.02 // of the current between two probes: less through a part counts for nothing
)

// dead is the wiring without any source, all fuses out, everything at rest.
type dead struct {
	h     *harness.Harness
	state network.State
	gains *circuit.Gains
}

// dead solves it; worked: with every contact of a switch closed as well.
func (m *plan) dead(worked bool) (*dead, error) {
	h := *m.h
	h.States = []harness.State{{Name: "dead", Position: make([]int, len(h.Parts)), Engine: harness.EngineOff}}
	r := network.Resistances{Wires: m.cold(), Links: make([]float64, len(h.Elements))}
	h.Elements = slices.Clone(h.Elements)
	for i := range h.Elements {
		e := &h.Elements[i]
		switch {
		case e.Kind == harness.EMF, e.Kind == harness.Charger, e.Kind == harness.FuseLink && h.Parts[e.Part].Kind != harness.Breaker:
			r.Links[i] = math.Inf(1)
		case worked && e.Kind == harness.Contact && e.When.Kind == harness.InPosition:
			e.When = harness.Condition{}
		}
	}
	p, err := network.Prepare(&h, 0, r, network.Options{})
	if err != nil {
		return nil, err
	}
	d := &dead{h: m.h}
	if d.state, err = p.Solve(); err != nil {
		return nil, err
	}
	d.gains, err = p.Gains(d.state)
	return d, err
}

// joined tells whether anything joins two terminals.
func (d *dead) joined(a, b harness.TerminalID) bool {
	x, y := d.state.Of[a], d.state.Of[b]
	return x >= 0 && y >= 0 && d.gains.Joined(x, y)
}

// between gives the ohms between two terminals, and the parts that must be unplugged
// until no beeper sounds any more: the one that carries most first. Metal tells that
// wires and contacts alone join them.
func (d *dead) between(a, b harness.TerminalID) (ohms float64, off []harness.PartID, metal bool) {
	if !d.joined(a, b) {
		return math.Inf(1), nil, false
	}
	from, to := d.state.Of[a], d.state.Of[b]
	if from == to {
		return 0, nil, true
	}
	z := d.gains.Of(from, to)
	ohms = z[from]
	left := 1.0
	for _, s := range d.shares(z) {
		if ohms >= beeps*left || s.amps < little {
			break
		}
		left -= s.amps
		if !slices.Contains(off, s.part) {
			off = append(off, s.part)
		}
	}
	return ohms, off, len(off) == 0 && ohms < beeps
}

// share is the part of the current between two probes that one part carries.
type share struct {
	part harness.PartID
	amps float64
}

// shares lists the parts that can be unplugged, that with most of the current first.
func (d *dead) shares(z []float64) []share {
	var out []share
	for i := range d.h.Elements {
		e, k := &d.h.Elements[i], d.state.ElementAt[i]
		if k < 0 || !unplugs(d.h, e) {
			continue
		}
		n := &d.state.Network.Elements[k]
		if amps := math.Abs(d.gains.Slope(k) * (z[n.A] - z[n.B])); amps >= little {
			out = append(out, share{e.Part, amps})
		}
	}
	slices.SortStableFunc(out, func(a, b share) int {
		switch {
		case a.amps > b.amps+1e-9:
			return -1
		case b.amps > a.amps+1e-9:
			return 1
		}
		return 0
	})
	return out
}

// unplugs tells what can be unplugged or taken out of its holder.
func unplugs(h *harness.Harness, e *harness.Element) bool {
	switch e.Kind {
	case harness.Load, harness.RelayCoil, harness.Rectifier:
		return true
	case harness.Resistance:
		return h.Parts[e.Part].Kind == harness.Resistor
	}
	return false
}

// bridged says what to unplug, in words; "" for nothing.
func (m *plan) bridged(off []harness.PartID) string {
	const told = 4
	var names []string
	for i, p := range off {
		if i == told {
			names = append(names, fmt.Sprintf("%d more", len(off)-told))
			break
		}
		names = append(names, m.h.Parts[p].Ref)
	}
	if len(names) == 0 {
		return ""
	}
	return "through " + strings.Join(names, ", ") + ": unplug, bulbs out"
}
