package adversary

import (
	"fmt"
	"math/rand/v2"
	"strings"
)

// grower is a sketch in the making.
type grower struct {
	*Sketch
	rand     *rand.Rand
	count    map[string]int // names given so far, by their letters
	rings    map[string]int // ground terminals so far, by ground
	ground   map[string]string
	panel    bool // fuses in a panel; else in-line
	bat, ign int  // panel positions given
	ignFed   float64
	ignMost  float64 // what the key may feed
	total    float64 // of all draws, A
	turnedOn []Field // what turns each device on, for the states
	extra    []Fields
	start    bool
	isolated bool
}

// Grow makes the sound description of a seed.
func Grow(seed uint64) *Sketch {
	g := &grower{Sketch: &Sketch{Seed: seed}, rand: rand.New(rand.NewPCG(seed, 13))}
	g.count, g.rings, g.ground = map[string]int{}, map[string]int{}, map[string]string{}
	g.frame()
	g.loom()
	g.supply()
	g.charging()
	g.key()
	g.devices()
	g.finish()
	return g.Sketch
}

// chance is true in so many of a hundred.
func (g *grower) chance(percent int) bool { return g.rand.IntN(100) < percent }

func pick[T any](r *rand.Rand, list ...T) T { return list[r.IntN(len(list))] }

// tens gives a length from one figure up to another in steps of 10 mm.
func (g *grower) tens(from, to int) int { return from + 10*g.rand.IntN((to-from)/10) }

// name gives the next name with these letters: F1, F2.
func (g *grower) name(letters string) string {
	g.count[letters]++
	return fmt.Sprintf("%s%d", letters, g.count[letters])
}

// part adds a part; what is said of it stands in pairs.
func (g *grower) part(name, kind, at string, pairs ...string) *Entry {
	e := &Entry{Name: name, Fields: Fields{{"kind", kind}}}
	if at != "" {
		e.Set("at", at)
	}
	for i := 0; i+1 < len(pairs); i += 2 {
		e.Set(pairs[i], pairs[i+1])
	}
	g.Parts = append(g.Parts, e)
	return e
}

// leg makes a leg of words: "BAT.+ MF1/150 PP.in" gives the wire to MF1 150 mm.
func leg(words ...string) Leg {
	var out Leg
	for _, w := range strings.Fields(strings.Join(words, " ")) {
		to, length, given := strings.Cut(w, "/")
		s := Stop{To: to}
		if given {
			s.Fields = Fields{{"length", length + " mm"}}
		}
		out = append(out, s)
	}
	return out
}

// circuit adds a circuit of legs.
func (g *grower) circuit(name, class string, legs ...Leg) *Circuit {
	key := strings.ReplaceAll(strings.ToLower(name), " ", "-")
	c := &Circuit{Key: key, Name: name, Class: class, Legs: legs}
	g.Circuits = append(g.Circuits, c)
	return c
}

// frame chooses the system, the sheet and the practice.
func (g *grower) frame() {
	g.Volts = pick(g.rand, 12., 12., 12., 12., 12., 12., 12., 24., 24., 6., 6., 48.)
	g.Running = map[float64]float64{6: 7.1, 12: 14.2, 24: 28.4, 48: 56.8}[g.Volts]
	g.Positive = g.Volts == 6 && g.chance(60) || g.Volts == 12 && g.chance(10)
	g.FromGround = g.chance(50)
	g.Wired = g.chance(20)
	g.Bare = g.chance(25)
	g.panel = g.chance(60) && g.Volts < 48
	g.Sheet = pick(g.rand, Fields{{"paper", "A4"}, {"units", "metric"}, {"gauge", "mm2"}}, Fields{{"paper", "A4"}, {"units", "metric"}, {"gauge", "mm2"}},
		Fields{{"paper", "letter"}, {"units", "imperial"}, {"gauge", "awg"}}, Fields{{"paper", "letter"}, {"units", "imperial"}, {"gauge", "sae"}})
	if g.chance(20) {
		g.Practice = Fields{{"insulation", pick(g.rand, "thin-wall-105", "thick-wall-105", "gxl", "txl", "sxl")}}
	}
}

// loom lays the places and the runs: a trunk from the nose to the tail.
func (g *grower) loom() {
	boot := g.chance(40)
	place := func(name, title, zone string, more ...string) {
		e := &Entry{Name: name, Fields: Fields{{"name", title}, {"zone", zone}, {"surface", "painted"}}}
		for i := 0; i+1 < len(more); i += 2 {
			e.Set(more[i], more[i+1])
		}
		e.Set("tail", millimetres(g.tens(100, 250)))
		g.Places = append(g.Places, e)
	}
	zone := "engine"
	if boot {
		zone = "boot"
	}
	place("tray", "Battery tray", zone)
	place("bay", "Bulkhead", "engine")
	place("engine", "Engine", "engine", "ambient", pick(g.rand, "70 C", "80 C"), "surface", "bare")
	place("dash", "Dash", "cabin")
	place("nose", "Nose", "engine")
	place("rear", "Rear panel", "boot")
	g.run("bay", "engine", g.tens(400, 900))
	g.run("bay", "dash", g.tens(400, 1000))
	g.run("bay", "nose", g.tens(600, 1400))
	g.run("dash", "rear", g.tens(1200, 2600))
	if boot {
		g.run("tray", "rear", g.tens(300, 600))
	} else {
		g.run("tray", "bay", g.tens(300, 700))
	}
	g.measure()
}

func (g *grower) run(a, b string, length int) {
	cover := pick(g.rand, "braid", "conduit", "tape")
	g.Runs = append(g.Runs, Fields{{"from", a}, {"to", b}, {"length", millimetres(length)}, {"cover", cover}})
}

// measure finds the ways between all places (Floyd and Warshall).
func (s *Sketch) measure() {
	s.distance = map[[2]string]int{}
	const far = 1 << 20
	for _, a := range s.Places {
		for _, b := range s.Places {
			s.distance[[2]string{a.Name, b.Name}] = far
		}
		s.distance[[2]string{a.Name, a.Name}] = 0
	}
	for _, r := range s.Runs {
		var n int
		fmt.Sscanf(r.Get("length"), "%d", &n)
		s.distance[[2]string{r.Get("from"), r.Get("to")}], s.distance[[2]string{r.Get("to"), r.Get("from")}] = n, n
	}
	for _, k := range s.Places {
		for _, a := range s.Places {
			for _, b := range s.Places {
				through := s.distance[[2]string{a.Name, k.Name}] + s.distance[[2]string{k.Name, b.Name}]
				if at := [2]string{a.Name, b.Name}; through < s.distance[at] {
					s.distance[at] = through
				}
			}
		}
	}
}

// amps scales a current of a 12 V vehicle to this one's voltage; what a 6 V vehicle has
// is smaller.
func (g *grower) amps(twelve float64) float64 {
	a := twelve * 12 / g.Volts
	if g.Volts == 6 {
		a *= 0.6
	}
	switch {
	case a < 1:
		return float64(int(a*100+0.5)) / 100
	case a < 10:
		return float64(int(a*10+0.5)) / 10
	}
	return float64(int(a + 0.5))
}

// draw writes a load's draw, in amperes or watts.
func (g *grower) draw(amps float64) string {
	if g.chance(20) {
		return num(float64(int(amps*g.Running*10))/10) + " W"
	}
	return num(amps) + " A"
}
