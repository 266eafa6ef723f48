package point

import (
	"fmt"
	"slices"
	"strings"

	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/harness/kind"
	"example.com/loomfolio/sizing/rating"
)

// reach gives where a probe goes at a terminal, in few words, and the minutes to get it
// there: by the kind of part, else by what its terminals take, and more in some zones.
func (p *plant) reach(t harness.TerminalID) (side string, minutes float64) {
	x := &p.h.Terminals[t]
	part := &p.h.Parts[x.Part]
	r, found := rating.ReachOf("kind", string(part.Kind))
	if fit := fitting(part, x.Name); !found || part.Fitting != "" {
		if r, found = rating.ReachOf("fitting", fit); !found {
			r, _ = rating.ReachOf("fitting", "")
		}
	}
	side, minutes = p.named(r.Side, part, x), r.Minutes
	if part.Place != harness.None {
		zone, _ := rating.ReachOf("zone", p.h.Places[part.Place].Zone)
		minutes += zone.Minutes
	}
	if part.Sealed {
		sealed, _ := rating.ReachOf("mark", "sealed")
		minutes += sealed.Minutes
	}
	return side, minutes
}

// onBody tells a terminal that its part's own body grounds.
func (p *plant) onBody(t harness.TerminalID) bool {
	part := &p.h.Parts[p.h.Terminals[t].Part]
	return part.BodyGround && part.BodyAt == t && part.BodyJoint != harness.None
}

// fitting is what a terminal of a part takes.
func fitting(p *harness.Part, terminal string) string {
	if p.Fitting != "" {
		return p.Fitting
	}
	row, _ := kind.Of(p.Kind)
	for _, e := range row.Ends {
		if e.Terminal == terminal || e.Terminal == "*" {
			return e.Fitting
		}
	}
	return ""
}

// named adds the terminal to the words of the table.
func (p *plant) named(side string, part *harness.Part, x *harness.Terminal) string {
	switch {
	case p.onBody(x.ID) && !p.arrives[x.ID] && !p.leaves[x.ID]:
		return "bare metal of its body"
	case part.Kind == harness.FusePanel && part.Panel != nil:
		return panelSide(part, x)
	case part.Kind == harness.Fuse, part.Kind == harness.Breaker:
		if p.arrives[x.ID] && !p.leaves[x.ID] {
			return side + ", feed side"
		}
		return side + ", load side"
	case x.Cavity != "":
		half := "feed half"
		if strings.HasSuffix(x.Name, ".out") {
			half = "load half"
		}
		return fmt.Sprintf("%s, %s, cavity %s", side, half, x.Cavity)
	case x.Name == "" || len(part.Terminals) < 2:
		return side
	}
	return side + ", " + x.Name
}

func panelSide(part *harness.Part, x *harness.Terminal) string {
	if slices.ContainsFunc(part.Panel.Feeds, func(f harness.PanelFeed) bool { return f.Name == x.Name }) {
		return "feed stud " + x.Name
	}
	return "fuse " + x.Name + ", load side"
}
