package explain

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"example.com/loomfolio/sizing/choose/chosen"
	"example.com/loomfolio/sizing/flow"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/network"
	"example.com/loomfolio/sizing/rating"
)

func (x *explainer) load(l chosen.Load) {
	e := &x.h.Elements[l.Element]
	x.line("load "+l.Name, "draws %s; described as %s at %s, %s", l.Amps, e.Amps, e.AtVolts, behaviour(e.Behaves))
	if e.Behaves == harness.AsPower {
		x.line("sized for", "%s, at %s, the lowest that it works at", e.Most(), e.Floor)
	}
	if l.StartAmps > 0 {
		x.line("start", "%s for %s", l.StartAmps, l.StartFor)
	}
	if l.State != "" {
		x.line("worst", "%s across it, in %s", volts(l.Volts), l.State)
		x.line("volts dropped", "%s in the feed, %s in the return, %s in fuses, contacts and joints", volts(l.FeedDrop), volts(l.ReturnDrop), volts(l.OtherDrop))
	}
	x.limit(l)
	x.line("fuse", "%s", x.fuseText(l.ProtectedBy))
	x.line("feed", "%s", x.way(l.Feed))
	x.line("return", "%s", x.way(l.Return))
	x.line("draws in", "%s", cmp.Or(strings.Join(l.On, ", "), "no state"))
	if len(l.On) > 0 {
		x.grid(x.loadRows(l))
	}
}

// behaviour says how a load's current follows its voltage.
func behaviour(b harness.Behaviour) string {
	switch b {
	case harness.AsCurrent:
		return "a constant current"
	case harness.AsLamp:
		return "a filament lamp (current follows V^0.55)"
	case harness.AsPower:
		return "a constant power (the less voltage, the more current)"
	case harness.AsMotor:
		return "a motor (constant current while it runs)"
	}
	return "a resistance"
}

// limit says what may be lost in the wires, and who says so.
func (x *explainer) limit(l chosen.Load) {
	if l.Own != "" {
		x.line("limit", "%s in the wires, feed and return together (%s: its own limit, %s: of %s)", volts(l.Limit), l.LimitText, l.Own, x.h.Parts[x.h.Elements[l.Element].Part].Ref)
		return
	}
	from := fmt.Sprintf("practice: drop: %s: in the description", l.Class)
	if key := rating.DropSource(l.Class, x.h.Practice.Drop[l.Class]); key != "" {
		from = "built-in practice"
		x.cite("drop limit", key)
	}
	x.line("limit", "%s in the wires, feed and return together (%s; class %s, %s)", volts(l.Limit), l.LimitText, l.Class, from)
}

// way is the wires of a path with their sizes: "12A 4 mm² · 12B 2.5 mm²", and
// their length.
func (x *explainer) way(wires []harness.WireID) string {
	if len(wires) == 0 {
		return "no wire"
	}
	var out []string
	sum := x.r.Ways[wires[0]].Length * 0
	for _, w := range wires {
		out = append(out, x.h.Wires[w].Name+" "+x.r.Wires[w].Gauge.String())
		sum += x.r.Ways[w].Length
	}
	return strings.Join(out, " · ") + ": " + x.length(sum) + " in all"
}

// loadRows are the states in which a load draws current: what it takes, what it
// gets, and what is lost in the wires of its feed and return there.
func (x *explainer) loadRows(l chosen.Load) [][]string {
	e := &x.h.Elements[l.Element]
	rows := [][]string{{"draws in state", "current", "across it", "drop in feed", "in return"}}
	for i := range x.r.States {
		s := &x.r.States[i]
		if !slices.Contains(l.On, s.Name) {
			continue
		}
		c := flow.In(x.h, s)
		rows = append(rows, []string{
			s.Name, current(math.Abs(s.Amps[e.ID])), potential(math.Abs(s.Volts[e.A] - s.Volts[e.B])),
			potential(x.lost(s, c.Feed(e.ID))), potential(x.lost(s, c.Return(e.ID))),
		})
	}
	return rows
}

// lost adds up the drops along the wires of a path in a solved state.
func (x *explainer) lost(s *network.State, p flow.Path) float64 {
	sum := 0.0
	for _, id := range p.Wires {
		w := &x.h.Wires[id]
		sum += math.Abs(s.Volts[w.From] - s.Volts[w.To])
	}
	return sum
}
