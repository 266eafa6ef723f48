package sneak

import (
	"fmt"
	"slices"
	"strings"

	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/proof"
	"example.com/loomfolio/sizing/source"
)

// link is one cause of currents that nobody meant.
type link struct {
	wire    harness.WireID    // the first against whose writing the current flows, else the last
	through harness.ElementID // the load in series that closes the way; None where a wire is the cause
	against bool
	loads   []harness.ElementID
	scenes  []scene
	way     way
	amps    float64
}

// cause gives the wire of a way that is to blame: the first with a current against its
// writing, where that says anything, else the last.
func (s *search) cause(w way) (wire harness.WireID, against bool) {
	wire = harness.None
	for _, x := range w {
		if x.wire == harness.None {
			continue
		}
		if x.against && !s.both[x.wire] {
			return x.wire, true
		}
		wire = x.wire
	}
	return wire, false
}

// noted adds a scene and a load to the link that is their cause, where it is known.
func (s *search) noted(c *scene, id harness.ElementID, w way) bool {
	wire, _ := s.cause(w)
	i := slices.IndexFunc(s.links, func(l *link) bool {
		return l.wire == wire || l.through != harness.None && slices.ContainsFunc(w, func(x step) bool { return x.element == l.through })
	})
	if i < 0 {
		return false
	}
	s.grow(s.links[i], c, id)
	return true
}

// grow adds a load and a declared state to a link. What changes show of a link that is known
// adds nothing, but for the loads of its first scene.
func (s *search) grow(l *link, c *scene, id harness.ElementID) {
	same := l.scenes[0].key() == c.key()
	if len(c.changed) > 0 && !same {
		return
	}
	if !slices.Contains(l.loads, id) {
		l.loads = append(l.loads, id)
	}
	if !slices.ContainsFunc(l.scenes, func(x scene) bool { return x.name == c.name }) {
		l.scenes = append(l.scenes, *c)
	}
}

// note begins a link.
func (s *search) note(c *scene, id harness.ElementID, w way, through harness.ElementID, amps float64) {
	l := &link{through: through, way: w, amps: amps, loads: []harness.ElementID{id}, scenes: []scene{*c}}
	l.wire, l.against = s.cause(w)
	if l.wire != harness.None {
		s.links = append(s.links, l)
	}
}

// tell makes sneaks and findings of what was noted.
func (s *search) tell() {
	for _, l := range s.links {
		s.backfeed(l)
	}
	for _, l := range s.shorts {
		s.tellShort(l)
	}
	for _, l := range s.latch {
		s.tellLatch(l)
	}
	for _, l := range s.joint {
		s.tellJoint(l)
	}
}

func (s *search) elements(list []harness.ElementID) []string {
	var out []string
	for _, id := range list {
		out = append(out, s.h.Elements[id].Name)
	}
	return out
}

func (l *link) states() []string {
	var out []string
	for _, c := range l.scenes {
		out = append(out, c.name)
	}
	return out
}

// backfeed tells a load that is fed though its own way is open.
func (s *search) backfeed(l *link) {
	w := &s.h.Wires[l.wire]
	names, states := s.elements(l.loads), l.states()
	runs, cause := "current comes through "+w.Name, w.Name
	if l.against {
		runs = "current runs backwards through " + w.Name
	}
	cure := fmt.Sprintf("put a diode into %s with its anode at %s, give the switch a second pole so that the two feeds never meet, or feed the load from another stud", w.Name, s.h.Terminals[w.From].Full)
	span := w.Span
	if l.through != harness.None {
		e := &s.h.Elements[l.through]
		span, cause = s.h.Parts[e.Part].Span, e.Name
		runs = "current comes through " + e.Name + ", in series,"
		cure = fmt.Sprintf("give %s a return of its own to ground, with a diode in each of the feeds that it shows", e.Name)
	}
	says := fmt.Sprintf("in %s %s and feeds %s, whose own feed is open: %s", source.Some(states, ""), runs, source.Some(names, ""), strings.Join(s.named(l.way), " – "))
	kind := BackFeed
	if s.runsOn(&l.scenes[0]) {
		kind, says = RunsOn, says+": the engine may run on"
	}
	s.Problems = append(s.Problems, source.Problem{
		Slug: "sneak-path", Level: s.level(&l.scenes[0]), Span: span, Summary: says, Detail: cure,
		Subjects: append(append([]string{cause}, names...), states...),
	})
	s.Sneaks = append(s.Sneaks, proof.Sneak{Kind: kind, State: states[0], Path: l.way.stops(), Loads: l.loads, Amps: l.amps, Says: says, Cure: cure, Slug: "sneak-path"})
}

// level is a warning; an advice where two buttons must be pressed at once for it, or one
// after another change, for nobody keeps them so.
func (s *search) level(c *scene) source.Level {
	pressed := 0
	for p, n := range c.position {
		if n != 0 && s.h.Parts[p].Momentary {
			pressed++
		}
	}
	if len(c.changed) > 0 && (pressed > 1 || pressed > 0 && len(c.changed) > 1) {
		return source.Advice
	}
	return source.Warning
}

// runsOn tells a scene in which the engine turns with the key off.
func (s *search) runsOn(c *scene) bool {
	key := false
	for p, n := range c.position {
		if s.h.Parts[p].Kind == harness.IgnitionSwitch {
			if key = true; n != 0 {
				return false
			}
		}
	}
	return key && c.engine == harness.EngineRunning
}

// The kinds of sneak paths.
const (
	BackFeed = "back-feed"           // a load is fed though its own way is open
	Short    = "short when switched" // battery to ground with no load between
	Held     = "relay held"          // a coil held by what it switches after its cause has gone
	Joined   = "batteries joined"    // two batteries that are kept apart otherwise
	Turned   = "turned motor"        // a motor that is turned from outside feeds back
	RunsOn   = "engine runs on"      // with the key off or the isolator open the engine goes on
)
