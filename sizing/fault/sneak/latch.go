package sneak

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/proof"
	"example.com/loomfolio/sizing/source"
)

// pulled is a scene with the coils that hold in it.
type pulled struct {
	scene
	coils []harness.ElementID
}

// latch is a coil that holds in a scene only because it held in the one before.
type latch struct {
	coils   []harness.ElementID
	after   string // the scene before
	in      scene
	way     way
	by      []harness.PartID  // what would let it go: switches on the way of what holds it
	through harness.ElementID // a load whose current holds it, None for none
	amps    float64
	share   float64 // of what the first coil is described to take
}

// remember notes which coils hold in a scene.
func (s *search) remember(c *scene, v view) {
	if len(s.coils) == 0 || len(c.changed) > 1 {
		return
	}
	s.pulled = append(s.pulled, pulled{*c, s.holding(v)})
}

func (s *search) holding(v view) []harness.ElementID {
	var out []harness.ElementID
	for _, id := range s.coils {
		if v.Energised(id) {
			out = append(out, id)
		}
	}
	return out
}

// latches lets each scene go over into those that follow it: the key turned off with the
// engine still turning, everything at rest, a switch put back. A coil that then holds, and
// would not from rest, is latched. Only what metal and loads could hold is solved.
func (s *search) latches() error {
	for _, p := range s.pulled {
		s.cold[p.key()] = p.coils
	}
	tried := map[string]bool{}
	base := map[string][]harness.ElementID{}
	slices.SortStableFunc(s.pulled, func(a, b pulled) int { return cmp.Compare(late(&a), late(&b)) })
	for i := range s.pulled {
		p := &s.pulled[i]
		if len(p.changed) == 0 {
			base[p.name] = p.coils
		} else if slices.Equal(base[p.from], p.coils) {
			continue
		}
		if len(p.coils) == 0 {
			continue
		}
		for _, next := range s.following(p) {
			if key := fmt.Sprint(next.key(), p.coils); !tried[key] {
				tried[key] = true
				if err := s.goesOver(p, &next); err != nil {
					return err
				}
			}
		}
	}
	return nil
}

// late puts the changes after the states, and cranking last of these.
func late(p *pulled) int {
	switch {
	case len(p.changed) > 0:
		return 2
	case p.engine == harness.EngineCranking:
		return 1
	}
	return 0
}

// following gives the scenes that a driver goes over to.
func (s *search) following(p *pulled) []scene {
	off := s.putBack(&p.scene, func(q *harness.Part) bool { return q.Kind == harness.IgnitionSwitch || q.Momentary })
	off.name = p.name + ", then the key off"
	if off.engine == harness.EngineCranking {
		off.engine = harness.EngineRunning
	}
	rest := s.putBack(&p.scene, func(q *harness.Part) bool { return q.Kind != harness.Isolator })
	rest.engine, rest.name = harness.EngineOff, p.name+", then everything at rest"
	out := []scene{off, rest}
	for i, n := range p.position {
		if q := &s.h.Parts[i]; n != 0 && (q.Momentary || slices.Contains(p.changed, q.ID)) {
			next := s.putBack(&p.scene, func(x *harness.Part) bool { return x == q })
			next.name = p.name + ", then " + q.Ref + " " + q.Positions[0]
			out = append(out, next)
		}
	}
	return out
}

// putBack is a scene with some parts at rest.
func (s *search) putBack(c *scene, which func(*harness.Part) bool) scene {
	out := *c
	out.position = slices.Clone(c.position)
	for i := range out.position {
		if which(&s.h.Parts[i]) {
			out.position[i] = 0
		}
	}
	return out
}

// patience is how often a coil that metal or loads could hold is solved for in vain.
func (s *search) patience() int { return s.most() / 25 }

// goesOver finds the coils that could be held in a scene by those that held before, and
// notes those that are.
func (s *search) goesOver(p *pulled, next *scene) error {
	if s.awaits(p.coils, next) == 0 {
		return nil
	}
	if s.Looked.Solved >= 2*s.most() {
		s.unheld++
		return nil
	}
	v, err := s.from(next, p.coils)
	if err != nil {
		return nil // relays without rest are told as that
	}
	cold, known := s.cold[next.key()]
	if !known {
		u, err := s.from(next, nil)
		if err != nil {
			return nil
		}
		cold = s.holding(u)
		s.cold[next.key()] = cold
	}
	for _, id := range p.coils {
		if v.Energised(id) && !slices.Contains(cold, id) {
			s.latched(p, next, v, id)
		}
	}
	return nil
}

// awaits counts the coils that could be held in a scene and are not known to be, nor were
// solved for in vain too often.
func (s *search) awaits(coils []harness.ElementID, next *scene) int {
	may := s.heldBy(coils, next)
	if len(may) == 0 {
		return 0
	}
	leads := s.leading(next)
	n := 0
	for _, id := range may {
		switch {
		case slices.Contains(leads, id) || slices.ContainsFunc(s.latch, func(l *latch) bool { return slices.Contains(l.coils, id) }):
		case s.waited[id] < s.patience():
			s.waited[id]++
			n++
		default:
			s.unheld++
		}
	}
	return n
}

// from solves a scene with some coils held from before.
func (s *search) from(c *scene, held []harness.ElementID) (view, error) {
	st, err := s.prepare(*c, held, nil)
	if err != nil {
		return nil, err
	}
	v, _, err := s.solve(st, c)
	return v, err
}

// standing is which coils hold, as a view.
type standing struct {
	nothing
	coils []harness.ElementID
}

func (v standing) Energised(id harness.ElementID) bool { return slices.Contains(v.coils, id) }

// leading gives the coils to which the writing leads in a scene that begins with all
// released, relay after relay.
func (s *search) leading(c *scene) []harness.ElementID {
	lives, deads := s.rails(c.engine)
	fed, back := &s.sets[0], &s.sets[1]
	var now []harness.ElementID
	for {
		shut := s.shutIn(c, standing{coils: now})
		s.reach(fed, lives, walk{with: s.sign, shut: shut})
		s.reach(back, deads, walk{with: !s.sign, shut: shut})
		grown := false
		for _, id := range s.coils {
			if e := &s.h.Elements[id]; s.onOwnWay(e, fed, back) && !slices.Contains(now, id) {
				now, grown = append(now, id), true
			}
		}
		if !grown {
			return now
		}
	}
}

// heldBy gives those of some coils that metal or loads join to both sides of a source while
// all of them hold.
func (s *search) heldBy(coils []harness.ElementID, c *scene) []harness.ElementID {
	lives, deads := s.rails(c.engine)
	shut := s.shutIn(c, standing{coils: coils})
	fed, back := &s.sets[0], &s.sets[1]
	s.reach(fed, lives, walk{with: s.sign, any: true, through: true, stop: deads, shut: shut})
	s.reach(back, deads, walk{with: !s.sign, any: true, through: true, stop: lives, shut: shut})
	var out []harness.ElementID
	for _, id := range coils {
		if e := &s.h.Elements[id]; fed.has(s.live(e)) && back.has(s.dead(e)) {
			out = append(out, id)
		}
	}
	return out
}

// latched notes a coil that stays, once, beside the others that the same holds.
func (s *search) latched(p *pulled, c *scene, v view, id harness.ElementID) {
	if slices.ContainsFunc(s.latch, func(l *latch) bool { return slices.Contains(l.coils, id) }) {
		return
	}
	l := &latch{coils: []harness.ElementID{id}, after: p.name, in: *c, way: s.way(v, id), through: harness.None, amps: v.Amps(id)}
	e := &s.h.Elements[id]
	l.share = math.Abs(v.Amps(id)) / s.described(e)
	s.holders(l, v, id, map[harness.ElementID]bool{})
	i := slices.IndexFunc(s.latch, func(o *latch) bool {
		return o.through == l.through && (l.through != harness.None || slices.Equal(o.by, l.by) && o.in.key() == c.key())
	})
	if i < 0 {
		s.latch = append(s.latch, l)
		return
	}
	o := s.latch[i]
	if !o.direct() && l.direct() { // what is held by another relay follows
		l.coils = append(l.coils, o.coils...)
		*o = *l
		return
	}
	o.coils = append(o.coils, id)
}

// direct tells that the load that holds lies on the coil's own way.
func (l *latch) direct() bool {
	return slices.ContainsFunc(l.way, func(x step) bool { return x.element == l.through })
}

// holders follows what holds a coil, from relay to relay, to the switches and loads on the way.
func (s *search) holders(l *latch, v view, id harness.ElementID, seen map[harness.ElementID]bool) {
	seen[id] = true
	for _, x := range s.way(v, id) {
		if x.element == harness.None || x.element == id {
			continue
		}
		e := &s.h.Elements[x.element]
		switch {
		case e.Kind == harness.Load:
			l.through = e.ID
		case e.When.Kind == harness.InPosition && !slices.Contains(l.by, e.When.Switch):
			l.by = append(l.by, e.When.Switch)
		case e.When.Kind == harness.Energised && !seen[e.When.Coil]:
			s.holders(l, v, e.When.Coil, seen)
		}
	}
}

// certain is the share of its voltage at which a coil that has pulled in holds for certain;
// between that and its drop-out it may. Common practice, no source.
const certain = 0.5

// tellLatch tells coils that stay: as it is meant, where a switch on the way of what holds
// them lets them go; as a finding where nothing does, or where a load's current holds them.
func (s *search) tellLatch(l *latch) {
	p := &s.h.Parts[s.h.Elements[l.coils[0]].Part]
	relays := source.Some(s.relays(l), "")
	x := source.Problem{
		Slug: "relay-stays-on", Level: source.Warning, Span: p.Span, Subjects: append(s.relays(l), l.in.name),
		Detail:  "route the hold through a switch that opens, such as the key or a stop button, or feed the contact from the key",
		Summary: fmt.Sprintf("in %s %s still holds: %s", l.in.name, relays, strings.Join(s.named(l.way), " – ")),
	}
	switch {
	case l.through != harness.None:
		name := s.h.Elements[l.through].Name
		verb := "holds"
		if l.share < certain {
			x.Level, verb = source.Advice, "may hold"
		}
		x.Summary = fmt.Sprintf("in %s the current that comes back through %s %s %s, with %.0f %% of what the coil is made for: %s", l.in.name, name, verb, relays, 100*l.share, strings.Join(s.named(l.way), " – "))
		x.Detail = fmt.Sprintf("put a diode into the feed of %s, so that nothing comes back through it, or a resistor beside the coil that takes what comes", name)
	case len(l.by) > 0:
		var names []string
		for _, q := range l.by {
			names = append(names, s.h.Parts[q].Ref)
		}
		x.Slug, x.Detail = "", "none: it holds itself as meant, until "+source.Some(names, "")+" opens"
	case s.told("relay-never-releases", p.Ref):
		x.Slug = "relay-never-releases"
	}
	if x.Slug == "relay-stays-on" {
		s.Problems = append(s.Problems, x)
	}
	kind := Held
	if s.runsOn(&l.in) && l.through != harness.None {
		kind = RunsOn
	}
	s.Sneaks = append(s.Sneaks, proof.Sneak{Kind: kind, State: l.in.name, Path: l.way.stops(), Loads: l.coils, Amps: math.Abs(l.amps), Says: x.Summary, Cure: x.Detail, Slug: x.Slug})
}

// relays names the parts of the coils that are held.
func (s *search) relays(l *latch) []string {
	var out []string
	for _, id := range l.coils {
		out = append(out, s.h.Parts[s.h.Elements[id].Part].Ref)
	}
	return out
}

// told tells whether a finding of a slug with a subject was made before.
func (s *search) told(slug, subject string) bool {
	return slices.ContainsFunc(s.said, func(p source.Problem) bool { return p.Slug == slug && slices.Contains(p.Subjects, subject) })
}
