package adversary

import (
	"fmt"
	"slices"
	"strings"
)

// finish sets what follows from the whole: the alternator's output, the panel's
// positions, studs and the states.
func (g *grower) finish() {
	if alt := g.Part("ALT"); alt != nil {
		alt.Set("output", num(float64(int(g.total*1.4/5)*5+max(20, int(g.amps(30)))))+" A")
	}
	if g.start && g.Part("KS") == nil && g.Part("SOL") == nil {
		g.ignFed = max(g.ignFed, g.amps(12))
	}
	g.Part("IGN").Set("rating", g.rated("lamp", max(g.ignFed, g.amps(5))))
	if k := g.Part("SCR"); k != nil { // a flat second battery takes all that the alternator gives
		k.Set("rating", fmt.Sprintf("%d A", int(g.total*1.4)+140))
	}
	g.panelFace()
	for _, b := range g.OfKind("bus") {
		b.Set("studs", fmt.Sprint(max(2, g.names(b.Name))))
	}
	if g.start || g.chance(70) {
		g.states()
	}
}

// names counts the different stops of a bus.
func (s *Sketch) names(bus string) int {
	seen := map[string]bool{}
	for _, p := range s.Stops(bus) {
		seen[p.Stop().To] = true
	}
	return len(seen)
}

func (g *grower) panelFace() {
	p := g.Part("FP")
	if p == nil {
		return
	}
	row := func(letter string, n int) string {
		var out []string
		for i := range n {
			out = append(out, fmt.Sprintf("%s%d", letter, i+1))
		}
		return "[" + strings.Join(out, ", ") + "]"
	}
	g.bat, g.ign = max(1, g.bat), max(1, g.ign)
	p.Set("layout", "["+row("b", g.bat)+", "+row("i", g.ign)+"]")
	p.Set("feeds", "{bat: "+row("b", g.bat)+", ign: "+row("i", g.ign)+"}")
}

// states declares a driver's: parked, cranking, and enough of driving that every
// device is on in one of them.
func (g *grower) states() {
	g.States = append(g.States, &State{"parked", nil})
	if g.start {
		g.States = append(g.States, &State{"cranking", Fields{{"IGN", "start"}, {"engine", "cranking"}}})
	}
	rest := slices.Clone(g.turnedOn)
	for n := 1; len(rest) > 0 || n == 1; n++ {
		set := Fields{{"IGN", "run"}}
		var later []Field
		for _, f := range rest {
			if set.Get(f.Key) != "" || len(set) > 9 {
				later = append(later, f)
				continue
			}
			set = append(set, f)
		}
		if g.Part("ALT") != nil || g.chance(50) {
			set = append(set, Field{"engine", "running"})
		}
		g.States = append(g.States, &State{fmt.Sprintf("driving %d", n), set})
		rest = later
	}
	g.States = append(g.States, g.more()...)
}

// more are states with more than one switch of one device.
func (g *grower) more() []*State {
	var out []*State
	for i, f := range g.extra {
		set := append(Fields{{"IGN", "run"}}, f...)
		out = append(out, &State{fmt.Sprintf("special %d", i+1), append(set, Field{"engine", "running"})})
	}
	return out
}
