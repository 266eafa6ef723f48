package bench

import (
	"math"
	"slices"

	"example.com/loomfolio/layout/page"
	"example.com/loomfolio/sizing/fit/fitted"
	"example.com/loomfolio/sizing/harness"
)

// end is one end of a wire at the part where it lands.
type end struct {
	wire harness.WireID
	fitted.End
}

// ended is a part with the wire ends that land on it, by terminal; the part is
// nil for the bodywork.
type ended struct {
	part *harness.Part
	ends []end
}

// endsByPart gathers the ends in the order in which a builder comes to them:
// place by place, part by part, terminal by terminal; the bodywork comes last. Ends in
// splices are not among them: they have a sheet of their own.
func endsByPart(a page.Ask) []ended {
	at := make([][]end, len(a.H.Terminals))
	for id, ends := range a.R.Ends {
		w := &a.H.Wires[id]
		if w.Existing {
			continue
		}
		at[w.From] = append(at[w.From], end{w.ID, ends[0]})
		at[w.To] = append(at[w.To], end{w.ID, ends[1]})
	}
	var parts []ended
	for i := range a.H.Parts {
		p := ended{part: &a.H.Parts[i]}
		for _, t := range p.part.Terminals {
			p.ends = append(p.ends, at[t]...)
		}
		if len(p.ends) > 0 && p.part.Kind != harness.Splice {
			parts = append(parts, p)
		}
	}
	slices.SortStableFunc(parts, func(x, y ended) int { return byPlace(x.part) - byPlace(y.part) })
	if len(at[harness.Chassis]) > 0 {
		parts = append(parts, ended{ends: at[harness.Chassis]})
	}
	return parts
}

// byPlace puts parts without a place of their own behind the others.
func byPlace(p *harness.Part) int {
	if p.Place == harness.None {
		return math.MaxInt32
	}
	return int(p.Place)
}
