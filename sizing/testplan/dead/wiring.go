package dead

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"example.com/loomfolio/sizing/circuit"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/network"
)

// beeps is where a beeper may still sound, Ω: below 30 to 100, by four manuals of cheap
// meters.
const beeps = 100

// wiring is it all without any source, all fuses out, everything at rest.
type wiring struct {
	h     *harness.Harness
	state network.State
	gains *circuit.Gains
}

// solve solves it; worked: with every contact of a switch closed as well.
func (k *check) solve(worked bool) (*wiring, error) {
	h := *k.h
	h.States = []harness.State{{Name: "dead", Position: make([]int, len(h.Parts)), Engine: harness.EngineOff}}
	r := network.Resistances{Wires: k.r.Cold(), Links: make([]float64, len(h.Elements))}
	h.Elements = slices.Clone(h.Elements)
	for i := range h.Elements {
		e := &h.Elements[i]
		switch {
		case e.Gives(), e.Kind == harness.FuseLink && h.Parts[e.Part].Kind != harness.Breaker:
			r.Links[i] = math.Inf(1)
		case worked && e.Kind == harness.Contact && e.When.Kind == harness.InPosition:
			e.When = harness.Condition{}
		}
	}
	p, err := network.Prepare(&h, 0, r, network.Options{})
	if err != nil {
		return nil, err
	}
	d := &wiring{h: k.h}
	if d.state, err = p.Solve(); err != nil {
		return nil, err
	}
	d.gains, err = p.Gains(d.state)
	return d, err
}

// joined tells whether anything joins two terminals.
func (d *wiring) joined(a, b harness.TerminalID) bool {
	x, y := d.state.Of[a], d.state.Of[b]
	return x >= 0 && y >= 0 && d.gains.Joined(x, y)
}

// between gives the ohms between two terminals, and the parts that must be unplugged
// until no beeper sounds any more: one after the other that which carries most. Metal
// tells that wires and contacts alone join them.
func (d *wiring) between(a, b harness.TerminalID) (ohms float64, off []harness.PartID, metal bool, err error) {
	ohms = d.ohms(a, b)
	var out []int
	for now := ohms; now < beeps; now = d.ohms(a, b) {
		part, ok := d.foremost(a, b)
		if !ok {
			metal = true
			break
		}
		off = append(off, part)
		for _, id := range d.h.Parts[part].Elements {
			if k := d.state.ElementAt[id]; k >= 0 && Unplugs(d.h, &d.h.Elements[id]) {
				out = append(out, k)
			}
		}
		if err := d.gains.Open(out...); err != nil {
			return 0, nil, false, err
		}
	}
	if len(out) > 0 {
		err = d.gains.Open()
	}
	return ohms, off, metal, err
}

// ohms between two terminals, +Inf where nothing joins them.
func (d *wiring) ohms(a, b harness.TerminalID) float64 {
	if !d.joined(a, b) {
		return math.Inf(1)
	}
	from, to := d.state.Of[a], d.state.Of[b]
	if from == to {
		return 0
	}
	return d.gains.Of(from, to)[from]
}

// foremost is the part that can be unplugged and carries most between two probes; false
// where none carries a hundredth.
func (d *wiring) foremost(a, b harness.TerminalID) (harness.PartID, bool) {
	from, to := d.state.Of[a], d.state.Of[b]
	if from == to {
		return harness.None, false
	}
	z := d.gains.Of(from, to)
	best, most := harness.PartID(harness.None), 0.01
	for i := range d.h.Elements {
		e, k := &d.h.Elements[i], d.state.ElementAt[i]
		if k < 0 || !Unplugs(d.h, e) {
			continue
		}
		n := &d.state.Network.Elements[k]
		if amps := math.Abs(d.gains.Slope(k) * (z[n.A] - z[n.B])); amps > most+1e-9 {
			best, most = e.Part, amps
		}
	}
	return best, best != harness.None
}

// Passes tells what passes a current on and works nothing.
func Passes(h *harness.Harness, e harness.ElementID) bool {
	switch h.Elements[e].Kind {
	case harness.Contact, harness.FuseLink:
		return true
	case harness.Resistance:
		return h.Grounds(&h.Elements[e]) || h.Parts[h.Elements[e].Part].Kind == harness.Strap
	}
	return false
}

// Unplugs tells what can be unplugged or taken out of its holder.
func Unplugs(h *harness.Harness, e *harness.Element) bool {
	switch e.Kind {
	case harness.Load, harness.RelayCoil, harness.Rectifier:
		return true
	case harness.Resistance:
		return !Passes(h, e.ID)
	}
	return false
}

// Unplug says in words what to unplug; "" for nothing.
func Unplug(h *harness.Harness, off []harness.PartID) string {
	const told = 4
	var names []string
	for i, p := range off {
		if i == told {
			names = append(names, fmt.Sprintf("%d more", len(off)-told))
			break
		}
		names = append(names, h.Parts[p].Ref)
	}
	if len(names) == 0 {
		return ""
	}
	return "through " + strings.Join(names, ", ") + ": unplug, bulbs out"
}
