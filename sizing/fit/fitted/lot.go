package fitted

import (
	"cmp"
	"slices"
	"strings"

	"example.com/loomfolio/sizing/choose/chosen"
	"example.com/loomfolio/sizing/joint"
)

// Sharing lists the ends in one fitting, the given one first.
func (f *Fitted) Sharing(e *End) []*End {
	in := []*End{e}
	for _, w := range e.With {
		for n := range f.Ends[w] {
			if other := &f.Ends[w][n]; other.Terminal == e.Terminal {
				in = append(in, other)
			}
		}
	}
	return in
}

// LotOf gives the lot of an end's crimp, not counted yet.
func (f *Fitted) LotOf(e *End, wires []chosen.Wire) Lot {
	in := f.Sharing(e)
	slices.SortStableFunc(in, func(a, b *End) int { return cmp.Compare(wires[a.Wire].Area, wires[b.Wire].Area) })
	var beside []string
	for _, other := range in[1:] {
		beside = append(beside, wires[other.Wire].Gauge.String())
	}
	if e.Drain != "" {
		beside = append(beside, "drain")
	}
	return Lot{
		Fitting: barrelOf(e), Crimp: e.Crimp, Size: e.Size, Part: e.Part, Die: e.Die, Tool: ToolOf(e),
		Gauge: wires[in[0].Wire].Gauge, Beside: strings.Join(beside, " and "), Pull: in[0].Pull, PullList: in[0].PullList,
	}
}

// Same tells whether two crimps are of one lot, however many there are of each.
func (l Lot) Same(o Lot) bool {
	l.Count, l.Specimens = o.Count, o.Specimens
	return l == o
}

// barrelOf is the fitting as far as it decides the barrel: contacts differ by
// family, all else by its crimp alone.
func barrelOf(e *End) string {
	if e.Kind == joint.Contact {
		return e.Fitting
	}
	return ""
}

// ToolOf names the tool: the shop's own, else what the trade uses (FAA AC 43.13-1B
// 11-178 wants a ratchet; the rest is common practice).
func ToolOf(e *End) string {
	switch {
	case e.Tool != "":
		return e.Tool
	case strings.HasSuffix(e.Crimp, "insulated"):
		return "ratchet tool, " + strings.TrimSuffix(e.Crimp, " insulated") + " die"
	case e.Crimp == "open barrel" && e.Kind == joint.Contact:
		return "the contact's own tool"
	case e.Crimp == "open barrel":
		return "open-barrel tool"
	case e.Crimp == "ferrule":
		return "ferrule tool"
	case e.Crimp == Barrel:
		return "barrel tool"
	}
	return "lug press"
}
