package grown

import (
	"fmt"
	"math"
	"math/rand/v2"
	"strings"
)

// vehicle is the lines of a description while it grows.
type vehicle struct {
	random   *rand.Rand
	wanted   int
	wires    int // so far
	parent   []int
	head     []string // the header, places and runs
	parts    []string
	circuits []string
	on       [driving][]string // what is on in each of the states that drive

	panel, position   int // the panel in hand, and how many of its positions are used
	connector, cavity int
	rings             []int // by place: ground terminals so far
	grounds           []string
	groundCount       int
}

// driving is how many states have the engine running.
const driving = 5

var stateNames = [driving]string{"by-day", "by-night", "touring", "working", "all-lamps"}

func newVehicle(wires int, seed uint64) *vehicle {
	v := &vehicle{random: rand.New(rand.NewPCG(seed, 1)), wanted: wires}
	v.line("loomfolio: 1")
	v.line("title: Made-up vehicle of about %d wires", wires)
	v.line("revision: A\ndate: 2026-11-02\nvehicle: {name: Made-up, identity: T-%d}", wires)
	v.line("sheet: {paper: A4, units: metric, gauge: mm2}")
	v.line("system: {volts: 12, running: 14.2 V, earth: negative, return: chassis}")
	v.loom(max(8, wires/22))
	return v
}

func (v *vehicle) line(format string, args ...any) {
	v.head = append(v.head, fmt.Sprintf(format, args...))
}

// tens gives a length from one figure to another in steps of 10 mm.
func (v *vehicle) tens(from, to int) int { return from + 10*v.random.IntN((to-from)/10) }

// loom is a trunk with limbs: a place mostly hangs on one of the four before it.
func (v *vehicle) loom(places int) {
	zones, covers := [...]string{"cabin", "engine", "boot", "underbody"}, [...]string{"braid", "conduit", "tape"}
	v.parent, v.rings, v.grounds = make([]int, places), make([]int, places), make([]string, places)
	v.line("places:")
	for i := range places {
		v.line("  p%d: {name: Place %d, zone: %s, surface: painted, tail: %d mm}", i, i, zones[i/3%4], v.tens(80, 260))
	}
	v.line("runs:")
	for i := 1; i < places; i++ {
		v.parent[i] = max(0, i-1-int(v.random.ExpFloat64()/0.6))
		v.line("  - {from: p%d, to: p%d, length: %d mm, cover: %s}", v.parent[i], i, v.tens(150, 900), covers[v.random.IntN(3)])
	}
}

func (v *vehicle) part(ref, format string, args ...any) {
	v.parts = append(v.parts, fmt.Sprintf("  %s: {%s}", ref, fmt.Sprintf(format, args...)))
}

// circuit adds legs, given as their stops, and counts their wires.
func (v *vehicle) circuit(name, class string, legs ...string) {
	n := len(v.circuits) + 1
	for _, leg := range legs {
		v.wires += wiresOf(strings.Fields(leg))
	}
	if class != "" {
		class = ", class: " + class
	}
	v.circuits = append(v.circuits, fmt.Sprintf("  c%d: {number: %d, name: %s%s, legs: [%s]}", n, n, name, class, strings.Join(lists(legs), ", ")))
}

// wiresOf counts the wires between stops: none leads from a part to itself.
func wiresOf(stops []string) int {
	n, last := 0, ""
	for _, stop := range stops {
		part, _, _ := strings.Cut(stop, ".")
		if part != last && last != "" {
			n++
		}
		last = part
	}
	return n
}

// lists turns "A B/300" into [A, {to: B, length: 300 mm}].
func lists(legs []string) []string {
	var out []string
	for _, leg := range legs {
		var stops []string
		for _, stop := range strings.Fields(leg) {
			if to, mm, ok := strings.Cut(stop, "/"); ok {
				stop = fmt.Sprintf("{to: %s, length: %s mm}", to, mm)
			}
			stops = append(stops, stop)
		}
		out = append(out, "["+strings.Join(stops, ", ")+"]")
	}
	return out
}

// ground gives a ground at a place; every three rings there is a new one.
func (v *vehicle) ground(place int) string {
	if v.rings[place]%3 == 0 {
		v.groundCount++
		v.grounds[place] = fmt.Sprintf("GN%d", v.groundCount)
		v.part(v.grounds[place], "kind: ground, name: Ground at place %d, at: p%d, stud: M8", place, place)
	}
	v.rings[place]++
	return v.grounds[place]
}

// fused gives the next free position of a panel.
func (v *vehicle) fused() string {
	if v.position++; v.panel == 0 || v.position > 12 {
		v.panel, v.position = v.panel+1, 1
		v.newPanel(v.panel)
	}
	return fmt.Sprintf("F%d.%d", v.panel, v.position)
}

func (v *vehicle) newPanel(n int) {
	v.part(fmt.Sprintf("M%d", n), "kind: fuse, name: Panel fuse %d, at: p1, body: maxi", n)
	v.part(fmt.Sprintf("F%d", n), "kind: fuse-panel, name: Panel %d, at: p%d, body: blade, layout: [[1,2,3,4,5,6],[7,8,9,10,11,12]], feeds: {in: [1,2,3,4,5,6,7,8,9,10,11,12]}", n, min(len(v.parent)-1, 2+3*n))
	rail := [...]string{"PP", "PI"}[n%2]
	v.circuit(fmt.Sprintf("Feed of panel %d", n), "", fmt.Sprintf("%s.%d M%d/150 F%d.in", rail, n, n, n))
}

// through gives the next free cavity of a connector.
func (v *vehicle) through(place int) string {
	if v.cavity++; v.connector == 0 || v.cavity > 16 {
		v.connector, v.cavity = v.connector+1, 1
		v.part(fmt.Sprintf("X%d", v.connector), "kind: connector, name: Connector %d, at: p%d, cavities: 16", v.connector, place)
	}
	return fmt.Sprintf("X%d.%d", v.connector, v.cavity)
}

// draws gives the current of a load: the more loads, the less each takes, so that
// the supply carries them.
func (v *vehicle) draws() float64 {
	amps := math.Max(0.3, math.Min(7, 900*5.2/float64(v.wanted)))
	return math.Round(100*amps*(0.4+1.2*v.random.Float64())) / 100
}

func (v *vehicle) text() string {
	var b strings.Builder
	for _, l := range [][]string{v.head, {"parts:"}, v.parts, {"circuits:"}, v.circuits, {"states:"}, v.states()} {
		b.WriteString(strings.Join(l, "\n") + "\n")
	}
	return b.String()
}

func (v *vehicle) states() []string {
	out := []string{"  parked: {}", "  key-on: {IGN: run}", "  cranking: {IGN: start, engine: cranking}"}
	for i, name := range stateNames {
		line := "  " + name + ": {IGN: run, engine: running"
		for _, s := range v.on[i] {
			line += ",\n    " + s + ": on"
		}
		out = append(out, line+"}")
	}
	return out
}
