package page

import (
	"fmt"
	"strings"

	"example.com/loomfolio/layout/table"
	"example.com/loomfolio/sizing/colour"
	"example.com/loomfolio/sizing/fit/fitted"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/route"
	"example.com/loomfolio/sizing/unit"
)

// ColourRoom keeps the swatch and the letters of two colours in one line, mm.
const ColourRoom = 31

// Gauges parts the reels where gauge or insulation change.
func Gauges(reels []fitted.Reel) [][]fitted.Reel {
	var groups [][]fitted.Reel
	for i, r := range reels {
		if i > 0 && r.Gauge == reels[i-1].Gauge && r.Insulation == reels[i-1].Insulation {
			last := len(groups) - 1
			groups[last] = append(groups[last], r)
			continue
		}
		groups = append(groups, []fitted.Reel{r})
	}
	return groups
}

// Total is a reel that stands for several.
func Total(reels []fitted.Reel) fitted.Reel {
	var sum fitted.Reel
	for _, r := range reels {
		sum.Wires = append(sum.Wires, r.Wires...)
		sum.Built += r.Built
		sum.Need += r.Need
		sum.Buy += r.Buy
		sum.Copper += r.Copper
	}
	return sum
}

// ColourCell is the swatch of a wire's colour with what is twisted or screened with the wire.
func ColourCell(a Ask, id harness.WireID) table.Cell {
	c := SwatchCell(a.Pair(id))
	c.Note = List("\n", ShortColour(a.Pair(id)), AsFound(a.R.Colours[id]), inUnit(a, id))
	return c
}

// AsFound says which colour the wire has that is there now.
func AsFound(c colour.Choice) string {
	if c.Found.Base == "" {
		return ""
	}
	return "now " + Firm(c.Found.String())
}

// ShortColour is a colour's words without "tracer", for a narrow column: "blue/yellow".
func ShortColour(p colour.Pair) string {
	return strings.Replace(strings.TrimSuffix(colour.Words(p), " tracer"), ", ", "/", 1)
}

// Strip is how far an end is stripped; its column has the unit.
func Strip(a Ask, e fitted.End) table.Cell {
	if e.Strip == 0 {
		return table.Text("–")
	}
	c := table.Text(strings.TrimSuffix(Size(e.Strip, a.H.Sheet.Imperial), " in")) // the column has the unit
	if e.Folded {
		c.Note = "fold back"
	}
	return c
}

// together says which wires a wire is twisted or screened with.
func together(a Ask, id harness.WireID) string {
	w := &a.H.Wires[id]
	return List("\n", others(a, id, "twisted", w.Twist, a.Twist(w.Twist)), others(a, id, "screened", w.Screen, a.Screen(w.Screen)))
}

// mostOthers is how many wires are named beside one that is twisted with them; of
// more the build order has the names.
const mostOthers = 8

func others(a Ask, id harness.WireID, word, key string, all []harness.WireID) string {
	var with []string
	for _, o := range all {
		if o != id {
			with = append(with, Firm(a.H.Wires[o].Name))
		}
	}
	switch {
	case key == "":
		return ""
	case len(with) == 0:
		return word + " (" + key + ")"
	case len(with) > mostOthers:
		return fmt.Sprintf("%s: %s, %d wires", word, key, len(all))
	}
	return word + " with " + strings.Join(with, ", ")
}

// Span is a length with its unit: "1 155 mm", or "3 ft 9 1/2 in".
func Span(mm unit.Millimetre, imperial bool) string { return Firm(unit.LengthText(mm, imperial)) }

// LayText says how a twist is laid: "lay 30.5 mm".
func LayText(t route.Twist, imperial bool) string {
	return "lay" + NoBreak + Piece(t.Lay, imperial)
}

// SpareCores names the cores of a cable that no wire uses.
func SpareCores(h *harness.Harness, u *harness.Unit) string {
	var out []string
	for _, i := range h.Spare(u) {
		out = append(out, Firm(fitted.CoreName(&u.Type.Cores[i])))
	}
	return strings.Join(out, ", ")
}

// inUnit says in short which core a wire is, or what it is twisted and screened with.
func inUnit(a Ask, id harness.WireID) string {
	if u := a.UnitOf(id); u != nil && u.Type != nil {
		return "core " + Firm(u.Type.Cores[a.H.Wires[id].Core].Mark) + " of " + Firm(u.Name)
	}
	return together(a, id)
}
