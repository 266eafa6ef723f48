package explain

import (
	"fmt"
	"math"
	"strings"

	"example.com/loomfolio/sizing/choose/chosen"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/rating"
)

// fuses explains the fuse of a part in full, those of a panel in short: each
// position can be asked for by its own name.
func (x *explainer) fuses(p *harness.Part) {
	for _, f := range x.r.Fuses {
		switch {
		case f.Part != p.ID:
		case f.Position == "":
			x.fuse(f)
		default:
			x.line(f.Name, "%s; feeds %s", f.Reason, orDash(strings.Join(f.Feeds, ", ")))
		}
	}
	if p.Panel != nil {
		x.line("", "(explain one position by its name for the ratings beside it and its wires)")
	}
}

func (x *explainer) fuse(f chosen.Fuse) {
	x.line("fuse "+f.Name, "%s", strings.TrimSuffix(fmt.Sprintf("%s %s, %s", f.Rating, f.Body, f.BodyColour), ", "))
	x.line("why", "%s", f.Reason)
	x.neighbour("next down", f.Below, "none is smaller in this body", "also acceptable")
	x.neighbour("next up", f.Above, "none is larger in this body", "also acceptable; the smaller is used")
	x.line("feeds", "%s", orDash(strings.Join(f.Feeds, ", ")))
	var wires []string
	for _, w := range f.Wires {
		wires = append(wires, x.h.Wires[w].Name)
	}
	x.line("guards", "%s", orDash(strings.Join(wires, " ")))
	if f.Smallest != harness.None {
		c := x.r.Wires[f.Smallest]
		x.line("weakest wire", "%s (%s), carries %s continuously%s", x.h.Wires[f.Smallest].Name, c.Gauge, c.Ampacity, x.mostAllowed(f))
	}
	if f.Prospective > 0 {
		text := fmt.Sprintf("a dead short at the far end draws %s", f.Prospective)
		if f.ClearsIn > 0 {
			text += fmt.Sprintf("; it opens within %.2g s", float64(f.ClearsIn))
		}
		x.line("short", "%s", text)
	}
	x.cite("fuse", f.Sources...)
}

// mostAllowed says up to which rating the wires stand a fuse, and why that is
// less than they carry.
func (x *explainer) mostAllowed(f chosen.Fuse) string {
	if math.IsInf(float64(f.MostAllowed), 0) || f.MostAllowed == 0 {
		return ""
	}
	out := fmt.Sprintf("; never a fuse above %s", f.MostAllowed)
	if o := rating.OverloadOf(f.Body); x.h.Practice.Method == "computed" && o.Opens > 1 {
		out += fmt.Sprintf(": it may let %.0f %% of its rating through for up to %.0f min", 100*o.Opens, float64(o.Latest)/60)
	}
	return out
}
