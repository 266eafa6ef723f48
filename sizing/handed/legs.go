package handed

import (
	"slices"
	"strings"

	"example.com/loomfolio/sizing/describe/read"
	"example.com/loomfolio/sizing/harness"
)

// leg is a leg: wires one behind the other.
type leg []*wire

// circuit is a circuit with its legs.
type circuit struct {
	key, number, name, class string
	legs                     []leg
}

// most is how many wires a leg has at most, so that its line stays readable.
const most = 12

// circuits joins the wires to legs, circuit by circuit in the order of the table.
func (m *maker) circuits() []*circuit {
	var out []*circuit
	by := map[string]*circuit{}
	wires := map[*circuit][]*wire{}
	for i := range m.wires {
		w := &m.wires[i]
		if m.dropped[w.row] {
			continue
		}
		key := w.circuit
		if key == "" {
			key = "wires"
		}
		c := by[read.Folded(key)]
		if c == nil {
			c = &circuit{key: key}
			by[read.Folded(key)] = c
			out = append(out, c)
		}
		for _, f := range []struct{ to, from *string }{{&c.number, &w.number}, {&c.name, &w.called}, {&c.class, &w.class}} {
			if *f.to == "" {
				*f.to = *f.from
			}
		}
		wires[c] = append(wires[c], w)
	}
	for _, c := range out {
		c.legs = m.legs(wires[c])
	}
	return out
}

// legs joins wires where one alone goes on from the part at which another ends, and goes
// through it; where two could go on, a leg ends.
func (m *maker) legs(wires []*wire) []leg {
	used := map[*wire]bool{}
	var out []leg
	for _, w := range wires {
		if used[w] {
			continue
		}
		used[w] = true
		l := leg{w}
		for len(l) < most {
			next := m.next(l[len(l)-1], wires, used)
			if next == nil {
				break
			}
			used[next] = true
			l = append(l, next)
		}
		out = append(out, l)
	}
	return out
}

// next gives the one wire that goes on where another ends, nil where none or more do.
func (m *maker) next(w *wire, wires []*wire, used map[*wire]bool) *wire {
	p := m.parts[read.Folded(w.to.Part)]
	var found *wire
	for _, x := range wires {
		if used[x] || x.from.Part != w.to.Part || !passes(p, w.to.Terminal, x.from.Terminal) {
			continue
		}
		if found != nil {
			return nil
		}
		found = x
	}
	if found == nil || slices.ContainsFunc(wires, func(x *wire) bool { return x != w && x.to.Part == w.to.Part && x.to.Terminal == w.to.Terminal }) {
		return nil
	}
	return found
}

// through are the ways through parts with more than two terminals.
var through = map[harness.Kind][]string{
	harness.Relay:   {"30 87", "30 87a", "86 85", "85 86", "87 30"},
	harness.Flasher: {"49 49a"},
	harness.Starter: {"30 case"},
}

// passes tells whether a leg goes plainly through a part from one terminal to another.
func passes(p *part, from, to string) bool {
	switch k := harness.Kind(p.kind); k {
	case harness.Splice:
		return true
	case harness.Connector:
		return from == to
	case harness.Fuse, harness.Breaker, harness.Strap, harness.Resistor, harness.Switch, harness.Isolator:
		return from != to && len(p.terminals) == 2
	case harness.Motor, harness.Lamp, harness.Heater, harness.Coil, harness.Solenoid, harness.Horn, harness.Outlet, harness.Sender, harness.Gauge:
		return from == "+" && to == "-" || p.says == "" && from == "-" && to == "+"
	case harness.Diode:
		return from == "a" && to == "k"
	default:
		return slices.Contains(through[k], strings.TrimSpace(from+" "+to))
	}
}
