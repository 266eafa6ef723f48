package page

import (
	"strings"

	"example.com/loomfolio/layout/table"
	"example.com/loomfolio/sizing/colour"
	"example.com/loomfolio/sizing/fit/fitted"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/route"
	"example.com/loomfolio/sizing/unit"
)

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

// AsFound says which colour the wire has that is there now.
func AsFound(c colour.Choice) string {
	if c.Found.Base == "" {
		return ""
	}
	return "now " + Firm(c.Found.String())
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
