package adversary

import (
	"math/rand/v2"
	"slices"
	"strings"
)

// Break is a sound sketch broken in one place, with what a careful electrician says of it.
type Break struct {
	Class   string
	Danger  string   // what would happen
	Names   []string // the broken place: parts, or wires as "K1.87>M1.+"; any of them; none: anywhere
	Slugs   []string // any of these findings is right
	Advice  bool     // an advice is enough
	Sketch  *Sketch
	Sound   *Sketch // as it was before, where no wire may get thinner for it
	Circuit string  // in which none may
}

// breaking is a break in the making.
type breaking struct {
	*Sketch
	rand *rand.Rand
	out  Break
}

// class is one way to break; it tells whether the sketch has what it breaks.
type class struct {
	name string
	do   func(*breaking) bool
}

// Classes names all ways to break, in order.
func Classes() []string {
	var out []string
	for _, c := range classes() {
		out = append(out, c.name)
	}
	return out
}

// Broken grows and breaks the harness of a seed. The class follows from the seed; of
// the harnesses that follow from it the first is taken that has what the class breaks.
func Broken(seed uint64) Break {
	list := classes()
	c := list[seed%uint64(len(list))]
	for try := uint64(1); ; try++ {
		s := Grow(seed + 10_000*try)
		x := &breaking{Sketch: s, rand: rand.New(rand.NewPCG(seed, 31))}
		if !c.do(x) {
			continue
		}
		x.out.Class, x.out.Sketch = c.name, s
		for i, n := range x.out.Names {
			x.out.Names[i] = s.writtenName(n)
		}
		return x.out
	}
}

func (s *Sketch) writtenName(name string) string {
	ends := strings.Split(name, ">")
	for i := range ends {
		ends[i] = s.Written(ends[i])
	}
	return strings.Join(ends, ">")
}

// say notes what is right to say, and is always true.
func (x *breaking) say(danger, slugs string, names ...string) bool {
	x.out.Danger, x.out.Slugs, x.out.Names = danger, strings.Fields(slugs), names
	return true
}

// device picks one that passes; nil where there is none.
func (x *breaking) device(passes func(*Device) bool) *Device {
	var list []*Device
	for _, d := range x.Devices {
		if passes(d) {
			list = append(list, d)
		}
	}
	if len(list) == 0 {
		return nil
	}
	return list[x.rand.IntN(len(list))]
}

func (x *breaking) of(kinds ...string) *Device {
	return x.device(func(d *Device) bool { return slices.Contains(kinds, d.Kind) })
}

// loaded picks a device whose load has one of the part kinds and draws so much.
func (x *breaking) loaded(least float64, kinds ...string) *Device {
	return x.device(func(d *Device) bool {
		p := x.Part(d.Load)
		return p != nil && d.Amps >= least && slices.Contains(kinds, p.Kind()) && len(x.Stops(d.Load)) == 1
	})
}

// spot is the first stop of a name.
func (x *breaking) spot(name string) (Spot, bool) {
	list := x.Stops(name)
	if len(list) == 0 {
		return Spot{}, false
	}
	return list[0], true
}

func (p Spot) leg() Leg { return p.Circuit.Legs[p.Leg] }

// put replaces so many stops from the spot on.
func (p Spot) put(count int, stops ...string) {
	l := p.leg()
	out := append(slices.Clone(l[:p.Row]), leg(stops...)...)
	p.Circuit.Legs[p.Leg] = append(out, l[p.Row+count:]...)
}

// arriving gives the first wire that arrives at a part in the legs, as the stop to say
// something of, and its name.
func (x *breaking) arriving(part string) (*Stop, string) {
	for _, p := range x.Stops(part) {
		if p.Row > 0 && p.leg()[p.Row-1].Part() != part {
			return p.Stop(), p.wire(x.Sketch)
		}
	}
	return nil, ""
}

// leaving gives the first wire that leaves a part.
func (x *breaking) leaving(part string) (*Stop, string) {
	for _, p := range x.Stops(part) {
		if l := p.leg(); p.Row+1 < len(l) && l[p.Row+1].Part() != part {
			next := Spot{p.Circuit, p.Leg, p.Row + 1}
			return next.Stop(), next.wire(x.Sketch)
		}
	}
	return nil, ""
}

// wire names the wire that arrives at the spot by its ends.
func (p Spot) wire(s *Sketch) string {
	l := p.leg()
	return s.exit(l[p.Row-1].To) + ">" + s.entry(l[p.Row].To)
}

func (s *Sketch) exit(stop string) string  { return s.side(stop, 1) }
func (s *Sketch) entry(stop string) string { return s.side(stop, 0) }

// side gives a bare part's terminal on one side: where current arrives, or leaves.
func (s *Sketch) side(stop string, n int) string {
	p := s.Part(stop)
	switch {
	case p == nil && !strings.Contains(stop, "."):
		return stop
	case p == nil:
		if q := s.Part(Stop{To: stop}.Part()); q != nil && q.Kind() == "connector" {
			return stop + [...]string{".in", ".out"}[n]
		}
		return stop
	}
	if s.Positive && s.FromGround && p.Kind() != "diode" && !hasPoles(p) {
		n = 1 - n
	}
	switch p.Kind() {
	case "splice", "ground", "bus":
		return stop
	case "diode":
		return stop + [...]string{".a", ".k"}[n]
	case "fuse", "breaker", "switch", "isolator", "resistor", "capacitor":
		return stop + [...]string{".1", ".2"}[n]
	}
	return stop + [...]string{".+", ".-"}[n]
}

// hasPoles tells whether a part's terminals are called after its poles.
func hasPoles(p *Entry) bool {
	return !slices.Contains([]string{"fuse", "breaker", "switch", "isolator", "resistor", "capacitor"}, p.Kind())
}

// remove takes a part out of the sketch.
func (s *Sketch) remove(name string) {
	s.Parts = slices.DeleteFunc(s.Parts, func(p *Entry) bool { return p.Name == name })
}

// add puts a part beside another.
func (s *Sketch) add(name, kind, at string, pairs ...string) *Entry {
	g := grower{Sketch: s}
	e := g.part(name, kind, at, pairs...)
	if e.Get("name") == "" {
		e.Set("name", "Part "+name)
	}
	return e
}

func (s *Sketch) more(name, class string, legs ...Leg) {
	g := grower{Sketch: s}
	g.circuit(name, class, legs...)
}

// small tells a fuse whose body is made in small ratings too: no maxi and no bolted one.
func (s *Sketch) small(fuse string) bool {
	p := s.Part(fuse)
	return p == nil || p.Get("body") != "maxi" && p.Get("body") != "bolt"
}

// rate gives a fuse, in-line or a panel's position, a rating.
func (s *Sketch) rate(fuse, rating string) bool {
	if p := s.Part(fuse); p != nil {
		p.Set("rating", rating)
		return true
	}
	panel, position, _ := strings.Cut(fuse, ".")
	p := s.Part(panel)
	if p == nil {
		return false
	}
	p.Set("fuses", "{"+position+": "+rating+"}")
	return true
}
