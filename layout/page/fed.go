package page

import (
	"slices"
	"strings"

	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/source"
)

// Twice is metal that stays live while one of its two fuses is out.
type Twice struct {
	Fuses []string // by name, the two
	Wires []string // that they feed, none where they are in parallel
}

// FedTwice finds what is fed from two fuses, advice that was accepted too, once a pair.
func (a Ask) FedTwice() []Twice {
	var out []Twice
	for _, p := range a.findings() {
		n := map[string]int{"fed-from-two-fuses": 3, "parallel-fuses": 2}[p.Slug]
		if n == 0 || len(p.Subjects) < n {
			continue
		}
		t := Twice{p.Subjects[:2], p.Subjects[n:]}
		if !slices.ContainsFunc(out, func(o Twice) bool { return slices.Equal(o.Fuses, t.Fuses) }) {
			out = append(out, t)
		}
	}
	return out
}

func (a Ask) findings() source.Problems {
	out := slices.Clone(a.R.Findings)
	for _, x := range a.R.Accepted {
		out = append(out, x.Problem)
	}
	return out
}

// LiveStuds are the studs that are live with no fuse before them, in the order of the wires.
func (a Ask) LiveStuds() []harness.TerminalID {
	var out []harness.TerminalID
	for _, two := range a.R.Ends {
		for _, e := range two {
			if e.Boot && !slices.Contains(out, e.Terminal) {
				out = append(out, e.Terminal)
			}
		}
	}
	return out
}

// Sources are the parts that give current with the engine off: batteries, chargers that the engine
// does not drive, and those among the others that are solar by their plain name.
func (a Ask) Sources() []harness.PartID {
	var out []harness.PartID
	for _, e := range a.H.Elements {
		if e.Part < 0 || slices.Contains(out, e.Part) {
			continue
		}
		solar := e.Kind == harness.Charger && strings.Contains(strings.ToLower(a.Plain(a.Part(e.Part))), "solar")
		if e.Kind == harness.EMF || solar || e.Kind == harness.Charger && e.When.Kind == harness.InPosition {
			out = append(out, e.Part)
		}
	}
	return out
}
