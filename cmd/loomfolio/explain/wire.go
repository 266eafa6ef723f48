package explain

import (
	"fmt"
	"slices"
	"strings"

	"example.com/loomfolio/sizing"
	"example.com/loomfolio/sizing/choose/chosen"
	"example.com/loomfolio/sizing/fit/fitted"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/unit"
)

func (x *explainer) wire(name string) bool {
	for i := range x.h.Wires {
		if x.h.Wires[i].Name == name {
			x.explainWire(harness.WireID(i))
			return true
		}
	}
	return false
}

func (x *explainer) explainWire(id harness.WireID) {
	w, c, way, col := &x.h.Wires[id], x.r.Wires[id], x.r.Ways[id], x.r.Colours[id]
	circuit := x.h.Circuits[w.Circuit]
	fmt.Fprintf(x.w, "Wire %s: %s to %s, circuit %s %s\n", w.Name, x.h.Terminals[w.From].Full, x.h.Terminals[w.To].Full, circuit.Number, circuit.Name)
	x.line("size", "%s, %s (%s of copper, %s outside diameter, %s at 20 °C)", c.Gauge, c.Insulation, unit.AreaText(c.Area, x.h.Sheet.Imperial), x.across(c.Diameter), c.Resistance)
	x.line("why", "%s", c.Reason)
	if c.Least.Given() {
		x.line("own least", "%s; %s", c.Least, c.Bought)
	}
	x.neighbour("next down", c.Below, "no thinner size is on the list", x.wouldDo(&c))
	x.line("each rule", "drop alone %s · heat alone %s · protection alone %s · handling %s", size(c.Wants.Drop.Size), size(c.Wants.Heat.Size), size(c.Wants.Protection.Size), size(c.Wants.Handling.Size))
	x.line("each method", "%s", x.methods(id))
	x.line("current", "%s at most, in %s; %s dropped in this wire then", c.Amps, orDash(c.State), volts(c.Drop))
	x.line("heat", "carries %s continuously where it lies: hottest place %s, %s; reaches about %s, class %s",
		c.Ampacity, x.celsius(c.Ambient), company(c.Bundle), x.celsius(c.Temperature), x.celsius(c.Class))
	x.line("protected", "%s", x.protection(c))
	x.line("length", "%s (%s)", x.length(way.Length), way.Reason)
	x.unit(id)
	x.line("colour", "%s (%s)", col.Pair, col.Reason)
	x.cite("size", c.Sources...)
	for _, e := range x.r.Ends[id] {
		x.line("end "+e.End, "%s: %s", x.h.Terminals[e.Terminal].Full, x.end(&e))
		x.cite("ends", e.Sources...)
	}
	x.loadsOver(id)
	x.grid(x.wireRows(id))
}

// wouldDo says why a wire does not have a thinner size that would do.
func (x *explainer) wouldDo(c *chosen.Wire) string {
	switch {
	case c.Least.Given():
		return "would do; it is bought thicker"
	case slices.ContainsFunc(x.r.Wires, func(o chosen.Wire) bool { return o.Least.Given() }):
		return "would do beside wires that are bought thicker than they need"
	}
	return "would do by itself; sizes that have grown late in the choice are kept"
}

// end says what is fitted to an end and why; where nothing is made for it, only that.
func (x *explainer) end(e *fitted.End) string {
	if !e.ToMake() {
		return e.Reason
	}
	return fmt.Sprintf("%s, %s, strip %s, must hold %s. %s", e.Fitting, e.Crimp, x.fine(e.Strip), x.force(e.Pull), capital(e.Reason))
}

// unit says what the wire is one with: a twist, a screen, a cable.
func (x *explainer) unit(id harness.WireID) {
	n := x.h.UnitOf()[id]
	if n == harness.None {
		return
	}
	u, made := &x.h.Units[n], &x.r.Units[n]
	what := fmt.Sprintf("%s %s", u.Kind, u.Name)
	if u.Type != nil {
		what = fmt.Sprintf("core %s of the cable %s (%s)", u.Type.Cores[x.h.Wires[id].Core].Mark, u.Name, u.Type.Name)
	}
	for _, t := range made.Twists {
		what += fmt.Sprintf(", lay %s: a wire is %.4f times as long as the twist", x.fine(t.Lay), t.Factor)
	}
	x.line("one with", "%s; %s finished, %s across", what, x.length(made.Length), x.across(made.Diameter))
}

func company(loaded int) string {
	if loaded < 2 {
		return "no other loaded wire beside it"
	}
	return fmt.Sprintf("among %d loaded wires in its fullest run", loaded)
}

// neighbour says why the size or rating beside the chosen one was not taken.
func (x *explainer) neighbour(label string, n chosen.Neighbour, none, sound string) {
	switch {
	case n.Size == "":
		x.line(label, "%s", none)
	case len(n.Fails) == 0:
		x.line(label, "%s %s", n.Size, sound)
	default:
		x.line(label, "%s fails:", n.Size)
		for i, f := range n.Fails {
			if i == mostFails && len(n.Fails) > mostFails+1 {
				x.line("", "– and %d more", len(n.Fails)-i)
				return
			}
			x.line("", "– %s: %s", f.Rule, f.Text)
		}
	}
}

// mostFails are listed before the rest is counted.
const mostFails = 5

// methods says what each method of the practice would choose for a wire.
func (x *explainer) methods(wire harness.WireID) string {
	var out []string
	for _, m := range []struct{ method, words string }{
		{"computed", "computed"}, {"abyc-e11", "ABYC E-11"}, {"ac43-13", "FAA AC 43.13-1B"},
	} {
		if m.method == x.h.Practice.Method {
			out = append(out, fmt.Sprintf("%s %s", m.words, own(&x.r.Wires[wire])))
			continue
		}
		other := *x.h
		other.Practice.Method = m.method
		gauges, err := sizing.Gauges(&other)
		if err != nil {
			continue
		}
		out = append(out, fmt.Sprintf("%s %s", m.words, gauges[wire]))
	}
	return strings.Join(out, " · ")
}

// own gives the size that a wire needs, whatever is bought.
func own(c *chosen.Wire) unit.Gauge {
	if c.Least.Given() {
		return c.Least
	}
	return c.Gauge
}

func size(s string) string { return orDash(s) }

func (x *explainer) protection(c chosen.Wire) string {
	if c.ProtectedBy == "" {
		return "by no fuse"
	}
	return "by " + x.fuseText(c.ProtectedBy)
}

// fuseText is a fuse with its rating: "MF1, 30 A blade".
func (x *explainer) fuseText(name string) string {
	for _, f := range x.r.Fuses {
		if f.Name == name {
			return fmt.Sprintf("%s, %s %s", f.Name, f.Rating, f.Body)
		}
	}
	return orDash(name)
}

// loadsOver names the loads whose current passes a wire in their worst state.
func (x *explainer) loadsOver(id harness.WireID) {
	var feeds, returns []string
	for _, l := range x.r.Loads {
		if slices.Contains(l.Feed, id) {
			feeds = append(feeds, l.Name)
		} else if slices.Contains(l.Return, id) {
			returns = append(returns, l.Name)
		}
	}
	if len(feeds) > 0 {
		x.line("feeds", "%s", strings.Join(feeds, ", "))
	}
	if len(returns) > 0 {
		x.line("returns from", "%s", strings.Join(returns, ", "))
	}
}
